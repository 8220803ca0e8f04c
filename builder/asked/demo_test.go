package asked

import (
	"context"
	"os"
	"strings"
	"sync"
	"testing"

	"tankside/builder/decide/admit/markup"
	"tankside/builder/decide/relate"
	"tankside/builder/manual"
	"tankside/calculators"
)

// demo are the names of the demo manual, as page gathers them, with two tanks that are known in part, and its decision.
var demo = sync.OnceValues(func() (d struct {
	names *Names
	sheet *markup.Sheet
}, err error) {
	m, _, err := manual.Read(context.Background(), os.DirFS("../../content"))
	if err != nil {
		return d, err
	}
	var things []Thing
	for _, a := range m.Articles {
		if sort := map[manual.Kind]byte{manual.Material: 'm', manual.Soil: 's', manual.Chemistry: 'c'}[a.Kind]; sort != 0 {
			things = append(things, Thing{Sort: sort, Name: a.Name, Title: a.Head.Title, Also: a.Head.AlsoCalled})
		}
	}
	for i := range m.Shop.Tanks {
		t := &m.Shop.Tanks[i]
		heats := []calculators.Written{{Name: "heater", Text: t.Heater.String()}, {Name: "lid", Text: "yes"}}
		things = append(things, Thing{Sort: 't', Name: t.ID, Title: t.Name, Volume: t.Volume.String(), Degree: " °C", Heater: heats,
			Dilution: []calculators.Written{{Name: "volume", Text: t.Volume.String()}, {Name: "density", Text: "1.08 kg/L"}},
			Heating:  append([]calculators.Written{{Name: "volume", Text: t.Volume.String()}}, heats...)})
	}
	d.names = Unpack(Gather(things, map[string]string{"dilution": "procedures/fill-and-dilute.html#sum-dilution", "heat-up": "procedures/heat-the-bath.html#sum-heat-up"},
		func(english string) string { return english }))
	d.sheet = &markup.Sheet{Table: relate.Table(m)}
	return d, nil
})

// read reads a text by the demo's names.
func read(t testing.TB, text string) []string {
	t.Helper()
	d, err := demo()
	if err != nil {
		t.Fatal(err)
	}
	out := strings.Split(d.names.Read(nil, text), part)
	return out[:len(out)-1]
}
