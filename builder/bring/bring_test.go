package bring_test

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/tools/txtar"

	"tankside/builder/bring"
	"tankside/builder/manual"
)

// Each case has a file as a word processor saves it, the text that comes of it, and what has to be said of that. Nothing that the reader of manuals refuses comes of any.
func TestCases(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob("testdata/cases/*.txtar")
	if err != nil || len(files) < 3 {
		t.Fatalf("%d cases: %v", len(files), err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			t.Parallel()
			a, err := txtar.ParseFile(file)
			if err != nil {
				t.Fatal(err)
			}
			part := map[string]string{}
			input := ""
			for _, f := range a.Files {
				part[f.Name] = string(f.Data)
				if strings.HasPrefix(f.Name, "input.") {
					input = f.Name
				}
			}
			got, err := bring.Article(input, []byte(part[input]), bring.Options{Kind: manual.Soil, Name: "brought", Picture: func(name string) ([]byte, error) {
				if slices.Contains(strings.Split(part["pictures"], "\n"), name) {
					return []byte("x"), nil
				}
				return nil, fs.ErrNotExist
			}})
			if err != nil {
				t.Fatal(err)
			}
			text := string(got.Text)
			body := text[strings.LastIndex(text, "\n---\n")+5:]
			if strings.TrimSpace(body) != strings.TrimSpace(part["body"]) {
				t.Errorf("the text is\n%s\nwant\n%s", body, part["body"])
			}
			var said strings.Builder
			for _, n := range got.Notes {
				what, _, _ := strings.Cut(string(n.What), " for something")
				if n.What == bring.Guessed {
					what = "guessed"
				}
				said.WriteString(what + ": " + n.Text + "\n")
			}
			for line := range strings.Lines(part["notes"]) {
				if line = strings.TrimSpace(line); line != "" && !strings.Contains(said.String(), line) {
					t.Errorf("it is not said: %s\n%s", line, said.String())
				}
			}
			readable(t, got.Text)
		})
	}
}

// readable fails where the reader of manuals finds more in an article than keys that wait for a value.
func readable(t *testing.T, text []byte) {
	t.Helper()
	_, found, err := manual.Read(t.Context(), fstest.MapFS{"shop.yaml": {Data: []byte("name: S\n")}, "soils/brought.md": {Data: text}})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range found {
		if f.File == "soils/brought.md" && f.Rule != "unclear-signal" && (f.Rule != "wrong-value" || !strings.Contains(f.Message, "has no value")) {
			t.Errorf("%s: %s: %s\n%s", f.Place, f.Rule, f.Message, text)
		}
	}
}

// What is too large, too deep or no document is refused with a sentence.
func TestRefusals(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct{ file, text, says string }{
		"a sort that is none": {"a.docx", "PK", "save the document as a web page"},
		"nothing":             {"a.html", "<html><body> </body></html>", "no text in it"},
		"large":               {"a.html", strings.Repeat("x", bring.MostBytes+1), "MiB"},
		"deep":                {"a.html", strings.Repeat("<div>", 400) + "x", "deep"},
		"deep markdown":       {"a.md", "---\ntitle: x\n---\nWax.\n" + strings.Repeat("> ", 400) + "x", "line 5: More than 24 quotes and lists stand within each other"},
		"a wide table":        {"a.html", "<table>" + strings.Repeat("<tr><td colspan=100 rowspan=100>x</td><td>y</td></tr>", 300) + "</table>", "cells"},
	} {
		if got, err := bring.Article(c.file, []byte(c.text), bring.Options{Kind: manual.Soil, Name: "x"}); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want %q; %.200s", name, err, c.says, got.Text)
		}
	}
}

// Letters of Windows, and of a file that says how they are written, are read.
func TestEncodings(t *testing.T) {
	t.Parallel()
	for text, says := range map[string]string{
		"<html><head><meta charset=windows-1252></head><body><p>60 \xb0C</p></body></html>": "written as windows-1252",
		"\xff\xfe<\x00p\x00>\x006\x000\x00 \x00\xb0\x00C\x00":                               "written as utf-16le",
		"\xef\xbb\xbf<p>60 °C</p>":                                                          "",
	} {
		got, err := bring.Article("a.html", []byte(text), bring.Options{Kind: manual.Soil, Name: "x"})
		if err != nil || !bytes.Contains(got.Text, []byte("60 °C\n")) || !strings.Contains(joined(got.Notes), says) {
			t.Errorf("%q: %v %v %s", text, err, got.Notes, got.Text)
		}
	}
}

func joined(list []bring.Note) string {
	var b strings.Builder
	for _, n := range list {
		b.WriteString(n.Text + "\n")
	}
	return b.String()
}

// Whatever comes, an article comes of it that the reader can read, or a sentence; no number gets a unit that the file did not have.
func FuzzArticle(f *testing.F) {
	files, err := filepath.Glob("testdata/cases/*.txtar")
	if err != nil {
		f.Fatal(err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data, strings.Contains(string(data), "input.html"))
	}
	f.Add([]byte("<p>• a<br>• b<table><td colspan=9 rowspan=9>60±5"), true)
	f.Fuzz(func(t *testing.T, data []byte, isHTML bool) {
		name := "a.md"
		if isHTML {
			name = "a.html"
		}
		if len(data) > 20_000 {
			return
		}
		got, err := bring.Article(name, data, bring.Options{Kind: manual.Soil, Name: "brought"})
		if err != nil {
			return
		}
		if len(got.Text) > 200*len(data)+20_000 {
			t.Errorf("%d bytes of %d", len(got.Text), len(data))
		}
		if !strings.Contains(string(data), "C") && !strings.Contains(string(data), "℃") && !strings.Contains(string(data), "&") && strings.Contains(string(got.Text[bytes.LastIndex(got.Text, []byte("\n---\n")):]), "°C") {
			t.Errorf("degrees Celsius come from nowhere:\n%s", got.Text)
		}
	})
}
