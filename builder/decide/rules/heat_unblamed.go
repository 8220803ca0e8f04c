package rules

import (
	"fmt"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// heatUnblamed is beyond for a tank that a sentence names with more heat than it stands, however the sentence puts it: nothing in it speaks of harm, of a
// fault, of another time or of a case, and nothing is denied or compared. What a manual says so of a tank of the shop is read as what may be.
func (p *proof) heatUnblamed(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) *excess {
	if q.Kind != quantity.Temperature || !heatAttributes[q.Attribute] || s.Block.Kind == sentence.Cell || q.About == nil || q.About.Thing == nil || q.About.Thing.Tank == nil || q.About.From < s.From {
		return nil
	}
	asked, ok := askedFor(q)
	if !ok || q.Relation == sentence.Above || q.Unit.Symbol != "°C" || ofNextNoun(s, q) || ofPartOfTank(s, q) {
		return nil
	}
	if !unblamed(s) || s.Clauses[q.Clause].Mood == sentence.Was || othersWork(s, q.Clause) || ofOthers(s, q) {
		return nil
	}
	if own := q.About.Thing.Tank.Temperature; own.Set && asked <= own.High+0.3 {
		return nil // the text says what the shop file has: the header has the finding
	}
	of := p.of(a, q)
	return p.beyondBath(q, &of, asked)
}

// unblamed tells whether nothing in a sentence speaks of harm, of a fault, of another time or of a case, and nothing is denied; what nobody needs to be
// afraid of is praised.
func unblamed(s *sentence.Sentence) bool {
	if s.Question || s.TakenBack || illOf(s) || s.Harmful() {
		return false
	}
	for k := range s.Clauses {
		c := &s.Clauses[k]
		switch c.Mood {
		case sentence.Ask, sentence.Example, sentence.If:
			return false
		}
		if (c.Mood == sentence.MustNot || denies(s, k)) && valence(s, k) <= 0 || badLabel(s, k) || s.ClauseHas(k, longAgo) {
			return false
		}
	}
	for _, set := range []map[string]bool{exceptions, foundSo, ailing, contrasts, otherOnes, befalls, badLabels, faultWords, faultNouns, notWorkHeat, costly} {
		if s.Has(set) {
			return false
		}
	}
	return !onceOnly(s)
}

// onceOnly tells whether a sentence tells what was once; “once a week” is a habit.
func onceOnly(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i, w := range words {
		if next := textAt(words, i+1); w.Text == "once" && !eachWords[next] && next != "in" {
			return true
		}
	}
	return false
}

// ofPiece tells whether a temperature is said of something that belongs to a tank and is not its bath: “The scale of Wash 1 runs to 110 °C”.
func ofPiece(s *sentence.Sentence, q *sentence.Quantity) bool {
	if q.About == nil || q.About.From < s.From || q.About.From > q.From || q.About.Thing == nil || q.About.Thing.Tank == nil || s.Before(q.About) != "of" {
		return false
	}
	words := s.Tokens()
	for i := range words {
		if words[i].From == q.About.From {
			for i--; i > 0 && (words[i].Text == "the" || words[i].Text == "our"); i-- {
			}
			return pieceOfTank[textAt(words, i-1)]
		}
	}
	return false
}

// pieceOfTank are things that belong to a tank and stand another heat than its bath.
var pieceOfTank = sentence.Set("scale sensor probe hose insulation lid gasket seal cable element motor pump filter housing casing wall walls outlet drain valve fuse relay transducer transducers plug glass window foot feet frame label sticker paint basket rod dial-plate gauge thermometer coil heater-rod surface plate handle")

// ofPartOfTank tells whether a temperature is that of a part of a tank: “The lid of Wash 1 bends at 95 °C”.
func ofPartOfTank(s *sentence.Sentence, q *sentence.Quantity) bool {
	return s.Before(q.About) == "of" && !s.ClauseHas(q.Clause, heatNouns) && !s.ClauseHas(q.Clause, heatSubjects) && !s.ClauseHas(q.Clause, knobs)
}

// dialledTooHot looks for a number without a unit to which the dial of a tank is turned, and gives its place: “Thermostat Wash 1: mark 80”, “With the dial of
// Wash 1 on eighty you get home early”. Dials of baths are marked in °C (common practice, no source).
func (p *proof) dialledTooHot(a *manual.Article, s *sentence.Sentence) (*excess, int) {
	t := onlyTank(s)
	if t == nil || !s.Has(knobs) || !unblamed(s) || s.Block.Kind == sentence.Cell {
		return nil, 0
	}
	words := s.Tokens()
	for i, w := range words {
		n := numberOf(w.Text)
		if w.Amount || n < 30 || n > 99 || inMention(s, w.From) || !dialledTo[textAt(words, i-1)] || unitBehind[textAt(words, i+1)] {
			continue
		}
		of := p.ofTank(t)
		text := fmt.Sprintf("%g °C", n)
		return p.beyondBath(&sentence.Quantity{Text: text}, &of, n), w.From
	}
	return nil, 0
}

var (
	knobs      = sentence.Set("dial knob thermostat controller regulator")
	dialledTo  = sentence.Set("on to at mark : past until for")
	unitBehind = sentence.Set("% per minutes minute min hours seconds times parts baskets loads")
	// costly are words of a temperature that is told for what it does to the bath, to the shop or to somebody's evening.
	costly = sentence.Set("tops peaks acts cut-out stop thermometer rated costs cost eats wastes waste technician fill failed fails gone lost plug emergency would could alarm relay expensive scum cloudy steam steams burnt separates vapour vapours why how bed drain")
)
