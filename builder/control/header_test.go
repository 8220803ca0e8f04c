package control

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What is set is set, and every other byte stays as it is.
func TestSetKeysChangesNothingElse(t *testing.T) {
	set := []entry{{"revision", "D", ""}, {"approved", "not yet", "revision"}}
	for name, c := range map[string][2]string{
		"plain":             {"---\nrevision: C\napproved: 2026-01-01, x\n---\nText\n", "---\nrevision: D\napproved: not yet\n---\nText\n"},
		"CRLF":              {"---\r\nrevision: C\r\napproved: x\r\n---\r\nText\r\n", "---\r\nrevision: D\r\napproved: not yet\r\n---\r\nText\r\n"},
		"byte order mark":   {"\uFEFF---\nrevision: C\napproved: x\n---\n", "\uFEFF---\nrevision: D\napproved: not yet\n---\n"},
		"comments":          {"---\n# a\nrevision:   C  # why\n# b\napproved: x\t# z: \"q\"\n# c\ntitle: a # b\n---\n", "---\n# a\nrevision:   D  # why\n# b\napproved: not yet\t# z: \"q\"\n# c\ntitle: a # b\n---\n"},
		"quotation marks":   {"---\nrevision: \"C \\\" #\" # a\napproved: 'it''s # 1'\n---\n", "---\nrevision: D # a\napproved: not yet\n---\n"},
		"a sharp sign":      {"---\nrevision: C#1\napproved: x#y\n---\n", "---\nrevision: D\napproved: not yet\n---\n"},
		"another order":     {"---\napproved: x\ntitle: T\nrevision: C\n---\n", "---\napproved: not yet\ntitle: T\nrevision: D\n---\n"},
		"no approval":       {"---\nrevision: C # why\n# above the title\ntitle: T\n---\n", "---\nrevision: D # why\napproved: not yet\n# above the title\ntitle: T\n---\n"},
		"no approval, CRLF": {"---\r\nrevision: C\r\n---\r\n", "---\r\nrevision: D\r\napproved: not yet\r\n---\r\n"},
		"in the text too":   {"---\nrevision: C\napproved: x\n---\nrevision: C\n---\napproved: x\n", "---\nrevision: D\napproved: not yet\n---\nrevision: C\n---\napproved: x\n"},
		"a key below":       {"---\nrevision: C\napproved: x\nsteps:\n  - revision: Q\n    approved: y\n---\n", "---\nrevision: D\napproved: not yet\nsteps:\n  - revision: Q\n    approved: y\n---\n"},
		"no last line end":  {"---\nrevision: C\napproved: x\n---", "---\nrevision: D\napproved: not yet\n---"},
		"lists and folds":   {"---\nsummary: >\n  revision: C\n\n  more\nrevision: C\nlist: [a,\n  b]\napproved: x\n---\n", "---\nsummary: >\n  revision: C\n\n  more\nrevision: D\nlist: [a,\n  b]\napproved: not yet\n---\n"},
	} {
		got, err := setKeys("a.md", []byte(c[0]), set)
		if err != nil || string(got) != c[1] {
			t.Errorf("%s: got %q (%v), want %q", name, got, err, c[1])
		}
	}
}

// What cannot be changed for certain is refused with a sentence that says what to do.
func TestSetKeysRefuses(t *testing.T) {
	for name, text := range map[string]string{
		"no header":             "Text\n",
		"not closed":            "---\nrevision: C\napproved: x\n",
		"folded value":          "---\nrevision: >\n  C\napproved: x\n---\n",
		"next line":             "---\nrevision:\n  C\napproved: x\n---\n",
		"goes on":               "---\nrevision: C\n  D\napproved: x\n---\n",
		"quoted over two lines": "---\nrevision: \"C\n  D\"\napproved: x\n---\n",
		"a list":                "---\nrevision: [C]\napproved: x\n---\n",
		"an anchor":             "---\nrevision: &a C\napproved: x\n---\n",
		"in braces":             "---\n{revision: C, approved: x}\n---\n",
		"quoted key":            "---\n\"revision\": C\napproved: x\n---\n",
		"twice":                 "---\nrevision: C\nrevision: D\napproved: x\n---\n",
		"not YAML":              "---\nrevision: C\n\tapproved: x\ntitle: [\n---\n",
		"no revision":           "---\napproved: x\n---\n",
		"not UTF-8":             "---\nrevision: C\napproved: x\n---\n\xff",
		"old line ends":         "---\rrevision: C\rapproved: x\r---\r",
		"in a folded text":      "---\nsummary: |\n  x\ntitle: 'a\nrevision: C\n  b'\napproved: x\n---\n",
	} {
		got, err := setKeys("a.md", []byte(text), []entry{{"revision", "D", ""}, {"approved", "not yet", "revision"}})
		var refused *RefusedError
		if !errors.As(err, &refused) || refused.Problem == "" || refused.Remedy == "" || got != nil {
			t.Errorf("%s: got %q (%v)", name, got, err)
		}
	}
	if _, err := setKeys("a.md", []byte("---\nrevision: C\n---\n"), []entry{{"revision", "D: # e", ""}}); err == nil {
		t.Error("a value that would be read as another is written")
	}
}

// In every article of the demo manual two lines are another, and nothing else.
func TestSetKeysInTheDemoManual(t *testing.T) {
	names, err := filepath.Glob("../../content/*/*.md")
	if err != nil || len(names) < 300 {
		t.Fatalf("%d articles (%v)", len(names), err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		key := "revision"
		if strings.HasSuffix(name, ".es.md") {
			key = "translates"
		}
		for _, crlf := range []bool{false, true} {
			if crlf {
				text = bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n"))
			}
			got, err := setKeys(name, text, []entry{{key, "Q7", ""}, {"approved", "not yet", key}})
			if err != nil {
				t.Error(err)
				continue
			}
			old, new := strings.Split(string(text), "\n"), strings.Split(string(got), "\n")
			differ := 0
			for i := range old {
				if i < len(new) && old[i] != new[i] {
					differ++
				}
			}
			if len(old) != len(new) || differ != 2 {
				t.Errorf("%s: %d lines differ", name, differ)
			}
		}
	}
}
