package rules

import (
	"errors"
	"fmt"
	"math"

	"tankside/builder/admit"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/relate"
	"tankside/builder/sums"
	"tankside/calculators"
	"tankside/calculators/quantity"
)

// findTankFaults finds tanks whose bath, as it stands today, leaves its chemistry's window or meets an exclusion.
func findTankFaults(p *proof) []finding.Finding {
	var list []finding.Finding
	in := p.Shop.System()
	for i := range p.Shop.Tanks {
		t := &p.Shop.Tanks[i]
		b := relate.InTank(p.Manual, t)
		if b.Chemistry == nil || b.Chemistry.Partial {
			continue
		}
		for _, f := range bathHits(&b, in) {
			list = append(list, f.Rule.At(t.At, t.Name+": "+f.Says.In(nil, in), f.Remedy, f.Hit.At))
		}
		for _, l := range firstBeyond(&b, in) {
			v := valueOf(&b, l.What)
			if l.What == admit.Frequency && v.Low <= l.High && v.High >= l.Low {
				continue // a tank with several frequencies, of which some suit
			}
			list = append(list, l.Rule.At(v.At, t.Name+": "+exceeds(l.What, v, l, in)+".", "Correct the tank in the shop file, or the window in the chemistry's article.", l.Limit.At))
		}
	}
	return list
}

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
	for _, w := range washes(p, a) {
		if w.Tank == nil || !w.step.Temperature.Set {
			continue
		}
		if len(p.tooCold(w.Tank, w.Tank.Temperature, w.Tank.At)) == 0 { // else the tank itself is reported
			list = append(list, p.tooCold(w.Tank, w.step.Temperature, w.step.Temperature.At, w.Tank.At)...)
		}
	}
	return list
}
