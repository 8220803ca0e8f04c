package relate

import (
	"math"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/line"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sums"
	"tankside/calculators"
	"tankside/calculators/safety"
)

// Line is the vessels of the shop with what follows for them from the physics of the whole line: where its own sound takes a tank, and what
// stands in each rinse while parts run. It hangs on the shop file, on the chemistries in the tanks and on every part that goes through the rinses.
type Line struct {
	tanks  []admit.Tank
	rinses []admit.Rinse
}

// LineOf works out the line of a manual.
func LineOf(m *manual.Manual) Line {
	var l Line
	shop := sums.Shop(m)
	for i := range m.Shop.Tanks {
		t := &m.Shop.Tanks[i]
		one := admit.Tank{Tank: *t, Drift: drift(m, t, shop)}
		for _, r := range line.Route(m, t) {
			one.Rinses = append(one.Rinses, r.ID)
		}
		l.tanks = append(l.tanks, one)
	}
	states := line.Of(m)
	for i := range states {
		l.rinses = append(l.rinses, rinse(m, &states[i]))
	}
	return l
}

// Tanks gives the vessels in the order of the shop file.
func (l Line) Tanks() []admit.Tank { return l.tanks }

// Print is what two lines have in common if decisions on them are the same.
func (l Line) Print() string {
	return string((&admit.Table{Tanks: l.tanks, Rinses: l.rinses}).Pack())
}

// drift is where sound alone takes a tank; it is not known where the shop file does not tell enough of the tank.
func drift(m *manual.Manual, t *manual.Tank, shop calculators.Shop) admit.Drift {
	if !t.Sounds() {
		return admit.Drift{}
	}
	d, err := calculators.DriftOf(sums.Tank(m, t), shop)
	if err != nil {
		return admit.Drift{} // what is missing keeps the calculators from answering too, and is told there
	}
	c := d.Open
	if t.Lid {
		c = d.Shut
	}
	return admit.Drift{Known: true, Ends: microkelvin(c.End), Least: microkelvin(c.EndLow)}
}

// microkelvin rounds a temperature, in °C. Processors that multiply and add in one step (ARM) work the last digits out otherwise, and an edition is the same to the byte
// wherever it is made.
func microkelvin(t float64) float64 { return math.Round(t*1e6) / 1e6 }

// rinse is a rinse with its pH while parts run and that of its water alone, or with what is missing for it and the furthest that it can be.
func rinse(m *manual.Manual, s *line.State) admit.Rinse {
	r := admit.Rinse{Rinse: *s.Rinse, RunsAt: heat(s)}
	if span, known := s.Cold(); known {
		r.RunsPH = ph(s.Rinse, span.Low, span.High)
		r.Plain = ph(s.Rinse, math.Min(s.Stages[0].Feed.Low, safety.WaterFrom), s.Stages[0].Feed.High)
		return r
	}
	var missing []admit.Part
	told := map[string]bool{}
	for _, x := range s.Missing {
		if key := x.Key + " (" + x.Of + ")"; !told[key] {
			told[key] = true
			missing = append(missing, admit.Title(key))
		}
	}
	r.Missing = admit.Say("the manual does not give {keys}", admit.List(missing...))
	low, high := float64(safety.PureFrom), safety.WaterTo // what water has by itself; it starts lower where it is pure
	r.Plain = ph(s.Rinse, low, high)
	for _, t := range s.Washes {
		c := m.Named(manual.Chemistry, t.Chemistry.Name)
		if c == nil || !c.Chemistry.PH.Set {
			low, high = 0, 14
			break
		}
		low, high = math.Min(low, c.Chemistry.PH.Low), math.Max(high, c.Chemistry.PH.High)
	}
	r.RunsPH = ph(s.Rinse, low, high)
	return r
}

// heat is how warm a rinse is while parts run: as it is set, or else as warm as what runs into it makes it. Nothing is known of one that stays
// at 25 °C, with which line reckons where nothing says.
func heat(s *line.State) manual.Limit {
	if s.Rinse.Temperature.Set {
		return s.Rinse.Temperature
	}
	hottest := safety.Laboratory
	for i := range s.Stages {
		hottest = math.Max(hottest, s.Stages[i].Heat)
	}
	if hottest <= safety.Laboratory {
		return manual.Limit{}
	}
	unit, _ := quantity.UnitNamed("°C", quantity.Temperature)
	degrees := math.Round(hottest)
	return manual.Limit{Range: quantity.Range{Low: degrees, High: degrees, Kind: quantity.Temperature, Unit: unit}, At: s.Rinse.At, Set: true}
}

func ph(r *manual.Rinse, low, high float64) manual.Limit {
	unit, _ := quantity.UnitNamed("", quantity.PH)
	round := func(x float64) float64 { return math.Round(x*10) / 10 }
	return manual.Limit{Range: quantity.Range{Low: round(low), High: round(high), Kind: quantity.PH, Unit: unit}, At: r.At, Set: true}
}
