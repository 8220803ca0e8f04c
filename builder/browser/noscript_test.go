package browser

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Without scripts the pages and trees still read, the calculators show the published values, and the index leads everywhere.
// (The test's own questions run in the page although its scripts do not.)
func TestWithoutScripts(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "symptoms/spotty-parts.html", withoutScripts())
		steps := ask[int](b, `[...document.querySelectorAll(".walk > section h2")].filter(h => h.checkVisibility()).length`)
		if steps < 8 {
			t.Errorf("only %d steps are visible without scripts", steps)
		}
		lost := ask[[]string](b, `[...document.querySelectorAll(".answers a")].filter(a => a.getAttribute("href").startsWith("#") && !document.getElementById(decodeURIComponent(a.hash.slice(1)))).map(a => a.href)`)
		if len(lost) > 0 {
			t.Errorf("answers that lead nowhere: %v", lost)
		}
		b.turn("tanks/wash-1.html", withoutScripts())
		text := b.text("main")
		for _, want := range []string{"4.8 L", "115.2 L", "72 min"} { // 120 L at 4 % v/v; from 12 to 62 °C with 6 kW
			if !strings.Contains(text, want) {
				t.Errorf("the tank's page does not show %q without scripts", want)
			}
		}
		b.press(`.find-without a`)
		b.until(`document.querySelector("h1").textContent.includes("A–Z")`)
		if !strings.Contains(b.text("main"), "white spots") {
			t.Error("the index of all words lacks “white spots”")
		}
	})
}

// Every page of the edition names only files that are there.
func TestEveryLinkIsRelativeAndNamesAFile(t *testing.T) {
	t.Parallel()
	folder := published(t)
	base := "file://" + filepath.ToSlash(folder) + "/"
	b := open(t, base, "index.html", withoutScripts())
	seen := map[string]bool{"index.html": true}
	queue := []string{"index.html"}
	for len(queue) > 0 {
		page := queue[0]
		queue = queue[1:]
		html, err := os.ReadFile(filepath.Join(folder, filepath.FromSlash(page)))
		if err != nil {
			t.Fatal(err)
		}
		links := ask[[]struct {
			Raw, Address, Hash string
			Outside            bool
		}](b, `(() => {
			const doc = new DOMParser().parseFromString(`+quote(string(html))+`, "text/html");
			const here = `+quote(base+page)+`;
			const list = [...doc.querySelectorAll("[href]")].map(e => e.getAttribute("href")).concat([...doc.querySelectorAll("[src]")].map(e => e.getAttribute("src")));
			return list.map(raw => { const u = new URL(raw, here); return {Raw: raw, Address: u.href.replace(u.hash, ""), Hash: decodeURIComponent(u.hash.slice(1)), Outside: /^(https?|mailto|tel):/.test(raw)}; });
		})()`)
		for _, l := range links {
			if l.Outside {
				continue
			}
			target, inside := strings.CutPrefix(l.Address, base)
			if !inside || strings.HasPrefix(l.Raw, "/") || strings.Contains(l.Raw, ":") {
				t.Errorf("%s: the link %s leaves the edition or is not relative", page, l.Raw)
				continue
			}
			if seen[target] {
				continue
			}
			seen[target] = true
			if info, err := os.Stat(filepath.Join(folder, filepath.FromSlash(target))); err != nil || info.IsDir() {
				t.Errorf("%s: the link %s names no file", page, l.Raw)
				continue
			}
			if strings.HasSuffix(target, ".html") {
				queue = append(queue, target)
			}
		}
	}
	if len(seen) < 150 {
		t.Errorf("from the home page only %d files can be reached", len(seen))
	}
}
