package rules

import (
	"testing"
	"time"

	"tankside/builder/manual"
)

// What it costs to ask of all sheets of the demo manual whether they fit, in both its languages.
func BenchmarkOverfullSheets(b *testing.B) {
	m, _, err := manual.Read(b.Context(), folder(b, demo))
	if err != nil {
		b.Fatal(err)
	}
	p := newProof(m, time.Time{})
	for b.Loop() {
		findOverfullSheets(p)
	}
}
