package handout

import "testing"

// What all sheets of the demo manual and the question whether they fit cost.
func BenchmarkAll(b *testing.B) {
	_, k := demoKit(b)
	for b.Loop() {
		list, err := k.All()
		if err != nil {
			b.Fatal(err)
		}
		Misfits(list)
	}
}
