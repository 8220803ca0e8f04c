package rules

import (
	"fmt"

	"tankside/builder/expression"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// wrongSides checks a volume beside three lengths: “400 mm long, 300 mm wide and 235 mm deep and so holds 28 L”, “600 × 450 × 445 mm: 120 L”. Of a tank of
// the shop file the volume up to its line counts as well, which is less than what its sides could hold.
func (p *proof) wrongSides(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if s.Question || s.Block.Kind == sentence.Cell || s.Has(noWords) || !s.Has(sideNames) {
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

// sideNames are words and signs of the sides of a thing. Three lengths without any, as of a level that is read three times, are no sides.
var sideNames = sentence.Set("× x * by long wide deep high length width depth height broad tall sides side measures measuring dimensions")

// bareSides are two numbers without a unit before the third side: “600 × 450 × 445 mm”.
var bareSides = expression.Of(`(\d+(?:\.\d+)?) ?[×x] ?(\d+(?:\.\d+)?) ?[×x] ?$`)
