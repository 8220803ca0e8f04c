package page

import (
	"tankside/builder/decide/admit"
	"tankside/builder/manual"
	"tankside/calculators/markup"
)

// whatIf is what the questions about changed set-points and about two baths need.
type whatIf struct {
	Bath, Table                      string // id of the tank; parcel with the facts
	Strength, Temperature, Frequency asIs
	Chemistries, Others              []choice
}

// asIs is a set-point as it is, to be changed.
type asIs struct {
	Number string
	Units  []string // the present one first
}

// whatIf fills it; nil where nothing can be asked of the tank.
func (s *site) whatIf(root string, t *manual.Tank) *whatIf {
	b := s.sheet.Table.Bath(t.ID)
	if len(s.sheet.Table.Materials) == 0 || b == nil || b.Tank == nil {
		return nil
	}
	w := &whatIf{
		Bath: t.ID, Table: root + s.parcels[s.parcelOf(admitTable)],
		Strength:    asItIs(t.Strength, "% v/v", "% w/w", "g/L"),
		Temperature: asItIs(t.Temperature, "°C", "°F"),
		Frequency:   asItIs(t.Frequency, "kHz"),
	}
	for _, c := range s.chemistries() {
		if c.Name != b.Chemistry.Name {
			w.Chemistries = append(w.Chemistries, s.bathChoice(c))
			w.Others = append(w.Others, s.bathChoice(c))
		}
	}
	for i, other := range s.tankBaths() {
		if other.Name != t.ID {
			w.Others = append([]choice{s.bathChoice(s.tankBaths()[i])}, w.Others...)
		}
	}
	return w
}

func (s *site) bathChoice(b *admit.Bath) choice {
	if b.Tank != nil {
		return choice{Value: b.Name, Title: b.Title}
	}
	title, _ := s.title(manual.Chemistry, b.Name, b.Title)
	return choice{Value: b.Name, Title: title}
}

// asItIs writes a set-point for a field; empty where it is none or a range.
func asItIs(l manual.Limit, units ...string) asIs {
	v, one := single(l)
	if !one {
		return asIs{Units: units}
	}
	is := asIs{Number: markup.Number(v, l.Unit), Units: []string{l.Unit.Symbol}}
	for _, u := range units {
		if u != l.Unit.Symbol {
			is.Units = append(is.Units, u)
		}
	}
	return is
}
