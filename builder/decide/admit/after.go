package admit

import (
	"strings"

	"tankside/builder/decide/fact"
	"tankside/builder/quantity"
)

// Stop is a place behind the wash through which the parts of a sheet go: a rinse, or the dryer.
type Stop struct {
	Name  string `json:"name"`
	Meets string `json:"meets"` // pH and temperature while parts run, in the shop's own units; "" where the manual does not say
}

// After gives the rinses and the dryer of a part's sheet in their order; none where there is no such part.
func (t *Table) After(part string) (list []Stop) {
	p := named(t.Parts, part)
	if p == nil {
		return nil
	}
	for _, r := range p.Rinse {
		for _, rinse := range t.rinsesOf([]string{r.Name}) {
			list = append(list, Stop{rinse.Name, t.meets(rinse.RunsPH, rinse.RunsAt)})
		}
	}
	if p.Dry.Name != "" && p.Dry.Name == t.Dryer.ID {
		list = append(list, Stop{t.Dryer.Name, t.meets(t.Dryer.Temperature)})
	}
	return list
}

// meets writes limits that are set.
func (t *Table) meets(limits ...fact.Limit) string {
	var said []string
	for _, l := range limits {
		switch {
		case l.Set && l.Kind == quantity.PH:
			said = append(said, "pH "+l.In(system(t.System)))
		case l.Set:
			said = append(said, l.In(system(t.System)))
		}
	}
	return strings.Join(said, ", ")
}
