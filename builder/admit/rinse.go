package admit

import (
	"tankside/builder/fact"
	"tankside/builder/finding"
)

// RinseOutsideMaterial guards a material in the rinses: what is carried in from the washes gives a rinse a pH of its own, and the part stands
// in it for minutes.
// The limit is the material's own; the pH follows from drag-out, flow and stages, as the calculator rinse has it.
var RinseOutsideMaterial = finding.Rule{
	Name: "rinse-outside-material", Severity: finding.Parts,
	Finds:  "a rinse whose pH or temperature leaves what a part's material stands",
	Why:    "A part that was washed with care is etched, stained or softened a minute later.",
	Source: "the material's article, ph and temperature; the rinse's pH computed from drag-out, flow and alkalinity: carbonate equilibria",
}

// rinses tells what the materials of a load meet after the washes.
func (d *deciding) rinses(after line) {
	for i, r := range after.rinses {
		at := finding.Place{}
		if after.sheet {
			at = after.rinsesAt[i]
		}
		if r.Missing.Phrase != "" && len(d.materials) > 0 {
			d.add(unknown(Say("The pH in {rinse} is not checked: {what is missing}.", Title(r.Name), Clause(r.Missing))).by(r.At))
		}
		for _, m := range d.materials {
			d.rinse(r, m, after.sheet, at)
		}
	}
}

func (d *deciding) rinse(r *Rinse, m *Material, sheet bool, at finding.Place) {
	for _, one := range []struct {
		what        What
		has, stands fact.Limit
	}{{PH, r.PH, m.PH}, {Temperature, r.Warm, m.Temperature}} {
		if !one.has.Set || !one.stands.Set || !leaves(one.has.Range, one.stands.Range) {
			continue
		}
		if one.what == Temperature && one.has.High <= one.stands.High+close(one.stands.High) {
			continue // cooler than the bath hurts nothing
		}
		asks := Say("the limit of {material} is pH {limit}", within(m), Amount(one.stands.Range))
		phrase, brief := inRinsePH, Say("{rinse}: pH {limit}", Title(r.Name), Amount(one.has.Range))
		if one.what == Temperature {
			asks = Say("the limit of {material} is {limit}", within(m), Amount(one.stands.Range))
			phrase, brief = inRinseHeat, Say("{rinse}: {limit}", Title(r.Name), Amount(one.has.Range))
		}
		says := Say(phrase, Title(r.Name), Amount(one.has.Range), Clause(asks))
		if sheet {
			d.add(against(&RinseOutsideMaterial, says).mend("Give the rinse more flow or another stage, or the part a rinse that no such bath drips into.").by(one.stands.At).other(one.has.At).value(at))
			continue
		}
		d.add(wants(&RinseOutsideMaterial, says, brief).by(one.stands.At).other(one.has.At))
	}
}

const (
	inRinsePH   = "In {rinse} it meets pH {limit} while parts run, but {another asks}: more flow, another stage, or a rinse of its own."
	inRinseHeat = "In {rinse} it meets {temperature}, but {another asks}: let that rinse cool, or take another."
)
