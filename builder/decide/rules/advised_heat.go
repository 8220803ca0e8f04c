package rules

import (
	"slices"
	"strings"
	"unicode"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// advised tells whether a temperature that no command gives is nevertheless asked for or allowed:
//
//   - a later clause points back to it: “Grease gives up at 80 °C; set the thermostat accordingly”, “Release wants 65 °C, so the bath is set to that”
//   - it stands without a verb behind a command to heat: “Begin at 65 °C and go on until it moves, 80 °C at the most”
//   - it is called usual, fine or enough: “75 °C is usual with us”
//   - what is wished for comes of it: “The film loosens sooner if the bath is taken to 58 °C”
//   - it is what one waits for after it has been lost: “If Wash 1 drops below 76 °C, wait”
//   - it stands behind a label in a list on a chemistry's page: “- wax days: 70–85 °C”
//   - the work goes through it: “Seals ride along at 62 °C”
//   - it is told as heatTold and soilInState tell
func advised(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause
	c := &s.Clauses[k]
	if heatTold(a, s, q) {
		return true
	}
	if c.Mood == sentence.Ask || c.Mood == sentence.Example || c.Mood == sentence.Was || s.Has(exceptions) || illOf(s) {
		return false
	}
	if pointedAt(s, q) || soilWants(a, s, q) || heatingHelps(s, q) {
		return true
	}
	if c.Mood == sentence.If && c.Opener != "" {
		return wished(s, q) || lost(s, q)
	}
	if c.Opener != "" || denies(s, k) {
		return false
	}
	switch c.Mood {
	case sentence.Fragment:
		return behindCommand(s, k) || afterLabel(a, s, q) || ofWorkingHeat(a, s, q) || soilInState(a, s, q)
	case sentence.Is, sentence.Able, sentence.Do, sentence.If:
		return ofWorkingHeat(a, s, q) || usual(s, q) || habit(s, q) || gets(s, q) || (a.Material != nil || a.Part != nil) && s.ClauseHas(k, goesThrough) && !s.Has(spoilt) && !otherMatter(a, s)
	}
	return false
}

// heatingHelps tells whether a clause begins with the heating itself and says what good comes of it: “Raising Wash 2 to 72 °C cures the smell”.
func heatingHelps(s *sentence.Sentence, q *sentence.Quantity) bool {
	list := s.Words(q.Clause)
	if len(list) < 3 || !heatings[list[0]] || s.Clauses[q.Clause].Opener != "" || q.Relation != sentence.To && q.Relation != sentence.At || denies(s, q.Clause) || s.Harmful() {
		return false
	}
	return !s.ClauseHas(q.Clause, nothings) && (s.ClauseHas(q.Clause, better) || s.ClauseHas(q.Clause, praised) || s.ClauseHas(q.Clause, doesGood) || s.ClauseHas(q.Clause, endsIll))
}

var (
	heatings = sentence.Set("heating raising warming bringing setting keeping holding running taking turning letting increasing driving pushing boosting cranking washing cleaning")
	endsIll  = sentence.Set("cures cure solves removes prevents helps ends stops shortens halves spares makes")
)

// soilWants tells whether the page of a chemistry or a part says at what temperature of its bath a soil comes off: “Heavy grease needs a bath of 78 °C”, “Old glue comes
// off at 50 °C in half an hour”. What a soil does by itself, such as melt, is no advice.
func soilWants(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause
	c := &s.Clauses[k]
	if a.Chemistry == nil && a.Part == nil || s.Block.Kind == sentence.Cell || c.Opener != "" || c.Mood != sentence.Is && c.Mood != sentence.Able && c.Mood != sentence.Do || q.Relation != sentence.At && q.Relation != sentence.To && q.Relation != sentence.AtLeast {
		return false
	}
	if q.Range.High > 100 || denies(s, k) || s.Has(noWords) || s.Has(otherWays) || s.ClauseHas(k, notWorkHeat) || len(s.Mentions) > 0 && !(q.About != nil && q.About.Stands) {
		return false
	}
	soil := false
	for _, w := range s.Tokens() {
		if w.Clause != k || w.From > q.From {
			continue
		}
		if soil && soilNeeds[w.Text] {
			return w.Text != "comes" && w.Text != "come" && w.Text != "goes" && w.Text != "go" && w.Text != "lets" || s.ClauseHas(k, offWay)
		}
		soil = soil || soilNames[w.Text]
	}
	return false
}

var (
	soilNames = sentence.Set("grease oil wax rosin glue scale rust flux soil soils dirt tar carbon varnish adhesive compound paste deposit deposits lacquer residue coke limescale lime smut protein fat resin film sludge grime silicone dye tape ink")
	soilNeeds = sentence.Set("needs need wants want takes take asks ask demands demand deserves deserve calls comes come goes go lets requires require loosens loosen yields vanishes dissolves disappears")
	otherWays = sentence.Set("but yet however only if too elsewhere oven kettle steam hand by-hand laboratory lab pure solvent alone trial trials hot-air scraper supplier sheet others instead never oil-bath although though while")
)

// pointedAt tells whether a later clause commands what a quantity says, and no other temperature stands between.
func pointedAt(s *sentence.Sentence, q *sentence.Quantity) bool {
	for j := q.Clause + 1; j < len(s.Clauses); j++ {
		if slices.ContainsFunc(s.Quantities, func(o sentence.Quantity) bool { return o.Kind == q.Kind && o.From > q.From && o.Clause <= j }) {
			return false
		}
		c := &s.Clauses[j]
		if c.Mood == sentence.Do && c.Opener == "" && (s.ClauseHas(j, setsHeat) || c.Verb == "give") && s.ClauseHas(j, pointers) && !s.ClauseHas(j, noWords) {
			return true
		}
	}
	return false
}

// behindCommand tells whether a clause without a verb stands behind a command to heat.
func behindCommand(s *sentence.Sentence, k int) bool {
	for j := k - 1; j >= 0; j-- {
		c := &s.Clauses[j]
		if c.Opener == "" && c.Mood == sentence.MustNot {
			return false
		}
		if c.Opener == "" && c.Mood == sentence.Do {
			return s.ClauseHas(j, setsHeat) && !s.ClauseHas(j, noWords)
		}
	}
	return false
}

// afterLabel tells whether a temperature stands alone behind a label in a list on a chemistry's page.
func afterLabel(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	if a.Chemistry == nil || q.Clause != 1 || s.Block.Kind != sentence.Item && !s.ClauseHas(1, lasting) && !hasTime(s, 1) || q.Attribute != "" || q.Relation != sentence.At && q.Relation != sentence.To {
		return false
	}
	label := s.Words(0)
	return len(label) > 0 && len(label) <= 4 && (!s.Attributed(0) || soilNames[label[len(label)-1]] && !(len(label) > 2 && s.ClauseHas(0, ofWord))) && !s.ClauseHas(0, notWork) && (s.Clauses[0].Mood == sentence.Fragment || hasTime(s, 1)) && s.Verbless(q)
}

// usual tells whether a temperature is the subject of “is usual”, “is fine”, “will do”. Where it “does to the metal what it should do”, nothing is praised.
func usual(s *sentence.Sentence, q *sentence.Quantity) bool {
	if !praisesIt[q.Near] || !s.Verbless(q) {
		return false
	}
	words := s.Tokens()
	for i, w := range words {
		if w.Clause == q.Clause && praised[w.Text] && !(w.Text == "do" && w.From > q.To && words[i-1].Text != q.Near) {
			return true
		}
	}
	return false
}

var praisesIt = sentence.Set("is are will does may can")

// gets tells whether a tank is said to get a temperature, or that somebody likes it so.
func gets(s *sentence.Sentence, q *sentence.Quantity) bool {
	if q.About == nil || q.About.Thing == nil || q.About.Thing.Tank == nil || q.Relation != sentence.At {
		return false
	}
	if s.After(q.About) == "gets" && s.Distance(q.About, q) == 1 {
		return true
	}
	return s.ClauseHas(q.Clause, likings) && s.ClauseHas(q.Clause, shopPeople)
}

// habit tells whether somebody of the shop is said to run a bath so: “Our night shift runs it at 80 °C”.
func habit(s *sentence.Sentence, q *sentence.Quantity) bool {
	return q.About != nil && q.About.From < q.From && habits[s.Before(q.About)] && s.Distance(q.About, q) <= 1 && (q.Relation == sentence.At || q.Relation == sentence.To)
}

// ofWorkingHeat tells whether a temperature on a chemistry's, material's or part's page is said to be the one of the work: “the operating temperature is”,
// “best results at”, “get a second pass at”, or stands in a column of temperatures.
func ofWorkingHeat(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	if a.Chemistry == nil && a.Material == nil && a.Part == nil || s.Harmful() || q.Relation == sentence.Above {
		return false
	}
	if s.Block.Kind == sentence.Cell {
		return heatColumn(s.Block.Column) && !s.Block.First && !ofNoWork(s.Block.Row) && q.Attribute == ""
	}
	k := q.Clause
	label := k > 0 && labels(s, k)
	own := func(words map[string]bool) bool { return s.ClauseHas(k, words) || label && s.ClauseHas(k-1, words) }
	switch {
	case own(notWorkHeat), own(instruments):
		return false
	case label && len(s.Words(k-1)) == 1 && workingHeat[s.Words(k - 1)[0]]:
		return true
	case label && len(s.Words(k-1)) == 2 && season[s.Words(k - 1)[0]] && workingHeat[s.Words(k - 1)[1]]:
		return true // “Winter working: …”
	case a.Chemistry != nil && (s.ClauseHas(k, heatNouns) || label && s.ClauseHas(k-1, setNouns)) && forWork(s, q, k):
		return true
	case own(heatNouns), label && s.ClauseHas(k-1, heatWord) && s.ClauseHas(k-1, workingHeat):
		return own(workingHeat) || s.ClauseHas(k, moved)
	case own(outcomes):
		return own(bestOf)
	}
	return precededBy(s, q, "at") && (s.ClauseHas(k, rounds) && (s.ClauseHas(k, receives) || s.Clauses[k].Mood == sentence.Do) || s.ClauseHas(k, runningOf) && s.ClauseHas(k, praised))
}

// forWork tells whether the words before a temperature say for which work it is: “The range for heavy soil is …”, “Set point for springs: …”.
func forWork(s *sentence.Sentence, q *sentence.Quantity, k int) bool {
	words := s.Tokens()
	for i := 1; i < len(words) && words[i].From < q.From; i++ {
		if w := words[i]; w.Text == "for" && (w.Clause == k || w.Clause == k-1) && (heatNouns[words[i-1].Text] || setNouns[words[i-1].Text]) {
			return true
		}
	}
	return false
}

var (
	season   = sentence.Set("winter summer monday daily normal heavy grease")
	setNouns = sentence.Set("point set-point setting temperature range")
)

// labels tells whether a clause stands behind a colon.
func labels(s *sentence.Sentence, k int) bool {
	words := s.Tokens()
	for i := 1; i < len(words); i++ {
		if words[i].Clause == k {
			return words[i-1].Text == ":"
		}
	}
	return false
}

// precededBy tells whether a word stands right before a quantity.
func precededBy(s *sentence.Sentence, q *sentence.Quantity, word string) bool {
	return strings.HasSuffix(" "+strings.ToLower(strings.TrimRight(s.Block.Text[s.From:q.From], " *")), " "+word)
}

// heatColumn tells whether a column of a table has the temperatures of baths.
func heatColumn(head string) bool {
	head = strings.ToLower(head)
	return (strings.Contains(head, "temperature") || strings.Contains(head, "°c")) && columnAttribute(head) == "" && !ofNoWork(head)
}

// ofNoWork tells whether the first cell of a row, or a column's head, is about something other than work in a bath.
func ofNoWork(text string) bool {
	for w := range strings.FieldsFuncSeq(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && r != '-' }) {
		if notWorkHeat[w] || notWork[w] || ills[w] || happens[w] {
			return true
		}
	}
	return false
}

var (
	heatWord    = sentence.Set("heat")
	heatNouns   = sentence.Set("temperature range window band")
	ofWord      = sentence.Set("of")
	instruments = sentence.Set("probe thermometer sensor meter gauge controller refractometer paper strip supplier's supplier maker maker's old former other another danger splits split display scale")
	workingHeat = sentence.Set("operating working bath process wash washing cleaning recommended normal usual standard best optimum optimal ideal permissible permitted admissible allowed target correct right proper nominal suitable gives ensures use tank")
	moved       = sentence.Set("increased raised brought kept maintained held set")
	outcomes    = sentence.Set("result results effect effectiveness performance degreasing efficiency cleaning")
	bestOf      = sentence.Set("best better full good obtained achieved top optimum optimal maximum highest gets")
	rounds      = sentence.Set("pass round turn soak dip treatment stage cycle run visit spell")
	runningOf   = sentence.Set("operation use washing running work cleaning degreasing")
	receives    = sentence.Set("get gets need needs want wants deserve deserves receive receives have has follows")
	notWorkHeat = sentence.Set("room ambient surface store storage steam flash critical split melting inlet dryer drying oven rinse softening softens melts boiling boils cloud clouds air outside lowest below freezing water hand skin motor bearing delivery drum sample kettle rises rose difference than service machine pump engine furnace")
	happens     = sentence.Set("happens clouds splits foams boils stops trips smokes alarm dies lit")
)

// wished tells whether the clause on which a condition hangs praises what comes of it, and the condition is that somebody heats, or that the bath has
// the temperature with which it does best.
func wished(s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause
	if !s.ClauseHas(k, heatsUp) {
		return q.Relation == sentence.At && s.ClauseHas(k, hasHeat) && (doesBest(s, k) || goesQuickly(s, k))
	}
	for j := range s.Clauses {
		if c := &s.Clauses[j]; j != k && c.Opener == "" && (s.ClauseHas(j, better) || doesBest(s, k) || s.ClauseHas(j, comeOff) && s.ClauseHas(j, offWay)) && !s.ClauseHas(j, noWords) {
			return true
		}
	}
	return false
}

// doesBest tells whether another clause than one says that the work goes best.
func doesBest(s *sentence.Sentence, k int) bool {
	words := s.Tokens()
	for i := 1; i < len(words); i++ {
		if w := words[i]; w.Text == "best" && w.Clause != k && s.Clauses[w.Clause].Opener == "" && goesWell[words[i-1].Text] && !s.ClauseHas(w.Clause, noWords) {
			return true
		}
	}
	return false
}

// goesQuickly tells whether another clause than one says that something is gone in no time: “goes in seconds”.
func goesQuickly(s *sentence.Sentence, k int) bool {
	words := s.Tokens()
	for i, w := range words {
		if w.Clause != k && s.Clauses[w.Clause].Opener == "" && s.Clauses[w.Clause].Mood != sentence.Was && (goesWell[w.Text] || w.Text == "gone" || w.Text == "vanishes" || brightens[w.Text]) && textAt(words, i+1) == "in" && !s.ClauseHas(w.Clause, noWords) {
			return true
		}
	}
	return false
}

var brightens = sentence.Set("brightens clears comes vanishes disappears")

var (
	hasHeat  = sentence.Set("has is stands")
	goesWell = sentence.Set("goes go works work cleans clean washes wash degreases off lets away loosens")
)

// lost tells whether a condition is that a bath falls below a temperature, and the command is to wait for it or to heat again.
func lost(s *sentence.Sentence, q *sentence.Quantity) bool {
	if q.Relation != sentence.Below || !s.ClauseHas(q.Clause, falls) {
		return false
	}
	for j := range s.Clauses {
		if c := &s.Clauses[j]; c.Opener == "" && c.Mood == sentence.Do && s.ClauseHas(j, waitsOrHeats) {
			return true
		}
	}
	return false
}

// describes tells whether a temperature only tells which part is meant: “a part still warmer than 45 °C is left on the rack”.
func describes(s *sentence.Sentence, q *sentence.Quantity) bool {
	return q.Kind == quantity.Temperature && (q.Relation == sentence.Above || q.Relation == sentence.Below) && s.Verbless(q) && s.ClauseHas(q.Clause, pieces)
}

var (
	comeOff      = sentence.Set("comes come lifts goes lets")
	offWay       = sentence.Set("off away loose clean free best")
	habits       = sentence.Set("runs keeps holds sets heats brings takes works raises")
	lasting      = sentence.Set("with for until over then")
	likings      = sentence.Set("like prefer want favour")
	shopPeople   = sentence.Set("we operators everybody")
	setsHeat     = sentence.Set("set hold run keep heat warm bring raise take begin start go work use add turn climb push")
	pointers     = sentence.Set("accordingly there that this such so thus it")
	notWork      = sentence.Set("never not no max maximum ceiling limit above below over stops splits clouds flash dryer rinse oven storage steel brass aluminium")
	praised      = sentence.Set("recommended advised possible permissible usual normal fine right best enough allowed permitted ok okay safe harm custom common ideal good harmless do standard")
	heatsUp      = sentence.Set("taken climb climbs heated raised warmed brought run set kept let allowed goes go raise heat warm take bring turned")
	better       = sentence.Set("sooner faster easier easily better quicker quickest fastest thins loosens helps improves moves softens vanishes shortens saves dissolves loosens lifts unsticks")
	falls        = sentence.Set("drops drop falls fall sinks sink cools goes slips slip dips")
	waitsOrHeats = sentence.Set("wait heat reheat warm raise pause hold stop call")
	goesThrough  = sentence.Set("go goes through ride rides washed cleaned soaked dipped sonicated degreased get gets stepped run rinsed")
	pieces       = sentence.Set("part parts piece pieces casting castings housing component components work load basket anything whatever")
)
