package rules

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

func init() {
	mistakes = append(mistakes, mistake{"two-versions", lesson, "<<<<<<<", []edit{end(lesson, "\n<<<<<<< HEAD\nWash your hands.\n=======\n>>>>>>> theirs\n")}})
}

// proofreadSince is proofread, and compares with an edition of other files.
func proofreadSince(t testing.TB, files, before fstest.MapFS) []finding.Finding {
	t.Helper()
	earlier, _, err := manual.Read(context.Background(), before)
	if err != nil {
		t.Fatal(err)
	}
	m, _, err := manual.Read(context.Background(), files)
	if err != nil {
		t.Fatal(err)
	}
	e := Earlier{"edition 3 of 2026-10-01", func(a *manual.Article) (Standing, bool) {
		b := earlier.At(a.Path)
		if b == nil {
			return Standing{}, false
		}
		return StandingOf(b), true
	}}
	return append(proofread(t, files), ProofAgainst(m, e)...)
}

// What readers work by needs a new revision; what only says how the article is controlled or how it is typed does not.
func TestChangedWithoutRevision(t *testing.T) {
	base := folder(t, small)
	spanish := e("lessons/sound.es.md", "", "---\ntitle: Sonido\nsummary: Burbujas.\ntranslates: A\napproved: 2026-09-15, operator\n---\nLas burbujas colapsan en la pieza.\n")
	const text = "Bubbles collapse on the part."
	for what, c := range map[string]struct {
		place string // "" for nothing
		edits []edit
	}{
		"a word":                         {"lessons/sound.md:5:1", []edit{e("lessons/sound.md", text, "Bubbles collapse on the parts.")}},
		"a fact":                         {"chemistries/neutral.md:5:1", []edit{e("chemistries/neutral.md", "title: ", "title: The ")}},
		"a list's order":                 {"procedures/fill.md:5:1", []edit{e("procedures/fill.md", "title: Fill", "title: Fill up")}},
		"also a new approval":            {"lessons/sound.md:5:1", []edit{e("lessons/sound.md", text, "More."), e("lessons/sound.md", "2026-09-14,", "2026-10-01,")}},
		"a line broken by blanks":        {"lessons/sound.md:5:1", []edit{e("lessons/sound.md", text, "Bubbles  \ncollapse on the part.")}},
		"a new review":                   {"", []edit{e("lessons/sound.md", "2027-09-14", "2028-09-14")}},
		"a new approval":                 {"", []edit{e("lessons/sound.md", "2026-09-14,", "2026-10-14,")}},
		"an acceptance":                  {"", []edit{e("lessons/sound.md", "order: 1", "order: 1\naccept: [{rule: hard-to-read, reason: As long as it has to be.}]")}},
		"quotation marks and a comment":  {"", []edit{e("lessons/sound.md", "summary: Bubbles.", "# in short\nsummary: \"Bubbles.\"")}},
		"the order of keys":              {"", []edit{e("lessons/sound.md", "order: 1\nduration: 30 min", "duration: 30 min\norder: 1")}},
		"empty lines and a blank":        {"", []edit{e("lessons/sound.md", text, "\n"+text+" \n\n\n")}},
		"a new article":                  {"", []edit{e("lessons/more.md", "", head("More", "order: 2\nduration: 5 min\nfor: [operator]\nneeds: [sound]\n")+"Look at it.\n")}},
		"accepted":                       {"", []edit{e("lessons/sound.md", text, "More."), e("lessons/sound.md", "order: 1", "order: 1\naccept: [{rule: changed-without-revision, reason: A letter.}]")}},
		"a translation's word":           {"", []edit{spanish, e("lessons/sound.es.md", "colapsan", "revientan")}}, // its digest says so
		"a translation approved anew":    {"", []edit{spanish, e("lessons/sound.es.md", "colapsan", "revientan"), e("lessons/sound.es.md", "2026-09-15", "2026-10-01")}},
		"a translation approved by role": {"", []edit{spanish, e("lessons/sound.es.md", "colapsan", "revientan"), e("lessons/sound.es.md", "operator", "process engineer")}},
	} {
		t.Run(what, func(t *testing.T) {
			before := base
			if c.edits[0] == spanish {
				before = edited(t, base, c.edits[:1])
				c.edits = c.edits[1:]
			}
			var places []string
			for _, f := range proofreadSince(t, edited(t, before, c.edits), before) {
				if f.Rule == changedWithoutRevision.Name {
					places = append(places, f.Place.String())
				}
			}
			if strings.Join(places, " ") != c.place {
				t.Errorf("want %q, got %q", c.place, places)
			}
		})
	}
	windows := fstest.MapFS{}
	for name, f := range base {
		windows[name] = f
		if strings.HasSuffix(name, ".md") {
			windows[name] = &fstest.MapFile{Data: []byte("\uFEFF" + strings.ReplaceAll(string(f.Data), "\n", "\r\n"))}
		}
	}
	if list := proofreadSince(t, windows, base); len(list) > 0 {
		t.Errorf("other line ends: %s", show(list))
	}
}

// One finding a file, whatever the two versions would be found guilty of, and none in the files that name what is in them.
func TestTwoVersionsAreOneFinding(t *testing.T) {
	base := folder(t, small)
	const mine, theirs = "<<<<<<< HEAD\n", ">>>>>>> 3f2a (their change)\n"
	for file, edits := range map[string][]edit{
		"shop.yaml":              {e("shop.yaml", "    temperature: 60 °C\n", mine+"    temperature: 60 °C\n=======\n    temperature: 65 °C\n"+theirs)},
		"glossary.yaml":          {e("glossary.yaml", atEnd, mine+"a: {means: b}\n=======\n"+theirs)},
		"chemistries/neutral.md": {e("chemistries/neutral.md", "title: ", mine+"title: ")},
		"soils/chips.md":         {e("soils/chips.md", "title: ", theirs+"title: ")},
		"soils/rust.md":          {e("soils/rust.md", atEnd, "\n=======\n")},
		"materials/steel.md":     {e("materials/steel.md", atEnd, "\n||||||| base\nnothing\n")},
		"lessons/sound.md":       {e("lessons/sound.md", "Bubbles collapse", "```\n"+mine+"a\n||||||| base\nb\n=======\nc\n"+theirs+"```\n\n[none](none.md)\n\nBubbles collapse")},
		"parts/shaft.md":         {e("parts/shaft.md", "title: ", "<<<<<<<\r\ntitle: x\r\n=======\r\ntitle: "), e("parts/shaft.md", atEnd, ">>>>>>>\r\n")},
	} {
		t.Run(file, func(t *testing.T) {
			list := proofread(t, edited(t, base, edits))
			if len(list) != 1 || list[0].Rule != "two-versions" || list[0].File != file || list[0].Remedy == "" {
				t.Errorf("got%s", show(list))
			}
			if len(edits[0].new) > 60 && len(list[0].Also) != 1 {
				t.Errorf("it does not name both lines:%s", show(list))
			}
		})
	}
}

func TestApprovalToCome(t *testing.T) {
	base := folder(t, small)
	for date, want := range map[string]int{"2026-10-21": 1, "2026-10-20": 0, "2027-08-01": 1} {
		list := proofread(t, edited(t, base, []edit{e("lessons/sound.md", "2026-09-14", date)}))
		if len(list) != want || want == 1 && (list[0].Rule != datesOutOfOrder.Name || list[0].Place.String() != "lessons/sound.md:6:1") {
			t.Errorf("approved %s: got%s", date, show(list))
		}
	}
	translations := allInSpanish(small, "")
	for i, ed := range translations {
		if ed.file == "lessons/sound.es.md" {
			translations[i].new = strings.Replace(ed.new, "2026-09-15", "2026-10-25", 1)
		}
	}
	list := proofread(t, edited(t, base, translations))
	if len(list) != 1 || list[0].Rule != datesOutOfOrder.Name || list[0].File != "lessons/sound.es.md" {
		t.Errorf("a translation: got%s", show(list))
	}
}
