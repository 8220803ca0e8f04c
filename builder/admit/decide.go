package admit

import (
	"math"

	"tankside/calculators/quantity"
)

// decide finds what all limits can live with, and turns it and the reasons into an answer.
func decide(bath *Bath, reasons []Reason, limits []Limit) Answer {
	recipe := &Recipe{Bath: bath.Title, Chemistry: bath.Chemistry, Path: bath.Path}
	for _, what := range everything {
		span, found := narrow(bath, what, limits)
		reasons = append(reasons, found...)
		if span != nil {
			recipe.Spans = append(recipe.Spans, *span)
		}
	}
	a := Answer{Verdict: Yes}
	for _, v := range []Verdict{No, Conditions, Yes} {
		for _, r := range reasons {
			if r.Verdict == v && !has(a.Reasons, r) {
				a.Reasons = append(a.Reasons, r)
				a.Verdict = worse(a.Verdict, v)
			}
		}
	}
	if a.Verdict == No {
		a.Reasons = only(a.Reasons, No)
	} else {
		a.Recipe = recipe
	}
	return a
}

// only keeps the reasons for a verdict: what would have to be done is beside the point when the answer is no.
func only(reasons []Reason, v Verdict) []Reason {
	var list []Reason
	for _, r := range reasons {
		if r.Verdict == v {
			list = append(list, r)
		}
	}
	return list
}

func has(reasons []Reason, r Reason) bool {
	for _, x := range reasons {
		if x.Place == r.Place && x.Says.same(r.Says) {
			return true
		}
	}
	return false
}

// narrow finds the span that all limits of one sort leave, and what has to be said about it.
func narrow(bath *Bath, what What, limits []Limit) (*Span, []Reason) {
	lowest, highest := math.Inf(-1), math.Inf(1)
	var low, high, own *Limit // whose ends they are, and the bath's own limit
	var kind quantity.Kind
	any := false
	for i := range limits {
		l := &limits[i]
		if l.What != what || l.Silicated == "yes" && !bath.Silicated || l.Silicated == "no" && bath.Silicated {
			continue
		}
		if any && l.Kind != kind {
			continue // strengths by volume and by mass cannot be compared without the density
		}
		any, kind = true, l.Kind
		if own == nil {
			own = l
		}
		if l.Low != nil && *l.Low > lowest {
			lowest, low = *l.Low, l
		}
		if l.High != nil && *l.High < highest {
			highest, high = *l.High, l
		}
	}
	if !any {
		return nil, nil
	}
	unit, _ := quantity.UnitNamed(own.Unit, kind)
	common := quantity.Range{Low: lowest, High: highest, Kind: kind, Unit: unit}
	if low != nil && high != nil && (lowest > highest+1e-9*(1+math.Abs(highest)) || what == PH && slipsOut(own, lowest, highest)) {
		at, other := high, low
		if at == own { // the reason stands with the material or soil
			at, other = low, high
		}
		return nil, []Reason{{
			Verdict: No, Says: Say(disagree, Clause(low.Asks), Clause(high.Asks)),
			Place: at.Place, Also: &other.Place, Rule: at.Rule,
		}}
	}
	span := &Span{What: what, Kind: kind, amount: common}
	if low != nil {
		span.Low = &lowest
	}
	if high != nil {
		span.High = &highest
	}
	return span, conditions(bath, what, common, low, high, own)
}

// slipsOut tells whether less than half of a bath's own pH range is left. Nobody sets the pH of a bath: it comes with the cleaner, its
// strength and its age, so a bath that is out of bounds most of the time is out of bounds. That it is half is our own limit.
func slipsOut(own *Limit, lowest, highest float64) bool {
	return own.Low != nil && own.High != nil && highest-lowest < (*own.High-*own.Low)/2-1e-9
}

// conditions says what has to be done so that a bath stays in the span that is left.
func conditions(bath *Bath, what What, common quantity.Range, low, high, own *Limit) []Reason {
	tighter := high
	switch {
	case what == PH:
		// The pH of a bath is not set but kept: it may be anywhere in its own range.
		if own.High != nil && common.High < *own.High-1e-9 {
			tighter = high
		} else if own.Low != nil && common.Low > *own.Low+1e-9 {
			tighter = low
		} else {
			return nil
		}
		return []Reason{{Verdict: Conditions, Says: Say(keepPH, Amount(common), Clause(tighter.Asks)), Place: tighter.Place, Rule: tighter.Rule}}
	case what == Temperature || what == Strength:
		today, is := bath.Today[what]
		if !is || today.Kind != common.Kind || common.Contains(today.Low) {
			return nil
		}
		if today.Low < common.Low {
			tighter = low
		}
		phrase := setTemperature
		if what == Strength {
			phrase = bringStrength
		}
		return []Reason{{
			Verdict: Conditions, Says: Say(phrase, Title(bath.Title), Amount(common), Amount(today), Clause(tighter.Asks)),
			Place: tighter.Place, Rule: tighter.Rule,
		}}
	}
	return nil
}

// What decisions say.
const (
	disagree           = "{one asks}, but {another asks}."
	keepPH             = "Keep the pH at {limit}: {what asks for it}."
	setTemperature     = "Set {bath} to {limit} for this load; today it has {amount}, but {what asks for it}."
	bringStrength      = "Bring {bath} to {limit} for this load; today it has {amount}, but {what asks for it}."
	staysWithin        = "The recipe stays within what {material} can stand: {what}."
	doesNotLift        = "{chemistry} does not lift {soil}."
	doesNotLiftTheseDo = "{chemistry} does not lift {soil}; these do: {chemistries}."
)

var decides = []string{disagree, keepPH, setTemperature, bringStrength, staysWithin, doesNotLift, doesNotLiftTheseDo}
