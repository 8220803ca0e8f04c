package rules

import (
	"strings"
	"unicode"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// vagueSource finds sources that nobody could look up.
// It prevents that a number is trusted because something stands under “sources”. A source names a title with a year, table or section,
// or says honestly that there is none.
var vagueSource = finding.Rule{
	Name: "vague-source", Severity: finding.Untidy,
	Finds:  "a source that nobody could look up",
	Why:    "A number is only as good as the place it comes from; if there is none, the reader should know that.",
	Source: "ISO 690:2021, from memory, to be confirmed by the process engineer: a reference lets the reader find the source",
}

// honest are the ways to say that there is no published source.
var honest = []string{"no source", "from memory", "data sheet", "calculated", "measured", "shop", "drawing", "interview", "our own"}

func findVagueSources(_ *proof, a *manual.Article) []finding.Finding {
	for _, s := range a.Head.Sources {
		if vague(s) {
			return []finding.Finding{vagueSource.At(at(a, "sources"), "The source “"+s+"” cannot be looked up.",
				"Give title, year and table or section, or write “common practice, no source”, “from memory” or “from the supplier's data sheet: check yours”.")}
		}
	}
	return nil
}

func vague(source string) bool {
	lower := strings.ToLower(source)
	for _, h := range honest {
		if strings.Contains(lower, h) {
			return false
		}
	}
	words := strings.FieldsFunc(source, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	return len(words) < 2 || strings.Contains(lower, "http") && len(words) < 8 || lower == "the internet" || lower == "various sources"
}
