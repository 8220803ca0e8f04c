package manual_test

import (
	"context"
	"fmt"
	"testing/fstest"

	"tankside/builder/manual"
)

// A manual is a folder; what cannot be read in it is a finding with its place.
func ExampleRead() {
	folder := fstest.MapFS{
		"shop.yaml":    {Data: []byte("name: Example shop\ntanks:\n  - id: wash\n    name: Wash\n    volume: 120 L\n    temperature: 62 C\n")},
		"soils/wax.md": {Data: []byte("---\ntitle: Wax\nsummary: A film that warmth softens.\nstation: wash\nnature: waxs\n---\n## What it is\n\nText.\n")},
	}
	m, findings, err := manual.Read(context.Background(), folder)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(m.Shop.Tanks[0].Temperature, m.Named(manual.Soil, "wax").Head.Title)
	for _, f := range findings {
		if f.Rule == "unknown-word" {
			fmt.Println(f.Place, f.Message)
		}
	}
	// Output:
	// 62 °C Wax
	// soils/wax.md:5:9 “nature” knows no nature “waxs”, so nothing would be checked for it; did you mean “wax”?
}
