package rules

import (
	"math"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// heatByPoint looks for a bath whose heat is told by another temperature, and gives its place:
//
//   - by a point of its own: “Heat Wash 2 past its cloud point”, “You stay two degrees under the flash point”
//   - by a number and what is added: “Add ten degrees to the usual 68 °C in Wash 1”, “20 °C above its 62 °C”
//   - by the set point and what is added: “The set point of Wash 2 is raised by 20 °C”
//
// The reader adds up, as whoever does what he reads. What is denied, asked, over, or told for its harm says nothing of the kind.
func (p *proof) heatByPoint(a *manual.Article, s *sentence.Sentence) (*excess, int) {
	if s.Question || s.TakenBack || s.Block.Kind == sentence.Cell || !s.Has(pointWords) && !s.Has(addsHeat) || s.Has(exceptions) || s.Has(foundSo) || s.Has(otherOnes) {
		return nil, 0
	}
	words := s.Tokens()
	bidden := func(i int) bool {
		_, degrees := degreesAt(s, words, i)
		return (degrees || pointWords[words[i].Text]) && bidsHeat(s, words[i].Clause)
	}
	first := 0
	for first < len(words) && !bidden(first) {
		first++
	}
	if first == len(words) {
		return nil, 0 // a bath is asked for last: what asks for one is looked at again when that changes
	}
	of := p.bathTold(a, s)
	if len(of.chemistries) != 1 {
		return nil, 0
	}
	for i := first; i < len(words); i++ {
		asked, ok := pointTold(s, &of, words, i)
		if !ok || !bidden(i) {
			continue
		}
		text := quantity.Show(asked, quantity.Temperature, p.Shop.System())
		if e := p.beyondBath(&sentence.Quantity{Text: text}, &of, asked); e != nil {
			return e, words[i].From
		}
	}
	return nil, 0
}

// bathTold gives the one bath of which a sentence speaks: a tank that it names, or the article's own.
func (p *proof) bathTold(a *manual.Article, s *sentence.Sentence) spokenOf {
	if t := onlyTank(s); t != nil {
		return p.ofTank(t)
	}
	for i := range s.Mentions {
		if m := &s.Mentions[i]; m.Thing.Bath() && !m.Stands && !m.Thing.Includes(a) {
			return spokenOf{}
		}
	}
	return p.ownSubject(a, "bath")
}

// pointTold reads the temperature that the words before a place, and the one at it, add up to.
func pointTold(s *sentence.Sentence, of *spokenOf, words []sentence.Token, i int) (float64, bool) {
	if by, ok := degreesAt(s, words, i); ok && textAt(words, i-1) == "by" {
		return raisedBy(s, of, words, i, by)
	}
	base, name := pointAt(of, words, i)
	if name == "" {
		b, ok := degreesAt(s, words, i)
		if !ok {
			return 0, false
		}
		base, name = b, "amount"
	}
	if math.IsNaN(base) {
		return 0, false
	}
	j := i - 1
	for j > 0 && ofPoint[words[j].Text] {
		j--
	}
	sign, j := directionAt(s, words, j)
	by, counted := degreesAt(s, words, j)
	if counted && sign != 0 {
		return base + sign*by, name == "amount" || name != "usual" || sign > 0
	}
	if isThere[textAt(words, j)] {
		return 0, false // “A bath that has been above its cloud point”
	}
	return uncounted(name, base, sign, textAt(words, j))
}

// uncounted is the temperature of a bath that is told to be at, past or close to a point, without a number: past the ceiling or the cloud point by a
// little at least, at the flash point or just below it. Nothing else is told.
func uncounted(name string, base, sign float64, near string) (float64, bool) {
	switch {
	case sign > 0 && (name == "ceiling" || name == "cloud" || name == "flash"):
		return base + 1, true
	case sign == 0 && name == "flash" && nearWords[near]:
		return base, true
	case sign < 0 && name == "flash" && nearWords[near]:
		return base - 3, true
	}
	return 0, false
}

// pointAt gives the value of a bath's point whose name ends at a place, NaN where the bath has none, and which point it is.
func pointAt(of *spokenOf, words []sentence.Token, i int) (float64, string) {
	name, limit := "", manual.Limit{}
	c := of.chemistries[0].Chemistry
	switch before := textAt(words, i-1); words[i].Text {
	case "ceiling":
		name, limit = "ceiling", c.Ceiling
	case "cloud-point":
		name, limit = "cloud", c.CloudPoint
	case "flash-point":
		name, limit = "flash", c.FlashPoint
	case "set-point", "usual", "normal":
		name, limit = "usual", ownHeat(of)
	case "point":
		switch before {
		case "cloud":
			name, limit = "cloud", c.CloudPoint
		case "flash":
			name, limit = "flash", c.FlashPoint
		case "set":
			name, limit = "usual", ownHeat(of)
		}
	}
	if !limit.Set {
		return math.NaN(), name
	}
	return limit.Low, name
}

// ownHeat is the set point of the tank of a bath.
func ownHeat(of *spokenOf) manual.Limit {
	if len(of.tanks) != 1 {
		return manual.Limit{}
	}
	return of.tanks[0].Temperature
}

// directionAt reads the word that leads to a point, 1 above it, -1 below it and 0 at it, and gives the place before that word.
func directionAt(s *sentence.Sentence, words []sentence.Token, j int) (float64, int) {
	switch w := textAt(words, j); {
	case w == "top" && textAt(words, j-1) == "on":
		return 1, j - 2
	case w == "of" && textAt(words, j-1) == "top" && textAt(words, j-2) == "on": // “fifteen degrees on top of its 55 °C”
		return 1, j - 3
	case w == "than" && comparesUp[textAt(words, j-1)]:
		return 1, j - 2
	case abovePoint[w]:
		return 1, j - 1
	case belowPoint[w]:
		return -1, j - 1
	case w == "to" && j > 0 && words[j-1].Amount && s.Clauses[words[j].Clause].Verb == "add":
		return 1, j - 1
	case w == "to":
		return 0, j - 1
	case w == "plus" && j > 0 && words[j-1].Amount: // “68 °C plus ten degrees”
		return 1, j - 1
	}
	return 0, j
}

// raisedBy is the temperature of a tank whose set point is raised by so much. From cold, or step by step, it is another.
func raisedBy(s *sentence.Sentence, of *spokenOf, words []sentence.Token, i int, by float64) (float64, bool) {
	set := ownHeat(of)
	k := words[i].Clause
	if !set.Set || !s.ClauseHas(k, raises) || s.Has(fromCold) || eachWords[textAt(words, i+1)] {
		return 0, false
	}
	n := 0
	for j := range s.Quantities {
		if s.Quantities[j].Kind == quantity.Temperature {
			n++
		}
	}
	return set.High + by, n == 1
}

// degreesAt gives the number of degrees Celsius at a place.
func degreesAt(s *sentence.Sentence, words []sentence.Token, i int) (float64, bool) {
	if i < 0 || i >= len(words) || !words[i].Amount {
		return 0, false
	}
	for j := range s.Quantities {
		if q := &s.Quantities[j]; q.From == words[i].From {
			heat := q.Kind == quantity.Temperature && q.Unit.Symbol == "°C" || q.Kind == quantity.TemperatureDifference && q.Unit.Symbol != "°F"
			return q.Low.Value, heat && !q.Span
		}
	}
	return 0, false
}

// bidsHeat tells whether a clause commands or allows that a bath is heated or held hot, and nothing speaks of harm.
func bidsHeat(s *sentence.Sentence, k int) bool {
	c := &s.Clauses[k]
	if c.Opener != "" && c.Opener != "so-that" && c.Opener != "which" && c.Opener != "until" || s.ClauseHas(k, longAgo) || badLabel(s, k) || s.ClauseHas(k, couldWords) {
		return false
	}
	switch c.Mood {
	case sentence.Do, sentence.Able, sentence.Fragment:
	case sentence.Is:
		if !s.ClauseHas(k, enoughRoom) {
			return false
		}
	default:
		return false
	}
	if valence(s, k) > 0 {
		return s.ClauseHas(k, heats) || s.ClauseHas(k, staysAt)
	}
	if denies(s, k) || illOf(s) || s.Harmful() && !bids[c.Verb] {
		return false
	}
	return s.ClauseHas(k, heats) || s.ClauseHas(k, staysAt) || s.ClauseHas(k, wantsIt)
}

var (
	pointWords = sentence.Set("ceiling point cloud-point flash-point set-point usual normal")
	addsHeat   = sentence.Set("above over top add plus hotter warmer by beyond past")
	enoughRoom = sentence.Set("enough plenty sufficient ample")
	ofPoint    = sentence.Set("the its their our own that this usual normal flash cloud set *")
	isThere    = sentence.Set("been is are was were comes gets")
	abovePoint = sentence.Set("above over past beyond")
	belowPoint = sentence.Set("below under short")
	comparesUp = sentence.Set("more hotter warmer higher")
	nearWords  = sentence.Set("just shortly right close near slightly little bit up almost nearly")
	raises     = sentence.Set("raise raised turn turned increase increased lift lifted step stepped move moved up")
	fromCold   = sentence.Set("cold tap morning fill filled fresh from hour minute hours minutes by-itself sound")
	staysAt    = sentence.Set("stay stays remain go goes climb rise driven add stand programmed ask expect")
)
