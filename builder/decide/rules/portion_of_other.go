package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// portionOfOther finds an amount of another chemistry of which a sentence says what it does to a tank of the shop, whatever the verb: “A dash of saponifier
// wakes a tired Wash 1”. Who says so much of how much of it has it poured in.
func (p *proof) portionOfOther(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Block.Kind == sentence.Cell || s.Block.Kind == sentence.Heading || !s.Has(doses) && !hasVolume(s) || denied(s) || illOf(s) || s.Question || s.TakenBack || s.Has(exceptions) || s.Has(ownCleaner) || s.Has(equated) {
		return nil
	}
	for i := range s.Mentions {
		m := &s.Mentions[i]
		k := s.ClauseOf(m)
		if !m.Thing.Single(manual.Chemistry) || m.Where || !dosedOut(s, m) || s.Clauses[k].Opener != "" || s.Clauses[k].Mood == sentence.Was || s.ClauseHas(k, longAgo) {
			continue
		}
		for j := range s.Mentions {
			t := &s.Mentions[j]
			if t.Thing == nil || t.Thing.Tank == nil || t.Where || s.ClauseOf(t) != k || t.From < m.To || s.Ruler(t) == "from" || s.Ruler(t) == "for" || s.Ruler(t) == "of" || m.Thing.Called(t.Thing.Tank.Chemistry.Name) {
				continue
			}
			f := mixedInText.At(placeIn(a, s.Block, m.From), fmt.Sprintf("The text puts %s into %s, which holds %s.", p.titleOf(m.Thing), t.Thing.Tank.Name, t.Thing.Tank.Chemistry.Name), "Nothing goes into a bath but its own chemistry and water: take it out.", t.Thing.Tank.Chemistry.At)
			return &f
		}
	}
	return nil
}

// dosedOut tells whether an amount of what is mentioned is measured out: “a mug of”, “two drops of”, “half a litre of”.
func dosedOut(s *sentence.Sentence, m *sentence.Mention) bool {
	if s.Before(m) != "of" {
		return false
	}
	if amountBefore(s, m) {
		return true
	}
	words := s.Tokens()
	at := slices.IndexFunc(words, func(w sentence.Token) bool { return w.From >= m.From })
	return at > 1 && (doses[words[at-2].Text] || at > 2 && words[at-2].Text == "the" && doses[words[at-3].Text])
}

// arrivesWith finds, on a chemistry's page, parts that come into its bath straight from what it must never meet: “Fresh from the chlorine dip, still dripping,
// the fittings come in here”, “After bleaching, the parts come in here dripping”.
func arrivesWith(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if a.Chemistry == nil || a.Partial || s.Question || s.TakenBack || s.Block.Signal != "" || denied(s) || illOf(s) || s.Has(rinses) || s.Has(washesOff) || s.Has(exceptions) {
		return nil
	}
	words := s.Tokens()
	for i, w := range words {
		is := substances[w.Text]
		if is == "" {
			is = processes[w.Text]
		}
		if is == "" || !slices.ContainsFunc(a.Chemistry.NeverWith, func(r manual.Ref) bool { return r.Name == is }) {
			continue
		}
		if !hasAny(words[max(0, i-3):i], departs) {
			continue
		}
		for j := i + 1; j < len(words); j++ {
			if hereIn(words, j) && hasAny(words[i:j], arrives) && s.Clauses[words[j].Clause].Mood != sentence.Was {
				f := mixedInText.At(placeIn(a, s.Block, s.From+leading(s)), "The text brings "+is+" to "+a.Head.Title+", which must never meet it.", "Rinse between the two until nothing of it is left, or take it out.")
				return &f
			}
		}
	}
	return nil
}

// hereIn tells whether the bath of the page is where something comes at a place: “in here”, “into this bath”, “into it”.
func hereIn(words []sentence.Token, i int) bool {
	if words[i].Text != "in" && words[i].Text != "into" {
		return false
	}
	next := wordAt(words, i+1)
	return next == "here" || next == "it" || (next == "this" || next == "the") && bathWords[wordAt(words, i+2)]
}

// sameBottle finds two things that must never meet in one vessel, which a sentence praises or only names: “Bleach and vinegar in one spray bottle keep the rims
// like new”.
func (p *proof) sameBottle(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || denied(s) || illOf(s) || s.Has(exceptions) || s.Has(busy) {
		return nil
	}
	words := s.Tokens()
	for i := 0; i+1 < len(words); i++ {
		if words[i].Text != "in" && words[i].Text != "into" || !oneOrSame[words[i+1].Text] && wordAt(words, i+1) != "the" {
			continue
		}
		if words[i+1].Text == "the" && !oneOrSame[wordAt(words, i+2)] || !nextOf(words[:min(len(words), i+6)], i, sprayers) {
			continue
		}
		k := words[i].Clause
		now := map[string]bool{}
		for _, w := range words {
			if is := substances[w.Text]; is != "" && w.Clause == k {
				now[is] = true
			}
		}
		if c := &s.Clauses[k]; c.Opener != "" || c.Mood == sentence.Was || !now["acid"] || !now["hypochlorite"] && !now["cyanide"] && !now["sulfide"] {
			continue
		}
		f := mixedInText.At(placeIn(a, s.Block, s.From+leading(s)), "The text brings together in one vessel what must never meet.", "Keep them apart, each in its own vessel with its label.")
		return &f
	}
	return nil
}

// startedWithOld gives the place at which a sentence has an old bath be the beginning of a new one, or -1: “Keep ten litres of the old bath as a starter for the
// new one”.
func startedWithOld(s *sentence.Sentence, words []sentence.Token) int {
	text := strings.ToLower(s.Text())
	if !strings.Contains(text, "start") && !strings.Contains(text, "seed") || !s.Has(newOnes) || !s.Has(oldStuff) {
		return -1
	}
	for i := 1; i < len(words); i++ {
		if starters[words[i].Text] && (words[i-1].Text == "a" || words[i-1].Text == "good" || words[i-1].Text == "as" || words[i-1].Text == "head") {
			return i
		}
	}
	return -1
}

// neutralisedByPortion finds an amount of acid that brings an alkaline bath to seven, or of alkali an acid one: “A bottle of vinegar brings it to seven”.
func (p *proof) neutralisedByPortion(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || illOf(s) || s.Has(exceptions) || s.Has(samples) && !s.Has(drains) || s.Has(ofTest) {
		return nil
	}
	words := s.Tokens()
	for i := 2; i < len(words); i++ {
		k := words[i].Clause
		if words[i-1].Text != "of" || !doses[words[i-2].Text] || i > 2 && words[i-3].Text == "no" || s.Clauses[k].Opener != "" || s.Clauses[k].Mood == sentence.Was || s.Clauses[k].Mood == sentence.MustNot || p.sideWord(s, words, i) == 0 {
			continue
		}
		for j := i + 1; j+3 < len(words); j++ {
			if bringsPH[words[j].Text] && turnedThings[words[j+1].Text] && (words[j+2].Text == "to" || words[j+2].Text == "down" || words[j+2].Text == "back") && nextOf(words[:min(len(words), j+7)], j+2, sevens) {
				f := mixedInText.At(placeIn(a, s.Block, words[i].From), "The text neutralises a bath with "+words[i].Text+".", "A bath is drained as it is; what neutralises waste is for licensed practice.")
				return &f
			}
		}
	}
	return nil
}

// acidAdded finds acid that is put into a bath of the shop, where no tank holds any: “Add acid until the emulsion splits”, “A little acid in the bath stops the foam”.
// Pages of chemistries have looks of their own.
func (p *proof) acidAdded(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if !s.Has(acidOrVinegar) || a.Procedure == nil && a.Kind != manual.Symptom || s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || denied(s) || illOf(s) || s.Has(exceptions) || s.Has(wetWords) || s.Has(samples) || s.Has(ofTest) || s.Has(notFilling) {
		return nil
	}
	if slices.ContainsFunc(p.Shop.Tanks, p.holdsAcid) || a.Procedure != nil && slices.ContainsFunc(named(p, manual.Chemistry, a.Procedure.Chemistries), isAcid) {
		return nil // asked last: what asks for a chemistry is read again when that changes
	}
	words := s.Tokens()
	for i := 1; i < len(words); i++ {
		k := words[i].Clause
		if !acidOrVinegar[words[i].Text] || s.Clauses[k].Opener != "" || s.Clauses[k].Mood == sentence.Was {
			continue
		}
		before := words[max(0, i-3):i]
		added := s.Clauses[k].Mood == sentence.Do && hasAny(before, addsIn) || hasAny(before, doses) || hasAny(before, littleAcid)
		next := wordAt(words, i+1)
		until := next == "until" && (hasTank(s) || s.Has(splitting))
		in := (next == "in" || next == "into" || next == "to") && (wordAt(words, i+2) == "the" || wordAt(words, i+2) == "a") && tankWords[wordAt(words, i+3)]
		if added && (until || in) {
			f := mixedInText.At(placeIn(a, s.Block, words[i].From), "The text puts acid into a bath that is none of acid.", "Nothing goes into a bath but its own chemistry and water: take it out.")
			return &f
		}
	}
	return nil
}

// holdsAcid tells whether a tank holds acid, or something of which nothing is known.
func (p *proof) holdsAcid(t manual.Tank) bool {
	c := p.Named(manual.Chemistry, t.Chemistry.Name)
	return c == nil || isAcid(c)
}

var (
	acidOrVinegar = sentence.Set("acid vinegar")
	littleAcid    = sentence.Set("little some bit")
	splitting     = sentence.Set("emulsion foam bath ph splits floats clears")
)

// sampleReturned finds what has been titrated, and so has acid or lye and dye in it, that goes back into a bath: “Pour the titrated sample back into Wash 1”.
func (p *proof) sampleReturned(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if !s.Has(titratedWord) || s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || denied(s) || illOf(s) || s.Has(exceptions) {
		return nil
	}
	words := s.Tokens()
	for i := 1; i < len(words); i++ {
		k := words[i].Clause
		if words[i].Text != "into" && words[i].Text != "to" || s.Clauses[k].Opener != "" || s.Clauses[k].Mood == sentence.Was || !hasAny(words[:i], givesBack) || !hasAny(words[max(0, i-9):i], titratedThings) {
			continue
		}
		next := wordAt(words, i+1)
		tank := slices.ContainsFunc(s.Mentions, func(m sentence.Mention) bool {
			return m.Thing != nil && m.Thing.Tank != nil && i+1 < len(words) && m.From == words[i+1].From
		})
		if tank || (next == "the" || next == "its") && tankWords[wordAt(words, i+2)] {
			f := mixedInText.At(placeIn(a, s.Block, s.From+leading(s)), "The text has what was titrated back in the bath.", "It has acid or lye and dye in it: it goes to waste.")
			return &f
		}
	}
	return nil
}

var (
	titratedWord   = sentence.Set("titrated")
	titratedThings = sentence.Set("sample samples liquid flask titrated")
	givesBack      = sentence.Set("pour poured return returned returns empty emptied tip tipped give given put goes go back")
)

var (
	// doses are words for an amount that somebody measures out by what is at hand.
	doses = sentence.Set(`dash drop drops splash cup cupful cap capful mug glass jug jugful bottle ladle ladleful spoon spoonful teaspoon tablespoon scoop handful bucket bucketful shot glug squirt pinch dollop drizzle thimble pint quart litre litres gallon
		gallons can tin bit touch trace tot hint dose measure half third quarter`)
	equated   = sentence.Set("equals weighs costs contains holds same different less more like than compared drag-out dragged carried left lost leaves spilt spill test sample replaces")
	processes = map[string]string{"bleaching": "hypochlorite", "chlorination": "hypochlorite", "chlorinated": "hypochlorite", "bleached": "hypochlorite", "pickling": "acid"}
	departs   = sentence.Set("from after out off wet")
	arrives   = sentence.Set("come comes go goes put dropped drop hang lower dip in straight")
	sprayers  = sentence.Set("bottle bucket drum tank tub can canister sprayer container jug vessel cup bath bowl basin mop")
	busy      = sentence.Set("busy brigade hospital ambulance doctor chlorine gas another other different apart")
	oldStuff  = sentence.Set("old black used last spent previous tired")
	starters  = sentence.Set("starter start seed head-start beginning")
	sevens    = sentence.Set("seven 7 neutral")
)
