package calculators

import (
	"strings"
	"testing"

	"tankside/builder/language/marked"
)

// The list of phrases that translators are given is what the calculators say, with where they say it. TANKSIDE_PHRASES=write writes it anew.
func TestPhrasesForTranslatorsAreThoseThatAreSaid(t *testing.T) {
	marked.List(t, "calculators", said(t), placeOf)
}

// placeOf says to a translator where something is said, by the calculator or the file that says it; "" where nobody has written that down yet.
func placeOf(where string) string {
	for _, c := range All() {
		if where == c.Name {
			return "calculator “" + c.Title + "”"
		}
	}
	name, function, _ := strings.Cut(where, " ")
	switch {
	case strings.HasPrefix(name, "../builder/quantity/"):
		return "an amount that cannot be read"
	case strings.HasPrefix(name, "a "):
		return where
	case name == "":
		return ""
	}
	if what := kindsOfSentence[function]; what != "" {
		return what
	}
	return "answers of calculators"
}

// kindsOfSentence tells what a sentence is by the function that says it.
var kindsOfSentence = map[string]string{
	"step":    "working: one step of a sum, and what it is",
	"verdict": "verdict of a calculator",
	"caution": "caution beside a result",
	"fail":    "why a calculator gives no result",
	"note":    "note beside a result",
}
