package rules

import (
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
	"tankside/calculators/safety"
)

// waterIntoConcentrate finds text that says to pour water into acid or concentrate, to put the concentrate in first, or to throw solid caustic
// into hot water. It prevents that the first drops boil and throw acid or caustic into a face.
// Limit: common practice of every safety data sheet, acid and caustic into water; from memory.
var waterIntoConcentrate = finding.Rule{
	Name: "water-into-concentrate", Severity: finding.People,
	Finds:  "a text that says to pour water into acid or concentrate, or solid caustic into hot water",
	Why:    "The heat of mixing boils the first water at once, and it throws acid or caustic out.",
	Source: "common practice, no source; safety data sheets of acids and caustics, from memory, to be confirmed by the safety officer",
}

var (
	strongStuff = sentence.Set("concentrate concentrates acid acids caustic lye potash flakes pellets granules neat concentrated")
	solidStuff  = sentence.Set("flakes pellets granules solid beads pearls prills lumps caustic lye soda")
	pourVerbs   = sentence.Set("pouring running adding tipping splashing spraying hosing lay strew strewn scatter scattered pour add put tip run fill splash drop mix stir give charge trickle dribble start begin dose throw sprinkle shake toss goes go comes dilute feed top let measure empty poured added tipped filled splashed dropped mixed stirred given charged trickled dosed thrown sprinkled shaken tossed diluted fed topped emptied measured dissolve dissolves dissolved pours adds gets runs ladled poured-in stirs drips dumped dump")
	notNear     = sentence.Set("bath level wrong order before drum line topped splashes why means reason rinse rinsed used spent first-aid waste cold skin eyes eye spill spilt floor hose flush")
)

// waterFirst is the remedy of all that is wrong about the order.
const waterFirst = "Water first, then acid or concentrate into it, slowly and stirred; solid caustic into cold water only."

func findWaterIntoConcentrate(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	said := p.reading(a)
	for i := range said.sentences {
		s := &said.sentences[i]
		if i > 0 && answersFirst(&said.sentences[i-1], s) {
			list = append(list, waterIntoConcentrate.At(placeIn(a, s.Block, s.From+leading(s)), "The text says to put the concentrate in first and water on it.", waterFirst))
			continue
		}
		var one *sentence.Sentence
		if i > 0 {
			one = &said.sentences[i-1]
		}
		if waterOnTop(one, s) || firstThen(s) || waterLoosens(s) {
			list = append(list, waterIntoConcentrate.At(placeIn(a, s.Block, s.From+leading(s)), "The text puts the concentrate in first and water on it.", waterFirst))
			continue
		}
		if s.Quiet() || !s.Has(strongStuff) && !s.Has(solidStuff) && !s.Has(powders) && !s.Has(jugs) && !s.Has(neatThings) || s.Block.Signal != "" {
			continue
		}
		if thenIntoWater(s.Tokens()) || beginsWith(s, s.Tokens(), wetWords) {
			continue
		}
		k := clauseWith(s, strongStuff)
		first := (acidFirst(s) || strongThenWater(s)) && (i == 0 || said.sentences[i-1].Block != s.Block || !strings.Contains(strings.ToLower(said.sentences[i-1].Text()), "water"))
		if !first && (against(s, k) || s.Has(exceptions) || s.Has(accidents)) {
			continue
		}
		says := "The text says to put the concentrate in first and water on it."
		if !first {
			says = wrongOrder(s)
		}
		if says != "" {
			list = append(list, waterIntoConcentrate.At(placeIn(a, s.Block, s.From+leading(s)), says, waterFirst))
		}
	}
	if len(list) == 0 {
		list = eachBlock(said.sentences, func(block []sentence.Sentence) *finding.Finding { return strongVessel(a, block) })
	}
	list = append(list, checklistOrder(a, said.sentences)...)
	list = append(list, acidFirstInTable(a, said.sentences)...)
	return append(list, p.acidFirstInSteps(a, said.sentences)...)
}

// eachBlock looks through sentences block by block.
func eachBlock(said []sentence.Sentence, look func([]sentence.Sentence) *finding.Finding) []finding.Finding {
	var list []finding.Finding
	for i := 0; i < len(said); {
		j := i
		for j < len(said) && said[j].Block == said[i].Block {
			j++
		}
		if f := look(said[i:j]); f != nil {
			list = append(list, *f)
		}
		i = j
	}
	return list
}

// accidents are words of what has happened to somebody.
var accidents = sentence.Set("burned accident blinded scarred whoever")

// leading is how many blanks a sentence begins with.
func leading(s *sentence.Sentence) int { return blanksOf(s.Block.Text[s.From:s.To]) }

// blanksOf is how many blanks and line ends a text begins with: a sentence of wrapped text may begin behind one.
func blanksOf(text string) int { return len(text) - len(strings.TrimLeft(text, " \n")) }

// denied tells whether a sentence forbids or denies.
func denied(s *sentence.Sentence) bool {
	for i := range s.Clauses {
		if m := s.Clauses[i].Mood; (m == sentence.MustNot || m == sentence.Was || m == sentence.Example) && !isPurpose(s, i) {
			return true
		}
	}
	words := s.Tokens()
	for i, w := range words {
		if w.Text == "no" && i+1 < len(words) && noMatter[words[i+1].Text] {
			continue
		}
		if noWords[w.Text] && !(w.Text == "avoid" && i > 0 && words[i-1].Text == "to") {
			return true
		}
	}
	return false
}

// isPurpose tells whether a clause only says what for the next one is commanded: “To stop it foaming, stir in vinegar”.
func isPurpose(s *sentence.Sentence, k int) bool {
	list := s.Words(k)
	return s.Clauses[k].Mood == sentence.MustNot && len(list) > 2 && list[0] == "to" && preventing[list[1]] && k+1 < len(s.Clauses) && s.Clauses[k+1].Mood == sentence.Do
}

// noMatter are nouns with which “no” denies nothing that is done: “in no time”, “it does no harm”.
var noMatter = sentence.Set("time harm damage problem trouble matter danger risk doubt")

var preventing = sentence.Set("stop avoid prevent keep")

var noWords = sentence.Set("not never no don't nobody cannot nor without mistake wrong avoid instead")

func wrongOrder(s *sentence.Sentence) string {
	words := s.Tokens()
	verb, commanded := false, false
	for i := range s.Clauses {
		if m := s.Clauses[i].Mood; m == sentence.Do || m == sentence.Fragment || m == sentence.Is || m == sentence.If && s.Clauses[i].Opener == "" {
			commanded = true
		}
	}
	for i, w := range words { // “Pouring water into acid throws it out” asks for nothing, “by pouring” does
		verb = verb || pourVerbs[w.Text] && (!strings.HasSuffix(w.Text, "ing") || i > 0 && words[i-1].Text == "by") || w.Text == "hose" && i > 1 && hoseOn[words[i-2].Text]
	}
	if !commanded {
		return ""
	}
	if hosesSolid(words) {
		return "The text says to pour water on solid caustic."
	}
	verb = verb || s.Has(better) && s.Has(solidForms) || words[0].Text != "cold" && (s.Has(sparing) || s.Has(better)) && nextOf(words[:min(len(words), 3)], -1, waterWord)
	water, stuff, solid := -1, -1, -1
	for i, w := range words {
		switch {
		case w.Text == "hose" && wordAt(words, i+1) == "run" && i > 1 && words[i-2].Text == "let" && verb, w.Text == "water" || w.Text == "hose" && i > 1 && hoseOn[words[i-2].Text]:
			if water < 0 {
				water = i
			}
			// water … into … the acid
			for j := i + 1; j < min(i+7, len(words)); j++ {
				if words[j].Text == "." || words[j].Text == ";" || words[j].Text == "then" || words[j].Text == "," && j > i+2 {
					break
				}
				if (words[j].Text == "into" || words[j].Text == "to" || words[j].Text == "onto" || words[j].Text == "on" || words[j].Text == "over") && verb {
					for k := j + 1; k < min(j+6, len(words)); k++ {
						t := words[k].Text
						if t == "water" || t == "," || t == "and" || notNear[t] || t == "tank" || t == "dilute" || t == "mixing" || t == "until" {
							break
						}
						if t == "them" && slices.ContainsFunc(words[:i], func(w sentence.Token) bool { return solidForms[w.Text] }) {
							return "The text says to pour water on solid caustic."
						}
						if t == "it" && stuff >= 0 && stuff < i {
							return "The text says to pour water into " + words[stuff].Text + "."
						}
						if strongStuff[t] && !(k+1 < len(words) && (words[k+1].Text == "bath" || words[k+1].Text == "tank" || words[k+1].Text == "drum")) {
							return "The text says to pour water into " + t + "."
						}
					}
				}
			}
		case strongStuff[w.Text] && stuff < 0:
			stuff = i
		}
		if solidStuff[w.Text] && solid < 0 {
			solid = i
		}
	}
	if thrownIn(words) {
		return "The text says to put solid caustic into something hot."
	}
	if solid >= 0 && !intoCold(words) && (s.Has(solidForms) || s.Has(bareCaustic) && s.Has(throws)) && verb {
		for i := solid + 1; i < len(words); i++ {
			if heated[words[i].Text] || hotAmount(s, words[i].From) && (words[i-1].Text == "at" || words[i-1].Text == "of") && words[i-2].Text != "heat" {
				if bathAround(words, i) {
					return "The text says to put solid caustic into something hot."
				}
			}
			if heated[words[i].Text] {
				for j := i; j < min(i+4, len(words)); j++ {
					if t := words[j].Text; t == "water" || t == "bath" || t == "tank" || t == "liquid" || t == "wash" || t == "solution" || words[i].Text == "kettle" {
						return "The text says to put solid caustic into something hot."
					}
				}
			}
		}
	}
	if onTop(s, words) || filledWith(words) || startsWith(words) || jugIntoDry(words) {
		return "The text says to put the concentrate in first and water on it."
	}
	if stuff < 0 || water < 0 && !s.Has(fillWords) {
		return ""
	}
	// the acid first, then the water
	if s.Has(mostWater) || intoWater(words, stuff) {
		return ""
	}
	first := s.Has(comesFirst)
	then := -1
	for i, w := range words {
		if (w.Text == "then" || w.Text == "afterwards" || w.Text == "after" || w.Text == "followed" || w.Text == "up" || w.Text == "next" || w.Text == "second" || w.Text == "with") && i > stuff {
			then = i
			break
		}
	}
	if first && then > stuff && !s.Has(rinses) && (water > then || water > stuff) && (verb || s.Clauses[0].Mood == sentence.Fragment) && !waterBefore(words, stuff) {
		return "The text says to put the concentrate in first and water on it."
	}
	return ""
}

// intoCold tells whether something is said to go into what is cold, or to dissolve there.
func intoCold(words []sentence.Token) bool {
	for i, w := range words {
		if (w.Text == "into" || w.Text == "to" || w.Text == "in") && (wordAt(words, i+1) == "cold" || wordAt(words, i+2) == "cold") {
			return true
		}
	}
	return false
}

// intoWater tells whether what stands at a place goes into water that is there: “Add the concentrate to the first 80 L of water”.
func intoWater(words []sentence.Token, i int) bool {
	for j := i + 1; j < min(i+6, len(words)) && words[j].Clause == words[i].Clause; j++ {
		if t := words[j].Text; t == "to" || t == "into" || t == "in" && !thenMarks[wordAt(words, j+1)] {
			return nextOf(words[:min(len(words), j+6)], j, waterWord) || j+5 < len(words) && words[j+5].Text == "water"
		}
	}
	return false
}

// thenIntoWater tells whether what is measured out in one vessel goes from there into the water: “into the empty bucket first, and from there into the water”.
func thenIntoWater(words []sentence.Token) bool {
	from := false
	for i, w := range words {
		from = from || w.Text == "from" && (wordAt(words, i+1) == "there" || wordAt(words, i+1) == "it")
		if from && (w.Text == "into" || w.Text == "to") && (wordAt(words, i+1) == "water" || wordAt(words, i+2) == "water") {
			return true
		}
	}
	return false
}

// hotAmount tells whether a temperature at which water counts as hot begins at a place.
func hotAmount(s *sentence.Sentence, from int) bool {
	for i := range s.Quantities {
		if q := &s.Quantities[i]; q.From == from {
			return q.Kind == quantity.Temperature && q.Range.Low >= safety.HotAsWater && q.Relation == sentence.At
		}
	}
	return false
}

// bathAround tells whether what is hot at a place is a bath into which something goes.
func bathAround(words []sentence.Token, i int) bool {
	bath, into := false, false
	for j := max(0, i-5); j < i; j++ {
		bath = bath || vessels[words[j].Text] || words[j].Text == "water"
		into = into || words[j].Text == "into" || words[j].Text == "in"
	}
	return bath && into
}

// thrownIn finds solid caustic that comes into a hot bath named before: “Strengthen the hot bath by throwing in flakes”.
func thrownIn(words []sentence.Token) bool {
	for i := 0; i+4 < len(words); i++ {
		if !heated[words[i].Text] || !vessels[words[i+1].Text] || words[i+2].Text != "by" && words[i+2].Text != "with" {
			continue
		}
		if words[i+2].Text == "by" && throwing[words[i+3].Text] && nextOf(words[:min(len(words), i+7)], i+3, solidForms) || words[i+2].Text == "with" && nextOf(words[:min(len(words), i+7)], i+2, solidForms) {
			return true
		}
	}
	return false
}

var throwing = sentence.Set("throwing adding sprinkling tossing shaking tipping pouring putting")

// hosesSolid finds “Hose the flakes down from above”: water comes onto what is solid or strong. What is spilt is hosed elsewhere.
func hosesSolid(words []sentence.Token) bool {
	for i, w := range words {
		if w.Text != "hose" && w.Text != "spray" && w.Text != "sprinkle" || i > 0 && words[i-1].Text != "and" && words[i-1].Text != "then" && words[i-1].Text != "," && words[i-1].Text != ":" {
			continue
		}
		for j := i + 1; j < min(i+4, len(words)); j++ {
			if notNear[words[j].Text] || wordAt(words, j+1) == "drum" {
				break
			}
			if solidForms[words[j].Text] {
				return w.Text == "hose" || nextOf(words[:min(len(words), j+5)], j, waterWord)
			}
		}
	}
	return false
}

// startsWith finds “Start with the concentrate and add the water”.
func startsWith(words []sentence.Token) bool {
	for i := 0; i+3 < len(words); i++ {
		if (words[i].Text == "start" || words[i].Text == "begin") && words[i+1].Text == "with" && nextOf(words[:min(len(words), i+4)], i+1, strongStuff) {
			for j := i + 4; j < len(words); j++ {
				if (dilutes[words[j].Text] || words[j].Text == "then") && nextOf(words[:min(len(words), j+4)], j, waterWord) {
					return true
				}
			}
		}
	}
	return false
}

// jugIntoDry finds “Empty the jug into the dry tank, then open the water valve”: the jug has the concentrate.
func jugIntoDry(words []sentence.Token) bool {
	jug := false
	for i := 0; i+3 < len(words); i++ {
		jug = jug || jugs[words[i].Text] && i > 1 && jugOut[words[i-2].Text]
		if jug && (words[i].Text == "into" || words[i].Text == "in") && dryVessel[words[i+2].Text] && words[i+2].Text != "clean" && vessels[words[i+3].Text] {
			return nextOf(words, min(i+5, len(words)-1), waterWord)
		}
	}
	return false
}

var (
	hoseOn = sentence.Set("run direct hold point aim turn put")
	jugs   = sentence.Set("jug drum canister")
	jugOut = sentence.Set("empty pour tip")
)

// filledWith tells whether a tank is filled with acid or concentrate and water is put on it in a later clause.
func filledWith(words []sentence.Token) bool {
	for i := 0; i+3 < len(words); i++ {
		if words[i].Text != "fill" && words[i].Text != "charge" {
			continue
		}
		for j := i + 1; j < min(i+6, len(words)); j++ {
			if words[j].Text == "with" && (nextOf(words, j, strongStuff)) && !nextOf(words, j, waterWord) {
				for k := j; k < len(words); k++ {
					if words[k].Clause > words[j].Clause && dilutes[words[k].Text] && nextOf(words, k, waterWord) {
						return true
					}
				}
			}
		}
	}
	return false
}

var (
	waterWord = sentence.Set("water")
	dilutes   = sentence.Set("dilute dilutes thin top add fill follow make")
)

// onTop tells whether acid, concentrate or powder goes into a tank without water, or first, and water follows in another clause or on top.
func onTop(s *sentence.Sentence, words []sentence.Token) bool {
	if s.Has(mostWater) {
		return false
	}
	for i, w := range words {
		if !strongStuff[w.Text] && !powders[w.Text] || i > 0 && (words[i-1].Text == "with" || words[i-1].Text == "of" && !strongStuff[w.Text]) || waterBefore(words, i) || intoWater(words, i) {
			continue
		}
		end := i + 1
		first, poured := false, false
		for j := range words {
			if words[j].Clause != w.Clause {
				continue
			}
			end = j + 1
			first = first || words[j].Text == "first" && j-i < 8
			first = first || dryVessel[words[j].Text] && j > i && j+1 < len(words) && vessels[words[j+1].Text]
			poured = poured || pourVerbs[words[j].Text] || words[j].Text == "onto" || words[j].Text == "into"
		}
		if !first || !poured && !(words[0].Text == "first" && s.Clauses[0].Mood == sentence.Fragment) {
			continue
		}
		for j := i + 1; j < len(words); j++ {
			switch t := words[j].Text; {
			case t == "before" || t == "after" || t == "rinse" || t == "rinsed" || strongStuff[t]:
				return false
			case (t == "water" || t == "hose") && j >= min(end, i+4), j >= end && (t == "fill" || t == "top" || t == "line" || t == "make"):
				return true
			}
		}
	}
	return false
}

var (
	dryVessel = sentence.Set("dry empty bare drained emptied clean")
	vessels   = sentence.Set("floor tank bath vat bucket drum pot beaker jug vessel container unit basin flask bottle mixing")
)

func waterBefore(words []sentence.Token, stuff int) bool {
	for _, w := range words[:stuff] {
		if w.Text == "water" {
			return true
		}
	}
	return false
}

var (
	powders     = sentence.Set("crystals powder product cleaner detergent")
	solidForms  = sentence.Set("flakes pellets granules solid beads pearls prills")
	bareCaustic = sentence.Set("caustic lye")
	throws      = sentence.Set("sprinkle throw toss shake")
	fillWords   = sentence.Set("fill top hose tap make")
	heated      = sentence.Set("hot warm boiling kettle steaming scalding simmering")
	mostWater   = sentence.Set("two-thirds thirds half-full most rest remaining remainder before last")
	comesFirst  = sentence.Set("first empty dry bottom start begin")
)
