package admit_test

import (
	"fmt"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/fact"
	"tankside/builder/quantity"
)

func limit(text string, kind quantity.Kind) fact.Limit {
	r, err := quantity.ParseRange(text, kind)
	if err != nil {
		panic(err)
	}
	return fact.Limit{Range: r, Set: true}
}

// A table of facts answers what a bath does to a material.
func ExampleTable_Answer() {
	table := &admit.Table{
		Materials: []admit.Material{{Item: admit.Item{Name: "brass", Title: "Brass"},
			Material: fact.Material{MadeOf: []fact.Ref{{Name: "brass"}}, PH: limit("6–9.5", quantity.PH), Temperature: limit("≤ 50 °C", quantity.Temperature)}}},
		Chemistries: []admit.Chemistry{{Item: admit.Item{Name: "soap", Title: "Ammoniated soap"},
			Chemistry: fact.Chemistry{PH: limit("9–10", quantity.PH), Contains: []fact.Ref{{Name: "ammonia"}}}}},
	}
	answer, err := table.Answer(admit.Question{Materials: []string{"brass"}, Bath: "soap"})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(answer.Verdict)
	for _, r := range answer.Reasons {
		fmt.Println(r.Text)
	}
	// Output:
	// no
	// Ammoniated soap has ammonia, which cracks brass.
}
