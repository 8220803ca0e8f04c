package admit

import (
	"math"

	"tankside/builder/decide/fact"
	"tankside/builder/quantity"
)

// As is what a bath would have in place of what it has today. What is not set stays as it is.
type As struct {
	Chemistry string // name of another chemistry in the same tank
	fact.Window
}

// changes tells whether anything is otherwise.
func (a *As) changes() bool {
	return a.Chemistry != "" || a.Strength.Set || a.Temperature.Set || a.Time.Set || a.Frequency.Set
}

// asked is the bath of a question, as it is or as it would be. The error is an *UnknownError.
func (t *Table) asked(q Question) (*Bath, error) {
	bath := t.Bath(q.Bath)
	if bath == nil {
		return nil, &UnknownError{"tank or chemistry", q.Bath}
	}
	if !q.As.changes() {
		return bath, nil
	}
	if q.As.Chemistry != "" {
		if bath.Chemistry = named(t.Chemistries, q.As.Chemistry); bath.Chemistry == nil {
			return nil, &UnknownError{"chemistry", q.As.Chemistry}
		}
	}
	for _, v := range []struct {
		has  *fact.Limit
		asks fact.Limit
	}{{&bath.Strength, q.As.Strength}, {&bath.Temperature, q.As.Temperature}, {&bath.Time, q.As.Time}, {&bath.Frequency, q.As.Frequency}} {
		if v.asks.Set {
			v.asks.At = v.has.At // where whoever changes it for good would write it
			*v.has = v.asks
		}
	}
	if bath.Tank != nil { // what a tank asks for goes with it
		tank := *bath.Tank
		tank.Chemistry.Name, tank.Strength, tank.Temperature, tank.Frequency = bath.Chemistry.Name, bath.Strength, bath.Temperature, bath.Frequency
		bath.Tank = &tank
	}
	return bath, nil
}

// notReckoned is why the pH of a rinse behind a changed bath is not known.
const notReckoned = "what drips in is reckoned for the baths of today alone"

// afterAs is what comes after a bath that is otherwise than today. What drips into the rinses was reckoned for today's baths: another chemistry or strength
// can bring a rinse as far as that chemistry's own pH, and no further, which is said not to be checked.
func (t *Table) afterAs(b *Bath, as *As) line {
	after := t.after(b)
	if as.Chemistry == "" && !as.Strength.Set {
		return after
	}
	ph := b.Chemistry.PH
	if !ph.Set {
		ph = fact.Limit{Range: quantity.Range{Low: 0, High: 14, Kind: quantity.PH}, Set: true}
	}
	for i, r := range after.rinses {
		changed := *r
		for _, known := range []fact.Limit{r.RunsPH, r.Plain} {
			if known.Set {
				ph.Low, ph.High = math.Min(ph.Low, known.Low), math.Max(ph.High, known.High)
			}
		}
		changed.RunsPH, changed.Missing = ph, Say(notReckoned)
		after.rinses[i] = &changed
	}
	return after
}

// Versus is what becomes of a material in another bath, or in the same one changed.
type Versus struct {
	Material    *Material
	Left, Right Answer
}

// Turn tells how an answer to another is: below nought where it gets worse, above where it gets better, nought where the verdicts are the same.
func (v *Versus) Turn() int { return grade(v.Right.Verdict) - grade(v.Left.Verdict) }

func grade(v Verdict) int {
	switch v {
	case No:
		return 0
	case Conditions:
		return 1
	}
	return 2
}

// Beside answers for every material in two baths, without a soil: those that drop out first, then those that get worse, that get better, and the rest.
// The error is an *UnknownError.
func (t *Table) Beside(left, right Question) ([]Versus, error) {
	var lists [4][]Versus
	for i := range t.Materials {
		v := Versus{Material: &t.Materials[i]}
		var err error
		left.Materials, right.Materials = []string{v.Material.Name}, []string{v.Material.Name}
		if v.Left, err = t.Answer(left); err == nil {
			v.Right, err = t.Answer(right)
		}
		if err != nil {
			return nil, err
		}
		place := 3
		switch turn := v.Turn(); {
		case turn < 0 && v.Right.Verdict == No:
			place = 0
		case turn < 0:
			place = 1
		case turn > 0:
			place = 2
		}
		lists[place] = append(lists[place], v)
	}
	return append(append(append(lists[0], lists[1]...), lists[2]...), lists[3]...), nil
}
