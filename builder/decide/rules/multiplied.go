package rules

import (
	"fmt"
	"math"
	"slices"

	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// wrongMultiplied checks a sum that is told as what to do with two numbers: “Multiply 120 by 0.04 and you have 4.8 L”, “Divide 4.8 by 120 to get 4 %”.
// A per cent, or litres and millilitres, may put the point at another place.
func (p *proof) wrongMultiplied(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if s.Question || s.Has(noWords) || s.Block.Kind == sentence.Cell {
		return 0, ""
	}
	verb, by := "", 0
	var numbers []sentence.Term
	for _, t := range s.Arithmetic() {
		switch text := s.Block.Text[t.From:t.To]; {
		case t.Number && verb != "":
			numbers = append(numbers, t)
		case verb == "" && reckons[text] != "":
			verb = reckons[text]
		case text == "by" && len(numbers) == 1:
			by = t.To
		case operators[t.Sign]:
			return 0, "" // it goes on
		}
	}
	if len(numbers) != 3 || by == 0 || numbers[1].From < by {
		return 0, ""
	}
	one, two, result := numbers[0], numbers[1], numbers[2]
	want := one.Value * two.Value
	if verb == "divide" {
		if two.Value == 0 {
			return 0, ""
		}
		want = one.Value / two.Value
	}
	slack := max(0.02*result.Value, 0.55*math.Pow(10, -float64(result.Decimals)))
	if slices.ContainsFunc(scalesOf(numbers[:2], result), func(scale float64) bool { return math.Abs(want*scale-result.Value) <= slack }) {
		return 0, ""
	}
	return result.From, fmt.Sprintf("That gives %s.", plainFigure(want))
}

// reckons are commands to reckon with two numbers.
var reckons = map[string]string{"Multiply": "multiply", "multiply": "multiply", "Divide": "divide", "divide": "divide"}
