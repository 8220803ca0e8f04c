package browser

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// faulty is a copy of the demo edition, with what is published as a parcel of a name cut short, spoilt or taken out.
func faulty(t *testing.T, parcel, fault string) (folder, file string) {
	t.Helper()
	folder = t.TempDir()
	err := os.CopyFS(folder, os.DirFS(published(t)))
	found, globbed := filepath.Glob(filepath.Join(folder, "assets", parcel+".*.js"))
	if err := errors.Join(err, globbed); err != nil || len(found) == 0 {
		t.Fatalf("of parcels %s there are %d: %v", parcel, len(found), err)
	}
	file = found[0]
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	begin, end := strings.LastIndex(string(text[:len(text)-8]), `"`)+1, len(text)-200
	switch fault {
	case "missing":
		err = os.Remove(file)
	case "spoilt": // a character of it is another
		text[(begin+end)/2]++
		err = os.WriteFile(file, []byte(strings.ToValidUTF8(string(text), "A")), 0o644)
	case "no text": // what is there is no packed parcel
		err = os.WriteFile(file, []byte(string(text[:begin])+"AAAA"+string(text[len(text)-4:])), 0o644)
	case "cut": // the script ends before it hands anything over
		err = os.WriteFile(file, text[:len(text)/2], 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
	return folder, "assets/" + filepath.Base(file)
}

// Why something cannot be done is told as it is: a file of this copy is missing or damaged, and which, or the browser lacks something. None blames another.
func TestReasonIsTold(t *testing.T) {
	t.Parallel()
	const damaged, missing = "of this copy is damaged", "of this copy is missing"
	sum := func(b *tab) string {
		b.until(`document.querySelector(".sum-tools, .sum-field input, .sum-failed")`)
		ask[bool](b, `(() => { const f = document.querySelector(".sum-field input"); if (f) { f.value = "7"; f.dispatchEvent(new Event("input", { bubbles: true })); } return true; })()`)
		b.until(`document.querySelector(".sum-failed")`)
		return b.text(".sum-failed")
	}
	mayItGoIn := func(b *tab) string {
		b.press(`.admit-materials label[for], .admit-materials li label`)
		b.until(`document.querySelector(".admit-failed")`)
		return b.text(".admit-failed")
	}
	search := func(b *tab) string {
		b.keys("#find-words", "spots")
		b.until(`/works|not work/.test(document.querySelector(".find-say")?.textContent ?? "")`)
		return b.text(".find-say")
	}
	seen := func(b *tab) string {
		ask[bool](b, `(location.hash = "seen=white-spots-or-rings", true)`)
		b.until(`document.querySelector(".seen-failed")`)
		return b.text(".seen-failed")
	}
	for _, c := range []struct {
		parcel, fault, page string
		ask                 func(*tab) string
		want                string
	}{
		{"answers-wasm", "missing", "calculators/dilution.html", sum, missing},
		{"answers-wasm", "spoilt", "calculators/dilution.html", sum, damaged},
		{"answers-wasm", "no text", "may-it-go-in.html", mayItGoIn, damaged},
		{"admit-table", "cut", "may-it-go-in.html", mayItGoIn, damaged},
		{"admit-table", "spoilt", "may-it-go-in.html", mayItGoIn, damaged},
		{"causes-model", "spoilt", "what-is-seen.html", seen, damaged},
		{"causes-model", "missing", "what-is-seen.html", seen, missing},
		{"search-wasm", "spoilt", "index.html", search, damaged},
		{"search-segment", "no text", "index.html", search, damaged},
		{"search-segment", "missing", "index.html", search, missing},
	} {
		t.Run(c.parcel+" "+c.fault, func(t *testing.T) {
			folder, file := faulty(t, c.parcel, c.fault)
			b := open(t, "file://"+folder+"/", c.page)
			b.forgive = func(string) bool { return true } // the browser complains of it as well
			if said := c.ask(b); !strings.Contains(said, c.want) || !strings.Contains(said, file) || strings.Contains(said, "browser") {
				t.Errorf("it says %q; %s and %s are to be in it", said, c.want, file)
			}
		})
	}
	t.Run("a browser that lacks something", func(t *testing.T) {
		b := open(t, "file://"+published(t)+"/", "may-it-go-in.html", beforeScripts("delete window.WebAssembly"))
		b.forgive = func(string) bool { return true }
		if said := mayItGoIn(b); !strings.Contains(said, "This browser has no WebAssembly") || strings.Contains(said, "this copy") {
			t.Errorf("it says %q", said)
		}
	})
}
