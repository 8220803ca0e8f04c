package rules

import (
	"tankside/builder/admit"
	"tankside/builder/manual"
	"tankside/builder/relate"
)

// What the text recommends is compared with the decision about materials and baths, which is asked for here and nowhere else in the rules of
// the text.

// refusesTank tells whether a material must not go into a tank as it stands today, and why.
func (p *proof) refusesTank(t *manual.Tank, material *manual.Article) (string, bool) {
	if c := p.Named(manual.Chemistry, t.Chemistry.Name); c == nil {
		return "", false
	}
	verdict, reasons := relate.SuitsTank(p.Manual, t, material)
	return p.refusal(verdict, reasons)
}

// refuses tells whether a chemistry must not meet a material, and why.
func (p *proof) refuses(chemistry, material *manual.Article) (string, bool) {
	verdict, reasons := relate.Suits(p.Manual, chemistry, material)
	return p.refusal(verdict, reasons)
}

func (p *proof) refusal(verdict admit.Verdict, reasons []admit.Reason) (string, bool) {
	if verdict != admit.No {
		return "", false
	}
	for _, r := range reasons {
		if r.Verdict == admit.No && r.Says.Phrase != "" && !ofBathAlone[r.Rule] {
			return r.Says.In(nil, p.Shop.System()), true
		}
	}
	return "", false
}

// ofBathAlone are reasons that hold whatever goes in: they are faults of the bath, and said there.
var ofBathAlone = map[string]bool{
	"flammable-in-ordinary-tank": true, "near-flash-point": true, "enzyme-killed": true, "above-ceiling": true, "above-cloud-point": true, "outside-chemistry-window": true,
}
