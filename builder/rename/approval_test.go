package rename_test

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/manual"
)

// An approval that holds is carried over to what names the renamed article, and to nothing whose own words are others; one that did not hold does not hold afterwards.
func TestApprovalsAreCarriedOver(t *testing.T) {
	t.Parallel()
	files := demo(t)
	broken := "procedures/heat-the-bath.md"
	files[broken] = &fstest.MapFile{Data: append(files[broken].Data, "\nMore.\n"...)}
	states := func(files fstest.MapFS) map[string]manual.ApprovalState {
		list := map[string]manual.ApprovalState{}
		for _, a := range read(t, files).Articles {
			list[a.Path] = a.ApprovalState()
		}
		return list
	}
	before := states(files)
	if before[broken] != manual.ApprovalBroken {
		t.Fatal("the case needs an approval that does not hold")
	}
	after := apply(t, files, "soils/wax.md", "hard-wax")
	for path, state := range states(after) {
		if path == "soils/hard-wax.md" {
			path = "soils/wax.md"
		}
		if state != before[path] {
			t.Errorf("%s: %s, was %s", path, state, before[path])
		}
	}
	m := read(t, files)
	a := m.At("soils/wax.md")
	after = apply(t, files, "soils/wax.md#"+a.Sections[1].Anchor, "Other words")
	for path, state := range states(after) {
		want := before[path]
		if path == "soils/wax.md" {
			want = manual.ApprovalBroken
		}
		if state != want {
			t.Errorf("a heading: %s: %s, want %s", path, state, want)
		}
	}
}

// A signature and a record lie beside what they are of afterwards, drafts that are left out are corrected too, and an old address that somebody writes by hand makes
// no other text approved.
func TestWhatGoesAlong(t *testing.T) {
	t.Parallel()
	files := demo(t)
	files["soils/wax.md.sig"] = &fstest.MapFile{Data: []byte("x")}
	files["soils/draft.md"] = &fstest.MapFile{Data: []byte("---\ntitle: Draft\ndraft: yes\nsee-also: [wax]\n---\n[w](wax.md)\n")}
	after := apply(t, files, "soils/wax.md", "hard-wax")
	if after["soils/hard-wax.md.sig"] == nil || after["soils/wax.md.sig"] != nil {
		t.Error("the signature stays behind")
	}
	holds(t, after, "soils/draft.md", []string{"see-also: [hard-wax]", "[w](hard-wax.md)"})
	tank := ""
	m := read(t, files)
	for _, r := range m.Records {
		if slices.ContainsFunc(m.Shop.Tanks, func(t manual.Tank) bool { return t.ID == r.Tank }) {
			tank = r.Tank
		}
	}
	after = apply(t, files, tank, "called-otherwise")
	if after["records/called-otherwise.csv"] == nil || after["records/"+tank+".csv"] != nil {
		t.Error("the record stays behind")
	}
	files = demo(t)
	m = read(t, files)
	old, now := "", ""
	for _, a := range m.Articles {
		if a.Kind == manual.Chemistry && now == "" {
			now = a.Name
		} else if a.Kind == manual.Chemistry {
			old = a.Name
		}
	}
	delete(files, "chemistries/"+old+".md")
	var approved *manual.Article
	for mention := range m.Mentions {
		if mention.Name == old && m.At(mention.At.File) != nil && m.At(mention.At.File).ApprovalState() == manual.Approved {
			approved = m.At(mention.At.File)
		}
	}
	if approved == nil {
		t.Fatalf("nothing that is approved names %s", old)
	}
	text := string(files[approved.Path].Data)
	files[approved.Path] = &fstest.MapFile{Data: []byte(strings.ReplaceAll(text, old, now))}
	files[manual.MovedFile] = &fstest.MapFile{Data: []byte("chemistries/" + old + ".md: chemistries/" + now + ".md\n")}
	if state := read(t, files).At(approved.Path).ApprovalState(); state != manual.ApprovalBroken {
		t.Errorf("%s, in which %s stands for %s, is %s", approved.Path, now, old, state)
	}
}
