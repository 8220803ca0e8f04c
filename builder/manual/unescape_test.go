package manual

import (
	"context"
	"testing"
	"testing/fstest"
)

// What lists, answers, search and “Seen with.” take from a text is what its readers see.
func TestPlainTextIsWhatReadersSee(t *testing.T) {
	for text, want := range map[string]string{
		`\<A12\>`: "<A12>", `R&amp;D`: "R&D", `\&amp;`: "&amp;", `&#38;amp;`: "&amp;", `a\b`: `a\b`, `a\\b`: `a\b`, "`\\<a&amp;`": `\<a&amp;`,
		`AT&T`: "AT&T", `&nosuch;`: "&nosuch;", `&copyx;`: "&copyx;", `&semi;`: ";", `&copy`: "&copy", `5 &lt; 6`: "5 < 6", `\*a\*`: "*a*", `&#x3C;b&#62;`: "<b>",
		`**\_a\_** [\[b\]](c.md)`: "_a_ [b]", `&quot;\"`: `""`, `\`: `\`, `&`: "&", `a &amp`: "a &amp",
	} {
		source := []byte(text)
		if got := plain(Parse(source), source); got != want {
			t.Errorf("%s: got %s, want %s", text, got, want)
		}
	}
}

func TestAnswersAndHeadingsAreUnescaped(t *testing.T) {
	m, _, err := Read(context.Background(), fstest.MapFS{
		"shop.yaml":       {Data: []byte("name: S\nroles: [operator]\n")},
		"symptoms/pit.md": {Data: []byte(headOfTest + "## Is it \\<A12\\> or R&amp;D?\n\n- It is \\<A12\\>: [Change R&amp;D](#change)\n\n## Change\n\nDo.\n")},
	})
	if err != nil {
		t.Fatal(err)
	}
	s := m.At("symptoms/pit.md").Sections[0]
	if s.Heading != "Is it <A12> or R&D?" || len(s.Answers) != 1 || s.Answers[0].Text != "It is <A12>" || s.Answers[0].Link.Text != "Change R&D" {
		t.Errorf("%+v", s)
	}
}
