package rules

import (
	"fmt"

	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// wetIntoDryer finds a sentence which sends what comes out of a chemistry that can be lit, the page's or one that it names, into the hot dryer, with no wash or
// rinse between. The limit is that of flammable-into-dryer.
func (p *proof) wetIntoDryer(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if a.Partial || !s.Has(hotDrying) || s.Has(washedBetween) || denied(s) || illOf(s) || s.Harmful() || s.Has(exceptions) || s.Block.Kind == sentence.Cell {
		return nil
	}
	wet := p.burningIn(a, s)
	if wet == nil {
		return nil
	}
	for k := range s.Clauses {
		if m := s.Clauses[k].Mood; s.ClauseHas(k, hotDrying) && s.Clauses[k].Opener == "" && (m == sentence.Do || m == sentence.Is || m == sentence.Able || m == sentence.Fragment) && s.ClauseHas(k, goesDrying) {
			f := textAgainstDecision.At(placeIn(a, s.Block, s.From+leading(s)), fmt.Sprintf("The text sends what is wet with %s into a hot dryer; its vapour can be lit there.", wet.Head.Title),
				"Wash and rinse it off first, or let it dry away from heat and flame.")
			return &f
		}
	}
	return nil
}

// burningIn gives the chemistry that can be lit of which a sentence speaks: one from or with which something comes, or the one of the page; or nil.
func (p *proof) burningIn(a *manual.Article, s *sentence.Sentence) *manual.Article {
	burns := func(b *manual.Article) bool {
		c := relate.Chemistry(b)
		_, lit := c.Flammable()
		return lit
	}
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if !m.Thing.Single(manual.Chemistry) || !comesWet[s.Before(m)] {
			continue
		}
		if c := m.Thing.One(p.Manual, manual.Chemistry); c != nil && !c.Partial && burns(c) {
			return c
		}
	}
	if a.Chemistry != nil && burns(a) && !otherBathIn(a, s) {
		return a
	}
	return nil
}

var comesWet = sentence.Set("from after with of in")

var (
	hotDrying     = sentence.Set("dryer oven hot-air heat-gun")
	goesDrying    = sentence.Set("go goes put hang dry dries dried place placed load hung come comes move moved take taken carry send sent into straight directly")
	washedBetween = sentence.Set("wash washed washes rinse rinsed rinses rinsing water wait never cold evaporate evaporated drip after-wash neutral alkaline detergent not")
)
