package rules

import (
	"fmt"
	"regexp"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// wrongSides checks a volume beside three lengths: “400 mm long, 300 mm wide and 235 mm deep and so holds 28 L”, “600 × 450 × 445 mm: 120 L”. Of a tank of
// the shop file the volume up to its line counts as well, which is less than what its sides could hold.
func (p *proof) wrongSides(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if s.Question || s.Block.Kind == sentence.Cell || s.Has(noWords) {
		return 0, ""
	}
	var sides []float64
	var volume *sentence.Quantity
	for i := range s.Quantities {
		switch q := &s.Quantities[i]; {
		case q.Kind == quantity.Length && plain(q) && volume == nil:
			if m := bareSides.FindStringSubmatch(s.Block.Text[max(s.From, q.From-24):q.From]); m != nil && len(sides) == 0 {
				scale := q.Range.Low / q.Low.Value
				sides = append(sides, numberOf(m[1])*scale, numberOf(m[2])*scale)
			}
			if len(sides) > 0 && i > 0 && !joinsSides(words(s, s.Quantities[i-1].To, q.From)) {
				return 0, ""
			}
			sides = append(sides, q.Range.Low)
		case q.Kind == quantity.Volume && plain(q):
			if volume != nil {
				return 0, ""
			}
			volume = q
		case q.Kind == quantity.Length:
			return 0, ""
		}
	}
	if len(sides) != 3 || volume == nil {
		return 0, ""
	}
	full := sides[0] * sides[1] * sides[2]
	if full <= 0 || off(full, volume.Range.Low) <= volumeTolerance+slackOf(volume) {
		return 0, ""
	}
	return volume.From, fmt.Sprintf("These sides make %s, not %s.", quantity.ShowIn(full, volume.Unit), volume.Text)
}

// joinsSides tells whether only what joins the sides of one thing stands between two lengths: “×”, “by”, “long,”, “wide and”.
func joinsSides(between []string) bool {
	for _, w := range between {
		if w = strings.Trim(w, ",;:()"); w != "" && !sideWords[w] {
			return false
		}
	}
	return true
}

var sideWords = sentence.Set("× x * by and long wide deep high length width depth height broad tall is its the of inside at with in a")

// bareSides are two numbers without a unit before the third side: “600 × 450 × 445 mm”.
var bareSides = regexp.MustCompile(`(\d+(?:\.\d+)?) ?[×x] ?(\d+(?:\.\d+)?) ?[×x] ?$`)
