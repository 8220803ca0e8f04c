package rules

import (
	"fmt"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
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
		lead := p.leadOf(a, sum)
		if t == nil && r == nil {
			t = tankOfLead(lead)
		}
		if t == nil && r == nil {
			r = rinseOfLead(lead)
		}
		for _, in := range sum.Inputs {
			limit, of := p.inputFact(a, sum, t, r, in.Name)
			if of == "" {
				limit, of = p.ledFact(lead, in.Name)
			}
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

// leadOf gives the sentence that leads to a listing: it ends with a colon, and no more than a blank line lies between. nil where there is none, or where
// it speaks of another case than the one that stands.
func (p *proof) leadOf(a *manual.Article, sum *manual.Sum) *sentence.Sentence {
	said := p.reading(a)
	for i := range said.sentences {
		s := &said.sentences[i]
		if d := sum.At.Line - placeIn(a, s.Block, s.From).Line; d < 1 || d > 3 || !strings.HasSuffix(s.Text(), ":") {
			continue
		}
		if s.Has(otherCases) || len(s.Quantities) > 0 {
			return nil
		}
		return s
	}
	return nil
}

// otherCases are words of a listing that is worked for what might be.
var otherCases = sentence.Set("if would could might trial other another new old not without with more less instead double half second suppose planned")

// tankOfLead gives the one tank that the lead of a listing names.
func tankOfLead(lead *sentence.Sentence) *manual.Tank {
	if lead == nil {
		return nil
	}
	return onlyTank(lead)
}

// rinseOfLead gives the one rinse that the lead of a listing names as the shop's.
func rinseOfLead(lead *sentence.Sentence) *manual.Rinse {
	if lead == nil {
		return nil
	}
	var r *manual.Rinse
	for i := range lead.Mentions {
		if m := &lead.Mentions[i]; m.Thing != nil && m.Thing.Rinse != nil {
			if r != nil && r != m.Thing.Rinse {
				return nil
			}
			r = m.Thing.Rinse
		}
	}
	return r
}

// ledFact gives what the shop file has for an input of a listing that is said to be of the shop's own water or first rinse: “What our mains water
// leaves behind:”.
func (p *proof) ledFact(lead *sentence.Sentence, input string) (manual.Limit, string) {
	if lead == nil || !lead.Has(ourWords) {
		return manual.Limit{}, ""
	}
	if lead.Has(mainsWords) {
		switch input {
		case "dissolved-solids":
			return p.Shop.Water.DissolvedSolids, "the shop's water"
		case "hardness":
			return p.Shop.Water.Hardness, "the shop's water"
		case "conductivity":
			return p.Shop.Water.Conductivity, "the shop's water"
		}
	}
	if lead.Has(firstOne) && lead.Has(rinseWord) && input == "flow" && len(p.Shop.Rinses) > 0 {
		return p.Shop.Rinses[0].Flow, p.Shop.Rinses[0].Name
	}
	return manual.Limit{}, ""
}

var (
	ourWords   = sentence.Set("our ours we here")
	mainsWords = sentence.Set("mains tap")
	firstOne   = sentence.Set("first")
	rinseWord  = sentence.Set("rinse")
)

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
		if sum.Calculator == "heat-up" || sum.Calculator == "holding" || sum.Calculator == "load" || sum.Calculator == "sound" {
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
