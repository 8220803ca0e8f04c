package rules

import (
	"slices"
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// heatTold tells whether a temperature is asked for or allowed without a command, by what is said around it:
//
//   - a fault is denied of it: “Nothing speaks against 80 °C in Wash 1”, “80 °C has never hurt anybody”
//   - it is what the work waits for: “The lamp goes green at 78 °C”, “The first basket waits for 80 °C in Wash 1”
//   - it spares something: “A setting of 78 °C on Wash 1 saves a quarter of the time”
//   - a later clause says that it is what the shop does: “… at 52 °C, so that is what we use”
//   - leave is given: “You are welcome to 78 °C”, “The dip may be as warm as 55 °C”
//   - a tank stands at it for a soil: “For old grease Wash 1 stands at 80 °C”
//   - it is what a word for warmth means: “It wants it hot, and hot means 75 °C”
//   - its verdict or what comes of it stands behind: “Wash 1 at 79 °C: fine”, “68 °C and it is gone”
//   - more heat is better: “The hotter it is, up to 85 °C, the sooner the lime is off”
//
// What was, what if, questions, examples and a contrast behind it say nothing of the kind.
func heatTold(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	c := &s.Clauses[q.Clause]
	switch c.Mood {
	case sentence.Was:
		return !s.Has(exceptions) && !illOf(s) && !s.Harmful() && stayedAt(s, q)
	case sentence.Ask, sentence.Example:
		return false
	}
	if s.Has(exceptions) || q.Relation == sentence.Below || q.Relation == sentence.From || q.Relation == sentence.Difference {
		return false
	}
	if c.Opener == "" && (faultDenied(s, q) || needsNoMore(s, q) || verdictBehind(s, q) || (a.Material != nil || a.Part != nil) && doesNothingTo(s, q)) {
		return true
	}
	if faultBehind(s, q) {
		return false
	}
	if nothingBefore(s, q) {
		return true
	}
	if illOf(s) || s.Harmful() || denies(s, q.Clause) {
		return false
	}
	if moments[c.Opener] && waitedFor(s, q) || c.Opener == "after" && keptTo(s, q) {
		return true
	}
	return c.Opener == "" && (spares(s, q) || hotterBetter(s) || goneBehind(s, q) || setFor(s, q) || asHotAs(s, q) || keptTo(s, q) || leaveTo(s, q) || a.Chemistry != nil && warmthMeans(s, q))
}

// faultBehind tells whether a later clause calls what stands before it a fault: “it steams at 85 °C, and that is a fault”.
func faultBehind(s *sentence.Sentence, q *sentence.Quantity) bool {
	for k := q.Clause + 1; k < len(s.Clauses); k++ {
		if s.ClauseHas(k, pointing) && s.ClauseHas(k, faultNouns) && !denies(s, k) {
			return true
		}
	}
	return false
}

// nothingBefore tells whether nothing is done before a temperature: “No basket before 80 °C in Wash 1”.
func nothingBefore(s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause
	if k == 0 || s.Clauses[k].Opener != "before" || !precededBy(s, q, "before") {
		return false
	}
	list := s.Words(k - 1)
	if s.Clauses[k-1].Opener != "" || len(list) < 2 || len(list) > 5 || illOf(s) || s.Harmful() {
		return false
	}
	return list[0] == "no" && loadNouns[list[1]] || (list[0] == "nothing" || list[0] == "nobody") && mayBegin[list[1]]
}

// hotterBetter tells whether a sentence says that more heat is better without end: “The hotter it is, up to 85 °C, the sooner the lime is off”.
func hotterBetter(s *sentence.Sentence) bool {
	words := s.Tokens()
	hotter := false
	for i := 1; i < len(words); i++ {
		if words[i-1].Text != "the" {
			continue
		}
		if hotter && better[words[i].Text] || hotter && words[i].Text == "better" {
			return true
		}
		hotter = hotter || words[i].Text == "hotter" || words[i].Text == "warmer"
	}
	return false
}

// faultDenied tells whether a clause says that nothing is wrong with a temperature: a word of denial, the only one, and behind it one of a fault. “No danger
// of boiling” leaves all others.
func faultDenied(s *sentence.Sentence, q *sentence.Quantity) bool {
	words := s.Tokens()
	n := 0
	for _, w := range words {
		if w.Clause == q.Clause && denyHeat[w.Text] {
			n++
		}
	}
	if n != 1 || s.Has(contrasts) {
		return false
	}
	for i, w := range words {
		if w.Clause != q.Clause || !denyHeat[w.Text] {
			continue
		}
		for j := i + 1; j < min(i+6, len(words)) && words[j].Clause == w.Clause; j++ {
			if t := words[j].Text; words[j].Amount || obliging[t] {
				break
			} else if t == "against" && !saysAgainst[words[j-1].Text] {
				break
			} else if faultWords[t] {
				return wordAt(words, j+1) != "of"
			}
		}
	}
	return false
}

// doesNothingTo tells whether a temperature on the page of a material or part is said to do nothing to it. Where it does nothing to a soil, it is useless.
func doesNothingTo(s *sentence.Sentence, q *sentence.Quantity) bool {
	words := s.Tokens()
	for i := 1; i+2 < len(words); i++ {
		if w := words[i]; w.Text == "nothing" && w.Clause == q.Clause && w.From > q.From && (words[i-1].Text == "does" || words[i-1].Text == "do") && words[i+1].Text == "to" && (words[i+2].Text == "it" || words[i+2].Text == "them") {
			return true
		}
	}
	return false
}

// verdictBehind tells whether a temperature without a verb has its verdict behind a colon: “Wash 1 at 79 °C: fine”.
func verdictBehind(s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause + 1
	return k < len(s.Clauses) && labels(s, k) && s.Verbless(q) && len(s.Words(k)) > 0 && len(s.Words(k)) < 4 && (s.ClauseHas(k, praised) || s.ClauseHas(k, goneWords) || s.ClauseHas(k, brightWords)) && !s.ClauseHas(k, noWords) && !s.Has(contrasts)
}

// goneBehind tells whether a temperature without a verb is followed by what has gone: “68 °C and it is gone”.
func goneBehind(s *sentence.Sentence, q *sentence.Quantity) bool {
	if s.Clauses[q.Clause].Mood != sentence.Fragment || !s.Verbless(q) || q.Near != "and" {
		return false
	}
	for k := q.Clause + 1; k < min(q.Clause+3, len(s.Clauses)); k++ {
		if s.ClauseHas(k, goneWords) && (s.ClauseHas(k, theySets) || s.ClauseHas(k, soilNames)) && s.Clauses[k].Opener == "" && !denies(s, k) {
			return true
		}
	}
	return false
}

// waitedFor tells whether a temperature is the one at which something shows that work may begin, or for which the work waits.
func waitedFor(s *sentence.Sentence, q *sentence.Quantity) bool {
	if q.Relation != sentence.At && q.Relation != sentence.To && q.Relation != sentence.AtLeast {
		return false
	}
	if s.Has(ailing) || s.Has(noWords) {
		return false
	}
	if c := &s.Clauses[q.Clause]; c.Opener != "" && c.Opener != "until" && s.Has(readyWords) {
		return true
	}
	return s.ClauseHas(q.Clause, readyWords) || precededBy(s, q, "waits for") || precededBy(s, q, "wait for") || precededBy(s, q, "waiting for")
}

// spares tells whether a clause begins with the temperature, as a setting or a bath of so much, and says what is spared by it.
func spares(s *sentence.Sentence, q *sentence.Quantity) bool {
	of := -1
	words := s.Tokens()
	for i, w := range words {
		switch {
		case w.Clause != q.Clause:
		case w.From < q.From && heatSubjects[w.Text] && i < 4 && (wordAt(words, i+1) == "of" || wordAt(words, i+1) == "at"):
			of = i
		case w.From > q.From && of >= 0 && sparing[w.Text]:
			return !nothings[wordAt(words, i+1)]
		}
	}
	return false
}

// needsNoMore tells whether a bath of a temperature is said to need nothing more: “A bath of 80 °C needs no second wash”.
func needsNoMore(s *sentence.Sentence, q *sentence.Quantity) bool {
	if q.Near != "needs" && q.Near != "saves" && q.Near != "spares" || !s.ClauseHas(q.Clause, heatSubjects) || s.Harmful() || illOf(s) || s.Has(contrasts) {
		return false
	}
	list := s.PhraseBehind(q, 3)
	return len(list) == 3 && (list[1] == "no" && more[list[2]] || list[1] == "the" || list[1] == "a")
}

var more = sentence.Set("second further other more rinse wash degassing brush")

// keptTo tells whether a later clause says that what stands before it is what is done in the shop, and no other temperature stands between.
func keptTo(s *sentence.Sentence, q *sentence.Quantity) bool {
	for j := q.Clause + 1; j < len(s.Clauses); j++ {
		if slices.ContainsFunc(s.Quantities, func(o sentence.Quantity) bool { return o.Kind == q.Kind && o.From > q.From && o.Clause <= j }) {
			return false
		}
		c := &s.Clauses[j]
		if c.Opener != "" && c.Opener != "so-that" && c.Opener != "which" && c.Opener != "where" || c.Mood == sentence.Was || denies(s, j) {
			continue
		}
		if (c.Opener == "which" || c.Opener == "where") && s.ClauseHas(j, obliged) && s.ClauseHas(j, keptAt) {
			return true // “…, which is where the bath should be kept”
		}
		if !s.ClauseHas(j, pointing) {
			continue
		}
		if (s.ClauseHas(j, shopPeople) || s.ClauseHas(j, youWord)) && s.ClauseHas(j, doesSo) || s.ClauseHas(j, isPlace) {
			return true
		}
	}
	return false
}

// stayedAt tells whether what was tried has become what is done: “Our best results came at 70 °C, and we have stayed there”.
func stayedAt(s *sentence.Sentence, q *sentence.Quantity) bool {
	for j := q.Clause + 1; j < len(s.Clauses); j++ {
		if c := &s.Clauses[j]; c.Opener == "" && s.ClauseHas(j, shopPeople) && s.ClauseHas(j, keptSince) && s.ClauseHas(j, pointing) && !denies(s, j) {
			return true
		}
	}
	return false
}

var keptSince = sentence.Set("stayed stay kept keep stick stuck left")

// setFor tells whether a tank is said to stand or run at a temperature for a soil: “For old grease Wash 1 stands at 80 °C”.
func setFor(s *sentence.Sentence, q *sentence.Quantity) bool {
	list := s.Words(q.Clause)
	if len(list) < 4 || list[0] != "for" && list[0] != "against" || q.About == nil || q.About.From > q.From || !(q.About.Thing.Bath() || q.About.Stands && isBathWord(q.About.Word)) {
		return false
	}
	return (soilNames[list[1]] || soilNames[list[2]]) && standsAt[s.After(q.About)] && q.Relation == sentence.At
}

// asHotAs tells whether something may be as hot as so much.
func asHotAs(s *sentence.Sentence, q *sentence.Quantity) bool {
	return q.Relation == sentence.AtMost && s.ClauseHas(q.Clause, mayBe) && (precededBy(s, q, "be as hot as") || precededBy(s, q, "be as warm as") || precededBy(s, q, "be as high as"))
}

// leaveTo tells whether somebody is told that he is welcome or free to have a temperature.
func leaveTo(s *sentence.Sentence, q *sentence.Quantity) bool {
	words := s.Tokens()
	for i, w := range words {
		if w.Clause == q.Clause && w.From < q.From && givesLeave[w.Text] && (wordAt(words, i+1) == "to" || wordAt(words, i+1) == "up") {
			return true
		}
	}
	return false
}

// warmthMeans tells whether a temperature is what a word for warmth stands for, where the work is said to want it.
func warmthMeans(s *sentence.Sentence, q *sentence.Quantity) bool {
	words := s.Tokens()
	for i := 1; i < len(words); i++ {
		if w := words[i]; (w.Text == "means" || w.Text == "=") && w.Clause == q.Clause && w.From < q.From && q.From-w.From < 12 && warmths[words[i-1].Text] {
			return !(i > 1 && words[i-2].Text == "too") && s.Has(soilNeeds)
		}
	}
	return false
}

// uselessBelow tells whether work is said to begin only at a temperature: “Anything under 78 °C in Wash 1 is a waste of time”, “Nothing below 65 °C touches this
// lime”, “Only from 80 °C on does it clean”.
func uselessBelow(s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause
	c := &s.Clauses[k]
	if q.Kind != quantity.Temperature || c.Opener != "" || c.Mood == sentence.Was || c.Mood == sentence.Ask || c.Mood == sentence.Example || q.Relation == sentence.Below && (s.Has(exceptions) || s.Has(contrasts)) || q.Attribute != "" && !soilWords[q.Attribute] || s.ClauseHas(k, longAgo) {
		return false
	}
	if s.ClauseHas(k, cutOuts) {
		return false
	}
	denied := denies(s, k) || s.ClauseHas(k, nothings)
	switch q.Relation {
	case sentence.Below:
		return s.ClauseHas(k, wasted) && !denied || denied && (s.ClauseHas(k, takesSoil) || s.ClauseHas(k, mayBegin)) && !s.ClauseHas(k, wasted)
	case sentence.From:
		return !q.Span && (s.ClauseHas(k, onlyWord) || s.ClauseHas(k, takesSoil)) && (q.Near == "on" || q.Near == "up" || q.Near == "onwards" || q.Near == "upwards") && !denied && !illOf(s) && !s.Harmful()
	}
	return false
}

// inTank tells whether a temperature stands behind the tank in which something is done: “Quench oil comes off best in Wash 1 at 80 °C”.
func inTank(s *sentence.Sentence, q *sentence.Quantity) bool {
	m := q.About
	return m != nil && m.Thing != nil && m.Thing.Tank != nil && m.From < q.From && s.Before(m) == "in" && s.Distance(m, q) <= 1 && s.Clauses[q.Clause].Mood == sentence.Do
}

// waterItself tells whether the chemistry of a page is a water.
func waterItself(a *manual.Article) bool {
	return a.Chemistry != nil && strings.HasSuffix(strings.ToLower(a.Head.Title), "water")
}

// fillsHot tells whether a bath, that of a chemistry's page or of a tank that is named, is made up with water of a temperature.
func fillsHot(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	c := &s.Clauses[q.Clause]
	tank := q.About != nil && q.About.Thing != nil && q.About.Thing.Tank != nil
	return (a.Chemistry != nil || tank) && q.Attribute == "water" && c.Mood == sentence.Do && (precededBy(s, q, "water of") || precededBy(s, q, "water at")) && (makesUpBath[c.Verb] || s.ClauseHas(q.Clause, madeUpSo))
}

// soilInState tells whether words without a verb on a chemistry's page give a temperature to a soil of which they tell how it is: “Old flux at 75 °C”, “Burnt
// oil: 82 °C and patience”. A soil alone may be one whose melting point is told.
func soilInState(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause
	if a.Chemistry == nil || q.Range.High > 100 || s.Block.Kind == sentence.Cell || q.Attribute != "" && !soilWords[q.Attribute] || q.Relation != sentence.At && q.Relation != sentence.To || s.Has(noWords) || s.Has(foundSo) || illOf(s) || badLabel(s, k) || k > 1 || k == 1 && !labels(s, k) {
		return false
	}
	words := s.Tokens()
	for i := 0; i+1 < len(words) && words[i].From < q.From; i++ {
		if soilStates[words[i].Text] && (soilNames[words[i+1].Text] || matters[words[i+1].Text]) {
			next := wordAt(words, i+2)
			return (next == "at" || next == "," || next == ":") && i+3 < len(words) && words[i+3].From == q.From && !s.ClauseHas(k, notWorkHeat)
		}
	}
	return false
}

// saidWait tells whether a question about a bath that is below a temperature is answered by having it heated or waited for: “Wash 1 below 78 °C? Wait.”
func saidWait(one, two *sentence.Sentence, q *sentence.Quantity) bool {
	list := strings.FieldsFunc(strings.ToLower(two.Text()), func(r rune) bool { return r == ' ' || r == '.' || r == ',' || r == '!' })
	return q.Relation == sentence.Below && len(list) > 0 && len(list) < 8 && waitsOrHeats[list[0]] && list[0] != "call" && list[0] != "stop"
}

// saidYes looks for a question about a temperature that the next sentence answers with yes: “Is 80 °C in Wash 1 all right? Yes, for an hour.”
func (p *proof) saidYes(a *manual.Article, one, two *sentence.Sentence) (*excess, *sentence.Quantity) {
	if !one.Question || one.Block != two.Block || two.Question || len(one.Quantities) != 1 || two.TakenBack || illOf(two) || two.Has(noWords) || two.Has(contrasts) || two.Has(exceptions) || one.Has(foundSo) || one.Has(faultWords) {
		return nil, nil
	}
	q := &one.Quantities[0]
	if q.Kind == quantity.Temperature && saidWait(one, two, q) && heatAttributes[q.Attribute] {
		of := p.of(a, q)
		return p.beyondAdvised(q, a, one, &of, q.Range.Low), q
	}
	list := two.AllWords()
	if len(list) > 1 && goesOnWith[list[0]+" "+list[1]] && (q.Relation == sentence.At || q.Relation == sentence.AtMost) && q.Kind == quantity.Temperature && heatAttributes[q.Attribute] {
		of := p.of(a, q)
		return p.beyondAdvised(q, a, one, &of, q.Range.High), q
	}
	asked, ok := askedFor(q)
	if len(list) == 0 || !yesWords[list[0]] || !ok || q.Kind != quantity.Temperature || !heatAttributes[q.Attribute] || !one.Has(asksLeave) {
		return nil, nil
	}
	of := p.of(a, q)
	return p.beyondAdvised(q, a, one, &of, asked), q
}

// tankOfCell gives the tank that a cell of a table sets to a temperature: the one of its row, in a column of what is to be held, or the one that the head
// of its column names. A moment at which somebody has read it, or what has happened to it, sets nothing.
func (p *proof) tankOfCell(s *sentence.Sentence, q *sentence.Quantity) *manual.Tank {
	b := s.Block
	if b.Kind != sentence.Cell || b.First || q.Attribute != "" || q.Relation != sentence.At && q.Relation != sentence.AtMost || ofNoWork(b.Row) || ofNoWork(b.Column) || befallen(b.Row) || befallen(b.Column) {
		return nil
	}
	if q.About != nil {
		if t := q.About.Thing; t != nil && t.Tank != nil && q.About.From < 0 && setColumn(b.Column) {
			return t.Tank
		}
		return nil
	}
	if strings.ContainsAny(b.Row, "0123456789") {
		return nil
	}
	for i := range p.Shop.Tanks {
		if strings.EqualFold(strings.TrimSpace(b.Column), p.Shop.Tanks[i].Name) {
			return &p.Shop.Tanks[i]
		}
	}
	return nil
}

// befallen tells whether the label of a row or a column is about what somebody has found, or what happens by itself.
func befallen(label string) bool {
	return slices.ContainsFunc(strings.Fields(strings.ToLower(label)), func(w string) bool {
		return foundSo[w] || ailing[w] || befalls[w] || noWords[w] || badLabels[w] || ills[w]
	})
}

// setColumn tells whether the head of a column says that what stands below is to be set or held.
func setColumn(head string) bool {
	return slices.ContainsFunc(strings.Fields(strings.ToLower(head)), func(w string) bool { return setsHeat[w] || w == "ready" || w == "target" })
}

// wantsHeat tells whether what stands before a temperature in its clause is said to want it, in a tank that is named or on the page of the part.
func wantsHeat(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	if s.Clauses[q.Clause].Mood != sentence.Do || !s.ClauseHas(q.Clause, wantsIt) {
		return false
	}
	return q.About != nil && q.About.Thing != nil && q.About.Thing.Tank != nil || a.Part != nil && namesOwn(a, s, q.Clause)
}

// softInOven is the excess of an oven on the page of a plastic, a rubber or a part of them. The limit of a metal is one for the wet metal.
func (p *proof) softInOven(a *manual.Article, q *sentence.Quantity, asked float64) *excess {
	if a.Material == nil && a.Part == nil {
		return nil
	}
	of := p.ownSubject(a, "")
	of.materials = slices.DeleteFunc(slices.Clone(of.materials), func(b *manual.Article) bool { return !admit.Softens(b.Material.MadeOf) })
	if len(of.materials) == 0 {
		return nil
	}
	return p.beyondMaterial(q, &of, asked)
}

var (
	// moments open clauses that say when the work begins.
	moments     = map[string]bool{"": true, "when": true, "once": true, "as-soon-as": true, "until": true, "only-when": true, "only-once": true}
	wasted      = sentence.Set("waste useless pointless idle wasted")
	takesSoil   = sentence.Set("touches touch moves move cleans clean lifts lift loosens loosen shifts shift works work helps dissolves removes budges")
	makesUpBath = sentence.Set("prepare mix fill make dilute dissolve use charge")
	madeUpSo    = sentence.Set("mixed made filled prepared diluted dissolved")
	theySets    = sentence.Set("it they")
	// goesOnWith are the first words of an answer with which work goes on.
	goesOnWith  = map[string]bool{"carry on": true, "go on": true, "keep going": true, "no problem": true, "no matter": true, "never mind": true, "work on": true, "load anyway": true}
	faultNouns  = sentence.Set("fault mistake error defect alarm accident")
	brightWords = sentence.Set("bright shiny shining new")
	goneWords   = sentence.Set("gone off loose away disappears vanishes clean")
	loadNouns   = sentence.Set("basket baskets part parts load loads tray trays work sound start")
	mayBegin    = sentence.Set("ready start starts load loaded go goes begin begins")
	nothings    = sentence.Set("nothing little nobody no none")
	befalls     = sentence.Set("runs boils trips stops reads shows splits clouds melts freezes fails leaks falls rises")
	contrasts   = sentence.Set("but yet however though although still except unless only until")
	denyHeat    = sentence.Set("nothing nobody no none never not hardly doesn't isn't won't don't")
	obliging    = sentence.Set("must should may can shall")
	saysAgainst = sentence.Set("speaks speak said stands is be has have anything argument case reason")
	faultWords  = sentence.Set("wrong against objection objections objects complaint complaints complained complains complain harm harms harmed hurt hurts damage damaged damages danger risk problem problems trouble bother bothers special unusual ordinary matter matters mind minds minded scold scolds forbids prevents regretted")
	// startWords are what a temperature is said of where work is to begin at it.
	startWords = sentence.Set("lamp bulb basket load meter screen display")
	readyWords = sentence.Set("green ready released")
	// heatSubjects are nouns of a temperature with which a clause begins.
	heatSubjects = sentence.Set("setting set-point temperature heat bath wash dial tank")
	sparing      = sentence.Set("saves save halves shortens speeds pays spares suffices helps")
	pointing     = sentence.Set("that this which there it so")
	youWord      = sentence.Set("you")
	doesSo       = sentence.Set("use run set work wash take keep have hold do want")
	isPlace      = sentence.Set("belongs belong")
	wantsIt      = sentence.Set("needs need wants want deserves deserve takes asks requires require")
	obliged      = sentence.Set("should must ought")
	standsAt     = sentence.Set("stands is runs works sits")
	mayBe        = sentence.Set("may can")
	givesLeave   = sentence.Set("welcome free")
	warmths      = sentence.Set("hot warm heat ready")
	soilStates   = sentence.Set("old burnt baked thick heavy stubborn caked dried tarry tough aged baked-on burnt-on stiff dull tarnished rusty greasy oily brown")
	yesWords     = sentence.Set("yes sure certainly absolutely gladly definitely")
	asksLeave    = sentence.Set("may can is are should right ok okay allowed fine do")
)
