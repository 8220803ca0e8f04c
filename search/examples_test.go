package search_test

import (
	"context"
	"fmt"

	"tankside/search"
)

// What is indexed can be asked in everyday words, natively as in the browser.
func ExampleIndex() {
	index, err := search.Index([]search.Document{
		{Path: "symptoms/spots.html", Title: "Spots after drying", Kind: "symptom", Text: "White spots stay where drops of hard water dry.", AlsoCalled: []string{"water marks"}},
		{Path: "soils/wax.html", Title: "Wax", Kind: "soil", Text: "A film that warmth softens."},
	}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	finder, err := search.Open(index)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer finder.Close()
	answer, err := finder.Ask(context.Background(), search.Question{Words: "water marks"})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, hit := range answer.Hits {
		fmt.Println(hit.Title, hit.Path)
	}
	// Output:
	// Spots after drying symptoms/spots.html
}
