package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// severalCleaners finds a sentence that puts two cleaners into one bath without naming them: “pour both into Wash 1”, “Leftovers of both cleaners can go
// into the same tank”, “Half mild alkaline, half neutral detergent”.
func (p *proof) severalCleaners(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Block.Kind == sentence.Cell || s.Block.Kind == sentence.Heading || s.Block.Signal != "" || s.Has(apartCleaners) || denied(s) || illOf(s) || s.Has(exceptions) || s.Question || s.TakenBack {
		return nil
	}
	if !s.Has(manyOf) {
		return p.halves(a, s)
	}
	text := " " + strings.ToLower(s.Text())
	several := slices.ContainsFunc(severalOf, func(w string) bool { return strings.Contains(text, w) })
	words := s.Tokens()
	for i, w := range words {
		k := w.Clause
		c := &s.Clauses[k]
		if c.Opener != "" || c.Mood == sentence.Was || c.Mood == sentence.MustNot || c.Mood == sentence.Example || s.ClauseHas(k, longAgo) || s.ClauseHas(k, haveBeen) {
			continue
		}
		in := i+1 < len(words) && (w.Text == "into" || w.Text == "in") && p.oneVesselAt(s, words, i+1)
		poured := in && s.ClauseHas(k, poursTogether) && (strings.Contains(text, " both ") || strings.Contains(text, " each ") || strings.Contains(text, " the rest ") || strings.Contains(text, " whatever "))
		mixed := mixesThem[w.Text] && (i > 0 && (words[i-1].Text == "be" || words[i-1].Text == "are") || c.Mood == sentence.Do && c.Verb == w.Text) && several
		filledUp := (w.Text == "with" || w.Text == "from") && i+2 < len(words) && words[i+1].Text == "the" && words[i+2].Text == "other" && s.ClauseHas(k, makesUp) && strings.Contains(text, " one cleaner")
		if several && poured || mixed || filledUp {
			f := mixedInText.At(placeIn(a, s.Block, s.From+leading(s)), "The text puts two cleaners into one bath.", "Nothing goes into a bath but its own chemistry and water: keep them apart, each in its own drum with its label.")
			return &f
		}
	}
	return p.halves(a, s)
}

// oneVesselAt tells whether a tank, or “the same tank”, “one drum”, begins at a token.
func (p *proof) oneVesselAt(s *sentence.Sentence, words []sentence.Token, i int) bool {
	for n := range s.Mentions {
		if m := &s.Mentions[n]; m.From == words[i].From && m.Thing != nil && m.Thing.Tank != nil {
			return true
		}
	}
	if words[i].Text != "the" && words[i].Text != "one" && words[i].Text != "a" {
		return false
	}
	for j := i; j < min(i+3, len(words)); j++ {
		if (words[j].Text == "same" || words[j].Text == "one") && j+1 < len(words) && (drums[words[j+1].Text] || vessels[words[j+1].Text]) {
			return true
		}
	}
	return false
}

// halves finds “Half mild alkaline, half neutral detergent”.
func (p *proof) halves(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	var found []*sentence.Thing
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Thing.Single(manual.Chemistry) && s.Before(m) == "half" && affirmed(s, s.ClauseOf(m)) && !slices.Contains(found, m.Thing) {
			found = append(found, m.Thing)
		}
	}
	if len(found) < 2 {
		return nil
	}
	f := mixedInText.At(placeIn(a, s.Block, s.From+leading(s)), fmt.Sprintf("The text mixes %s and %s in one bath.", p.titleOf(found[0]), p.titleOf(found[1])), "Nothing goes into a bath but its own chemistry and water.")
	return &f
}

var (
	// manyOf are the nouns of severalOf, looked for first because most sentences have none.
	manyOf    = sentence.Set("cleaners detergents chemistries products concentrates cleaner different")
	severalOf = []string{" different cleaners", " two cleaners", " both cleaners", " various cleaners", " several cleaners", " cleaners together", " the cleaners", " all the cleaners", " different detergents", " both detergents", " two detergents", " different chemistries",
		" both chemistries", " different products", " two products", " both products", " different concentrates", " both concentrates", " two concentrates", " one cleaner", " whatever cleaner", " leftover cleaners", " two different "}
	poursTogether = sentence.Set("pour put tip empty go goes fill use poured put emptied tipped give comes come add added dump top combine")
	mixesThem     = sentence.Set("mix mixed blend blended combine combined")
	makesUp       = sentence.Set("make top fill complete made topped")
	haveBeen      = sentence.Set("been")
	apartCleaners = sentence.Set("own separate separately apart never two-tanks label read contractor waste same-cleaner sort-of turn tray trays shelf store its respective")
)
