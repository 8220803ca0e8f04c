package edition

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A file of the edition in place that is damaged and keeps size and time, as where a disk goes bad, is found in a sitting, after so many editions as it takes to
// look at all of them once; it is named, and no further edition takes it over.
func TestDamageWithoutATraceIsFoundInASitting(t *testing.T) {
	for name, size := range map[string]int{"small": 10, "large": mostLooked / 3} {
		t.Run(name, func(t *testing.T) {
			dir := filepath.Join(quickDir(t), "edition")
			s := &Sitting{}
			next := func(n int) error {
				w, err := BeginIn(s, dir)
				if err != nil {
					return err
				}
				for i := range 8 {
					if err := w.Add(fmt.Sprintf("assets/%d.bin", i), []byte(strings.Repeat(fmt.Sprint(i), size))); err != nil {
						return err
					}
				}
				if err := w.Add("index.html", fmt.Appendf(nil, "edition %d", n)); err != nil {
					return err
				}
				_, err = w.Commit(List{Mark: Mark{Edition: n}}, nil)
				return err
			}
			for n := range 3 {
				if err := next(n); err != nil {
					t.Fatal(err)
				}
			}
			file := filepath.Join(dir, "assets", "5.bin")
			info, err := os.Stat(file)
			if err != nil {
				t.Fatal(err)
			}
			if err := errors.Join(os.WriteFile(file, []byte(strings.Repeat("5", size-1)+"6"), 0o644), os.Chtimes(file, info.ModTime(), info.ModTime())); err != nil {
				t.Fatal(err)
			}
			for n := 3; ; n++ {
				err := next(n)
				var inTheWay *InTheWayError
				if errors.As(err, &inTheWay) && slices.ContainsFunc(inTheWay.Strays, func(s Stray) bool { return s.Path == "assets/5.bin" }) {
					break
				}
				if err != nil || n > 8 {
					t.Fatalf("edition %d: %v", n, err)
				}
			}
			if err := s.Close(); err != nil {
				t.Error(err)
			}
		})
	}
}
