package manual

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"tankside/builder/finding"
)

const smallShop = `name: Invented shop
tanks:
  - {id: wash-1, name: Wash 1, volume: 120 L}
rinses:
  - {id: rinse-1, name: Rinse}
dryer: {id: dryer, name: Dryer}
roles: [operator, process engineer]
`

// soilHead is a header without fault; the body begins on line 11.
const soilHead = `---
title: Wax
summary: Wax comes off above its melting point.
station: wash
revision: A
approved: 2026-09-14, process engineer
review-by: 2027-09-14
sources: [common practice, no source]
nature: wax
---
`

// files is a small manual of the given files.
func files(more map[string]string) fstest.MapFS {
	fsys := fstest.MapFS{ShopFile: {Data: []byte(smallShop)}}
	for name, text := range more {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return fsys
}

func read(t testing.TB, fsys fs.FS) (*Manual, []finding.Finding) {
	t.Helper()
	m, list, err := Read(context.Background(), fsys)
	if err != nil {
		t.Fatal(err)
	}
	return m, list
}

// places writes findings as "file:line:column rule", sorted.
func places(list []finding.Finding) string {
	var lines []string
	for _, f := range list {
		lines = append(lines, f.Place.String()+" "+string(f.Rule))
	}
	slices.Sort(lines)
	return strings.Join(lines, "\n")
}

func TestReadsEveryPartOfAnArticle(t *testing.T) {
	m, list := read(t, files(map[string]string{
		"chemistries/mild-alkaline.md": `---
title: Mild alkaline cleaner
summary: The everyday wash.
station: wash
revision: C
approved: 2026-09-14, process engineer
review-by: 2027-09-14
sources:
  - common practice, no source
also-called: [soap, wash]
ph: 9–11
strength: 2–8 % v/v
temperature: 120–150 °F
ceiling: 75 °C
contains: [phosphate]
removes: [wax]
hazards: [H315]
never-with: [acid, hypochlorite]
---
Before the first heading. See [wax](../soils/wax.md#what-it-is).

> **WARNING** Burns eyes.
> Goggles.

## What it *is*

Text with ` + "`code`" + ` and ![two drops](../pictures/drops.svg).

### Where it is used

    listing

## What it *is*

` + "```calculator heat-up\ntank: wash-1\ntarget: 62 °C\n```\n",
		"soils/wax.md":       soilHead + "## What it is\n",
		"pictures/drops.svg": `<svg xmlns="http://www.w3.org/2000/svg"/>`,
	}))
	if len(list) > 0 {
		t.Fatalf("findings in a manual without fault:\n%s", places(list))
	}
	a := m.Named(Chemistry, "mild-alkaline")
	if a == nil || a != m.At("chemistries/mild-alkaline.md") {
		t.Fatal("the article is not found by its name and by its path")
	}
	got := fmt.Sprintf("%q %q %v %v %q", a.Head.Title, a.Head.Revision, a.Head.Approval.Day.Format(time.DateOnly), a.Head.ReviewBy.Format(time.DateOnly), a.Head.Approval.Role)
	if want := `"Mild alkaline cleaner" "C" 2026-09-14 2027-09-14 "process engineer"`; got != want {
		t.Errorf("head: %s, want %s", got, want)
	}
	// 120 °F is 48.888… °C and 150 °F is 65.555… °C: NIST SP 811 (2008), B.8, t/°C = (t/°F − 32)/1.8.
	if c := a.Chemistry.Temperature; c.Low < 48.88 || c.Low > 48.89 || c.High < 65.55 || c.High > 65.56 || c.At.String() != "chemistries/mild-alkaline.md:13:14" {
		t.Errorf("temperature: %v at %v", c.Range, c.At)
	}
	var sections []string
	for _, s := range a.Sections {
		sections = append(sections, fmt.Sprintf("%d %s #%s %d:%d %q", s.Level, s.Heading, s.Anchor, s.At.Line, s.At.Column, s.Text))
	}
	want := []string{
		`0  # 20:1 "Before the first heading. See wax.\nWARNING Burns eyes. Goggles."`,
		`2 What it is #what-it-is 25:1 "Text with code and two drops."`,
		`3 Where it is used #where-it-is-used 29:1 "listing"`,
		`2 What it is #what-it-is-2 33:1 ""`,
	}
	if !slices.Equal(sections, want) {
		t.Errorf("sections:\n%s\nwant\n%s", strings.Join(sections, "\n"), strings.Join(want, "\n"))
	}
	if l := a.Links[0]; len(a.Links) != 1 || l.Target != "../soils/wax.md#what-it-is" || l.Text != "wax" || l.At.String() != "chemistries/mild-alkaline.md:20:31" {
		t.Errorf("links: %+v", a.Links)
	}
	if p := a.Pictures[0]; len(a.Pictures) != 1 || p.Text != "two drops" || p.At.Line != 27 {
		t.Errorf("pictures: %+v", a.Pictures)
	}
	if s := a.Signals[0]; len(a.Signals) != 1 || s.Word != "WARNING" || s.Text != "Burns eyes. Goggles." || s.At.Line != 22 {
		t.Errorf("signals: %+v", a.Signals)
	}
	if s := a.Sums[0]; len(a.Sums) != 1 || s.Calculator != "heat-up" || s.At.Line != 35 || len(s.Inputs) != 2 || s.Inputs[1].Value != "62 °C" || s.Inputs[1].At.Line != 37 {
		t.Errorf("sums: %+v", a.Sums)
	}
	to, problem := m.Resolve(a, a.Links[0].Target)
	if problem != nil || to.Article != m.At("soils/wax.md") || to.Section == nil || to.Section.Heading != "What it is" {
		t.Errorf("link leads to %+v, %v", to, problem)
	}
}

// Each case is one mistake in an otherwise sound article, with the place and rule that must be reported and nothing else.
func TestSaysWhereTheMistakeIs(t *testing.T) {
	change := func(old, new string) string { return strings.Replace(soilHead, old, new, 1) }
	for name, c := range map[string]struct{ text, want string }{
		"unknown key":           {change("station:", "statoin:"), "2:1 missing-key|4:1 unknown-key"},
		"unknown word":          {change("nature: wax", "nature: waxy"), "9:9 unknown-word"},
		"wrong station":         {change("station: wash", "station: washing"), "4:10 unknown-word"},
		"date that is none":     {change("2027-09-14", "14.9.2027"), "7:12 wrong-value"},
		"no role":               {change(", process engineer", ""), "6:11 wrong-value"},
		"unknown role":          {change("process engineer", "proces engineer"), "6:11 unknown-name"},
		"list for a text":       {change("title: Wax", "title: [Wax, Paraffin]"), "2:8 wrong-value"},
		"no value":              {change("title: Wax", "title:"), "2:1 wrong-value"},
		"key twice":             {change("revision: A", "revision: A\nrevision: B"), "6:1 duplicate-key"},
		"colon in a value":      {change("title: Wax", "title: Wax: hard"), "2:1 unreadable-yaml"},
		"tab":                   {change("title: Wax", "\ttitle: Wax"), "2:1 unreadable-yaml"},
		"header is a list":      {"---\n- one\n---\n", "2:1 unreadable-yaml"},
		"no header":             {"Wax\n", "1:1 no-header"},
		"header not closed":     {"---\ntitle: Wax\n", "1:1 no-header"},
		"title too long":        {change("title: Wax", "title: "+strings.Repeat("wax ", 21)), "2:8 wrong-value"},
		"unknown soil remover":  {change("nature: wax", "nature: wax\nremoved-by: [{chemistry: none, temperature: 60 °C}]"), "10:26 unknown-name"},
		"unit missing":          {change("nature: wax", "nature: wax\nremoved-by: [{chemistry: none, temperature: 60}]"), "10:26 unknown-name|10:47 wrong-quantity"},
		"wrong unit":            {change("nature: wax", "nature: wax\nremoved-by: [{chemistry: none, time: 60 °C}]"), "10:26 unknown-name|10:41 wrong-quantity"},
		"lone per cent":         {change("nature: wax", "nature: wax\nremoved-by: [{chemistry: none, strength: 5 %}]"), "10:26 unknown-name|10:44 wrong-quantity"},
		"range backwards":       {change("nature: wax", "nature: wax\nremoved-by: [{chemistry: none, time: 9–3 min}]"), "10:26 unknown-name|10:40 wrong-quantity"},
		"raw HTML block":        {soilHead + "a\n\n<script>alert(1)</script>\n", "13:1 raw-html"},
		"raw HTML in a line":    {soilHead + "a <b>b</b>\n", "11:3 raw-html|11:7 raw-html"},
		"raw HTML in a table":   {soilHead + "| a |\n| --- |\n| <i>x |\n", "13:3 raw-html"},
		"level 1":               {soilHead + "# Wax\n", "11:1 top-heading"},
		"signal word small":     {soilHead + "> **Warning** Hot.\n", "11:3 unclear-signal"},
		"signal word outside":   {soilHead + "**WARNING** Hot.\n", "11:1 unclear-signal"},
		"two signals a quote":   {soilHead + "> **WARNING** Hot.\n>\n> **CAUTION** Wet.\n", "13:3 unclear-signal"},
		"calculator nameless":   {soilHead + "```calculator\n```\n", "11:1 unreadable-calculator"},
		"calculator not YAML":   {soilHead + "```calculator heat-up\ntank: [\n```\n", "12:1 unreadable-yaml"},
		"calculator with list":  {soilHead + "```calculator heat-up\ntank: [wash-1]\n```\n", "12:1 unreadable-calculator"},
		"calculator input dup":  {soilHead + "```calculator heat-up\ntank: wash-1\ntank: wash-1\n```\n", "13:1 duplicate-key"},
		"calculator in a list":  {soilHead + "- a\n\n  ```calculator heat-up\n  tank: [wash-1]\n  ```\n", "14:3 unreadable-calculator"},
		"accept without reason": {change("nature: wax", "nature: wax\naccept: [{rule: orphan}]"), "10:10 missing-key"},
		// Nothing to say:
		"sound":                    {soilHead + "## Text\n\n> A quotation, **WARNING** later in it.\n\n> **WARNING:** with a colon.\n\nLess than < 5 %, `<b>`, a\\<b.\n", ""},
		"windows line ends":        {strings.ReplaceAll(soilHead+"## Text\n", "\n", "\r\n"), ""},
		"byte order mark":          {"\uFEFF" + soilHead, ""},
		"header ends the file":     {strings.TrimSuffix(soilHead, "\n"), ""},
		"blanks after the hyphens": {strings.ReplaceAll(soilHead, "---\n", "--- \n"), ""},
		"rule in the text":         {soilHead + "a\n\n---\n\nb\n", ""},
	} {
		t.Run(name, func(t *testing.T) {
			_, list := read(t, files(map[string]string{"soils/wax.md": c.text}))
			got := strings.ReplaceAll(strings.ReplaceAll(places(list), "soils/wax.md:", ""), "\n", "|")
			if got != c.want {
				t.Errorf("got %s\nwant %s", got, c.want)
				for _, f := range list {
					t.Log(f.Place, f.Message, f.Remedy)
				}
			}
			for _, f := range list {
				if f.Message == "" || f.Why == "" || f.Remedy == "" || !strings.HasSuffix(f.Message, ".") && !strings.HasSuffix(f.Message, "?") && !strings.Contains(f.Message, "HTML") {
					t.Errorf("half a note: %+v", f)
				}
			}
		})
	}
}

func TestSuggestsWhatWasMeant(t *testing.T) {
	fsys := files(map[string]string{"soils/wax.md": strings.NewReplacer("summary", "sumary", "nature: wax", "nature: resn", "process engineer", "procces engineer").Replace(soilHead)})
	_, list := read(t, fsys)
	for _, want := range []string{"did you mean “summary”", "did you mean “resin”", "did you mean “process engineer”"} {
		if !slices.ContainsFunc(list, func(f finding.Finding) bool { return strings.Contains(f.Message, want) }) {
			t.Errorf("nothing says %s", want)
		}
	}
}

func TestUnusableFolders(t *testing.T) {
	empty := t.TempDir()
	file := filepath.Join(empty, "file")
	for name, c := range map[string]struct {
		fsys fs.FS
		want string
	}{
		"missing": {os.DirFS(filepath.Join(empty, "not-there")), "cannot be opened"},
		"empty":   {os.DirFS(empty), "is empty"},
		"no shop": {fstest.MapFS{"soils/wax.md": {Data: []byte(soilHead)}}, "has no shop.yaml"},
		"file":    {os.DirFS(file), "cannot be opened"},
	} {
		if name == "file" {
			if err := os.WriteFile(file, []byte("x"), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		m, list, err := Read(context.Background(), c.fsys)
		var unusable *UnusableError
		if m != nil || list != nil || !errors.As(err, &unusable) || unusable.Remedy == "" || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, %v, %v", name, m, list, err)
		}
		if err := os.Remove(file); err != nil && !errors.Is(err, fs.ErrNotExist) {
			t.Fatal(err)
		}
	}
	cancelled, cancel := context.WithCancel(context.Background())
	cancel()
	if _, _, err := Read(cancelled, files(nil)); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

func TestArticlesComeByPathWhateverTheOrderOfReading(t *testing.T) {
	many := map[string]string{}
	for i := range 300 {
		many[fmt.Sprintf("soils/wax-%03d.md", i)] = soilHead
	}
	m, _ := read(t, files(many))
	if m.Count() != 300 || !slices.IsSortedFunc(m.articles, func(a, b *Article) int { return strings.Compare(a.Path, b.Path) }) {
		t.Fatalf("%d articles, sorted or not", m.Count())
	}
}
