package rules

import (
	"tankside/builder/decide/admit"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// findSoilsWithoutClearance finds parts with a soil that may hurt people, and soils themselves, whose article has no DANGER or WARNING:
// see admit.SoilNeedsClearance.
func findSoilsWithoutClearance(p *proof, a *manual.Article) []finding.Finding {
	if signalled(a, "DANGER", "WARNING") {
		return nil
	}
	var list []finding.Finding
	report := func(at finding.Place, soil *manual.Article, also ...finding.Place) {
		list = append(list, admit.SoilNeedsClearance.At(at, soil.Head.Title+" may contain "+soil.Soil.MayContain[0].Name+", and this article has no DANGER or WARNING about it.",
			"Add a safety message: stop, label the lot, and ask the safety officer before washing and before draining.", also...))
	}
	switch {
	case a.Soil != nil && len(a.Soil.MayContain) > 0:
		report(a.Soil.MayContain[0].At, a)
	case a.Part != nil:
		for _, ref := range a.Part.Soils {
			if soil := p.Named(manual.Soil, ref.Name); soil != nil && len(soil.Soil.MayContain) > 0 {
				report(ref.At, soil, soil.Soil.MayContain[0].At)
			}
		}
	}
	return list
}

// signalled tells whether an article has a safety message with one of the signal words.
func signalled(a *manual.Article, words ...string) bool {
	for _, s := range a.Signals {
		for _, w := range words {
			if s.Word == w {
				return true
			}
		}
	}
	return false
}
