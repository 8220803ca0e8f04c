package rules

import (
	"fmt"
	"math"
	"slices"

	"tankside/builder/expression"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// wrongLevel checks how many litres a level makes in a tank of the shop: “8 mm in Wash 1 are 2.16 L”, by the tank's length and width.
func (p *proof) wrongLevel(_ *manual.Article, s *sentence.Sentence) (int, string) {
	t := onlyTank(s)
	if t == nil || !t.Length.Set || !t.Width.Set || s.Question || s.Has(noWords) {
		return 0, ""
	}
	if len(s.Quantities) == 1 {
		return wrongOneLevel(p, s, t)
	}
	if len(s.Quantities) != 2 {
		return 0, ""
	}
	level, volume := &s.Quantities[0], &s.Quantities[1]
	if level.Kind != quantity.Length || volume.Kind != quantity.Volume || level.Span || volume.Span {
		return 0, ""
	}
	name := s.Has(levelWords) && !hasSide(s, level) && level.Range.Low < 0.2 && (isRest(s, volume) || endsTelling(gap(s, level, volume), nil, volume))
	if !name && level.From != s.From+leading(s) {
		return 0, ""
	}
	for i := range s.Mentions {
		m := &s.Mentions[i]
		name = name || m.From > level.To && m.To < volume.From && len(levelOf(words(s, level.To, m.From))) <= 2 && (s.Before(m) == "in" || s.Before(m) == "of") && isWord(words(s, m.To, volume.From))
	}
	want := level.Range.Low * t.Length.Low * t.Width.Low
	if !name || off(want, volume.Range.Low) <= math.Max(0.06, slackOf(volume, level)) {
		return 0, ""
	}
	return volume.From, fmt.Sprintf("%s of level in %s is %s, not %s.", level.Text, t.Name, quantity.ShowIn(want, volume.Unit), volume.Text)
}

// hasSide tells whether a sentence speaks of a side of a tank; what a level has gone down “by” is none.
func hasSide(s *sentence.Sentence, level *sentence.Quantity) bool {
	return slices.ContainsFunc(s.AllWords(), func(w string) bool { return sideNames[w] && !(w == "by" && precededBy(s, level, "by")) })
}

// levelWords are words of a level that has gone down or up.
var levelWords = sentence.Set("low lower down fallen fell dropped drops sunk missing level up risen")

// wrongOneLevel checks a millimetre or centimetre of a tank: “A centimetre in Wash 1 is 2.7 L”.
func wrongOneLevel(p *proof, s *sentence.Sentence, t *manual.Tank) (int, string) {
	volume := &s.Quantities[0]
	m := oneLevel.FindStringSubmatch(s.Block.Text[s.From:volume.From])
	if m == nil || volume.Kind != quantity.Volume || !plain(volume) || m[2] != t.Name {
		return 0, ""
	}
	want := unitWords[m[1]].size * t.Length.Low * t.Width.Low
	if off(want, volume.Range.Low) <= math.Max(0.06, slackOf(volume)) {
		return 0, ""
	}
	return volume.From, fmt.Sprintf("A %s of level in %s is %s, not %s.", m[1], t.Name, quantity.ShowIn(want, volume.Unit), volume.Text)
}

// oneLevel finds one unit of level in a tank, and the verb behind it.
var oneLevel = expression.Of(`^\s*(?:A|One|Each|Every) (centimetre|millimetre) (?:of level )?(?:in|of) (.+?) (?:is|are|makes|means|holds|takes) (?:about )?$`)

// levelOf leaves out “of level” or “of water” behind a height.
func levelOf(between []string) []string {
	if len(between) > 1 && between[0] == "of" && (between[1] == "level" || between[1] == "water" || between[1] == "bath") {
		return between[2:]
	}
	return between
}

// wrongPerCent checks “392 W against 410 W is 4.4 % low”: the share by which the first amount is below or above the second.
func (p *proof) wrongPerCent(_ *manual.Article, s *sentence.Sentence) (int, string) {
	q := s.Quantities
	if len(q) != 3 || q[0].Unit != q[1].Unit || q[0].Kind == quantity.Temperature || q[2].Kind != quantity.Fraction || q[0].Span || q[1].Span || q[2].Span || q[1].Range.Low <= 0 || !lowOrHigh[q[2].Near] {
		return 0, ""
	}
	between := words(s, q[0].To, q[1].From)
	if len(between) == 0 || len(between) > 2 || !againsts[between[0]] || !isWord(words(s, q[1].To, q[2].From)) {
		return 0, ""
	}
	want := math.Abs(1 - q[0].Range.Low/q[1].Range.Low)
	step := 0.55 * math.Pow(10, -float64(q[2].Low.Decimals)) / 100
	if math.Abs(want-q[2].Range.Low) <= math.Max(step, 0.08*want) {
		return 0, ""
	}
	return q[2].From, fmt.Sprintf("Between %s and %s lie %s, not %s.", q[0].Text, q[1].Text, quantity.ShowIn(want, q[2].Unit), q[2].Text)
}

// isWord tells whether nothing but a word for “is” stands between two amounts.
func isWord(between []string) bool { return len(between) == 1 && equalWords[between[0]] }

var (
	equalWords = sentence.Set("is are = makes make means")
	againsts   = sentence.Set("against instead versus for of")
	lowOrHigh  = sentence.Set("low lower less high higher more too below above down up")
)
