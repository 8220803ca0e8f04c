package picture_test

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"tankside/builder/picture"
)

// TestShippedDrawings: the drawings of the themes and of the demo manual pass unchanged.
func TestShippedDrawings(t *testing.T) {
	seen := 0
	for _, dir := range []string{"../../content/pictures", "../../themes/drawings"} {
		err := filepath.WalkDir(dir, func(name string, _ fs.DirEntry, err error) error {
			if err != nil || filepath.Ext(name) != ".svg" {
				return err
			}
			seen++
			data, err := os.ReadFile(name)
			if err != nil {
				return err
			}
			for _, p := range picture.Check(name, data) {
				t.Errorf("%s: %v", name, p)
			}
			got, err := picture.Prepare(name, data)
			if err != nil {
				t.Errorf("%s: %v", name, err)
				return nil
			}
			if !bytes.Equal(got.Data, data) || got.Ext != ".svg" {
				t.Errorf("%s: has been changed", name)
			}
			if got.Width < 1 || got.Width > 650 || got.Height < 1 || got.Height > 900 {
				t.Errorf("%s: %d × %d", name, got.Width, got.Height)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if seen < 30 {
		t.Errorf("only %d drawings found", seen)
	}
}
