package languageserver

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"time"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// A mend that is sure is offered where a finding stands; with it, the finding is gone. Where several things can be meant, none is.
func TestQuickMends(t *testing.T) {
	o := onDisk()
	o.Compare = func(_ string, m *manual.Manual, found []finding.Finding, _ time.Time) []finding.Finding {
		if a := m.At("soils/smut.md"); a != nil && a.Head.Revision == "C" {
			found = append(found, finding.Finding{Rule: "changed-without-revision", Severity: finding.Result, Place: a.Head.At["revision"]})
		}
		return found
	}
	c, _ := connect(t, demo(t), nil, o)
	for _, tc := range []struct{ rule, path, word, with, want string }{
		{"unknown-key", "chemistries/mild-alkaline.md", "\nceil", "nig: 75 °C", "ceiling: 75 °C"},
		{"unknown-word", "soils/wax.md", "nature: ", "\"waxx\"", "nature: \"wax\""},
		{"unknown-name", "soils/wax.md", "removed-by:", "\n  - {chemistry: mild-alkalin, time: 5 min}", "  - {chemistry: mild-alkaline, time: 5 min}"},
		{"broken-link", "soils/wax.md", "\n---\n", "\n𝛑 See [a](../materials/bras.md).", "𝛑 See [a](../materials/brass.md)."},
		{"broken-link", "soils/wax.md", "\n---\n", "\nSee [a](../soils/wax.md#then-wahs).", "See [a](../soils/wax.md#then-wash)."},
		{"wrong-quantity", "chemistries/mild-alkaline.md", "\nph: ", "9,5–10,5", "ph: 9.5–10.5"},
		{"unknown-key", "chemistries/mild-alkaline.md", "\nceil", "nothing-like-it: 75 °C", ""},
	} {
		text := after(t, c, tc.path, tc.word, tc.with)
		c.openText(tc.path, text)
		found := c.published(tc.path, has(tc.rule))
		i := slices.IndexFunc(found, func(d diagnostic) bool { return d.Code == tc.rule })
		var list []codeAction
		if err := json.Unmarshal(c.ask("textDocument/codeAction", map[string]any{"textDocument": documentID{URI: c.uri(tc.path)}, "range": found[i].Range, "context": map[string]any{"diagnostics": []any{}}}), &list); err != nil {
			t.Fatal(err)
		}
		list = slices.DeleteFunc(list, func(a codeAction) bool { return a.Diagnostics[0].Code != tc.rule })
		if tc.want == "" {
			if len(list) > 0 {
				t.Errorf("%s: %+v", tc.with, list)
			}
		} else if len(list) != 1 {
			t.Errorf("%s: %d mends; %s", tc.with, len(list), found[i].Message)
		} else {
			for _, e := range list[0].Edit.Changes[c.uri(tc.path)] {
				text = replaced(utf16, text, e.Range, e.NewText)
			}
			if line := lines(text)[found[i].Range.Start.Line]; line != tc.want {
				t.Errorf("%s: %q, want %q", tc.with, line, tc.want)
			}
		}
		c.say("textDocument/didClose", documentParams{documentID{URI: c.uri(tc.path)}})
		c.published(tc.path, clean)
	}
	c.close()
}

// A revision is raised by one.
func TestRevisionIsRaised(t *testing.T) {
	for old, want := range map[string]string{"C": "D", "7": "8", `"19"`: `"20"`, "Z": "", "2026-A": ""} {
		text := "---\r\ntitle: A\r\nrevision: " + old + "\r\n---\r\n"
		q := &inquiry{doc: &document{path: "soils/a.md", text: text}, text: lines(text)}
		_, m, ok := mending(q, finding.Finding{Rule: "changed-without-revision", Place: finding.Place{File: "soils/a.md", Line: 3, Column: 1}})
		if ok != (want != "") || ok && text[:m.from]+m.with+text[m.to:] != strings.Replace(text, old, want, 1) {
			t.Errorf("%s: %+v %v", old, m, ok)
		}
	}
}

// The headings of an article and the vessels of the shop file are its symbols.
func TestDocumentSymbols(t *testing.T) {
	c, _ := connect(t, demo(t), nil, onDisk())
	c.openText("soils/wax.md", c.read("soils/wax.md")+"\n### Below 𝛑\n\ntext\n\n## Last\n")
	c.openText("shop.yaml", c.read("shop.yaml"))
	symbols := func(path string) (list []symbol) {
		if err := json.Unmarshal(c.ask("textDocument/documentSymbol", documentParams{documentID{URI: c.uri(path)}}), &list); err != nil {
			t.Fatal(err)
		}
		return list
	}
	list := symbols("soils/wax.md")
	n := len(list)
	if n < 4 || list[0].Name != "Find the melting point" || list[n-1].Name != "Last" || len(list[n-2].Children) != 1 || list[n-2].Children[0].Name != "Below 𝛑" {
		t.Errorf("%+v", list)
	}
	for i := range n - 1 {
		if list[i].Range.End.Line >= list[i+1].Range.Start.Line || list[i].SelectionRange.Start != list[i].Range.Start {
			t.Errorf("%+v and %+v", list[i], list[i+1])
		}
	}
	if list := symbols("shop.yaml"); !slices.ContainsFunc(list, func(s symbol) bool { return s.Name == "wash-1" && s.Detail == "Wash 1" }) {
		t.Errorf("%+v", list)
	}
	c.close()
}

// A header is put into the guide's order with its comments, its line ends and everything that is not in the guide.
func TestHeaderInOrder(t *testing.T) {
	for _, tc := range []struct{ text, want string }{
		{
			"---\r\n# above nature\r\nnature: wax\r\nremoved-by:\r\n  # inside\r\n  - a\r\n  - b\r\n\r\n# above title\r\ntitle: \"W: 𝛑\" # behind\r\nodd: 1\r\nsummary: S\r\n# last\r\n---\r\nnature: text\r\n",
			"---\r\n\r\n# above title\r\ntitle: \"W: 𝛑\" # behind\r\nsummary: S\r\n# above nature\r\nnature: wax\r\nremoved-by:\r\n  # inside\r\n  - a\r\n  - b\r\nodd: 1\r\n# last\r\n---\r\nnature: text\r\n",
		},
		{"---\ntitle: A\nsummary: B\n---\n", ""}, // is in order
		{"---\nsummary: [\n---\n", ""},           // cannot be read
		{"---\nsummary: B\ntitle: A\n", ""},      // is not closed
		{"---\nsummary: B\nsummary: C\ntitle: A\n---\n", ""},
		{"no header\n", ""},
		{"---\nremoved-by:\n- chemistry: a\n  time: 5 min\n- b\ntitle: A\n---\n", "---\ntitle: A\nremoved-by:\n- chemistry: a\n  time: 5 min\n- b\n---\n"},
		{"---\nsummary: |\n  title: no key\n\n  x\ntitle: A\n---\n", "---\ntitle: A\nsummary: |\n  title: no key\n\n  x\n---\n"},
	} {
		from, to, with, ok := ordered("soils/a.md", tc.text)
		got := ""
		if ok && tc.text[from:to] != with {
			got = tc.text[:from] + with + tc.text[to:]
		}
		if got != tc.want {
			t.Errorf("%q:\n%q, want\n%q", tc.text, got, tc.want)
		}
	}
	c, _ := connect(t, demo(t), nil, onDisk())
	text := strings.Replace(strings.Replace(c.read("soils/wax.md"), "station: receive\n", "", 1), "\n---\n", "\nstation: receive\n---\n", 1)
	c.openText("soils/wax.md", text)
	var edits []textEdit
	if err := json.Unmarshal(c.ask("textDocument/formatting", documentParams{documentID{URI: c.uri("soils/wax.md")}}), &edits); err != nil || len(edits) != 1 {
		t.Fatalf("%+v %v", edits, err)
	}
	if got := replaced(utf16, text, edits[0].Range, edits[0].NewText); got != c.read("soils/wax.md") {
		t.Errorf("%s", got[:900])
	}
	c.close()
}
