package manual

import (
	"context"
	"fmt"
	"testing"
	"testing/fstest"

	"tankside/builder/finding"
)

// A fault of one key throws doubt on that key's lines and on no others, however often it is asked. Line 2 stands for the header, in which keys are missing.
func TestDoubtKeepsToTheKey(t *testing.T) {
	t.Parallel()
	files := fstest.MapFS{
		ShopFile:             {Data: []byte("name: Invented shop\n")},
		"materials/brass.md": {Data: []byte("---\ntitle: Brass\nsummary: A copper alloy.\nph: 6–x\nfrequency: 40–80 kHz\ntime:\n  5 min\ntemperature: ≤ 60 °C\n---\nText.\n")},
	}
	for range 20 { // the keys stand in a map, which has another order each time
		m, found, err := Read(context.Background(), files)
		if err != nil {
			t.Fatal(err)
		}
		if !m.Faulty("materials/brass.md") {
			t.Fatalf("the pH is no fault: %v", found)
		}
		got := ""
		for line := 2; line <= 8; line++ {
			got += fmt.Sprint(m.Doubted(finding.Place{File: "materials/brass.md", Line: line, Column: 1}), " ")
		}
		if got != "true false true false false false false " {
			t.Fatalf("doubted, line by line: %s", got)
		}
	}
}
