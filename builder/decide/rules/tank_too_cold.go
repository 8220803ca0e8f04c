package rules

import (
	"errors"
	"fmt"
	"math"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sums"
	"tankside/calculators"
)

// tankTooCold finds set-points and washes that a tank does not reach, or would not hold: its heater does no more than cover the losses below
// that temperature. It prevents a load that waits for ever, or is washed too cold because nobody waits.
// The limit is computed: heater against losses by evaporation, convection, radiation and walls (calculators.HeatOf, with its sources).
// It speaks up only where even the likely losses are too many; within the band of what is uncertain it is silent.
var tankTooCold = finding.Rule{
	Name: "tank-too-cold", Severity: finding.Result,
	Finds:  "a temperature that the tank's heater does not reach or hold",
	Why:    "The load waits for a temperature that never comes, or is washed too cold because nobody waits.",
	Source: "computed from heater and losses, as the calculator heat-up does: its sources stand there",
}

// heatOf gives the temperature in °C at which a tank's losses are as large as its heater, and whether that is known.
func heatOf(p *proof, t *manual.Tank) (float64, bool) {
	if !t.Heater.Set {
		return 0, false
	}
	h, err := calculators.HeatOf(sums.Tank(p.Manual, t), sums.Shop(p.Manual))
	var cannot calculators.Errors
	if errors.As(err, &cannot) {
		return 0, false // the rule calculator-without-result says what is missing where a calculator is shown
	}
	if h.Boils {
		return math.Inf(1), true
	}
	return h.Highest, true
}

// reach gives the temperature that a tank reaches, if that is known.
func (p *proof) reach(t *manual.Tank) (float64, bool) {
	p.Manual.Named(manual.Chemistry, t.Chemistry.Name) // so that a trace knows: it hangs on what is in the tank
	highest, known := p.reaches()[t]
	return highest, known
}

// reachable gives for each tank the temperature that it reaches.
func (p *proof) reachable() map[*manual.Tank]float64 {
	reaches := make(map[*manual.Tank]float64, len(p.Shop.Tanks))
	for i := range p.Shop.Tanks {
		if highest, known := heatOf(p, &p.Shop.Tanks[i]); known {
			reaches[&p.Shop.Tanks[i]] = highest
		}
	}
	return reaches
}

func (p *proof) tooCold(t *manual.Tank, target manual.Limit, at finding.Place, also ...finding.Place) []finding.Finding {
	highest, known := p.reach(t)
	if !known || !target.Set || target.Low <= highest {
		return nil
	}
	in := p.Shop.System()
	return []finding.Finding{tankTooCold.At(at, fmt.Sprintf("%s is to be at %s, but with its heater of %s it comes to about %s at most.",
		t.Name, target.In(in), t.Heater.In(in), quantity.Show(highest, quantity.Temperature, in)), "Ask for less heat, keep the lid on, insulate the tank or fit a larger heater.", also...)}
}

func findColdTanks(p *proof) []finding.Finding {
	var list []finding.Finding
	for i := range p.Shop.Tanks {
		t := &p.Shop.Tanks[i]
		list = append(list, p.tooCold(t, t.Temperature, t.Temperature.At)...)
	}
	return list
}

func findColdWashes(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	if a.Part == nil {
		return nil
	}
	for _, step := range a.Part.Steps {
		t := p.Shop.Tank(step.Tank.Name)
		if t == nil || !step.Temperature.Set {
			continue
		}
		if len(p.tooCold(t, t.Temperature, t.At)) == 0 { // else the tank itself is reported
			list = append(list, p.tooCold(t, step.Temperature, step.Temperature.At, t.At)...)
		}
	}
	return list
}
