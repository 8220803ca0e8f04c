package rules

import (
	"fmt"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// intoNoTank finds, on a material's page, that it goes into no bath at all while the decision lets it into one of the shop's: “It goes into no tank”, “Never immerse
// it”. What may go into none has the feature sealed; what harms it may be said too. Without either, every table and answer offers a bath.
func (p *proof) intoNoTank(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if a.Material == nil || a.Partial || s.Question || s.TakenBack || !hasSign(s.Text(), "no ", "No ", "ever ", "ot ", "out of") {
		return nil
	}
	if !hasSign(strings.ToLower(s.Text()), "tank", "bath", "liquid", "vessel", "immerse") {
		return nil
	}
	at := noTank.FindStringIndex(s.Text())
	if at == nil || notAllOfIt.MatchString(s.Text()) {
		return nil
	}
	for i := range p.Shop.Tanks {
		t := &p.Shop.Tanks[i]
		c := p.Named(manual.Chemistry, t.Chemistry.Name)
		if c == nil || !p.admitted(&spokenOf{tanks: []*manual.Tank{t}, chemistries: []*manual.Article{c}}, a) {
			continue
		}
		f := textAgainstDecision.At(placeIn(a, s.Block, s.From+at[0]), fmt.Sprintf("The text says “%s”, and the decision allows %s.", strings.TrimSpace(s.Text()[at[0]:at[1]]), t.Name),
			"Write features: [sealed] in the header where it is never immersed, or what harms it: attacked-by, ph, temperature; or say which bath is meant.")
		return &f
	}
	return nil
}

var (
	// noTank finds that something goes into no bath, whatever is in it.
	noTank = expression.Of(`(?i)\b(?:(?:go|goes|comes?|put|belongs?|allowed|fits?) (?:in|into) no (?:tank|bath|liquid|vessel)\b(?: at all)?|no (?:tank|bath|vessel|liquid) (?:at all|of any kind|whatever)\b|never (?:go|goes|goes? in|put (?:it|them)|dip (?:it|them)|lower (?:it|them)) (?:in|into) (?:a|any) (?:tank|bath|liquid|vessel)\b|no (?:tank|bath) is for (?:it|them)\b|(?:never|not) (?:be )?immersed?\b|(?:keep it|kept|stays?|stay) out of (?:every|all|any) (?:tanks?|baths?|liquids?)\b)`)
	// notAllOfIt finds that something is excepted, or that a part or a state of it is meant.
	notAllOfIt = expression.Of(`(?i)\b(?:but|except|only|other than|than|while|when|if|unless|until|before|with|without|assembled|complete|mounted|longer|that|which|where|of)\b`)
)
