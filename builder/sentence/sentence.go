package sentence

import (
	"bytes"
	"slices"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// Sentence is one sentence of a block, or a cell.
type Sentence struct {
	Block      *Block
	From, To   int // bytes of the block's text
	Clauses    []Clause
	Quantities []Quantity
	Mentions   []Mention
	Question   bool

	TakenBack bool // the sentence behind it in its block forbids it or calls it wrong: “Do not use it.”, “It was wrong.”

	tokens  []token
	shown   []Token // as Tokens gives them
	harmful bool
	quiet   bool

	sets bits // of those that Set made, which the sentence has a word of; nil where that was not noted
}

// Text is the sentence as it is read.
func (s *Sentence) Text() string { return strings.TrimSpace(s.Block.Text[s.From:s.To]) }

// Clause is a part of a sentence with one mood.
type Clause struct {
	Mood     Mood
	Opener   string // the word that opens it: if, until, which …
	Verb     string // the first verb of a command, or the verb of what is stated
	Negated  bool
	Harmful  bool // it speaks of something that goes wrong
	from, to int  // tokens
}

// Mood is how something is said.
type Mood uint8

// The moods.
const (
	Is Mood = iota
	Fragment
	Do
	MustNot
	Able
	Was
	If
	Ask
	Example
)

// Relation is how a quantity is meant.
type Relation uint8

// The relations.
const (
	At         Relation = iota // it is so much, or to be so much
	To                         // it goes to so much
	AtMost                     // or less
	AtLeast                    // or more
	Above                      // more than that
	Below                      // less than that
	From                       // where a change begins
	Difference                 // by so much, within so much
)

// Quantity is a number with its unit.
type Quantity struct {
	quantity.Range
	From, To  int // bytes of the block's text
	Text      string
	Span      bool
	Relation  Relation
	Clause    int
	About     *Mention // nil: nothing is named
	Attribute string   // what it measures, where a word says so: flash point, volume, humidity …
	Near      string   // the word right behind it
	Rough     bool     // “about”, “≈”

	Low, High Written // its numbers as they are written
	token     int
}

// Written is a number as it is written.
type Written struct {
	Value    float64
	Decimals int
	Noughts  int // at the end of a whole number
	Word     bool
}

// Mention is a name or a link in a sentence, or a word such as “it” that stands for one.
type Mention struct {
	Thing      *Thing // nil where nothing is named that a word could stand for
	Word       string // the words, lower case
	Link       bool
	Where      bool // it says only where something is
	Stands     bool // a word that stands for what is named elsewhere
	From, To   int  // bytes of the block's text
	token, end int
}

// Resolve gives the path of the article to which a link leads, or "".
type Resolve func(target string) string

// Read reads the sentences of a body.
func Read(body []byte, names *Names, resolve Resolve) []Sentence {
	blocks := manual.Blocks(body)
	var list []Sentence
	for i := range blocks {
		list = append(list, Of(&blocks[i], names, resolve)...)
	}
	return list
}

// Of reads the sentences of a block.
func Of(b *Block, names *Names, resolve Resolve) []Sentence {
	var list []Sentence
	var last memory
	if b.Kind == Cell && !b.First {
		last = rowMemory(b, names, resolve)
	}
	if b.Kind == Heading {
		return nil // a heading says nothing by itself
	}
	parts := sentences(b.Text)
	list = make([]Sentence, 0, len(parts))
	defer func() {
		for i := 1; i < len(list); i++ {
			list[i-1].TakenBack = takesBack(list[i].Text())
		}
	}()
	for _, part := range parts {
		if !mayspeak(b, part[0], part[1], names, resolve) {
			list = append(list, Sentence{Block: b, From: part[0], To: part[1], Clauses: still, quiet: true, Question: strings.HasSuffix(strings.TrimRight(b.Text[part[0]:part[1]], " \n*”\""), "?")})
			continue
		}
		s := Sentence{Block: b, From: part[0], To: part[1]}
		s.tokens = tokens(b.Text[part[0]:part[1]], part[0], names)
		if len(s.tokens) == 0 {
			continue
		}
		s.Question = s.tokens[len(s.tokens)-1].text == "?"
		s.mention(names, resolve)
		if s.quiet = !s.speaks(); s.quiet {
			s.Clauses = []Clause{{Mood: Is, to: len(s.tokens)}}
			s.noteSets()
			list = append(list, s)
			continue
		}
		s.part()
		s.subjects()
		s.measure()
		s.relate(&last)
		s.noteSets()
		list = append(list, s)
	}
	return list
}

// takesBack tells whether a sentence is about what stands before it, and forbids it or calls it wrong.
func takesBack(text string) bool {
	first, _, _ := strings.Cut(strings.TrimSpace(text), " ")
	if !backOpeners[strings.Trim(strings.ToLower(first), ".!?")] && !strings.Contains(first, "\n") {
		return false // as of nearly every sentence, which need not be taken to pieces
	}
	words := strings.Fields(strings.Trim(strings.ToLower(strings.ReplaceAll(text, "’", "'")), ".!?"))
	if len(words) == 0 || len(words) > 14 {
		return false
	}
	about := slices.ContainsFunc(words, func(w string) bool { return backWords[strings.Trim(w, ",;:")] })
	switch words[0] {
	case "do", "don't", "never", "nobody", "avoid", "no":
		return len(words) < 8 && about && slices.ContainsFunc(words[:2], func(w string) bool { return negations[w] })
	case "it", "that", "this", "both", "they", "wrong", "not", "untrue":
		return slices.ContainsFunc(words, func(w string) bool { return untrue[strings.Trim(w, ",;:")] })
	}
	return false
}

var (
	backOpeners = set("do don't don’t never nobody avoid no it that this both they wrong not untrue")
	backWords   = set("it this that them so either")
	untrue      = set("wrong mistake myth nonsense untrue false forbidden dangerous rumour rumor stopped withdrawn over history not never lie error")
)

// sentences gives where the sentences of a text begin and end.
func sentences(text string) [][2]int {
	var list [][2]int
	from := 0
	for i := 0; i < len(text); i++ {
		c := text[i]
		if c != '.' && c != '!' && c != '?' {
			continue
		}
		end := i + 1
		for end < len(text) && strings.ContainsRune(".!?)\"'*", rune(text[end])) {
			end++
		}
		for _, mark := range []string{"”", "’"} {
			if strings.HasPrefix(text[end:], mark) {
				end += len(mark)
			}
		}
		if end < len(text) && text[end] != ' ' && text[end] != '\n' {
			continue
		}
		if c == '.' && end == i+1 && abbreviationBefore(text[from:i]) && end < len(text) {
			continue
		}
		list = append(list, [2]int{from, end})
		from, i = end, end-1
	}
	if strings.TrimSpace(text[from:]) != "" {
		list = append(list, [2]int{from, len(text)})
	}
	return list
}

var abbreviations = set("e.g i.e approx max min no vol ca resp fig vs cf incl excl temp conc art sec eq st dr mr mrs etc al corr irrit carc repr muta")

// abbreviationBefore tells whether the point behind a text belongs to its last word.
func abbreviationBefore(text string) bool {
	last := strings.ToLower(text[strings.LastIndexAny(text, " (\n\u00a0")+1:])
	if last == "min" || last == "no" {
		before := strings.TrimRight(strings.TrimSuffix(text, text[len(text)-len(last):]), " \u00a0")
		return before == "" || !(before[len(before)-1] >= '0' && before[len(before)-1] <= '9') && last != "no"
	}
	return abbreviations[last] && last != "etc"
}

// mention finds the names and links of a sentence.
func (s *Sentence) mention(names *Names, resolve Resolve) {
	for i := 0; i < len(s.tokens); {
		t := s.tokens[i]
		if l := s.linkAt(t.from); l != nil {
			end := i
			for end < len(s.tokens) && s.tokens[end].from < l.To {
				end++
			}
			m := Mention{Link: true, Word: strings.ToLower(s.Block.Text[l.From:l.To]), From: l.From, To: l.To, token: i, end: end}
			if resolve != nil {
				m.Thing = names.byPath[resolve(l.Target)]
			}
			s.Mentions = append(s.Mentions, m)
			i = max(end, i+1)
			continue
		}
		if thing := names.capital(s.Block.Text, s.tokens, i); thing != nil {
			s.Mentions = append(s.Mentions, Mention{Thing: thing, Word: t.text, From: t.from, To: t.to, token: i, end: i + 1})
			i++
			continue
		}
		if thing, n := names.at(s.tokens, i); thing != nil {
			if !(thing.Kind() == manual.Material && i+n < len(s.tokens) && objects[s.tokens[i+n].text]) { // a brass brush is no work
				s.Mentions = append(s.Mentions, Mention{Thing: thing, Word: joined(s.tokens[i : i+n]), From: t.from, To: s.tokens[i+n-1].to, token: i, end: i + n})
			}
			i += n
			continue
		}
		if n := s.standIn(i); n > 0 {
			s.Mentions = append(s.Mentions, Mention{Stands: true, Word: joined(s.tokens[i : i+n]), From: t.from, To: s.tokens[i+n-1].to, token: i, end: i + n})
			i += n
			continue
		}
		i++
	}
	for i := range s.Mentions {
		m := &s.Mentions[i]
		m.Where = m.token > 0 && places[s.tokens[s.skipBack(m.token-1)].text]
	}
}

// subjects takes back that a name only says where, where it is the subject of a clause that “before” or “after” opens.
func (s *Sentence) subjects() {
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if c := &s.Clauses[s.clauseOf(m.token)]; m.Where && opens(c.Opener) && s.Before(m) == c.Opener && m.end < len(s.tokens) && (finite[s.tokens[m.end].text] || arrivals[s.tokens[m.end].text]) {
			m.Where = false
		}
	}
}

// still is the one clause of a sentence that says nothing to the rules.
var still = make([]Clause, 1)

// mayspeak tells quickly of most sentences that they have no quantity, name or topic.
func mayspeak(b *Block, from, to int, names *Names, resolve Resolve) bool {
	for i := range b.Links {
		if b.Links[i].From < from || b.Links[i].From >= to {
			continue
		}
		if resolve == nil {
			return true
		}
		if names.byPath[resolve(b.Links[i].Target)] != nil {
			return true
		}
	}
	text := b.Text[from:to]
	var space [24]byte
	for i := 0; i < len(text); {
		c := text[i]
		switch {
		case c >= '0' && c <= '9', c == 0xc2, c == 0xe2 && i+1 < len(text) && text[i+1] == 0x85: // figures, ½
			if c != 0xc2 || i+1 < len(text) && text[i+1] >= 0xbc && text[i+1] <= 0xbe {
				return true
			}
			i += 2
			continue
		case !isLetterByte(c):
			i++
			continue
		case quoteAt(text, i):
			i += len("“")
			continue
		}
		end := i
		for end < len(text) && (isLetterByte(text[end]) || text[end] == '-') && !quoteAt(text, end) {
			end++
		}
		w := append(space[:0], text[i:min(end, i+len(space))]...)
		for j, l := range w {
			if l >= 'A' && l <= 'Z' {
				w[j] = l | 0x20
			}
		}
		if topics[string(w)] || names.byFirst[string(w)] != nil || len(w) > 2 && beginsNumber(w[0], w[1]) && startsNumber(w) {
			return true
		}
		for j, l := range w { // acid-bleach
			if l == '-' && (topics[string(w[:j])] || topics[string(w[j+1:])] || names.byFirst[string(w[:j])] != nil) {
				return true
			}
		}
		i = end
	}
	return false
}

// quoteAt tells whether a quotation mark begins at a place: what it holds are words as any others.
func quoteAt(text string, i int) bool {
	return text[i] == 0xe2 && (strings.HasPrefix(text[i:], "“") || strings.HasPrefix(text[i:], "”") || strings.HasPrefix(text[i:], "‘"))
}

// startsNumber tells whether a word is one for a number, or begins as one of two parts.
func startsNumber(w []byte) bool {
	if _, ok := smallNumbers[string(w)]; ok {
		return true
	}
	i := bytes.IndexByte(w, '-')
	return i > 0 && smallNumbers[string(w[:i])] >= 20
}

// speaks tells whether a sentence has a quantity, or names something that rules ask about. Nothing is to be known of any other.
func (s *Sentence) speaks() bool {
	for i := range s.Mentions {
		if s.Mentions[i].Thing != nil {
			return true
		}
	}
	for _, t := range s.tokens {
		if t.kind == amount || topics[t.text] {
			return true
		}
	}
	return false
}

// topics are words of order, mixing, hands and skin, of which rules ask without a quantity or a name.
var topics = set(`goggles glasses spectacles apron rinse reaches reaching gropes running gloves gloved cleaner soap cleaners detergents mains air air-dried air-dry drying dries quarter quarters hour minute jug drum javel palm knuckle knuckles wrist wrists fist elbow glove plating painting bonding acid acids caustic lye potash flakes pellets granules concentrate concentrates concentrated neat bleach hypochlorite chlorine vinegar ammonia cyanide sulfide sulphide nitrite amine descaler lemon boric elbow-deep wrist-deep fish fishes rummage delve
	hydrochloric muriatic phosphoric citric sulfamic hand hands finger fingers fingertip fingertips arm arms thumb palm reach feel touch grope grab skin eye eyes face burn body splash wound leg legs forearm
	rinses neutralise neutralize neutralises neutralised soda bicarbonate crystals powder window fluoride terpene solvent peroxide limonene
	bag bags sack sacks grip grips sleeve sleeves nearest whatever whichever anything leftover leftovers remainder residue heel dregs ultrasound dryer vomit vomiting sick eyes shock current siphon suck sucking mouth interlock bridge bypass overridden lick licking oven radiator radiators stove stoves heater hairdryer hotplate match matches burn burnt burned gun beaker flame burner torch welding smoking rag rags cloths pour poured tip tipped bucket ceiling flash-point cloud-point flash cloud`)

// Quiet tells that a sentence has no quantity, names nothing and has no word of order, mixing, hands or skin: it has one clause, and nothing is
// known of it.
func (s *Sentence) Quiet() bool { return s.quiet }

// objects are things of a shop that are made of something without being the work.
var objects = set("brush brushes wool rule ruler basket baskets tray trays foil hook hooks plate plates bucket sheet strip wire hammer bottle jug tube beaker beakers")

// places are words before a mention that only say where.
var places = set("beside near behind next outside above over under around by from between opposite before after than like unlike against off past leaving leaves left")

// skipBack steps over an article or a mark of emphasis before a name.
func (s *Sentence) skipBack(i int) int {
	for i > 0 && (s.tokens[i].text == "the" || s.tokens[i].text == "our" || s.tokens[i].text == "to" && s.tokens[i-1].text == "next") {
		i--
	}
	return i
}

func joined(list []token) string {
	words := make([]string, len(list))
	for i, t := range list {
		words[i] = t.text
	}
	return strings.Join(words, " ")
}

func (s *Sentence) linkAt(offset int) *manual.BlockLink {
	for i := range s.Block.Links {
		if l := &s.Block.Links[i]; l.From <= offset && offset < l.To {
			return l
		}
	}
	return nil
}

var (
	bathNouns = set("unit product emulsion bath baths tank tanks cleaner liquid solution mix liquor wash detergent chemistry charge")
	partNouns = set("part parts metal material piece pieces work workpiece workpieces component components item items surface")
)

// standIn tells how many tokens stand for something that is named elsewhere: it, the bath, these parts.
func (s *Sentence) standIn(i int) int {
	t := s.tokens[i]
	if t.kind != word {
		return 0
	}
	if t.text == "it" || t.text == "its" || t.text == "them" || t.text == "they" {
		return 1
	}
	if (t.text == "the" || t.text == "this" || t.text == "these" || t.text == "that" || t.text == "our" || t.text == "your" || t.text == "each" || t.text == "every" || t.text == "hot") && i+1 < len(s.tokens) {
		if n := s.tokens[i+1].text; (bathNouns[n] || partNouns[n]) && !(t.text == "that" && i+2 < len(s.tokens) && s.tokens[i+2].kind == figure) { // “so that Wash 1 is hot”
			return 2
		}
		if i+2 < len(s.tokens) && (s.tokens[i+1].text == "hot" || s.tokens[i+1].text == "whole" || s.tokens[i+1].text == "fresh" || s.tokens[i+1].text == "wash" || s.tokens[i+1].text == "cleaning" || s.tokens[i+1].text == "new") && bathNouns[s.tokens[i+2].text] {
			return 3
		}
	}
	if (bathNouns[t.text] && t.text != "wash" && t.text != "charge" && t.text != "mix" || partNouns[t.text] && t.text != "work" && t.text != "surface") && (i == 0 || s.tokens[i-1].kind == mark_ || imperatives[s.tokens[i-1].text] && !(i > 1 && nounStarts[s.tokens[i-2].text])) {
		return 1
	}
	return 0
}

// nounStarts are words behind which a verb's word is part of a noun: “the steam cleaner”.
var nounStarts = set("the a an our your this that another other each every any no")

// memory is what has been named so far in a block.
type memory struct {
	bath, part *Mention
	last       *Mention
}

func (c *memory) see(m *Mention) {
	if m.Thing == nil || m.Where {
		return
	}
	switch {
	case m.Thing.Bath():
		c.bath = m
	case m.Thing.Kind() == manual.Material || m.Thing.Kind() == manual.Part:
		c.part = m
	}
	c.last = m
}

// rowMemory is what the first cell of a row names.
func rowMemory(b *Block, names *Names, resolve Resolve) memory {
	var c memory
	head := Sentence{Block: &Block{Text: b.Row, Links: b.RowLinks}, To: len(b.Row)}
	head.tokens = tokens(b.Row, 0, names)
	if len(head.tokens) == 0 {
		return c
	}
	head.mention(names, resolve)
	if thing := names.exact[strings.ToLower(strings.TrimSpace(b.Row))]; thing != nil && len(head.Mentions) == 0 { // a rinse that is called “Rinse”
		c.see(&Mention{Thing: thing, Word: strings.ToLower(b.Row), From: -1, To: -1})
		return c
	}
	for i := range head.Mentions {
		if m := head.Mentions[i]; m.Thing != nil && c.last == nil {
			m.From, m.To = -1, -1
			c.see(&m)
		}
	}
	return c
}

// measure gathers the quantities of a sentence.
func (s *Sentence) measure() {
	for i, t := range s.tokens {
		if t.kind != amount || strings.HasSuffix(s.Block.Text[t.from:t.to], "°") && s.leans() {
			continue
		}
		q := Quantity{Range: t.q, From: t.from, To: t.to, Text: s.Block.Text[t.from:t.to], Span: t.span, Clause: s.clauseOf(i), token: i,
			Low: Written{t.low.value, t.low.decimals, t.low.round, t.low.word}, High: Written{t.high.value, t.high.decimals, t.high.round, t.high.word}}
		if i+1 < len(s.tokens) {
			q.Near = s.tokens[i+1].text
		}
		q.Rough = i > 0 && rough[s.tokens[i-1].text]
		q.Relation = s.relationOf(i, &s.Clauses[q.Clause])
		q.Attribute = s.attributeOf(i, &s.Clauses[q.Clause])
		if n := len(s.Quantities); n > 0 && s.Clauses[q.Clause].Opener == "(" && q.Relation == At {
			if one := &s.Quantities[n-1]; one.Relation == Difference && one.Kind == q.Kind && one.Clause+1 == q.Clause {
				q.Relation = Difference // “cools by 10 °C (18 °F)”
			}
		}
		s.Quantities = append(s.Quantities, q)
	}
}

// leans tells whether a sentence speaks of an angle: its degrees are none of heat.
func (s *Sentence) leans() bool {
	for _, t := range s.tokens {
		if angles[t.text] {
			return true
		}
	}
	return false
}

var angles = set("angle angles lean leans leaning tilt tilts tilted tilting slope sloped slant slanted bevel chamfer goniometer bend bent inclined")

func (s *Sentence) clauseOf(token int) int {
	for i := range s.Clauses {
		if token < s.Clauses[i].to {
			return i
		}
	}
	return len(s.Clauses) - 1
}

// relate tells what each quantity is about.
func (s *Sentence) relate(last *memory) {
	before := *last
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Stands {
			switch {
			case strings.HasPrefix(m.Word, "it") || m.Word == "them" || m.Word == "they":
				if before.last != nil {
					m.Thing = before.last.Thing
				}
			case partNouns[lastWord(m.Word)]:
				if before.part != nil {
					m.Thing = before.part.Thing
				}
			default:
				if before.bath != nil {
					m.Thing = before.bath.Thing
				}
			}
			continue
		}
		before.see(m)
	}
	for i := range s.Quantities {
		q := &s.Quantities[i]
		q.About = s.about(q)
		if q.About == nil && last.last != nil && s.Block.Kind == Cell {
			q.About = last.last
		}
		if c := &s.Clauses[q.Clause]; q.About == nil && last.bath != nil && c.Mood == Do && q.Kind == quantity.Temperature && goesUp[c.Verb] {
			q.About = last.bath // “Still greasy in Wash 1? Go up to …”
		}
	}
	*last = before
}

// goesUp are commands about the heat of the bath that was named last.
var goesUp = set("go heat raise warm increase bring take")

func lastWord(s string) string { return s[strings.LastIndexByte(s, ' ')+1:] }

// about gives the mention that a quantity is about: the nearest before it in its clause, else behind it, else in the clauses before.
func (s *Sentence) about(q *Quantity) *Mention {
	c := s.Clauses[q.Clause]
	var best *Mention
	if m := s.placed(q); m != nil {
		return m
	}
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Where || m.token >= q.token {
			continue
		}
		if m.token >= c.from {
			if best != nil && best.token >= c.from && !better(m, best) {
				continue
			}
			best = m
		}
	}
	if best != nil {
		if c.Mood != Do && s.Before(best) == "in" { // “Parts in the dryer come to 60 °C”
			for i := range s.Mentions {
				if m := &s.Mentions[i]; m.token >= c.from && m.token < best.token && m.Stands && partNouns[lastWord(m.Word)] {
					return m
				}
			}
		}
		if s.elsewhere(best, q) {
			return nil
		}
		return best
	}
	for i := range s.Mentions {
		if m := &s.Mentions[i]; !m.Where && m.token > q.token && m.token < c.to {
			return m
		}
	}
	if c.Mood == If && c.from > 0 {
		return nil
	}
	for i := range s.Mentions {
		if m := &s.Mentions[i]; !m.Where && m.token < c.from {
			if best == nil || better(m, best) {
				best = m
			}
		}
	}
	return best
}

// elsewhere tells that a dryer or rinse is only where something else is so and so hot: “In the dryer a thick flange is at 45 °C”.
func (s *Sentence) elsewhere(m *Mention, q *Quantity) bool {
	if m.Thing == nil || m.Thing.Dryer == nil && m.Thing.Rinse == nil || s.Before(m) != "in" && s.Before(m) != "from" {
		return false
	}
	for i := m.end; i < q.token; i++ {
		if t := s.tokens[i].text; objectStarts[t] || t == "an" || t == "some" || partNouns[t] {
			return true
		}
	}
	return false
}

// placed gives the mention that a quantity is joined to by the word behind it: “62 °C in Wash 1, 48 °C in Wash 2”, “4 % of [cleaner]”.
func (s *Sentence) placed(q *Quantity) *Mention {
	i := q.token + 1
	for i < len(s.tokens) && (s.tokens[i].text == "*" || s.tokens[i].text == "today" || s.tokens[i].text == "now") {
		i++
	}
	if i >= len(s.tokens) || !joints[s.tokens[i].text] {
		return nil
	}
	for i++; i < len(s.tokens) && (s.tokens[i].text == "the" || s.tokens[i].text == "our"); i++ {
	}
	for k := range s.Mentions {
		if m := &s.Mentions[k]; m.token == i || m.token == i-1 && m.Stands {
			return m
		}
	}
	return nil
}

var joints = set("in for of")

// better tells whether a later mention takes the place of an earlier one: a name that of a word that stands for one, but not the reverse
// where both mean a bath.
func better(later, earlier *Mention) bool {
	return !later.Stands || earlier.Thing == nil
}

// rough are words before a quantity that leave it some room.
var rough = set("about roughly around some nearly almost approximately approx circa ca ~ ≈ say good")

// Words gives the words of a clause, lower case.
func (s *Sentence) Words(clause int) []string {
	c := &s.Clauses[clause]
	list := make([]string, 0, c.to-c.from)
	for _, t := range s.tokens[c.from:c.to] {
		if t.kind != mark_ {
			list = append(list, t.text)
		}
	}
	return list
}

// Distance is how many tokens stand between a mention before a quantity and the quantity.
func (s *Sentence) Distance(m *Mention, q *Quantity) int {
	if m.token < q.token {
		return q.token - m.end
	}
	return m.token - q.token - 1
}

// Between gives the words and marks between a mention and a quantity behind it, or the reverse.
func (s *Sentence) Between(m *Mention, q *Quantity) []string {
	from, to := m.end, q.token
	if m.token > q.token {
		from, to = q.token+1, m.token
	}
	var list []string
	for i := from; i < to; i++ {
		list = append(list, s.tokens[i].text)
	}
	return list
}

// ClauseOf gives the clause in which a mention stands.
func (s *Sentence) ClauseOf(m *Mention) int { return s.clauseOf(m.token) }

// Before gives the word before a mention, articles left out.
func (s *Sentence) Before(m *Mention) string {
	i := m.token - 1
	for i > 0 && (s.tokens[i].text == "the" || s.tokens[i].text == "our" || s.tokens[i].text == "a" || s.tokens[i].text == "an" || s.tokens[i].text == "some" || s.tokens[i].text == "*") {
		i--
	}
	if i < 0 {
		return ""
	}
	return s.tokens[i].text
}

// Ruler gives the word that rules a mention: the one before it, articles, amounts and words such as “warm” left out.
func (s *Sentence) Ruler(m *Mention) string {
	i := m.token - 1
	for i > 0 && (s.tokens[i].kind == amount || s.tokens[i].kind == figure || lightWords[s.tokens[i].text]) {
		i--
	}
	if i < 0 {
		return ""
	}
	return s.tokens[i].text
}

var lightWords = set("the our a an some * our your this that warm hot cold cool dilute diluted plain neat fresh ordinary simple weak strong mild used old normal pure deionised lukewarm heated clean good little")

// After gives the word behind a mention.
func (s *Sentence) After(m *Mention) string {
	if m.end < len(s.tokens) {
		return s.tokens[m.end].text
	}
	return ""
}

// AllWords gives the words of the sentence, lower case, marks and quantities left out.
func (s *Sentence) AllWords() []string {
	list := make([]string, 0, len(s.tokens))
	for _, t := range s.tokens {
		if t.kind == word || t.kind == figure {
			list = append(list, t.text)
		}
	}
	return list
}

// Token is a word, mark or quantity of a sentence, for rules that look for an order of words.
type Token struct {
	Text   string
	From   int
	Clause int
	Amount bool
}

// Tokens gives the words, marks and quantities of the sentence. The list is the sentence's own, made when it is first asked for.
func (s *Sentence) Tokens() []Token {
	if s.shown != nil {
		return s.shown
	}
	list := make([]Token, len(s.tokens))
	clause := 0
	for i, t := range s.tokens {
		for clause+1 < len(s.Clauses) && i >= s.Clauses[clause].to {
			clause++
		}
		list[i] = Token{t.text, t.from, clause, t.kind == amount}
	}
	s.shown = list
	return list
}

// Attributed tells whether a clause has a word for what a quantity measures.
func (s *Sentence) Attributed(clause int) bool {
	c := &s.Clauses[clause]
	for i, t := range s.tokens[c.from:c.to] {
		if attributeWords[t.text] && !dirt[t.text] || c.from+i+1 < c.to && isAttribute(t.text+" "+s.tokens[c.from+i+1].text) {
			return true
		}
	}
	return false
}

// dirt are words of attributes that are soils in a label.
var dirt = set("wax oil grease film")

// Verbless tells whether no verb stands before a quantity in its clause.
func (s *Sentence) Verbless(q *Quantity) bool {
	for i := s.Clauses[q.Clause].from; i < q.token; i++ {
		if t := s.tokens[i]; t.kinds&(isFinite|isNormalVerb|isModal|isMay) != 0 {
			return false
		}
	}
	return true
}

// CountBefore gives the first number without a unit before a quantity, in figures or as a word, or 0.
func (s *Sentence) CountBefore(q *Quantity) float64 {
	for i := 0; i < q.token; i++ {
		t := s.tokens[i]
		if s.nameAt(i) {
			continue
		}
		if t.kind == figure && t.measured != nil {
			return t.low.value
		}
		if t.kind == word {
			if v, ok := smallNumbers[t.text]; ok && v >= 1 {
				return v
			}
		}
	}
	return 0
}

// Harmful tells whether the sentence speaks of something that goes wrong.
func (s *Sentence) Harmful() bool { return s.harmful }

// Commands tells whether a clause of the sentence commands or allows.
func (s *Sentence) Commands() bool {
	for _, c := range s.Clauses {
		if c.Mood == Do {
			return true
		}
	}
	return false
}

// Term is a number or a sign of a sum.
type Term struct {
	Number   bool
	Value    float64
	Decimals int
	Percent  bool
	Unit     bool // it has a unit
	Rough    bool // “about” stands before it
	Sign     string
	So       bool // the word “so”
	Spoken   bool // the sign is a word: times, plus, gives
	From, To int  // bytes of the block's text
}

// spokenSigns are words that are signs of a sum where numbers stand around them.
var spokenSigns = map[string]string{"times": "×", "plus": "+", "minus": "−", "divided": "÷", "equals": "=", "equal": "=", "gives": "=", "give": "=", "makes": "=", "make": "=", "is": "=", "are": "="}

// Arithmetic gives the numbers and signs of a sentence, in the units in which they are written; a word between them is a sign of no sum.
func (s *Sentence) Arithmetic() []Term {
	list := make([]Term, 0, len(s.tokens))
	for i, t := range s.tokens {
		term := Term{From: t.from, To: t.to, Sign: t.text}
		switch {
		case (t.kind == amount || t.kind == figure) && !t.span:
			term.Number, term.Value, term.Decimals = true, t.low.value, t.low.decimals
			term.Unit = t.kind == amount
			term.Percent = term.Unit && strings.Contains(t.q.Unit.Symbol, "%")
			term.Rough = i > 0 && rough[s.tokens[i-1].text]
			term.Sign = ""
		case t.text == "about" && len(list) > 0 && list[len(list)-1].Sign == "=":
			continue
		case t.kind == word && spokenSigns[t.text] != "":
			term.Sign, term.Spoken = spokenSigns[t.text], true
		case t.kind == word && t.text == "by" && len(list) > 0 && list[len(list)-1].Sign == "÷" && list[len(list)-1].Spoken:
			continue
		case t.kind == word && t.text != "x":
			term.Sign, term.So = "word", t.text == "so"
		}
		list = append(list, term)
	}
	return list
}

// PhraseBehind gives up to so many words behind a quantity, as far as the next mark or quantity.
func (s *Sentence) PhraseBehind(q *Quantity, most int) []string {
	var list []string
	for i := q.token + 1; i < len(s.tokens) && len(list) < most && s.tokens[i].kind != mark_ && s.tokens[i].kind != amount; i++ {
		list = append(list, s.tokens[i].text)
	}
	return list
}

// PhraseBefore gives up to so many words and marks before a quantity, as far as the quantity before.
func (s *Sentence) PhraseBefore(q *Quantity, most int) []string {
	i := q.token
	for i > 0 && q.token-i < most && s.tokens[i-1].kind != amount {
		i--
	}
	var list []string
	for ; i < q.token; i++ {
		list = append(list, s.tokens[i].text)
	}
	return list
}
