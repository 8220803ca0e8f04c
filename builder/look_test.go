package builder

import (
	"path/filepath"
	"strings"
	"testing"
)

// A shop chooses theme, letters, accent and mark in its shop file; each shows in the edition.
func TestShopChoosesItsLook(t *testing.T) {
	t.Parallel()
	const drawing = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><circle r="3"/></svg>`
	style := func(choice string) (css, home string) {
		to := filepath.Join(t.TempDir(), "edition")
		src := folder(t, map[string]string{"shop.yaml": smallShop + choice, "procedures/fill.md": head + "## Fill\n\nWords.\n", "pictures/own.svg": drawing})
		if r, err := publish(t, src, to, day); err != nil {
			t.Fatal(err, r.Findings)
		}
		all := files(t, to)
		for name, data := range all {
			if strings.HasSuffix(name, ".css") {
				css += data
			}
		}
		return css, all["index.html"]
	}
	// A line of each theme's own styles; the comments that say which it is are left out of an edition.
	const desk, tankSide = "--target: 1.9rem", ".units button, .walk-nav button { font-weight: 700; }"
	usual, home := style("")
	if strings.Contains(usual, desk) || !strings.Contains(usual, tankSide) || strings.Contains(home, "assets/own.") {
		t.Error("a shop that chooses nothing has not the theme for the tank")
	}
	own, home := style("theme: desk\ntype: sans\naccent: \"#0b5c7a\"\nmark: pictures/own.svg\n")
	for _, want := range []string{desk, "--accent: #0b5c7a", "--type: system-ui"} {
		if !strings.Contains(own, want) {
			t.Errorf("the style lacks %q", want)
		}
	}
	if strings.Contains(own, tankSide) {
		t.Error("both themes are in one style sheet")
	}
	if !strings.Contains(home, `rel="icon" href="assets/own.`) {
		t.Error("the page does not carry the shop's mark")
	}
	faint, _ := style("accent: \"#fff3c0\"\n")
	if strings.Contains(faint, "--accent: #fff3c0; }\n@media") {
		t.Error("an accent that nobody can see is used as it is")
	}
}
