package handout

import (
	"context"
	"os"
	"testing"

	"tankside/builder/decide/relate"
	"tankside/builder/manual"
)

func demoKit(t testing.TB) (*manual.Manual, *Kit) {
	t.Helper()
	m, _, err := manual.Read(context.Background(), os.DirFS("../../content"))
	if err != nil {
		t.Fatal(err)
	}
	return m, New(m, relate.Table(m), nil, nil, func(a *manual.Article) *manual.Article { return a })
}

// Every sheet of the demo manual fits, by the estimate.
func TestDemoFits(t *testing.T) {
	_, k := demoKit(t)
	list, err := k.All()
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range Misfits(list) {
		t.Errorf("%s %s, side %d takes %.0f of %.0f mm; longest at %s: %.40s", m.Sheet.Kind, m.Sheet.Name, m.Side, m.Takes, m.Has, m.Longest, m.What)
	}
}

// All are the sheets that a manual has, of every kind.
func (k *Kit) All() ([]Sheet, error) {
	var list []Sheet
	for _, p := range k.Pieces() {
		more, err := p.Make(k)
		if err != nil {
			return nil, err
		}
		list = append(list, more...)
	}
	return list, nil
}
