package page

import (
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"tankside/builder/edition"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/themes"
)

// withFaults renders the pages of the demo manual, of which some files read otherwise, with a finding at every line of a file that holds a mark.
func withFaults(t *testing.T, name, mark string, change func(text string) string) (map[string]string, []int) {
	t.Helper()
	folder := t.TempDir()
	if err := os.CopyFS(folder, os.DirFS("../../content")); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(filepath.Join(folder, name))
	if err != nil {
		t.Fatal(err)
	}
	text := change(string(data))
	if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	m, _, err := manual.Read(t.Context(), os.DirFS(folder))
	if err != nil {
		t.Fatal(err)
	}
	p := &Preview{Findings: []finding.Finding{{Rule: "whole", Severity: finding.Result, Place: finding.Place{File: name}, Message: "Of the whole.", Remedy: "Mend it."}}}
	var at []int
	for i, line := range strings.Split(text, "\n") {
		if strings.Contains(line, mark) {
			at = append(at, i+1)
			p.Findings = append(p.Findings, finding.Finding{Rule: "here", Severity: finding.Result, Place: finding.Place{File: name, Line: i + 1, Column: 1}, Message: "<Wrong> here.", Remedy: "Mend it."})
		}
	}
	files, add := collecting()
	s, err := newSite(Input{Manual: m, Theme: themes.New(nil), Mark: edition.Mark{Draft: true}, Day: "2026-12-01", Preview: p}, add)
	if err != nil {
		t.Fatal(err)
	}
	page := strings.TrimSuffix(name, ".md") + ".html"
	for _, j := range s.pages() {
		if strings.Contains(j.path, strings.TrimSuffix(page, ".html")) {
			if err := j.render(add); err != nil {
				t.Fatalf("%s: %v", j.path, err)
			}
		}
	}
	return files, at
}

var (
	noteAt   = regexp.MustCompile(`<div class="fault fault-beside" id="(at\.fault-\d+)"[^>]*><code>[^<]*?:(\d+):1</code> &lt;Wrong&gt; here\.`)
	faultsAt = regexp.MustCompile(`(?s)<section class="faults".*?</section>`)
)

// A finding stands behind the block that holds its line, in lists within the item, and once; its page's head leads there. What is about the header or the
// whole file is said at the head.
func TestFindingsStandBesideTheirLines(t *testing.T) {
	const name = "soils/wax.md"
	files, at := withFaults(t, name, "ZZ", func(text string) string {
		header, _, _ := strings.Cut(text, "\n---\n")
		header = strings.Replace(header, "\nsummary: ", "\n# ZZ\nsummary: ", 1)
		return header + "\n---\n\n> **WARNING** ZZ1 hot wax.\n\nZZ2 opens\nand goes on ZZ3.\n\n## ZZ4 heading\n\n- one ZZ5\n- two\n  goes on ZZ6\n\n  - below ZZ7\n\n| a | b |\n|---|---|\n| ZZ8 | c |\n\n" +
			"```calculator heat-up\ntank: wash-1 # ZZ9\n```\n\n```yaml\na: ZZ10\n```\n\n> quoted ZZ11\n\n<p>ZZ12</p>\n\n1. [last ZZ13](brass.md)\n"
	})
	page := files["soils/wax.html"]
	if len(at) != 14 {
		t.Fatalf("%d marks", len(at))
	}
	beside := map[string]string{} // line → what stands before it
	for _, m := range noteAt.FindAllStringSubmatchIndex(page, -1) {
		line := page[m[4]:m[5]]
		if beside[line] != "" {
			t.Errorf("line %s is told twice", line)
		}
		beside[line] = page[:m[0]]
		if !strings.Contains(page, `href="#`+page[m[2]:m[3]]+`"`) {
			t.Errorf("nothing leads to the finding at line %s", line)
		}
	}
	if len(beside) != 13 {
		t.Fatalf("%d of 13 findings stand beside their lines:\n%s", len(beside), page)
	}
	head := faultsAt.FindString(page)
	for i, want := range []string{1: "ZZ1 hot wax.", 2: "goes on ZZ3.", 3: "goes on ZZ3.", 4: "ZZ4 heading", 5: "one ZZ5", 6: "goes on ZZ6", 7: "below ZZ7", 8: "ZZ8", 9: "sum-heat-up", 10: "ZZ10", 11: "quoted ZZ11", 12: "quoted ZZ11", 13: "last ZZ13"} {
		line := regexp.MustCompile(`\b` + regexp.QuoteMeta(strconv.Itoa(at[i])) + `\b`)
		if i == 0 {
			if !strings.Contains(head, name+":"+strconv.Itoa(at[0])+":1</code>") || !strings.Contains(head, "Of the whole.") {
				t.Errorf("the head does not tell of the header and the whole:\n%s", head)
			}
			continue
		}
		before := beside[strconv.Itoa(at[i])]
		if where := strings.LastIndex(before, want); where < 0 || len(plain(before[where:])) > 200 && i != 9 {
			t.Errorf("before the finding at line %d, “%s”, stands\n%s", at[i], want, before[max(0, len(before)-300):])
		}
		if !line.MatchString(head) {
			t.Errorf("the head does not name line %d", at[i])
		}
	}
	for line, item := range map[int]string{5: "one ZZ5", 6: "goes on ZZ6", 7: "below ZZ7"} { // within the item
		before := beside[strconv.Itoa(at[line])]
		if between := before[strings.LastIndex(before, item):]; strings.Contains(between, "</li>") {
			t.Errorf("the finding about “%s” stands behind its item", item)
		}
	}
}

// In a walk a finding stands in its step, not folded; the words are the page's language's.
func TestFindingsStandInTheirStep(t *testing.T) {
	const name = "symptoms/spotty-parts.md"
	files, at := withFaults(t, name, "ZZ", func(text string) string {
		text = strings.Replace(text, "\n- ", "\n- ZZ", 1)
		i := strings.LastIndex(text, "\n## ")
		return text[:i] + strings.Replace(text[i:], "\n\n", " ZZ\n\nZZ of the remedy.\n\n", 1)
	})
	page := files["symptoms/spotty-parts.html"]
	found := noteAt.FindAllStringSubmatchIndex(page, -1)
	if len(at) != 3 || len(found) != 3 {
		t.Fatalf("%d marks, %d findings beside their lines", len(at), len(found))
	}
	for _, m := range found {
		section := page[strings.LastIndex(page[:m[0]], "<section"):m[0]]
		if strings.Contains(section, "</section>") || strings.Contains(section, "<details") {
			t.Errorf("the finding at line %s is folded, or in no step:\n%s", page[m[4]:m[5]], section)
		}
	}
	es := ""
	for path, html := range files {
		if strings.Contains(html, `<html lang="es"`) {
			es = path + html
		}
	}
	if !strings.Contains(es, "En ninguna edición.") {
		t.Fatal("there is no Spanish page")
	}
	if noteAt.MatchString(es) {
		t.Error("what is wrong with the original is said on the translation's page")
	}
}
