package rules

import (
	"fmt"

	"tankside/builder/decide/admit"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// findSoilsWithoutClearance finds soils that may hurt people whose article has no DANGER or WARNING, and parts with such a soil where none names what
// it may contain: see admit.SoilNeedsClearance. Of a soil's message that does not name it, hazard-without-message speaks.
func findSoilsWithoutClearance(p *proof, a *manual.Article) []finding.Finding {
	const remedy = "Add a safety message: stop, label the lot, and ask the safety officer before washing and before draining."
	var list []finding.Finding
	switch {
	case a.Soil != nil && len(a.Soil.MayContain) > 0 && !signalled(a, "DANGER", "WARNING"):
		may := a.Soil.MayContain[0]
		list = append(list, admit.SoilNeedsClearance.At(may.At, a.Head.Title+" may contain "+may.Name+", and this article has no DANGER or WARNING about it.", remedy))
	case a.Part != nil:
		for _, ref := range a.Part.Soils {
			soil := p.Named(manual.Soil, ref.Name)
			if soil == nil {
				continue
			}
			for _, may := range soil.Soil.MayContain {
				if !names(a, wordsOf(may), "DANGER", "WARNING") {
					list = append(list, admit.SoilNeedsClearance.At(ref.At, fmt.Sprintf("%s may contain %s, and no DANGER or WARNING of this article names it.", soil.Head.Title, spokenName(may)),
						remedy+" Name it: "+spokenName(may)+".", may.At))
				}
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
