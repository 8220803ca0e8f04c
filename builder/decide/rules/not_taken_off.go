package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// notTakenOff looks, on a soil's page, for a statement that it comes off in a bath which the page's removed-by does not name: “Lime comes off in Wash 1”,
// “Kettle fur gives way to mild alkaline”. Steps that go before or behind, and baths of which the sentence compares two, say nothing of the kind.
func (p *proof) notTakenOff(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if a.Soil == nil || a.Partial || len(a.Soil.RemovedBy) == 0 || s.Block.Summary() || s.Block.Kind == sentence.Cell || comparesBaths(s) || s.Has(inChain) {
		return nil
	}
	for i := range s.Mentions {
		m := &s.Mentions[i]
		k := s.ClauseOf(m)
		if !bathNamed(s, m) {
			continue
		}
		if !(affirmed(s, k) && !usedOtherwise(s, m) && p.does(a, s, m, k)) && !thinksWell(s, k) {
			continue
		}
		bath, one := p.oneBath(s, m)
		if !one || len(bath.chemistries) != 1 || removesIt(a, bath.chemistries[0]) {
			continue
		}
		if !p.namesOnly(a, s) {
			return nil
		}
		f := textAgainstDecision.At(placeIn(a, s.Block, max(0, m.From)), fmt.Sprintf("The text takes %s off in %s, which removed-by does not name.", strings.ToLower(a.Head.Title), bath.name()),
			"Name a bath that takes it off, or add this one to removed-by.", at(a, "removed-by"))
		return &f
	}
	return nil
}

// removesIt tells whether a soil's page names a chemistry that takes it off.
func removesIt(soil, chemistry *manual.Article) bool {
	return slices.ContainsFunc(soil.Soil.RemovedBy, func(r manual.Removal) bool { return r.Chemistry.Name == chemistry.Name })
}

// namesOnly tells whether a sentence names the soil of its page, by one of its names or a word of its title, and no other soil.
func (p *proof) namesOnly(a *manual.Article, s *sentence.Sentence) bool {
	words, own := s.AllWords(), false
	title, names := strings.Fields(strings.ToLower(a.Head.Title)), namesOf(a)
	for i := 0; i < len(words); i++ {
		if n := nameFrom(words[i:], func(name string) bool { return slices.Contains(names, name) }); n > 0 {
			own, i = true, i+n-1
			continue
		}
		if words[i] == "it" && i > 0 && (doesWork[words[i-1]] || doesWork[words[i-1]+"s"]) {
			own = true // “Wash 1 shifts it”
			continue
		}
		if len(words[i]) > 3 && !matters[words[i]] && slices.Contains(title, words[i]) {
			own = true
			continue
		}
		if nameFrom(words[i:], func(name string) bool { o := p.called(name); return o != nil && o.Soil != nil }) > 0 || otherDirt[words[i]] {
			return false
		}
	}
	return own
}

// nameFrom gives how many of the first words are a name, the longest one, or 0.
func nameFrom(words []string, is func(string) bool) int {
	for n := min(3, len(words)); n > 0; n-- {
		if name := plainName(strings.Join(words[:n], " ")); len(name) > 3 && is(name) {
			return n
		}
	}
	return 0
}

// otherDirt are soils without an article of their own.
var otherDirt = sentence.Set("oil oily grease greasy dirt mud")

// inChain are words of one step among several.
var inChain = sentence.Set("first then before after afterwards next second last rinse rinses rinsed follow follows pre-clean pre-wash half partly part loosens softens most worst rest")
