package rules

import (
	"fmt"
	"slices"

	"tankside/builder/decide/admit"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// softIntoDryer finds a sentence that sends a plastic or a rubber into the shop's dryer, or calls the dryer fit for it, and gives no temperature of its own:
// “The dryer is fine for acrylic”. The limit is that of dryer-too-hot. Where the sentence gives a temperature, heat-beyond-limit judges that.
func (p *proof) softIntoDryer(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	air := p.Shop.Dryer.Temperature
	if !air.Set || a.Part != nil || s.Block.Kind == sentence.Cell || s.Has(coolDryer) || s.Has(openAir) || s.Has(exceptions) || illOf(s) || s.Harmful() || slices.ContainsFunc(s.Quantities, func(q sentence.Quantity) bool { return q.Kind == quantity.Temperature }) {
		return nil
	}
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Thing == nil || m.Thing.Dryer == nil || m.Where || !affirmed(s, s.ClauseOf(m)) {
			continue
		}
		k := s.ClauseOf(m)
		sent := sharesDryer[s.Ruler(m)] || (into(s, m) || s.Ruler(m) == "by" || s.Ruler(m) == "of") && (s.ClauseHas(k, goesDry) || s.ClauseHas(k, endsDry) || hasTime(s, k))
		sent = sent || s.ClauseHas(k, comeOut) && (s.Ruler(m) == "of" || s.Ruler(m) == "from") && s.ClauseHas(k, looksGood) && !s.ClauseHas(k, misshapen)
		fit := s.Ruler(m) != "from" && (s.ClauseHas(k, fitWords) || s.ClauseHas(k, better)) && fitVerbs[s.After(m)]
		if !sent && !fit {
			continue
		}
		for _, b := range p.softIn(a, s, m, fit) {
			if l := b.Material.Temperature; l.Set && air.High > l.High+1e-9 {
				f := textAgainstDecision.At(placeIn(a, s.Block, max(0, m.From)), fmt.Sprintf("The text sends %s into %s, which has %s; its limit is %s.", b.Head.Title, p.Shop.Dryer.Name, air.In(p.Shop.System()), l.In(p.Shop.System())),
					"Blow it off and let it dry in the air.", l.At, air.At)
				return &f
			}
		}
	}
	return nil
}

// softIn gives what softens by heat of the materials that stand before the dryer in its clause, or behind it where it is called fit for them; the one of the
// page where none is named.
func (p *proof) softIn(a *manual.Article, s *sentence.Sentence, dryer *sentence.Mention, fit bool) []*manual.Article {
	var list []*manual.Article
	named := false
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Thing.Kind() != manual.Material || s.ClauseOf(m) != s.ClauseOf(dryer) || m.From > dryer.From && !fit {
			continue
		}
		named = true
		if of := p.ofMention(a, m); !slices.ContainsFunc(of.materials, func(b *manual.Article) bool { return !admit.Softens(b.Material.MadeOf) }) {
			list = append(list, of.materials...)
		}
	}
	if !named && a.Material != nil && !a.Partial && admit.Softens(a.Material.MadeOf) && !otherMatter(a, s) {
		list = append(list, a)
	}
	return list
}

var (
	coolDryer   = sentence.Set("cold cool unheated off lukewarm fan-only")
	endsDry     = sentence.Set("finish finishes finished end ends belongs belong passes pass follows")
	sharesDryer = sentence.Set("share shares use uses visit see sees get gets")
	misshapen   = sentence.Set("bent warped cracked crazed cloudy dull soft sagging hazy never not no")
	fitVerbs    = sentence.Set("is suits fits does")
)
