package manual

import (
	"context"
	"testing"
	"testing/fstest"
)

// A key with the value no is not a key that is not there, and has its place.
func TestNoIsNotUnsaid(t *testing.T) {
	m, found, err := Read(context.Background(), fstest.MapFS{
		ShopFile:       {Data: []byte("name: Shop\ntanks:\n  - id: a\n    name: A\n    volume: 10 L\n    lid: no\n  - {id: b, name: B, volume: 10 L, flammables: yes}\ndryer: {id: dryer, name: Dryer}\nroles: [operator]\n")},
		"lessons/l.md": {Data: []byte("---\ntitle: L\nsummary: S.\nstation: wash\nrevision: A\napproved: 2026-09-14, operator\nreview-by: 2027-09-14\nsources: [from memory]\n---\nx\n")},
	})
	if err != nil || len(found) > 0 {
		t.Fatal(err, found)
	}
	a, b := m.Shop.Tanks[0], m.Shop.Tanks[1]
	if at, said := a.Keys["lid"]; !said || at.Line != 6 || at.Column != 5 || a.Lid {
		t.Errorf("lid: no stands at %v (%v)", at, said)
	}
	if _, said := b.Keys["lid"]; said {
		t.Error("a lid is said of a tank of which none is said")
	}
	if at, said := b.Keys["flammables"]; !said || at.Line != 7 || !b.Flammables {
		t.Errorf("flammables: yes stands at %v (%v)", at, said)
	}
	if at, said := m.Shop.Dryer.Keys["id"]; !said || at.Line != 8 {
		t.Errorf("the dryer's id stands at %v (%v)", at, said)
	}
}
