package page

import (
	"math"
	"strings"

	"tankside/builder/manual"
	"tankside/calculators/quantity"
)

// show writes a limit of the model in the shop's units, or "".
func (s *site) show(l manual.Limit) string {
	if !l.Set {
		return ""
	}
	return l.Range.In(s.system)
}

// tankState is what the line says of a tank: temperature and strength.
func (s *site) tankState(t *manual.Tank) string {
	var parts []string
	for _, l := range []manual.Limit{t.Temperature, t.Strength} {
		if text := s.show(l); text != "" {
			parts = append(parts, text)
		}
	}
	return strings.Join(parts, " · ")
}

// single is the value of a limit that holds one amount.
func single(l manual.Limit) (float64, bool) {
	if !l.Set || math.IsInf(l.Low, 0) || l.Low != l.High {
		return 0, false
	}
	return l.Low, true
}

// amount writes a number of the model in the shop's units.
func (s *site) amount(si float64, kind quantity.Kind) string {
	return quantity.Show(si, kind, s.system)
}
