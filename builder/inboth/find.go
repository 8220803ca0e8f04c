package inboth

import (
	"strings"

	"tankside/builder/language"
	"tankside/builder/quantity"
)

// object stands in a text for what is shown in its place and is no text.
const object = '\x01'

// find gives the amounts of a text in their order.
func find(text string) []*amount {
	var list []*amount
	for i := 0; i < len(text); {
		if !starts(text, i) {
			i++
			continue
		}
		a, end := rowAt(text, i)
		if a != nil {
			list = append(list, a)
		}
		i = max(end, i+1)
	}
	return list
}

// starts tells whether a number may begin at a place: a figure, or a sign right before one, and no figure or letter before it.
func starts(text string, i int) bool {
	c := text[i]
	switch {
	case digitByte(c):
		return i == 0 || !digitByte(text[i-1]) && !(text[i-1] == '.' && i > 1 && digitByte(text[i-2]))
	case c == 0xc2: // ½
		_, w := half(text[i:])
		return w > 0
	case c == '+' || c == '-' || c == 0xe2 && strings.HasPrefix(text[i:], "−"):
		if i > 0 && blankWidth(text[i-1:]) == 0 && text[i-1] != '(' && text[i-1] != object && !strings.HasSuffix(text[:i], "\u00a0") && !strings.HasSuffix(text[:i], "\u202f") {
			return false
		}
		n, ok := numberAt(text, i)
		return ok && n.to > i
	}
	return false
}

// rowAt reads the amount or the row of amounts that begins at a place, and gives where to read on.
func rowAt(text string, at int) (*amount, int) {
	first, ok := numberAt(text, at)
	if !ok {
		return nil, at + 1
	}
	a := amount{from: at, numbers: []number{first}}
	between := []string{""} // what stands before each number
	for end := first.to; ; {
		next := skipBlanks(text, end)
		unit, after, more, known := unitAt(text, next)
		if known {
			a.unit, a.to = unit, after
			a.trim(text, between, next == end)
			a.feet = unit.Symbol == "m" && unit.Kind == quantity.Length
			a.settle(text, more)
			return &a, after
		}
		mark, width := separator(text[next:])
		if width == 0 || len(a.numbers) == mostInRow {
			return nil, first.to
		}
		n, ok := numberAt(text, skipBlanks(text, next+width))
		if !ok || n.signed {
			return nil, first.to
		}
		n.spread = mark == "±"
		a.numbers, between = append(a.numbers, n), append(between, mark)
		end = n.to
	}
}

// mostInRow is how many numbers a row has at most.
const mostInRow = 8

// Words and marks between the numbers of a row: English, Spanish, German, French, Italian, Portuguese, Dutch, Polish. A Dutch “of” or “en” is none: in English and
// Spanish it stands between two amounts.
const separators = "–|±|×|x|to|and|or|by|a|y|o|u|e|hasta|bis|und|oder|à|et|ou|até|tot|do|lub|i|,|-|…"

// joining are those that join numbers as “and” does.
const joining = phraseList(",and,or,y,o,u,e,und,oder,et,ou,lub,i,")

// separator reads what may stand between two numbers of a row.
func separator(rest string) (mark string, width int) {
	for more := separators; more != ""; {
		var s string
		s, more, _ = strings.Cut(more, "|")
		if !strings.HasPrefix(rest, s) {
			continue
		}
		if letterByte(s[0]) && (len(rest) == len(s) || blankWidth(rest[len(s):]) == 0) {
			continue
		}
		if s == "," { // “50, 60 and 70”, “50, 60, and 70”
			w := 1
			behind := skipBlanks(rest, 1)
			if strings.HasPrefix(rest[behind:], "and ") || strings.HasPrefix(rest[behind:], "or ") {
				return "and", behind + strings.IndexByte(rest[behind:], ' ')
			}
			return s, w
		}
		return s, len(s)
	}
	return "", 0
}

// trim leaves out of a row the numbers at its head that do not share its unit: those before a comma where nothing closes a list, a count before a
// volume (“2 × 5 L”), a number that a name has (“Wash 1 and 60 °C”).
func (a *amount) trim(text string, between []string, bound bool) {
	last := len(a.numbers) - 1
	keep := last
	for keep > 0 && a.shares(text, between, keep, last) {
		keep--
	}
	a.numbers = a.numbers[keep:]
	a.from = a.numbers[0].from
}

// shares tells whether the number before another in a row has the row's unit.
func (a *amount) shares(text string, between []string, i, last int) bool {
	switch between[i] {
	case ",":
		m := between[last]
		return i < last && (m == "," || joining.has(m))
	case "×", "x", "by":
		return a.unit.Kind == quantity.Length
	case "-":
		return text[a.numbers[i-1].to] == '-' && a.numbers[i-1].value < -a.numbers[i].value || a.numbers[i-1].value < a.numbers[i].value
	}
	return !joining.has(between[i]) || !named(text, a.numbers[i-1].from)
}

// named tells whether a number belongs to the word before it: “Wash 1”, “step 2”.
func named(text string, from int) bool {
	end := from
	for end > 0 && (text[end-1] == ' ' || text[end-1] == 0xa0 || text[end-1] == 0xc2) {
		end--
	}
	start := end
	for start > 0 && wordByte(text[start-1]) {
		start--
	}
	word := text[start:end]
	if labels.has(language.Lower(word)) {
		return true
	}
	sentence := start < 2 || strings.IndexByte(".:;!?\n\x01", text[start-2]) >= 0
	return len(word) > 2 && word[0] >= 'A' && word[0] <= 'Z' && !sentence
}

const labels = phraseList(",step,steps,tank,tanks,wash,rinse,lesson,class,level,paso,tina,wanne,becken,bad,schritt,stufe,klasse,lektion,bain,vasca,tanque,bak,wanna,table,figure,section,ph,")

// settle decides whether the amount is converted, and how.
func (a *amount) settle(text string, more bool) {
	switch {
	case a.joined(text):
		a.why = partOfName
	case more && !(a.unit.Kind == quantity.Temperature && perTime(text[a.to:])):
		a.why = goesOnFurther
	case a.unit.Kind == quantity.TemperatureDifference && a.numbers[len(a.numbers)-1].value > 150:
		a.why = partOfName // the colour of a lamp
	case loose(text[a.to:], a.unit):
		a.why = looseOunces
	default:
		if a.unit.Kind == quantity.Temperature && !a.writtenTwice(text) {
			switch meaning(text, a) {
			case difference:
				a.unit = asDifference(a.unit)
			case unsure:
				a.why = fewDegrees
				return
			}
		}
		a.other = a.write(text)
	}
}

// writtenTwice tells whether the text itself has the degrees in both families, and takes them for a difference where only as one both are the same.
func (a *amount) writtenTwice(text string) bool {
	if _, is := pairAt(text, a); is {
		return true
	}
	as := a.unit
	a.unit = asDifference(as)
	_, is := pairAt(text, a)
	if !is {
		a.unit = as
	}
	return is
}

// joined tells whether the number is part of what stands before it: a letter, a slash, a colon.
func (a *amount) joined(text string) bool {
	if a.from == 0 {
		return false
	}
	switch c := text[a.from-1]; {
	case letterByte(c) || c == '/' || c == '#' || c == '.' || c == '_':
		return true
	case c == ':' || c == '-':
		return a.from > 1 && (digitByte(text[a.from-2]) || letterByte(text[a.from-2]))
	}
	return false
}

// perTime tells whether degrees are degrees a time.
func perTime(rest string) bool {
	return len(rest) > 1 && rest[0] == '/' && strings.IndexByte("mhsd", rest[1]) >= 0
}

// loose tells whether ounces go on with a gallon that does not say what they are.
func loose(rest string, u quantity.Unit) bool {
	if u.Symbol != "oz" && u.Symbol != "US fl oz" {
		return false
	}
	rest = rest[skipBlanks(rest, 0):]
	return strings.HasPrefix(rest, "/") || strings.HasPrefix(rest, "per gal") || strings.HasPrefix(rest, "in a gal") || strings.HasPrefix(rest, "a gal")
}
