package rules

import (
	"fmt"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// wrongOneIn checks “4.8 L in 120 L is 1 in 25”, by parts of the whole or of what it goes into.
func (p *proof) wrongOneIn(_ *manual.Article, s *sentence.Sentence) (int, string) {
	q := s.Quantities
	if len(q) != 2 || s.Question || s.Has(noWords) || q[0].Kind != q[1].Kind || !addable[q[0].Kind] || !plain(&q[0]) || !plain(&q[1]) || !joinsProduct(words(s, q[0].To, q[1].From)) {
		return 0, ""
	}
	m := oneIn.FindStringSubmatchIndex(s.Block.Text[q[1].To:s.To])
	if m == nil {
		return 0, ""
	}
	n, want := floatOf(s.Block.Text[q[1].To+m[2]:q[1].To+m[3]]), q[1].Range.Low/q[0].Range.Low
	if off(n, want) <= 0.05 || off(n, want+1) <= 0.05 || off(n, want-1) <= 0.05 {
		return 0, ""
	}
	return q[1].To + m[2], fmt.Sprintf("%s in %s is 1 in %s.", q[0].Text, q[1].Text, plainFigure(want))
}

var oneIn = expression.Of(`^[^.,;0-9]{0,24}(?:is|are|makes?|=) (?:(?:1|one) (?:in|to)|1:) ?(\d+)\b`)

// wrongVolumeRatio checks so much in so much: “10 L per 100 L is 10 %”, “20 mL a litre is 2 %”, “40 mL to the litre makes 4.8 L in Wash 1”.
func (p *proof) wrongVolumeRatio(_ *manual.Article, s *sentence.Sentence) (int, string) {
	q := s.Quantities
	if len(q) < 2 || len(q) > 3 || s.Question || s.Has(noWords) || q[0].Kind != quantity.Volume || !plain(&q[0]) {
		return 0, ""
	}
	told, whole := &q[len(q)-1], 1e-3
	first := words(s, q[0].To, told.From)
	if len(q) == 3 {
		if first = words(s, q[0].To, q[1].From); q[1].Kind != quantity.Volume || !plain(&q[1]) || len(first) == 0 || len(first) > 4 || !perWhole[first[len(first)-1]] || !toldAs(s, &q[1], told) {
			return 0, ""
		}
		whole = q[1].Range.Low
	} else if !litreOnly(first) || !toldAs(s, &q[0], told) {
		return 0, ""
	}
	share := q[0].Range.Low / whole
	t := onlyTank(s)
	switch {
	case told.Kind == quantity.Volume && t != nil && t.Volume.Set && len(q) == 2:
		share *= t.Volume.Low
	case told.Kind != quantity.Fraction && told.Kind != quantity.VolumeFraction:
		return 0, ""
	}
	if off(share, told.Range.Low) <= slackOf(told) || told.Kind != quantity.Volume && off(share/(1+share), told.Range.Low) <= slackOf(told) {
		return 0, ""
	}
	return told.From, fmt.Sprintf("That is %s, not %s.", quantity.ShowIn(share, told.Unit), told.Text)
}

var perWhole = sentence.Set("per each every")

// litreOnly tells whether “a litre”, “in a litre” or “to the litre” begins what stands between two amounts.
func litreOnly(list []string) bool {
	if len(list) > 0 && (list[0] == "in" || list[0] == "to" || list[0] == "for") {
		list = list[1:]
	}
	return len(list) > 1 && (list[0] == "a" || list[0] == "per" || list[0] == "each" || list[0] == "the") && list[1] == "litre" || len(list) > 2 && list[1] == "each" && list[2] == "litre"
}

// wrongLitreHolds checks how much concentrate a litre of bath holds: “At 4 % v/v a litre of bath holds 45 g of concentrate”, by the strength that the sentence
// says, or that of the tank it names, and the density of the chemistry.
func (p *proof) wrongLitreHolds(a *manual.Article, s *sentence.Sentence) (int, string) {
	if s.Question || s.Has(noWords) || s.Has(oldBaths) || !s.Has(dosed) || !aLitreOf.MatchString(strings.ToLower(s.Text())) {
		return 0, ""
	}
	var share, held *sentence.Quantity
	for i := range s.Quantities {
		switch q := &s.Quantities[i]; {
		case !plain(q):
			return 0, ""
		case q.Kind == quantity.VolumeFraction || q.Kind == quantity.Fraction:
			share = q
		case (q.Kind == quantity.Volume || q.Kind == quantity.Mass) && q.Near == "of" && q.Text != "one litre" && q.Text != "One litre" && q.Range.Low < 1:
			held = q
		case q.Kind != quantity.Volume:
			return 0, ""
		}
	}
	strength := 0.0
	switch t := onlyTank(s); {
	case share != nil:
		strength = share.Range.Low
	case t != nil && t.Strength.Set && t.Strength.Kind == quantity.VolumeFraction:
		strength = t.Strength.Low
	}
	if strength == 0 || held == nil || len(s.Quantities) > 3 {
		return 0, ""
	}
	want := strength * 1e-3
	if held.Kind == quantity.Mass {
		densities := p.densitiesIn(a, s)
		if len(densities) == 0 {
			return 0, ""
		}
		want *= densities[0]
	}
	if off(want, held.Range.Low) <= max(0.06, slackOf(held)) {
		return 0, ""
	}
	return held.From, fmt.Sprintf("A litre holds %s, not %s.", quantity.ShowIn(want, held.Unit), held.Text)
}

// aLitreOf finds a litre of finished bath.
var aLitreOf = expression.Of(`\b(?:a|one|each|every|per|1) ?(?:litre|liter|l) of (?:the |our |ready |finished |mixed |fresh )*(?:bath|solution|mix|wash)\b`)
