package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"tankside/builder/finding"
)

// harm is what a terminal would obey: it clears the screen, sets colours in both ways of writing that, goes back to the beginning of the line, rings,
// names the window and turns the direction of writing.
const harm = "x\x1b[2J\x1b[31m\u009b31m\rOK\a\x1b]0;t\x07\u202e\x7fy"

func TestPlain(t *testing.T) {
	for text, want := range map[string]string{
		"Wax, 60 °C\n\tμ":          "Wax, 60 °C\n\tμ",
		boldOn + "Rinse" + boldOff: boldOn + "Rinse" + boldOff,
		harm:                       "x\\u{1b}[2J\\u{1b}[31m\\u{9b}31m\\u{d}OK\\u{7}\\u{1b}]0;t\\u{7}\\u{202e}\\u{7f}y",
		"a\x9b31m\xff":             "a\\x{9b}31m\\x{ff}",
		"\x1b[1;32m":               "\\u{1b}[1;32m",
		colours[finding.People]:    colours[finding.People],
		"\ufffd":                   "\ufffd",
	} {
		var whole, parts bytes.Buffer
		if n, err := (&plain{to: &whole}).Write([]byte(text)); n != len(text) || err != nil {
			t.Errorf("%q: %d, %v", text, n, err)
		}
		if whole.String() != want {
			t.Errorf("%q became %q, want %q", text, whole.String(), want)
		}
		p := &plain{to: &parts} // characters may be cut
		if !strings.Contains(text, "\x1b") {
			for i := range len(text) {
				if _, err := p.Write([]byte{text[i]}); err != nil {
					t.Fatal(err)
				}
			}
			if parts.String() != want {
				t.Errorf("%q in pieces became %q", text, parts.String())
			}
		}
	}
}

// Whatever a folder, a file or an argument is called, no command writes anything that a terminal obeys, and answers for programs stay JSON.
func TestNoNameMakesATerminalObey(t *testing.T) {
	t.Parallel()
	model, published := newManual(t)
	must(t, "publish", model, "--to", published)
	dir := filepath.Join(t.TempDir(), harm)
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Skipf("no such names here: %v", err)
	}
	folder, to := filepath.Join(dir, "content"), filepath.Join(dir, "edition")
	for name, of := range map[string]string{folder: model, to: published} {
		if err := os.CopyFS(name, os.DirFS(of)); err != nil {
			t.Fatal(err)
		}
	}
	good := filepath.Join(dir, "good")
	if err := os.CopyFS(good, os.DirFS(model)); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{filepath.Join(folder, "soils", harm+".md"), filepath.Join(folder, harm), filepath.Join(to, harm), filepath.Join(to, harm+"\nEdition 9: 3 files, all as they were published.")} {
		if err := os.WriteFile(name, []byte("---\ntitle: \"\\e[31m\"\n---\n"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	foreign := filepath.Join(dir, "foreign")
	if err := os.MkdirAll(filepath.Join(foreign, harm), 0o755); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{
		{"proof", folder}, {"proof", folder, "--json"}, {"proof", folder, "--sarif"}, {"proof", good + harm}, {"publish", folder, "--to", to}, {"publish", good, "--to", to}, {"publish", good, "--to", foreign},
		{"publish", good, "--to", filepath.Join(foreign, harm, "new")}, {"publish", good, "--to", to, "--json"}, {"verify", to}, {"verify", to, "--json"}, {"verify", foreign}, {"verify", harm}, {"find", "--in", to, harm}, {"find", "--in", harm, "x"},
		{"find", "--in", to, harm, "--json"}, {"admit", "--in", folder, "--material", harm}, {"admit", "--in", good, "--material", harm}, {"causes", "--in", folder, harm}, {"causes", "--in", good, harm}, {"calculate", harm}, {"calculate", "heat-up", harm + "=" + harm},
		{"calculate", "--in", good, "heat-up", "--tank", harm}, {"host", harm}, {"host", to, "--at", harm}, {"watch", harm}, {"start", to, "--name", harm, "--tank", harm}, {harm}, {"--" + harm}, {"proof", "--" + harm},
	} {
		c, out, notes := desk("")
		run(t.Context(), args, c)
		for _, text := range []string{out.String(), notes.String()} {
			if i := strings.IndexFunc(text, func(r rune) bool { return r != '\n' && r != '\t' && obeyed(r) }); i >= 0 || !utf8.ValidString(text) {
				t.Errorf("tankside %q writes %q", args, text[max(0, i-20):min(len(text), max(0, i)+20)])
			}
			for line := range strings.Lines(text) {
				if strings.HasPrefix(line, "Edition 9") {
					t.Errorf("tankside %q lets a name write the line %q", args, line)
				}
			}
		}
		if strings.HasSuffix(args[len(args)-1], "json") && !json.Valid([]byte(out.String())) {
			t.Errorf("tankside %q: no JSON: %.300s", args, out)
		}
	}
}
