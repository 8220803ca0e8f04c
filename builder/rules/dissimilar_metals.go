package rules

import (
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/relate"
)

// findDissimilarMetals finds parts whose materials make a couple in a bath: see relate.DissimilarMetals.
// Plated parts are left alone: the plate and what is under it are one part, and the plate's own article has the limits.
func findDissimilarMetals(p *proof, a *manual.Article) []finding.Finding {
	all := washes(p, a)
	if len(all) == 0 {
		return nil
	}
	var list []finding.Finding
	for i, x := range all[0].materials {
		for _, y := range all[0].materials[:i] {
			if plated(a.Part.Features) || plated(x.Material.Features) || plated(y.Material.Features) {
				continue
			}
			if why, at, also := relate.Couple(x, y); why.Phrase != "" {
				list = append(list, relate.DissimilarMetals.At(materialPlace(a), y.Head.Title+" and "+x.Head.Title+" share a bath: "+why.Within(nil, p.Shop.System())+".",
					"Take the part to pieces and wash them apart, in baths of their own.", at.At, also.At))
			}
		}
	}
	return list
}

func materialPlace(a *manual.Article) finding.Place { return at(a, "material") }

func plated(features []manual.Ref) bool {
	for _, f := range features {
		if f.Name == "plated" {
			return true
		}
	}
	return false
}
