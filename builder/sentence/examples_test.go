package sentence_test

import (
	"context"
	"fmt"
	"testing/fstest"

	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// A text is read as quantities: how each is meant, of what it is said, and in what mood.
func ExampleRead() {
	m, _, err := manual.Read(context.Background(), fstest.MapFS{"shop.yaml": {Data: []byte("name: Example shop\ntanks:\n  - id: wash-1\n    name: Wash 1\n    volume: 120 L\n")}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range sentence.Read([]byte("Bring Wash 1 to 62 °C. Never heat it above 75 °C."), sentence.NewNames(m), nil) {
		for i := range s.Quantities {
			q := &s.Quantities[i]
			do := s.Clauses[q.Clause].Mood == sentence.Do
			fmt.Printf("%s %s: goes to %t, at most %t, to be done %t\n", q.About.Word, q.Text, q.Relation == sentence.To, q.Relation == sentence.AtMost, do)
		}
	}
	// Output:
	// wash 1 62 °C: goes to true, at most false, to be done true
	// it 75 °C: goes to false, at most true, to be done false
}
