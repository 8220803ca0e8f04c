package manual

import (
	"context"
	"slices"
	"strings"
	"testing"
)

// What was made of a lookup is made again where other articles give the key, or where one of them has changed, and stays where none has.
func TestLookupsAreNoted(t *testing.T) {
	words := NewIndex(func(a *Article) []string { return strings.Fields(strings.ToLower(a.Head.Title)) })
	fsys := files(map[string]string{"soils/wax.md": soilHead + "Wax.\n", "soils/oil.md": strings.Replace(soilHead, "title: Wax", "title: Oil and wax", 1) + "Oil.\n",
		"soils/rust.md": strings.Replace(soilHead, "title: Wax", "title: Rust", 1) + "Rust.\n"})
	reader := &Reader{}
	again := func(name, from, to string) *Manual {
		t.Helper()
		var changed []string
		if name != "" {
			fsys[name].Data = []byte(strings.Replace(string(fsys[name].Data), from, to, 1))
			changed = []string{name}
		}
		m, _, err := reader.Read(context.Background(), fsys, changed)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	m := again("", "", "")
	noted := func(m *Manual) *Trace {
		t.Helper()
		trace := &Trace{}
		var got []string
		for _, a := range m.Tracing(trace).By(words, "wax") {
			got = append(got, a.Path)
		}
		if want := []string{"soils/oil.md", "soils/wax.md"}; !slices.Equal(got, want) {
			t.Fatalf("“wax” stands in the titles of %q, want %q", got, want)
		}
		return trace
	}
	trace := noted(m)
	if trace.Only(m.At("soils/wax.md")) {
		t.Error("a lookup counts as nothing asked")
	}
	whole := &Trace{}
	m.Tracing(whole).Noted(trace)
	for _, step := range []struct {
		name, from, to string
		holds          bool
	}{
		{"soils/rust.md", "Rust.\n", "Rust, red.\n", true},
		{"soils/rust.md", "title: Rust", "title: Rust under wax", false},
		{"soils/rust.md", "title: Rust under wax", "title: Rust", true},
		{"soils/oil.md", "title: Oil and wax", "title: Oil", false},
		{"soils/oil.md", "title: Oil", "title: Oil and wax", false}, // another article than the one that was given
	} {
		m = again(step.name, step.from, step.to)
		if trace.Holds(m) != step.holds || whole.Holds(m) != step.holds {
			t.Errorf("after %q for %q in %s it is said to hold: %v", step.to, step.from, step.name, !step.holds)
		}
	}
	if !noted(m).Holds(m) {
		t.Error("what was just asked does not hold")
	}
}
