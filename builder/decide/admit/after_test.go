package admit

import (
	"testing"

	"tankside/builder/decide/fact"
	"tankside/builder/quantity"
)

// What stands behind the wash is told in the order of the sheet, and what nobody knows is left out.
func TestAfterTellsRinsesAndDryer(t *testing.T) {
	limit := func(text string, kind quantity.Kind) fact.Limit {
		r, err := quantity.ParseRange(text, kind)
		if err != nil {
			t.Fatal(err)
		}
		return fact.Limit{Range: r, Set: true}
	}
	table := Table{
		Rinses: []Rinse{
			{Rinse: fact.Rinse{ID: "one", Name: "Rinse 1"}, RunsPH: limit("7–9", quantity.PH), RunsAt: limit("30 °C", quantity.Temperature)},
			{Rinse: fact.Rinse{ID: "two", Name: "Rinse 2"}},
		},
		Dryer: fact.Dryer{ID: "dryer", Name: "Dryer", Temperature: limit("80 °C", quantity.Temperature)},
		Parts: []PartSheet{{}, {}},
	}
	table.Parts[0].Name, table.Parts[0].Rinse, table.Parts[0].Dry = "shaft", []fact.Ref{{Name: "two"}, {Name: "one"}, {Name: "none"}}, fact.Ref{Name: "dryer"}
	table.Parts[1].Name = "nut"
	got := table.After("shaft")
	want := []Stop{{"Rinse 2", ""}, {"Rinse 1", "pH 7–9, 30\u00a0°C"}, {"Dryer", "80\u00a0°C"}}
	if len(got) != len(want) {
		t.Fatalf("%v", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%q, want %q", got[i], want[i])
		}
	}
	if got := table.After("nut"); got != nil {
		t.Errorf("%v", got)
	}
	if got := table.After("bolt"); got != nil {
		t.Errorf("%v", got)
	}
}
