package rules

import (
	"fmt"

	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// fireInText finds, on the page of a chemistry that can be lit, a sentence that brings a flame or sparks to it, or its rags into an open bin. It prevents a
// fire: vapour creeps along the floor to a flame, and rags heat up by themselves. Limit: UN GHS, chapter 2.6, for what can be lit; 29 CFR 1910.106(e)(9)(iii)
// for rags in covered metal containers (as quoted in the demo manual's article on terpene).
func (p *proof) fireInText(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if a.Chemistry == nil || a.Partial || s.Block.Kind == sentence.Cell || !s.Has(flames) && !s.Has(wipingCloths) || illOf(s) || s.Has(exceptions) || otherBathIn(a, s) {
		return nil
	}
	c := relate.Chemistry(a)
	if _, burns := c.Flammable(); !burns {
		return nil
	}
	for k := range s.Clauses {
		if c := &s.Clauses[k]; c.Opener != "" || c.Mood == sentence.Was || c.Mood == sentence.MustNot || c.Mood == sentence.Example || c.Mood == sentence.Ask || denies(s, k) || s.ClauseHas(k, longAgo) || s.ClauseHas(k, kept) {
			continue
		}
		says := ""
		switch {
		case s.ClauseHas(k, flames) && (s.ClauseHas(k, praised) || s.ClauseHas(k, goodUses) || s.Clauses[k].Mood == sentence.Do && s.ClauseHas(k, lights)):
			says = fmt.Sprintf("The text brings a flame or sparks to %s, which can be lit.", a.Head.Title)
		case s.ClauseHas(k, wipingCloths) && s.ClauseHas(k, openBins) && s.ClauseHas(k, thrown):
			says = fmt.Sprintf("The text leaves rags with %s in the open; they can heat up until they burn.", a.Head.Title)
		default:
			continue
		}
		f := textAgainstDecision.At(placeIn(a, s.Block, s.From+leading(s)), says, "Keep flames and sparks away, and rags in a closed metal bin that is emptied daily.")
		f.Severity = finding.People
		return &f
	}
	return nil
}

var (
	flames       = sentence.Set("burner burners flame flames candle lighter torch blowlamp welding grinding sparks smoking cigarette cigarettes hotplate")
	lights       = sentence.Set("heat warm use put light weld grind hold smoke dry")
	kept         = sentence.Set("away off outside far metal closed covered lid lidded apart separate")
	wipingCloths = sentence.Set("rag rags cloths wipes")
	openBins     = sentence.Set("bin basket box heap pile pocket corner bench drawer bag sack radiator")
	thrown       = sentence.Set("throw thrown put go goes lie left leave drop dropped stay collect collected kept keep hang dry")
)
