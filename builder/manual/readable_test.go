package manual

import (
	"context"
	"fmt"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"tankside/builder/finding"
)

const headOfTest = "---\ntitle: T\nsummary: S.\nstation: wash\nrevision: A\napproved: 2026-09-14, operator\nreview-by: 2027-09-14\nsources: [common practice, no source]\n---\n"

// readBodyOf reads a manual of one procedure with that text.
func readBodyOf(t testing.TB, body string) []finding.Finding {
	t.Helper()
	_, list, err := Read(context.Background(), fstest.MapFS{
		"shop.yaml":          {Data: []byte("name: S\nroles: [operator]\n")},
		"procedures/fill.md": {Data: []byte(headOfTest + body)},
	})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// What would take memory or time without end is refused, at once, with its line; the near misses are read.
func TestBombsAreRefused(t *testing.T) {
	row := func(n int) string { return strings.Repeat("| a ", n) + "|\n" }
	line := func(n int) string { return strings.Repeat("| - ", n) + "|\n" }
	steps := func(signs, lines int) (text string) { // each line's lists within those of the line before
		for i := range lines {
			text += strings.Repeat("  ", signs*i) + strings.Repeat("- ", signs) + "a\n\n"
		}
		return text
	}
	tabs := func(lines int) (text string) {
		for i := range lines {
			text += strings.Repeat("\t", i) + "-\ta\n\n"
		}
		return text
	}
	for what, c := range map[string]struct{ bomb, near string }{
		"blocks":            {strings.Repeat("a\n\n", 3001), strings.Repeat("a\n\n", 3000)},
		"listings":          {strings.Repeat("```\na\n```\n", 101), strings.Repeat("```\na\n```\n", 100)},
		"lines of listings": {"```\n" + strings.Repeat("12:00 on\n", 60_000) + "```\n", "```\n" + strings.Repeat("12:00 on\n", 40_000) + "```\n"},
		"brackets":          {strings.Repeat(strings.Repeat("[a](", 500)+"\n\n", 21), strings.Repeat(strings.Repeat("[a](", 500)+"\n\n", 20)},
		"backticks of one":  {strings.Repeat("`a` b ", 1001), strings.Repeat("`a` b. ", 900)},
		"brackets of one":   {strings.Repeat("[", 2001), strings.Repeat("[", 2000)},
		"brackets, lines":   {strings.Repeat("[\n", 2001), "```\n" + strings.Repeat("[", 20_000) + "\n```\n"},
		"numbers":           {strings.Repeat("1–2 °C and 3.5 mm\n\n", 2900) + strings.Repeat("1 2 3 4 5\n", 400), strings.Repeat("1–2 °C and 3.5 mm\n\n", 2900)},
		"columns":           {row(3000) + line(3000) + strings.Repeat("|\n", 5000), row(64) + line(64) + row(64)},
		"cells":             {row(60) + line(60) + strings.Repeat("|\n", 10_000), row(60) + line(60) + strings.Repeat("|\n", 300)},
		"in a quote":        {"> " + row(3000) + "> " + line(3000) + strings.Repeat("> |\n", 3000), "> " + row(8) + "> " + line(8) + strings.Repeat("> |\n", 30)},
		"in a list":         {"- " + row(3000) + "  " + line(3000) + strings.Repeat("  |\n", 3000), "- " + row(8) + "  " + line(8)},
		"without bars":      {strings.Repeat("a|", 2000) + "a\n" + strings.Repeat("-|", 2000) + "-\n" + strings.Repeat("|\n", 3000), "a|b\n-|-\n|\n"},
		"many tables":       {strings.Repeat(row(64)+line(64)+strings.Repeat("|\n", 300)+"\n", 900), strings.Repeat(row(64)+line(64)+strings.Repeat("|\n", 100)+"\n", 3)},
		"quotes":            {strings.Repeat("> ", 10_000) + "a\n", strings.Repeat("> ", 20) + "a\n"},
		"quotes in a list":  {"- a\n  ```\n" + strings.Repeat("> ", 400_000) + "\n", "- a\n  ```\n  > > >\n  ```\n"},
		"text after a list": {"- a\n  ```\n" + strings.Repeat("*a_ ", 100_000) + "\n", "- a\n  ```\n" + strings.Repeat("  a b\n", 20_000) + "  ```\n"},
		"lists":             {strings.Repeat("- ", 10_000) + "a\n", strings.Repeat("- ", 20) + "a\n"},
		"lists over lines":  {steps(13, 12), steps(4, 5) + "\nText.\n\n" + steps(4, 5)},
		"lists with blanks": {steps(1, 600), steps(1, 20)},
		"lists by tabs":     {tabs(200), tabs(20)},
		"lists in a quote":  {"> " + strings.ReplaceAll(steps(6, 30), "\n", "\n> "), "> " + strings.ReplaceAll(steps(4, 5), "\n", "\n> ") + "\n"},
		"sentences":         {strings.Repeat(strings.Repeat("Burns. ", 3000)+"\n\n", 6), strings.Repeat(strings.Repeat("Burns. ", 3000)+"\n\n", 5)},
		"a sentence":        {strings.Repeat("and wear gloves ", 200), strings.Repeat("and wear gloves ", 160)},
		"sentence on lines": {strings.Repeat("> and wear\n> gloves\n", 200), strings.Repeat("And wear **gloves.** ", 200)},
		"items and cells":   {row(3) + line(3) + strings.Repeat("and wear gloves ", 200), strings.Repeat("- and wear gloves\n", 200) + "\n" + row(3) + line(3) + strings.Repeat(row(3), 200)},
		"numbered lists":    {strings.Repeat("1. ", 9_000) + "a\n", "1. 2. 3. a\n"},
		"headings":          {strings.Repeat("## a\n\n", 150_000), strings.Repeat("## a\n\n", 900)},
		"underlined":        {strings.Repeat("a\n-\n\n", 150_000), strings.Repeat("a\n-\n\n", 900)},
		"a listing":         {"```\n" + strings.Repeat("a", 100) + "\n```\n" + strings.Repeat("*a_ ", 10_000), "```\n" + strings.Repeat("> ", 100_000) + "\n" + strings.Repeat("| - ", 1000) + "\n```\n"},
	} {
		t.Run(what, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			begin := time.Now()
			list := readBodyOf(t, c.bomb)
			took := time.Since(begin)
			runtime.ReadMemStats(&after)
			if len(list) != 1 || list[0].Rule != "too-large" || list[0].Line < 10 {
				t.Errorf("the bomb: %.400v", list)
			}
			if mem := (after.TotalAlloc - before.TotalAlloc) >> 20; mem > 64 || took > 5*time.Second {
				t.Errorf("the bomb took %d MiB and %v", mem, took)
			}
			if list := readBodyOf(t, c.near); len(list) > 0 {
				t.Errorf("the near miss: %.400v", list)
			}
		})
	}
}

// Trees, calculators and tanks have an end as well.
func TestCountsAreLimited(t *testing.T) {
	tanks := func(n int) string {
		text := "name: S\nroles: [operator]\ntanks:\n"
		for i := range n {
			text += fmt.Sprintf("  - {id: t-%d, name: T, volume: 1 L}\n", i)
		}
		return text
	}
	tree := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, "## Step %d\n\nDo.\n\n", i)
		}
		return b.String()
	}
	dense := func(n int) string { // each step leads to each after it
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, "## Step %d\n\nDo.\n\n", i)
			for j := i + 1; j < n; j++ {
				fmt.Fprintf(&b, "- To %d: [Step %d](#step-%d)\n", j, j, j)
			}
			b.WriteString("\n")
		}
		return b.String()
	}
	const sum = "```calculator dilution\n```\n\n"
	for what, c := range map[string]struct {
		shop, path, body string
		found            int
	}{
		"many tanks": {tanks(101), "procedures/a.md", "A.\n", 1}, "tanks": {tanks(100), "procedures/a.md", "A.\n", 0},
		"many steps": {tanks(1), "symptoms/a.md", tree(201), 1}, "steps": {tanks(1), "symptoms/a.md", tree(200), 0}, "sections": {tanks(1), "procedures/a.md", tree(300), 0},
		"many answers": {tanks(1), "symptoms/a.md", dense(36), 1}, "answers": {tanks(1), "symptoms/a.md", dense(34), 0},
		"many messages": {tanks(1), "procedures/a.md", strings.Repeat("> **WARNING** Burns.\n\n", 301), 1}, "messages": {tanks(1), "procedures/a.md", strings.Repeat("> **WARNING** Burns.\n\n", 300), 0},
		"many sums": {tanks(1), "procedures/a.md", strings.Repeat(sum, 51), 1}, "sums": {tanks(1), "procedures/a.md", strings.Repeat(sum, 50), 0},
	} {
		m, list, err := Read(context.Background(), fstest.MapFS{"shop.yaml": {Data: []byte(c.shop)}, c.path: {Data: []byte(headOfTest + c.body)}})
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		for _, f := range list {
			if f.Rule == "too-large" {
				n++
			}
		}
		if n != c.found || len(m.Shop.Tanks) > 100 || n > 0 && len(m.At(c.path).Sums)+len(m.At(c.path).Sections) > 1 {
			t.Errorf("%s: %v", what, list)
		}
	}
}

// A mistake that is made thousands of times is told some hundred times, and that there is more.
func TestFindingsAreLimited(t *testing.T) {
	list := readBodyOf(t, strings.Repeat("<b>x</b>\n\n", 2900))
	if len(list) != finding.Most || !strings.Contains(list[len(list)-1].Message, "not told") || strings.Contains(list[0].Message, "not told") {
		t.Errorf("%d findings, the last %q", len(list), list[len(list)-1].Message)
	}
}

// A theme of thousands of files is refused.
func TestThemeOfManyFilesIsRefused(t *testing.T) {
	for n, want := range map[int]string{1000: "", 1001: "theme/styles/s1000.css too-large"} {
		fsys := files(map[string]string{})
		for i := range n {
			fsys[fmt.Sprintf("theme/styles/s%04d.css", i)] = &fstest.MapFile{Data: []byte("a{}")}
		}
		_, list := read(t, fsys)
		if got := places(list); got != want {
			t.Errorf("%d files: %s", n, got)
		}
	}
}
