package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// strengthInWords finds a strength that is told as so much concentrate to a litre, as grams a litre of a liquid, or in parts, and is not that of the tank
// or within the window of the chemistry that it is said of: “Wash 1 gets 150 mL of concentrate for each litre”, “Mix one part with five parts of water”.
// A mass of a liquid is a share of the bath by the density in the chemistry's header.
func (p *proof) strengthInWords(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Quiet() || s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || s.Has(noWords) || s.Has(otherLitres) || s.Has(exceptions) || illOf(s) || elsewhere(s) {
		return nil
	}
	volume, mass, from, text := p.perLitre(s)
	if volume == nil && mass == 0 {
		return nil
	}
	k := 0
	for _, w := range s.Tokens() {
		if w.From <= from {
			k = w.Clause
		}
	}
	if c := &s.Clauses[k]; c.Opener != "" || c.Mood == sentence.Was || c.Mood == sentence.If || c.Mood == sentence.Example || c.Mood == sentence.MustNot || s.ClauseHas(k, longAgo) {
		return nil
	}
	var chemistry *manual.Article
	var limit manual.Limit
	name := ""
	t := onlyTank(s)
	switch {
	case t != nil:
		chemistry, limit, name = p.Named(manual.Chemistry, t.Chemistry.Name), t.Strength, t.Name
		limit.Low, limit.High = limit.Low*0.9, limit.High*1.1
	case a.Chemistry != nil && !a.Partial && !slices.ContainsFunc(s.Mentions, func(m sentence.Mention) bool { return m.Thing != nil }):
		chemistry, limit, name = a, a.Chemistry.Strength, a.Head.Title
	}
	if chemistry == nil || !limit.Set {
		return nil
	}
	shares := volume
	switch density := chemistry.Chemistry.Density; {
	case mass > 0 && limit.Kind == quantity.MassConcentration:
		shares = []float64{mass}
	case mass > 0 && limit.Kind == quantity.VolumeFraction && density.Set:
		shares = []float64{mass / density.Low}
	case mass > 0 || limit.Kind != quantity.VolumeFraction:
		return nil
	}
	if slices.ContainsFunc(shares, func(v float64) bool { return v >= limit.Low*0.97 && v <= limit.High*1.03 }) {
		return nil
	}
	own := limit
	if t != nil {
		own = t.Strength
	}
	f := numberAgainstModel.At(placeIn(a, s.Block, from), fmt.Sprintf("The text says %s of %s, which has %s.", text, name, own.In(p.Shop.System())), "Correct the amount here, or the strength in the shop file or article that it is said of.", own.At)
	return &f
}

// perLitre reads so much to a litre: as shares of the volume, or as kg/m³.
func (p *proof) perLitre(s *sentence.Sentence) (volume []float64, mass float64, from int, text string) {
	for i := range s.Quantities {
		q := &s.Quantities[i]
		if !plain(q) {
			continue
		}
		if q.Kind == quantity.MassConcentration && q.Unit.Symbol != "mg/L" && q.Near == "of" && slices.ContainsFunc(wordsBehind(s, q.To, 3), func(w string) bool { return dosed[w] }) {
			return nil, q.Range.Low, q.From, q.Text
		}
		if q.Kind != quantity.Volume && q.Kind != quantity.Mass || !litreBehind(wordsBehind(s, q.To, 7)) {
			continue
		}
		if q.Kind == quantity.Mass {
			return nil, q.Range.Low * 1000, q.From, q.Text + " a litre"
		}
		v := q.Range.Low * 1000
		return []float64{v, v / (1 + v)}, 0, q.From, q.Text + " a litre"
	}
	list := s.Tokens()
	for i := 0; i+4 < len(list); i++ {
		n := numberOf(list[i].Text)
		if n == 0 || list[i+1].Text != "part" && list[i+1].Text != "parts" {
			continue
		}
		dose := false
		for j := i + 2; j+1 < min(len(list), i+9); j++ {
			dose = dose || dosed[list[j].Text]
			if m := numberOf(list[j].Text); m > n && list[j+1].Text == "parts" && dose && (list[j-1].Text == "with" || list[j-1].Text == "to" || list[j-1].Text == "in" || list[j-1].Text == "and") && nextOf(list, j+1, waterWord) {
				return []float64{n / m, n / (n + m)}, 0, list[i].From, list[i].Text + " in " + list[j].Text
			}
		}
	}
	return nil, 0, 0, ""
}

// wordsBehind gives up to so many words behind a place, in small letters and without their marks.
func wordsBehind(s *sentence.Sentence, from, n int) []string {
	list := words(s, from, s.To)
	for i := range list {
		list[i] = strings.Trim(list[i], ".,;:()")
	}
	return list[:min(n, len(list))]
}

// litreBehind tells whether words such as “of concentrate for each litre” stand there.
func litreBehind(list []string) bool {
	if len(list) < 4 || list[0] != "of" {
		return false
	}
	dose := false
	for i := 1; i+1 < len(list); i++ {
		dose = dose || dosed[list[i]]
		if dose && list[i] == "per" && (list[i+1] == "litre" || list[i+1] == "liter") {
			return true
		}
		if dose && i+2 < len(list) && toEach[list[i]] && (list[i+1] == "each" || list[i+1] == "every" || list[i+1] == "a" || list[i+1] == "one" || list[i+1] == "the") && (list[i+2] == "litre" || list[i+2] == "liter") {
			return true
		}
	}
	return false
}

var (
	dosed  = sentence.Set("concentrate powder product cleaner detergent crystals it granules")
	toEach = sentence.Set("for in per to into")
	// otherLitres are words of a litre that is no bath.
	otherLitres = sentence.Set("sample titrant indicator spray bottle beaker rinse test trial old weak strong weaker stronger lost loses drag-out first first-fill makes costs evaporates half alkalinity waste spent found if")
)
