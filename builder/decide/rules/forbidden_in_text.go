package rules

import (
	"fmt"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// forbiddenInText looks for a prohibition without any ifs of what the decision allows: “Never put brass in Wash 1”, on the page of a chemistry “Not for zinc”.
// One of the two is wrong. Where it is the decision, every table, card and answer allows what somebody knew to be harmful. It speaks up only where the
// clause says nothing else, and where the decision allows every material that the word can mean.
func (p *proof) forbiddenInText(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if len(s.Quantities) > 0 || s.TakenBack {
		return nil
	}
	for k := range s.Clauses {
		if !flatly(s, k) {
			continue
		}
		bath, at := p.bathIn(a, s, k)
		if bath == nil {
			continue
		}
		if f := p.allowedAll(a, s, k, bath, at); f != nil {
			return f
		}
	}
	return nil
}

// flatly tells whether a clause forbids, and says nothing besides: no time, no state of the part, no other thing.
func flatly(s *sentence.Sentence, k int) bool {
	c := &s.Clauses[k]
	if c.Mood != sentence.MustNot && !barsFrom(s, k) || c.Opener != "" || s.Has(ifs) || k+1 < len(s.Clauses) && narrows[s.Clauses[k+1].Opener] || k > 0 && s.Clauses[k-1].Mood == sentence.If {
		return false
	}
	return !strays(s, k)
}

// barsFrom tells whether a clause forbids without a no: “Keep brass out of Wash 1”, “Brass is forbidden in Wash 1”.
func barsFrom(s *sentence.Sentence, k int) bool {
	switch c := &s.Clauses[k]; c.Mood {
	case sentence.Do:
		return c.Verb == "keep" && s.ClauseHas(k, outWord)
	case sentence.Is, sentence.Fragment:
		return s.ClauseHas(k, barred)
	}
	return false
}

var barred = sentence.Set("forbidden prohibited banned barred")

// narrows are words behind a prohibition that say when it holds.
var narrows = sentence.Set("if unless when whenever where until till before while without as-long-as even-if once after as-soon-as")

// strays tells whether a word of a clause is neither a name nor one of a plain prohibition.
func strays(s *sentence.Sentence, k int) bool {
	words := s.Tokens()
	for _, w := range words {
		if w.Clause != k || plainly[w.Text] || besidesNames[w.Text] {
			continue
		}
		named := false
		for i := range s.Mentions {
			m := &s.Mentions[i]
			named = named || m.Thing != nil && w.From >= m.From && w.From < m.To
		}
		if !named {
			return true
		}
	}
	return false
}

var plainly = sentence.Set(`never no not nor neither or and do don't does doesn't must mustn't may can cannot can't should shouldn't is are be put wash clean use take dip soak place load lower
	immerse send run let goes go comes come belongs belong into in to through for any ever at all here there the a an this these that of its parts part pieces piece everything anything bath
	keep out forbidden prohibited banned barred strictly
	tank cleaner it them fits fit suits suit allowed permitted warning danger caution notice , . ! ; :`)

// besidesNames is what stands beside materials in a list without being one of the manual's.
var besidesNames = sentence.Set("solder tin lead plastic plastics rubber paint wood leather coatings coating plating platings")

// bathIn gives the bath of a clause: the one that it names, or the chemistry of the article; and where it is named, or -1.
func (p *proof) bathIn(a *manual.Article, s *sentence.Sentence, k int) (*spokenOf, int) {
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Thing == nil || s.ClauseOf(m) != k {
			continue
		}
		if bath := p.ofMention(a, m); !bath.own && (len(bath.tanks) == 1 || len(bath.tanks) == 0 && len(bath.chemistries) == 1) {
			return &bath, i
		} else if bath.rinse != nil || bath.dryer != nil || len(bath.tanks)+len(bath.chemistries) > 0 {
			return nil, -1 // a rinse, or one of several
		}
	}
	if a.Chemistry != nil && !a.Partial {
		return &spokenOf{chemistries: []*manual.Article{a}}, -1
	}
	return nil, -1
}

// allowedAll gives the finding for the first material of a clause that the decision allows in a bath, of every kind that its name can mean.
func (p *proof) allowedAll(a *manual.Article, s *sentence.Sentence, k int, bath *spokenOf, bathAt int) *finding.Finding {
	named := false
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if i == bathAt || m.Thing == nil || s.ClauseOf(m) != k {
			continue
		}
		work := p.ofMention(a, m)
		if len(work.materials) == 0 {
			return nil // of a soil, or something else
		}
		named = true
		if f := p.allowedOf(a, s, m, bath, &work); f != nil {
			return f
		}
	}
	if named || bathAt < 0 || a.Material == nil {
		return nil
	}
	work := p.ownSubject(a, "")
	return p.allowedOf(a, s, &s.Mentions[bathAt], bath, &work)
}

func (p *proof) allowedOf(a *manual.Article, s *sentence.Sentence, m *sentence.Mention, bath, work *spokenOf) *finding.Finding {
	if len(work.materials) == 0 || work.part != nil { // a part may be kept out of a bath for its weight, or its customer
		return nil
	}
	for _, material := range work.materials { // that the word can mean
		if !p.admitted(bath, material) {
			return nil
		}
	}
	f := textAgainstDecision.At(placeIn(a, s.Block, max(0, m.From)), fmt.Sprintf("The text forbids %s in %s, and the decision allows it.", work.name(), bath.name()),
		"Say in the headers what harms it: attacked-by, ph, temperature, time or frequency of the material, contains of the chemistry; or take the sentence out, or say when it holds.")
	return &f
}
