package asked

import (
	"context"
	"os"
	"sync"
	"testing"

	"tankside/builder/decide/admit/markup"
	"tankside/builder/decide/relate"
	"tankside/builder/manual"
	"tankside/calculators"
)

// demo is a teller over the demo manual: names as page.names gathers them, with the sums of two tanks.
var demo = sync.OnceValues(func() (*Teller, error) {
	m, _, err := manual.Read(context.Background(), os.DirFS("../../content"))
	if err != nil {
		return nil, err
	}
	n := &Names{Asks: true, Sums: map[string]string{"dilution": "procedures/fill-and-dilute.html#sum-dilution", "heat-up": "procedures/heat-the-bath.html#sum-heat-up", "hardness": "lessons/rinsing-and-drying.html#sum-hardness"}}
	for _, a := range m.Articles {
		for kind, sort := range map[manual.Kind]string{manual.Material: Material, manual.Soil: Soil, manual.Chemistry: Chemistry} {
			if a.Kind == kind {
				n.Things = append(n.Things, Thing{Sort: sort, Name: a.Name, Title: a.Head.Title, Also: a.Head.AlsoCalled})
			}
		}
	}
	for i := range m.Shop.Tanks {
		t := &m.Shop.Tanks[i]
		n.Things = append(n.Things, Thing{Sort: Tank, Name: t.ID, Title: t.Name, Sums: []Known{
			{"dilution", []calculators.Written{{Name: "volume", Text: t.Volume.String()}, {Name: "strength", Text: t.Strength.String()}}},
			{"heat-up", []calculators.Written{{Name: "volume", Text: t.Volume.String()}, {Name: "start", Text: "12 °C"}, {Name: "target", Text: "62 °C"}, {Name: "heater", Text: t.Heater.String()}, {Name: "lid", Text: "yes"}}},
		}})
	}
	return &Teller{Names: n, Sheet: &markup.Sheet{Table: relate.Table(m)}}, nil
})

func ofDemo(t testing.TB) *Teller {
	t.Helper()
	d, err := demo()
	if err != nil {
		t.Fatal(err)
	}
	return d
}
