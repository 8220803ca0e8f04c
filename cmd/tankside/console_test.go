package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tankside/builder/finding"
	"tankside/search"
)

func TestOptions(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		args []string
		rest string
		to   string
		json bool
		many string
		err  string
	}{
		{args: nil, to: "edition"},
		{args: []string{"a", "--to", "x", "b"}, rest: "a b", to: "x"},
		{args: []string{"--to=x=y"}, to: "x=y"},
		{args: []string{"--json", "--", "--to", "-x"}, rest: "--to -x", to: "edition", json: true},
		{args: []string{"--to", "a", "--to", "b"}, to: "b"},
		{args: []string{"--many", "a", "--many=b"}, to: "edition", many: "a b"},
		{args: []string{"-", "-5", "-.5"}, rest: "- -5 -.5", to: "edition"},
		{args: []string{"--to", "-5"}, to: "-5"},
		{args: []string{"--to=--json"}, to: "--json"},
		{args: []string{"--to"}, err: "needs a value"},
		{args: []string{"--to", "--json"}, err: "write --to=--json"},
		{args: []string{"--json=1"}, err: "takes no value"},
		{args: []string{"--jsno"}, err: "did you mean --json?"},
		{args: []string{"-j"}, err: "there is no option -j"},
		{args: []string{"---"}, err: "there is no option ---"},
	} {
		var o options
		to, json, many := o.text("to", "X", "", "edition"), o.yes("json", ""), o.texts("many", "X", "")
		rest, err := o.parse(c.args)
		if c.err != "" {
			if err == nil || !strings.Contains(err.Error(), c.err) {
				t.Errorf("%q: %v, want %q", c.args, err, c.err)
			}
			continue
		}
		if err != nil || strings.Join(rest, " ") != c.rest || *to != c.to || *json != c.json || strings.Join(*many, " ") != c.many {
			t.Errorf("%q: %q, --to %q, --json %v, --many %q, %v", c.args, rest, *to, *json, *many, err)
		}
	}
}

func TestDidYouMean(t *testing.T) {
	t.Parallel()
	names := []string{"publish", "proof", "watch", "heat-up"}
	for given, want := range map[string]string{
		"publsh": "publish", "porof": "proof", "pub": "publish", "heatup": "heat-up", "wacth": "watch", "wash": "watch",
		"x": "", "frobnicate": "", "": "", strings.Repeat("publish", 100): "",
	} {
		got := didYouMean(given, names)
		if want != "" {
			want = "; did you mean " + want + "?"
		}
		if got != want {
			t.Errorf("%q: %q, want %q", given, got, want)
		}
	}
}

func TestSentence(t *testing.T) {
	t.Parallel()
	_, missing := os.ReadFile(filepath.Join("none", "file.md"))
	for _, c := range []struct {
		err  error
		want string
	}{
		{errors.New("there is no tank"), "There is no tank."},
		{errors.New("did you mean this?"), "Did you mean this?"},
		{errors.New("Done."), "Done."},
		{errors.New("shop.yaml is damaged"), "shop.yaml is damaged."},
		{errors.New("heat-up needs a volume"), "heat-up needs a volume."},
		{missing, "“" + filepath.Join("none", "file.md") + "” cannot be read or written: no such file or directory."},
		{fmt.Errorf("the list: %w", &fs.PathError{Op: "open", Path: "x", Err: fs.ErrPermission}), "The list: open x: permission denied."},
	} {
		if got := sentence(c.err); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// Bold type and progress are for terminals; a desk is none.
func TestNoTerminal(t *testing.T) {
	t.Parallel()
	c, out, notes := desk("")
	c.tell("writing", 1, 2)
	c.endProgress()
	if got := c.strong("x"); got != "x" || out.String() != "" || notes.String() != "" || c.asks {
		t.Errorf("%q, %q, %q", got, out, notes)
	}
}

func TestTerminal(t *testing.T) {
	t.Parallel()
	c, out, notes := desk("")
	c.bold, c.progress = true, true
	c.tell("writing pages", 2, 2)
	c.tell("done", 0, 0)
	c.note("Edition 1.")
	// What stood there is written over, and the note begins on a clean line.
	if got, want := notes.String(), "\rwriting pages: 2 of 2\rdone                 \r    \rEdition 1.\n"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	c.tellHits("edition", 0, search.Answer{Hits: []search.Hit{{
		Path: "soils/wax.html#in-the-tank", Title: "Wax", Section: "In the tank", Kind: "soil", Station: "wash",
		Snippet: []search.Run{{Text: "Warm "}, {Text: "wax", Marked: true}, {Text: " melts."}},
	}}, Total: 3, Kinds: []search.Count{{Name: "soil", Articles: 3}}})
	at := filepath.Join("edition", "soils", "wax.html") + "#in-the-tank"
	if got, want := out.String(), "\x1b[1mWax\x1b[0m (soil, wash)\n    In the tank\n    Warm \x1b[1mwax\x1b[0m melts.\n    "+at+"\n\n"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if !strings.HasSuffix(notes.String(), "2 more: --from 1 goes on, --kind (soil 3) or another word narrows it.\n") {
		t.Errorf("%q", notes)
	}
}

func TestNoColour(t *testing.T) {
	t.Parallel()
	f, err := os.Open(os.DevNull)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	c := newConsole(f, f, f, func(name string) string { return map[string]string{"NO_COLOR": "1"}[name] })
	if c.bold || c.progress || c.asks {
		t.Errorf("bold %v, progress %v, asks %v", c.bold, c.progress, c.asks)
	}
}

func TestWriteFindings(t *testing.T) {
	t.Parallel()
	link := finding.Rule{Name: "broken-link", Severity: finding.Result, Why: "The reader is lost."}
	hot := finding.Rule{Name: "too-hot", Severity: finding.People, Why: "It scalds."}
	loose := finding.Rule{Name: "loose-end", Severity: finding.Untidy, Why: "It looks bad."}
	var b strings.Builder
	writeFindings(&b, "content", []finding.Finding{
		loose.At(finding.Place{File: "a.md"}, "A loose end.", "Tie it."),
		link.At(finding.Place{File: "a.md", Line: 3, Column: 4}, "The link “b.md” leads nowhere.", "Correct it."),
		link.At(finding.Place{File: "b.md", Line: 5, Column: 6}, "The link “c.md” leads nowhere.", "Correct it."),
		hot.At(finding.Place{File: "c.md", Line: 7, Column: 8}, "95 °C is too hot.", "Make it colder.", finding.Place{File: "shop.yaml", Line: 9, Column: 10}),
	}, strings.ToUpper)
	want := `SOMEBODY COULD BE HURT

TOO-HOT: It scalds.
  content/c.md:7:8: 95 °C is too hot.
      Make it colder.
      Compare content/shop.yaml:9:10

READERS WOULD GET A WRONG ANSWER, OR NONE

BROKEN-LINK: The reader is lost.
  content/a.md:3:4: The link “b.md” leads nowhere.
      Correct it.
  content/b.md:5:6: The link “c.md” leads nowhere.
      Correct it.

UNTIDY, THOUGH NOTHING BREAKS

LOOSE-END: It looks bad.
  content/a.md: A loose end.
      Tie it.

4 findings in 3 files; 3 of them stop publication.
`
	if got := filepath.ToSlash(b.String()); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
}

func TestClosing(t *testing.T) {
	t.Parallel()
	stop, untidy := finding.Finding{Severity: finding.Result, Place: finding.Place{File: "a"}}, finding.Finding{Severity: finding.Untidy, Place: finding.Place{File: "b"}}
	for want, list := range map[string][]finding.Finding{
		"No findings.": nil,
		"1 finding in 1 file; it stops publication.":          {stop},
		"2 findings in 1 file; all of them stop publication.": {stop, stop},
		"1 finding in 1 file; nothing stops publication.":     {untidy},
		"2 findings in 2 files; 1 of them stops publication.": {stop, untidy},
		"3 findings in 2 files; 2 of them stop publication.":  {stop, stop, untidy},
	} {
		if got := closing(list); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// Names and texts of a manual cannot make a terminal do anything.
func TestFindingsAreShownAndNotObeyed(t *testing.T) {
	t.Parallel()
	evil := "a\x1b[2J\x07\nb\u202e\u2028"
	place := finding.Place{File: evil + ".md", Line: 1}
	var b strings.Builder
	writeFindings(&b, "m", []finding.Finding{{Rule: "r", Severity: finding.Result, Place: place, Message: evil, Why: "Why.", Remedy: evil, Also: []finding.Place{place}},
		{Rule: "r", Severity: finding.Result, Place: place, Message: "m", Why: evil}}, func(s string) string { return s })
	if got := b.String(); strings.ContainsAny(got, "\x1b\x07\u202e\u2028") || strings.Contains(got, "\nb") || strings.Count(got, `a\u{1b}[2J\u{7}\u{a}b\u{202e}\u{2028}`) != 6 {
		t.Errorf("got %q", got)
	}
}

// A rule that finds thousands of places is not written out to the end; the closing line counts them all.
func TestFindingsOfARuleHaveAnEnd(t *testing.T) {
	t.Parallel()
	list := make([]finding.Finding, 5000)
	for i := range list {
		list[i] = finding.Finding{Rule: "r", Severity: finding.Result, Place: finding.Place{File: "a.md", Line: i + 1}, Message: "m", Why: "w"}
	}
	var b strings.Builder
	writeFindings(&b, "m", list, func(s string) string { return s })
	if got := b.String(); strings.Count(got, "\n") > 20 || !strings.Contains(got, "and 4995 more in 1 file; put these right first, or see all with tankside proof --rule r\n") || !strings.Contains(got, "5000 findings in 1 file") {
		t.Errorf("got %.2000s", got)
	}
}

// A long list has the first few of each rule, whole where only one or two are left, and tells at its end how many there are of each.
func TestLongListsAreCounted(t *testing.T) {
	t.Parallel()
	var list []finding.Finding
	add := func(n int, rule finding.RuleName, severity finding.Severity) {
		for i := range n {
			list = append(list, finding.Finding{Rule: rule, Severity: severity, Place: finding.Place{File: fmt.Sprintf("%d.md", i/2), Line: i + 1}, Message: "m", Why: "w"})
		}
	}
	add(60, "untidy-one", finding.Untidy)
	add(7, "wrong-one", finding.Result)
	var b strings.Builder
	writeFindings(&b, "m", list, func(s string) string { return s })
	got := b.String()
	if strings.Count(got, ": m\n") != 7+5 || !strings.Contains(got, "and 55 more in 28 files; ") || !strings.Contains(got, "\n      7  wrong-one\n     60  untidy-one\n\n67 findings in 30 files; 7 of them stop publication.\n") {
		t.Errorf("got %s", got)
	}
}

// What could hurt somebody is red on a terminal, and plain anywhere else.
func TestSeveritiesHaveColoursOnATerminalAlone(t *testing.T) {
	t.Parallel()
	for _, s := range finding.Severities {
		c := &console{bold: true}
		if got := c.ofSeverity(s, "x"); !strings.HasPrefix(got, "\x1b[1") || !strings.HasSuffix(got, "mx\x1b[0m") {
			t.Errorf("%s on a terminal: %q", s, got)
		}
		c.bold = false
		if got := c.ofSeverity(s, "x"); got != "x" {
			t.Errorf("%s elsewhere: %q", s, got)
		}
	}
}
