package bring_test

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	"tankside/builder/bring"
	"tankside/builder/manual"
)

// A file that was mutilated on its way, in 500 ways, is an article that the reader can read, or a sentence, and takes no longer than a second or so.
func TestMutilated(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob("testdata/cases/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		data, err := os.ReadFile(files[r.IntN(len(files))])
		if err != nil {
			t.Fatal(err)
		}
		for range 1 + r.IntN(8) {
			data = mutilated(r, data)
		}
		name := []string{"a.md", "a.html"}[r.IntN(2)]
		begun := time.Now()
		got, err := bring.Article(name, data, bring.Options{Kind: manual.Soil, Name: "brought"})
		if took := time.Since(begun); took > 20*time.Second {
			t.Errorf("%s of %d bytes took %s:\n%q", name, len(data), took, data)
		}
		if err == nil {
			readable(t, got.Text)
		}
		if t.Failed() {
			t.Fatalf("%s:\n%q", name, data)
		}
	}
}

func mutilated(r *rand.Rand, data []byte) []byte {
	if len(data) == 0 {
		return []byte("x")
	}
	at, n := r.IntN(len(data)), r.IntN(40)
	switch r.IntN(3) {
	case 0:
		return append(data[:at:at], data[min(len(data), at+n):]...)
	case 1:
		from := r.IntN(len(data))
		piece := append([]byte(nil), data[from:min(len(data), from+n)]...)
		return append(data[:at:at], append(piece, data[at:]...)...)
	}
	data[at] = byte(r.IntN(256))
	return data
}
