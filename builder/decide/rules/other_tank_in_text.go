package rules

import (
	"fmt"
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// otherTankInText finds a part's summary or text that sends it into a tank which its process does not name. It prevents that the operator
// follows the sentence and not the process, which alone is checked.
// The limit is the part's own header.
var otherTankInText = finding.Rule{
	Name: "other-tank-in-text", Severity: finding.Parts,
	Finds:  "a part's text or summary that sends it into another tank than its process",
	Why:    "The process is what is checked against the material; for the tank in the sentence nobody has checked it.",
	Source: "the part's own header",
}

var goesInto = sentence.Set("wash washed washes put goes go going run runs dip dipped load loaded place placed clean cleaned soak soaked take lower lowered immersed immerse hang minutes minute min belongs belong degreased degrease straight then first twice once sound kHz treated sonicated start starts begins pass passes")

func findOtherTanksInText(p *proof, a *manual.Article) []finding.Finding {
	if a.Part == nil || len(a.Part.Steps) == 0 {
		return nil
	}
	var own []*manual.Tank
	for _, s := range a.Part.Steps {
		own = append(own, p.Shop.Tank(s.Tank.Name))
	}
	var list []finding.Finding
	said := p.reading(a)
	for i := range said.sentences {
		s := &said.sentences[i]
		if s.Question || s.Block.Signal != "" || s.Block.Kind == sentence.Heading {
			continue
		}
		list = append(list, p.otherWay(a, s)...)
		if len(s.Mentions) == 0 || denied(s) || s.Harmful() || decidedOtherwise(s) || otherMatterFirst(a, s) {
			continue
		}
		for j := range s.Mentions {
			m := &s.Mentions[j]
			if m.Thing == nil || m.Thing.Tank == nil || slices.Contains(own, m.Thing.Tank) || m.Where || otherPart(a, s, s.ClauseOf(m)) {
				continue
			}
			k := s.ClauseOf(m)
			switch mood := s.Clauses[k].Mood; {
			case mood != sentence.Do && mood != sentence.Is && mood != sentence.Fragment:
				continue
			case !into(s, m) && !(wantsTank[s.Before(m)] && namesOwn(a, s, k)) && !(mood == sentence.Fragment && (s.Before(m) == "" || s.Before(m) == ":")) || !s.ClauseHas(k, goesInto) && !hasTime(s, k) && !wantsTank[s.Before(m)]:
				continue
			}
			if s.Clauses[k].Mood == sentence.Fragment && besideOwn(s, own) {
				continue
			}
			list = append(list, otherTankInText.At(placeIn(a, s.Block, m.From), fmt.Sprintf("The text sends the part into %s, which its process does not name.", m.Thing.Tank.Name), "Correct the tank here, or the process in the header.", at(a, "tank")))
		}
	}
	return list
}

// decidedOtherwise tells whether a sentence speaks of an exception; “Wash 1 only” is none.
func decidedOtherwise(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i, w := range words {
		if (otherWise[w.Text] || w.Text == "test" || w.Text == "sample") && !(w.Text == "only" && slices.ContainsFunc(s.Mentions, func(m sentence.Mention) bool {
			return m.Thing != nil && m.Thing.Tank != nil && m.To < w.From && w.From-m.To < 3
		})) && !saysWhich(words, i) {
			return true
		}
	}
	return false
}

// besideOwn tells whether a sentence names a part's own tank as well, and in no order: “Housings go into Wash 1, carriers into Wash 2”.
func besideOwn(s *sentence.Sentence, own []*manual.Tank) bool {
	return !s.Has(inOrder) && slices.ContainsFunc(s.Mentions, func(m sentence.Mention) bool {
		return m.Thing != nil && m.Thing.Tank != nil && slices.Contains(own, m.Thing.Tank)
	})
}

var inOrder = sentence.Set("then first second next after before afterwards last finally both and-then")

// wantsTank are verbs whose object is the bath of a part: “The nuts want Wash 1”.
var wantsTank = sentence.Set("want wants need needs take takes get gets like likes have has prefer prefers deserve deserves love loves enjoy enjoys")

// otherMatterFirst tells whether a sentence begins with things of another matter than a part's: “Iron nuts run in Wash 1”.
func otherMatterFirst(a *manual.Article, s *sentence.Sentence) bool {
	list := s.AllWords()
	return len(list) > 0 && matters[list[0]] && otherMatter(a, s)
}
