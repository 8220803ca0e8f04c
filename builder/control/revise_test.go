package control

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tankside/builder/manual"
)

const (
	shop    = "name: Shop\nnote: Invented.\nlanguage: en\nunits: SI\ntranslations: [es]\nwater: {temperature: 12 °C}\nroles: [trainer, \"a, b\"]\n"
	english = "---\ntitle: Wax\nsummary: S.\nstation: wash\nrevision: Z\napproved: 2026-09-14, M. Weber, trainer, 0123456789abcdef\nreview-by: 2027-09-14\nsources: [from memory]\nnature: wax\n---\nWarm it.\n"
	spanish = "---\ntitle: Cera\nsummary: S.\ntranslates: Z\napproved: 2026-09-15, M. Weber, trainer, 0123456789abcdef\n---\nCalentarla.\n"
)

var day = time.Date(2026, 10, 1, 9, 0, 0, 0, time.UTC)

func folder(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		file := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o640); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func read(t *testing.T, dir string) *manual.Manual {
	t.Helper()
	m, _, err := manual.Read(context.Background(), os.DirFS(dir))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func write(t *testing.T, dir string, changes []Change, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	if err := Write(root, changes); err != nil {
		t.Fatal(err)
	}
}

func never(*manual.Article) bool { return false }

// A translation loses its approval with its original's, and is approved again only when somebody has compared the two.
func TestTranslationsFollow(t *testing.T) {
	dir := folder(t, map[string]string{"shop.yaml": shop, "soils/wax.md": english, "soils/wax.es.md": spanish})
	by := manual.Approval{Day: day.Truncate(24 * time.Hour), Name: "M. Weber", Role: "trainer"}
	m := read(t, dir)
	changes, err := Revise(m, []*manual.Article{m.At("soils/wax.md")}, "")
	write(t, dir, changes, err)
	m = read(t, dir)
	wax, cera := m.At("soils/wax.md"), m.At("soils/wax.es.md")
	if wax.Head.Revision != "AA" || wax.ApprovalState() != manual.NotApproved || cera.Head.Revision != "Z" || cera.ApprovalState() != manual.NotApproved {
		t.Fatalf("%s %s, %s %s", wax.Head.Revision, wax.ApprovalState(), cera.Head.Revision, cera.ApprovalState())
	}
	if _, err := Approve(m, []*manual.Article{cera}, by, day, never); err == nil || !strings.Contains(err.Error(), "translates revision Z, and the original has revision AA") {
		t.Errorf("an older translation is approved: %v", err)
	}
	changes, err = Revise(m, []*manual.Article{cera}, "")
	write(t, dir, changes, err)
	m = read(t, dir)
	changes, err = Approve(m, []*manual.Article{m.At("soils/wax.md"), m.At("soils/wax.es.md")}, by, day, never)
	write(t, dir, changes, err)
	m = read(t, dir)
	for _, path := range []string{"soils/wax.md", "soils/wax.es.md"} {
		if a := m.At(path); a.Head.Revision != "AA" || a.ApprovalState() != manual.Approved || a.Head.Approval.Name != "M. Weber" {
			t.Errorf("%s: %s %+v %s", path, a.Head.Revision, a.Head.Approval, a.ApprovalState())
		}
	}
	if info, err := os.Stat(filepath.Join(dir, "soils/wax.md")); err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("its permissions are %v (%v)", info.Mode(), err)
	}
}

// An approval of one text is none of any other: not of one with a number changed, a fact, a key, the revision, the day, the name, the role, or of
// another article.
func TestApprovalHoldsForOneText(t *testing.T) {
	dir := folder(t, map[string]string{"shop.yaml": shop, "soils/wax.md": strings.Replace(english, "2026-09-14, M. Weber, trainer, 0123456789abcdef", "not yet", 1)})
	m := read(t, dir)
	changes, err := Approve(m, []*manual.Article{m.At("soils/wax.md")}, manual.Approval{Day: day.Truncate(24 * time.Hour), Name: "M. Weber", Role: "trainer"}, day, never)
	write(t, dir, changes, err)
	data, err := os.ReadFile(filepath.Join(dir, "soils/wax.md"))
	if err != nil {
		t.Fatal(err)
	}
	good := string(data)
	state := func(text string) manual.ApprovalState {
		return read(t, folder(t, map[string]string{"shop.yaml": shop, "soils/wax.md": text})).At("soils/wax.md").ApprovalState()
	}
	for _, c := range [][2]string{
		{"Warm it.", "Warm  it."}, {"Warm it.", "Boil it."}, {"Warm it.", "Warm it.\n\nMore."}, {"Warm it.", ""}, {"nature: wax", "nature: oil"}, {"nature: wax\n", "nature: wax\nmay-contain: [lead]\n"},
		{"title: Wax", "title: wax"}, {"revision: Z", "revision: Y"}, {"2026-10-01", "2026-10-02"}, {"M. Weber", "N. Weber"}, {", trainer", ", operator"}, {"station: wash", "station: rinse"},
		{"[from memory]", "[from memory, or not]"}, {"Warm it.", "Warm it.  \nNow."},
	} {
		if strings.Count(good, c[0]) != 1 {
			t.Fatalf("%q is there %d times", c[0], strings.Count(good, c[0]))
		}
		if got := state(strings.Replace(good, c[0], c[1], 1)); got != manual.ApprovalBroken {
			t.Errorf("%q for %q: %s", c[1], c[0], got)
		}
	}
	for _, same := range []string{
		good, "\uFEFF" + strings.ReplaceAll(good, "\n", "\r\n"), strings.Replace(good, "station", "# a\nstation", 1), strings.Replace(good, "2027-09-14", "2028-09-14", 1), strings.Replace(good, "title: Wax", "title: \"Wax\"", 1),
		strings.Replace(good, "nature: wax", "nature: wax\naccept: [{rule: orphan, reason: Seen.}]", 1), good + "\n\n",
	} {
		if got := state(same); got != manual.Approved {
			t.Errorf("%q: %s", same, got)
		}
	}
}

// A file that was saved while the manual was read is left alone, and so are the others.
func TestWriteLeavesWhatHasChanged(t *testing.T) {
	dir := folder(t, map[string]string{"shop.yaml": shop, "soils/wax.md": english, "soils/oil.md": strings.Replace(english, "Wax", "Oil", 1)})
	m := read(t, dir)
	changes, err := Revise(m, []*manual.Article{m.At("soils/oil.md"), m.At("soils/wax.md")}, "")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "soils/wax.md"), []byte(english+"More.\n"), 0o640); err != nil {
		t.Fatal(err)
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	if err := Write(root, changes); err == nil || !strings.Contains(err.Error(), "saved while the manual was read") {
		t.Errorf("got %v", err)
	}
	if got := read(t, dir).At("soils/oil.md").Head.Revision; got != "Z" {
		t.Errorf("the other has revision %s", got)
	}
}

func TestUnusableApprovals(t *testing.T) {
	m := read(t, folder(t, map[string]string{"shop.yaml": shop, "soils/wax.md": english}))
	for want, by := range map[string]manual.Approval{
		"as a name":     {Name: "2026", Role: "trainer"},
		"cannot stand":  {Name: "A # b", Role: "trainer"},
		"no role":       {Name: "A", Role: "king"},
		"has a comma":   {Name: "A", Role: "a, b"},
		"still to come": {Name: "A", Role: "trainer", Day: day.AddDate(5, 0, 0)},
	} {
		if _, err := Approve(m, nil, by, day, never); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("want %q, got %v", want, err)
		}
	}
}
