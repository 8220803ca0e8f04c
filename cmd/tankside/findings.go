package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"unicode"

	"tankside/builder/finding"
)

// severities are the headings under which findings stand, gravest first.
var severities = []struct {
	severity finding.Severity
	heading  string
}{
	{finding.People, "Somebody could be hurt"},
	{finding.Parts, "Parts or the machine could be damaged"},
	{finding.Result, "Readers would get a wrong answer, or none"},
	{finding.Untidy, "Untidy, though nothing breaks"},
}

// mostOfARule is how many findings of one rule are written out: a mistake that is everywhere is seen well before.
const mostOfARule = 100

// writeFindings writes findings for people: by what they lead to, gravest first, and by rule; then by place.
// folder is the manual's, so that a terminal can open the places. strong sets headings off.
func writeFindings(w io.Writer, folder string, list []finding.Finding, strong func(string) string) {
	for _, s := range severities {
		var rules []finding.RuleName // in the order of their first finding
		byRule := make(map[finding.RuleName][]finding.Finding)
		for _, f := range list {
			if f.Severity != s.severity {
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
		fmt.Fprintf(w, "%s\n\n", strong(s.heading))
		for _, rule := range rules {
			why := byRule[rule][0].Why
			fmt.Fprintf(w, "%s: %s\n", strong(string(rule)), why)
			for i, f := range byRule[rule] {
				if i == mostOfARule {
					fmt.Fprintf(w, "  and %d more; put these right first, or see all with --json\n", len(byRule[rule])-i)
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

// closing sums the findings up in a sentence.
func closing(list []finding.Finding) string {
	if len(list) == 0 {
		return "No findings."
	}
	files := make(map[string]bool)
	for _, f := range list {
		files[f.File] = true
	}
	text := count(len(list), "finding", "findings") + " in " + count(len(files), "file", "files")
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
