package sentence

import (
	"strings"
	"testing"

	"tankside/builder/manual"
)

// Two sets that are noted when a sentence is read, and one that is not.
var (
	rinses   = Set("rinse rinses rinsed rinsing")
	vessels  = Set("tank tub jar bath")
	notNoted = set("brass tank")
)

// What is noted of a sentence says the same as looking each word up.
func TestNotedSetsSayWhatLookingUpSays(t *testing.T) {
	for _, text := range []string{
		"Rinse brass in the second tank.", "Fill the jar, then wait.", "Nothing of all that.", "If the bath is hot, rinse it; do not touch brass.", "Rinsed?",
		"When the tub is full, put brass in and rinse it at 20 °C.",
	} {
		for _, s := range Read([]byte(text), NewNames(&manual.Manual{}), nil) {
			words := map[string]bool{}
			for _, w := range s.AllWords() {
				words[w] = true
			}
			for _, set := range []map[string]bool{rinses, vessels, notNoted, {"hot": true}, nil} {
				want := false
				for w := range set {
					want = want || words[w]
				}
				if got := s.Has(set); got != want {
					t.Errorf("“%s” has one of %v: %v", text, set, got)
				}
				some := false
				for k := range s.Clauses {
					here := s.ClauseHas(k, set)
					some = some || here
					in := false
					for _, w := range s.Words(k) {
						in = in || set[strings.ToLower(w)]
					}
					if here != in {
						t.Errorf("clause %d of “%s” has one of %v: %v", k, text, set, here)
					}
				}
				if some != want {
					t.Errorf("a clause of “%s” has one of %v: %v", text, set, some)
				}
			}
		}
	}
}
