package rules

import (
	"fmt"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// unsaidGallon finds gallons, quarts and fluid ounces of which the text does not say whether they are US or imperial ones, unless US units stand first in
// the shop or the same amount stands beside it in litres, and ounces to the gallon that may be weighed or measured. It prevents a bath that is filled or
// dosed by the wrong gallon, a fifth off, or by the wrong ounce: of a concentrate of 1.36 kg/L 8 ounces to the US gallon are 4.4 % v/v where they are
// weighed, 6.3 % where they are measured. The headers and the shop file are held to the same as they are read.
var unsaidGallon = finding.Rule{
	Name: "unsaid-gallon", Severity: finding.Result,
	Finds:  "gallons that may be US or imperial ones, ounces to the gallon that may be weighed or measured",
	Why:    "An imperial gallon is a fifth more than a US one: by the wrong one the bath is a fifth off.",
	Source: "NIST SP 811 (2008), appendix B",
}

func findUnsaidGallons(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	said := p.reading(a)
	for i := range said.sentences {
		s := &said.sentences[i]
		for j := range s.Quantities {
			q := &s.Quantities[j]
			if says, remedy := p.unsaid(s, j); says != "" {
				list = append(list, unsaidGallon.At(placeIn(a, s.Block, q.From), says, remedy))
			}
		}
	}
	return list
}

// unsaid tells what a quantity of a sentence leaves open, and what to do; "" where nothing is left open.
func (p *proof) unsaid(s *sentence.Sentence, j int) (says, remedy string) {
	q := &s.Quantities[j]
	written := strings.ToLower(q.Text)
	switch {
	case q.Unit.Symbol == "wt oz/US gal" && !strings.Contains(written, "wt") && !strings.Contains(written, "weight"):
		n := strings.TrimSuffix(q.Range.String(), q.Unit.Symbol)
		return fmt.Sprintf("%s may be ounces by weight or fluid ounces.", q.Text), "Write " + n + "wt oz/US gal, " + n + "fl oz/US gal, " + n + "wt oz/imp gal or " + n + "imp fl oz/imp gal, whichever is meant."
	case s.Has(namedGallons), q.Kind == quantity.Hardness, p.Shop.US, !strings.Contains(q.Unit.Symbol, "US "), usWords[firstWord(s.Block.Text[q.To:s.To])], strings.Contains(written, "us ") || strings.Contains(written, "u.s."):
		return "", ""
	case j > 0 && sameAmount(s, &s.Quantities[j-1], q), j+1 < len(s.Quantities) && sameAmount(s, q, &s.Quantities[j+1]):
		return "", "" // the other tells it; whether they are the same is asked elsewhere
	}
	us, imperial := q.Range.BothGallons()
	return fmt.Sprintf("%s may be in US or in imperial measure.", q.Text), "Write " + us + ", or " + imperial + ", whichever is meant; or say units: US in the shop file, and a gallon is the US one."
}

// namedGallons are words of a sentence that says which gallon it speaks of: “A US gallon has four quarts”.
var (
	namedGallons = sentence.Set("us u.s. uk imperial american imp")
	usWords      = sentence.Set("us u.s.")
)

// firstWord is the first word of a text in small letters, without brackets and marks about it.
func firstWord(text string) string {
	word, _, _ := strings.Cut(strings.TrimLeft(strings.ToLower(text), " \u00a0("), " ")
	return strings.Trim(word, "(),;:")
}
