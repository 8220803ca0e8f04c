package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// numberAgainstModel finds numbers in the text that contradict the model: of a tank, a rinse or the dryer what the shop file says, of a
// chemistry or a material its header, of a part its own process. It reads the summary as well.
// It prevents that the operator reads one number in the procedure and another in the table, and has to guess.
// The limit is the header or the shop file. A quantity counts where package sentence knows what it is said of and in what mood: a statement,
// words without a verb as on a card or in a row of a table, or a command to keep, fill or set; what was, what if, and an example do not.
var numberAgainstModel = finding.Rule{
	Name: "number-against-model", Severity: finding.Result,
	Finds:  "a number in the text that contradicts the tank, the chemistry, the material or the part it is said of",
	Why:    "The reader finds two numbers for one thing and has to guess which is right.",
	Source: "the shop file, and the headers of the articles",
}

// known is what the model says of what a quantity is said of.
type known struct {
	of    string // whose
	what  string // "temperature", or a word such as ceiling
	limit manual.Limit
	exact bool // it has this value; otherwise a window that what is said has to be in
}

func findNumbersAgainstModel(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	said := p.reading(a)
	for i := range said.answers {
		s := &said.answers[i]
		list = append(list, p.wrongAnswers(a, s)...)
		for j := range s.Quantities {
			if f := p.wrongOnCard(a, s, &s.Quantities[j]); f != nil && s.ClauseHas(0, howWord) {
				list = append(list, *f)
			}
		}
	}
	for i := range said.sentences {
		s := &said.sentences[i]
		if f := p.wrongWater(a, s); f != nil {
			list = append(list, *f)
		}
		if f := p.wrongFilling(a, s); f != nil {
			list = append(list, *f)
			continue
		}
		if f := p.strengthInWords(a, s); f != nil {
			list = append(list, *f)
			continue
		}
		said := len(list)
		for j := range s.Quantities {
			q := &s.Quantities[j]
			if p.tooHot(a, s, q) != nil {
				continue
			}
			if f, wrong := p.denied(a, s, q); wrong {
				list = append(list, p.contradiction(a, s, q, f))
			} else if f := p.wrongOnCard(a, s, q); f != nil {
				list = append(list, *f)
			}
		}
		if len(list) == said {
			if f := p.dwellSaid(a, s); f != nil {
				list = append(list, *f)
			}
		}
	}
	return list
}

// wrongAnswers finds amounts with which a question is answered and that contradict the model: “How big is it? 36 L.”
func (p *proof) wrongAnswers(a *manual.Article, s *sentence.Sentence) []finding.Finding {
	var list []finding.Finding
	for _, q := range answering(s) {
		if f, wrong := p.denied(a, s, q); wrong {
			list = append(list, p.contradiction(a, s, q, f))
		}
	}
	return list
}

// answering gives the amounts of an answer that is read with its question, where the question has none of its own.
func answering(s *sentence.Sentence) []*sentence.Quantity {
	var list []*sentence.Quantity
	asked := s.ClauseHas(0, leave) || elsewhere(s)
	for i := range s.Quantities {
		q := &s.Quantities[i]
		if asked = asked || q.Clause == 0; asked || q.About == nil || !(q.Near == "" || strings.ContainsAny(q.Near, ".,;!") || q.Near == "and" || q.Near == "so") {
			continue
		}
		list = append(list, q)
	}
	return list
}

// settle has the amounts of an answer be of what the question names.
func settle(s *sentence.Sentence) {
	for _, q := range answering(s) {
		if q.Kind == quantity.Volume && s.ClauseHas(0, sizes) && q.Attribute == "" {
			q.Attribute = "volume"
		}
		if q.About.Stands && q.About.Thing != nil { // what “it” means has been named in the question
			about := *q.About
			about.Stands = false
			q.About = &about
		}
	}
}

// contradiction is the finding for a quantity that contradicts a fact.
func (p *proof) contradiction(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity, f known) finding.Finding {
	return numberAgainstModel.At(placeIn(a, s.Block, q.From), fmt.Sprintf("The text says %s of %s, which has %s.", q.Text, f.of, f.limit.In(p.Shop.System())),
		"Correct the number here, or in the shop file or article that it is said of.", f.limit.At)
}

// leave are words of a question about what may be, not what is.
var leave = sentence.Set("may can could might would should must")

var sizes = sentence.Set("big large size holds hold volume capacity")

// denied gives the fact that a quantity contradicts.
func (p *proof) denied(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) (known, bool) {
	if q.Relation != sentence.At && q.Relation != sentence.To && !boundOf(a, s, q) && !longestOf(a, s, q) && !rangeFrom(s, q) && !apposed(s, q) || q.Kind == quantity.Length && sideOf[q.Near] == "" {
		return known{}, false
	}
	c := &s.Clauses[q.Clause]
	switch c.Mood {
	case sentence.Is, sentence.Fragment, sentence.Able:
	case sentence.Do:
		if q.Kind == quantity.Temperature && !apposed(s, q) && (changes[c.Verb] || purposeIn(s)) || corrects[c.Verb] {
			return known{}, false
		}
	default:
		if c.Mood != sentence.MustNot && c.Mood != sentence.If || !apposed(s, q) {
			return known{}, false
		}
	}
	if s.ClauseHas(q.Clause, couldWords) && !strings.Contains(strings.ToLower(s.Text()), "could be ") && !strings.Contains(strings.ToLower(s.Text()), "might be ") {
		return known{}, false // “The heater could bring Wash 1 to 90 °C”
	}
	if q.Kind == quantity.Volume && c.Opener == "(" && q.Clause > 0 && s.ClauseHas(q.Clause-1, concentrates) {
		return known{}, false // “The concentrate for Wash 1 is 4.8 L (1.3 US gal)”
	}
	if q.Near == "tells" || q.Near == "means" || q.Near == "shows" { // “A pH of 8.5 tells that the bath is used up”
		return known{}, false
	}
	if c.Opener != "" && c.Opener != "(" && c.Opener != "which" || doubtful(s) && !freshPH(a, s, q) && !oldSoil(a, s, q) || s.TakenBack || elsewhere(s) || badLabel(s, q.Clause) {
		return known{}, false
	}
	if m := q.About; m != nil && m.Stands && c.Mood == sentence.Is && (m.From > q.From || (c.Verb == "reads" || c.Verb == "shows") && !steadyPH(a, s, q)) || approved(s, q) {
		return known{}, false
	}
	if s.ClauseHas(q.Clause, unmet) && !(q.Kind == quantity.Time && !s.Has(tooWord)) || q.Kind == quantity.Temperature && s.ClauseHas(q.Clause, changed) && !apposed(s, q) || q.About != nil && q.About.Stands && s.ClauseOf(q.About) != q.Clause && !(a.Part != nil && q.Clause == 1 && labels(s, 1) && s.ClauseOf(q.About) == 0 && s.ClauseHas(0, thisWord)) {
		return known{}, false
	}
	if q.Kind == quantity.Temperature && (ofPiece(s, q) || s.ClauseHas(q.Clause, parking) || afterMishap(s, q.Clause) || afterAWhile(s)) {
		return known{}, false // “Park Wash 1 at 55 °C over lunch”
	}
	if q.Kind == quantity.Temperature && (s.ClauseHas(q.Clause, ovens) || (c.Verb == "costs" || c.Verb == "eats") && s.Verbless(q) || faultBehind(s, q) || s.Has(outOfBounds) || s.Has(coolerWord) && s.Has(mayBe)) {
		return known{}, false // “A setting of 78 °C on Wash 1 costs a fill of cleaner”
	}
	if q.Kind == quantity.Time && s.ClauseHas(q.Clause, loadWords) && precededBy(s, q, "in") || ofOther(a, s, q) || otherBefore(a, s, q) || sumOf(s, q) || ofSound(s, q) || inAll(s, q) || othersWork(s, q.Clause) || ofOthers(s, q) || otherPart(a, s, q.Clause) || movesTo(s, q) || ofNextNoun(s, q) {
		return known{}, false
	}
	if k := q.Clause + 1; k < len(s.Clauses) && labels(s, k) && s.ClauseHas(k, noWords) {
		return known{}, false // “Wash 1 at 80 °C: not fine”
	}
	facts := p.factsOf(a, s, q, c)
	if len(facts) == 0 {
		return known{}, false
	}
	for _, f := range facts {
		if !contradicts(q, f) {
			return known{}, false
		}
		if q.About == nil || q.Kind == quantity.Length {
			continue
		}
		for i := range s.Quantities { // the number that is the thing's stands there as well: this one is another
			if o := &s.Quantities[i]; o != q && (o.About == q.About || q.Attribute == "flashes") && o.Kind == q.Kind && o.Relation == sentence.At && !contradicts(o, f) && f.exact {
				return known{}, false
			}
		}
	}
	return facts[0], true
}

// boundOf tells whether a quantity is the lowest or highest pH at which a material's page calls it safe: “Magnesium is safe from pH 8 upward”.
func boundOf(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	return a.Material != nil && q.Kind == quantity.PH && (q.Relation == sentence.AtLeast || q.Relation == sentence.AtMost) && s.Clauses[q.Clause].Mood == sentence.Able && s.ClauseHas(q.Clause, unharming)
}

// steadyPH tells whether a quantity on a chemistry's page is the pH that its bath is said to read, always and not on one day: nothing is done or asked about it.
func steadyPH(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	return a.Chemistry != nil && q.Kind == quantity.PH && isBathWord(q.About.Word) && len(s.Clauses) == 1 && !s.Has(ofOneDay)
}

var ofOneDay = sentence.Set("today now yesterday monday tuesday wednesday thursday friday saturday sunday week month year after still already if when")

// rangeFrom tells whether a span behind “from” is the range in which something works, and not a way that it goes: “good for anything from 25 to 80 °C”.
func rangeFrom(s *sentence.Sentence, q *sentence.Quantity) bool {
	return q.Relation == sentence.From && q.Span && precededBy(s, q, "from") && s.ClauseHas(q.Clause, ranging) && !s.ClauseHas(q.Clause, moves) && !s.ClauseHas(q.Clause, noWords)
}

// apposed tells whether a quantity stands behind the name of a value of which there is one, and so is that value in any mood: “never hotter than its
// ceiling of 75 °C”.
func apposed(s *sentence.Sentence, q *sentence.Quantity) bool {
	w := words(s, s.From, q.From)
	n := len(w)
	if n > 3 && w[n-1] == "of" && w[n-2] == "point" {
		w = append(w[:n-2:n-2], "of")
		n--
		return n > 2 && (w[n-2] == "flash" || w[n-2] == "cloud") && definite[w[n-3]]
	}
	return n > 2 && w[n-1] == "of" && w[n-2] == "ceiling" && definite[w[n-3]]
}

var (
	ranging  = sentence.Set("anything anywhere works cleans used use good runs suits range")
	definite = sentence.Set("the its our their")
)

// movesTo tells whether a temperature is one that a bath comes to at a time, and not the one it has: “climbs to 37 °C in the first 40 min”.
func movesTo(s *sentence.Sentence, q *sentence.Quantity) bool {
	return q.Kind == quantity.Temperature && s.Clauses[q.Clause].Mood == sentence.Is && q.Relation == sentence.To && s.ClauseHas(q.Clause, moves)
}

var moves = sentence.Set("climbs climb rises rise falls fall drops drop sinks sink cools creeps drifts itself first")

// ofNextNoun tells whether a quantity is said of a thing without a name that stands between it and what was named: “The lid of Wash 1 bends at
// 95 °C, the seal at 90 °C”.
func ofNextNoun(s *sentence.Sentence, q *sentence.Quantity) bool {
	if q.About == nil || q.About.From < s.From || q.About.To > q.From { // it may stand in the sentence before
		return false
	}
	w := words(s, max(s.From, q.About.To), q.From)
	n := len(w)
	return n > 3 && (w[n-1] == "at" || w[n-1] == "to") && strings.HasSuffix(w[n-4], ",") && (w[n-3] == "the" || w[n-3] == "a" || w[n-3] == "its") && !isBathWord(w[n-2]) && q.Attribute == ""
}

// loadWords are what is counted in a shift: “Two trays are washed in ten minutes”.
var loadWords = sentence.Set("trays baskets loads batches tray basket load")

// longestOf tells whether a quantity is the longest time that a material may have, by a command or leave: “may have up to 25 minutes”.
func longestOf(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	return q.Relation == sentence.AtMost && q.Kind == quantity.Time && a.Material != nil && (s.Clauses[q.Clause].Mood == sentence.Do || s.Clauses[q.Clause].Mood == sentence.Able) && s.ClauseHas(q.Clause, washing)
}

// ofOther tells whether a quantity is one for another matter than the article's: “5 min for brass, 15 min for plain steel”.
func ofOther(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	if a.Material == nil || q.Near != "for" && q.Near != "on" {
		return false
	}
	rest, _, _ := strings.Cut(strings.ToLower(s.Block.Text[q.To:s.To]), ",")
	title := strings.ToLower(a.Head.Title + " " + a.Name + " " + strings.Join(a.Head.AlsoCalled, " "))
	for w := range strings.FieldsSeq(strings.Trim(rest, ".;:")) {
		if matters[w] && !strings.Contains(title, w) {
			return true
		}
	}
	return false
}

// otherBefore tells whether a quantity on a material's page is said of another matter that stands before it, and the own one only behind: “Stainless may
// stay for half an hour, brass for five minutes”.
func otherBefore(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	if a.Material == nil || q.About != nil && q.About.From >= 0 && q.About.From < q.From {
		return false
	}
	title := strings.ToLower(a.Head.Title + " " + a.Name + " " + strings.Join(a.Head.AlsoCalled, " "))
	for _, w := range s.Tokens() {
		if w.Clause == q.Clause && w.From < q.From && matters[w.Text] && !strings.Contains(title, w.Text) {
			return true
		}
	}
	return false
}

// sumOf tells whether a strength, or the volume that it makes, is the one of a sum in the sentence that comes out: “Wash 2 at 3 % v/v: 0.84 L of concentrate” is worked for another bath
// than the one that stands there.
func sumOf(s *sentence.Sentence, q *sentence.Quantity) bool {
	if q.Span {
		return false
	}
	whole := 0.0
	if t := onlyTank(s); t != nil && t.Volume.Set {
		whole = t.Volume.Low
	} else if m := q.About; t == nil && m != nil && m.Thing != nil && m.Thing.Tank != nil && m.Thing.Tank.Volume.Set {
		whole = m.Thing.Tank.Volume.Low
	}
	if q.Kind == quantity.Volume { // “1 % in Wash 1 is 1.2 L”
		return slices.ContainsFunc(s.Quantities, func(v sentence.Quantity) bool {
			return (v.Kind == quantity.VolumeFraction || v.Kind == quantity.Fraction) && v.To < q.From && !v.Span && whole > 0 && off(whole*v.Range.Low, q.Range.Low) <= slackOf(q)
		})
	}
	if q.Kind != quantity.VolumeFraction && q.Kind != quantity.Fraction {
		return false
	}
	for i := range s.Quantities {
		if v := &s.Quantities[i]; v.Kind == quantity.Volume && v.To < q.From && !v.Span && whole > 0 && off(v.Range.Low/whole, q.Range.Low) <= slackOf(q, v) {
			return true // “1 L is 0.8 % in Wash 1”
		}
		if v := &s.Quantities[i]; v.Kind == quantity.Volume && v.From > q.To && !v.Span && whole > 0 && (off(whole*q.Range.Low, v.Range.Low) <= slackOf(v) || off(whole*q.Range.Low/(1-q.Range.Low), v.Range.Low) <= slackOf(v)) {
			return true
		}
	}
	return false
}

// ofSound tells whether a per cent is a share of the time with the sound on.
func ofSound(s *sentence.Sentence, q *sentence.Quantity) bool {
	return q.Kind == quantity.Fraction && (q.Attribute == "sound" || q.Attribute == "ultrasonic" || s.ClauseHas(q.Clause, sharesOfTime))
}

var sharesOfTime = sentence.Set("duty on-time pulse pulsed")

// inAll tells whether a time is the sum of several: “ten minutes in all”.
func inAll(s *sentence.Sentence, q *sentence.Quantity) bool {
	return q.Kind == quantity.Time && (s.ClauseHas(q.Clause, sumWords) || strings.Contains(strings.ToLower(s.Text()), " in all"))
}

var sumWords = sentence.Set("altogether total together overall")

// doubtful tells whether a word of doubt stands in a clause other than one of “whatever”.
func doubtful(s *sentence.Sentence) bool {
	for k := range s.Clauses {
		if o := s.Clauses[k].Opener; o != "whatever" && o != "whichever" && o != "however" && s.ClauseHas(k, doubts) {
			return true
		}
	}
	return false
}

// freshPH tells whether a quantity on a chemistry's page is the pH of a new bath, with no other word of doubt.
func freshPH(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	if a.Chemistry == nil || q.Kind != quantity.PH || !namedFor(s, q) {
		return false
	}
	return !slices.ContainsFunc(s.AllWords(), func(w string) bool { return w == "of" || doubts[w] && !freshOnes[w] && w != "reading" })
}

// oldSoil tells whether a time on a part's page is in doubt only for a word of which part is meant: “Spools with old paste get”, “Each window has”.
func oldSoil(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	if a.Part == nil || q.Kind != quantity.Time {
		return false
	}
	all := s.AllWords()
	for i, w := range all {
		if doubts[w] && !(w == "each" && i == 0) && !(w == "old" && i > 0 && all[i-1] == "with") {
			return false
		}
	}
	return true
}

var couldWords = sentence.Set("could might")

// approved tells whether a condition says that somebody has decided on what stands there: “when the engineer has set it”.
func approved(s *sentence.Sentence, q *sentence.Quantity) bool {
	for k := range s.Clauses {
		if k != q.Clause && s.Clauses[k].Mood == sentence.If && s.Clauses[k].Opener != "" && s.ClauseHas(k, deciders) {
			return true
		}
	}
	return false
}

var deciders = sentence.Set("engineer engineer's approval approved written signed signs trial agrees agreed released")

// elsewhere tells whether a sentence speaks of another shop: “in the plant next door”, “at our sister works”.
func elsewhere(s *sentence.Sentence) bool {
	text := strings.ToLower(s.Text())
	return slices.ContainsFunc(otherPlaces, func(w string) bool { return strings.Contains(text, w) })
}

var otherPlaces = []string{"next door", "sister ", "other shop", "other plant", "other works", "neighbour", "another ", "elsewhere", "other people", "competitor"}

// sideOf are the sides of a tank by the word behind an amount.
var sideOf = map[string]string{"long": "length", "wide": "width", "deep": "depth"}

// changes are commands after which a bath has another value than the shop file says, or that are about another time or place.
var changes = sentence.Set("heat bring raise lower cool let reheat drop reduce increase titrate test try drain boil top take skim until degas wait begin start stop come add reach pour draw sample empty remove warm measure thin stir rinse flush change preheat")

// corrects are commands that lead away from the strength that a bath is to have, or only ask for it.
var corrects = sentence.Set("top titrate test try measure take skim drop reduce increase raise lower sample thin let drain stop discard empty")

// purposes are words with which a command is one for a case.
var purposes = sentence.Set("for first when if instead only until before tonight today trial trials let work unless morning weekend")

// purposeIn tells whether a sentence has a word of a case; “for twelve minutes” is none.
func purposeIn(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i, w := range words {
		if w.Text == "first" && (inMention(s, w.From) || loadNouns[textAt(words, i+1)]) || w.Text == "before" && nextOf(words, i, loadNouns) {
			continue // “the first rinse”, “before the first load”
		}
		if purposes[w.Text] && !(w.Text == "for" && i+1 < len(words) && words[i+1].Amount) {
			return true
		}
	}
	return false
}

// doubts are words in a sentence whose numbers are not what a thing has.
var doubts = sentence.Set("dead exhausted tired aged stale spoilt ruined trial trials humidity humid new old weak strong fresh worn instead rather found drum neat undiluted lost loses evaporates drag-out carried carries carry-over start range reading readings says label difference share spent left remaining compared comparison versus another other others competitor elsewhere supplier's half third quarter fifth sixth eighth tenth twentieth each added gains top-up per away over-temperature cut-out tripped raised lowered reduced increased beaker beakers bottle bottles jar sample samples cylinder pot kettle bowl bucket flask")

// afterMishap tells whether a clause says what comes of a fault: “If the relay fails, the heater drives Wash 1 to 90 °C”.
func afterMishap(s *sentence.Sentence, k int) bool {
	if m := s.Clauses[k].Mood; m != sentence.Is && m != sentence.Fragment {
		return false
	}
	for j := range s.Clauses[:k] {
		if c := &s.Clauses[j]; c.Opener == "if" && c.Harmful {
			return true
		}
	}
	return false
}

// afterAWhile tells whether a sentence begins with how long something has gone on: “After an hour Wash 1 is at 49 °C”.
func afterAWhile(s *sentence.Sentence) bool {
	list := s.Tokens()
	for i := 1; i < min(4, len(list)); i++ {
		if list[0].Text == "after" && (list[i].Text == "hour" || list[i].Text == "minute" || list[i].Amount) {
			return true
		}
	}
	return false
}

// parking are words of a bath that is let down while nobody works.
var parking = sentence.Set("park parked parks idle idles idling standby stand-by setback lunch overnight weekend weekends night breaks")

var tooWord = sentence.Set("too")

// unmet are words in a clause whose number is not what a thing has.
var unmet = sentence.Set("too enough")

// outOfBounds are words of a heat that is not to be had; coolerWord with “may” tells of one that is left to the reader, and does no harm.
var outOfBounds, coolerWord = sentence.Set("bounds taboo"), sentence.Set("cooler")

// changed are words of a bath that is made hotter or colder than it stands.
var changed = sentence.Set("let brought cooled heated warmed down")

// factsOf gives the facts with which a quantity can be compared: all of them have to deny it.
func (p *proof) factsOf(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity, c *sentence.Clause) []known {
	what := attributeOf(q, s)
	if what == "?" && !(q.About != nil && q.About.Thing != nil && q.About.Thing.Dryer != nil) && !(a.Part != nil && calledSo(a, q.Attribute)) {
		return nil
	}
	if q.Attribute == "flashes" && (q.About == nil || q.About.From > q.From || s.Has(pureOnes)) {
		return nil
	}
	if q.About == nil && q.Kind == quantity.Flow && what == "rinse" && a.Chemistry == nil {
		var list []known
		for i := range p.Shop.Rinses { // “The rinse runs at 6 L/min”, and none of them does
			list = append(list, facts(known{p.Shop.Rinses[i].Name, what, p.Shop.Rinses[i].Flow, true})...)
		}
		return list
	}
	if q.About == nil {
		return p.ownFacts(a, s, q, c, what)
	}
	of := p.ofMention(a, q.About)
	switch {
	case of.own:
		if a.Chemistry == nil && len(of.tanks) != 1 {
			return p.ownFacts(a, s, q, c, what)
		}
	case q.About.Where && !(a.Part != nil && q.Kind == quantity.Time && s.Before(q.About) == "in"), !of.known():
		return nil
	}
	m := q.About
	if a.Part != nil && q.Kind == quantity.Time && len(of.tanks) == 1 && len(a.Part.Steps) == 1 && a.Part.Steps[0].Tank.Name == of.tanks[0].ID {
		return p.ownFacts(a, s, q, c, "")
	}
	if a.Part != nil && !a.Partial && q.Kind == quantity.Time && len(of.tanks) == 1 && what == "" && !s.ClauseHas(q.Clause, otherTimes) && !s.ClauseHas(q.Clause, turnWords) {
		var list []known
		for i, step := range a.Part.Steps {
			if ws := washes(p, a); step.Tank.Name == of.tanks[0].ID && i < len(ws) {
				list = append(list, facts(known{"its wash in " + of.tanks[0].Name, what, ws[i].Time, false})...)
			}
		}
		return list
	}
	near := s.Block.Kind == sentence.Cell && m.From < 0 || direct(s, m, q)
	switch {
	case len(of.tanks) == 1:
		return p.tankFacts(of.tanks[0], &of, s, q, c, what, near)
	case len(of.tanks) > 1:
		return nil
	case of.rinse != nil && m.Word == "first rinse" && m.From >= s.From && !strings.HasSuffix(strings.ToLower(s.Block.Text[s.From:max(s.From, m.From)]), "the "):
		return nil // “First rinse at 50 °C, then the normal rinses” is a step of the work
	case of.rinse != nil:
		return rinseFacts(of.rinse, q, what)
	case of.dryer != nil:
		if q.Attribute == "air" || q.Attribute == "dryer" || q.Attribute == "blow" || q.Attribute == "blower" {
			what = ""
		}
		if q.Kind == quantity.Temperature && (what == "" || what == "temperature") {
			return facts(known{of.dryer.Name, "", of.dryer.Temperature, true})
		}
	case of.part != nil:
		return p.ownFacts(of.part, s, q, c, what)
	case len(of.chemistries) > 0:
		if t := onlyTank(s); t != nil && t.Chemistry.Name == of.chemistries[0].Name && q.Near == "of" && c.Mood != sentence.Able {
			tank := p.ofTank(t)
			return p.tankFacts(t, &tank, s, q, c, what, near)
		}
		list := chemistryFacts(of.chemistries[0], s, q, what, near)
		if f := of.chemistries[0].Chemistry; what == "" && q.Kind == quantity.Temperature && !q.Span && c.Mood != sentence.Do && len(list) > 0 { // its other temperatures are also its own
			list = append(list, facts(known{limit: f.Ceiling, exact: true}, known{limit: f.CloudPoint, exact: true}, known{limit: f.FlashPoint, exact: true})...)
		}
		if a.Material != nil && len(list) > 0 { // or the material's own limit, said beside the cleaner
			list = append(list, facts(known{limit: a.Material.PH}, known{limit: a.Material.Temperature}, known{limit: a.Material.Frequency})...)
		}
		return slices.DeleteFunc(list, func(f known) bool { _, ok := inKindOf(q, f.limit); return !ok })
	case len(of.materials) > 0:
		return materialFacts(&of, s, q, c, what)
	}
	return nil
}

// pureOnes are words for what is in a mix, and no mix.
var pureOnes = sentence.Set("pure neat limonene alone")

// facts leaves out what the model does not say.
func facts(list ...known) []known {
	return slices.DeleteFunc(list, func(f known) bool { return !f.limit.Set })
}

// direct tells whether only words such as “is at” stand between a name and its quantity, or another quantity.
func direct(s *sentence.Sentence, m *sentence.Mention, q *sentence.Quantity) bool {
	for _, w := range s.Between(m, q) {
		if !links[w] && !strings.ContainsAny(w, "0123456789") {
			return false
		}
	}
	return true
}

var links = sentence.Set(`is at runs holds works stands set to with has of today now and , : ( = * · v/v the a filled charged made up kept run operated
	for in always on mixed about roughly contains strength temperature — – - "`)

// attributeOf is what a quantity measures, in the model's words: "" where its unit says it, "?" where the model knows nothing of it.
func attributeOf(q *sentence.Quantity, s *sentence.Sentence) string {
	w := q.Attribute
	if q.Kind == quantity.Density && (w == "concentrate" || w == "") {
		return "density"
	}
	if (q.Kind == quantity.Time || q.Kind == quantity.Frequency) && (w == "sound" || w == "ultrasonic") {
		return ""
	}
	if s.Block.Kind == sentence.Cell {
		if c := columnAttribute(s.Block.Column); c != "" {
			return c
		}
	}
	switch w {
	case "", "set point", "set-point", "working point", "display", "thermometer", "screen":
		return ""
	case "ceiling", "flash point", "cloud point", "density", "volume", "capacity", "holds", "heater", "frequency", "conductivity", "flow", "limit":
		return w
	case "flashes":
		return "flash point"
	case "flash-point", "cloud-point":
		return strings.ReplaceAll(w, "-", " ")
	case "sound", "ultrasonic", "generator", "sound power", "ultrasonic power":
		return "sound"
	case "heater power", "heating power":
		return "heater"
	case "dryer", "drying", "dry", "rinse":
		return w
	}
	return "?"
}

// columnAttribute is what a column of a table gives.
func columnAttribute(head string) string {
	head = strings.ToLower(head)
	if head == "low" || strings.HasPrefix(head, "low ") {
		return "?"
	}
	has := func(words ...string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(head, w) })
	}
	switch {
	case has("start", "found", "after", "before", "test", "trial", "old", "example", "now", "rise", "loss", "case", "sum", "add", "below", "aim", "swing"):
		return "?"
	case has("never above", "ceiling", "highest", "upper limit", "at most", "not above"):
		return "ceiling"
	case has("flash"):
		return "flash point"
	case has("cloud"):
		return "cloud point"
	case has("band", "window", "range of"):
		return "band"
	case has("volume", "bath", "capacity", "size", "litres", "contents", "holds"):
		return "volume"
	case has("heater", "heating"):
		return "heater"
	case has("sound power", "ultrasonic power", "power", "watt"):
		return "sound"
	case has("concentrate", "cleaner", "dose"):
		return "?"
	}
	return ""
}

var endsAt = sentence.Set("ends end")

func (p *proof) tankFacts(t *manual.Tank, of *spokenOf, s *sentence.Sentence, q *sentence.Quantity, c *sentence.Clause, what string, near bool) []known {
	name := t.Name
	exact := func(l manual.Limit) []known { return facts(known{name, what, l, true}) }
	switch q.Kind {
	case quantity.Temperature:
		if c.Mood == sentence.Able && bearsIt[c.Verb] && !precededBy(s, q, "at") && c.Verb != "is" {
			return nil // “the cleaner in Wash 1 stands 75 °C”
		}
		if what == "" && s.Has(endsAt) {
			what = "limit" // “Wash 1 ends at 75 °C”
		}
		switch what {
		case "":
			return exact(t.Temperature)
		case "heater":
			if near {
				return exact(t.Temperature)
			}
		case "ceiling", "flash point", "cloud point", "limit", "band":
			return ofBath(of, s, q, what)
		}
	case quantity.VolumeFraction, quantity.MassFraction, quantity.MassConcentration, quantity.Fraction:
		if what == "band" {
			return ofBath(of, s, q, what)
		}
		if (precededBy(s, q, "a") || precededBy(s, q, "an")) && (q.Near == "bath" || q.Near == "mix" || q.Near == "solution" || q.Near == "wash") {
			return nil // “A 3 % bath in Wash 1 needs …”
		}
		if what == "" && (q.Kind != quantity.Fraction || near && !pronoun(q) || s.ClauseHas(q.Clause, strengthWords)) && !ofSomething(q) {
			return exact(t.Strength)
		}
	case quantity.Frequency:
		return exact(t.Frequency)
	case quantity.Volume:
		if hasLength(s) || slices.ContainsFunc(s.Quantities, func(o sentence.Quantity) bool {
			return o.Kind == quantity.Fraction && o.Near == "of" && o.Clause == q.Clause && o.From < q.From
		}) { // “10 % of Wash 1 is 12 L”
			return nil
		}
		if what == "" && precededBy(s, q, "takes") && endsPart(s, q) && q.Range.Low >= 0.6*t.Volume.Low && !s.Has(partial) {
			return exact(t.Volume) // “Wash 1 takes 120 L”
		}
		if what == "volume" || what == "capacity" || what == "holds" || what == "" && near && s.Block.Kind != sentence.Cell && q.From > q.About.From && (c.Opener == "(" || !s.Has(partial)) {
			return exact(t.Volume)
		}
	case quantity.Power:
		if what == "heater" || what == "" && behindOf(s, q, heatingNames) {
			return exact(t.Heater)
		}
		if what == "sound" || what == "" && behindOf(s, q, soundNames) {
			return exact(t.Power)
		}
	case quantity.PH:
		return ofBath(of, s, q, what)
	case quantity.Length:
		switch sideOf[q.Near] {
		case "length":
			return exact(t.Length)
		case "width":
			return exact(t.Width)
		case "depth":
			return exact(t.Depth)
		}
	}
	return nil
}

// behindOf tells whether “of” and one of the words stand right behind a quantity: “800 W of sound”.
func behindOf(s *sentence.Sentence, q *sentence.Quantity, of map[string]bool) bool {
	list := words(s, q.To, s.To)
	return len(list) > 1 && list[0] == "of" && of[strings.Trim(list[1], ".,;:")]
}

var heatingNames = sentence.Set("heating heat heater")

var soundNames = sentence.Set("sound ultrasound ultrasonic ultrasonics")

// hasLength tells whether a sentence has a length or speaks of a level: its volumes are then those of so many millimetres.
func hasLength(s *sentence.Sentence) bool {
	for i := range s.Quantities {
		if s.Quantities[i].Kind == quantity.Length {
			return true
		}
	}
	return s.Has(levels)
}

var levels = sentence.Set("level millimetre millimetres centimetre mm")

var (
	strengthWords = sentence.Set("strength strong concentration mix mixed made makes make up dose dosed cleaner detergent solution strength: bath filled fill charge charged titrates")
	partial       = sentence.Set("fill add pour take out drain water level missing low lost top over under lots first another concentrate two-thirds draw loses evaporates hour rises into from")
)

// ofSomething tells that a per cent is a share of something: “20 % of the bath”.
func ofSomething(q *sentence.Quantity) bool {
	switch q.Near {
	case "more", "less", "humidity", "full", "off", "stronger", "weaker", "lower", "higher", "share", "drag-out", "load", "power", "water", "fewer", "open", "faster", "slower", "longer", "duty", "from", "on", "loss", "carry-over", "change", "drop", "rise":
		return true
	case "of":
		return q.Kind == quantity.Fraction && (q.About == nil || !q.About.Link)
	}
	return false
}

// pronoun tells that a quantity is said of “it”.
func pronoun(q *sentence.Quantity) bool {
	return q.About != nil && strings.HasPrefix(q.About.Word, "it") && q.About.Stands
}

// ofBath gives the facts of the chemistry in a bath.
func ofBath(of *spokenOf, s *sentence.Sentence, q *sentence.Quantity, what string) []known {
	if len(of.chemistries) != 1 {
		return nil
	}
	return chemistryFacts(of.chemistries[0], s, q, what, true)
}

func chemistryFacts(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity, what string, near bool) []known {
	f, name := a.Chemistry, a.Head.Title
	window := func(l manual.Limit) []known { return facts(known{name, what, l, false}) }
	exact := func(l manual.Limit) []known { return facts(known{name, what, l, true}) }
	switch q.Kind {
	case quantity.Temperature:
		switch what {
		case "":
			return window(f.Temperature)
		case "band":
			return window(f.Temperature)
		case "ceiling":
			if f.Temperature.Set && f.Temperature.High > f.Ceiling.High {
				return nil // the header disagrees with itself, which is said there
			}
			return exact(f.Ceiling)
		case "limit":
			return facts(known{name, what, f.Ceiling, true}, known{name, what, f.CloudPoint, true}, known{name, what, f.Temperature, false})
		case "flash point":
			if limit, _, fire := heatLimit(a); fire && f.Temperature.Set && f.Temperature.High > limit {
				return nil // the header disagrees with itself, which is said there
			}
			return exact(f.FlashPoint)
		case "cloud point":
			return exact(f.CloudPoint)
		}
	case quantity.VolumeFraction, quantity.MassFraction, quantity.MassConcentration, quantity.Fraction:
		if (what == "" || what == "band") && (q.Kind != quantity.Fraction || near || s.ClauseHas(q.Clause, strengthWords) || q.Near == "of" && q.About != nil && q.About.Link) && !ofSomething(q) {
			return window(f.Strength)
		}
	case quantity.Frequency:
		return window(f.Frequency)
	case quantity.PH:
		if what == "" || what == "band" || what == "limit" {
			return window(f.PH)
		}
	case quantity.Time:
		if what == "" && q.Relation != sentence.Difference && s.ClauseHas(q.Clause, staying) && q.About != nil && q.About.Stands && pieces[q.About.Word] && !s.ClauseHas(q.Clause, otherTimes) && !s.Has(notTheWork) {
			return window(f.Time)
		}
		if what == "" && precededBy(s, q, "used for") && q.Range.High < 3*3600 && !s.ClauseHas(q.Clause, otherTimes) && (endsPart(s, q) || q.Near == "at" || q.Near == "in") {
			return window(f.Time)
		}
		if what == "" && dips(s, q) {
			return window(f.Time)
		}
		if what == "" && s.ClauseHas(q.Clause, soaks) && s.ClauseHas(q.Clause, lasts) && !s.ClauseHas(q.Clause, otherTimes) {
			return window(f.Time)
		}
	case quantity.Density:
		return exact(f.Density)
	}
	return nil
}

var (
	soaks      = sentence.Set("soak wash dip cleaning bath stage")
	notTheWork = sentence.Set("hot warm wet fresh clear usable below above degas sample foam concentrate titrant solution oil grease colour indicator bath")
	lasts      = sentence.Set("takes lasts is needs runs wants")
)

func rinseFacts(r *manual.Rinse, q *sentence.Quantity, what string) []known {
	exact := func(l manual.Limit) []known { return facts(known{r.Name, what, l, true}) }
	switch q.Kind {
	case quantity.Temperature:
		if what == "" || what == "rinse" {
			return exact(r.Temperature)
		}
	case quantity.Volume:
		if what == "volume" || what == "capacity" || what == "holds" {
			return exact(r.Volume)
		}
	case quantity.Flow:
		return exact(r.Flow)
	case quantity.Conductivity:
		return exact(r.Conductivity)
	}
	return nil
}

// materialFacts are the limits of a material, where the text says what it stands or what its limit is.
func materialFacts(of *spokenOf, s *sentence.Sentence, q *sentence.Quantity, c *sentence.Clause, what string) []known {
	var list []known
	if q.About == nil && c.Mood != sentence.Do && what != "limit" && !s.ClauseHas(q.Clause, longest) && !(c.Mood == sentence.Able && (s.ClauseHas(q.Clause, standsIt) || s.ClauseHas(q.Clause, unharming))) {
		return nil
	}
	for _, m := range of.materials {
		f := m.Material
		l := manual.Limit{}
		switch q.Kind {
		case quantity.PH:
			l = f.PH
			if f.PHSilicated.Set {
				list = append(list, known{m.Head.Title, what, f.PHSilicated, false})
			}
		case quantity.Time:
			l = f.Time
			if s.ClauseHas(q.Clause, longest) {
				what = "limit"
			}
			if c.Mood != sentence.Able && what != "limit" && !(c.Mood == sentence.Do && worksOn[c.Verb] && c.Verb != "rinse" && c.Verb != "dry") {
				return nil
			}
		case quantity.Frequency:
			l = f.Frequency
			if q.About == nil && s.ClauseHas(q.Clause, otherMoods) {
				return nil
			}
			if c.Mood != sentence.Able && c.Mood != sentence.Do && what != "limit" {
				return nil
			}
		case quantity.Temperature:
			l = f.Temperature
			if what != "limit" {
				return nil // more than it stands is found by heat-beyond-limit
			}
		}
		if !l.Set || q.Kind == quantity.PH && c.Mood != sentence.Able && what != "limit" && !(c.Mood == sentence.Do && worksOn[c.Verb]) || c.Mood == sentence.Able && !bearsIt[c.Verb] && !s.ClauseHas(q.Clause, unharming) && q.Kind != quantity.PH {
			return nil
		}
		list = append(list, known{m.Head.Title, what, l, false})
	}
	return list
}

var (
	longest    = sentence.Set("longest limit maximum")
	unharming  = sentence.Set("streak streaks smear smears blemish blemishes harm harmless damage fine safe")
	otherMoods = sentence.Set("if would")
)

var standsIt = sentence.Set("stand stands withstand withstands tolerate tolerates bear bears survives")

var bearsIt = sentence.Set("stand stands withstand withstands take takes tolerate tolerates bear bears survives endures allows is can may")

// ownFacts are the facts of the article's own subject, where nothing is named.
func (p *proof) ownFacts(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity, c *sentence.Clause, what string) []known {
	if a.Partial {
		return nil
	}
	switch {
	case a.Part != nil:
		return p.partFacts(a, s, q, c, what)
	case a.Chemistry != nil:
		if q.About == nil && namedFor(s, q) {
			return chemistryFacts(a, s, q, what, true)
		}
		if q.About == nil && c.Mood == sentence.Is && what == "" && q.Kind != quantity.Time {
			return nil
		}
		if what == "" && q.Kind != quantity.Time && !(c.Mood == sentence.Do && (uses[c.Verb] || q.About != nil) || c.Mood == sentence.Fragment && s.ClauseHas(q.Clause, uses) || q.About != nil) {
			return nil
		}
		return chemistryFacts(a, s, q, what, false)
	case a.Material != nil:
		of := spokenOf{materials: []*manual.Article{a}}
		if c.Mood == sentence.Fragment || c.Mood == sentence.Do && q.Kind == quantity.PH {
			return nil
		}
		return materialFacts(&of, s, q, c, what)
	}
	return nil
}

// namedFor tells whether a strength or a pH of a chemistry's page stands behind its own name, as in “Normal strength is 4 % v/v” and “Working
// solution: pH 9–11”.
func namedFor(s *sentence.Sentence, q *sentence.Quantity) bool {
	var its map[string]bool
	switch q.Kind {
	case quantity.VolumeFraction, quantity.MassFraction, quantity.MassConcentration:
		its = strengthNames
	case quantity.PH:
		its = solutions
	default:
		return false
	}
	k := q.Clause
	if c := &s.Clauses[k]; c.Mood != sentence.Is && c.Mood != sentence.Fragment && c.Mood != sentence.Do || c.Opener != "" || len(s.Mentions) > 0 || s.ClauseHas(k, notItsOwn) || s.Has(noWords) || s.Harmful() {
		return false
	}
	if q.Kind == quantity.PH && (s.ClauseHas(k, freshOnes) && s.ClauseHas(k, readsWords) || k > 0 && labels(s, k) && s.ClauseHas(k-1, freshOnes) && len(s.Words(k-1)) < 4) {
		return true // “A fresh bath reads pH 10”, “Fresh: pH 10”
	}
	return s.ClauseHas(k, its) && (s.ClauseHas(k, isWords) || s.Clauses[k].Mood == sentence.Fragment) || k > 0 && labels(s, k) && s.ClauseHas(k-1, its) && !s.ClauseHas(k-1, notItsOwn)
}

var (
	strengthNames = sentence.Set("strength concentration dilution")
	freshOnes     = sentence.Set("fresh new")
	readsWords    = sentence.Set("reads has shows is")
	solutions     = sentence.Set("solution bath working operating")
	isWords       = sentence.Set("is are lies should has have runs")
	notItsOwn     = sentence.Set("rinse concentrate neat undiluted drum found old spent stock titrant waste weak strong limit lowest highest acid tells means shows signals up least alkali stops at after for sample water supply")
)

var uses = sentence.Set("stay keep runs works use run make mix dilute dose wash clean work operate keep hold fill used made mixed diluted washed")

// partFacts are what a part's washes say.
func (p *proof) partFacts(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity, c *sentence.Clause, what string) []known {
	if q.Kind == quantity.Frequency && (what == "frequency" || q.Attribute == "casing" || q.Attribute == "surface") || what == "?" && calledSo(a, q.Attribute) {
		what = ""
	}
	labelled := q.Clause > 0 && labels(s, q.Clause)
	if what != "" || p.headsOther(a, s, q.Clause) || s.Block.Kind == sentence.Cell && q.About == nil && !washRow(s, q) || labelled && s.ClauseHas(q.Clause-1, forWord) && !s.ClauseHas(q.Clause-1, thisWord) && !namesOwn(a, s, q.Clause-1) {
		return nil
	}
	var list []known
	for _, w := range washes(p, a) {
		switch q.Kind {
		case quantity.Time:
			if !p.ofWash(a, s, q) && !washRow(s, q) && (!s.ClauseHas(q.Clause, washing) && !staysIn(s, q.Clause) && !(q.About != nil && q.About.Thing != nil && q.About.Thing.Tank != nil) || s.ClauseHas(q.Clause, otherTimes) || placedElsewhere(s, q)) {
				return nil
			}
			if strings.HasSuffix(strings.ToLower(s.Block.Text[:q.From]), "at ") || // the moment of a change
				s.ClauseHas(q.Clause, partly) && !q.Span && w.Time.High > q.Range.High {
				return nil
			}
			list = append(list, facts(known{"its wash", what, w.Time, false})...)
		case quantity.Temperature:
			if q.About == nil && !s.ClauseHas(q.Clause, washing) && !besideTime(a, s, q, w.Time) && !(s.ClauseHas(q.Clause, runsAt) && namesOwn(a, s, q.Clause)) && !(precededBy(s, q, "in at") && namesOwn(a, s, q.Clause)) && !(labelled && headedFor(a, s, q.Clause-1, "temperature")) || placedElsewhere(s, q) {
				return nil
			}
			list = append(list, facts(known{"its wash", what, w.Temperature, true})...)
		case quantity.Frequency:
			list = append(list, facts(known{"its wash", what, w.Frequency, true})...)
		case quantity.VolumeFraction, quantity.MassFraction, quantity.MassConcentration:
			list = append(list, facts(known{"its wash", what, w.Strength, true})...)
		}
	}
	return list
}

// headsOther tells whether a clause begins with another part than that of its page: “The housings beside it are washed at 40 kHz”.
func (p *proof) headsOther(a *manual.Article, s *sentence.Sentence, k int) bool {
	list := s.Words(k)
	for _, w := range list[:min(3, len(list))] {
		if calledSo(a, w) {
			return false
		}
		if len(w) > 3 && slices.ContainsFunc(p.partsCalled(w), func(b *manual.Article) bool { return !isSame(a, b) }) {
			return true
		}
	}
	return false
}

var runsAt = sentence.Set("run runs done processed")

// besideTime tells whether a temperature stands beside the time of the part's wash: “The nuts are done in five minutes at 60 °C”.
func besideTime(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity, wash manual.Limit) bool {
	return wash.Set && namesOwn(a, s, q.Clause) && slices.ContainsFunc(s.Quantities, func(o sentence.Quantity) bool {
		return o.Kind == quantity.Time && o.Clause == q.Clause && !contradicts(&o, known{limit: wash})
	})
}

// washRow tells whether a quantity stands in the row of the wash of a table, in a column for its kind: “| wash | Wash 2 | 15 min |”.
func washRow(s *sentence.Sentence, q *sentence.Quantity) bool {
	if s.Block.Kind != sentence.Cell || q.Kind != quantity.Time {
		return false
	}
	head := strings.ToLower(s.Block.Column)
	return washRows[strings.ToLower(strings.Trim(s.Block.Row, " 0123456789."))] && (head == "time" || head == "how long" || head == "minutes" || head == "min" || head == "duration" || head == "setting")
}

var washRows = sentence.Set("wash washing bath ultrasonic sound clean cleaning")

// staysIn tells whether a clause says that the part is in a tank for a while: “The body stays in Wash 1 for 5 min”.
func staysIn(s *sentence.Sentence, k int) bool {
	return s.ClauseHas(k, staying) && slices.ContainsFunc(s.Mentions, func(m sentence.Mention) bool {
		return m.Thing != nil && m.Thing.Tank != nil && s.ClauseOf(&m) == k && s.Before(&m) == "in"
	})
}

var staying = sentence.Set("stays stay spends remains")

var forWord, thisWord = sentence.Set("for"), sentence.Set("this these it them")

// turnWords are words of a part of a wash.
var turnWords = sentence.Set("turn turned half halfway side another again more each")

var (
	partly     = sentence.Set("then turn turned half halfway side each first second third last after more another again once over")
	washing    = sentence.Set("timer remain remains wash washed sound sonicate clean cleaned soak ultrasonic ultrasonics washing")
	otherTimes = sentence.Set("waits waiting drains beside rinse rinsed dry dryer drain before after within wait later between stand rest lift cool blow")
)

// contradicts tells whether a quantity cannot be what a fact says.
func contradicts(q *sentence.Quantity, f known) bool {
	r, ok := inKindOf(q, f.limit)
	if !ok {
		return false
	}
	if !f.exact {
		slack := 0.0
		if q.Rough {
			slack = 0.05 * (r.High - r.Low + r.High)
		}
		r.Low, r.High = r.Low+slack, r.High-slack
		if r.Low > r.High {
			r.Low, r.High = (r.Low+r.High)/2, (r.Low+r.High)/2
		}
		return !r.Within(f.limit.Range)
	}
	if f.limit.Within(r) {
		return false
	}
	tolerance := 0.02
	if q.Rough {
		tolerance = 0.06
	}
	if r.Low == r.High {
		return !(r.Low >= f.limit.Low*(1-tolerance)-1e-12 && r.Low <= f.limit.High*(1+tolerance)+1e-12)
	}
	return true
}

// inKindOf gives a quantity in the kind of a limit: a strength can be said by volume, by mass and as a plain per cent.
func inKindOf(q *sentence.Quantity, l manual.Limit) (quantity.Range, bool) {
	if q.Kind == l.Kind {
		return q.Range, true
	}
	if q.Kind == quantity.Fraction && strings.HasPrefix(l.Unit.Symbol, "%") {
		r := quantity.Range{Kind: l.Kind, Unit: l.Unit}
		r.Low, r.High = l.Unit.ToSI(q.Range.Low*100), l.Unit.ToSI(q.Range.High*100)
		return r, true
	}
	return quantity.Range{}, false
}
