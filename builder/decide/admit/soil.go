package admit

import (
	"slices"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
)

// SoilNotRemoved finds soils of a part that none of its washes lifts.
// It prevents that a part is washed, rinsed and dried with the soil still on it. What lifts what is in the articles of soils and chemistries.
var SoilNotRemoved = finding.Rule{
	Name: "soil-not-removed", Severity: finding.Result,
	Finds:  "a part's soil that none of its washes lifts",
	Why:    "The part goes through wash, rinse and dryer and comes out dirty.",
	Source: "the soil's article, removed-by, and the chemistry's, removes",
}

// Lifts gives the removal of a soil by a chemistry, whether the soil's article or the chemistry's says so.
// When only the chemistry says so, the removal has no window.
func Lifts(chemistry *Chemistry, soil *Soil) (fact.Removal, bool) {
	return Removal(chemistry.Name, &chemistry.Chemistry, soil.Name, &soil.Soil)
}

// Removal is the same for a chemistry and a soil by their names.
func Removal(chemistry string, c *fact.Chemistry, soil string, s *fact.Soil) (fact.Removal, bool) {
	for _, r := range s.RemovedBy {
		if r.Chemistry.Name == chemistry {
			return r, true
		}
	}
	for _, removes := range c.Removes {
		if removes.Name == soil {
			return fact.Removal{Chemistry: fact.Ref{Name: chemistry, At: removes.At}}, true
		}
	}
	return fact.Removal{}, false
}

// onPurpose tells whether a soil is taken off by attacking: rust, scale, tarnish.
func onPurpose(soil *Soil) bool { return soil.Nature == "oxide" || soil.Nature == "scale" }

// AttackedOnPurpose tells whether a wash is there to attack: it lifts one of the soils that come off only so.
func AttackedOnPurpose(chemistry *Chemistry, soils []*Soil) bool {
	return slices.ContainsFunc(soils, func(s *Soil) bool {
		_, lifts := Lifts(chemistry, s)
		return lifts && onPurpose(s)
	})
}
