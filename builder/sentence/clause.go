package sentence

import "strings"

// part divides a sentence into clauses and tells the mood of each.
func (s *Sentence) part() {
	from := 0
	opener := ""
	cut := func(at int, next string) {
		if at > from {
			s.Clauses = append(s.Clauses, Clause{Opener: opener, from: from, to: at})
			from = at
		}
		opener = next
	}
	depth := 0
	outer := ""
	for i := 0; i < len(s.tokens); i++ {
		t := s.tokens[i]
		switch {
		case s.inName(i):
		case t.kind == mark_ && (t.text == ";" || t.text == ":" || t.text == "–" || t.text == "—"):
			cut(i+1, "")
		case t.kind == mark_ && (t.text == "(" || t.text == "["):
			outer = opener
			cut(i+1, "(")
			depth++
		case t.kind == mark_ && (t.text == ")" || t.text == "]") && depth > 0:
			depth--
			cut(i+1, outer)
		case t.kind == mark_ && t.text == ",":
			if s.newClauseAt(i+1) || s.labelAt(i+1) || i+2 < len(s.tokens) && s.tokens[i+1].text == "so" && s.tokens[i+2].text != "that" || opens(opener) && i+1 < len(s.tokens) {
				cut(i+1, "")
			}
		case t.kind == word && i > 0 && t.text == "and" && s.startsClause(i+1) && !s.twoNouns(from, i):
			cut(i+1, opened(opener))
		case t.kind == word && i > 0 && (t.text == "but" || t.text == "yet" || t.text == "then" || t.text == "otherwise") && i+1 < len(s.tokens):
			cut(i+1, "")
		case t.kind == word && t.text == "or" && i > 0 && s.imperativeAt(i+1):
			cut(i+1, opened(opener))
		case t.kind == word && opens(s.openerAt(i)):
			o := s.openerAt(i)
			cut(i, o)
			i += strings.Count(o, "-")
			opener = o
		}
	}
	cut(len(s.tokens), "")
	s.partLead()
	if len(s.Clauses) == 0 {
		s.Clauses = []Clause{{from: 0, to: len(s.tokens)}}
	}
	for i := range s.Clauses {
		s.judge(i)
	}
	s.join()
}

// labelAt tells whether a name begins at a token that is a label: “Wash 1: 4 %, Wash 2: 2 %” has two of them.
func (s *Sentence) labelAt(i int) bool {
	for k := range s.Mentions {
		if m := &s.Mentions[k]; m.token == i && m.end < len(s.tokens) && s.tokens[m.end].text == ":" {
			return true
		}
	}
	return false
}

// twoNouns tells whether “and” at a token only joins two nouns of a subject behind “of” or “both”: “Drums of acid and alkali are joined”.
func (s *Sentence) twoNouns(from, i int) bool {
	of := false
	for j := from; j < i; j++ {
		t := s.tokens[j]
		if t.kind != word || t.kinds&(isFinite|isModal|isMay|isImperative|isNormalVerb|isOpener) != 0 {
			return false
		}
		of = of || (t.text == "of" || t.text == "both") && j >= i-3
	}
	return of && i+2 < len(s.tokens) && s.tokens[i+2].kinds&isFinite != 0
}

// partLead parts a sentence that begins with “when” or “if” and has no comma behind that clause: “When Wash 2 is busy a cover may go into
// Wash 1” has its second clause at the last article or name before “may”.
func (s *Sentence) partLead() {
	if len(s.Clauses) == 0 || !conditions[s.Clauses[0].Opener] && !temporal[s.Clauses[0].Opener] {
		return
	}
	c := &s.Clauses[0]
	for k := range s.Mentions { // “After the mains rinse the housing goes …”
		m := &s.Mentions[k]
		if t := c.Opener; (t == "after" || t == "before") && m.token <= c.from+2 && m.token > c.from && m.end < c.to-1 && objectStarts[s.tokens[m.end].text] {
			s.Clauses = append([]Clause{{Opener: c.Opener, from: c.from, to: m.end}, {from: m.end, to: c.to}}, s.Clauses[1:]...)
			return
		}
	}
	seen := false
	for i := c.from + 1; i < c.to; i++ {
		t := s.tokens[i]
		if t.kind == word && seen && (t.text == "may" || t.text == "must" || t.text == "should" || t.text == "can" || t.text == "will") {
			for j := i - 1; j > c.from+1 && j > i-5; j-- {
				if w := s.tokens[j].text; w == "a" || w == "an" || w == "the" || w == "it" || w == "you" || w == "we" || w == "they" || s.standIn(j) > 0 {
					s.Clauses = append([]Clause{{Opener: c.Opener, from: c.from, to: j}, {from: j, to: c.to}}, s.Clauses[1:]...)
					return
				}
			}
			return
		}
		if seen && (t.text == "the" || t.text == "a") && i > c.from+3 && (s.tokens[i-2].text == "is" || s.tokens[i-2].text == "are") && s.tokens[i-1].kind == word && !leads[s.tokens[i-1].text] { // “When time is short the seals …”
			s.Clauses = append([]Clause{{Opener: c.Opener, from: c.from, to: i}, {from: i, to: c.to}}, s.Clauses[1:]...)
			return
		}
		if i > c.from+2 && t.kinds&isImperative != 0 && i+1 < c.to && (s.tokens[i+1].text == "the" || s.endsBath(i+1+s.tankLength(i+1))) && s.endsNoun(i-1) { // “After the test set the cut-out …”
			s.Clauses = append([]Clause{{Opener: c.Opener, from: c.from, to: i}, {from: i, to: c.to}}, s.Clauses[1:]...)
			return
		}
		seen = seen || t.kinds&isFinite != 0
	}
}

// tankLength is how many tokens the name of a tank has that begins at a token, or 0.
func (s *Sentence) tankLength(i int) int {
	for k := range s.Mentions {
		if m := &s.Mentions[k]; m.token == i && m.Thing != nil && m.Thing.Tank != nil {
			return m.end - m.token
		}
	}
	return 0
}

// endsNoun tells whether a word can end what a sentence begins with, and has no verb behind it: no person, no plural, no article.
func (s *Sentence) endsNoun(i int) bool {
	t := s.tokens[i]
	return t.kind == word && !strings.HasSuffix(t.text, "s") && t.kinds&(isPerson|isModal|isMay|isFinite|isNegation|isFiller|isOpener) == 0 && !noVerbs[t.text]
}

// opened is the opener of a clause that goes on after “and”: “if it is cold and you heat it”.
func opened(opener string) string {
	if conditions[opener] || reasons[opener] {
		return opener
	}
	return ""
}

func opens(o string) bool { return o != "" && o != "(" }

// inName tells whether a token stands inside a name or the text of a link.
func (s *Sentence) inName(i int) bool {
	for k := range s.Mentions {
		if m := &s.Mentions[k]; m.token < i && i < m.end {
			return true
		}
	}
	return false
}

// openerAt gives the subordinating word at a token, or "".
func (s *Sentence) openerAt(i int) string {
	if s.tokens[i].kinds&isOpener == 0 {
		return ""
	}
	t := s.tokens[i].text
	next := ""
	if i+1 < len(s.tokens) {
		next = s.tokens[i+1].text
	}
	switch {
	case t == "as" && i+2 < len(s.tokens) && s.tokens[i+2].text == "as" && asFar[next], t == "as" && i >= 2 && s.tokens[i-2].text == "as" && asFar[s.tokens[i-1].text]:
		return ""
	case t == "as" && i > 0 && multiplied[s.tokens[i-1].text]: // “twice as fast at 70 °C”
		return ""
	case t == "so" && next == "that" && i+2 < len(s.tokens) && (s.tokens[i+2].text == "is" || s.tokens[i+2].text == "was"):
		return "" // “…, so that is where we run it”
	case t == "as" && next == "soon", t == "as" && next == "long":
		return "as-" + next + "-as"
	case t == "only" && (next == "when" || next == "once" || next == "after" || next == "if"):
		return "only-" + next
	case t == "in" && next == "case":
		return "in-case"
	case t == "even" && next == "if":
		return "even-if"
	case t == "so" && next == "that":
		return "so-that"
	case t == "should" && i == 0:
		return "if"
	case t == "should":
		return ""
	case t == "for" || t == "that" || t == "since" && next == "":
		return ""
	case t == "once" && i > 0 && (s.tokens[i-1].text == "at" || s.tokens[i-1].text == "is" || s.tokens[i-1].text == "are"):
		return ""
	case t == "before" && i+1 == len(s.tokens), t == "after" && i+1 == len(s.tokens), t == "once" && (i+1 == len(s.tokens) || next == "," || next == "a" || next == "per" || next == "more" || next == "in" || next == "at" || next == "each" || next == "every"):
		return ""
	case (t == "before" || t == "after") && s.onlyTime(i):
		return ""
	case conditions[t], temporal[t], waits[t], reasons[t]:
		return t
	}
	return ""
}

// multiplied are words before “as” that compare.
var multiplied = set("twice times half just equally nearly almost")

// asFar are words between “as” and “as” that say how much.
var asFar = set("far high hot much warm strong low")

// onlyTime tells whether “before” or “after” stands before a noun alone: “Before the weekly check Wash 1 is …”.
func (s *Sentence) onlyTime(i int) bool {
	for k := range s.Mentions {
		m := &s.Mentions[k]
		if m.token <= i+2 || m.end >= len(s.tokens) || !finite[s.tokens[m.end].text] {
			continue
		}
		for j := i + 1; j < m.token; j++ {
			if s.tokens[j].kind != word || finite[s.tokens[j].text] || s.tokens[j].text == "and" {
				return false
			}
		}
		return true
	}
	return false
}

// newClauseAt tells whether a clause begins behind a comma.
func (s *Sentence) newClauseAt(i int) bool {
	i = s.skipJoin(i)
	return i < len(s.tokens) && (s.imperativeAt(i) || s.startsClause(i) || opens(s.openerAt(i)))
}

func (s *Sentence) skipJoin(i int) int {
	for i < len(s.tokens) && s.tokens[i].kind == word && joins[s.tokens[i].text] {
		i++
	}
	return i
}

// startsClause tells whether a command, or a subject with its verb, begins at a token.
func (s *Sentence) startsClause(i int) bool {
	if i >= len(s.tokens) {
		return false
	}
	i = s.skipJoin(i)
	if s.imperativeAt(i) {
		return true
	}
	if i >= len(s.tokens) {
		return false
	}
	t := s.tokens[i].text
	if t == "never" || t == "do" || t == "don't" || t == "not" || t == "no" || persons[t] || t == "it" || t == "there" {
		return true
	}
	// A noun or two and then a verb.
	for j := i + 1; j < min(i+5, len(s.tokens)); j++ {
		switch w := s.tokens[j]; {
		case w.kind != word && w.kind != figure:
			return false
		case w.kinds&isFinite != 0:
			return true
		}
	}
	return false
}

// finite are verbs that make a sentence of a subject.
var finite = set("come fits fit suits suit cleans washes lifts removes dissolves attacks wins loses costs carries brings sets heats cools floats sinks burns smells leaves contains kills helps does sits lasts changes turns falls drops drifts hovers climbs melts boils softens sags eats strips is are was were must should shall has have may can could will would runs stands holds works needs wants takes stays goes gets comes do did reads shows lies hangs becomes makes means gives keeps begins ends starts rises went came ran stood took")

// imperativeAt tells whether a command begins at a token.
func (s *Sentence) imperativeAt(i int) bool {
	if i >= len(s.tokens) || s.tokens[i].kind != word {
		return false
	}
	if s.tokens[i].kinds&isImperative == 0 {
		return s.bareVerbAt(i)
	}
	t := s.tokens[i].text
	// “Heat is lost”, “Wash 1 runs”, “Rinse water”: a noun.
	if s.nameAt(i) {
		return false
	}
	if i+1 < len(s.tokens) {
		next := s.tokens[i+1]
		if finite[next.text] && next.text != "do" && t != "let" && t != "make" && t != "have" {
			return false
		}
		if next.kind == word && (next.text == "of" || next.text == "alone" || next.text == "does") {
			return false
		}
		if nounPairs[t+" "+next.text] {
			return false
		}
	}
	return true
}

// bareVerbAt tells whether a word that is in no list of verbs can only be one in the form of a command: it begins its clause, and the article or
// the name of a bath follows it at once, as in “Drive the bath to …”, “Refresh Wash 1”.
func (s *Sentence) bareVerbAt(i int) bool {
	t := s.tokens[i]
	if i+1 >= len(s.tokens) || i > 0 && s.tokens[i-1].kind != mark_ && s.tokens[i-1].kinds&isFiller == 0 || t.kinds&^isFiller != 0 || s.nameAt(i) || t.kinds&isFiller != 0 || noVerbs[t.text] || len(t.text) < 3 || capitals(s.Block.Text[t.from:t.to]) {
		return false
	}
	for _, end := range []string{"ing", "ed", "ly", "s", "ion", "ness", "ment", "ty", "er", "or"} {
		if strings.HasSuffix(t.text, end) && t.text != "press" {
			return false
		}
	}
	next := s.tokens[i+1]
	if next.text == "the" || next.text == "a" || next.text == "an" || next.text == "your" || next.text == "our" || next.text == "it" || next.text == "them" {
		return true
	}
	for k := range s.Mentions {
		if m := &s.Mentions[k]; m.token == i+1 && m.Thing != nil && m.Thing.Tank != nil {
			return true
		}
	}
	return false
}

// capitals tells whether a word is written in capitals beyond its first letter: no verb is.
func capitals(w string) bool { return len(w) > 1 && strings.ToLower(w[1:]) != w[1:] }

// noVerbs are words before an article or a name that are no verbs.
var noVerbs = set(`in on at with from to for of by after before during under over between behind near than as like while when if because although since once only even just both all half not never nor and or but so yet this
	that these those what which who whose how why where whoever whatever most some many few such each every into onto through without within against across along around about above below beside beyond despite except inside outside per
	plus toward towards until till upon via whether though unless quite rather whole back there here yes well perhaps maybe instead then also still too very much more less least worth near opposite unlike given today
	tomorrow yesterday tonight morning evening monday tuesday wednesday thursday friday saturday sunday now again away off up down out you we they she he it one two three soon often seldom right left quickly aside apart
	wash tank bath cleaner old new hot cold clean dirty fresh spent used full empty next last first good bad long short thin thick dry wet`)

// nounPairs begin with a word that is a verb elsewhere.
var nounPairs = map[string]bool{}

func init() {
	for _, p := range strings.Split("rinse water,wash water,set point,set points,lock out,heat losses,heat loss,heat treatment,start value,start values,test strip,test piece,fill level,clean parts,dry parts,clean water,dry air,wet parts,load size,water break,touch screen,cool water,warm water,cool air,warm air,rest time,return pump,pump pressure,filter pressure,fill volume,work area,change interval,cover plate,drain valve,drain tray,measure cup,note book,time limit,set value,target strength,target temperature,test bath,tap water,wash tank,wash tanks,wash bath,wash time,rinse tank,rinse time,soak time,dip tank,light rust,dry film,clear liquid,empty tank,open tank,open tanks,warm parts,cool parts", ",") {
		nounPairs[p] = true
	}
}

func (s *Sentence) nameAt(i int) bool {
	for k := range s.Mentions {
		if m := &s.Mentions[k]; m.token <= i && i < m.end {
			return true
		}
	}
	return false
}

// judge tells the mood of a clause by itself.
func (s *Sentence) judge(k int) {
	c := &s.Clauses[k]
	list := s.tokens[c.from:c.to]
	switch {
	case s.Question && !strings.HasPrefix(c.Opener, "("), quizzes(s.Block):
		c.Mood = Ask
	}
	i := c.from
	for i < c.to && (s.tokens[i].kind == mark_ || s.tokens[i].kinds&isFiller != 0 || s.tokens[i].kind == figure && i == 0) {
		i++
	}
	verb, person, passive := "", false, false
	past, example, harm, negated, stand, fit, want, modal, be := false, false, false, false, false, false, false, false, false
	for j, t := range list {
		if t.kind != word {
			if t.kind == mark_ && (t.text == "≠") {
				negated = true
			}
			continue
		}
		inside := s.nameAt(c.from + j)
		if inside && !s.plainName(c.from+j) {
			continue
		}
		switch w := t.text; {
		case t.kinds&isExample != 0 && !(w == "say" && j > 0 && list[j-1].kind == word && list[j-1].text != "let's" && list[j-1].text != "us"):
			example = true
		case w == "is" || w == "are" || w == "be":
			be = true
		}
		w := t.text
		past = past || (t.kinds&isPast != 0 || w == "used" && j+1 < len(list) && list[j+1].text == "to") && !(w == "read" && !(j > 1 && j+1 < len(list) && list[j+1].kind == amount)) && !(w == "set") && !(w == "measured" && j > 0 && (list[j-1].text == "is" || list[j-1].text == "are" || list[j-1].text == "be")) && !(w == "dropped") && !(w == "turned" && j > 0 && (list[j-1].kind == mark_ || list[j-1].text == "and" || list[j-1].text == "is" || list[j-1].text == "are"))
		if (w == "no" || w == "without") && (j+1 < len(list) && unharmed[list[j+1].text] && !(j+2 < len(list) && list[j+2].text == "of") || j+2 < len(list) && list[j+1].text == "any" && unharmed[list[j+2].text]) {
			fit = true
			continue
		}
		hurts := t.kinds&isHarm != 0 && !s.imperativeAtStart(c.from+j, i) && !(j+1 < len(list) && list[j+1].text == "point") && !(w == "against" && j == 0) && !(w == "too" && (j+1 == len(list) || list[j+1].kind == mark_)) && !(j > 0 && (list[j-1].text == "without" || list[j-1].text == "no" || j > 1 && list[j-1].text == "any" && list[j-2].text == "without"))
		harm = harm || hurts
		s.harmful = s.harmful || hurts
		negated = negated || t.kinds&isNegation != 0 && w != "without" && !lacks(list, j) && !(j+2 < len(list) && comparatives[list[j+1].text] && (list[j+2].text == "than" || list[j+2].kind == amount) && w != "never")
		stand = stand || t.kinds&isStand != 0 && j > 0 && !s.imperativeAtStart(c.from+j, c.from) && s.bears(c.from+j)
		fit = fit || t.kinds&isFit != 0
		want = want || t.kinds&isWant != 0 && j > 0 || w == "best" && j > 0
		modal = modal || t.kinds&isModal != 0 && !ofWhat(list, j) && w != "is" && w != "are" && w != "have" && w != "has" && w != "need" && w != "can"
		modal = modal || (w == "has" || w == "have" || w == "needs" || w == "is" || w == "are" || w == "need") && c.from+j+1 < c.to && s.tokens[c.from+j+1].text == "to"
		modal = modal || t.kinds&isMay != 0 && s.allowsAt(c.from+j+1)
		person = person || t.kinds&isPerson != 0 || w == "one" && j+1 < len(list) && strings.HasSuffix(list[j+1].text, "s") && commandIn(list[j:j+2]) != ""
		past = past || strings.HasSuffix(w, "ed") && !strings.HasSuffix(w, "eed") && t.kinds&isNormalVerb == 0 && s.endsBath(c.from+j)
		if t.kinds&isSomebody != 0 {
			past = true
		}
		passive = passive || t.kinds&isNormalVerb != 0 && j > 0
		if verb == "" && (t.kinds&isFinite != 0 || t.kinds&isNormalVerb != 0 || t.kinds&isImperative != 0 && (c.from+j == i || person || modal || w == "heat")) {
			verb = w
		}
	}
	c.Negated, c.Harmful = negated, harm
	c.Verb = verb
	command := i < c.to && s.imperativeAt(i)
	if !command && i < c.to {
		if j := s.leadsToCommand(i, c.to); j > 0 {
			command = true
			c.Verb = s.tokens[j].text
		}
	}
	if i < c.to && s.imperativeAt(i) {
		c.Verb = s.tokens[i].text
	}
	switch {
	case c.Mood == Ask:
	case example:
		c.Mood = Example
	case conditions[c.Opener] || temporal[c.Opener] || c.Opener == "only-when" || strings.HasPrefix(c.Opener, "as-"):
		c.Mood = If
	case waits[c.Opener]:
		c.Mood = If
	case reasons[c.Opener] && !((c.Opener == "which" || c.Opener == "who") && !negated && !past && !harm && (modal || person && imperativeWithin(list))):
		c.Mood = Is
		if past {
			c.Mood = Was
		}
		if harm || negated {
			c.Mood = If
		}
	case command && negated && s.negatedStart(i, c.to):
		c.Mood = MustNot
	case command:
		c.Mood = Do
	case negated && s.negatedStart(i, c.to):
		c.Mood = MustNot
	case past && !modal:
		c.Mood = Was
	case harm:
		c.Mood = If
	case (modal || want) && negated:
		c.Mood = MustNot
	case stand || fit:
		c.Mood = Able
		if negated {
			c.Mood = MustNot
		}
	case modal || want:
		c.Mood = Do
	case be && passive, person && imperativeWithin(list):
		if person && verb == "" {
			c.Verb = commandIn(list)
		}
		c.Mood = Do
		if negated {
			c.Mood = MustNot
		}
	case verb == "" && !be, normalVerbs[verb] && !be && !person, i < c.to && finite[s.tokens[i].text] && !be && !negated:
		c.Mood = Fragment // “Used at 4 %”, “Runs at 60 °C”: the subject is not said
	default:
		c.Mood = Is
		if negated {
			c.Mood = If
		}
	}
}

// lacks tells whether “no” only says what a thing does not have: “boards that carry no coil”, “a tank with no lid”.
func lacks(list []token, j int) bool {
	if list[j].text != "no" || j+1 < len(list) && comparatives[list[j+1].text] {
		return false
	}
	return j > 0 && list[j-1].text == "with" || j > 1 && (list[j-2].text == "that" || list[j-2].text == "which" || list[j-2].text == "who")
}

// ofWhat tells whether a verb is the one of “what” that stands behind another verb: “does to the metal what it should do to the rust” bids nothing.
func ofWhat(list []token, j int) bool {
	for i := j - 1; i > 0 && i >= j-4; i-- {
		if list[i].text == "what" {
			return list[i-1].kind == word && list[i-1].kinds&isFiller == 0
		}
	}
	return false
}

// endsBath tells whether the name of a tank ends right before a token.
func (s *Sentence) endsBath(i int) bool {
	for k := range s.Mentions {
		if m := &s.Mentions[k]; m.end == i && m.Thing != nil && m.Thing.Tank != nil {
			return true
		}
	}
	return false
}

// unharmed are words behind “no” or “without” with which something is harmless.
var unharmed = set("harm damage danger risk")

// allowsAt tells whether what stands behind “may” or “can” allows something, and does not only say that it happens.
func (s *Sentence) allowsAt(i int) bool {
	i = s.skipFillers(i)
	if i+1 >= len(s.tokens) {
		return false
	}
	switch s.tokens[i].text {
	case "be":
		return normalVerbs[s.tokens[s.skipFillers(i+1)].text] || s.tokens[i+1].text == "at"
	case "go", "have", "stay", "run", "work", "stand", "remain":
		return true
	case "lie", "hang", "sit", "soak", "bathe", "swim":
		return s.tokens[i+1].text == "in"
	}
	return false
}

// quizzes tells whether a block stands under a heading of questions, such as those of a lesson, whose answers are given in brackets.
func quizzes(b *Block) bool {
	if b.Section == "" || b.Kind == Heading {
		return false
	}
	h := strings.ToLower(b.Section)
	return strings.Contains(h, "question") || strings.Contains(h, "quiz") || strings.Contains(h, "exercise")
}

func (s *Sentence) plainName(i int) bool { return s.standIn(i) > 0 || s.tokens[i].text == "the" }

// bears tells whether a verb such as “takes” or “stands” speaks of what something bears: an amount follows, or “up to”.
func (s *Sentence) bears(i int) bool {
	if w := s.tokens[i].text; w != "take" && w != "takes" && w != "stand" && w != "stands" && w != "allow" && w != "allows" && w != "accepts" && w != "bear" && w != "bears" {
		return true
	}
	for j := i + 1; j < min(i+5, len(s.tokens)); j++ {
		t := s.tokens[j]
		if t.kind == amount {
			return true
		}
		if t.kind == word && !bearing[t.text] {
			return false
		}
	}
	return false
}

var bearing = set("up to at most no more than about a the heat of as hot only hardly even temperatures temperature well easily wash baths water bath ph over above around")

func (s *Sentence) imperativeAtStart(i, from int) bool { return i == from && s.imperativeAt(i) }

func imperativeWithin(list []token) bool { return commandIn(list) != "" }

// commandIn gives the first verb of work behind the first word of a clause, as a command has it, or "".
func commandIn(list []token) string {
	for i, t := range list {
		if i == 0 || t.kind != word {
			continue
		}
		for _, end := range []string{"", "s", "es"} {
			if w := strings.TrimSuffix(t.text, end); imperatives[w] {
				return w
			}
		}
	}
	return ""
}

// leadsToCommand tells whether a command stands behind a lead such as “For brass,” or “In Wash 1”.
// It gives the token of its verb, or 0.
func (s *Sentence) leadsToCommand(i, end int) int {
	if !leads[s.tokens[i].text] {
		return 0
	}
	for j := i + 1; j < min(end, i+10); j++ {
		if k := s.skipFillers(j + 1); s.tokens[j].text == "," && s.imperativeAt(k) {
			return k
		}
		if j > i+1 && j < i+7 && s.imperativeAt(j) && j+1 < end && (objectStarts[s.tokens[j+1].text] || s.nameAt(j+1) || s.tokens[j+1].kind == amount || s.tokens[j+1].text == "some" || s.tokens[j+1].text == "half") {
			return j // “For burnt oil run the bath at …”
		}
	}
	return 0
}

func (s *Sentence) skipFillers(i int) int {
	for i < len(s.tokens) && s.tokens[i].kinds&isFiller != 0 {
		i++
	}
	return i
}

var objectStarts = set("the it this a an your our them each every all both")

var leads = set("for in at on with to during within from by under")

// negatedStart tells whether a negation rules the verb of a clause: it stands before the verb, or the clause begins with it.
func (s *Sentence) negatedStart(i, end int) bool {
	for j := i; j < min(end, i+6); j++ {
		t := s.tokens[j]
		if t.kind == amount {
			return false
		}
		if negations[t.text] && !(t.text == "no" && j+1 < end && comparatives[s.tokens[j+1].text]) && !(t.text == "not" && j+1 < end && comparatives[s.tokens[j+1].text] && !(j+2 < end && objectStarts[s.tokens[j+2].text])) && t.text != "without" && !lacks(s.tokens[i:end], j-i) && !(t.text == "not" && j+1 < end && s.tokens[j+1].text == "only") {
			return j == i || t.text != "no" || s.tokens[i].kind == word
		}
	}
	return false
}

var comparatives = set("more less hotter cooler colder warmer higher lower longer shorter later above below over under stronger weaker exceeding")

// join lets clauses rule each other: what a command waits for is commanded, a doubt in brackets counts for what it stands behind.
func (s *Sentence) join() {
	for k := range s.Clauses {
		c := &s.Clauses[k]
		main := s.mainOf(k)
		if main == nil {
			if strings.HasPrefix(c.Opener, "only-") && c.Opener != "only-if" && !c.Negated && s.starts(c) && s.arrives(c) {
				c.Mood, c.Verb = Do, "until" // “Only when it reads 62 °C do you start”
			}
			continue
		}
		switch {
		case c.Opener == "until" || c.Opener == "till":
			if (main.Mood == Do || main.Mood == MustNot || main.Mood == Fragment) && !c.Negated && !s.cools(main) && s.arrives(c) {
				c.Mood = Do
				c.Verb = "until"
			}
		case c.Opener == "before":
			if main.Mood == MustNot && s.arrives(c) {
				c.Mood, c.Verb = Do, "until"
			}
		case c.Opener == "once" || c.Opener == "when" || strings.HasPrefix(c.Opener, "only-") || c.Opener == "after" || c.Opener == "as-soon-as":
			if main.Mood == Do && s.starts(main) && !s.has(main, "off") && !s.has(main, "out") && !c.Negated && c.Opener != "only-if" && s.arrives(c) {
				c.Mood, c.Verb = Do, "until"
			}
			if main.Mood == MustNot && c.Opener == "only-when" {
				c.Mood = If
			}
		}
	}
	// An example or a past counts for the rest of its sentence.
	for k := range s.Clauses {
		switch s.Clauses[k].Mood {
		case Example:
			for j := k; j < len(s.Clauses); j++ {
				if s.Clauses[j].Mood != Do || k == 0 {
					s.Clauses[j].Mood = Example
				}
			}
		case Was:
			for j := k + 1; j < len(s.Clauses); j++ {
				if m := s.Clauses[j].Mood; m == Is || m == Fragment {
					s.Clauses[j].Mood = Was
				}
			}
		}
		if s.Clauses[k].Opener == "(" && k > 0 && s.Clauses[k].Mood == Fragment {
			if m := s.Clauses[k-1].Mood; m == Was || m == If || m == Example || m == Ask || m == MustNot {
				s.Clauses[k].Mood = m
			}
		}
	}
}

// starts tells whether a clause has a command that begins work.
func (s *Sentence) starts(c *Clause) bool {
	for _, t := range s.tokens[c.from:c.to] {
		if starters[t.text] {
			return true
		}
	}
	return false
}

// arrives tells whether a clause says that something is, or has come to be, so and so much: “until it reads 80 °C”, “until 80 °C”.
func (s *Sentence) arrives(c *Clause) bool {
	words := 0
	for _, t := range s.tokens[c.from:c.to] {
		if arrivals[t.text] {
			return true
		}
		if t.kind == word {
			words++
		}
	}
	return words <= 2
}

var arrivals = set("reach reaches reached is are reads shows hits stands has gets comes climbs rises been says have got reaching touches registers indicates")

// starters are commands that begin work, for which the bath has to be ready.
var starters = set("load start begin put lower degas immerse run switch go dip set place hang add wash clean turn lift drop work use")

func (s *Sentence) has(c *Clause, w string) bool {
	for _, t := range s.tokens[c.from:c.to] {
		if t.text == w {
			return true
		}
	}
	return false
}

// cools tells whether a command makes something colder or lets it wait: what stands behind “until” is then no heat to be reached.
func (s *Sentence) cools(c *Clause) bool {
	for _, t := range s.tokens[c.from:c.to] {
		if cooling[t.text] {
			return true
		}
	}
	return false
}

var cooling = set("cool cooled cooling lower drain stop rest ice chill off stand")

// mainOf is the clause on which a subordinate one hangs: the one before it, or behind it where it comes first.
func (s *Sentence) mainOf(k int) *Clause {
	for j := k - 1; j >= 0; j-- {
		if !opens(s.Clauses[j].Opener) {
			return &s.Clauses[j]
		}
	}
	for j := k + 1; j < len(s.Clauses); j++ {
		if !opens(s.Clauses[j].Opener) {
			return &s.Clauses[j]
		}
	}
	return nil
}
