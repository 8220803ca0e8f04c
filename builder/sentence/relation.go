package sentence

import (
	"strings"

	"tankside/builder/quantity"
)

// phrases before a quantity, by what they mean; the longest that fits wins.
var before = map[string]Relation{}

// phrases behind a quantity.
var behind = map[string]Relation{}

func init() {
	put := func(m map[string]Relation, r Relation, list string) {
		for _, p := range strings.Split(list, ",") {
			m[p] = r
		}
	}
	put(before, AtMost, "up to,at most,no more than,not more than,never more than,no hotter than,not hotter than,never hotter than,no higher than,not higher than,never higher than,no warmer than,not above,not over,never above,never over,no longer than,not longer than,never longer than,not exceeding,not exceed,never exceed,nor above,nor over,not beyond,never beyond,maximum of,max,max .,maximum,≤,as high as,as hot as,as warm as,as much as,as long as,no stronger than,not stronger than,< =,at the most,not past,never past,and no more than,limit of,ceiling of,limited to,or under")
	put(before, AtLeast, "at least,no less than,not less than,never less than,not below,never below,no cooler than,never cooler than,not cooler than,no lower than,never lower than,not lower than,not under,never under,no colder than,never colder than,minimum of,min,min .,minimum,≥,> =,no weaker than,no shorter than,nor below,upwards of,not fall below,from at least")
	put(before, Above, "above,over,more than,beyond,hotter than,higher than,exceed,exceeds,exceeding,past,in excess of,warmer than,longer than,greater than,>,stronger than,better than")
	put(before, Below, "below,under,less than,cooler than,lower than,colder than,<,shorter than,short of,weaker than,fewer than,beneath")
	put(before, Difference, quantity.DifferenceBefore)
	put(before, To, "to,until,till,reach,reaches,reached,reaching,hits,hit,→,up at,towards,toward,back to,down to,as far as,for")
	put(before, From, "from,starting at,starting from,out of")
	put(behind, AtLeast, "or more,or hotter,or above,or higher,or over,and up,and above,upwards,upward,minimum,at least,or longer,or warmer,and more,and over,or stronger,and hotter,plus,+")
	put(behind, AtMost, "or less,or cooler,or below,or lower,or under,maximum,at most,at the most,at the outside,or shorter,max,tops,and below,and under,or weaker,limit,at the very most,and no more,and no hotter,no more,and not more,and less,or colder")
	put(behind, Difference, quantity.DifferenceBehind)
}

// addsUp are verbs behind which “up to” tells a sum and no limit.
var addsUp = set("add adds added adding")

var fillsUp = set("make made fill filled mix mixed bring heat warm raise set turn")

// differs are words of a difference whatever the unit.
var differs = set("± by within plus minus another further extra")

// between may stand between a phrase and its quantity.
var between = set("about roughly around some just only a an the full nearly almost approximately approx circa ca well clean ~ ≈ * even exactly precisely right")

// relationOf reads how the quantity at a token is meant.
func (s *Sentence) relationOf(i int, c *Clause) Relation {
	t := s.tokens[i]
	if t.signed || t.q.Kind == quantity.TemperatureDifference {
		return Difference
	}
	if r, ok := s.behind(i, c); ok && (r != Difference || t.q.Kind == quantity.Temperature && !s.comesFrom(i)) {
		return r
	}
	j := i - 1
	for j >= c.from && between[s.tokens[j].text] {
		j--
	}
	for n := 4; n >= 1; n-- {
		from := j - n + 1
		if from < 0 || from < c.from-1 {
			continue
		}
		r, ok := before[joined(s.tokens[from:j+1])]
		if !ok {
			continue
		}
		if r == Difference && t.span && s.tokens[j].text == "within" {
			return At // “within 190–220 °C”
		}
		if r == Difference && t.q.Kind == quantity.Length && s.tokens[j].text == "by" && j > 0 && s.tokens[j-1].kind == amount {
			return At // “600 mm by 450 mm”
		}
		if r == Difference && t.q.Kind != quantity.Temperature && !(t.q.Kind != quantity.Time && differs[joined(s.tokens[from:j+1])]) {
			return At
		}
		if r == AtMost && joined(s.tokens[from:j+1]) == "up to" && c.Mood == Do && fillsUp[c.Verb] {
			return To // “make it up to 6 %”
		}
		if r == AtMost && from > 0 && joined(s.tokens[from:j+1]) == "up to" && addsUp[s.tokens[from-1].text] {
			return At // “which adds up to 12 kWh”
		}
		if r == To && s.tokens[j].text == "for" && t.q.Kind != quantity.Time {
			return At
		}
		return s.folded(r, c, i)
	}
	if c.Mood == MustNot && s.negatedComparative(i, c) {
		return AtMost
	}
	return At
}

// comesFrom tells whether “from the” behind a temperature says where what has it comes from, and from what it differs: “water of 60 °C from the boiler”.
func (s *Sentence) comesFrom(i int) bool {
	return i+3 < len(s.tokens) && s.tokens[i+1].text == "from" && s.tokens[i+2].text == "the" && sources[s.tokens[i+3].text]
}

// sources are where hot and cold water comes from.
var sources = set("boiler tap mains kettle pipe line heater main hose tank rinse dryer")

// folded turns “above” in a negated clause into “at most”.
func (s *Sentence) folded(r Relation, c *Clause, i int) Relation {
	if c.Mood != MustNot && !(c.Opener != "" && c.Negated) && !(c.Negated && s.negationBefore(i, c)) {
		return r
	}
	switch r {
	case Above:
		return AtMost
	case Below:
		return AtLeast
	}
	return r
}

func (s *Sentence) negationBefore(i int, c *Clause) bool {
	for j := c.from; j < i; j++ {
		if negations[s.tokens[j].text] {
			return true
		}
	}
	return false
}

func (s *Sentence) negatedComparative(i int, c *Clause) bool {
	for j := c.from; j < i; j++ {
		if t := s.tokens[j].text; t == "exceed" || t == "beyond" || t == "past" {
			return true
		}
	}
	return false
}

// behind reads the phrase right behind a quantity.
func (s *Sentence) behind(i int, c *Clause) (Relation, bool) {
	for n := 3; n >= 1; n-- {
		if i+1+n > len(s.tokens) || s.tokens[i+1].text == "/" && i+2 < len(s.tokens) && s.tokens[i+2].kind == amount { // “48 °C / 118 °F”
			continue
		}
		if r, ok := behind[joined(s.tokens[i+1:i+1+n])]; ok {
			if n == 2 && i+3 < len(s.tokens) && (s.tokens[i+2].text == "hour" || s.tokens[i+2].text == "minute") && momentWords[s.tokens[i+3].text] {
				return At, false // “turned up to 79 °C an hour before the shift”
			}
			return r, true
		}
	}
	return At, false
}

// momentWords stand behind a time that tells when, and not how fast.
var momentWords = set("before after earlier later ago ahead")

// attributes are words for what a quantity measures. Those of two words come before those of one.
var attributes = []string{
	"flash point", "cloud point", "melting point", "boiling point", "dew point", "freezing point", "softening point", "working point", "set point", "set-point", "cut-out", "over-temperature", "over temperature",
	"water level", "sound power", "ultrasonic power", "heating power", "heater power", "half life", "shelf life",
}

var attributeWords = set(`cut-out set-point flash-point cloud-point thermal over-temperature relay ceiling limit volume capacity holds heater generator sound ultrasonic frequency conductivity flow density humidity hardness level depth length width height pressure
	room ambient air steam oven furnace kiln vacuum store storage storeroom warehouse drum drums sample beaker probe thermometer thermostat alarm fuse lid insulation hood kettle jet jets hose boiler
	bake baking baked freezer fridge shelf outdoors weather sun winter summer night frost body skin hand hands finger autoclave engine water mains feed inlet supply evaporator drain sump drip pump filter
	display meter screen gauge cable motor surface floor wall casing hall workshop concentrate concentrates titrant indicator dye burette oil grease wax gun blower titration
	resin membrane deioniser column waste bottle flashes melt melts boils freezes lights ignites autoignites share load loads basket drag-out losses loss error accuracy resolution
	silica desiccant lamp bulb hot-melt glue cure cured curing annealed anneal tempered temper temper-blue stress-relieve forge weld welding solder soldering braze brazing
	rinse dryer drying dry blow blow-off preheat open paint-oven recovery full duty yield price cost`)

// attributeOf gives the word for what a quantity measures: the last before it in its clause, or the one right behind it.
func (s *Sentence) attributeOf(i int, c *Clause) string {
	for _, n := range []int{2, 1} {
		if i+1+n <= len(s.tokens) && i+n < c.to+1 {
			w := joined(s.tokens[i+1 : i+1+n])
			if n == 2 && isAttribute(w) || n == 1 && attributeWords[w] && !(c.Verb == w) {
				return w
			}
		}
	}
	best := ""
	// What an earlier amount of the clause measures is not what this one does.
	from := c.from
	for j := i - 1; j >= c.from; j-- {
		if s.tokens[j].kind == amount && s.tokens[j].q.Kind == s.tokens[i].q.Kind {
			from = j
			break
		}
	}
	if c.Mood == Do { // what stands before the verb is the occasion: “For burnt oil run the bath at …”
		for j := from; j < i; j++ {
			if s.tokens[j].text == c.Verb && imperatives[c.Verb] {
				from = j
				break
			}
		}
	}
	for j := from; j < i; j++ {
		if best != "" && s.subjectAt(j, c) {
			best = "" // “In winter Wash 2 is warmed to …”
		}
		if s.tokens[j].kind != word || s.inLink(j) {
			continue
		}
		if j+1 < i && attributeStarts[s.tokens[j].text] {
			if two := s.tokens[j].text + " " + s.tokens[j+1].text; isAttribute(two) {
				best = two
				continue
			}
		}
		if w := s.tokens[j].text; attributeWords[w] && !(dirt[w] && s.soils(j, c)) && !(j+1 < i && s.tokens[j+1].text == "shift") && !(j == s.firstWord(c) && imperatives[w]) && !(j == from && w == c.Verb) && !s.nameAt(j) && !(w == "body" && j > 0 && bodies[s.tokens[j-1].text]) && !soilPairs[w+" "+s.tokens[j+1].text] && !(fittings[w] && inState[s.tokens[j+1].text]) {
			best = w
		}
	}
	if best == "" && c.from > 1 && s.tokens[c.from-1].text == ":" { // “Flash point, closed cup: 61 °C”
		two := s.tokens[0].text + " " + s.tokens[1].text
		for _, t := range s.tokens[:c.from] {
			if t.kind == amount {
				return best // the label has its amount
			}
		}
		if labelOf[two] {
			return two
		}
	}
	return best
}

// bodies are words before “body” with which it is a part's.
var bodies = set("the this each valve pump")

// soilPairs begin with a word of an attribute that here belongs to what sits on the work, or measures nothing: “full of old grease”, “brazing flux”.
var soilPairs = map[string]bool{"full of": true, "full effect": true, "brazing flux": true, "soldering flux": true, "drawing oil": true, "drying oil": true,
	"baked oil": true, "baked grease": true, "baked carbon": true, "baked flux": true, "baked soil": true, "baked coolant": true, "baked paste": true}

// fittings are parts of a tank that are only told to be on or shut, as on a list: “W2: lid on, 48 °C”.
var (
	fittings = set("lid hood pump filter lamp fuse insulation")
	inState  = set("on off shut closed open down up half")
)

// labelOf are attributes that stand as a label before a colon.
var labelOf = map[string]bool{"flash point": true, "cloud point": true}

// soils tells whether a word such as grease is only what sits on the work: “parts with baked-on grease”, “for old wax”.
func (s *Sentence) soils(i int, c *Clause) bool {
	for j := i - 1; j >= max(c.from, i-3); j-- {
		switch s.tokens[j].text {
		case "with", "of", "from", "for", "against":
			return true
		case "the", "a", "an", "and":
			return false
		}
	}
	return false
}

// subjectAt tells whether a bath begins at a token of which the clause speaks from there on: no preposition joins it to what stands before.
func (s *Sentence) subjectAt(i int, c *Clause) bool {
	for k := range s.Mentions {
		m := &s.Mentions[k]
		if m.token != i || m.Where || !(m.Thing.Bath() || m.Stands && bathNouns[lastWord(m.Word)]) {
			continue
		}
		j := s.skipBack(i - 1)
		return i > c.from && !joinsNouns[s.tokens[j].text]
	}
	return false
}

// joinsNouns are words that join a noun to the one before.
var joinsNouns = set("of in for by beside to from with near at on inside into under over and than per against around")

func (s *Sentence) inLink(i int) bool { return s.linkAt(s.tokens[i].from) != nil }

func (s *Sentence) firstWord(c *Clause) int {
	i := c.from
	for i < c.to && (s.tokens[i].kind == mark_ || fillers[s.tokens[i].text]) {
		i++
	}
	return i
}

func isAttribute(two string) bool { return twoWords[two] }

// twoWords are the attributes in both their spellings.
var twoWords = func() map[string]bool {
	m := map[string]bool{}
	for _, a := range attributes {
		m[a], m[strings.ReplaceAll(a, " ", "-")] = true, true
	}
	return m
}()

// attributeStarts are the first words of those.
var attributeStarts = func() map[string]bool {
	m := map[string]bool{}
	for _, a := range attributes {
		first, _, _ := strings.Cut(a, " ")
		m[first] = true
	}
	return m
}()
