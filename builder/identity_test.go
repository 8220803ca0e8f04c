package builder

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/text/unicode/norm"

	"tankside/builder/changes"
	"tankside/builder/content"
	"tankside/builder/edition"
	"tankside/builder/ledger"
	"tankside/themes"
)

const square = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10" width="10" height="10"><title>A square</title><rect width="10" height="10"/></svg>`

// manyFiles is a manual with files of every sort.
func manyFiles() map[string]string {
	put := func(text string) string { return strings.ReplaceAll(text, "%T", "Fill") }
	return map[string]string{
		"shop.yaml":               smallShop,
		"glossary.yaml":           "cavitation: {means: tiny bubbles that collapse}\n",
		"vocabulary.yaml":         "constituents:\n  - {word: ethanolamine, as: amine, means: an amine}\n",
		"procedures/fill.md":      put(head) + "Before.\n\n## Fill\n\nSee [heat](caf\u00e9.md) and ![a square](../pictures/square.svg).\n\n## Look\n\nTwice.\n",
		"procedures/fill.es.md":   "---\ntitle: Llenar\nsummary: Un resumen.\ntranslates: A\napproved: 2026-09-14, process engineer\n---\nAntes.\n\n## Llenar\n\nVea [calor](caf\u00e9.md) y ![un cuadrado](../pictures/square.svg).\n\n## Mirar\n\nDos veces.\n",
		"procedures/caf\u00e9.md": strings.ReplaceAll(put(head), "title: Fill", "title: Heat") + "## Heat\n\nSee [fill](fill.md).\n",
		"pictures/square.svg":     square,
		"theme/styles/99-own.css": "main { border: 1px solid; }\n",
		"theme/words/es.yaml":     "\"Edition\": \"Tirada\"\n",
	}
}

func fileSystem(files map[string]string) fs.FS {
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text), Mode: 0o644}
	}
	return fsys
}

func contentIn(t *testing.T, files map[string]string) *content.Content {
	t.Helper()
	c, _, err := ContentIn(t.Context(), fileSystem(files))
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// One manual has one digest with every line end, with and without byte order marks, with names in both spellings, and whatever lies beside it that does not
// reach an edition.
func TestOneManualHasOneCode(t *testing.T) {
	t.Parallel()
	plain := contentIn(t, manyFiles())
	for name, alter := range map[string]func(name, text string) (string, string){
		"CRLF":              func(name, text string) (string, string) { return name, strings.ReplaceAll(text, "\n", "\r\n") },
		"byte order mark":   func(name, text string) (string, string) { return name, mark(name, text) },
		"names as on macOS": func(name, text string) (string, string) { return norm.NFD.String(name), text },
		"empty lines at the end": func(name, text string) (string, string) {
			if strings.HasSuffix(name, ".md") {
				text += "\n\n\n"
			}
			return name, text
		},
		"a comment in the header": func(name, text string) (string, string) {
			return name, strings.Replace(text, "---\ntitle", "---\n# not for the press\ntitle", 1)
		},
		"the order of keys": func(name, text string) (string, string) {
			return name, strings.Replace(text, "station: wash\nrevision: A\n", "revision: \"A\"\nstation: wash\n", 1)
		},
	} {
		files := map[string]string{}
		for file, text := range manyFiles() {
			n, altered := alter(file, text)
			files[n] = altered
		}
		if c := contentIn(t, files); c.Digest() != plain.Digest() {
			t.Errorf("%s: another digest, by %v", name, changes.Between(plain, c, nil))
		}
	}
	for name, text := range map[string]string{
		"ledger.txt": "# remark\n", ".gitattributes": "ledger.txt merge=union\n", "notes.md": "stray", "theme/README.txt": "how it is done", "theme/templates/unknown.html": "x", "theme/words/de.yaml": "\"Edition\": \"Ausgabe\"\n",
		"theme/drawings/other.svg": square, "records/wash-1.csv": "when,ph\n2026-11-02,9.8\n", "procedures/fill.md.sig": "-----BEGIN SSH SIGNATURE-----\n", "allowed_signers": "a ssh-ed25519 AAAA\n",
		"procedures/idea.md": strings.Replace(head, "title: %T", "title: An idea\ndraft: yes", 1), "procedures/half.md": "---\ntitle: Half\ndraft: yes\nstation: [\n---\nText.\n",
	} {
		files := manyFiles()
		files[name] = text
		if c := contentIn(t, files); c.Digest() != plain.Digest() {
			t.Errorf("%s, which reaches no edition, makes it another", name)
		}
	}
}

func mark(name, text string) string {
	if strings.HasPrefix(name, "theme/") || strings.HasPrefix(name, "pictures/") {
		return text
	}
	return "\uFEFF" + text
}

// What says how an article is controlled counts as far as a page shows it, and asks nobody to read the article again.
func TestControlOfAnArticleCountsWhereItIsShown(t *testing.T) {
	t.Parallel()
	with := func(line string, more ...string) *content.Content {
		files := manyFiles()
		files["procedures/fill.md"] = strings.Replace(files["procedures/fill.md"], "station: wash\n", "station: wash\n"+line, 1)
		for i := 0; i+1 < len(more); i += 2 {
			files["shop.yaml"] = strings.Replace(files["shop.yaml"], more[i], more[i+1], 1)
		}
		return contentIn(t, files)
	}
	plain := with("")
	for _, line := range []string{"draft: no\n", "accept: [{rule: no-approval, reason: a small shop}]\n"} {
		if with(line).Digest() != plain.Digest() {
			t.Errorf("%s is on no page and makes another edition", line)
		}
	}
	stamp := []string{"name: ", "drafts: stamp\nname: "}
	finished, draft := with("", stamp...), with("draft: yes\n", stamp...)
	if finished.Digest() == draft.Digest() {
		t.Error("a draft that is stamped is the same edition as the finished article")
	}
	files := manyFiles()
	files["procedures/fill.md"] = strings.Replace(files["procedures/fill.md"], "review-by: 2", "review-by: 3", 1)
	review := contentIn(t, files)
	if review.Digest() == plain.Digest() {
		t.Error("another date of review, which stands on the page, is the same edition")
	}
	for name, pair := range map[string][2]*content.Content{"draft": {finished, draft}, "review": {plain, review}} {
		if list := changes.Between(pair[0], pair[1], nil); len(list) != 1 || len(changes.Consequences(pair[0], pair[1], list).Readers) > 0 {
			t.Errorf("%s: somebody has to read it again, by %v", name, list)
		}
	}
}

// Readings and the day of publication change pages, and neither number nor code.
func TestReadingsAndTheDayMakeNoOtherEdition(t *testing.T) {
	t.Parallel()
	all := manyFiles()
	all["procedures/fill.md"] = strings.Replace(all["procedures/fill.md"], "review-by: 20", "review-by: 2027-01-02 # 20", 1)
	all["records/wash-1.csv"] = "when,ph\n2026-11-02,9.8\n"
	src := folder(t, all)
	to := filepath.Join(t.TempDir(), "edition")
	r, err := enterIt(t, src, to, day)
	if err != nil {
		t.Fatal(err, r.Findings)
	}
	before := files(t, to)
	if page := before["records/wash-1.html"]; !strings.Contains(page, "Readings are no part of the edition") {
		t.Error("the page of the readings does not say that they are no part of the edition")
	}
	for _, step := range []struct {
		what  string
		later int // days
		reads string
		other []string
	}{
		{"a new reading", 0, "2026-11-03,9.7\n", []string{"records/wash-1.html", "records/wash-1-month.html"}},
		{"a review that is overdue", 40, "", []string{"procedures/fill.html", "reviews.html", "reviews.ics"}},
	} {
		change(t, filepath.Join(src, "records", "wash-1.csv"), "9.8\n", "9.8\n"+step.reads)
		next, err := publish(t, src, to, day.AddDate(0, 0, step.later))
		if err != nil || next.Mark != r.Mark {
			t.Fatalf("%s: %v is %v: %v", step.what, r.Mark, next.Mark, err)
		}
		now := files(t, to)
		for _, name := range step.other {
			if now[name] == before[name] || now[name] == "" {
				t.Errorf("%s: %s is as it was", step.what, name)
			}
		}
		before = now
		if !strings.Contains(now["changes.html"], "This is the first edition") {
			t.Errorf("%s is a change of the edition", step.what)
		}
	}
	if !strings.Contains(before["procedures/fill.html"], "Review overdue") {
		t.Error("the overdue review is not said")
	}
}

// Everything that reaches an edition makes it another, and is one of the changes; and what the changes make of the older is the newer.
func TestEverythingThatReachesAnEditionCounts(t *testing.T) {
	t.Parallel()
	plain := contentIn(t, manyFiles())
	old := func(file, from, to string) func(map[string]string) {
		return func(files map[string]string) {
			if !strings.Contains(files[file], from) {
				t.Errorf("%s has no %q", file, from)
			}
			files[file] = strings.Replace(files[file], from, to, 1)
		}
	}
	for name, c := range map[string]struct {
		alter         func(map[string]string)
		file, heading string
		kind          changes.Kind
	}{
		"a word":             {old("procedures/fill.md", "Twice", "Thrice"), "procedures/fill.md", "Look", changes.Changed},
		"a heading":          {old("procedures/fill.md", "## Look", "## Look twice"), "procedures/fill.md", "Look twice", changes.Renamed},
		"the level":          {old("procedures/fill.md", "## Look", "### Look"), "procedures/fill.md", "Look", changes.Changed},
		"the first text":     {old("procedures/fill.md", "Before.", "Before!"), "procedures/fill.md", "", changes.Changed},
		"a header key":       {old("procedures/fill.md", "summary: A summary", "summary: In short"), "procedures/fill.md", "header: summary", changes.Changed},
		"the revision":       {old("procedures/fill.md", "revision: A", "revision: B"), "procedures/fill.md", "header: revision", changes.Changed},
		"a new key":          {old("procedures/fill.md", "station: wash", "station: wash\nalso-called: [pour]"), "procedures/fill.md", "header: also-called", changes.Added},
		"a translation":      {old("procedures/fill.es.md", "Dos", "Tres"), "procedures/fill.es.md", "Mirar", changes.Changed},
		"a set-point":        {old("shop.yaml", "62 °C", "60 °C"), "shop.yaml", "tanks: wash-1: temperature", changes.Changed},
		"a tank":             {old("shop.yaml", "roles:", "  - {id: wash-2, name: Wash 2, volume: 60 L}\nroles:"), "shop.yaml", "tanks: wash-2: volume", changes.Added},
		"the water":          {old("shop.yaml", "12 °C", "14 °C"), "shop.yaml", "water: temperature", changes.Changed},
		"a role":             {old("shop.yaml", "[process engineer]", "[process engineer, operator]"), "shop.yaml", "roles", changes.Changed},
		"a term":             {old("glossary.yaml", "tiny", "small"), "glossary.yaml", "cavitation: means", changes.Changed},
		"a word of its own":  {old("vocabulary.yaml", "an amine", "one"), "vocabulary.yaml", "constituents: ethanolamine: means", changes.Changed},
		"a picture":          {old("pictures/square.svg", "A square", "A box"), "pictures/square.svg", "", changes.Changed},
		"a style":            {old("theme/styles/99-own.css", "1px", "2px"), "theme/styles/99-own.css", "", changes.Changed},
		"words of the theme": {old("theme/words/es.yaml", "Tirada", "Impresión"), "theme/words/es.yaml", "", changes.Changed},
		"an article less":    {func(f map[string]string) { delete(f, "procedures/fill.es.md") }, "procedures/fill.es.md", "", changes.Removed},
		"a picture more":     {func(f map[string]string) { f["pictures/box.svg"] = square + "\n" }, "pictures/box.svg", "", changes.Added},
		"another name": {func(f map[string]string) {
			f["procedures/pour.md"] = strings.Replace(f["procedures/fill.md"], "Twice", "Thrice", 1)
			delete(f, "procedures/fill.md")
		}, "procedures/pour.md", "", changes.Renamed},
	} {
		files := manyFiles()
		c.alter(files)
		now := contentIn(t, files)
		if now.Digest() == plain.Digest() {
			t.Errorf("%s makes no other edition", name)
			continue
		}
		list := changes.Between(plain, now, nil)
		if !slices.ContainsFunc(list, func(o changes.Change) bool { return o.Article == c.file && o.Heading == c.heading && o.Kind == c.kind }) {
			t.Errorf("%s: not among %+v", name, list)
		}
		if made, err := changes.Apply(plain, list); err != nil || made.Digest() != now.Digest() {
			t.Errorf("%s: applied, the changes give something else: %v", name, err)
		}
		// What an edition carries is the content, and so is what it keeps of the one before.
		packed, err := content.Pack(now.Docs())
		if err != nil {
			t.Fatal(err)
		}
		docs, err := content.Unpack(packed)
		if err != nil || content.New(docs).Digest() != now.Digest() {
			t.Errorf("%s: packed and unpacked it is something else: %v", name, err)
		}
		if packed, err = content.Pack(content.Delta(plain, now)); err != nil {
			t.Fatal(err)
		}
		delta, err := content.Unpack(packed)
		if err != nil || content.Undo(delta, now).Digest() != plain.Digest() {
			t.Errorf("%s: the edition before cannot be made again: %v", name, err)
		}
		if _, err := content.Unpack(packed[:len(packed)/2]); err == nil {
			t.Errorf("%s: half of a pack is a content", name)
		}
	}
}

// The files of a shop's own theme that count are just those that are read when an edition is made.
func TestOwnThemeFilesThatCountAreThoseThatAreRead(t *testing.T) {
	t.Parallel()
	src := plainManual(t) // with styles and scripts of a line each, since packing them takes longest
	all := []string{"templates/home.html", "templates/unknown.html", "styles/10-ground.css", "styles/99-own.css", "scripts/line.js", "scripts/own.js", "scripts/read.me", "drawings/mark.svg", "drawings/other.svg",
		"drawings/line/wash.svg", "drawings/line/own.svg", "drawings/swatches/own.svg", "words/es.yaml", "words/de.yaml", "words/calculators/es.yaml", "words/calculators/fr.yaml", "notices.txt"}
	own := fstest.MapFS{}
	for _, name := range all {
		data, err := themes.New(nil).Read(name)
		if err != nil {
			data = []byte("/* " + name + " */")
		}
		switch filepath.Ext(name) {
		case ".svg":
			data = []byte(square)
		case ".yaml":
			data = []byte("\"Home page\": \"Inicio\"\n")
		case ".css", ".js":
			data = []byte("/* " + name + " */\n")
		}
		file := filepath.Join(src, "theme", filepath.FromSlash(name))
		if err := errors.Join(os.MkdirAll(filepath.Dir(file), 0o755), os.WriteFile(file, data, 0o644)); err != nil {
			t.Fatal(err)
		}
		own[name] = &fstest.MapFile{Data: data}
	}
	counted, err := themes.New(own).Reaching([]string{"en", "es"})
	if err != nil {
		t.Fatal(err)
	}
	base := filepath.Join(t.TempDir(), "edition")
	if r, err := publish(t, src, base, day); err != nil {
		t.Fatal(err, r.Findings)
	}
	before := pagesOf(t, base)
	for _, name := range all {
		file := filepath.Join(src, "theme", filepath.FromSlash(name))
		was, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		now := append(bytes.Clone(was), "/* more */"...)
		switch filepath.Ext(name) {
		case ".svg":
			now = bytes.ReplaceAll(was, []byte("10"), []byte("12"))
		case ".css":
			now = append(bytes.Clone(was), "main { border: 2px solid; }\n"...)
		case ".html":
			now = bytes.Replace(was, []byte("<h1>"), []byte("<h1>more "), 1)
		case ".yaml":
			now = append(bytes.Clone(was), "\"Glossary\": \"Palabras\"\n\"Dilution\": \"Mezcla\"\n"...)
		}
		if err := os.WriteFile(file, now, 0o644); err != nil {
			t.Fatal(err)
		}
		to := filepath.Join(t.TempDir(), "edition")
		if r, err := publish(t, src, to, day); err != nil {
			t.Fatal(name, err, r.Findings)
		}
		other := !maps.Equal(before, pagesOf(t, to))
		if other != slices.Contains(counted, name) {
			t.Errorf("%s: it makes other pages: %v; it counts: %v", name, other, !other)
		}
		if err := os.WriteFile(file, was, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// pagesOf are the files of an edition, without its code.
func pagesOf(t *testing.T, dir string) map[string]string {
	t.Helper()
	l, err := listIn(dir)
	if err != nil {
		t.Fatal(err)
	}
	got := files(t, dir)
	for name, text := range got {
		if strings.HasPrefix(name, edition.ContentFolder) || name == edition.ListName || name == edition.WorkerName || strings.HasSuffix(name, ".gz") || strings.HasSuffix(name, ".br") {
			delete(got, name)
			continue
		}
		got[name] = strings.ReplaceAll(text, l.Code, "CODE")
	}
	return got
}

// The code stands on every page, card and sheet, in the list, and in the script of the offline worker, and in a draft on the page about the edition alone.
func TestTheCodeStandsEverywhere(t *testing.T) {
	t.Parallel()
	src := folder(t, manyFiles())
	to := filepath.Join(t.TempDir(), "edition")
	r, err := enterIt(t, src, to, day)
	if err != nil {
		t.Fatal(err, r.Findings)
	}
	if r.Mark.Edition != 1 || r.Mark.Date != "2026-12-01" || r.Mark.Code == "" || !r.Entered {
		t.Errorf("%+v", r)
	}
	for name, text := range files(t, to) {
		if filepath.Ext(name) == ".html" && !strings.Contains(text, "1 · 2026-12-01 · "+r.Mark.Code) || (name == edition.ListName || name == edition.WorkerName) && !strings.Contains(text, r.Mark.Code) {
			t.Errorf("%s does not have the code", name)
		}
	}
	if _, err := Publish(t.Context(), Options{Manual: src, To: to, Now: day, Draft: true}); err != nil {
		t.Fatal(err)
	}
	for name, text := range files(t, to) {
		if filepath.Ext(name) == ".html" && strings.Contains(strings.Split(text, "<footer>")[1], r.Mark.Code) {
			t.Errorf("%s of a draft has a code in its foot", name)
		}
	}
	if page := files(t, to)["this-edition.html"]; !strings.Contains(page, r.Mark.Code) {
		t.Error("the page about a draft does not say the code")
	}
}

// Editions are numbered by the ledger and by nothing else: in every folder, on every day, with every line end.
func TestTheLedgerGivesTheNumber(t *testing.T) {
	t.Parallel()
	src := folder(t, manyFiles())
	first, second := filepath.Join(t.TempDir(), "edition"), filepath.Join(t.TempDir(), "other")
	r, err := publish(t, src, first, day)
	if err != nil || r.Mark.Edition != 0 || r.Mark.After != 0 || r.Mark.Date != "" {
		t.Fatalf("%+v, %v", r, err)
	}
	if r, err = enterIt(t, src, first, day); err != nil || r.Mark.Edition != 1 {
		t.Fatalf("%+v, %v", r, err)
	}
	if again, err := enterIt(t, src, first, day.AddDate(0, 1, 0)); err != nil || again.Entered || again.Mark != r.Mark {
		t.Errorf("the same manual was entered twice: %+v, %v", again, err)
	}
	if other, err := publish(t, src, second, day.AddDate(0, 0, 9)); err != nil || other.Mark != r.Mark {
		t.Errorf("another folder: %+v, %v", other, err)
	}
	for _, to := range []string{first, second} {
		if other, err := publish(t, src, to, day); err != nil || other.Mark != r.Mark {
			t.Errorf("published again: %+v, %v", other, err)
		}
	}
	if !maps.Equal(files(t, first), files(t, second)) {
		t.Error("the same manual gives other bytes in another folder")
	}
	crlf := manyFiles()
	for name, text := range crlf {
		crlf[name] = strings.ReplaceAll(text, "\n", "\r\n")
	}
	text, err := os.ReadFile(filepath.Join(src, ledger.File))
	if err != nil {
		t.Fatal(err)
	}
	crlf[ledger.File] = strings.ReplaceAll(string(text), "\n", "\r\n")
	windows, third := folder(t, crlf), filepath.Join(t.TempDir(), "edition")
	if other, err := publish(t, windows, third, day); err != nil || other.Mark != r.Mark {
		t.Errorf("other line ends: %+v, %v", other, err)
	}
	if !maps.Equal(files(t, first), files(t, third)) {
		t.Error("the same manual gives other bytes with other line ends")
	}
	change(t, filepath.Join(src, "shop.yaml"), "62 °C", "60 °C")
	next, err := publish(t, src, first, day)
	if err != nil || next.Mark.Edition != 0 || next.Mark.After != 1 || next.Before != 1 || !next.Compared {
		t.Fatalf("%+v, %v, %v", next.Mark, next.Findings, err)
	}
	page := files(t, first)["changes.html"]
	for _, want := range []string{"tanks: wash-1: temperature", "<del>62</del>", "<ins>60</ins>", "From edition 1 of 2026-12-01, code " + r.Mark.Code, `href="cards.html#wash-1"`} {
		if !strings.Contains(page, want) {
			t.Errorf("the page of the changes has no %s", want)
		}
	}
	before := files(t, first)
	if _, err := publish(t, src, first, day); err != nil {
		t.Fatal(err)
	}
	if !maps.Equal(before, files(t, first)) {
		t.Error("publishing again over it changed the edition: what it was compared with is lost")
	}
	if r, err = enterIt(t, src, first, day.AddDate(0, 0, 2)); err != nil || r.Mark.Edition != 2 || r.Mark.Date != "2026-12-03" {
		t.Fatalf("%+v, %v", r, err)
	}
	entries := ledgerIn(t, src).Entries()
	if len(entries) != 2 || !strings.Contains(entries[1].Changed, "tanks: wash-1: temperature 62 °C → 60 °C") || entries[1].By != "a trainer" {
		t.Errorf("%+v", entries)
	}
}

func ledgerIn(t *testing.T, src string) ledger.Ledger {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(src, ledger.File))
	if err != nil {
		t.Fatal(err)
	}
	l, faults := ledger.Parse(text)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return l
}

// A page at the address that an article had leads to the one that it has, in this edition and in those after it.
func TestOldAddressesLeadOn(t *testing.T) {
	t.Parallel()
	src := folder(t, manyFiles())
	to := filepath.Join(t.TempDir(), "edition")
	if r, err := enterIt(t, src, to, day); err != nil {
		t.Fatal(err, r.Findings)
	}
	letters := []string{"A", "B", "C"}
	rename := func(from, now string) {
		t.Helper()
		for _, ext := range []string{".md", ".es.md"} {
			if err := os.Rename(filepath.Join(src, "procedures", from+ext), filepath.Join(src, "procedures", now+ext)); err != nil {
				t.Fatal(err)
			}
		}
		change(t, filepath.Join(src, "procedures", "caf\u00e9.md"), "("+from+".md)", "("+now+".md)")
		change(t, filepath.Join(src, "procedures", "caf\u00e9.md"), "revision: "+letters[0], "revision: "+letters[1])
		letters = letters[1:]
		if r, err := enterIt(t, src, to, day); err != nil {
			t.Fatal(err, r.Findings)
		}
	}
	leads := func(old, now string) {
		t.Helper()
		if page := files(t, to)[old]; !strings.Contains(page, `http-equiv="refresh" content="0; url=../`+now+`"`) || !strings.Contains(page, `href="../`+now+`"`) {
			t.Errorf("%s does not lead to %s", old, now)
		}
	}
	rename("fill", "pour")
	leads("procedures/fill.html", "procedures/pour.html")
	leads("procedures/fill.es.html", "procedures/pour.es.html")
	rename("pour", "make-up")
	leads("procedures/fill.html", "procedures/make-up.html")
	leads("procedures/pour.html", "procedures/make-up.html")
	entries := ledgerIn(t, src).Entries()
	if len(entries) != 3 || !slices.Contains(entries[1].Renamed, ledger.Renamed{From: "procedures/fill.md", To: "procedures/pour.md"}) {
		t.Errorf("%+v", entries)
	}
}

// A ledger that somebody else has written to while the manual was published is left as it is, and nothing is published.
func TestALedgerThatWasChangedMeanwhileIsLeft(t *testing.T) {
	t.Parallel()
	src := folder(t, manyFiles())
	to := filepath.Join(t.TempDir(), "edition")
	other := ledger.Entry{Number: 1, Date: "2026-11-30", Digest: fmt.Sprintf("%064d", 7)}
	_, text := ledger.Ledger{}.With(other)
	wrote := false
	_, err := Publish(context.Background(), Options{Manual: src, To: to, Now: day, Enter: &Entering{}, Progress: func(doing string, _, _ int) {
		if doing == "writing pages" && !wrote {
			wrote = os.WriteFile(filepath.Join(src, ledger.File), text, 0o644) == nil
		}
	}})
	if err == nil || !strings.Contains(err.Error(), "try again") {
		t.Fatalf("published: %v", err)
	}
	if got, err := os.ReadFile(filepath.Join(src, ledger.File)); err != nil || !bytes.Equal(got, text) {
		t.Errorf("the ledger is\n%s", got)
	}
	if _, err := os.Stat(to); err == nil {
		t.Error("an edition was written")
	}
	if r, err := enterIt(t, src, to, day); err != nil || r.Mark.Edition != 2 {
		t.Errorf("%+v, %v", r, err)
	}
}
