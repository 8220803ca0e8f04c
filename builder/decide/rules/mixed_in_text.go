package rules

import (
	"fmt"
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
	"tankside/calculators/safety"
)

// mixedInText finds text that brings together what never-meet keeps apart: bleach beside an acid in one step, vinegar in bleach, ammonia after
// bleach. It prevents gas that kills. The limit is never-meet's: the pairs of package relate, and never-with of the chemistries.
var mixedInText = finding.Rule{
	Name: "mixed-in-text", Severity: finding.People,
	Finds:  "a text that says to use together, or one after the other, what must never meet",
	Why:    "Acid on bleach gives chlorine, on cyanide or sulfide a gas that kills within minutes.",
	Source: "as never-meet",
}

// substances are words for what chemistries contain.
var substances = map[string]string{
	"bleach": "hypochlorite", "hypochlorite": "hypochlorite", "javel": "hypochlorite", "chlorine": "hypochlorite",
	"acid": "acid", "vinegar": "acid", "acidic": "acid", "muriatic": "acid", "hydrochloric": "acid", "phosphoric": "acid", "sulfamic": "acid", "citric": "acid", "descaler": "acid",
	"ammonia": "ammonia", "ammoniated": "ammonia", "cyanide": "cyanide", "sulfide": "sulfide", "sulphide": "sulfide", "nitrite": "nitrite", "amine": "amine", "peroxide": "peroxide",
}

var (
	mixVerbs = sentence.Set("dissolve loosen remove lift take neutralise neutralize descale derust add mix pour use wipe rinse wash dose put follow spray disinfect dip soak stir combine top scrub clean swab fill blend run give tip treat flush finish sanitise sanitize degrease brighten boost help helps splash try may can drop")
	apart    = sentence.Set("between apart separate separated different other rinses keep keeps stay stays locked store stored stop test check ask call evacuate free strip paper label read section sheet free-of instead frees releases liberates evolves")
)

// doesGood are words with which a sentence praises what it mixes.
var doesGood = sentence.Set("brighter whiter disappears disappear loosened removed dissolved lifted kills clears freshens freshen works brightens brighten faster best quicker takes lifts bleaches disinfects disinfect removes loosens whitens cleans helps saves finishes cures revives boosts dissolves goes go rid comes poured added mixed")

// substanceWords are the words of substances.
var substanceWords = func() map[string]bool {
	m := map[string]bool{}
	for w := range substances {
		m[w] = true
	}
	return m
}()

func findMixedInText(p *proof, a *manual.Article) []finding.Finding {
	said := p.reading(a)
	list := eachBlock(said.sentences, func(block []sentence.Sentence) *finding.Finding { return p.mixedIn(a, block) })
	return append(list, p.mixedInReplies(a, said.replies, list)...)
}

// mixedIn looks through the sentences of one block.
func (p *proof) mixedIn(a *manual.Article, block []sentence.Sentence) *finding.Finding {
	have := map[string]bool{}
	if a.Chemistry != nil && !a.Partial {
		if isAcid(a) {
			have["acid"] = true
		}
		for _, c := range a.Chemistry.Contains {
			have[c.Name] = true
		}
	}
	onPart := map[string]bool{}
	if a.Soil != nil && !a.Partial { // what a soil may contain is on the part that is cleaned
		for _, c := range a.Soil.MayContain {
			onPart[c.Name] = true
		}
	}
	for i := range block {
		s := &block[i]
		if s.Quiet() || gasComes(s) {
			continue
		}
		if f := p.severalCleaners(a, s); f != nil {
			return f
		}
		if f := unnamedInBath(a, s); f != nil {
			return f
		}
		if f := p.oneOf(a, s, p.portionOfOther, p.sameBottle, p.neutralisedByPortion, p.sampleReturned, p.acidAdded, p.calledInto, p.makeOneOf, p.stillFull, p.unrinsed, p.portionForTank, p.unnamedBetween); f != nil {
			return f
		}
		if f := arrivesWith(a, s); f != nil {
			return f
		}
		var one *sentence.Sentence
		if i > 0 {
			one = &block[i-1]
		}
		if p.pouredOn(one, s, sideOfPage(a)) {
			f := mixedInText.At(placeIn(a, s.Block, s.From+leading(s)), "The text brings acid and alkali together.", "Keep them apart, each in its own vessel, with a rinse between the baths.")
			return &f
		}
		if f := p.foreignInBath(a, s); f != nil {
			return f
		}
		if f := p.foreignOnPage(a, s); f != nil {
			return f
		}
		if f := p.acidWithAlkali(a, s); f != nil {
			return f
		}
		if s.Question || s.Block.Signal != "" || s.Block.Kind == sentence.Heading || heldApart(s) {
			continue
		}
		if f := p.intoTank(a, s); f != nil {
			return f
		}
		if f := p.acidMeetsAlkali(a, s); f != nil {
			return f
		}
		if f := p.turned(a, s); f != nil {
			return f
		}
		if f := p.turnedWaste(a, s); f != nil {
			return f
		}
		if f := p.otherChemistry(a, s); f != nil {
			return f
		}
		now := p.substancesIn(s)
		if len(now) == 0 || rinsedOff(s) || against(s, clauseWith(s, substanceWords)) {
			continue
		}
		if f := p.oneVessel(a, s); f != nil {
			return f
		}
		doing := s.Commands() && s.Has(mixVerbs) || answersWith(one, s) || oneByOneInTank(s) || s.Has(doesGood) || joinsThem(s) || inTurn(s) || s.Has(together) && s.Has(mixVerbs)
		for _, pair := range admit.Enemies() {
			a1, b1 := pair[0], pair[1]
			together := now[a1] && (now[b1] || have[b1]) || now[b1] && (now[a1] || have[a1])
			if !together && (onPart[a1] && now[b1] || onPart[b1] && now[a1]) {
				together = p.cleansWith(s)
			}
			if together && doing {
				f := mixedInText.At(placeIn(a, s.Block, s.From+leading(s)), "The text brings "+a1+" and "+b1+" together, which must never meet.", "Take one of the two out, or say that they are kept apart and what is done between them.")
				return &f
			}
		}
		if doing && joinsThem(s) || s.Commands() && s.Has(addsTo) {
			if f := enemyOfPage(a, s, now); f != nil {
				return f
			}
		}
		if doing {
			for k := range now {
				have[k] = true
			}
		}
	}
	return nil
}

// oneOf gives what the first of some looks finds.
func (p *proof) oneOf(a *manual.Article, s *sentence.Sentence, looks ...func(*manual.Article, *sentence.Sentence) *finding.Finding) *finding.Finding {
	for _, look := range looks {
		if f := look(a, s); f != nil {
			return f
		}
	}
	return nil
}

// enemyOfPage finds a substance that a sentence brings to the bath of its page, whose header says that the two must never meet.
func enemyOfPage(a *manual.Article, s *sentence.Sentence, now map[string]bool) *finding.Finding {
	if a.Chemistry == nil || a.Partial || !s.Has(bathWords) && !s.Has(emulsionWord) && !addedBare(s) {
		return nil
	}
	for _, r := range a.Chemistry.NeverWith {
		if now[r.Name] {
			f := mixedInText.At(placeIn(a, s.Block, s.From+leading(s)), "The text brings "+r.Name+" to "+a.Head.Title+", which must never meet it.", "Take it out; nothing goes into a bath but its own chemistry and water.", r.At)
			return &f
		}
	}
	return nil
}

// addedBare tells whether a short command adds a substance and names no place, which is the bath of the page then: “Add bleach to kill germs”.
func addedBare(s *sentence.Sentence) bool {
	list := s.AllWords()
	return len(list) > 1 && len(list) < 8 && list[0] == "add" && substanceWords[list[1]] && s.Clauses[0].Mood == sentence.Do && !s.Has(drums)
}

// substancesIn gives the dangerous constituents that a sentence names, or that the chemistries that it names have.
func (p *proof) substancesIn(s *sentence.Sentence) map[string]bool {
	now := map[string]bool{}
	for _, w := range s.AllWords() {
		for part := range strings.SplitSeq(w, "-") {
			if is := substances[part]; is != "" && !(strings.Contains(w, "free") || strings.HasSuffix(w, "proof")) {
				now[is] = true
			}
		}
	}
	for i := range s.Mentions {
		t := s.Mentions[i].Thing
		c := t.One(p.Manual, manual.Chemistry)
		if c == nil || c.Partial {
			continue
		}
		if isAcid(c) {
			now["acid"] = true
		}
		for _, r := range c.Chemistry.Contains {
			if r.Name != "amine" || strings.Contains(s.Mentions[i].Word, "amine") {
				now[r.Name] = true
			}
		}
	}
	return now
}

func isAcid(a *manual.Article) bool {
	c := relate.Chemistry(a)
	return admit.Acid(&c)
}

// rinsedOff tells whether a sentence has what it names rinsed off or away, or with water: “Inhibitors with nitrite are rinsed off first”.
func rinsedOff(s *sentence.Sentence) bool {
	words := s.Tokens()
	rinsed := false
	for i, w := range words {
		if rinsed && w.Text == "before" {
			return true // “is rinsed twice and tested before this acid goes in”
		}
		rinsed = rinsed || rinses[w.Text] && !rinsedWith(words, i) || w.Text == "water" && i > 0 && words[i-1].Text == "with"
		if w.Text != "rinsed" && w.Text != "flushed" || i+2 >= len(words) {
			continue
		}
		switch words[i+1].Text {
		case "off", "away", "out":
			return true
		case "with":
			return words[i+2].Text == "water" || i+3 < len(words) && words[i+3].Text == "water"
		}
	}
	return false
}

// rinsedWith tells whether something else than water is what a word of rinsing is done with.
func rinsedWith(words []sentence.Token, i int) bool {
	for j := i + 1; j+1 < min(i+7, len(words)); j++ {
		if words[j].Text == "with" || words[j].Text == "in" {
			return !nextOf(words[:min(len(words), j+3)], j, waterWord)
		}
	}
	return false
}

var rinses = sentence.Set("rinse rinsed flush flushed")

// cleansWith tells whether a sentence treats something in or with a chemistry, or brings a substance to it.
func (p *proof) cleansWith(s *sentence.Sentence) bool {
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if k := s.ClauseOf(m); m.Thing.Kind() == manual.Chemistry && into(s, m) && s.Clauses[k].Opener == "" {
			return s.Clauses[k].Mood == sentence.Do || treated(s, k) || s.ClauseHas(k, goodUses)
		}
	}
	return joinsThem(s) || rinsedIn(s)
}

// rinsedIn tells whether a rinse, a dip or a wash in acid is said to do something: “A rinse in descaler takes the last of the salt off”.
func rinsedIn(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i := 2; i < len(words); i++ {
		k := words[i].Clause
		if (acids[words[i].Text] || words[i].Text == "vinegar") && s.Clauses[k].Opener == "" && s.Clauses[k].Mood != sentence.Was && governed(words, i) && hasAny(words[max(0, i-4):i], rinsedNouns) && (s.ClauseHas(k, doesGood) || s.Commands()) {
			return true
		}
	}
	return false
}

var rinsedNouns = sentence.Set("rinse dip wash soak wipe bath swill")

// joinsThem tells whether a sentence brings one of its substances to something: “with bleach”, “a dash of bleach in”, “followed by acid”. In a
// condition it is what happened and not what is done.
func joinsThem(s *sentence.Sentence) bool {
	if s.Block.Kind == sentence.Cell {
		return false
	}
	words := s.Tokens()
	for i, w := range words {
		if !substanceWords[w.Text] || i == 0 || s.Clauses[w.Clause].Opener != "" || s.Clauses[w.Clause].Mood == sentence.Was {
			continue
		}
		for j := i + 1; j < min(i+8, len(words)-2) && words[j].Clause == w.Clause; j++ {
			if t := words[j].Text; (t == "into" || t == "to") && (bathWords[words[j+1].Text] || bathWords[words[j+2].Text]) && s.Clauses[w.Clause].Mood != sentence.Example {
				return true
			}
		}
		for j := i - 1; j >= max(0, i-4); j-- {
			t := words[j].Text
			if t == "with" || t == "into" || t == "onto" || t == "in" && j == i-1 && treated(s, w.Clause) || t == "by" && j > 0 && words[j-1].Text == "followed" || portions[t] && (j+1 == i || words[j+1].Text == "of") {
				return true
			}
			if t == "," || t == ":" || t == "and" || t == "or" {
				break
			}
		}
	}
	return false
}

// oneAfterOther tells whether the only word in a sentence that keeps things apart is the “other” of “one after the other”, and they share a vessel.
func oneAfterOther(s *sentence.Sentence) bool {
	n := 0
	words := s.Tokens()
	for i, w := range words {
		if apart[w.Text] && !(w.Text == "other" && i > 1 && words[i-2].Text == "for") { // “for the other” names the second of two
			n++
		}
	}
	return n == 1 && s.Has(same) && strings.Contains(strings.ToLower(s.Text()), "one after the other")
}

var same = sentence.Set("same")

// oneVessel finds a sentence that pours acid and alkali into one drum or tank: undiluted they boil, and nobody knows afterwards what it is.
func (p *proof) oneVessel(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	for k := range s.Clauses {
		c := &s.Clauses[k]
		if c.Opener != "" || c.Mood == sentence.MustNot || c.Mood == sentence.Was || !s.ClauseHas(k, acids) || !s.ClauseHas(k, alkalis) || s.Has(apart) && !oneAfterOther(s) || s.ClauseHas(k, ownVessels) || against(s, k) {
			continue
		}
		if !(s.ClauseHas(k, drums) && (poursIn[c.Verb] || s.ClauseHas(k, pouredIn))) && !s.ClauseHas(k, unites) {
			continue
		}
		f := mixedInText.At(placeIn(a, s.Block, s.From+leading(s)), "The text brings acid and alkali together in one vessel.", "Keep them in two vessels, each with its label.")
		return &f
	}
	return nil
}

// otherChemistry finds a sentence that fills or tops up a tank of the shop with another chemistry than the one it holds: “top up Wash 1 with neutral
// detergent”, “the emulsion can be used in Wash 1”.
func (p *proof) otherChemistry(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	t := onlyTank(s)
	if t == nil || s.Has(exceptions) || s.Has(apart) {
		return nil
	}
	var tank *sentence.Mention
	for i := range s.Mentions {
		if m := &s.Mentions[i]; m.Thing != nil && m.Thing.Tank == t {
			tank = m
		}
	}
	k := s.ClauseOf(tank)
	if mood := s.Clauses[k].Mood; mood != sentence.Do && mood != sentence.Able && !(mood == sentence.Is && s.ClauseHas(k, runsWith)) || s.Clauses[k].Opener != "" || against(s, k) || tank.Where {
		return nil
	}
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m == tank || m.Where || s.ClauseOf(m) != k {
			continue
		}
		of := p.ofMention(a, m)
		if len(of.chemistries) != 1 || len(of.tanks) > 0 || of.chemistries[0].Name == t.Chemistry.Name || m.Stands && (a.Chemistry == nil || m.From > tank.From) {
			continue
		}
		filled := m.From > tank.From && s.Ruler(m) == "with" && s.ClauseHas(k, fillsTank)
		filled = filled || m.From > tank.From && (s.Ruler(m) == "with" || s.Ruler(m) == "on") && s.ClauseHas(k, runsWith)
		put := m.From < tank.From && into(s, tank) && s.Before(m) == "of" && (s.ClauseHas(k, portions) || amountBefore(s, m)) && (addsTo[s.Clauses[k].Verb] || s.ClauseHas(k, usedInTank) || s.ClauseHas(k, bringsPH))
		put = put || m.From < tank.From && into(s, tank) && addsTo[s.Clauses[k].Verb] && (s.Before(m) == "some" || s.Before(m) == "of")
		put = put || m.From < tank.From && into(s, tank) && (addsTo[s.Clauses[k].Verb] && addsTo[s.Before(m)] || says[s.After(m)] && s.ClauseHas(k, usedInTank))
		if filled || put {
			f := mixedInText.At(placeIn(a, s.Block, max(0, m.From)), fmt.Sprintf("The text puts %s into %s, which holds %s.", of.name(), t.Name, t.Chemistry.Name), "Nothing goes into a bath but its own chemistry and water: take it out.", t.Chemistry.At)
			return &f
		}
	}
	return nil
}

// amountBefore tells whether a volume or a share stands right before “of” and a name: “10 % of terpene”, “half a litre of it”.
func amountBefore(s *sentence.Sentence, m *sentence.Mention) bool {
	for i := range s.Quantities {
		q := &s.Quantities[i]
		if list := words(s, q.To, m.From); (q.Kind == quantity.Volume || q.Kind == quantity.Fraction || q.Kind == quantity.VolumeFraction) && len(list) > 0 && len(list) < 3 && list[0] == "of" {
			return true
		}
	}
	return false
}

// turnedWaste finds a sentence that neutralises waste in the shop: “Bring waste of pH 13 down with a bucket of spent acid”.
func (p *proof) turnedWaste(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Has(licensed) || !s.Has(wasteWords) || s.Has(apart) || s.Has(ownVessels) || s.Has(exceptions) || denied(s) || illOf(s) {
		return nil
	}
	words := s.Tokens()
	for i, w := range words {
		c := &s.Clauses[w.Clause]
		if !acids[w.Text] && !alkalis[w.Text] && w.Text != "flakes" || i == 0 || c.Opener != "" || c.Mood == sentence.Was || c.Mood == sentence.Example || !s.ClauseHas(w.Clause, bringsPH) || s.ClauseHas(w.Clause, longAgo) {
			continue
		}
		for j := i - 1; j >= max(0, i-6); j-- {
			if words[j].Text == "with" || words[j].Text == "by" {
				f := mixedInText.At(placeIn(a, s.Block, w.From), "The text neutralises waste with "+w.Text+".", "What neutralises waste is for licensed practice: collect acid and alkali apart.")
				return &f
			}
		}
	}
	return nil
}

var (
	bringsPH   = sentence.Set("bring brings brought take takes lower lowers lowered raise raises raised reduce reduced turn neutralise neutralize neutralised neutralized adjust adjusted set correct corrected")
	wasteWords = sentence.Set("waste effluent spent sump")
	licensed   = sentence.Set("licensed contractor contractor's permit plant treatment officer")
)

var emulsionWord = sentence.Set("emulsion mix solution")

var bathWords = sentence.Set("bath tank dip wash liquid")

var (
	runsWith   = sentence.Set("operated runs run filled charged completes")
	fillsTank  = sentence.Set("top fill refill charge dose boost strengthen make")
	addsTo     = sentence.Set("add pour put tip use fill charge")
	usedInTank = sentence.Set("used run filled charged put added poured")
)

// turned finds a sentence that turns the pH of a bath with acid, or of an acid with alkali: “bring the pH down with citric acid”. Both boil at
// the place where they meet, and what is left is nobody's bath. Of samples, titrations and rinses nothing is said.
func (p *proof) turned(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	words, of := acids, "acid"
	switch {
	case a.Chemistry != nil && !a.Partial && isAcid(a):
		words, of = alkalis, "alkali"
	case a.Chemistry != nil && !a.Partial && a.Chemistry.PH.Set && a.Chemistry.PH.Low > safety.AlkalineAbove, a.Procedure != nil:
	case a.Chemistry == nil && s.Has(neutralises):
	default:
		return nil
	}
	if s.Has(samples) || s.Has(apart) {
		return nil
	}
	list := s.Tokens()
	for i, w := range list {
		c := &s.Clauses[w.Clause]
		if !words[w.Text] && !(of == "acid" && w.Text == "vinegar") || i == 0 || c.Opener != "" || c.Mood == sentence.Was || c.Mood == sentence.MustNot || turnedAgainst(s, w.Clause) {
			continue
		}
		inBath := s.ClauseHas(w.Clause, bathWords)
		if a.Chemistry == nil && !(s.Has(scale) && (s.ClauseHas(w.Clause, turns) || s.ClauseHas(w.Clause, portions)) || s.ClauseHas(w.Clause, neutralises) && inBath) {
			continue
		}
		if a.Chemistry != nil && !s.ClauseHas(w.Clause, turns) && !(s.ClauseHas(w.Clause, portions) && inBath) {
			continue
		}
		for j := i - 1; j >= max(0, i-5); j-- {
			if t := list[j].Text; t == "with" || t == "add" || t == "by" || t == "of" && j > 0 && (addedAs[list[j-1].Text] || portions[list[j-1].Text]) || portions[t] && t != "drops" && t != "drop" {
				f := mixedInText.At(placeIn(a, s.Block, w.From), "The text turns a bath with "+of+".", "A bath is drained and made new; what neutralises waste is for licensed practice.")
				return &f
			}
		}
	}
	return nil
}

// turnedAgainst is against, but for “too high” and “no longer” of the reason and the aim.
func turnedAgainst(s *sentence.Sentence, k int) bool {
	return s.Question || s.TakenBack || denies(s, k) || s.ClauseHas(k, longAgo) || illOf(s)
}

var (
	poursIn     = sentence.Set("fill pour tip put top empty add combine mix collect gather give unite is are")
	acids       = sentence.Set("acid acidic acids descaler citric phosphoric sulfamic")
	alkalis     = sentence.Set("alkali alkaline alkalis caustic lye")
	unites      = sentence.Set("join joined combine unite blend mix combined united blended mixed")
	addedAs     = sentence.Set("addition dose")
	neutralises = sentence.Set("neutralise neutralize neutralised neutralized")
	turns       = sentence.Set("quench quenched adjust adjusted correct corrected bring brought lower lowered turn add neutralise neutralised neutralize neutralized set take until")
	scale       = sentence.Set("ph alkalinity")
	samples     = sentence.Set("sample samples titration titrate titrated titrant burette flask indicator rinse drain strip beaker test skin licensed waste effluent sheet permit hands")
	// pouredIn are words with which something comes into a vessel.
	pouredIn   = sentence.Set("into poured tipping tipped pouring emptied filled put collected same together")
	ownVessels = sentence.Set("own each separately never two")
	drums      = sentence.Set("drum drums container canister barrel bottle vat can bucket waste sump tote")
)
