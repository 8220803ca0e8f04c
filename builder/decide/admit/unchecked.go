package admit

import (
	"tankside/builder/decide/fact"
)

// unchecked says what of a bath is not known, so that nothing was compared with it.
func (b *Bath) unchecked() []Reason {
	var list []Reason
	c := b.Chemistry
	for _, words := range [][]fact.Ref{c.Contains, c.Hazards} {
		for _, w := range words {
			if w.Unchecked {
				list = append(list, unknown(Say("{chemistry} has {constituent}, of which this manual knows nothing: what it does is not checked. Ask the supplier and the safety officer.", titled(c), spoken(w))).by(w.At))
			}
		}
	}
	for _, what := range []What{PH, Temperature} {
		if b.has(what) && !b.value(what).Set {
			list = append(list, b.noValue(what))
		}
	}
	if !c.Strength.Set && b.Strength.Set {
		list = append(list, b.noValue(Strength))
	}
	if b.Tank == nil {
		return list
	}
	if c.Strength.Set && !b.Strength.Set {
		list = append(list, unknown(Say("How strong {tank} is today is not in the shop file: not checked.", Title(b.Title))).by(b.Tank.At))
	}
	if !b.Temperature.Set && b.Tank.Vessel != fact.Jar {
		list = append(list, unknown(Say("How hot {tank} is today is not in the shop file: not checked.", Title(b.Title))).by(b.Tank.At))
	}
	return list
}

// noValue says that a bath's chemistry does not give something.
func (b *Bath) noValue(what What) Reason {
	return unknown(Say("{chemistry} has no {what} in its article: not checked.", titled(b.Chemistry), Word(nameOf(what)))).by(b.Chemistry.first())
}

// unchecked says what of a material in a bath is not known.
func (x *Meeting) unchecked() []Reason {
	m, b := x.Material, x.Bath
	var list []Reason
	for _, words := range [][]fact.Ref{m.MadeOf, m.Features, m.AttackedBy} {
		for _, w := range words {
			if w.Unchecked {
				list = append(list, unknown(Say("{material} has {word}, of which this manual knows nothing: what a bath does to it is not checked. Make a trial with a sample, and ask the process engineer.", titled(m), spoken(w))).by(w.At))
			}
		}
	}
	if _, sealed := fact.One(m.Features, "sealed"); sealed {
		return list
	}
	for _, one := range []struct {
		what  What
		limit fact.Limit
	}{{PH, m.PH}, {Temperature, m.Temperature}} {
		if b.has(one.what) && !one.limit.Set && !(one.what == PH && m.PHSilicated.Set && b.Silicated()) {
			list = append(list, unknown(Say("{material} has no limit of {what} in its article: not checked.", titled(m), Word(nameOf(one.what)))).by(m.first()))
		}
	}
	if _, soft := x.soft(); (soft || m.Frequency.Set) && b.Tank != nil && b.Tank.Sounds() && !b.set(Frequency).Set {
		list = append(list, b.noFrequency())
	}
	return list
}
