package admit

import (
	"tankside/builder/decide/fact"
	"tankside/builder/quantity"
)

// As is what a bath would have in place of what it has today. What is not set stays as it is.
type As struct {
	Chemistry string // name of another chemistry in the same tank
	fact.Window
}

// asked is the bath of a question, as it is or as it would be. The error is an *UnknownError.
func (t *Table) asked(q Question) (*Bath, error) {
	bath := t.Bath(q.Bath)
	if bath == nil {
		return nil, &UnknownError{"tank or chemistry", q.Bath}
	}
	if q.As == nil {
		return bath, nil
	}
	if q.As.Chemistry != "" {
		if bath.Chemistry = named(t.Chemistries, q.As.Chemistry); bath.Chemistry == nil {
			return nil, &UnknownError{"chemistry", q.As.Chemistry}
		}
	}
	set(&bath.Strength, &q.As.Strength)
	set(&bath.Temperature, &q.As.Temperature)
	set(&bath.Time, &q.As.Time)
	set(&bath.Frequency, &q.As.Frequency)
	if bath.Tank != nil { // what a tank asks for goes with it
		tank := *bath.Tank
		tank.Chemistry.Name = bath.Chemistry.Name
		set(&tank.Strength, &q.As.Strength)
		set(&tank.Temperature, &q.As.Temperature)
		set(&tank.Frequency, &q.As.Frequency)
		bath.Tank = &tank
	}
	return bath, nil
}

// set puts a value that is asked in place of the one that is there, whose place it keeps: there whoever changes it for good would write it.
func set(has, asks *fact.Limit) {
	if asks.Set {
		has.Range, has.Set = asks.Range, true
	}
}

// afterAs is what comes after a bath that is otherwise than today. What drips into the rinses was reckoned for today's baths: another chemistry or strength
// can bring a rinse as far as that chemistry's own pH, and no further, which is said not to be checked.
func (t *Table) afterAs(b *Bath, as *As) line {
	after := t.after(b)
	if as == nil || as.Chemistry == "" && !as.Strength.Set {
		return after
	}
	ph := b.Chemistry.PH
	if !ph.Set {
		ph = fact.Limit{Range: quantity.Range{Low: 0, High: 14, Kind: quantity.PH}, Set: true}
	}
	for i, r := range after.rinses {
		changed := *r
		changed.RunsPH, changed.Missing = ph, Say("what drips in is reckoned for the baths of today alone")
		reach(&changed.RunsPH, &r.RunsPH)
		reach(&changed.RunsPH, &r.Plain)
		after.rinses[i] = &changed
	}
	return after
}

// reach widens a limit by another that is set.
func reach(l, by *fact.Limit) {
	if by.Set {
		l.Low, l.High = min(l.Low, by.Low), max(l.High, by.High)
	}
}

// Versus is what becomes of a material in another bath, or in the same one changed.
type Versus struct {
	Material    *Material
	Left, Right *Answer
}

// Turn is what happens to a material, in the order of a list.
type Turn uint8

// A material may no longer go in, or only with conditions; it may at last, or without conditions; or it has the same verdict.
const (
	Drops Turn = iota
	Worse
	Gains
	Same
)

// Turn compares the verdicts.
func (v *Versus) Turn() Turn {
	left, right := v.Left.Verdict, v.Right.Verdict
	switch {
	case left == right:
		return Same
	case right == No:
		return Drops
	case worse(left, right) == right:
		return Worse
	}
	return Gains
}

// Beside answers for every material in two baths, without a soil: those that drop out first, then those that get worse, that get better, and the rest.
// The error is an *UnknownError.
func (t *Table) Beside(left, right Question) ([]*Versus, error) {
	all := make([]*Versus, len(t.Materials))
	for i := range t.Materials {
		m := &t.Materials[i]
		left.Materials = []string{m.Name}
		right.Materials = left.Materials
		was, err := t.Answer(left)
		if err != nil {
			return nil, err
		}
		is, err := t.Answer(right)
		if err != nil {
			return nil, err
		}
		all[i] = &Versus{m, &was, &is}
	}
	var list []*Versus
	for turn := Drops; turn <= Same; turn++ {
		for _, v := range all {
			if v.Turn() == turn {
				list = append(list, v)
			}
		}
	}
	return list, nil
}
