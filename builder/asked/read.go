package asked

import (
	"strings"

	"tankside/builder/language"
	"tankside/builder/quantity"
)

// What begins a line of what is read; fields follow, each after U+001F, and a line ends with U+001E.
const (
	isSum  = "sum"  // the tank whose heater is taken or nothing, the calculator, its inputs by name and text; of two with one name the last counts
	isLoad = "load" // soil or nothing, bath, materials
	isSame = "same" // an amount, and the same in the unit that is wanted
	asks   = "ask"  // one of the Asks, or
	says   = "says" // a sentence, in the language of the words
)

// longest is the most bytes of a question that is read.
const longest = 120

// Read reads a text; see isSum and its neighbours for what comes out. Nothing comes out where it is words to look for. The words are those in which
// amounts are refused.
func (n *Names) Read(said language.Words, text string) string {
	if len(text) > longest {
		return ""
	}
	for i, sign := range strings.Split("\u00a0|, |; |?|–|—|→|->|=", "|") {
		with := " "
		if i > 3 {
			with = " to "
		}
		text = strings.ReplaceAll(text, sign, with)
	}
	r := reader{names: n, said: said, scale: " °C"}
	for _, word := range strings.Split(text, " ") {
		if word != "" {
			r.words = append(r.words, word)
		}
	}
	if r.conversion(); r.out == "" {
		r.sums()
	}
	if r.out == "" {
		r.load()
	}
	return r.out
}

// reader gathers what is read.
type reader struct {
	names *Names
	said  language.Words
	words []string
	out   string

	given  [places]string // of a sum: an amount, or all that it may be
	tank   []string
	room   float64 // volume that is given, m³
	degree string  // unit of the temperatures, where one of them has it
	scale  string  // that of those that have none: of the family of the volume's unit
	to     bool    // a word or a dash stands between the temperatures
	turn   bool    // the second is the start: to 62 from 12
}

// put adds a line, once.
func (r *reader) put(fields ...string) {
	if line := strings.Join(fields, between) + part; !strings.Contains(r.out, line) {
		r.out += line
	}
}

// both takes apart an amount that may be several, and puts what somebody has to say then.
func (r *reader) both(amount string) []string {
	list := strings.Split(amount, between)
	if len(list) == 2 {
		r.put(asks, "gallon")
	} else if len(list) == 3 {
		r.put(asks, "percent")
	}
	return list
}

// refused puts an amount's error where it asks for something.
func (r *reader) refused(err error) {
	if e, is := err.(*quantity.Error); is && e.Asks() {
		r.put(says, e.Problem(r.said))
	}
}

// written is an amount as a field of a page takes it, with common blanks; or both that it may be where nobody says whose gallon it is in.
func written(v quantity.Value) string {
	text := v.String()
	if v.Loose {
		us, imperial := v.BothGallons()
		text = us + between + imperial
	}
	return strings.ReplaceAll(text, "\u00a0", " ")
}
