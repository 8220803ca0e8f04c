package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"unicode"

	"tankside/builder/finding"
)

// How many findings of one rule are written out: a mistake that is everywhere is seen well before. A list is long when it has more than so many.
const (
	mostOfARule   = 100
	mostInLong    = 5
	long          = 50
	leastOfLonger = 2 // a rule that has no more findings than this beyond the most is written out whole
)

// writeFindings writes findings for people: by what they lead to, gravest first, and by rule; then by place.
// folder is the manual's, so that a terminal can open the places. strong sets headings off. A long list has the first few of each rule alone, and
// at its end how many there are of each.
func writeFindings(w io.Writer, folder string, list []finding.Finding, strong func(string) string) {
	most := mostOfARule
	if len(list) > long {
		most = mostInLong
	}
	writeSome(w, folder, list, most, func(_ finding.Severity, text string) string { return strong(text) })
}

// writeSome writes findings, of each rule so many at most. emphasised sets headings off by what they lead to.
func writeSome(w io.Writer, folder string, list []finding.Finding, most int, emphasised func(finding.Severity, string) string) {
	var counts []string // of each rule, for the end
	for _, s := range finding.Severities {
		var rules []finding.RuleName // in the order of their first finding
		byRule := make(map[finding.RuleName][]finding.Finding)
		for _, f := range list {
			if f.Severity != s {
				continue
			}
			if byRule[f.Rule] == nil {
				rules = append(rules, f.Rule)
			}
			byRule[f.Rule] = append(byRule[f.Rule], f)
		}
		if len(rules) == 0 {
			continue
		}
		fmt.Fprintf(w, "%s\n\n", emphasised(s, s.Heading()))
		for _, rule := range rules {
			why := byRule[rule][0].Why
			n := len(byRule[rule])
			counts = append(counts, fmt.Sprintf("  %5d  %s", n, emphasised(s, string(rule))))
			fmt.Fprintf(w, "%s: %s\n", emphasised(s, string(rule)), why)
			for i, f := range byRule[rule] {
				if i == most && n > most+leastOfLonger {
					fmt.Fprintf(w, "  and %d more in %s; put these right first, or see all with tankside proof --rule %s\n", n-i, count(filesIn(byRule[rule][i:]), "file", "files"), rule)
					break
				}
				fmt.Fprintf(w, "  %s: %s%s\n", shown(within(folder, f.Place).String()), shown(f.Message), inDraft(f))
				if f.Why != why {
					fmt.Fprintf(w, "      %s\n", shown(f.Why))
				}
				if f.Remedy != "" {
					fmt.Fprintf(w, "      %s\n", shown(f.Remedy))
				}
				for _, also := range f.Also {
					fmt.Fprintf(w, "      Compare %s\n", shown(within(folder, also).String()))
				}
			}
			fmt.Fprintln(w)
		}
	}
	if len(list) > long && len(counts) > 1 {
		fmt.Fprintf(w, "%s\n\n", strings.Join(counts, "\n"))
	}
	fmt.Fprintln(w, closing(list))
}

// shown writes what comes from names and texts of the manual so that a terminal shows it and obeys nothing in it: characters that move the
// cursor, change colours, end the line or turn the direction of writing are written by their numbers.
func shown(text string) string {
	if !strings.ContainsFunc(text, obeyed) {
		return text
	}
	var b strings.Builder
	for _, r := range text {
		if obeyed(r) {
			fmt.Fprintf(&b, "\\u{%x}", r)
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// obeyed tells whether a terminal does something at a character other than showing it.
func obeyed(r rune) bool {
	return unicode.IsControl(r) || r == '\u2028' || r == '\u2029' || unicode.Is(unicode.Bidi_Control, r)
}

// within is a place as seen from the current folder.
func within(folder string, p finding.Place) finding.Place {
	p.File = filepath.Join(folder, filepath.FromSlash(p.File))
	return p
}

// filesIn counts the files in which there are findings.
func filesIn(list []finding.Finding) int {
	files := make(map[string]bool)
	for _, f := range list {
		files[f.File] = true
	}
	return len(files)
}

// closing sums the findings up in a sentence.
func closing(list []finding.Finding) string {
	if len(list) == 0 {
		return "No findings."
	}
	text := count(len(list), "finding", "findings") + " in " + count(filesIn(list), "file", "files")
	switch stop := finding.Stopping(list); {
	case stop == 0:
		return text + "; nothing stops publication."
	case stop == len(list) && stop == 1:
		return text + "; it stops publication."
	case stop == len(list):
		return text + "; all of them stop publication."
	case stop == 1:
		return text + "; 1 of them stops publication."
	default:
		return fmt.Sprintf("%s; %d of them stop publication.", text, stop)
	}
}

// inDraft says that a finding is about a draft, which it keeps from nobody.
func inDraft(f finding.Finding) string {
	if f.Draft {
		return " (in a draft)"
	}
	return ""
}
