package segment_test

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"sync"
	"testing"

	index "github.com/blevesearch/bleve_index_api"

	"tankside/search/segment"
)

// words makes n documents of terms drawn at random, the same for the same number.
func words(n int) func(int) []segment.Field {
	return func(i int) []segment.Field {
		r := rand.New(rand.NewPCG(7, uint64(i)))
		var fields []segment.Field
		for _, name := range []string{"title", "text"} {
			seen := map[string]int{}
			for range 30 {
				seen[fmt.Sprintf("term%d", r.IntN(200))]++
			}
			fields = append(fields, segment.Field{Name: name, Length: 30, Terms: maps.All(seen)})
		}
		return fields
	}
}

func TestBuildIsTheSameToTheByte(t *testing.T) {
	first, err := segment.Build(300, words(300))
	if err != nil {
		t.Fatal(err)
	}
	// Several at once, so that bleve's shared buffers come back in all states.
	var all sync.WaitGroup
	for range 12 {
		all.Go(func() {
			again, err := segment.Build(300, words(300))
			if err != nil {
				t.Error(err)
			} else if !bytes.Equal(first, again) {
				t.Error("two builds of the same documents differ")
			}
			if _, err := segment.Build(5, words(5)); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
}

func TestOpenFindsWhatWasBuilt(t *testing.T) {
	built, err := segment.Build(300, words(300))
	if err != nil {
		t.Fatal(err)
	}
	opened, err := segment.Open(built)
	if err != nil {
		t.Fatal(err)
	}
	defer opened.Close()
	if n := opened.Documents(); n != 300 {
		t.Errorf("%d documents, want 300", n)
	}
	at := words(300)
	for _, term := range []string{"term0", "term17", "term199"} {
		want := map[uint64]bool{}
		for i := range 300 {
			for _, f := range at(i) {
				for x := range f.Terms {
					if f.Name == "text" && x == term {
						want[uint64(i)] = true
					}
				}
			}
		}
		got := find(t, opened, "text", term)
		if len(got) != len(want) {
			t.Errorf("%s: %d documents, want %d", term, len(got), len(want))
		}
		for _, n := range got {
			if !want[n] {
				t.Errorf("%s: document %d does not hold it", term, n)
			}
		}
	}
}

func find(t *testing.T, x *segment.Index, field, term string) (numbers []uint64) {
	t.Helper()
	r := x.Reader()
	n, err := r.Find(field, term)
	if err != nil {
		t.Fatal(err)
	}
	for {
		met, err := r.Next(&index.TermFieldDoc{})
		if err != nil {
			t.Fatal(err)
		}
		if met == nil {
			break
		}
		numbers = append(numbers, met.ID.Value())
	}
	if len(numbers) != n {
		t.Errorf("%s: %d documents announced, %d given", term, n, len(numbers))
	}
	return numbers
}

func TestOpenRefusesDamage(t *testing.T) {
	built, err := segment.Build(20, words(20))
	if err != nil {
		t.Fatal(err)
	}
	for _, cut := range []int{0, 1, 39, 40, len(built) / 2, len(built) - 1} {
		if _, err := segment.Open(built[:cut]); err == nil {
			t.Errorf("opened the first %d bytes", cut)
		}
	}
	for at := 0; at < len(built); at += 97 {
		damaged := bytes.Clone(built)
		damaged[at] ^= 4
		if _, err := segment.Open(damaged); !errors.Is(err, segment.ErrDamaged) && !errors.Is(err, segment.ErrVersion) {
			t.Errorf("byte %d flipped: %v", at, err)
		}
	}
}

func TestManyOpenAtOnce(t *testing.T) {
	var all sync.WaitGroup
	for n := range 8 {
		all.Go(func() {
			built, err := segment.Build(n+1, words(n+1))
			if err != nil {
				t.Error(err)
				return
			}
			opened, err := segment.Open(built)
			if err != nil {
				t.Error(err)
				return
			}
			if count := opened.Documents(); count != n+1 {
				t.Errorf("%d documents, want %d", count, n+1)
			}
			if err := opened.Close(); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
}

// Bytes that are no segment, or one of which a bit is another or some are missing, are refused and bring nothing down.
func FuzzOpen(f *testing.F) {
	whole, err := segment.Build(20, words(20))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(whole, 0, byte(0))
	f.Add(whole[:len(whole)/2], 9, byte(1))
	f.Add(whole, len(whole)-1, byte(0x80))
	f.Add([]byte{}, 0, byte(0))
	f.Add(make([]byte, 64), 60, byte(17))
	f.Fuzz(func(t *testing.T, b []byte, at int, change byte) {
		b = bytes.Clone(b)
		if len(b) > 0 {
			b[uint(at)%uint(len(b))] ^= change
		}
		x, err := segment.Open(b)
		if err != nil {
			if x != nil {
				t.Error("what is refused is opened")
			}
			return
		}
		if !bytes.Equal(b, whole) && x.Documents() > len(b) {
			t.Errorf("%d documents in %d bytes", x.Documents(), len(b))
		}
		if err := x.Close(); err != nil {
			t.Error(err)
		}
	})
}
