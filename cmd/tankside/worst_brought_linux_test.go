package main

import (
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// worstDocuments are what somebody saves and brings: a megabyte of each, by file name, and what refuses it, or "" where it is brought like another.
func worstDocuments() map[string]worst {
	html := func(name, text, says string) worst {
		return worst{map[string]string{name + ".html": "<!doctype html><title>Wax</title><p>Wax.</p>" + text}, says}
	}
	markdown := func(name, text, says string) worst {
		return worst{map[string]string{name + ".md": "# Wax\n\n" + text}, says}
	}
	return map[string]worst{
		"elements within elements":  html("deep", strings.Repeat("<div>", 200_000), "deep in one another"),
		"lists within lists":        html("lists", strings.Repeat("<ul><li>x", 100_000), "deep in one another"),
		"open letters":              html("open", filled("<b><i><u>x "), "deep in one another"),
		"pieces":                    html("pieces", filled("<p>x"), "pieces"),
		"cells":                     html("cells", "<table>"+filled("<tr><td>a<td>b"), "cells"),
		"merged cells":              html("merged", "<table>"+filled("<tr><td colspan=1000 rowspan=65534>a"), "cells"),
		"merged cells of much":      html("much", "<table><tr><td>a<td colspan=100 rowspan=100>"+strings.Repeat("word ", 6000), "merged cells"),
		"tables":                    html("tables", filled("<table><tr><td colspan=100>a</table>"), ""),
		"links":                     html("links", filled(`<a href="wax.html#§">a</a> `), ""),
		"pictures":                  html("pictures", filled(`<img src="a b §.png" alt="x"> `), "more than 500 pictures"),
		"attributes":                html("attributes", "<p "+filled(`a§="b" `)+">x</p>", ""),
		"entities":                  html("entities", "<p>"+filled("&amp;&deg;&#x26;&nbsp;")+"</p>", ""),
		"quantities":                html("quantities", filled("<p>10%-15%, 25degC, 1,5 L, ±2, 37-45 kHz, 1/2 cup"), "more than 3000 paragraphs"),
		"quantities in one text":    html("text", "<p>"+filled("10%-15%, 25degC, 1,5 L, ±2, 37-45 kHz ")+"</p>", "more than 32 KiB"),
		"quantities, 3000":          html("few", strings.Repeat("<p>"+strings.Repeat("10%-15%, 25degC, 1,5 L, ±2, 37-45 kHz ", 8), 2900), ""),
		"warnings":                  html("warnings", filled("<p>WARNING: burns §"), "more than 3000 paragraphs"),
		"one word":                  html("word", "<p>"+filled("x")+"</p>", "more than 32 KiB"),
		"bullets":                   html("bullets", filled("<p>• one §</p>"), "more than 3000 paragraphs"),
		"footnotes":                 html("notes", filled(`<p>x<a href="#n§">§</a></p><p id="n§">note</p>`), ""),
		"styles":                    html("styles", "<style>"+filled("p.a§{margin:0} ")+"</style><p>x</p>", ""),
		"a text that does not end":  html("comment", "<!-- "+filled("x "), ""),
		"quotations":                markdown("quotes", filled("> "), "more than 32 KiB"),
		"emphasis":                  markdown("emphasis", filled("*a **b ~~c "), "more than 32 KiB"),
		"brackets":                  markdown("brackets", filled("["), "opening brackets"),
		"openings of links":         markdown("openings", filled("[a]("), "opening brackets"),
		"definitions":               markdown("definitions", filled("[a§]: x\n\n"), "more than 3000 texts"),
		"rising backticks":          markdown("backticks", filled(risingBackticks(240)+"\n\n"), "more than 2000 backticks"),
		"columns":                   markdown("columns", "|"+strings.Repeat("a|", 200_000)+"\n|"+strings.Repeat("-|", 200_000)+"\n", "more than 32 KiB"),
		"rows of a table":           markdown("rows", "|a|b|\n|-|-|\n"+filled("|1|2|\n"), "more than"),
		"headings":                  markdown("headings", filled("## H§\n\n"), "1000 headings"),
		"lists, by indentation":     markdown("indented", deepening(1400), "stand within each other"),
		"a list with empty entries": markdown("empty", filled("-\n"), "more than"),
	}
}

// A document that is brought has its bounds as well: it is refused with a sentence, or an article, within 512 MiB.
func TestWorstMegabyteBrought(t *testing.T) {
	if testing.Short() {
		t.Skip("thirty programs are run")
	}
	t.Parallel()
	start, _ := newManual(t)
	for name, w := range worstDocuments() {
		t.Run(name, func(t *testing.T) {
			r := bringWorst(t, start, w)
			t.Logf("%.1f s of a processor, %d MiB, exit status %d: %.200s", r.cpu.Seconds(), r.memory>>10, r.code, r.told)
			switch {
			case r.code != exitDone && r.code != exitUnusable:
				t.Errorf("exit status %d: %.2000s", r.code, r.told)
			case !strings.Contains(r.told, w.says):
				t.Errorf("nothing says %q: %.1000s", w.says, r.told)
			case len(r.told) > 2*megabyte:
				t.Errorf("%d bytes are told", len(r.told))
			}
		})
	}
}

// bringWorst has the program say what it would make of the document, in a copy of a manual.
func bringWorst(t testing.TB, start string, w worst) took {
	t.Helper()
	folder := t.TempDir()
	var file string
	for name, text := range w.files {
		file = filepath.Join(folder, name)
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return bounded(t, mostMemory, "bring", file, "--in", start, "--try")
}

// BenchmarkWorstMegabyteBrought measures what the worst document of each kind takes of a processor.
func BenchmarkWorstMegabyteBrought(b *testing.B) {
	start, _ := newManual(b)
	kinds := worstDocuments()
	for _, name := range slices.Sorted(maps.Keys(kinds)) {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				r := bringWorst(b, start, kinds[name])
				b.ReportMetric(r.cpu.Seconds(), "cpu-s")
				b.ReportMetric(float64(r.memory)/1024, "MiB")
				b.ReportMetric(0, "ns/op")
			}
		})
	}
}
