package search

import (
	"math"
	"strconv"
	"strings"
)

// steps are how far apart the points of a range stand that it is found by, for
// the units in which a process has its windows.
var steps = map[string]float64{"c": 5, "f": 10, "%": 1, "khz": 5, "ph": 0.5}

const (
	mostPoints  = 40  // of a range; a longer one is found by its ends alone
	weighWithin = 0.3 // a range that holds the value, against the value itself
	withinMark  = "~" // begins the terms of points, which no word does
)

// within gives the terms of the points in a range, its ends included: "~50c" to
// "~65c" for 50–65 °C.
func within(first, second, unit string) (terms []string) {
	step, known := steps[unit]
	low, err := strconv.ParseFloat(first, 64)
	high, err2 := strconv.ParseFloat(second, 64)
	if !known || err != nil || err2 != nil || !(low < high) || high-low > step*mostPoints {
		return nil
	}
	for at := math.Ceil(low / step); at <= math.Floor(high/step); at++ {
		terms = append(terms, point(at*step, unit))
	}
	return terms
}

// around gives the terms of the points that a value of a term, "62c" or "ph9.2",
// lies on or between: a range with all of them holds the value.
func around(term string) (terms []string) {
	for unit, step := range steps {
		number, is := strings.CutSuffix(term, unit)
		if unit == "ph" {
			number, is = strings.CutPrefix(term, unit)
		}
		value, err := strconv.ParseFloat(number, 64)
		if !is || err != nil || math.IsNaN(value) || math.Abs(value) > 1e6 {
			continue
		}
		below, above := math.Floor(value/step), math.Ceil(value/step)
		terms = append(terms, point(below*step, unit))
		if above > below {
			terms = append(terms, point(above*step, unit))
		}
		return terms
	}
	return nil
}

func point(value float64, unit string) string {
	return withinMark + strconv.FormatFloat(value, 'f', -1, 64) + unit
}
