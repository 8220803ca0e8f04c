package rules

import (
	"fmt"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// rinseUnneeded finds a sentence, on another page than a part's, by which nothing is rinsed after a bath that must not stay on a part: “No rinse is needed after this
// bath”, “Parts from Wash 1 need no rinse”. The limit is that of wash-without-rinse.
func (p *proof) rinseUnneeded(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if !s.Has(rinseOrDryer) || a.Part != nil || s.Quiet() || s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || illOf(s) || s.Has(exceptions) || s.Has(longAgo) || s.Has(otherRinses) || elsewhere(s) {
		return nil
	}
	text := strings.ToLower(s.Block.Text[s.From:s.To])
	at := needlessRinse.FindStringIndex(text)
	if at == nil || refused.MatchString(text[:at[0]]+text[at[1]:]) {
		return nil
	}
	c := p.bathLeft(a, s)
	if c == nil {
		return nil
	}
	why, wants := wantsRinse(c)
	if !wants {
		return nil
	}
	f := textAgainstDecision.At(placeIn(a, s.Block, s.From+at[0]), fmt.Sprintf("The text leaves out the rinse after %s, which must not stay on a part.", c.Head.Title), "Say how it is rinsed off.", why)
	return &f
}

// bathLeft gives the chemistry of the one bath that a sentence names, or that of its page; nil where there is none, or more than one.
func (p *proof) bathLeft(a *manual.Article, s *sentence.Sentence) *manual.Article {
	var c *manual.Article
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Thing == nil || !m.Thing.Bath() {
			continue
		}
		of := p.ofMention(a, m)
		if len(of.chemistries) != 1 || c != nil && c != of.chemistries[0] {
			return nil
		}
		c = of.chemistries[0]
	}
	if c == nil && a.Chemistry != nil && !a.Partial {
		return a
	}
	return c
}

var (
	rinseOrDryer  = sentence.Set("rinse rinsing dryer") // one of which needlessRinse has
	needlessRinse = expression.Of(`\bno rins(?:e|ing) (?:is |are )?(?:needed|necessary|required|wanted|called for)\b|\b(?:a|the) rinse (?:is not|isn't) (?:needed|necessary|required)\b|\brinsing (?:is not|isn't) (?:needed|necessary|required)\b|\b(?:a|the) rinse is (?:needless|superfluous|optional)\b|\b(?:needs?|wants?) no rins(?:e|ing)\b|\b(?:from|out of) (?:the|this) bath (?:straight|directly) (?:in)?to the dryer\b`)
	refused       = expression.Of(`\b(?:never|nobody|not|don't|no|cannot|wrong)\b`)
	otherRinses   = sentence.Set("between before second third last hot further if water inhibitor")
)
