package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tankside/builder/sentence"
)

// wrongChain works out a chain of numbers joined by × ÷ + − and compares it with what stands behind “=” or “≈”.
func wrongChain(s *sentence.Sentence) (from int, says string, wrong bool) {
	text := s.Block.Text[s.From:s.To]
	spoken := spokenChain(text)
	if s.Has(multiples) || !spoken && (!hasSign(text, "=", "≈", ", so ") || !strings.ContainsAny(text, "×÷*+−x/-")) {
		return 0, "", false
	}
	parts := chainOf(s.Arithmetic(), spoken)
	for i := 0; i < len(parts); i++ {
		if parts[i].Sign != "=" && parts[i].Sign != "≈" {
			continue
		}
		from := i
		for from > 0 && (parts[from-1].Number || operators[parts[from-1].Sign] || parts[from-1].Sign == "(" || parts[from-1].Sign == ")") {
			from--
		}
		left := parts[from:i]
		if len(left) < 3 || i+1 >= len(parts) || !parts[i+1].Number || i+2 < len(parts) && (operators[parts[i+2].Sign] || parts[i+2].Number) || from > 0 && parts[from-1].Sign == "/" {
			continue
		}
		slack := 0.02
		if parts[i].Sign == "≈" || parts[i+1].Rough {
			slack = 0.06
		}
		result := parts[i+1]
		step := 0.55 * math.Pow(10, -float64(result.Decimals))
		fits, known := false, false
		worked := 0.0
		for _, percent := range percentages(left, result) {
			v, ok := work(left, percent)
			if !ok {
				continue
			}
			if !known {
				worked = v
			}
			known = true
			for _, scale := range scalesOf(left, result) {
				got := v * scale
				fits = fits || math.Abs(got-result.Value) <= math.Max(slack*math.Abs(result.Value), step) && (scale == 1 || result.Unit || percentIn(left))
			}
		}
		if known && !fits {
			return parts[i+1].From, fmt.Sprintf("The sum “%s” does not come out: it gives %s.", strings.TrimSpace(s.Block.Text[parts[from].From:parts[i+1].To]), plainFigure(worked)), true
		}
	}
	return 0, "", false
}

// spokenChain tells whether a sum is said in words: “10.5 mL times 0.40 gives”.
func spokenChain(text string) bool {
	for _, w := range []string{" times ", " plus ", " minus ", " divided by "} {
		if strings.Contains(text, w) {
			return true
		}
	}
	return false
}

// chainOf leaves out up to three words that only say of what an amount is, before a sign: “114 L of bath + 3 L of oil = 117 L”. Signs that are words
// count only in a sum that is said in words.
func chainOf(terms []sentence.Term, spoken bool) []sentence.Term {
	list := make([]sentence.Term, 0, len(terms))
	for i, t := range terms {
		if n := len(list); t.Spoken && spoken && n > 1 && (list[n-1].Sign == "," || list[n-1].Sign == ";") && list[n-2].Number {
			list = list[:n-1] // “9.7 mL, times 0.40 is 3.88 %”
		}
		if t.Sign == "word" && t.So && i > 2 && terms[i-1].Sign == "," && terms[i-2].Number && operators[terms[i-3].Sign] && i+1 < len(terms) && terms[i+1].Number {
			list = list[:len(list)-1] // “45 × 3, so 180 s”
			t.Sign = "="
		}
		if t.Spoken && !spoken {
			t.Sign = "word"
		}
		if t.Sign == "word" && t.To-t.From <= 8 && len(list) > 0 && operators[list[len(list)-1].Sign] && !list[len(list)-1].Spoken && i+1 < len(terms) && terms[i+1].Number {
			continue // “T 27.0 mL ÷ F 9.0 mL”, “10.5 mL × factor 0.40”
		}
		if operators[t.Sign] || t.Sign == "=" || t.Sign == "≈" {
			n := len(list)
			for n > 0 && len(list)-n < 4 && list[n-1].Sign == "word" && !list[n-1].Number {
				n--
			}
			if n > 0 && list[n-1].Number && len(list)-n <= 3 {
				list = list[:n]
			}
		}
		list = append(list, t)
	}
	return list
}

// scalesOf are the factors by which the units of a sum may differ from those of its result; powers of ten in between only where there is a per cent.
func scalesOf(left []sentence.Term, result sentence.Term) []float64 {
	list := []float64{1, 1000, 1e-3, 1e6, 1e-6, 60, 1. / 60, 3600, 1. / 3600}
	if result.Percent || slices.ContainsFunc(left, func(t sentence.Term) bool { return t.Percent }) {
		list = append(list, 10, 100, 1e-2, 1e4)
	}
	return list
}

func percentIn(list []sentence.Term) bool {
	for _, t := range list {
		if t.Percent || t.Unit {
			return true
		}
	}
	return false
}

func plainFigure(v float64) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.3f", v), "0"), ".")
}

var operators = map[string]bool{"×": true, "÷": true, "*": true, "+": true, "−": true, "·": true, "-": true, "x": true}

// multiples are words that multiply the number before them: “2 dozen × 40 g”.
var multiples = sentence.Set("dozen dozens hundred thousand million gross score pair pairs")

// percentages are the ways in which “%” may be meant in a sum.
func percentages(left []sentence.Term, result sentence.Term) []percentage {
	for i := 1; i < len(left); i++ {
		if left[i].Percent && !left[0].Percent && !result.Percent && adds[left[i-1].Sign] != 0 {
			return []percentage{{0.01, true}}
		}
	}
	return []percentage{{1, false}, {0.01, false}}
}

// percentage is how “%” is read in a sum.
type percentage struct {
	factor float64 // what it multiplies its number by
	added  bool    // a per cent that is added or taken off is one of what stands before it: “120 L − 10 %”
}

// work works out a chain, brackets first, then × and ÷, then + and −.
func work(list []sentence.Term, percent percentage) (float64, bool) {
	v, rest, ok := workSum(list, percent)
	return v, ok && len(rest) == 0
}

// workSum works out what is added, as far as it goes, and gives what is left.
func workSum(list []sentence.Term, percent percentage) (float64, []sentence.Term, bool) {
	sum, rest, ok := workProduct(list, percent)
	for ok && len(rest) > 0 && adds[rest[0].Sign] != 0 {
		sign := adds[rest[0].Sign]
		var v float64
		if percent.added && len(rest) > 1 && rest[1].Percent && !(len(rest) > 2 && multiplies[rest[2].Sign]) {
			sum += sign * rest[1].Value * percent.factor * sum
			rest = rest[2:]
			continue
		}
		v, rest, ok = workProduct(rest[1:], percent)
		sum += sign * v
	}
	return sum, rest, ok
}

// workProduct works out what is multiplied and divided.
func workProduct(list []sentence.Term, percent percentage) (float64, []sentence.Term, bool) {
	product, rest, ok := workOne(list, percent)
	for ok && len(rest) > 0 && multiplies[rest[0].Sign] {
		sign := rest[0].Sign
		var v float64
		v, rest, ok = workOne(rest[1:], percent)
		switch {
		case sign != "÷":
			product *= v
		case v == 0:
			return 0, nil, false
		default:
			product /= v
		}
	}
	return product, rest, ok
}

// workOne gives a number, or what stands in brackets.
func workOne(list []sentence.Term, percent percentage) (float64, []sentence.Term, bool) {
	switch {
	case len(list) == 0:
		return 0, nil, false
	case list[0].Number && list[0].Percent:
		return list[0].Value * percent.factor, list[1:], true
	case list[0].Number:
		return list[0].Value, list[1:], true
	case list[0].Sign != "(":
		return 0, nil, false
	}
	v, rest, ok := workSum(list[1:], percent)
	if !ok || len(rest) == 0 || rest[0].Sign != ")" {
		return 0, nil, false
	}
	return v, rest[1:], true
}

var (
	adds       = map[string]float64{"+": 1, "−": -1, "-": -1}
	multiplies = map[string]bool{"×": true, "*": true, "·": true, "x": true, "÷": true}
)
