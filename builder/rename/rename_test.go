package rename_test

import (
	"bytes"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"tankside/builder/decide/rules"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/rename"
)

// today is the day of the demo manual's tests.
var today = time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)

// Whatever of the demo manual is renamed and renamed back has the bytes that it had, and the renamed manual has no findings, as it had none before.
func TestThereAndBack(t *testing.T) {
	t.Parallel()
	files := demo(t)
	m := read(t, files)
	type names struct{ old, to, now, back string }
	var all []names
	taken := map[manual.Kind]bool{}
	for i, a := range m.Articles {
		if taken[a.Kind] && i%97 != 0 {
			continue
		}
		taken[a.Kind] = true
		all = append(all, names{a.Path, "called-otherwise", path.Dir(a.Path) + "/called-otherwise.md", a.Name})
		all = append(all, names{a.Path, a.Kind.Folder() + "/deep/" + a.Name, a.Kind.Folder() + "/deep/" + a.Name + ".md", a.Path})
		for n, s := range a.Sections {
			if s.Level > 0 && n%17 == 1 {
				all = append(all, names{a.Path + "#" + s.Anchor, "Other words, quite new", a.Path + "#other-words-quite-new", heading(a, s)})
			}
		}
	}
	for _, tank := range m.Shop.Tanks {
		all = append(all, names{tank.ID, "called-otherwise", "called-otherwise", tank.ID})
	}
	if len(all) < 20 {
		t.Fatalf("only %d things to rename", len(all))
	}
	for i, n := range all {
		there := apply(t, files, n.old, n.to)
		if maps.EqualFunc(files, there, same) {
			t.Errorf("%s → %s changes nothing", n.old, n.to)
		}
		if i%24 == 0 {
			if found := proof(t, there); len(found) > 0 {
				t.Errorf("%s → %s: %v", n.old, n.to, found)
			}
		}
		again := apply(t, there, n.now, n.back)
		differ(t, n.old+" there and back", files, again)
	}
}

// heading is the line of a heading as it is written, without its number signs.
func heading(a *manual.Article, s manual.Section) string {
	lines := strings.Split(string(a.Body), "\n")
	return strings.TrimSpace(strings.Trim(lines[s.At.Line-a.Start], "# "))
}

// shop is a small manual with everything that can name an article, a heading or a tank, in every way of writing it.
func shop() fstest.MapFS {
	head := func(more string) string {
		return "---\ntitle: T\nsummary: S.\nstation: wash\nrevision: A\napproved: 2026-09-14, operator\nreview-by: 2027-09-14\nsources: [common practice, no source]\n" + more + "---\n"
	}
	text := map[string]string{
		"shop.yaml":     "name: Shop # wax\r\ntanks:\r\n  - id: 'wash-1' # wash-1\r\n    name: Wash 1\r\n    volume: 10 L\r\n    chemistry: soap\r\nroles: [operator]\r\n",
		"glossary.yaml": "# wax\nwax: {means: wax, article: \"soils/wax.md\"} # wax\nwash: {means: wax, article: soils/wax.md#melt-it}\n",
		"soils/wax.md": "\uFEFF" + strings.ReplaceAll(head("nature: wax # wax.md\nremoved-by: [{chemistry: soap}]\nsee-also: [other.md, wax, 'wax.md#melt-it', ../soils/wax.md]\n")+
			"Wax.\n\n## Melt it ##\n\nSee [here](#melt-it), [wax](wax.md#melt-it \"wax.md\"), [o](./other.md), ![p](../pictures/p.svg).\n\nTwice\n-----\n\n[r]\n\n[r]: <wax.md> 'wax.md'\n", "\n", "\r\n"),
		"soils/wax.es.md": "---\ntitle: T\nsummary: S.\ntranslates: A\napproved: 2026-09-14, operator\n---\n[cera](wax.md#melt-it) [otra](other.md) [suya](#fundir) [es](wax.es.md#fundir)\n\n## Fundir\n",
		"soils/other.md": head("nature: wax\nremoved-by: [soap]\n") + "`[wax](wax.md)` and [`a ](wax.md)`](wax.md)[b](<./wax.md#melt-it>)\n\n    [wax](wax.md)\n\n> - *[c](../soils/wax.md)*, [d\n>   e](wax.md),\n>   [![p](../pictures/p.svg)](wax.md)\n\n" +
			"\\[x](wax.md) [y](wax.md) [z](nowhere.md) [w](https://example.org/wax.md)\n\n```calculator heat-up\ntank: \"wash-1\" # wash-1\n```\n",
		"chemistries/soap.md":  head("removes:\n  - \"wax\" # wax\n  - 'other'\n") + "Soap for [wax](../soils/wax.md) in wash-1.\n",
		"materials/steel.md":   head("made-of: [carbon-steel]\n") + "x\n",
		"parts/bolt.md":        head("material: steel\nsoil: [wax, other]\nsteps:\n  - tank: wash-1\n    chemistry: soap\nsee-also: [soils/wax.md]\n") + "wash-1 and [wax](../soils/wax.md)\n",
		"procedures/wax-it.md": head("tank: [wash-1]\nchemistry: soap\n") + "x\n",
		"pictures/p.svg":       `<svg xmlns="http://www.w3.org/2000/svg"/>`,
	}
	files := fstest.MapFS{}
	for name, data := range text {
		files[name] = &fstest.MapFile{Data: []byte(data)}
	}
	return files
}

// Only names change: what looks like one in remarks, code, escapes and running text stays, and so do line ends and the byte order mark.
func TestWhatIsNoNameStays(t *testing.T) {
	t.Parallel()
	before := shop()
	after := apply(t, before, "soils/wax.md", "hard-wax")
	for file, pieces := range map[string][]string{
		"glossary.yaml":        {"# wax\nwax: {means: wax, article: \"soils/hard-wax.md\"} # wax\nwash: {means: wax, article: soils/hard-wax.md#melt-it}\n"},
		"soils/hard-wax.md":    {"\uFEFF---\r\n", "nature: wax # wax.md\r\n", "see-also: [other.md, hard-wax, 'hard-wax.md#melt-it', ../soils/hard-wax.md]", "## Melt it ##\r\n", "[here](#melt-it), [wax](hard-wax.md#melt-it \"wax.md\"), [o](./other.md)", "[r]: <hard-wax.md> 'wax.md'\r\n"},
		"soils/hard-wax.es.md": {"[cera](hard-wax.md#melt-it) [otra](other.md) [suya](#fundir) [es](hard-wax.es.md#fundir)"},
		"soils/other.md": {"`[wax](wax.md)` and [`a ](wax.md)`](hard-wax.md)[b](<./hard-wax.md#melt-it>)\n\n    [wax](wax.md)\n\n> - *[c](../soils/hard-wax.md)*, [d\n>   e](hard-wax.md),\n>   [![p](../pictures/p.svg)](hard-wax.md)",
			"\\[x](wax.md) [y](hard-wax.md) [z](nowhere.md) [w](https://example.org/wax.md)"},
		"chemistries/soap.md": {"  - \"hard-wax\" # wax\n", "[wax](../soils/hard-wax.md) in wash-1"},
		"parts/bolt.md":       {"soil: [hard-wax, other]", "[wax](../soils/hard-wax.md)"},
		"moved.yaml":          {"\nsoils/wax.md: soils/hard-wax.md\n"},
		"shop.yaml":           {string(before["shop.yaml"].Data)},
	} {
		holds(t, after, file, pieces)
	}
	if after["soils/wax.md"] != nil || after["soils/wax.es.md"] != nil {
		t.Error("the old files are still there")
	}
	differ(t, "there and back", before, apply(t, after, "hard-wax", "wax"))

	before["soils/other.md"] = &fstest.MapFile{Data: bytes.Replace(before["soils/other.md"].Data, []byte("[y](wax.md)"), []byte("[y](wax%2Emd)"), 1)}
	holds(t, apply(t, before, "wax", "hard-wax"), "soils/other.md", []string{"[y](hard-wax.md)"}) // which way back it is written plainly

	deep := apply(t, before, "wax", "soils/waxes/hard/wax.md")
	holds(t, deep, "soils/waxes/hard/wax.md", []string{"see-also: [../../other.md, wax, 'wax.md#melt-it', wax.md]", "[here](#melt-it)", "[o](../../other.md)", "![p](../../../pictures/p.svg)", "[r]: <wax.md> 'wax.md'"})
	holds(t, deep, "chemistries/soap.md", []string{"  - \"wax\" # wax\n", "[wax](../soils/waxes/hard/wax.md)"})
	holds(t, deep, "soils/waxes/hard/wax.es.md", []string{"[otra](../../other.md)"})
}

// A tank gets its id in the shop file, in headers and in calculators, and nowhere else.
func TestTank(t *testing.T) {
	t.Parallel()
	before := shop()
	after := apply(t, before, "wash-1", "big-wash")
	holds(t, after, "shop.yaml", []string{"  - id: 'big-wash' # wash-1\r\n    name: Wash 1\r\n"})
	holds(t, after, "soils/other.md", []string{"tank: \"big-wash\" # wash-1\n"})
	holds(t, after, "parts/bolt.md", []string{"  - tank: big-wash\n", "wash-1 and [wax]"})
	holds(t, after, "procedures/wax-it.md", []string{"tank: [big-wash]\n"})
	holds(t, after, "moved.yaml", []string{"\ntanks/wash-1: tanks/big-wash\n"})
	differ(t, "there and back", before, apply(t, after, "big-wash", "wash-1"))
}

// A heading gets other words, and its links another address: those of answers, translations and related articles too.
func TestHeading(t *testing.T) {
	t.Parallel()
	before := shop()
	after := apply(t, before, "soils/wax.md#melt-it", "Melt *it* first")
	holds(t, after, "soils/wax.md", []string{"## Melt *it* first ##\r\n", "[here](#melt-it-first), [wax](wax.md#melt-it-first \"wax.md\")", "'wax.md#melt-it-first'"})
	holds(t, after, "soils/wax.es.md", []string{"[cera](wax.md#melt-it-first)", "[suya](#fundir)"})
	holds(t, after, "soils/other.md", []string{"[b](<./wax.md#melt-it-first>)"})
	holds(t, after, "moved.yaml", []string{"\nsoils/wax.md#melt-it: soils/wax.md#melt-it-first\n"})
	differ(t, "there and back", before, apply(t, after, "soils/wax.md#melt-it-first", "Melt it"))
	holds(t, apply(t, before, "soils/wax.md#twice", "Once"), "soils/wax.md", []string{"Once\r\n-----\r\n"})
	same := apply(t, before, "soils/wax.md#melt-it", "Melt: it!")
	if same["moved.yaml"] != nil {
		t.Error("an address that stays leads on to itself")
	}
}

// Old addresses follow what is renamed again; remarks and order of the file stay.
func TestOldAddressesFollow(t *testing.T) {
	t.Parallel()
	files := shop()
	files["moved.yaml"] = &fstest.MapFile{Data: []byte("# mine\r\nsoils/paraffin.md: soils/wax.md # since 2024\r\n'soils/paraffin.md#melt': 'soils/wax.md#melt-it'")}
	after := apply(t, files, "wax", "hard-wax")
	want := "# mine\r\nsoils/paraffin.md: soils/hard-wax.md # since 2024\r\n'soils/paraffin.md#melt': 'soils/hard-wax.md#melt-it'\r\nsoils/wax.md: soils/hard-wax.md"
	if got := string(after["moved.yaml"].Data); got != want {
		t.Errorf("moved.yaml is\n%s\nwant\n%s", got, want)
	}
	differ(t, "there and back", files, apply(t, after, "hard-wax", "wax"))
	third := apply(t, after, "hard-wax", "very-hard-wax")
	holds(t, third, "moved.yaml", []string{"soils/paraffin.md: soils/very-hard-wax.md # since 2024", "soils/wax.md: soils/very-hard-wax.md\r\nsoils/hard-wax.md: soils/very-hard-wax.md"})
}

// What is unsafe is refused with its place and a remedy.
func TestRefusals(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ old, to, file, text, says string }{
		{"wax", "other", "", "", "There is a soil “other” already"},
		{"wax", "soils/other/Other.md", "", "", "cannot be called"},
		{"wax", "OTHER", "", "", "cannot be called"},
		{"wax", "parts/wax.md", "", "", "The folder soils says that this is a soil"},
		{"wax", "../wax", "", "", "cannot be called"},
		{"wax", "wax", "", "", "It is called that already"},
		{"wax", "index", "", "", "cannot be called"},
		{"wax", "wax.de", "", "", "cannot be called"},
		{"soils/wax.es.md", "cera", "", "", "Rename soils/wax.md"},
		{"waxx", "y", "", "", "Did you mean wax?"},
		{"acid-one", "silicate", "chemistries/acid-one.md", "never-with: [acid-one]", "a word of the format"},
		{"soap", "ethanol", "vocabulary.yaml", "constituents:\n  - {word: ethanol, as: amine, means: x}\n", "vocabulary.yaml:2:"},
		{"wash-1", "wash 1", "", "", "cannot have the id"},
		{"wash-1", "two", "shop.yaml", "name: S\ntanks:\n  - {id: wash-1, name: W, volume: 1 L}\n  - {id: Two, name: V, volume: 1 L}\nroles: [operator]\n", "already"},
		{"wax", "hard", "soils/bad.md", "no header", "soils/bad.md:1"},
		{"wax", "hard", "soils/bad.md", "---\ntitle: [\n---\n", "soils/bad.md:"},
		{"wax", "hard", "shop.yaml", "name: [\n", "shop.yaml:"},
		{"wax", "hard", "moved.yaml", "soils/hard.md: soils/other.md\n", "moved.yaml:1:1"},
		{"wax", "hard", "glossary.yaml", "wax: {means: w, article: \"soils/\\x77ax.md\"}\n", "glossary.yaml:1:"},
		{"wax", "hard", "lessons/hard.md", "see-also: [hard]", "lessons/hard.md:"},
		{"soils/wax.md#melt-it", "Twice", "", "", "Another heading"},
		{"soils/wax.md#melt-itt", "Twice", "", "", "Did you mean #melt-it?"},
		{"soils/wax.md#melt-it", "two\nlines", "", "", "one line"},
		{"soils/wax.md#melt-it", " ", "", "", "one line"},
	} {
		files := shop()
		if c.file != "" {
			text := c.text
			if strings.HasPrefix(text, "see-also") || strings.HasPrefix(text, "never-with") {
				text = strings.Replace(string(files["materials/steel.md"].Data), "made-of: [carbon-steel]", text, 1)
			}
			files[c.file] = &fstest.MapFile{Data: []byte(text)}
		}
		_, err := rename.For(t.Context(), files, c.old, c.to)
		var refusal *rename.Refusal
		if !errors.As(err, &refusal) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s → %q: %v, want a refusal with %q", c.old, c.to, err, c.says)
			continue
		}
		for _, r := range refusal.Reasons {
			if r.Problem == "" || r.Remedy == "" {
				t.Errorf("%s → %q: a reason without problem or remedy: %+v", c.old, c.to, r)
			}
		}
	}
}

// demo is the demo manual, in memory.
func demo(t *testing.T) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	from := os.DirFS("../../content")
	err := fs.WalkDir(from, ".", func(p string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := fs.ReadFile(from, p)
		files[p] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func read(t *testing.T, files fs.FS) *manual.Manual {
	t.Helper()
	m, _, err := manual.Read(t.Context(), files)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func proof(t *testing.T, files fs.FS) []finding.Finding {
	t.Helper()
	m, found, err := manual.Read(t.Context(), files)
	if err != nil {
		t.Fatal(err)
	}
	return append(found, rules.Proof(m, today)...)
}

// apply renames in a copy.
func apply(t *testing.T, files fstest.MapFS, old, to string) fstest.MapFS {
	t.Helper()
	plan, err := rename.For(t.Context(), files, old, to)
	if err != nil {
		t.Fatalf("%s → %s: %v", old, to, err)
	}
	written, gone, err := plan.Files()
	if err != nil {
		t.Fatal(err)
	}
	after := maps.Clone(files)
	for _, name := range gone {
		delete(after, name)
	}
	for name, data := range written {
		after[name] = &fstest.MapFile{Data: data}
	}
	return after
}

func same(a, b *fstest.MapFile) bool { return bytes.Equal(a.Data, b.Data) }

// differ reports the files that are not the same.
func differ(t *testing.T, what string, want, got fstest.MapFS) {
	t.Helper()
	names := map[string]bool{}
	for name := range want {
		names[name] = true
	}
	for name := range got {
		names[name] = true
	}
	for _, name := range slices.Sorted(maps.Keys(names)) {
		switch w, g := want[name], got[name]; {
		case w == nil || g == nil:
			t.Errorf("%s: %s is in one of the two", what, name)
		case !same(w, g):
			t.Errorf("%s: %s is\n%q\nwant\n%q", what, name, g.Data, w.Data)
		}
	}
}

func holds(t *testing.T, files fstest.MapFS, name string, pieces []string) {
	t.Helper()
	if files[name] == nil {
		t.Errorf("there is no %s", name)
		return
	}
	for _, piece := range pieces {
		if !strings.Contains(string(files[name].Data), piece) {
			t.Errorf("%s is\n%s\nwithout %q", name, files[name].Data, piece)
		}
	}
}
