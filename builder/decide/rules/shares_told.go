package rules

import (
	"fmt"
	"strings"

	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// wrongHalf checks “half of 37 mm is 18.5 mm”, “twice 18.5 mm is 37 mm” and “37.5 mm, and half of it is 18.75 mm”.
func wrongHalf(s *sentence.Sentence, i int) (int, string) {
	if i+1 >= len(s.Quantities) {
		return 0, ""
	}
	one, two := &s.Quantities[i], &s.Quantities[i+1]
	if one.Kind != two.Kind || !plain(one) || one.Kind == quantity.Temperature || one.Kind == quantity.Volume && s.Has(drums) {
		return 0, ""
	}
	factor := 0.0
	before, between := words(s, s.From, one.From), words(s, one.To, two.From)
	if toldAs(s, one, two) {
		factor = factorOf(before)
		if b := len(between); factor == 0 && b > 2 && b < 6 && between[b-2] == "times" { // “A jug of 2 L filled four times is 8 L”
			factor = numberOf(between[b-3])
		}
		if factor == 0 {
			factor = lessShare(between)
		}
	} else if two.Relation == sentence.At && !two.Span {
		text := strings.Join(between, " ")
		for _, link := range halfOfIt {
			if text == link {
				factor = 0.5
			}
		}
	}
	if factor == 0 || compared[two.Near] {
		return 0, ""
	}
	if want := factor * one.Range.Low; off(want, two.Range.Low) > slackOf(two, one) {
		return two.From, fmt.Sprintf("That is %s, not %s.", quantity.ShowIn(want, two.Unit), two.Text)
	}
	return 0, ""
}

// lessShare reads what is left of an amount from the words behind it: “less a tenth is”, “plus a fifth makes”; 0 where no share is said.
func lessShare(between []string) float64 {
	n := len(between)
	if n < 3 {
		return 0
	}
	share, from := shareAtEnd(between[1 : n-1])
	switch {
	case share == 0 || from > 0:
		return 0
	case between[0] == "less" || between[0] == "minus" || between[0] == "without":
		return 1 - share
	case between[0] == "plus" || between[0] == "and":
		return 1 + share
	}
	return 0
}

// factorOf reads what an amount is multiplied by from the words before it: “twice”, “three times”, “half of”, “two thirds of”; 0 where nothing is said.
func factorOf(before []string) float64 {
	n := len(before)
	if n > 2 && (before[n-1] == "the" || before[n-1] == "our") {
		n--
	}
	switch {
	case n > 0 && before[n-1] == "twice":
		return 2
	case n > 1 && before[n-1] == "times" && numberOf(before[n-2]) > 1:
		return numberOf(before[n-2])
	case n > 1 && before[n-1] == "of":
		share, from := shareAtEnd(before[:n-1])
		if from == 0 || !tells[before[from-1]] {
			return share
		}
	}
	return 0
}

// shareAtEnd reads the share with which a list of words ends, as in “a third” and “three quarters”, and where it begins; 0 where there is none.
func shareAtEnd(list []string) (share float64, from int) {
	n := len(list)
	if n == 0 {
		return 0, 0
	}
	if share = shares[list[n-1]]; share > 0 {
		if n > 1 && (list[n-2] == "a" || list[n-2] == "one") {
			return share, n - 2
		}
		return share, n - 1
	}
	if share = sharesOf[list[n-1]]; share > 0 && n > 1 {
		if share *= numberOf(list[n-2]); share > 0 && share < 0.99 { // two halves may be two of a kind
			return share, n - 2
		}
	}
	return 0, 0
}

// sharesOf are shares of which there are several.
var sharesOf = map[string]float64{"halves": 0.5, "thirds": 1. / 3, "quarters": 0.25, "fifths": 0.2, "sixths": 1. / 6, "eighths": 0.125, "tenths": 0.1}

var halfOfIt = []string{", and half of it is", ", half of it is", ", half of which is", ", half of that is", "; half of it is", "; half of that is", "and half of it is", ", of which half is", "divided by 2 is", "÷ 2 is"}
