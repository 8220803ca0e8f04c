package admit

import (
	"strings"
	"testing"

	"tankside/builder/decide/fact"
	"tankside/builder/quantity"
)

// A material's time is one under ultrasonics. In a jar it refuses nothing, by the material as by the sheet; that nobody knows how long it may soak is said.
func TestSoakIsNotCheckedAndRefusedNowhere(t *testing.T) {
	limit := func(text string, kind quantity.Kind) fact.Limit {
		r, err := quantity.ParseRange(text, kind)
		if err != nil {
			t.Fatal(err)
		}
		return fact.Limit{Range: r, Set: true}
	}
	made := func(time string) *Table {
		remover := fact.Chemistry{PH: limit("6–8", quantity.PH), Window: fact.Window{Temperature: limit("20 °C", quantity.Temperature), Time: limit("20–60 min", quantity.Time)}}
		brass := fact.Material{MadeOf: []fact.Ref{{Name: "brass"}}, PH: limit("5–9", quantity.PH), Temperature: limit("≤ 50 °C", quantity.Temperature), Time: limit(time, quantity.Time)}
		sheet := fact.Part{Materials: []fact.Ref{{Name: "brass"}}, Steps: []fact.Step{{Tank: fact.Ref{Name: "jar"}, Chemistry: fact.Ref{Name: "remover"}}}}
		return &Table{
			Chemistries: []Chemistry{{Item: Item{Name: "remover", Title: "Remover"}, Chemistry: remover}},
			Tanks:       []Tank{{Tank: fact.Tank{ID: "jar", Name: "Jar", Vessel: fact.Jar, Lid: true, Ventilated: true, Chemistry: fact.Ref{Name: "remover"}, Temperature: limit("20 °C", quantity.Temperature)}}},
			Materials:   []Material{{Item: Item{Name: "brass", Title: "Brass"}, Material: brass}},
			Parts:       []PartSheet{{Item: Item{Name: "jet", Title: "Jet"}, Part: sheet}},
		}
	}
	asked := func(table *Table) map[string]Answer {
		t.Helper()
		one, err := table.Answer(Question{Materials: []string{"brass"}, Bath: "jar"})
		if err != nil {
			t.Fatal(err)
		}
		part, err := table.Sheet("jet")
		if err != nil {
			t.Fatal(err)
		}
		return map[string]Answer{"material": one, "part": part}
	}
	for way, a := range asked(made("≤ 12 min")) {
		said := false
		for _, r := range a.Reasons {
			said = said || r.NotChecked && strings.Contains(r.Text, "How long it stands a soak is not checked")
		}
		if a.Verdict != Conditions || !said {
			t.Errorf("by its %s: %s: %v", way, a.Verdict, a.Reasons)
		}
	}
	for way, a := range asked(made("≤ 30 min")) {
		for _, r := range a.Reasons {
			if strings.Contains(r.Text, "soak is not checked") {
				t.Errorf("by its %s: %s", way, r.Text)
			}
		}
	}
}
