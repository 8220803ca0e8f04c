package rules

import (
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/relate"
)

// findSoilWindows finds windows of a soil that leave the window of the chemistry: see relate.OutsideChemistryWindow and its like.
// Two articles then tell the operator two things.
func findSoilWindows(p *proof, a *manual.Article) []finding.Finding {
	if a.Soil == nil {
		return nil
	}
	var list []finding.Finding
	in := p.Shop.System()
	for _, r := range a.Soil.RemovedBy {
		chemistry := p.Named(manual.Chemistry, r.Chemistry.Name)
		if chemistry == nil {
			continue
		}
		b := relate.Bath{Chemistry: chemistry, Window: r.Window}
		for _, f := range bathHits(&b, in) {
			list = append(list, f.Rule.At(f.Also, f.Says.In(nil, in), f.Remedy, f.Hit.At))
		}
		for _, l := range firstBeyond(&b, in) {
			v := valueOf(&b, l.What)
			list = append(list, l.Rule.At(v.At, "With "+chemistry.Head.Title+" "+exceeds(l.What, v, l, in)+".", "Bring the two windows together.", l.Limit.At))
		}
	}
	return list
}
