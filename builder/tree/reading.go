package tree

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// Reading is the measurement that a step asks for: its answers state limits of one quantity, so that the number measured picks the answer.
type Reading struct {
	Unit  string // as the answers write it: "µS/cm", "pH", or "" for a plain number
	Of    string // what follows the unit in an answer: "in 8 h", "low"
	Kind  quantity.Kind
	Picks []Pick // in the order of the answers that state a limit
}

// Pick is the span of numbers that picks an answer. Low and High are infinite where it is open.
type Pick struct {
	Answer        int // its place among the answers of the step
	Low, High     float64
	LowIn, HighIn bool // the end itself belongs to it
	Alone         bool // the answer asks for nothing besides: a number in the span is enough
}

// Contains tells whether a number picks the answer.
func (p Pick) Contains(v float64) bool {
	return (v > p.Low || p.LowIn && v == p.Low) && (v < p.High || p.HighIn && v == p.High)
}

const amount = `(\d+(?:\.\d+)?)`

// stated is an answer that opens with a limit: “Over 10 µS/cm”, “9 or more: …”, “6 to 8.5”, “No, more than 3 °C apart”.
var stated = regexp.MustCompile(`^(?i:(?:yes|no),? )?(?:(?i:(over|above|more than|under|below|less than|at least|at most|up to|within|from)) )?` +
	`(?:(pH) )?` + amount + `(?: ?(?:[–-]|to|and) ?` + amount + `)?[\s\x{a0}]*(%|°[CF]|[a-zA-Zµ]+(?:/[a-zA-Zµ]+)?)?(?: (or (?:more|less|above|below|higher|lower)))?(.*)$`)

// sides are the words that make of a number an end of what is meant.
var sides = regexp.MustCompile(`^or (?:more|less|above|below|higher|lower)\b`)

// noUnits are words that follow a number and are no unit of it.
var noUnits = map[string]bool{"or": true, "to": true, "and": true, "of": true, "in": true, "a": true, "low": true, "high": true, "times": true}

// ReadingOf gives the measurement that the answers of a step ask for, or nil. Two answers or more state limits of one quantity, in one unit, and no
// number picks two of them.
func ReadingOf(s *manual.Section) *Reading {
	r := &Reading{}
	ph := strings.Contains(s.Heading, "pH") || strings.Contains(s.Text, "pH paper") || strings.Contains(s.Text, "pH meter")
	for i, a := range s.Answers {
		p, unit, of, ok := pickOf(a.Text)
		if !ok {
			continue
		}
		if unit != "" && r.Unit != "" && unit != r.Unit {
			return nil
		}
		if r.Unit == "" {
			r.Unit = unit
		}
		if r.Of == "" {
			r.Of = of
		}
		p.Answer = i
		r.Picks = append(r.Picks, p)
	}
	if len(r.Picks) < 2 || overlap(r.Picks) {
		return nil
	}
	if r.Unit == "" && ph {
		r.Unit = "pH"
	}
	r.Kind = kindOf(r.Unit, r.Of)
	return r
}

// pickOf reads the limit with which an answer opens.
func pickOf(text string) (p Pick, unit, of string, ok bool) {
	m := stated.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return p, "", "", false
	}
	compares, low, high, side, rest := strings.ToLower(m[1]), number(m[3]), number(m[4]), m[6], m[7]
	if unit = m[5]; noUnits[unit] {
		unit, rest = "", strings.Join(strings.Fields(unit+" "+side+rest), " ")
		if m := sides.FindString(rest); m != "" {
			side, rest = m, rest[len(m):]
		}
	}
	if m[2] != "" {
		unit = "pH"
	}
	p = Pick{Low: math.Inf(-1), High: math.Inf(1)}
	switch {
	case m[4] != "":
		if low > high || compares != "" && compares != "from" {
			return p, "", "", false
		}
		p.Low, p.High, p.LowIn, p.HighIn = low, high, true, true
	case slices.Contains([]string{"over", "above", "more than"}, compares):
		p.Low = low
	case slices.Contains([]string{"under", "below", "less than"}, compares):
		p.High = low
	case compares == "at least" || slices.Contains([]string{"or more", "or above", "or higher"}, side):
		p.Low, p.LowIn = low, true
	case slices.Contains([]string{"at most", "up to", "within"}, compares) || slices.Contains([]string{"or less", "or below", "or lower"}, side):
		p.High, p.HighIn = low, true
	default:
		return p, "", "", false
	}
	of, p.Alone = rests(rest)
	if compares == "within" && of == "" {
		of = "apart"
	}
	return p, unit, of, true
}

// rests tells apart what follows a limit: words that say of what it is, and whether there is a further condition: “and steady”.
func rests(rest string) (of string, alone bool) {
	end := strings.IndexAny(rest, ",:;(")
	if end < 0 {
		end = len(rest)
	}
	of, more := strings.TrimSpace(rest[:end]), strings.TrimLeft(rest[end:], ",:;( ")
	if first, _, _ := strings.Cut(of, " "); first == "and" || first == "or" || first == "but" {
		of, more = "", of
	}
	first, _, _ := strings.Cut(more, " ")
	explains := strings.HasPrefix(rest[end:], ":") || strings.HasPrefix(rest[end:], "(")
	return of, more == "" || first == "or" || explains
}

func number(text string) float64 {
	v, _ := strconv.ParseFloat(text, 64) // digits, by the expression
	return v
}

// overlap tells whether a number could pick two answers.
func overlap(picks []Pick) bool {
	for i, a := range picks {
		for _, b := range picks[i+1:] {
			low, high := math.Max(a.Low, b.Low), math.Min(a.High, b.High)
			if low < high || low == high && a.Contains(low) && b.Contains(low) {
				return true
			}
		}
	}
	return false
}

// kindOf is the kind of quantity that a unit stands for. A temperature that says how far two are apart is a difference.
func kindOf(unit, of string) quantity.Kind {
	if unit == "" || unit == "pH" || unit == "%" {
		return quantity.Number
	}
	for _, k := range []quantity.Kind{quantity.Temperature, quantity.Volume, quantity.Length, quantity.Conductivity, quantity.Mass, quantity.Time, quantity.Flow, quantity.Pressure, quantity.PowerDensity} {
		if _, known := quantity.UnitNamed(unit, k); known {
			if k == quantity.Temperature && differs(of) {
				return quantity.TemperatureDifference
			}
			return k
		}
	}
	return quantity.Number
}

// differs tells whether the words behind a quantity make it a difference from another.
func differs(of string) bool {
	for w := range strings.FieldsSeq(strings.ToLower(of)) {
		if slices.Contains([]string{"low", "high", "below", "above", "apart", "off", "under", "over", "short", "an", "a", "per"}, w) {
			return true
		}
	}
	return false
}
