package rules

import (
	"fmt"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// listingAgainstModel finds inputs of a calculator that contradict the tank which the same listing names, the article's chemistry or a part's
// own wash. It prevents that the page works a sum for another tank than the one at which the reader stands.
// The limits are the shop file and the headers. Inputs that are there to be varied (time, load, what was found) are left alone, and so is sound
// or a lid that is switched off or taken away.
var listingAgainstModel = finding.Rule{
	Name: "listing-against-model", Severity: finding.Result,
	Finds:  "an input of a calculator that contradicts the tank, the chemistry or the part it is about",
	Why:    "The page works the sum for another tank than the one at which the reader stands.",
	Source: "the shop file, and the headers of the articles",
}

func findListingsAgainstModel(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	for i := range a.Sums {
		sum := &a.Sums[i]
		var t *manual.Tank
		var r *manual.Rinse
		for _, in := range sum.Inputs {
			if in.Name == "tank" {
				t, r = p.Shop.Tank(in.Value), p.Shop.RinseTank(in.Value)
			}
		}
		for _, in := range sum.Inputs {
			limit, of := p.inputFact(a, sum, t, r, in.Name)
			if !limit.Set || of == "" {
				continue
			}
			v, err := quantity.ParseRange(in.Value, limit.Kind)
			if err != nil || v.High == 0 || v.Kind != limit.Kind || v.Within(limit.Range) || limit.Low == limit.High && off(v.Low, limit.Low) < 0.02 && v.Low == v.High {
				continue
			}
			list = append(list, listingAgainstModel.At(in.At, fmt.Sprintf("The calculator is given %s %s; %s has %s.", in.Name, in.Value, of, limit.In(p.Shop.System())), "Correct the input, or leave it out: what the shop file knows is taken from there.", limit.At))
		}
	}
	return list
}

// inputFact gives what the model has for an input of a calculator, and of what.
func (p *proof) inputFact(a *manual.Article, sum *manual.Sum, t *manual.Tank, r *manual.Rinse, input string) (manual.Limit, string) {
	if r != nil {
		switch input {
		case "volume":
			return r.Volume, r.Name
		case "flow":
			return r.Flow, r.Name
		case "temperature":
			return r.Temperature, r.Name
		case "conductivity":
			return r.Conductivity, r.Name
		}
		return manual.Limit{}, ""
	}
	if t == nil {
		return p.ownInput(a, sum, input)
	}
	switch input {
	case "volume":
		return t.Volume, t.Name
	case "length":
		return t.Length, t.Name
	case "width":
		return t.Width, t.Name
	case "depth":
		return t.Depth, t.Name
	case "heater":
		return t.Heater, t.Name
	case "ultrasonic-power":
		return t.Power, t.Name
	case "frequency":
		return t.Frequency, t.Name
	case "strength", "bath-strength":
		return t.Strength, t.Name
	case "target", "temperature":
		if sum.Calculator == "heat-up" || sum.Calculator == "holding" || sum.Calculator == "load" {
			return t.Temperature, t.Name
		}
	case "density":
		if c := p.Named(manual.Chemistry, t.Chemistry.Name); c != nil {
			return c.Chemistry.Density, c.Head.Title
		}
	}
	return manual.Limit{}, ""
}

// ownInput is the same for a listing that names no tank, in the article of a chemistry or a part.
func (p *proof) ownInput(a *manual.Article, sum *manual.Sum, input string) (manual.Limit, string) {
	if a.Chemistry != nil && !a.Partial {
		switch input {
		case "density":
			return a.Chemistry.Density, a.Head.Title
		case "strength":
			if sum.Calculator == "dilution" || sum.Calculator == "top-up" {
				return a.Chemistry.Strength, a.Head.Title
			}
		}
	}
	return manual.Limit{}, ""
}
