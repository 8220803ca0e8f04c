package rename_test

import (
	"errors"
	"maps"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/manual"
	"tankside/builder/rename"
)

func divide(t *testing.T, files fstest.MapFS, old, to string) (fstest.MapFS, []string) {
	t.Helper()
	plan, err := rename.Split(t.Context(), files, old, to)
	if err != nil {
		t.Fatalf("%s → %s: %v", old, to, err)
	}
	written, gone, err := plan.Files()
	if err != nil || len(gone) > 0 {
		t.Fatal(err, gone)
	}
	after := maps.Clone(files)
	for name, data := range written {
		after[name] = &fstest.MapFile{Data: data}
	}
	return after, plan.Made()
}

// No line of a section is lost or said twice when it becomes an article, and nothing is found outside the new files but what their being unfinished brings about.
func TestSplitLosesNothing(t *testing.T) {
	t.Parallel()
	files := demo(t)
	m := read(t, files)
	done := 0
	for i, a := range m.Articles {
		if a.Kind == manual.Symptom || i%19 != 0 || len(a.Sections) < 3 {
			continue
		}
		s := a.Sections[len(a.Sections)/2]
		if s.Level < 2 || s.Text == "" {
			continue
		}
		done++
		after, made := divide(t, files, a.Path+"#"+s.Anchor, "procedures/split-off")
		now := map[string]int{}
		for _, file := range append(made, a.Path) {
			if !strings.HasSuffix(file, ".es.md") {
				_, body, _ := strings.Cut(string(after[file].Data)[4:], "\n---\n")
				for line := range strings.Lines(body) {
					now[essence(line)]++
				}
			}
		}
		for line := range strings.Lines(string(a.Body)) {
			now[essence(line)]--
		}
		delete(now, "")
		for line, n := range now {
			if n != 0 && !(n == 1 && line == essence("["+s.Heading+"](x)")) {
				t.Errorf("%s#%s: %+d of the line %q", a.Path, s.Anchor, n, line)
			}
		}
		if done == 2 {
			for _, f := range proof(t, after) {
				if f.Rule == "broken-link" || f.Rule == "unclear-signal" || f.Rule == "raw-html" || f.Rule == "unknown-name" {
					t.Errorf("%s#%s: %s %s: %s", a.Path, s.Anchor, f.Rule, f.Place, f.Message)
				}
			}
		}
	}
	if done < 4 {
		t.Errorf("only %d sections", done)
	}
}

// essence is a line without the level of its heading and the targets of its links.
func essence(line string) string {
	line = strings.TrimSpace(strings.TrimLeft(line, "#"))
	for {
		before, rest, found := strings.Cut(line, "](")
		if !found {
			return line
		}
		_, rest, _ = strings.Cut(rest, ")")
		line = before + "]" + rest
	}
}

// Links into a section, out of it and within it lead where they led; headings get the levels of an article, line ends stay, translations go along.
func TestSplitMendsLinks(t *testing.T) {
	t.Parallel()
	files := shop()
	head := string(files["soils/other.md"].Data)
	head = head[:strings.LastIndex(head, "---\n")+4]
	files["soils/big.md"] = &fstest.MapFile{Data: []byte(strings.ReplaceAll(head+
		"See [m](#melt), [s](#small), [c](#check), [c2](#check-2).\n\n## Check\n\nx\n\n## Melt\n\nText [w](wax.md), [in](#small), [out](#check), [self](#melt), ![p](../pictures/p.svg).\n\n### Small\n\n- a\n\n### Check\n\nb\n\n## Last\n\n[m](big.md#melt)\n", "\n", "\r\n"))}
	files["soils/big.es.md"] = &fstest.MapFile{Data: []byte("---\ntitle: T\nsummary: S.\ntranslates: A\napproved: 2026-09-14, operator\n---\n\n[f](#fundir)\n\n## Ver\n\nx\n\n## Fundir\n\n[v](#ver) [o](big.md#melt)\n\n### Menor\n\n### Ver\n\n## Fin\n\nx\n")}
	files["parts/bolt.md"] = &fstest.MapFile{Data: append(files["parts/bolt.md"].Data, "[a](../soils/big.md#melt) [b](../soils/big.md#small) [c](../soils/big.md#check-2) [d](../soils/big.md#check)\n"...)}
	after, made := divide(t, files, "soils/big.md#melt", "procedures/melt.md")
	if len(made) != 2 || made[0] != "procedures/melt.es.md" {
		t.Errorf("made %v", made)
	}
	holds(t, after, "procedures/melt.md", []string{
		"title: \"Melt\"\r\n", "station: wash\r\n", "sources: [\"common practice, no source\"]\r\n", "\r\napproved: not yet\r\n", "\r\n---\r\nText [w](../soils/wax.md), [in](#small), [out](../soils/big.md#check), [self](melt.md), ![p](../pictures/p.svg).\r\n\r\n## Small\r\n\r\n- a\r\n\r\n## Check\r\n\r\nb\r\n",
	})
	holds(t, after, "soils/big.md", []string{
		"See [m](../procedures/melt.md), [s](../procedures/melt.md#small), [c](#check), [c2](../procedures/melt.md#check).\r\n",
		"## Melt\r\n\r\n[Melt](../procedures/melt.md)\r\n\r\n## Last\r\n\r\n[m](../procedures/melt.md)\r\n",
	})
	holds(t, after, "procedures/melt.es.md", []string{"title: \"Fundir\"\nsummary:\ntranslates: A\napproved: not yet\n---\n[v](../soils/big.es.md#ver) [o](melt.md)\n\n## Menor\n\n## Ver\n"})
	holds(t, after, "soils/big.es.md", []string{"[f](../procedures/melt.es.md)", "## Fundir\n\n[Fundir](../procedures/melt.es.md)\n\n## Fin\n"})
	holds(t, after, "parts/bolt.md", []string{"[a](../procedures/melt.md) [b](../procedures/melt.md#small) [c](../procedures/melt.md#check) [d](../soils/big.md#check)"})
}

// What cannot be moved safely is refused.
func TestSplitRefusals(t *testing.T) {
	t.Parallel()
	files := shop()
	files["symptoms/bad.md"] = &fstest.MapFile{Data: []byte("---\ntitle: T\nsummary: S.\nstation: wash\nrevision: A\napproved: 2026-09-14, operator\nreview-by: 2027-09-14\nsources: [x]\nseen-on: part\n---\n## Is it?\n\nx\n")}
	files["soils/ref.md"] = &fstest.MapFile{Data: append([]byte(string(files["soils/other.md"].Data)), "\n## Uses\n\nSee [it][there].\n\n## Empty\n\n## Last\n\nx\n\n[there]: wax.md\n"...)}
	files["soils/odd.md"] = files["soils/ref.md"]
	files["soils/odd.es.md"] = &fstest.MapFile{Data: []byte("---\ntitle: T\nsummary: S.\ntranslates: A\napproved: 2026-09-14, operator\n---\nx\n")}
	for _, c := range []struct{ old, to, says string }{
		{"soils/wax.md", "x", "is no heading of an article"},
		{"soils/nothing.md#x", "x", "is no heading of an article"},
		{"soils/wax.md#nothing", "x", "no heading #nothing"},
		{"soils/wax.es.md#fundir", "x", "is no heading of an article"},
		{"symptoms/bad.md#is-it", "procedures/x", "steps of its walk"},
		{"soils/wax.md#melt-it", "other", "There is a soil"},
		{"soils/wax.md#melt-it", "elsewhere/x", "cannot be called"},
		{"soils/wax.md#melt-it", "Melt It", "cannot be called"},
		{"soils/ref.md#empty", "x", "no text below"},
		{"soils/ref.md#uses", "x", "would not all lead"},
		{"soils/odd.md#last", "x", "not the same sections"},
	} {
		_, err := rename.Split(t.Context(), files, c.old, c.to)
		var refusal *rename.Refusal
		if !errors.As(err, &refusal) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s → %q: %v, want a refusal with %q", c.old, c.to, err, c.says)
		}
	}
}
