package page

import (
	"html/template"
	"math"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// both writes a text in the shop's own units and, where it differs, in the other family's. The styles show one of the two: the shop's
// own, or the one that the reader has chosen.
func (s *site) both(say func(quantity.System) string) template.HTML {
	own, other := say(s.system), say(s.otherSystem())
	if own == other {
		return template.HTML(template.HTMLEscapeString(own))
	}
	return template.HTML(inSystem(s.system, own) + inSystem(s.otherSystem(), other))
}

// inSystem is a text for readers of one family of units.
func inSystem(system quantity.System, text string) string {
	return `<span class="` + systemClass(system) + `">` + template.HTMLEscapeString(text) + `</span>`
}

// systemClass is the class of what is shown to readers of one family of units only.
func systemClass(system quantity.System) string { return strings.ToLower(system.String()) }

func (s *site) otherSystem() quantity.System {
	if s.system == quantity.US {
		return quantity.SI
	}
	return quantity.US
}

// shown writes a limit of the model in both families of units, or "".
func (s *site) shown(l manual.Limit) template.HTML {
	if !l.Set {
		return ""
	}
	return s.both(l.In)
}

// tankState is what the line says of a tank: temperature and strength.
func (s *site) tankState(t *manual.Tank) template.HTML {
	var parts []string
	for _, l := range []manual.Limit{t.Temperature, t.Strength} {
		if text := s.shown(l); text != "" {
			parts = append(parts, string(text))
		}
	}
	return template.HTML(strings.Join(parts, " · "))
}

// single is the value of a limit that holds one amount.
func single(l manual.Limit) (float64, bool) {
	if !l.Set || math.IsInf(l.Low, 0) || l.Low != l.High {
		return 0, false
	}
	return l.Low, true
}
