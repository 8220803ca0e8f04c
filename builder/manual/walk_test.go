package manual

import (
	"context"
	"errors"
	"fmt"
	"strings"
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

// A folder with more files than are looked at is told to have too many, and not to lack its shop file, which may be among the rest.
func TestTooManyFilesIsWhatIsSaid(t *testing.T) {
	files := fstest.MapFS{ShopFile: {Data: []byte("name: S\nroles: [operator]\n")}}
	for i := range maxFiles + 1 {
		files[fmt.Sprintf("a/%d.txt", i)] = &fstest.MapFile{}
	}
	_, _, err := Read(context.Background(), files)
	var unusable *UnusableError
	if !errors.As(err, &unusable) || !strings.Contains(unusable.Problem, "more than 100000 files") || strings.Contains(unusable.Problem, "no "+ShopFile) {
		t.Errorf("%v", err)
	}
}
