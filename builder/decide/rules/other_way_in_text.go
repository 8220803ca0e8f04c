package rules

import (
	"fmt"
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// otherWay finds, in a sentence of a part, a rinse, a dryer, a material or an order of tanks that its process does not have.
func (p *proof) otherWay(a *manual.Article, s *sentence.Sentence) []finding.Finding {
	var list []finding.Finding
	tell := func(from int, says, key string) {
		list = append(list, otherTankInText.At(placeIn(a, s.Block, from), says, "Correct it here, or the process in the header.", at(a, key)))
	}
	words := s.Tokens()
	for i := 1; i < len(words); i++ {
		if words[i].Text == "rinses" && (words[i-1].Text == "both" || words[i-1].Text == "two") && len(a.Part.Rinse) == 1 && affirmed(s, words[i].Clause) {
			tell(words[i-1].From, "The text speaks of two rinses, the process of one.", "rinse")
		}
	}
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Thing == nil || m.Where || !affirmed(s, s.ClauseOf(m)) {
			continue
		}
		k := s.ClauseOf(m)
		switch {
		case m.Thing.Dryer != nil:
			if a.Part.Dry.Name != "" && a.Part.Dry.Name != m.Thing.Dryer.ID && (s.Before(m) == "in" && (hasTime(s, k) || s.ClauseHas(k, goesInto)) && s.Clauses[k].Mood != sentence.Is || s.Before(m) == "into") {
				tell(m.From, "The text dries it in the dryer, which its process does not name.", "dry")
			}
		case m.Thing.Rinse != nil:
			if len(a.Part.Rinse) > 0 && !slices.ContainsFunc(a.Part.Rinse, func(r manual.Ref) bool { return r.Name == m.Thing.Rinse.ID }) && (into(s, m) || s.Clauses[k].Mood == sentence.Fragment && nextStep[s.After(m)]) && (s.ClauseHas(k, goesInto) || s.ClauseHas(k, rinsesIn)) {
				tell(m.From, fmt.Sprintf("The text rinses it in %s, which its process does not name.", m.Word), "rinse")
			}
		case m.Thing.Kind() == manual.Material:
			if s.ClauseHas(k, madeOf) && madeBefore(s, m) && !slices.ContainsFunc(a.Part.Materials, func(r manual.Ref) bool {
				return slices.ContainsFunc(m.Thing.Articles, func(b *manual.Article) bool { return b.Name == r.Name })
			}) && len(m.Thing.Articles) == 1 {
				tell(m.From, fmt.Sprintf("The text says that it is of %s, which is not its material.", m.Word), "material")
			}
		case m.Thing.Tank != nil && len(a.Part.Steps) > 1:
			if place := stepNamed(words, m); place >= 0 && a.Part.Steps[(place+len(a.Part.Steps))%len(a.Part.Steps)].Tank.Name != m.Thing.Tank.ID {
				tell(m.From, fmt.Sprintf("The text gives %s another place in the order than the process.", m.Thing.Tank.Name), "steps")
			}
		}
	}
	return list
}

var (
	nextStep = sentence.Set("next first then second")
	rinsesIn = sentence.Set("rinse rinsed ends goes comes gets next first then second swill")
)

var madeOf = sentence.Set("material made")

// madeBefore tells whether “is” or “made of” stands right before a material, but for an adjective.
func madeBefore(s *sentence.Sentence, m *sentence.Mention) bool {
	words := s.Tokens()
	at := slices.IndexFunc(words, func(t sentence.Token) bool { return t.From >= m.From })
	for i := at - 1; i >= max(0, at-3); i-- {
		switch words[i].Text {
		case "is", "of", "from":
			return true
		}
	}
	return false
}

// stepNamed gives the place in the order that a sentence gives to a tank: 0 where it comes first, -1 where nothing is said of it.
func stepNamed(words []sentence.Token, m *sentence.Mention) int {
	for i, t := range words {
		if t.From < m.To {
			continue
		}
		if t.Text == "first" {
			return 0
		}
		if t.Text != "comes" && t.Text != "is" && t.Text != "goes" && t.Text != "runs" || i+1 >= len(words) {
			return -1
		}
	}
	return -1
}
