package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// attackers are words for what attacks a material, by the names of attacked-by. A phrase has a blank.
var attackers = map[string]string{
	"bleach": "hypochlorite", "hypochlorite": "hypochlorite", "javel": "hypochlorite", "fluoride": "fluoride", "hydrofluoric": "fluoride", "bifluoride": "fluoride",
	"hydrochloric": "chloride", "muriatic": "chloride", "chloride": "chloride", "brine": "chloride", "ammonia": "ammonia", "ammoniated": "ammonia", "cyanide": "cyanide", "sulfide": "sulfide",
	"caustic": "free-caustic", "lye": "free-caustic", "naoh": "free-caustic", "koh": "free-caustic", "sodium hydroxide": "free-caustic", "potassium hydroxide": "free-caustic", "soda lye": "free-caustic", "terpene": "terpene", "limonene": "terpene", "vinegar": "acid", "hydrogen peroxide": "peroxide", "window cleaner": "ammonia", "glass cleaner": "ammonia",
	"alcohol": "alcohol", "isopropanol": "alcohol", "propanol": "alcohol", "ipa": "alcohol", "ethanol": "alcohol", "methanol": "alcohol", "meths": "alcohol", "isopropyl alcohol": "alcohol", "methylated spirit": "alcohol", "methylated spirits": "alcohol", "denatured spirit": "alcohol",
	"acetone": "ketone", "butanone": "ketone", "mek": "ketone", "ketone": "ketone", "ethyl acetate": "ester", "butyl acetate": "ester",
	"naphtha": "hydrocarbon", "kerosene": "hydrocarbon", "petrol": "hydrocarbon", "gasoline": "hydrocarbon", "hexane": "hydrocarbon", "heptane": "hydrocarbon", "toluene": "hydrocarbon", "xylene": "hydrocarbon",
	"petroleum spirit": "hydrocarbon", "white spirit": "hydrocarbon", "mineral spirits": "hydrocarbon", "lighter fluid": "hydrocarbon", "turpentine": "terpene",
}

// attackerStarts are the first words of those phrases.
var attackerStarts = func() map[string]bool {
	m := map[string]bool{}
	for phrase := range attackers {
		if first, _, two := strings.Cut(phrase, " "); two {
			m[first] = true
		}
	}
	return m
}()

// attackerPhrase gives the attacker that two words at a place name, or "".
func attackerPhrase(words []sentence.Token, i int) string {
	if !attackerStarts[words[i].Text] {
		return ""
	}
	return attackers[words[i].Text+" "+textAt(words, i+1)]
}

// attackedBySubstance looks for a statement that something which attacks the material is used on it: “rust spots vanish in hydrochloric acid”.
// The limit is attacked-by of the material.
func (p *proof) attackedBySubstance(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	words := s.Tokens()
	for i, w := range words {
		name, is := attackers[w.Text]
		if !is {
			name = attackerPhrase(words, i)
			is = name != ""
		}
		if !is || s.ClauseHas(w.Clause, notUsed) || !usesSubstance(s, words, i) {
			continue
		}
		work := p.workOf(a, s, nil)
		if len(work.materials) == 0 {
			continue
		}
		for _, m := range work.materials {
			for _, r := range m.Material.AttackedBy {
				if r.Name == name {
					f := textAgainstDecision.At(placeIn(a, s.Block, w.From), fmt.Sprintf("The text uses %s on %s, which %s attacks.", w.Text, m.Head.Title, strings.ReplaceAll(name, "-", " ")),
						"Take it out, or correct attacked-by of the material.", r.At)
					return &f
				}
			}
			if work.part == nil {
				break
			}
		}
	}
	return nil
}

// usesSubstance tells whether a sentence says that the substance at a place is used, or thinks well of it: “lifted with bleach”, “ammonia is good on it”, “a
// little bleach freshens them”, “gone after a wipe with muriatic acid”.
func usesSubstance(s *sentence.Sentence, words []sentence.Token, i int) bool {
	k := words[i].Clause
	if s.Clauses[k].Opener == "after" {
		return k > 0 && s.ClauseHas(k-1, looksGood) && governed(words, i) && !against(s, k-1) && s.Clauses[k-1].Mood != sentence.Was
	}
	if !affirmed(s, k) && !noBlemish(s, k) || s.Has(notOfWork) || harmedBy(s, words, i) {
		return false
	}
	if praisedNext(words, i) || valence(s, k) > 0 && !blamed(s, k) {
		return true
	}
	if ledInto(s, words, i) || s.Clauses[k].Mood == sentence.Do && chooses[s.Clauses[k].Verb] && textAt(words, i-1) == s.Clauses[k].Verb {
		return true
	}
	return (governed(words, i) || s.Clauses[k].Mood == sentence.Do) && (s.ClauseHas(k, takesOff) || s.ClauseHas(k, wipes) || treated(s, k))
}

// noBlemish tells whether a clause denies nothing but that something leaves a blemish: “leaves no streaks”.
func noBlemish(s *sentence.Sentence, k int) bool {
	c := &s.Clauses[k]
	return c.Mood == sentence.MustNot && c.Opener == "" && !s.Question && !s.TakenBack && !illOf(s) && !denies(s, k) && valence(s, k) > 0
}

// ledInto tells whether work is put into the substance at a place: “Put aluminium into lye”, “Covers go into the lye for a minute”. What becomes of
// “aluminium put into lye” is another matter.
func ledInto(s *sentence.Sentence, words []sentence.Token, i int) bool {
	k := words[i].Clause
	before := textAt(words, i-1)
	if articleOrHeat[before] {
		before = textAt(words, i-2)
	}
	if before != "into" && before != "in" && before != "through" {
		return false
	}
	if s.Clauses[k].Mood == sentence.Do && s.ClauseHas(k, putWords) || s.ClauseHas(k, belongWords) {
		return true
	}
	for j := range i {
		if words[j].Clause == k && putWords[words[j].Text] && beWords[textAt(words, j-1)] {
			return true
		}
	}
	return false
}

var (
	articleOrHeat = sentence.Set("the a hot cold warm")
	putWords      = sentence.Set("put place placed drop dropped hang hung lower lowered immerse immersed load loaded leave left boil boiled dip dipped lie bathe bathed steep steeped")
	belongWords   = sentence.Set("go goes belong belongs")
	beWords       = sentence.Set("is are be")
	chooses       = sentence.Set("take choose try pick")
)

var takesOff = sentence.Set("disinfected vanish vanishes lifted removed cleared soaked brightened dipped stripped loosened disappears disappear fade fades washed cleaned removes lifts clears")

var wipes = sentence.Set("wipe wiped wash washed clean cleaned rub rubbed use used dip dipped soak brighten brightened swab swabbed saves helps")

// harmedBy tells whether a substance at a place is followed by a verb of what it does to the work: “A splash of bleach in the wash pits 316”.
func harmedBy(s *sentence.Sentence, words []sentence.Token, i int) bool {
	k := words[i].Clause
	return slices.ContainsFunc(words[i+1:], func(w sentence.Token) bool { return w.Clause == k && harmVerbs[w.Text] })
}

var harmVerbs = sentence.Set("pits etches eats attacks ruins cracks stains corrodes blackens darkens swells crazes embrittles")

// praisedNext tells whether it is said right behind a word that it is good: “ammonia is good on it”.
func praisedNext(words []sentence.Token, i int) bool {
	for j := i + 1; j+1 < min(i+4, len(words)); j++ {
		if t := words[j].Text; (t == "is" || t == "are" || t == "works") && (goodFor[words[j+1].Text] || t == "works") {
			return true
		}
	}
	return false
}

// governed tells whether a word such as “in” or “with” rules the word at a place, with an adjective or two between.
func governed(words []sentence.Token, i int) bool {
	for j := i - 1; j >= max(0, i-3); j-- {
		switch words[j].Text {
		case "in", "with", "by", "of", "into", "through":
			return true
		case ",", ".", "and", ":", ";":
			return false
		}
	}
	return false
}

// intoTank finds a sentence that puts something else into a bath of the shop: “a cupful of terpene in Wash 1 lifts labels”.
func (p *proof) intoTank(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	words := s.Tokens()
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Thing == nil || m.Thing.Tank == nil || !into(s, m) {
			continue
		}
		k := s.ClauseOf(m)
		if !affirmed(s, k) || !s.ClauseHas(k, portions) {
			continue
		}
		for j, w := range words {
			if w.Clause != k || j == 0 || words[j-1].Text != "of" && !(j > 1 && words[j-2].Text == "of") || w.From > m.From {
				continue
			}
			name := w.Text
			is := foreign[name] || attackers[name] != "" && attackers[name] != "free-caustic"
			for n := range s.Mentions {
				if o := &s.Mentions[n]; o.From == w.From && o.Thing.Kind() == manual.Chemistry && !o.Thing.Called(m.Thing.Tank.Chemistry.Name) {
					is, name = true, o.Word
				}
			}
			if is && !p.holdsThat(m.Thing.Tank, name) {
				f := mixedInText.At(placeIn(a, s.Block, w.From), fmt.Sprintf("The text puts %s into %s, which holds %s.", name, m.Thing.Tank.Name, m.Thing.Tank.Chemistry.Name), "Nothing goes into a bath but its own chemistry and water: take it out.", m.Thing.Tank.Chemistry.At)
				return &f
			}
		}
	}
	return nil
}

var foreign = sentence.Set("bleach acid petrol gasoline thinner solvent acetone ammonia alcohol kerosene paraffin diesel methanol ethanol isopropanol peroxide")
