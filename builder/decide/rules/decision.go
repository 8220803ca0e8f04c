package rules

import (
	"tankside/builder/decide/admit"
	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// What the text recommends is compared with the decision about materials and baths, which is asked for here and nowhere else in the rules of
// the text.

// refusesTank tells whether a material must not go into a tank as this edition has it, and why.
func (p *proof) refusesTank(t *manual.Tank, material *manual.Article) (string, bool) {
	c := p.Named(manual.Chemistry, t.Chemistry.Name)
	if c == nil {
		return "", false
	}
	return p.refusal(t.ID, c, material)
}

// refuses tells whether a chemistry must not meet a material, and why.
func (p *proof) refuses(chemistry, material *manual.Article) (string, bool) {
	return p.refusal(chemistry.Name, chemistry, material)
}

// refusal gives the reason for which a material must not go into a bath that holds a chemistry.
func (p *proof) refusal(bath string, chemistry, material *manual.Article) (string, bool) {
	answer, err := p.decided(bath, chemistry, material)
	if err != nil || answer.Verdict != admit.No {
		return "", false // what could not be read, or has no name of its own, is reported
	}
	for _, r := range answer.Reasons {
		if r.Verdict == admit.No && !ofBathAlone[r.Rule] {
			return r.Says.In(nil, p.Shop.System()), true
		}
	}
	return "", false
}

// decided is the decision about a material in a bath that holds a chemistry.
func (p *proof) decided(bath string, chemistry, material *manual.Article) (admit.Answer, error) {
	return relate.Some(p.Manual, p.line, chemistry, material).Answer(admit.Question{Materials: []string{material.Name}, Bath: bath})
}

// admitted tells whether a material may go into a bath, with conditions or without.
func (p *proof) admitted(bath *spokenOf, material *manual.Article) bool {
	if len(bath.chemistries) == 0 {
		return false // of a tank of whose chemistry nothing is known
	}
	chemistry := bath.chemistries[0]
	name := chemistry.Name
	if len(bath.tanks) == 1 {
		name = bath.tanks[0].ID
	}
	if !chemistry.Chemistry.PH.Set || !material.Material.PH.Set {
		return false // what is missing in a header is reported there, and decides nothing
	}
	answer, err := p.decided(name, chemistry, material)
	return err == nil && answer.Verdict != admit.No
}

// ofBathAlone are reasons that hold whatever goes in: they are faults of the bath, and said there.
var ofBathAlone = map[finding.RuleName]bool{
	"flammable-in-ordinary-tank": true, "near-flash-point": true, "jar-with-heat-or-sound": true, "enzyme-killed": true, "above-ceiling": true, "above-cloud-point": true, "outside-chemistry-window": true,
}
