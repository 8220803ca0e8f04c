package admit

import (
	"tankside/builder/finding"
	"tankside/calculators/safety"
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
		for _, m := range d.materials {
			d.inRinse(r, m, after.sheet, at)
		}
	}
}

// inRinse tells what a material meets in a rinse. What it would meet in the water alone is no matter of what is carried in: it rusts there, or
// it does not, and its article says so.
func (d *deciding) inRinse(r *Rinse, m *Material, sheet bool, at finding.Place) {
	if carriedOut(r, m) {
		asks := Say("the limit of {material} is pH {limit}", within(m), Amount(m.PH.Range))
		switch {
		case r.Missing.Phrase != "":
			d.add(unknown(Say("The pH in {rinse} is not checked: {what is missing}. What drips in could bring it to pH {limit}, but {another asks}.", Title(r.Name), Clause(r.Missing), Amount(r.RunsPH.Range), Clause(asks))).by(m.PH.At).other(r.At))
		case sheet:
			d.add(against(&RinseOutsideMaterial, Say(inRinsePH, Title(r.Name), Amount(r.RunsPH.Range), Clause(asks))).
				mend("Give the rinse more flow or another stage, or the part a rinse that no such bath drips into.").by(m.PH.At).other(r.At).value(at))
		default:
			d.add(wants(&RinseOutsideMaterial, Say(inRinsePH, Title(r.Name), Amount(r.RunsPH.Range), Clause(asks)), Say("not through {rinse} as it runs", Title(r.Name))).by(m.PH.At).other(r.At))
		}
	}
	if r.RunsAt.Set && m.Temperature.Set && r.RunsAt.High > m.Temperature.High+close(m.Temperature.High) {
		asks := Say("the limit of {material} is {limit}", within(m), Amount(m.Temperature.Range))
		says := Say(inRinseHeat, Title(r.Name), Amount(r.RunsAt.Range), Clause(asks))
		if sheet {
			d.add(against(&RinseOutsideMaterial, says).mend("Let that rinse cool, or give the part another.").by(m.Temperature.At).other(r.RunsAt.At).value(at))
			return
		}
		d.add(wants(&RinseOutsideMaterial, says, Say("not through {rinse} as it runs", Title(r.Name))).by(m.Temperature.At).other(r.RunsAt.At))
	}
}

// carriedOut tells whether what drips into a rinse takes its pH beyond what a material stands. Where the water by itself is outside already, it
// has to take it further by half a unit of pH, which is our own limit.
func carriedOut(r *Rinse, m *Material) bool {
	runs, plain, stands := r.RunsPH, r.Plain, m.PH
	const nothing, further = safety.NoDifference, safety.Difference // of a pH unit: what no paper shows, and what it does
	return runs.Set && stands.Set &&
		(runs.High > stands.High+nothing && runs.High > plain.High+nothing && !(plain.High > stands.High && runs.High < plain.High+further) ||
			runs.Low < stands.Low-nothing && runs.Low < plain.Low-nothing && !(plain.Low < stands.Low && runs.Low > plain.Low-further))
}

const (
	inRinsePH   = "In {rinse} it meets pH {limit} while parts run, but {another asks}: more flow, another stage, or a rinse of its own."
	inRinseHeat = "In {rinse} it meets {temperature}, but {another asks}: let that rinse cool, or take another."
)
