package builder

import (
	"html"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var hrefForm = regexp.MustCompile(`href="([^"#]+)(?:#[^"]*)?"`)

// Whatever article is a draft: the rest is published, no link of it ends nowhere, and of the draft's text nothing is to be read.
func TestWhateverIsADraftNoLinkIsDead(t *testing.T) {
	for _, file := range []string{"chemistries/alkaline.md", "materials/steel.md", "lessons/sound.md", "procedures/fill.md", "soils/chips.md", "parts/shaft.md"} {
		t.Run(file, func(t *testing.T) {
			t.Parallel()
			d := newDesk(t, 1, plainManual(t))
			text := d.read(file)
			d.write(file, strings.Replace(text, "station: ", "draft: yes\nstation: ", 1)+"\nNobody reads this sentence yet.\n")
			to := filepath.Join(t.TempDir(), "edition")
			if r, err := publish(t, d.dir, to, day); err != nil {
				t.Fatal(err, r.Findings)
			}
			all := files(t, to)
			pages := 0
			for name, text := range all {
				if path.Ext(name) != ".html" {
					continue
				}
				pages++
				if strings.Contains(text, "Nobody reads this sentence yet") {
					t.Errorf("%s has the draft's text", name)
				}
				for _, m := range hrefForm.FindAllStringSubmatch(text, -1) {
					href := html.UnescapeString(m[1])
					if strings.Contains(href, ":") {
						continue
					}
					if _, there := all[path.Join(path.Dir(name), href)]; !there {
						t.Errorf("%s links to %s, which is not there", name, href)
					}
				}
			}
			if pages < 50 {
				t.Errorf("%d pages", pages)
			}
		})
	}
}
