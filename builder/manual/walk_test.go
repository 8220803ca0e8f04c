package manual

import (
	"context"
	"testing"
	"testing/fstest"
)

// A name in the two spellings of Unicode, as Linux and macOS write them, is one name elsewhere.
func TestTwinsOfSpellingAreFound(t *testing.T) {
	_, list, err := Read(context.Background(), fstest.MapFS{
		"shop.yaml":           {Data: []byte("name: S\nroles: [operator]\n")},
		"soils/caf\u00e9.md":  {Data: []byte(headOfTest + "A.\n")},
		"soils/cafe\u0301.md": {Data: []byte(headOfTest + "A.\n")},
	})
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, f := range list {
		if f.Rule == ruleSameAddress.Name {
			n++
		}
	}
	if n != 1 {
		t.Errorf("found %d times: %v", n, list)
	}
}
