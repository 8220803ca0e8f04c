package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
	"tankside/calculators/safety"
)

// foreignInBath finds a sentence that puts something else than its own chemistry into a tank of the shop. What comes in is a chemistry that the tank
// does not hold, a household thing, or any cleaner; it goes into the tank, or the tank is filled, stretched or topped up with it, by a
// command, in the passive, as what is allowed, or as what helps: “Leftover neutral detergent may be emptied into Wash 1”, “Wash 1 can be
// stretched with a jug of neutral detergent”, “Any cleaner on the shelf will do to top up Wash 2”.
func (p *proof) foreignInBath(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if !hasTank(s) || s.Block.Kind == sentence.Cell || s.Block.Kind == sentence.Heading || s.Has(ownCleaner) || s.Has(notPoured) || denied(s) || illOf(s) || s.Has(exceptions) || s.Question || s.TakenBack {
		return nil
	}
	words := s.Tokens()
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Thing == nil || m.Thing.Tank == nil || m.Where {
			continue
		}
		k := s.ClauseOf(m)
		if c := &s.Clauses[k]; c.Opener != "" && c.Opener != "(" && !(c.Opener == "when" && praisesElse(s, k)) || c.Mood == sentence.Was || c.Mood == sentence.MustNot || s.ClauseHas(k, longAgo) || s.ClauseHas(k, haveBeen) {
			continue
		}
		in := into(s, m) && s.Ruler(m) != "through" && s.Ruler(m) != "with" && s.Ruler(m) != "by" && (s.ClauseHas(k, pouredWords) || s.ClauseHas(k, portions))
		filled := s.ClauseHas(k, filledWords) || takesIn[s.After(m)] || mayBe[s.After(m)] && s.ClauseHas(k, takesIn)
		serving := s.Before(m) == "for" && s.ClauseHas(k, doesFor)
		in = in || serving
		if !in && !filled {
			continue
		}
		name := p.foreignBefore(a, s, words, m, k, in, filled)
		if name == "" {
			continue
		}
		t := m.Thing.Tank
		f := mixedInText.At(placeIn(a, s.Block, max(0, m.From)), fmt.Sprintf("The text puts %s into %s, which holds %s.", name, t.Name, t.Chemistry.Name), "Nothing goes into a bath but its own chemistry and water: take it out.", t.Chemistry.At)
		return &f
	}
	return nil
}

// foreignOnPage finds, on a chemistry's page, an amount of another chemistry that goes into the bath of the page: “A litre of mild alkaline in the bath helps
// against thick grease”.
func (p *proof) foreignOnPage(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if a.Chemistry == nil || a.Partial || hasTank(s) || s.Block.Kind == sentence.Cell || s.Block.Kind == sentence.Heading || s.Has(ownCleaner) || s.Has(notPoured) || s.Has(exceptions) || !s.Has(portions) && !hasVolume(s) {
		return nil
	}
	words := s.Tokens()
	for i := range s.Mentions {
		m := &s.Mentions[i]
		k := s.ClauseOf(m)
		if m.Where || !m.Thing.Single(manual.Chemistry) || m.Thing.Called(a.Name) || s.Before(m) != "of" || s.Clauses[k].Opener != "" || s.Clauses[k].Mood == sentence.Was || denied(s) || illOf(s) || s.Question || s.TakenBack {
			continue
		}
		for j, w := range words {
			if w.Clause == k && w.From > m.From && (w.Text == "in" || w.Text == "into" || w.Text == "to") && (wordAt(words, j+1) == "the" || wordAt(words, j+1) == "this") && (wordAt(words, j+2) == "bath" || wordAt(words, j+2) == "mix") {
				f := mixedInText.At(placeIn(a, s.Block, max(0, m.From)), fmt.Sprintf("The text puts %s into the bath of %s.", p.titleOf(m.Thing), a.Head.Title), "Nothing goes into a bath but its own chemistry and water: take it out.")
				return &f
			}
		}
	}
	return nil
}

// hasTank tells whether a sentence names a tank of the shop.
func hasTank(s *sentence.Sentence) bool {
	for i := range s.Mentions {
		if t := s.Mentions[i].Thing; t != nil && t.Tank != nil {
			return true
		}
	}
	return false
}

// foreignBefore gives what a clause puts into a tank that the tank does not hold, or "".
func (p *proof) foreignBefore(a *manual.Article, s *sentence.Sentence, words []sentence.Token, tank *sentence.Mention, k int, in, filled bool) string {
	for i := range s.Mentions {
		m := &s.Mentions[i]
		own := m.Stands && m.From > tank.From && (m.Word == "it" || m.Word == "them") && a.Chemistry != nil && !a.Partial && m.Thing == tank.Thing // which it cannot mean there
		if m == tank || m.Where || s.ClauseOf(m) != k || !own && m.Thing != nil && m.Thing.Kind() != manual.Chemistry || m.Thing == nil && !(m.Stands && a.Chemistry != nil && (m.Word == "it" || isBathWord(m.Word))) {
			continue
		}
		of := p.ofMention(a, m)
		if own {
			of = p.ownSubject(a, "")
		}
		if len(of.chemistries) != 1 || of.chemistries[0].Name == tank.Thing.Tank.Chemistry.Name {
			continue
		}
		behind := m.From > tank.From
		if own && in && s.ClauseHas(k, usedInTank) && (mayBe[s.After(m)] || s.After(m) == "is") {
			return of.name() // “In Wash 1 it may be used for a day”
		}
		if in && !behind && (m.Thing != nil || s.Before(m) == "of") && !comesFrom[s.Before(m)] || filled && behind && (s.Ruler(m) == "with" || takesIn[s.Before(m)] && (own || s.Clauses[k].Mood != sentence.Do)) || filled && behind && s.Before(m) == "of" && s.ClauseHas(k, portions) {
			return of.name()
		}
	}
	if list := s.Words(k); in && a.Chemistry != nil && !a.Partial && len(list) > 2 && mayBe[list[0]] && list[1] == "be" && usedInTank[list[2]] && a.Name != tank.Thing.Tank.Chemistry.Name {
		return a.Head.Title // “Can be used in Wash 1”
	}
	for i, w := range words {
		if w.Clause != k {
			continue
		}
		next := i+1 < len(words) && cleanerNouns[words[i+1].Text]
		switch before := w.From < tank.From; {
		case household[w.Text] && (in && before || filled && i > 0):
			if i > 0 && (words[i-1].Text == "from" || words[i-1].Text == "against") || p.holdsThat(tank.Thing.Tank, w.Text) {
				continue
			}
			return w.Text
		case whichever[w.Text] && next && (in && before || filled):
			return w.Text + " " + words[i+1].Text
		}
	}
	return ""
}

// holdsThat tells whether a tank's own chemistry is what a word names: acid in a tank of acid, or a word of its title.
func (p *proof) holdsThat(t *manual.Tank, word string) bool {
	c := p.Named(manual.Chemistry, t.Chemistry.Name)
	if c == nil {
		return false
	}
	return word == "acid" && isAcid(c) || slices.Contains(strings.Fields(strings.ToLower(c.Head.Title)), word)
}

// praisesElse tells whether another clause of a sentence says that what a clause tells of does good.
func praisesElse(s *sentence.Sentence, k int) bool {
	for j := range s.Clauses {
		if j != k && s.Clauses[j].Opener == "" && (s.ClauseHas(j, doesGood) || s.ClauseHas(j, better)) && !denies(s, j) {
			return true
		}
	}
	return false
}

// acidWithAlkali finds a clause that has acid and alkali come together, whatever brings them there: what is poured into or to the other, mixed,
// joined or collected with it, one vessel for both, or the one weakened, quenched or brought to a pH with the other. On a chemistry's page the
// bath of that page is one of the two.
func (p *proof) acidWithAlkali(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if !s.Has(acids) && !s.Has(alkalis) && !s.Has(householdSides) || s.Has(keptApart) || inTwo(s.Tokens()) || denied(s) || illOf(s) || s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || s.Has(exceptions) || s.Has(ofTest) && !s.Has(straight) {
		return nil
	}
	own := sideOfPage(a)
	words := s.Tokens()
	for k := range s.Clauses {
		c := &s.Clauses[k]
		if c.Opener != "" && c.Opener != "whatever" && !((c.Opener == "when" || c.Opener == "if") && praisesElse(s, k)) || c.Mood == sentence.Was || c.Mood == sentence.Ask || s.ClauseHas(k, longAgo) || s.ClauseHas(k, haveBeen) {
			continue
		}
		sides := [3]int{-1, -1, -1} // where a word of each side stands first
		ones := 0
		for i, w := range words {
			if w.Clause != k && !(w.Clause == k-1 && onlyNoun(s, k-1)) {
				continue
			}
			if w.Text == "one" {
				ones++
			}
			if side := p.sideWord(s, words, i); side != 0 && sides[side+1] < 0 {
				sides[side+1] = i
			}
		}
		acid, alkali := sides[0], sides[2]
		both := acid >= 0 && alkali >= 0
		half := !both && own != 0 && sides[1-own] >= 0
		added := half && addedHere(s, words, k, sides[1-own])
		switch {
		case both && s.ClauseHas(k, together) && s.ClauseHas(k, doesGood), both && (s.ClauseHas(k, togetherVerbs) && s.ClauseHas(k, togetherWords) || s.ClauseHas(k, joinVerbs)):
		case both && s.ClauseHas(k, placeIt) && hasAny(words[max(0, max(acid, alkali)-3):max(acid, alkali)], intoPlace):
		case both && ones == 1 && s.ClauseHas(k, drums) && !s.ClauseHas(k, eachWord):
		case (both || half) && s.ClauseHas(k, turnsPH) && ruledByWith(words, k, sides[0], sides[2]):
		case half && s.ClauseHas(k, portions) && (s.ClauseHas(k, phWords) || s.ClauseHas(k, togetherVerbs) && s.ClauseHas(k, bathWords)):
		case half && s.ClauseHas(k, togetherVerbs) && !s.Has(rinses) && intoHere(words, k, sides[1-own]):
		case half && s.ClauseHas(k, useUp):
		case both && s.ClauseHas(k, together) && pouredAfter(s, k), both && s.ClauseHas(k, drains) && s.ClauseHas(k, togetherVerbs) && s.ClauseHas(k, oneOrSame):
		case half && s.ClauseHas(k, straight) && (comesHere(words, k) || fromHere(words, k)) && !s.Has(rinses):
		case half && (s.Has(portions) || hasVolume(s)) && sides[1-own] <= firstOf(words, k)+2 && (s.ClauseHas(k, takesDown) || s.ClauseHas(k, better)):
		case half && !hasTank(s) && (added || servesToTurn(s, words, k, sides[1-own])):
		default:
			continue
		}
		f := mixedInText.At(placeIn(a, s.Block, s.From+leading(s)), "The text brings acid and alkali together.", "Keep them apart, each in its own vessel, with a rinse between the baths; what neutralises waste is for licensed practice.")
		return &f
	}
	return nil
}

// onlyNoun tells whether a clause is no more than the first of two nouns of a subject: “Acid and alkaline waste may share one container”.
func onlyNoun(s *sentence.Sentence, k int) bool {
	c := &s.Clauses[k]
	return k == 0 && c.Opener == "" && c.Verb == "" && len(s.Words(k)) < 4 && strings.HasSuffix(strings.Join(s.Words(k), " "), " and")
}

// firstOf gives the place of the first word of a clause.
func firstOf(words []sentence.Token, k int) int {
	return slices.IndexFunc(words, func(w sentence.Token) bool { return w.Clause == k })
}

// sideOfPage gives −1 for a chemistry's page of acid, 1 for one of alkali, 0 for any other page.
func sideOfPage(a *manual.Article) int {
	switch {
	case a.Chemistry == nil || a.Partial:
	case isAcid(a):
		return -1
	case a.Chemistry.PH.Set && a.Chemistry.PH.Low > safety.AlkalineAbove:
		return 1
	}
	return 0
}

// comesHere tells whether a clause has something come into the bath of its page: “straight in here”, “straight into this bath”.
func comesHere(words []sentence.Token, k int) bool {
	for i, w := range words {
		if w.Clause != k || !straight[w.Text] {
			continue
		}
		switch wordAt(words, i+1) {
		case "in":
			return wordAt(words, i+2) == "here"
		case "into":
			return wordAt(words, i+2) == "it" || wordAt(words, i+2) == "this"
		}
	}
	return false
}

// intoHere tells whether what stands at a place goes into the bath of its page: “Acid from the descaler may be drained into it”.
func intoHere(words []sentence.Token, k, at int) bool {
	for i := at + 1; i < len(words) && words[i].Clause == k; i++ {
		if words[i].Text == "into" && (wordAt(words, i+1) == "it" || wordAt(words, i+1) == "this" && tankWords[wordAt(words, i+2)]) {
			return true
		}
	}
	return false
}

// fromHere tells whether a clause has something go on from the bath of its page: “From here the basket goes straight into the descaler”.
func fromHere(words []sentence.Token, k int) bool {
	for i, w := range words {
		if w.Clause == k && w.Text == "from" && (wordAt(words, i+1) == "here" || wordAt(words, i+1) == "this" && bathWords[wordAt(words, i+2)]) {
			return hasAny(words[i:], intoWord)
		}
	}
	return false
}

// pouredAfter tells whether a later clause commands to pour what one names together.
func pouredAfter(s *sentence.Sentence, k int) bool {
	for j := k + 1; j < len(s.Clauses); j++ {
		if s.Clauses[j].Mood == sentence.Do && s.ClauseHas(j, themWord) && (s.ClauseHas(j, joinVerbs) || s.ClauseHas(j, togetherVerbs) && s.ClauseHas(j, together)) && !denies(s, j) {
			return true
		}
	}
	return false
}

// addedHere tells whether what stands at a place is poured in by a command: “pour in soda until it stops fizzing”.
func addedHere(s *sentence.Sentence, words []sentence.Token, k, at int) bool {
	if s.Clauses[k].Mood != sentence.Do || wordAt(words, at+1) == "to" && !nextOf(words[:min(len(words), at+5)], at+1, turnedThings) {
		return false
	}
	for j := at - 1; j >= max(0, at-4) && words[j].Clause == k; j-- {
		if addsIn[words[j].Text] {
			return true
		}
		if words[j].Text == "from" || words[j].Text == "into" || words[j].Text == "to" {
			return false
		}
	}
	return false
}

// servesToTurn tells whether what stands at a place is called good for turning the bath: “The spent descaler is handy for bringing it back to pH 7”.
func servesToTurn(s *sentence.Sentence, words []sentence.Token, k, at int) bool {
	if !s.ClauseHas(k, serves) {
		return false
	}
	for j := at + 1; j < len(words) && words[j].Clause == k; j++ {
		if turnsPH[words[j].Text] || turning[words[j].Text] {
			return nextOf(words[:min(len(words), j+4)], j, turnedThings)
		}
	}
	return false
}

// inTwo tells whether a sentence has two vessels, or one for each: not “each other”.
func inTwo(words []sentence.Token) bool {
	for i, w := range words {
		if w.Text == "two" && nextOf(words[:min(len(words), i+4)], i, drums) || w.Text == "two" && nextOf(words[:min(len(words), i+4)], i, vessels) || w.Text == "two" && i > 0 && (words[i-1].Text == "in" || words[i-1].Text == "the") || w.Text == "separately" || w.Text == "each" && !(i+1 < len(words) && words[i+1].Text == "other") {
			return true
		}
	}
	return false
}

// ruledByWith tells whether “with” or “by” stands up to four words before one of two places.
func ruledByWith(words []sentence.Token, k, one, two int) bool {
	for _, at := range []int{one, two} {
		for j := at - 1; j >= max(0, at-5); j-- {
			if words[j].Clause == k && (words[j].Text == "with" || words[j].Text == "by" || portions[words[j].Text]) {
				return true
			}
		}
	}
	return false
}

// sideWord gives −1 for a word of acid, 1 for one of alkali, 0 otherwise: also of household things.
func (p *proof) sideWord(s *sentence.Sentence, words []sentence.Token, i int) int {
	switch w := words[i]; {
	case w.Text == "vinegar":
		return -1
	case w.Text == "soda" && !(i > 0 && words[i-1].Text == "caustic"):
		return 1
	default:
		return p.sideOf(s, w)
	}
}

var (
	notPoured   = sentence.Set("part parts piece pieces load basket work through carry dragged drag-out drip splash sheet label empty-drum neighbour compare nothing only else sample samples strip")
	ownCleaner  = sentence.Set("own separate separately apart label read contractor contractor's waste store stored respective same-cleaner")
	comesFrom   = sentence.Set("from after out like than")
	pouredWords = sentence.Set(`add added adding adds pour poured pouring put putting tip tipped tipping empty emptied stir stirred mix mixed drop dropped shake shaken dose dosed give given charge charged
		dump dumped throw thrown splash use used using go goes come comes belongs helps help brings lifts finish finished ladle spoon squirt squirted take takes replace replaces serve serves keeps kills trickle blend blended fold sprinkle sprinkled`)
	filledWords  = sentence.Set("fill filled filling refill refilled top topped topping stretch stretched extend extended boost boosted strengthen strengthened make made charge charged complete completed dose dosed completes help sweeten freshen")
	takesIn      = sentence.Set("take takes hold holds accept accepts")
	household    = sentence.Set("vinegar bleach acid petrol gasoline thinner acetone ammonia alcohol kerosene paraffin diesel methanol ethanol isopropanol peroxide soap salt turpentine degreaser spirits bicarbonate washing-up")
	whichever    = sentence.Set("any whatever other another different whichever either")
	cleanerNouns = sentence.Set("cleaner cleaners detergent detergents product products concentrate concentrates chemistry soap")
	keptApart    = sentence.Set("apart separate separated separately own between rinse rinses rinsed rinsing different licensed contractor contractor's shelf store stored label labels")
	ofTest       = sentence.Set("titration titrate titrated titrant burette indicator beaker titrating skin eye eyes hand hands glove gloves steel brass parts part basket casting")
	// togetherVerbs bring something somewhere, togetherWords to the other.
	togetherVerbs = sentence.Set("pour poured tip tipped empty emptied put go goes come comes add added collect collected gather gathered give given dump dumped pump pumped fill filled stir stirred drain drained emptying pouring tipping return returned")
	togetherWords = sentence.Set("into onto to together with same in over")
	placeIt       = sentence.Set("place home room rest")
	intoPlace     = sentence.Set("in into")
	joinVerbs     = sentence.Set("mix mixed mixing combine combined combining join joins joined joining unite united merge merged blend blended blending pool pooled marry")
	turnsPH       = sentence.Set(`neutralise neutralised neutralises neutralising neutralize neutralized quench quenched weaken weakened weakens thin thinned soften softened tame tamed calm kill killed cut lower lowered lowers reduce reduced raise raised correct
		corrected break adjust adjusted bring brings brought turn turned set take counter countered balance balanced cancel cancels harmless`)
	householdSides = sentence.Set("vinegar soda")
	phWords        = sentence.Set("ph alkalinity acidity")
	doesFor        = sentence.Set("does do serves serve works work suffices replaces")
	drains         = sentence.Set("drain sewer gully pipe hose sink")
	oneOrSame      = sentence.Set("one same together")
	takesDown      = sentence.Set("puts restores balances sets takes kills cures stops clears cuts settles brings")
	themWord       = sentence.Set("them both")
	addsIn         = sentence.Set("pour add tip stir drop sprinkle dump throw shake")
	serves         = sentence.Set("handy cheap good useful way ideal serves does works suits perfect right best quick easy")
	turning        = sentence.Set("bringing killing lowering raising turning taming")
	turnedThings   = sentence.Set("bath it ph tank liquid alkalinity acidity")
	useUp          = sentence.Set("cancel cancels use-up")
	together       = sentence.Set("together")
	eachWord       = sentence.Set("each")
)
