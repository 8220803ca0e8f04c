package rules

import (
	"cmp"
	"fmt"
	"strings"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// attackTold looks for a statement that a substance attacks a material which the decision lets into a bath of it: “Ammonia attacks brass”, where brass has no
// ammonia under attacked-by and a chemistry of the manual with ammonia suits it.
func (p *proof) attackTold(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if !s.Has(attacking) || len(s.Quantities) > 0 || s.Has(ifs) || s.TakenBack {
		return nil
	}
	words := s.Tokens()
	for i, w := range words {
		name, n := attackerAt(words, i)
		verb := i + n
		for n > 0 && textAt(words, verb) != "" && eachTime[textAt(words, verb)] {
			verb++
		}
		if n == 0 || !attacking[textAt(words, verb)] || words[verb].Clause != w.Clause || !statesIt(s, w.Clause) {
			continue
		}
		work := p.sufferer(a, s, w.Clause, words[verb].From)
		for _, material := range work.materials {
			if _, told := fact.One(material.Material.AttackedBy, name); told {
				return nil
			}
		}
		if c := p.admitsAll(&work, name); c != nil {
			f := textAgainstDecision.At(placeIn(a, s.Block, w.From), fmt.Sprintf("By the text %s is attacked by %s, and the decision lets it into %s, which has %s.", work.name(), w.Text, c.Head.Title, strings.ReplaceAll(name, "-", " ")),
				"Write "+name+" under attacked-by of the material; or take the sentence out.")
			return &f
		}
	}
	return nil
}

var (
	attacking = sentence.Set("attacks attack etches etch dissolves dissolve corrodes corrode pits pit eats eat cracks crack crazes craze destroys destroy ruins ruin swells swell blackens")
	eachTime  = sentence.Set("always quickly slowly soon readily badly also even still")
)

// alsoAttackers are constituents that no text would use on a part by themselves.
var alsoAttackers = map[string]string{"amine": "amine", "amines": "amine", "chelant": "chelant", "chelants": "chelant", "silicate": "silicate", "silicates": "silicate", "chlorides": "chloride", "fluorides": "fluoride", "terpenes": "terpene", "peroxide": "peroxide"}

// attackerAt gives the substance that is named at a place, and with how many words; none where there is none.
func attackerAt(words []sentence.Token, i int) (name string, n int) {
	if name := attackerPhrase(words, i); name != "" {
		return name, 2
	}
	if name := cmp.Or(attackers[words[i].Text], alsoAttackers[words[i].Text]); name != "" {
		return name, 1
	}
	return "", 0
}

// statesIt tells whether a clause says plainly that something is so; what harms is read as if it were a condition.
func statesIt(s *sentence.Sentence, k int) bool {
	c := &s.Clauses[k]
	switch c.Mood {
	case sentence.Is, sentence.Able, sentence.Fragment, sentence.If:
		return !c.Negated && c.Opener == "" && !s.Question && !s.ClauseHas(k, noWords) && !s.ClauseHas(k, couldWords)
	}
	return false
}

// sufferer gives the material that a clause names behind its verb, or the article's own behind “it”.
func (p *proof) sufferer(a *manual.Article, s *sentence.Sentence, k, verb int) spokenOf {
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if s.ClauseOf(m) != k || m.From < verb {
			continue
		}
		if m.Thing == nil && (a.Material == nil || !m.Stands) {
			continue
		}
		if of := p.ofMention(a, m); of.part == nil && len(of.tanks) == 0 {
			return of
		}
		return spokenOf{}
	}
	return spokenOf{}
}

// admitsAll gives a chemistry with a substance into which the decision lets every material that a word can mean; nil where there is none.
func (p *proof) admitsAll(work *spokenOf, substance string) *manual.Article {
	if len(work.materials) == 0 {
		return nil
	}
	for _, c := range p.By(withSubstance, substance) {
		all := true
		for _, m := range work.materials {
			all = all && p.admitted(&spokenOf{chemistries: []*manual.Article{c}}, m)
		}
		if all {
			return c
		}
	}
	return nil
}

// withSubstance are the chemistries by what they contain.
var withSubstance = manual.NewIndex(func(a *manual.Article) []string {
	if a.Chemistry == nil || a.Partial {
		return nil
	}
	var list []string
	for _, c := range a.Chemistry.Contains {
		list = append(list, c.Is())
	}
	return list
})
