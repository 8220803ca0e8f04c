package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// Sums that are read by their units. Whatever a sentence speaks of, where it tells an amount as the result, and the amounts before it can be multiplied
// and divided in a way that gives the unit of the result, that is the sum. It is called wrong only where nothing else explains the result: no other way
// to reckon with what the sentence and the shop file give.

// unitsOf is a product of basic units by their exponents.
type unitsOf struct{ length, mass, time, energy, money, kelvin int8 }

// dimensions are those of the kinds that can be multiplied.
var dimensions = map[quantity.Kind]unitsOf{
	quantity.Volume: {length: 3}, quantity.Mass: {mass: 1}, quantity.Length: {length: 1}, quantity.Area: {length: 2}, quantity.Time: {time: 1},
	quantity.Power: {energy: 1, time: -1}, quantity.Energy: {energy: 1}, quantity.PowerDensity: {energy: 1, time: -1, length: -3},
	quantity.MassConcentration: {mass: 1, length: -3}, quantity.Density: {mass: 1, length: -3}, quantity.Flow: {length: 3, time: -1}, quantity.Speed: {length: 1, time: -1},
	quantity.Film: {length: 1}, quantity.ArealMass: {mass: 1, length: -2}, quantity.Money: {money: 1}, quantity.EnergyPrice: {money: 1, energy: -1},
	quantity.Fraction: {}, quantity.VolumeFraction: {}, quantity.MassFraction: {}, quantity.TemperatureDifference: {kelvin: 1},
}

func (u unitsOf) times(v unitsOf, n int8) unitsOf {
	return unitsOf{u.length + n*v.length, u.mass + n*v.mass, u.time + n*v.time, u.energy + n*v.energy, u.money + n*v.money, u.kelvin + n*v.kelvin}
}

// magnitude is a value in SI with its units.
type magnitude struct {
	value float64
	units unitsOf
}

// unitOfResult gives an amount as it is multiplied: “2.7 L a centimetre” is so much for each metre. False for what cannot be, such as a temperature.
func unitOfResult(s *sentence.Sentence, q *sentence.Quantity) (magnitude, bool) {
	units, known := dimensions[q.Kind]
	m := magnitude{q.Range.Low, units}
	if !known {
		return m, false
	}
	if each := ratedBy(s, q); each.size > 0 {
		m.value, m.units = m.value/each.size, m.units.times(dimensions[each.kind], -1)
	}
	return m, true
}

// wrongWorkedOut checks the last amount of a sentence, where it is told as a result, against the two or three before it.
func (p *proof) wrongWorkedOut(a *manual.Article, s *sentence.Sentence) (int, string) {
	if len(s.Quantities) == 0 || len(s.Quantities) > 4 || s.Question || s.Has(noWords) || s.Has(notWorkedOut) || s.Block.Kind == sentence.Cell || hasSign(s.Text(), "=", "≈", "×", "÷", "+") || strings.Contains(s.Text(), ";") && !takesUp(s.Text()) {
		return 0, ""
	}
	n := resultIn(s)
	result := &s.Quantities[n]
	if behind := wordsBehind(s, result.To, 2); !plain(result) || compared[result.Near] && ratedBy(s, result).size == 0 || !isResult(s, result) || len(behind) > 1 && behind[0] == "of" && otherStuff[behind[1]] && behind[1] != "water" {
		return 0, ""
	}
	want, ok := unitOfResult(s, result)
	if !ok {
		return 0, ""
	}
	var from []magnitude
	rated := ratedBy(s, result).size > 0
	if m := oneRate(s); m.value > 0 {
		from, rated = append(from, m), true
	}
	for i := range s.Quantities {
		q := &s.Quantities[i]
		if i == n {
			continue
		}
		m, ok := unitOfResult(s, q)
		if c := &s.Clauses[q.Clause]; !ok || !plain(q) && !overTime(q) || c.Mood == sentence.Was || c.Mood == sentence.If && onlyWhere[c.Opener] {
			return 0, ""
		}
		rated = rated || ratedBy(s, q).size > 0
		from = append(from, m)
	}
	if len(from) == 0 || len(from) == 1 && !rated || len(from) > 2 && !slices.ContainsFunc(from, func(m magnitude) bool { return m.units != want.units }) {
		return 0, ""
	}
	slack := max(slackOf(result), slackOf(&s.Quantities[0], result)/2)
	made := wrongly(from, want, slack)
	if len(made) == 0 {
		made = wrongly(p.fewerOrMore(s, from, n), want, slack)
	}
	if len(made) == 0 || p.explained(a, s, from, want, slack) {
		return 0, ""
	}
	shown := made[0] * result.Range.Low / want.value // in what the result is told in, a rate as well
	return result.From, fmt.Sprintf("What stands before it makes %s, not %s.", quantity.ShowIn(shown, result.Unit), result.Text)
}

// wrongly gives what measures make in the units of a result, where the result is near enough to be meant by it; nothing where it is right.
func wrongly(from []magnitude, want magnitude, slack float64) []float64 {
	made := productsOf(from, want.units, true)
	if len(made) == 0 || slices.ContainsFunc(made, func(v float64) bool { return off(v, want.value) <= slack }) || !nearEnough(made, want.value) {
		return nil
	}
	return made
}

// fewerOrMore gives what a result may come of where it comes of none of all the amounts before it: a rate and the one tank that is named (“40 mL to the litre
// makes 4.8 L in Wash 1”), or the two amounts of which the second begins a new clause (“20 mL in a litre is 2 %, so a bucket of ten litres gets 200 mL”).
func (p *proof) fewerOrMore(s *sentence.Sentence, from []magnitude, n int) []magnitude {
	if t := onlyTank(s); len(from) == 1 && t != nil && t.Volume.Set {
		return append(slices.Clone(from), magnitude{t.Volume.Low, dimensions[quantity.Volume]})
	}
	if len(from) < 3 || n != len(from) {
		return nil
	}
	text := strings.ToLower(s.Block.Text[s.Quantities[n-2].To:s.Quantities[n-1].From])
	if !strings.HasPrefix(text, ", so ") && !strings.HasPrefix(text, ", and ") && !strings.HasPrefix(text, "; ") {
		return nil
	}
	return from[len(from)-2:]
}

// takesUp tells whether what stands behind a semicolon points back to what stands before it: “; in eight hours that makes”.
func takesUp(text string) bool {
	_, rest, _ := strings.Cut(strings.ToLower(text), ";")
	return !strings.Contains(rest, ";") && (strings.Contains(rest, " that ") || strings.Contains(rest, " this ")) && !strings.Contains(rest, " than ")
}

// resultIn is the place of the amount that is the result: the last, or the one before it where the last only says of how much it is so much: “is 2 L in
// every 100 L”.
func resultIn(s *sentence.Sentence) int {
	n := len(s.Quantities) - 1
	if n < 1 {
		return n
	}
	list := words(s, s.Quantities[n-1].To, s.Quantities[n].From)
	if k := len(list); k > 0 && k < 5 && perWhole[list[k-1]] {
		return n - 1
	}
	return n
}

// oneRate reads a rate of one to one with which a sentence begins, “A litre a minute”, “A kilo per hour”; 0 where there is none.
func oneRate(s *sentence.Sentence) magnitude {
	list := s.Tokens()
	if len(list) > 0 && list[0].Text == "at" {
		list = list[1:]
	}
	if len(list) < 4 || !eachWords[list[0].Text] && list[0].Text != "one" || !eachWords[list[2].Text] {
		return magnitude{}
	}
	one, each := unitWords[list[1].Text], unitWords[list[3].Text]
	if one.size == 0 || each.size == 0 || one.kind == each.kind {
		return magnitude{}
	}
	return magnitude{one.size / each.size, dimensions[one.kind].times(dimensions[each.kind], -1)}
}

// productsOf gives what measures make, each multiplied or divided by, where it has the units that are wanted; of all of them, or of some.
func productsOf(from []magnitude, units unitsOf, all bool) []float64 {
	var list []float64
	var try func(k int, value float64, u unitsOf, used int)
	try = func(k int, value float64, u unitsOf, used int) {
		if k == len(from) {
			if u == units && used > 0 {
				list = append(list, value)
			}
			return
		}
		try(k+1, value*from[k].value, u.times(from[k].units, 1), used+1)
		if from[k].value != 0 {
			try(k+1, value/from[k].value, u.times(from[k].units, -1), used+1)
		}
		if !all {
			try(k+1, value, u, used)
		}
	}
	try(0, 1, unitsOf{}, 0)
	return list
}

// explained tells whether anything that the sentence and the shop file give makes the result: products of some of the amounts with the numbers, shares,
// volumes and strengths that are at hand, and sums of such as are alike.
func (p *proof) explained(a *manual.Article, s *sentence.Sentence, from []magnitude, want magnitude, slack float64) bool {
	fits := func(v float64) bool { return off(v, want.value) <= slack }
	others := p.atHand(a, s)
	for i := -1; i < len(others); i++ {
		for j := i; j < len(others); j++ {
			some := slices.Clone(from)
			if i >= 0 {
				some = append(some, others[i])
			}
			if j > i {
				some = append(some, others[j])
			}
			if slices.ContainsFunc(productsOf(some, want.units, false), fits) {
				return true
			}
		}
	}
	if fits(sumOfAlike(from, want.units)) {
		return true
	}
	for i, one := range from {
		for j, two := range from {
			if i != j && one.units == two.units && one.units == want.units && (fits(one.value+two.value) || fits(math.Abs(one.value-two.value)) || fits(math.Abs(one.value-two.value)/one.value) || fits(math.Abs(one.value-two.value)/two.value)) {
				return true
			}
		}
	}
	return false
}

// sumOfAlike adds those with the same units.
func sumOfAlike(list []magnitude, units unitsOf) float64 {
	sum := 0.0
	for _, m := range list {
		if m.units == units {
			sum += m.value
		}
	}
	return sum
}

// atHand gives what a sum may be reckoned with besides its amounts: numbers and shares in words, the rest of a share, a tank's volume and strength, and the
// density of a chemistry.
func (p *proof) atHand(a *manual.Article, s *sentence.Sentence) []magnitude {
	var list []magnitude
	for _, n := range timesIn(s) {
		list = append(list, magnitude{value: n})
	}
	for _, w := range s.AllWords() {
		if v := max(shares[w], sharesOf[w]); v > 0 {
			list = append(list, magnitude{value: v}, magnitude{value: 1 - v}, magnitude{value: 1 + v})
		}
		if w == "twice" || w == "double" || w == "doubled" {
			list = append(list, magnitude{value: 2})
		}
	}
	for i := range s.Quantities {
		if q := &s.Quantities[i]; q.Kind == quantity.Fraction || q.Kind == quantity.VolumeFraction {
			list = append(list, magnitude{value: 1 - q.Range.Low}, magnitude{value: 1 + q.Range.Low})
		}
	}
	if t := onlyTank(s); t != nil && t.Volume.Set {
		list = append(list, magnitude{t.Volume.Low, dimensions[quantity.Volume]})
		if t.Strength.Set && t.Strength.Kind == quantity.VolumeFraction {
			list = append(list, magnitude{value: t.Strength.Low})
		}
	}
	for _, d := range append(p.densitiesIn(a, s), 1000) {
		list = append(list, magnitude{d, dimensions[quantity.Density]})
	}
	if t := shiftTime(s); t > 0 {
		list = append(list, magnitude{t, dimensions[quantity.Time]})
	}
	return list
}

// nearEnough tells whether a result is one that somebody can have come to: within three times what it should be, or with the point at another place.
func nearEnough(made []float64, result float64) bool {
	return slices.ContainsFunc(made, func(v float64) bool {
		if v <= 0 {
			return false
		}
		e := math.Log10(result / v)
		return math.Abs(e) < math.Log10(3) || math.Abs(e-math.Round(e)) < 0.02
	})
}

// isResult tells whether the words before an amount tell it as what comes of those before: “that is”, “you have”, “comes to”, “so pour in”.
func isResult(s *sentence.Sentence, q *sentence.Quantity) bool {
	last := 0
	for i := range s.Quantities {
		if o := &s.Quantities[i]; o.To <= q.From {
			last = o.To
		}
	}
	list := words(s, max(last, s.From), q.From)
	for n := len(list); n > 0 && (tellFillers[list[n-1]] || resultFillers[list[n-1]]); n-- {
		list = list[:n-1]
	}
	n := len(list)
	if n == 0 || n > 16 {
		return false
	}
	if slices.ContainsFunc(list, func(w string) bool { return strings.HasSuffix(w, ";") || w == "than" || w == "but" || w == "not" }) {
		return false
	}
	end := strings.Trim(list[n-1], ",")
	if tells[end] || tellsAmount[end] || strings.HasSuffix(end, ":") || resultVerbs[end] || strings.HasSuffix(list[n-1], "→") {
		return true
	}
	return n > 1 && resultPhrases[list[n-2]+" "+end] || slices.Contains(list[:n-1], "so") && (end == "in" || end == "of" || end == "on" || end == "for" || end == "at")
}

var (
	resultVerbs   = sentence.Set("have has get gets comes come costs lasts last amounts equal takes take need needs yields pour pours use draws draw burns burn swallow swallows eats finds lost loses want wants lack lacks")
	resultPhrases = map[string]bool{"comes to": true, "come to": true, "amounts to": true, "works out": true, "out at": true, "out to": true, "out as": true, "comes out": true, "adds up": true, "up to": true, "turns into": true, "reckon on": true, "count on": true, "ask for": true, "ends at": true}
	resultFillers = sentence.Set("full good out at you with there it us")
	// notWorkedOut are words of a sum of which the sentence does not tell all, or of a pace that does not stay.
	notWorkedOut = sentence.Set("duty evaporation evaporates leak leaks found replace overflow tops cautious average mean more less extra slower faster quicker sometimes titrant factor half-full instead of-which")
)
