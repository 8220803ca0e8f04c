package rules

import (
	"fmt"
	"slices"

	"tankside/builder/decide/admit"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// heatWished is beyond for more heat than a bath or a piece stands, where a sentence neither commands nor names it as allowed, but takes it for granted:
//
//   - a condition is what the work waits for: “Lime is gone if you let the bath come up to 80 °C”, “Rust is only shifted when the acid is at 75 °C”
//   - a superlative, a home or a service of it praises it: “It is quickest around 80 °C”, “80 °C is where it feels at home”, “80 °C has served us well”
//   - nobody begins below it: “The old hands never start a load under 78 °C”
//   - it is called not too hot, or nothing to the work: “80 °C is not too hot for it”, “70 °C in the wash is nothing to it”
//   - somebody has since then kept to it: “I was told to leave Wash 2 at 70 °C, and since then I do”, “These days we stop it at 82 °C”
//   - another point leaves room up to it: “The flash point is 60 °C, which leaves you free up to 58 °C”
//
// What speaks of harm, of a fault or of another bath says nothing of the kind.
func (p *proof) heatWished(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) *excess {
	if q.Kind != quantity.Temperature || q.Unit.Symbol != "°C" || q.Span || q.Range.Low > 110 || s.Question || s.TakenBack || s.Block.Kind == sentence.Cell || illOf(s) || s.Has(contrasts) && !s.Has(onlyWord) || s.Has(faultWords) || s.Has(faultNouns) || s.Has(otherOnes) || s.Has(otherTools) || s.Has(spoilt) || s.Has(hurtWords) {
		return nil
	}
	if !heatAttributes[q.Attribute] && !soilWords[q.Attribute] && q.Attribute != "full" && !(q.Attribute == "load" && q.Relation == sentence.AtLeast) || !wishedFor(s, q) || ofNextNoun(s, q) || ofOthers(s, q) || othersWork(s, q.Clause) {
		return nil
	}
	own := q.About == nil || q.About.Stands && q.About.Thing == nil
	if own && a.Chemistry == nil && (a.Material != nil || a.Part != nil) && !otherMatter(a, s) {
		if of := p.ownSubject(a, ""); len(of.materials) > 0 {
			return p.beyondMaterial(q, &of, q.Range.Low)
		}
		return nil
	}
	of := p.of(a, q)
	if own && a.Chemistry != nil {
		of = p.ownSubject(a, "bath")
	} else if own || q.About.Thing == nil || q.About.Thing.Tank == nil {
		return nil
	}
	if len(of.chemistries) == 0 {
		return nil
	}
	return p.beyondBath(q, &of, q.Range.Low)
}

// wishedFor tells whether a sentence takes a temperature for granted or praises it.
func wishedFor(s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause
	c := &s.Clauses[k]
	switch q.Relation {
	case sentence.Below, sentence.From, sentence.Difference, sentence.Above:
		return false
	case sentence.AtLeast:
		return c.Opener == "" && s.ClauseHas(k, neverWords) && s.ClauseHas(k, mayBegin) && (precededBy(s, q, "under") || precededBy(s, q, "below"))
	}
	if notTooHot(s, q) || keptSinceThen(s, k) {
		return true
	}
	if denies(s, k) || c.Mood == sentence.Was || c.Mood == sentence.Ask || c.Mood == sentence.Example {
		return false
	}
	if wishes[c.Opener] {
		return comesOffElsewhere(s, k) && s.ClauseHas(k, reachesHeat)
	}
	if c.Opener == "which" {
		return q.Relation == sentence.AtMost && s.ClauseHas(k, leavesRoom) && s.ClauseHas(k, givesLeave)
	}
	if c.Opener != "" || s.Harmful() {
		return false
	}
	if k+1 < len(s.Clauses) && s.Clauses[k+1].Opener == "where" && s.ClauseHas(k+1, atHome) && q.Near == "is" && !denies(s, k+1) {
		return true
	}
	if list := s.Words(k); s.ClauseHas(k, servedUs) || len(list) > 1 && list[0] == "full" && list[1] == "heat" {
		return true
	}
	for _, w := range s.Tokens() {
		if w.Clause == k && w.From < q.From && (superlative[w.Text] || wakes[w.Text]) {
			return true
		}
	}
	return false
}

// notTooHot tells whether a temperature is said not to be too much: “80 °C is not too hot for it”, “70 °C in the wash is nothing to it”.
func notTooHot(s *sentence.Sentence, q *sentence.Quantity) bool {
	words := s.Tokens()
	for i, w := range words {
		if w.Clause != q.Clause || w.From < q.To {
			continue
		}
		next := textAt(words, i+2)
		if w.Text == "not" && textAt(words, i+1) == "too" && (warmths[next] || next == "much") {
			return true
		}
		if w.Text == "nothing" && textAt(words, i-1) == "is" && textAt(words, i+1) == "to" && (next == "it" || next == "them") {
			return true
		}
	}
	return false
}

// keptSinceThen tells whether what somebody was told, or what is told of these days, is what he does.
func keptSinceThen(s *sentence.Sentence, k int) bool {
	list := s.Words(k)
	if len(list) > 2 && (list[0] == "nowadays" || list[0] == "these" && list[1] == "days") && s.Has(shopPeople) && k > 0 {
		return !slices.ContainsFunc(list, func(w string) bool { return noWords[w] })
	}
	for j := k + 1; j < len(s.Clauses); j++ {
		if s.Clauses[j].Opener == "since" && j+1 < len(s.Clauses) {
			if last := s.Words(j + 1); len(last) == 2 && (last[0] == "i" || last[0] == "we") && (last[1] == "do" || last[1] == "have") {
				return true
			}
		}
	}
	return false
}

// comesOffElsewhere tells whether the main clause says that the soil comes off, and that of the condition is another.
func comesOffElsewhere(s *sentence.Sentence, k int) bool {
	for j := range s.Clauses {
		if c := &s.Clauses[j]; j != k && c.Opener == "" && c.Mood != sentence.Was && !denies(s, j) && (s.ClauseHas(j, bitesOff) || s.ClauseHas(j, cleansOff) || s.ClauseHas(j, comeOff) && s.ClauseHas(j, offWay) || s.ClauseHas(j, pests) && s.ClauseHas(j, falls)) {
			return true
		}
	}
	return false
}

// toldInTens looks for a number without a unit that a bath is heated to, and gives its place: “when Wash 1 has climbed past eighty”, “may climb into the
// seventies”, “till the thermometer says seventy-nine”, “turns it up to eighty-five”. Heat of baths is told in °C here, as in hotAnswered.
func (p *proof) toldInTens(a *manual.Article, s *sentence.Sentence) (*excess, int) {
	if s.Question || s.TakenBack || s.Block.Kind == sentence.Cell || !s.Has(tensContext) || p.Shop.System() != quantity.SI || illOf(s) || s.Harmful() || s.Has(contrasts) || s.Has(faultWords) || s.Has(faultNouns) || s.Has(longAgo) || s.Has(timeOfDay) {
		return nil, 0
	}
	words := s.Tokens()
	for i, w := range words {
		if w.Amount || i == 0 || inMention(s, w.From) || !s.ClauseHas(w.Clause, tensContext) || denies(s, w.Clause) {
			continue
		}
		before, next := words[i-1].Text, textAt(words, i+1)
		n := tensAndOnes(w.Text)
		switch {
		case w.Text == "hundred" && before == "a" && next == "degrees":
			n = 100
		case decades[w.Text] > 0 && before == "the":
			n = decades[w.Text]
		case !ledToTens[before] || next != "" && next != "." && next != "," && next != ";" && next != "and":
			continue
		}
		c := &s.Clauses[w.Clause]
		if n < 50 || n > 110 || c.Mood == sentence.MustNot || c.Mood == sentence.Was || c.Opener != "" && !moments[c.Opener] && c.Opener != "till" {
			continue
		}
		t := onlyTank(s)
		if t == nil && a.Chemistry == nil {
			return nil, 0
		}
		of := p.bathTold(a, s)
		return p.beyondBath(&sentence.Quantity{Text: fmt.Sprintf("%g °C", n)}, &of, n), w.From
	}
	return nil, 0
}

// looksGoodAt is beyond for a piece that is praised for how it looks, or is said to go well, at more heat than it stands: “A rinse at 65 °C gives brass its
// shine back”, “Sight tubes come up clear at 55 °C”, “For silver we swear by 60 °C”, “Anything from 60 °C on is right for the brackets”.
func (p *proof) looksGoodAt(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) *excess {
	k := q.Clause
	if q.Kind != quantity.Temperature || q.Unit.Symbol != "°C" || q.Range.High > 110 || a.Material == nil && a.Part == nil || s.Block.Kind == sentence.Cell || s.Clauses[k].Opener != "" || s.Clauses[k].Mood == sentence.Was || otherMatter(a, s) {
		return nil
	}
	if q.Attribute != "" && q.Attribute != "rinse" || q.Relation != sentence.At && q.Relation != sentence.To && !(q.Relation == sentence.From && q.Near == "on") || q.About != nil && q.About.Thing.Bath() || !cleansUnblamed(s) || s.Has(otherTools) || othersWork(s, k) || ofOthers(s, q) || ofNextNoun(s, q) {
		return nil
	}
	if !(valence(s, k) > 0) && !(s.ClauseHas(k, comesUp) && s.ClauseHas(k, looksNew)) {
		return nil
	}
	of := p.ownSubject(a, "")
	if len(of.materials) == 0 {
		return nil
	}
	return p.beyondMaterial(q, &of, q.Range.Low)
}

// softNearDryer is the material that stands behind a dryer that does it no harm: “The dryer at 80 °C does acrylic no harm”.
func (p *proof) softNearDryer(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) *excess {
	if q.Kind != quantity.Temperature || q.About == nil || q.About.Thing == nil || q.About.Thing.Dryer == nil || s.Question || s.TakenBack || s.Clauses[q.Clause].Opener != "" || s.Clauses[q.Clause].Mood == sentence.Was || s.Has(exceptions) || illOf(s) || valence(s, q.Clause) <= 0 {
		return nil
	}
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Thing.Kind() != manual.Material || m.Where || s.ClauseOf(m) != q.Clause {
			continue
		}
		of := p.ofMention(a, m)
		if len(of.materials) == 0 || slices.ContainsFunc(of.materials, func(b *manual.Article) bool { return !admit.Softens(b.Material.MadeOf) }) {
			continue
		}
		return p.beyondMaterial(q, &of, q.Range.Low)
	}
	return nil
}

var (
	neverWords  = sentence.Set("never nobody")
	wishes      = map[string]bool{"if": true, "when": true, "once": true, "as-soon-as": true}
	reachesHeat = sentence.Set("is stands stood standing comes come let bring brings take takes has gets get")
	bitesOff    = sentence.Set("bites shifted lifted loosened dissolved gone")
	leavesRoom  = sentence.Set("leaves gives")
	atHome      = sentence.Set("home best happiest belongs")
	servedUs    = sentence.Set("served serves")
	superlative = sentence.Set("quickest fastest happiest strongest keenest liveliest")
	wakes       = sentence.Set("wake wakes awake")
	decades     = map[string]float64{"sixties": 65, "seventies": 72, "eighties": 82, "nineties": 92}
	ledToTens   = sentence.Set("past over to at says shows around about reaches beyond")
	tensContext = sentence.Set("climbed climb climbs heater thermometer display hotter turns turn heated warmed lye bath boil boils simmers degrees")
	timeOfDay   = sentence.Set("clock o'clock past-seven minutes per % psi percent")
	comesUp     = sentence.Set("come comes gives brings leaves")
	looksNew    = sentence.Set("clear bright shiny shine lustre gloss sparkling gleaming")
)
