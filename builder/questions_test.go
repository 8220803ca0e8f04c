package builder

import (
	"cmp"
	"context"
	"maps"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"tankside/builder/manual"
	"tankside/builder/page"
	"tankside/search"
	"tankside/themes"
)

// The questions about tools, as they stand in the demo's index. Half of them, drawn by lot, were aside at first and had success@1 0.83 and success@3 0.91 when they were
// first scored, 0.92 and 0.94 before anybody looked at which of them failed; all of them have been tuned on since.
func TestQuestionsOfTools(t *testing.T) {
	t.Parallel()
	f := demoFinder(t)
	succeed(t, f, "tools", questionsOf(t, "../testdata/questions-tools.tsv"), 0.95, 0.98, true)
}

// The questions of an operator, a trainer, a technician, an engineer and a safety officer: the half that was drawn by lot before the first scoring is aside, and which of
// it fail is not said.
func TestQuestionsOfPeople(t *testing.T) {
	t.Parallel()
	aside, tuned := drawn(questionsOf(t, "../testdata/questions-people.tsv"))
	if len(aside) < 120 || len(tuned) < 120 {
		t.Fatalf("%d questions aside, %d tuned on", len(aside), len(tuned))
	}
	f := demoFinder(t)
	succeed(t, f, "tuned", tuned, 0.91, 0.99, true)
	succeed(t, f, "more", questionsOf(t, "../testdata/questions-more.tsv"), 0.87, 0.98, true)
	succeed(t, f, "aside", aside, 0.90, 0.98, false) // as it had at its first scoring; 0.95 and 0.99 are wanted
}

// Every page of the program, every tank and every calculator is found first by its own name, in each language.
func TestToolsAreFoundByName(t *testing.T) {
	t.Parallel()
	m, _, err := manual.Read(context.Background(), os.DirFS("../content"))
	if err != nil {
		t.Fatal(err)
	}
	tools, err := page.Tools(m, themes.New(nil))
	if err != nil {
		t.Fatal(err)
	}
	f := demoFinder(t)
	for _, tool := range tools {
		a, err := f.Ask(context.Background(), search.Question{Words: tool.Title, Language: tool.Language})
		if err != nil {
			t.Fatal(err)
		}
		if len(a.Hits) == 0 || a.Hits[0].Path != tool.Path || a.Hits[0].Language != tool.Language {
			t.Errorf("%q (%s) leads to %+v, not to %s", tool.Title, tool.Language, a.Hits[:min(2, len(a.Hits))], tool.Path)
		}
	}
}

// drawn parts lines by lot: the first half and the rest of them shuffled.
func drawn(lines []string) (aside, rest []string) {
	half := len(lines) / 2
	for i, n := range rand.New(rand.NewPCG(20261129, 2)).Perm(len(lines)) {
		if i < half {
			aside = append(aside, lines[n])
		} else {
			rest = append(rest, lines[n])
		}
	}
	return aside, rest
}

// With the tools in the index the questions that were written before them lead where they led.
func TestToolsLeaveOtherQuestionsAlone(t *testing.T) {
	t.Parallel()
	f := demoFinder(t)
	succeed(t, f, "everyday", questionsOf(t, "../search/testdata/questions.tsv"), 0.88, 0.99, false)
	succeed(t, f, "unseen", questionsOf(t, "../testdata/questions.tsv"), 0.84, 0.95, false)
}

func questionsOf(t *testing.T, file string) (lines []string) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		if line = strings.TrimSpace(line); line != "" && line[0] != '#' {
			lines = append(lines, line)
		}
	}
	return lines
}

// demoFinder is the search of the demo manual as it is published.
func demoFinder(t testing.TB) *search.Finder {
	t.Helper()
	m, _, err := manual.Read(context.Background(), os.DirFS("../content"))
	if err != nil {
		t.Fatal(err)
	}
	tools, err := page.Tools(m, themes.New(nil))
	if err != nil {
		t.Fatal(err)
	}
	blob, err := search.Index(documents(m, tools), synonyms(m))
	if err != nil {
		t.Fatal(err)
	}
	f, err := search.Open(blob)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := f.Close(); err != nil {
			t.Error(err)
		}
	})
	return f
}

// succeed asks questions and wants the given shares of them to lead to what answers them, first and among the first three. Columns: the question; what answers
// it; its class, if any; the language of the page that it is asked from, English without.
func succeed(t *testing.T, f *search.Finder, name string, lines []string, atOne, atThree float64, each bool) {
	t.Helper()
	type score struct{ asked, first, third float64 }
	var all score
	classes := map[string]score{}
	for _, line := range lines {
		columns := append(strings.Split(line, "\t"), "", "", "")
		question, answers, class, language := columns[0], strings.Split(columns[1], ","), columns[2], cmp.Or(columns[3], "en")
		a, err := f.Ask(context.Background(), search.Question{Words: question, Language: language})
		if err != nil {
			t.Fatal(err)
		}
		rank := slices.IndexFunc(a.Hits, func(h search.Hit) bool { return answersTo(h, answers) })
		for _, to := range []struct {
			*score
			class string
		}{{score: &all}, {class: class}, {class: language}} {
			of := classes[to.class]
			if to.score == nil {
				to.score = &of
			}
			to.asked++
			if rank == 0 {
				to.first++
			}
			if rank >= 0 && rank < 3 {
				to.third++
			}
			if to.class != "" {
				classes[to.class] = of
			}
		}
		if rank != 0 && each {
			var paths []string
			for _, h := range a.Hits[:min(3, len(a.Hits))] {
				paths = append(paths, h.Path)
			}
			t.Logf("%q leads to %q at %d, to %v first", question, answers, rank+1, paths)
		}
	}
	for _, class := range slices.Sorted(maps.Keys(classes)) {
		of := classes[class]
		t.Logf("%s, %s: %.0f questions, success@1 %.3f, success@3 %.3f", name, class, of.asked, of.first/of.asked, of.third/of.asked)
	}
	one, three := all.first/all.asked, all.third/all.asked
	t.Logf("%s: %d questions, success@1 %.3f, success@3 %.3f", name, len(lines), one, three)
	if one < atOne || three < atThree {
		t.Errorf("%s: success@1 %.3f, success@3 %.3f; wanted %.2f and %.2f", name, one, three, atOne, atThree)
	}
}

// answersTo tells whether a hit is one of the answers: an article, a page or tank by its path, glossary# and a term, sum: and a calculator; in whatever language.
func answersTo(h search.Hit, answers []string) bool {
	at, anchor, _ := strings.Cut(h.Path, "#")
	at = strings.TrimSuffix(strings.TrimSuffix(at, ".html"), ".es")
	for _, want := range answers {
		want = strings.TrimSpace(want)
		if sum, is := strings.CutPrefix(want, "sum:"); is {
			if anchor == "sum-"+sum {
				return true
			}
			continue
		}
		if term, is := strings.CutPrefix(want, "glossary#"); is {
			if at == "glossary" && anchor == term {
				return true
			}
			continue
		}
		if at == strings.TrimSuffix(strings.TrimSuffix(want, ".md"), ".html") {
			return true
		}
	}
	return false
}
