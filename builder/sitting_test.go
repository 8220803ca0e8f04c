package builder

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tankside/builder/edition"
	"tankside/builder/ledger"
)

// desk is a manual that somebody works on.
type desk struct {
	t       *testing.T
	dir     string
	r       *rand.Rand
	changed []string
	made    int // number of files made so far
}

func newDesk(t *testing.T, seed uint64, source string) *desk {
	t.Helper()
	d := &desk{t: t, dir: t.TempDir(), r: rand.New(rand.NewPCG(seed, 1))}
	if err := os.CopyFS(d.dir, os.DirFS(source)); err != nil {
		t.Fatal(err)
	}
	if source == demoManual {
		d.unapprove()
	}
	return d
}

// approvedLine is the line of an approval that names its text.
var approvedLine = regexp.MustCompile(`(?m)^approved: .*[0-9a-f]{16}$`)

// unapprove takes the approvals away, so that articles may be changed.
func (d *desk) unapprove() {
	d.t.Helper()
	names, err := filepath.Glob(d.at("*/*.md"))
	if err != nil || len(names) == 0 {
		d.t.Fatal(names, err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err == nil {
			err = os.WriteFile(name, approvedLine.ReplaceAll(text, []byte("approved: not yet")), 0o644)
		}
		if err != nil {
			d.t.Fatal(err)
		}
	}
}

const (
	demoManual  = "../content"
	smallManual = "../testdata/mistakes/manual"
)

// Headings that other articles link to, to be added to articles of the small manual.
var headings = map[string]string{
	"procedures/fill.md":      "\n## Afterwards\n\nSee [what to do](first-aid.md#eyes).\n",
	"procedures/first-aid.md": "\n## Eyes\n\nWater at once, 15 min by the clock. Then [go on](fill.md#afterwards).\n",
}

// translations are of articles of the small manual, by their files.
var translations = map[string]string{
	"procedures/fill.es.md": `---
title: Llenar el tanque
summary: Llene, dosifique y mezcle.
translates: A
approved: 2026-09-20, process engineer
equipment: [jarra]
protective-equipment: [gafas herméticas, guantes químicos]
---
> **ADVERTENCIA** El concentrado puede cegar. Gafas herméticas y guantes. Siga la ficha de datos de seguridad y las normas locales.

1. Llene hasta la marca.
2. Agregue el [limpiador alcalino](../chemistries/alkaline.md) al 4 % v/v.

## Después

Véase [qué hacer](first-aid.md#eyes).
`,
	"soils/chips.es.md": `---
title: Virutas
summary: Metal suelto.
translates: A
approved: 2026-09-20, process engineer
---
Dele la vuelta a la pieza.
`,
}

// plainManual is the small manual with headings that are linked to, with translations, and with a look of its own, of one line a file: compressing styles and scripts takes three quarters of
// the publication of a small manual.
func plainManual(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS(smallManual)); err != nil {
		t.Fatal(err)
	}
	files := maps.Clone(translations)
	for name, more := range headings {
		text, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		files[name] = string(text) + more
	}
	for _, pattern := range []string{"styles/*.css", "scripts/*.js"} {
		all, err := filepath.Glob("../themes/" + pattern)
		if err != nil || len(all) < 10 {
			t.Fatal(all, err)
		}
		for _, name := range all {
			kind := filepath.Base(filepath.Dir(name))
			files["theme/"+kind+"/"+filepath.Base(name)] = "/* " + filepath.Base(name) + " */\n"
		}
	}
	for name, text := range files {
		file := filepath.Join(dir, filepath.FromSlash(name))
		if err := errors.Join(os.MkdirAll(filepath.Dir(file), 0o755), os.WriteFile(file, []byte(text), 0o644)); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func (d *desk) at(name string) string { return filepath.Join(d.dir, filepath.FromSlash(name)) }

func (d *desk) read(name string) string {
	d.t.Helper()
	data, err := os.ReadFile(d.at(name))
	if err != nil {
		d.t.Fatal(err)
	}
	return string(data)
}

func (d *desk) write(name, text string) {
	d.t.Helper()
	if err := os.MkdirAll(filepath.Dir(d.at(name)), 0o755); err != nil {
		d.t.Fatal(err)
	}
	if err := os.WriteFile(d.at(name), []byte(text), 0o644); err != nil {
		d.t.Fatal(err)
	}
	d.changed = append(d.changed, name)
}

func (d *desk) remove(name string) {
	d.t.Helper()
	if err := os.Remove(d.at(name)); err != nil {
		d.t.Fatal(err)
	}
	d.changed = append(d.changed, name)
}

func (d *desk) some(pattern string) string {
	d.t.Helper()
	all, err := filepath.Glob(d.at(pattern))
	if err != nil || len(all) == 0 {
		d.t.Fatal("nothing like ", pattern, err)
	}
	name, err := filepath.Rel(d.dir, all[d.r.IntN(len(all))])
	if err != nil {
		d.t.Fatal(err)
	}
	return filepath.ToSlash(name)
}

func (d *desk) retitle(name, title string) {
	lines := strings.SplitAfter(d.read(name), "\n")
	for i, l := range lines {
		if strings.HasPrefix(l, "title: ") {
			lines[i] = "title: " + title + "\n"
			break
		}
	}
	d.write(name, strings.Join(lines, ""))
}

// edits are what people do to a manual, by name. undo, where it is not nil, is done next.
var edits = []struct {
	name string
	do   func(d *desk) (undo func())
}{
	{"a sentence", func(d *desk) func() {
		name := d.some("*/*.md")
		d.write(name, d.read(name)+fmt.Sprintf("\nWipe the lid dry, number %d.\n", d.r.IntN(1000)))
		return nil
	}},
	{"a title", func(d *desk) func() {
		name := d.some("*/*.md")
		d.retitle(name, fmt.Sprintf("Another title %d", d.r.IntN(1000)))
		return nil
	}},
	{"a translation", func(d *desk) func() {
		name := d.some("*/*.es.md")
		d.retitle(name, fmt.Sprintf("Otro título %d", d.r.IntN(1000)))
		return nil
	}},
	{"an original with a translation", func(d *desk) func() {
		name := strings.Replace(d.some("*/*.es.md"), ".es.md", ".md", 1)
		d.retitle(name, fmt.Sprintf("Translated title %d", d.r.IntN(1000)))
		return nil
	}},
	{"a translation taken away", func(d *desk) func() {
		name := d.some("*/*.es.md")
		before := d.read(name)
		d.remove(name)
		return func() { d.write(name, before) }
	}},
	{"a new article that links and is linked", func(d *desk) func() {
		d.made++
		name, other := fmt.Sprintf("procedures/made-%d.md", d.made), d.some("procedures/*.md")
		d.write(name, strings.ReplaceAll(head, "%T", name)+"## First\n\nSee [that]("+filepath.Base(other)+").\n")
		d.write(other, d.read(other)+"\nAnd [this]("+filepath.Base(name)+").\n")
		return nil
	}},
	{"a heading that others link to", func(d *desk) func() {
		name := d.some("procedures/*.md")
		before := d.read(name)
		d.write(name, strings.Replace(before, "\n## ", "\n## Changed ", 1))
		return func() { d.write(name, before) }
	}},
	{"an article taken away", func(d *desk) func() {
		name := d.some("*/*.md")
		before := d.read(name)
		d.remove(name)
		return func() { d.write(name, before) }
	}},
	{"an article renamed", func(d *desk) func() {
		d.made++
		name, to := d.some("lessons/*.md"), fmt.Sprintf("lessons/renamed-%d.md", d.made)
		text := d.read(name)
		d.remove(name)
		d.write(to, text)
		return func() { d.remove(to); d.write(name, text) }
	}},
	{"a broken article", func(d *desk) func() {
		name := d.some("*/*.md")
		before := d.read(name)
		d.write(name, strings.TrimPrefix(before, "---\n"))
		return func() { d.write(name, before) }
	}},
	{"no article at all", func(d *desk) func() {
		name := d.some("*/*.md")
		before := d.read(name)
		d.write(name, "\xff\xfe")
		return func() { d.write(name, before) }
	}},
	{"the shop", func(d *desk) func() {
		before := d.read("shop.yaml")
		d.write("shop.yaml", strings.Replace(before, "altitude: 240 m", fmt.Sprintf("altitude: %d m", 100+d.r.IntN(500)), 1))
		return func() { d.write("shop.yaml", before) }
	}},
	{"the glossary", func(d *desk) func() {
		d.write("glossary.yaml", d.read("glossary.yaml")+fmt.Sprintf("made up %d: {means: Nothing at all., also-called: [thing %d]}\n", d.r.IntN(1e6), d.r.IntN(1e6)))
		return nil
	}},
	{"a picture", func(d *desk) func() {
		name := d.some("soils/*.md")
		d.write("pictures/made.svg", fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><circle r="%d"/></svg>`, 1+d.r.IntN(8)))
		d.write(name, d.read(name)+"\n![A round spot](../pictures/made.svg)\n")
		return nil
	}},
	{"the shop's own style", func(d *desk) func() {
		d.write("theme/styles/zz-own.css", fmt.Sprintf("h1 { letter-spacing: %dpx; }\n", d.r.IntN(9)))
		return func() { d.remove("theme/styles/zz-own.css") }
	}},
	{"the shop's own template", func(d *desk) func() {
		text, err := os.ReadFile("../themes/templates/list.html")
		if err != nil {
			d.t.Fatal(err)
		}
		d.write("theme/templates/list.html", strings.Replace(string(text), "<h1>", fmt.Sprintf("<h1 class=\"own-%d\">", d.r.IntN(9)), 1))
		return func() { d.remove("theme/templates/list.html") }
	}},
	{"nothing", func(d *desk) func() { d.changed = append(d.changed, d.some("*/*.md")); return nil }},
	{"who knows", func(d *desk) func() {
		name := d.some("*/*.md")
		d.write(name, d.read(name)+"\nDry it.\n")
		d.changed = nil
		return nil
	}},
}

var revisions = regexp.MustCompile(`(?m)^(revision|translates): .*$`)

// underOtherRevisions is a manual in a state before its present revisions, so that what is changed in these needs no further ones.
func underOtherRevisions(t *testing.T, source string) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS(source)); err != nil {
		t.Fatal(err)
	}
	articles, err := filepath.Glob(filepath.Join(dir, "*", "*.md"))
	if err != nil || len(articles) == 0 {
		t.Fatal("no articles", err)
	}
	for _, name := range articles {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, revisions.ReplaceAll(data, []byte("$1: before")), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// sat is a sitting beside which each edition is published once as well.
type sat struct {
	*desk
	s              *Sitting
	base, to       string // the edition before the sitting, and the sitting's
	whole, stopped int
}

// sit begins a sitting at a desk, after an edition of the same manual.
func sit(t *testing.T, d *desk) *sat {
	t.Helper()
	s := &sat{desk: d, s: NewSitting(), base: filepath.Join(t.TempDir(), "edition"), to: filepath.Join(t.TempDir(), "edition")}
	if r, err := publish(t, underOtherRevisions(t, d.dir), s.base, day); err != nil {
		t.Fatal(err, r.Findings)
	}
	l, err := listIn(s.base)
	if err != nil {
		t.Fatal(err)
	}
	entry := ledger.Entry{Number: 1, Date: "2026-11-30", Digest: l.Source} // so that every edition of the sitting tells what has changed since that one
	_, text := ledger.Ledger{}.With(entry)
	if err := errors.Join(os.CopyFS(s.to, os.DirFS(s.base)), os.WriteFile(d.at(ledger.File), text, 0o644)); err != nil {
		t.Fatal(err)
	}
	return s
}

// step publishes what was done, in the sitting and once, and compares.
func (s *sat) step(what string) {
	t := s.t
	t.Helper()
	old := files(t, s.to)
	got, err := Publish(context.Background(), Options{Manual: s.dir, To: s.to, Now: day, Draft: true, Sitting: s.s, Changed: s.changed})
	fresh := filepath.Join(t.TempDir(), "edition")
	if err := os.CopyFS(fresh, os.DirFS(s.base)); err != nil {
		t.Fatal(err)
	}
	want, wanted := Publish(context.Background(), Options{Manual: s.dir, To: fresh, Now: day, Draft: true})
	if !errors.Is(err, wanted) && fmt.Sprint(err) != fmt.Sprint(wanted) {
		t.Fatalf("%s %v: %v, wanted %v", what, s.changed, err, wanted)
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%s %v: report %+v,\nwanted %+v", what, s.changed, got, want)
	}
	if now := files(t, s.to); err != nil {
		s.stopped++
		if !maps.Equal(now, old) {
			t.Errorf("%s %v: stopped by %v, and the edition is another", what, s.changed, err)
		}
	} else {
		s.whole++
		compare(t, fmt.Sprint(what, " ", s.changed), now, files(t, fresh))
	}
	if r, err := edition.Verify(context.Background(), os.DirFS(s.to)); err != nil || !r.OK {
		t.Errorf("%s %v: the edition is not whole: %v %+v", what, s.changed, err, r)
	}
	if s.changed = []string{}; t.Failed() {
		t.FailNow()
	}
}

// end ends the sitting, which leaves nothing beside its edition.
func (s *sat) end() {
	s.t.Helper()
	if err := s.s.Close(); err != nil {
		s.t.Fatal(err)
	}
	if beside, err := filepath.Glob(filepath.Join(filepath.Dir(s.to), ".edition.coming-*")); err != nil || len(beside) > 0 {
		s.t.Errorf("the sitting left %v %v", beside, err)
	}
}

// Whatever is done to a manual in a sitting, each edition is to the byte the one that publishing the manual once would put in place of the edition
// before the sitting; and where a publication is stopped or fails, the sitting's edition stays as it was.
func TestSittingGivesTheSameBytes(t *testing.T) {
	t.Parallel()
	s := sit(t, newDesk(t, 7, plainManual(t)))
	s.step("the beginning")
	for _, i := range s.r.Perm(len(edits)) {
		undo := edits[i].do(s.desk)
		s.step(edits[i].name)
		if undo != nil {
			undo()
			s.step(edits[i].name + ", undone")
		}
	}
	if s.whole < 10 || s.stopped < 3 {
		t.Errorf("%d editions and %d stopped: the edits do not try what they should", s.whole, s.stopped)
	}
	s.end()
}

// So it is with a manual of every kind of article and with the usual look: the demo's, in which an article that others name gets another title.
func TestSittingWithTheDemoGivesTheSameBytes(t *testing.T) {
	t.Parallel()
	s := sit(t, newDesk(t, 7, demoManual))
	s.step("the beginning")
	s.retitle("soils/wax.md", "Waxes and paraffins")
	s.step("a title")
	if s.whole != 2 {
		t.Errorf("%d editions", s.whole)
	}
	s.end()
}

func compare(t *testing.T, what string, got, want map[string]string) {
	t.Helper()
	if maps.Equal(got, want) {
		return
	}
	for _, name := range slices.Sorted(maps.Keys(want)) {
		if _, there := got[name]; !there {
			t.Errorf("%s: %s is missing", what, name)
		} else if got[name] != want[name] {
			t.Errorf("%s: %s is another", what, name)
		}
	}
	for name := range got {
		if _, there := want[name]; !there {
			t.Errorf("%s: %s is left over", what, name)
		}
	}
}

// Somebody else publishes into the same folder, a file of the edition is deleted by hand, a write fails: the next edition is whole all the same.
func TestSittingIsDisturbed(t *testing.T) {
	t.Parallel()
	d := newDesk(t, 3, plainManual(t))
	to := filepath.Join(t.TempDir(), "edition")
	s := NewSitting()
	defer s.Close()
	sit := func() error {
		d.write("soils/rust.md", d.read("soils/rust.md")+fmt.Sprintf("\nOnce more, %d.\n", d.r.IntN(1e6)))
		changed := d.changed
		d.changed = nil
		_, err := Publish(context.Background(), Options{Manual: d.dir, To: to, Now: day, Draft: true, Sitting: s, Changed: changed})
		return err
	}
	check := func(what string) {
		t.Helper()
		fresh := filepath.Join(t.TempDir(), "edition")
		if r, err := Publish(context.Background(), Options{Manual: d.dir, To: fresh, Now: day, Draft: true}); err != nil {
			t.Fatal(err, r.Findings)
		}
		compare(t, what, files(t, to), files(t, fresh))
	}
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	must(sit())
	must(sit())
	check("at rest")

	must(os.Remove(filepath.Join(to, "soils", "chips.html")))
	must(os.RemoveAll(filepath.Join(to, "assets")))
	must(sit())
	check("files deleted")

	_, err := publish(t, underOtherRevisions(t, plainManual(t)), to, day.AddDate(0, 0, 1))
	must(err)
	must(sit())
	check("another publication")

	beside, err := filepath.Glob(filepath.Join(filepath.Dir(to), ".edition.coming-*"))
	if err != nil || len(beside) != 1 {
		t.Fatal(beside, err)
	}
	must(os.RemoveAll(beside[0]))
	must(sit())
	check("the folder that lay ready deleted")

	old := files(t, to)
	ctx, cancel := context.WithCancel(context.Background())
	d.retitle("soils/rust.md", "Red rust")
	_, err = Publish(ctx, Options{Manual: d.dir, To: to, Now: day, Draft: true, Sitting: s, Changed: d.changed, Ready: func(string, []byte) { cancel() }})
	if err == nil {
		t.Fatal("a publication that was ended half-way is whole")
	}
	if !maps.Equal(old, files(t, to)) {
		t.Error("a publication that was ended half-way changed the edition")
	}
	if r, err := edition.Verify(context.Background(), os.DirFS(to)); err != nil || !r.OK {
		t.Errorf("the edition is not whole: %v %+v", err, r)
	}
	d.changed = nil
	must(sit())
	check("after a failure")
}
