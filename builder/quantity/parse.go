package quantity

import (
	"math"
	"strings"
	"unicode/utf8"

	"tankside/builder/language"
)

// Error says why a text is not an accepted amount.
type Error struct {
	Text   string // as given
	Offset int    // byte of Text at which reading stopped

	problem string // a phrase of package language
	word    string // that fills its first hole, where it has one
	about   []Kind // that fill the others: one alone without its article
	kinds   []Kind // that are accepted
	asRange bool   // and so are ranges of them
	asks    bool   // of several things that may be meant
}

// Error is the whole sentence.
func (e *Error) Error() string { return e.In(nil) }

// In is the whole sentence in a language.
func (e *Error) In(w language.Words) string {
	return w.Fill("“{text}”: {problem}; write {what is accepted}", clip(e.Text), e.Problem(w), e.Accepted(w))
}

// Problem is what stands there.
func (e *Error) Problem(w language.Words) string {
	var fill []string
	if e.word != "" {
		fill = append(fill, e.word)
	}
	for _, k := range e.about {
		name := w.Say(k.String())
		if len(e.about) == 1 {
			name = bare(name)
		}
		fill = append(fill, name)
	}
	return w.Fill(e.problem, fill...)
}

// Accepted is what is accepted instead, with an example.
func (e *Error) Accepted(w language.Words) string {
	var names, examples []string
	for _, k := range e.kinds {
		names = append(names, w.Say(k.String()))
		examples = append(examples, k.ExampleIn(w))
	}
	or := " " + w.Say("or") + " "
	phrase := "{what}, for example {amounts}"
	if e.asRange {
		phrase = "{what}, for example {amounts}, or a range of it"
	}
	return w.Fill(phrase, strings.Join(names, or), strings.Join(examples, or))
}

const (
	longest = 120  // bytes of text read at all
	largest = 1e12 // of any number, in any unit
)

// Parse reads one amount of any of the kinds; without a kind it reads a plain
// number. Where a unit belongs to several of the kinds, the first one wins.
// The error is an [*Error].
func Parse(text string, kinds ...Kind) (Value, error) {
	kinds = orNumber(kinds)
	t := normal(text)
	if problem := t.unreadable(); problem != nil {
		return Value{}, problem.accept(kinds, false)
	}
	v, end, problem := t.amount(t.blank(0), kinds)
	if problem != nil {
		return Value{}, problem.accept(kinds, false)
	}
	if v.Unit.Symbol == missing {
		return Value{}, t.fault(end, "the unit is missing").accept(kinds, false)
	}
	if end = t.blank(end); end < len(t.runes) {
		return Value{}, t.fault(end, "“{word}” is left over").with(t.word(end)).accept(kinds, false)
	}
	if problem := t.possible(v.SI, v.Kind); problem != nil {
		return Value{}, problem.accept(kinds, false)
	}
	return v, nil
}

// ParseRange reads a range ("50–65 °C", "≤ 60 °C", "up to 8 min") or a single
// amount of any of the kinds. Both ends must be of one kind. The error is an
// [*Error].
func ParseRange(text string, kinds ...Kind) (Range, error) {
	kinds = orNumber(kinds)
	t := normal(text)
	if problem := t.unreadable(); problem != nil {
		return Range{}, problem.accept(kinds, true)
	}
	r, problem := t.span(kinds)
	if problem != nil {
		return Range{}, problem.accept(kinds, true)
	}
	return r, nil
}

func orNumber(kinds []Kind) []Kind {
	if len(kinds) == 0 {
		return []Kind{Number}
	}
	return kinds
}

// missing marks a number that had no unit although its kind wants one.
const missing = "\x00"

// text is normalised text: dashes, blanks, degree and micro signs in one
// spelling each, with the byte offset in the original of every rune.
type text struct {
	source string
	runes  []rune
	at     []int
}

const dash = '–'

func normal(source string) text {
	t := text{source: source}
	if len(source) > longest {
		return t
	}
	for i, r := range source {
		switch r {
		case '\u00a0', '\u2007', '\u2009', '\u200a', '\u202f', '\t', '\u3000':
			r = ' '
		case '\u2212', '\u2010', '\u2011':
			r = '-'
		case '\u2012', '\u2014', '\u2015':
			r = dash
		case 'μ':
			r = 'µ'
		case 'º', '˚':
			r = '°'
		case '²', '₂':
			r = '2'
		case '³', '₃':
			r = '3'
		case '⋅', '∙', '*':
			r = '·'
		case '⁄', '∕':
			r = '/'
		case '∶':
			r = ':'
		case '″', '”':
			r = '"'
		case '′', '’':
			r = '\''
		case '℃', '℉':
			t.runes, t.at = append(t.runes, '°'), append(t.at, i)
			r = 'C' + (r-'℃')/('℉'-'℃')*('F'-'C')
		case '^', '\u200b', '\ufeff':
			continue
		}
		t.runes, t.at = append(t.runes, r), append(t.at, i)
	}
	return t
}

func (t text) unreadable() *Error {
	switch {
	case len(t.source) > longest:
		return &Error{Text: t.source, problem: "this is too long for an amount"}
	case !utf8.ValidString(t.source):
		return &Error{Text: string([]rune(t.source)), problem: "this is not readable text"}
	case t.blank(0) == len(t.runes):
		return &Error{Text: t.source, problem: "nothing is given"}
	}
	return nil
}

func (t text) fault(at int, problem string) *Error {
	offset := len(t.source)
	if at < len(t.at) {
		offset = t.at[at]
	}
	return &Error{Text: t.source, Offset: offset, problem: problem}
}

// with fills the phrase's hole.
func (e *Error) with(word string) *Error {
	e.word = word
	return e
}

// Asks tells whether the amount could be read if somebody said which of several things is meant.
func (e *Error) Asks() bool { return e.asks }

// accept adds what would have been accepted.
func (e *Error) accept(kinds []Kind, asRange bool) *Error {
	e.kinds, e.asRange = kinds, asRange
	return e
}

// span reads a whole text as a range.
func (t text) span(kinds []Kind) (Range, *Error) {
	at := t.blank(0)
	bound, at := t.bound(at)
	low, end, problem := t.amount(at, kinds)
	if problem != nil {
		return Range{}, problem
	}
	end = t.blank(end)
	if bound != closed {
		if low.Unit.Symbol == missing {
			return Range{}, t.fault(end, "the unit is missing")
		}
		if end < len(t.runes) {
			return Range{}, t.fault(end, "“{word}” is left over").with(t.word(end))
		}
		if problem := t.possible(low.SI, low.Kind); problem != nil {
			return Range{}, problem
		}
		r := Range{Low: math.Inf(-1), High: low.SI, Kind: low.Kind, Unit: low.Unit, Loose: low.Loose}
		if bound == above {
			r.Low, r.High = low.SI, math.Inf(1)
		}
		return r, nil
	}
	if end == len(t.runes) {
		if low.Unit.Symbol == missing {
			return Range{}, t.fault(end, "the unit is missing")
		}
		if problem := t.possible(low.SI, low.Kind); problem != nil {
			return Range{}, problem
		}
		return Range{Low: low.SI, High: low.SI, Kind: low.Kind, Unit: low.Unit, Loose: low.Loose}, nil
	}
	next, ok := t.to(end)
	if !ok {
		return Range{}, t.fault(end, "“{word}” is left over").with(t.word(end))
	}
	second := t.blank(next)
	high, end, problem := t.amount(second, kinds)
	if problem != nil {
		return Range{}, problem
	}
	if end = t.blank(end); end < len(t.runes) {
		return Range{}, t.fault(end, "“{word}” is left over").with(t.word(end))
	}
	switch {
	case high.Unit.Symbol == missing && low.Unit.Symbol == ratio: // 1:20–40
		high = Value{SI: low.Unit.ToSI(high.SI), Kind: low.Kind, Unit: low.Unit}
	case high.Unit.Symbol == missing:
		return Range{}, t.fault(end, "the unit is missing")
	case low.Unit.Symbol == missing, low.Kind == Number && high.Kind != Number: // 0–1 °C, also where a plain number would do
		low = Value{SI: high.Unit.ToSI(low.SI), Kind: high.Kind, Unit: high.Unit}
	case low.Kind != high.Kind:
		e := t.fault(second, "the two ends are different things, {a kind} and {a kind}")
		e.about = []Kind{low.Kind, high.Kind}
		return Range{}, e
	}
	if high.Unit.Symbol == ratio && low.SI > high.SI { // the larger N is the weaker
		low, high = high, low
	}
	if low.SI > high.SI {
		return Range{}, t.fault(second, "the range runs backwards, the smaller end comes first")
	}
	for _, v := range []Value{low, high} {
		if problem := t.possible(v.SI, v.Kind); problem != nil {
			return Range{}, problem
		}
	}
	return Range{Low: low.SI, High: high.SI, Kind: high.Kind, Unit: high.Unit, Loose: low.Loose || high.Loose}, nil
}

// The sorts of bound in front of an amount.
const (
	closed = iota
	below
	above
)

var bounds = [...]struct {
	word  string
	bound int
}{
	{"≤", below}, {"<=", below}, {"=<", below}, {"<", below}, {"up to", below}, {"at most", below}, {"max.", below}, {"max", below}, {"below", below}, {"not above", below}, {"under", below},
	{"≥", above}, {">=", above}, {"=>", above}, {">", above}, {"at least", above}, {"min.", above}, {"from", above}, {"above", above}, {"not below", above}, {"over", above},
}

func (t text) bound(at int) (bound, next int) {
	for _, b := range bounds {
		if n, ok := t.starts(at, b.word); ok {
			return b.bound, t.blank(n)
		}
	}
	return closed, at
}

// to reads what stands between the ends of a range.
func (t text) to(at int) (next int, ok bool) {
	for _, w := range [...]string{"–", "...", "…", "-", "to ", "up to "} {
		if n, ok := t.starts(at, w); ok {
			return n, true
		}
	}
	return at, false
}

// starts matches a lower-case word at a place, ignoring case.
func (t text) starts(at int, word string) (next int, ok bool) {
	for _, w := range word {
		if at >= len(t.runes) || lower(t.runes[at]) != w {
			return at, false
		}
		at++
	}
	return at, true
}

// amount reads a number with its unit, or several of falling units.
func (t text) amount(at int, kinds []Kind) (Value, int, *Error) {
	if n, ok := t.starts(at, "ph"); ok && has(kinds, PH) {
		at = t.blank(n)
	}
	start := at
	number, at, problem := t.number(at)
	if problem != nil {
		return Value{}, at, problem
	}
	next := t.blank(at)
	if next < len(t.runes) && (t.runes[next] == ':' || t.runes[next] == '+') {
		return t.ratio(start, number, next+1, kinds)
	}
	if ways := t.ounces(next); ways != "" {
		e := t.fault(next, "ounces by weight or fluid ounces? Say which: {units}").with(ways)
		e.asks = true
		return Value{}, next, e
	}
	if t.otherGallon(next) {
		return Value{}, next, t.fault(next, "fluid ounces in which gallon? Say which: {units}").with("fl oz/US gal, imp fl oz/imp gal")
	}
	unit, end, ok := t.unit(next, kinds)
	if !ok {
		return t.unitless(number, at, kinds)
	}
	if strings.TrimSpace(string(t.runes[at:end])) == "%" {
		if problem := t.ambiguous(at, kinds); problem != nil {
			return Value{}, at, problem
		}
		if has(kinds, Fraction) {
			unit, _ = UnitNamed("%", Fraction)
		}
	}
	v := Value{SI: unit.ToSI(number), Kind: unit.Kind, Unit: unit, Loose: unit.american() && !t.names(next, end, "us")}
	if unit.Kind != Time && unit.Kind != Length && unit.Kind != Mass {
		return v, end, nil
	}
	// 1 h 20 min
	for smaller := unit; ; {
		next := t.blank(end)
		if next >= len(t.runes) || !digit(t.runes[next]) {
			return v, end, nil
		}
		number, at, problem := t.number(next)
		if problem != nil {
			return v, at, problem
		}
		u, after, ok := t.unit(t.blank(at), []Kind{unit.Kind})
		if !ok || u.row().factor >= smaller.row().factor || number < 0 {
			return v, end, nil
		}
		v.SI += math.Copysign(u.ToSI(number), v.SI)
		smaller, end = u, after
	}
}

// ambiguous refuses a lone percent sign where several kinds of strength are
// welcome.
func (t text) ambiguous(at int, kinds []Kind) *Error {
	var sorts []string
	for _, k := range kinds {
		switch k {
		case VolumeFraction:
			sorts = append(sorts, "% v/v")
		case MassFraction:
			sorts = append(sorts, "% w/w")
		case MassConcentration:
			sorts = append(sorts, "% w/v")
		case Fraction:
			return nil
		}
	}
	if len(sorts) < 2 {
		return nil
	}
	return t.fault(t.blank(at), "per cent of what? Say which: {units}").with(strings.Join(sorts, ", "))
}

// ratio reads the rest of "1:40" or "1+40".
func (t text) ratio(start int, first float64, at int, kinds []Kind) (Value, int, *Error) {
	if !has(kinds, VolumeFraction) {
		return Value{}, start, t.fault(start, "a ratio does not fit here")
	}
	n, end, problem := t.number(t.blank(at))
	switch {
	case problem != nil:
		return Value{}, end, problem
	case first <= 0 || n < 0:
		return Value{}, start, t.fault(start, "a ratio has one part of concentrate first and the parts of water behind it")
	}
	unit := ratioUnit()
	return Value{SI: unit.ToSI(n / first), Kind: VolumeFraction, Unit: unit}, end, nil
}

// unitless handles a number behind which no unit of the kinds stands.
func (t text) unitless(number float64, at int, kinds []Kind) (Value, int, *Error) {
	next := t.blank(at)
	if next < len(t.runes) {
		if _, ok := t.to(next); !ok {
			if u, end, ok := t.unit(next, everyKind()); ok {
				e := t.fault(next, "“{unit}” is a unit of {kind}").with(strings.TrimSpace(string(t.runes[next:end])))
				e.about = []Kind{u.Kind}
				return Value{}, next, e
			}
			return Value{}, next, t.fault(next, "“{word}” is not a unit that is known here").with(t.word(next))
		}
	}
	for _, k := range kinds {
		if k == Number || k == PH || k == Money || k == EnergyPrice {
			u, _ := UnitNamed("", k)
			if k == EnergyPrice {
				u, _ = UnitNamed("/kWh", k)
			}
			return Value{SI: u.ToSI(number), Kind: k, Unit: u}, at, nil
		}
	}
	return Value{SI: number, Unit: Unit{Symbol: missing}}, at, nil
}

// bare is the name of a kind without its article.
func bare(name string) string {
	_, name, _ = strings.Cut(name, " ")
	return name
}

func everyKind() []Kind {
	all := make([]Kind, kinds)
	for i := range all {
		all[i] = Kind(i)
	}
	return all
}

// number reads a decimal number.
func (t text) number(at int) (float64, int, *Error) {
	start := at
	sign := 1.
	if at < len(t.runes) && (t.runes[at] == '-' || t.runes[at] == '+') {
		if t.runes[at] == '-' {
			sign = -1
		}
		at = t.blank(at + 1)
	}
	var d digits
	group := at // where the present run of digits began
	for ; at < len(t.runes); at++ {
		r := t.runes[at]
		if digit(r) {
			d.whole(r)
			continue
		}
		if r == ' ' && at-group <= 3 && d.any && t.thousand(at+1) {
			group = at + 1
			continue
		}
		break
	}
	if at+1 < len(t.runes) && t.runes[at] == '.' && digit(t.runes[at+1]) {
		for at++; at < len(t.runes) && digit(t.runes[at]); at++ {
			d.decimal(t.runes[at])
		}
	}
	if !d.any {
		if start < len(t.runes) {
			return 0, start, t.fault(start, "a number should stand where “{word}” stands").with(t.word(start))
		}
		return 0, start, t.fault(start, "a number is missing")
	}
	if at+1 < len(t.runes) && t.runes[at] == ',' && digit(t.runes[at+1]) {
		return 0, at, t.fault(at, "a comma can mean a decimal or thousands; use a point for decimals and nothing for thousands")
	}
	if at < len(t.runes) && (t.runes[at] == 'e' || t.runes[at] == 'E') {
		at = t.exponent(at, &d)
	}
	n := sign * d.value()
	if math.Abs(n) > largest {
		return 0, start, t.fault(start, "the number is too large to be meant")
	}
	return n, at, nil
}

// thousand reports whether exactly three digits stand at a place.
func (t text) thousand(at int) bool {
	for i := range 3 {
		if at+i >= len(t.runes) || !digit(t.runes[at+i]) {
			return false
		}
	}
	return at+3 >= len(t.runes) || !digit(t.runes[at+3])
}

// exponent reads "e-3" where it stands behind a number.
func (t text) exponent(at int, d *digits) (next int) {
	i := at + 1
	sign := 1
	if i < len(t.runes) && (t.runes[i] == '-' || t.runes[i] == '+') {
		if t.runes[i] == '-' {
			sign = -1
		}
		i++
	}
	if i >= len(t.runes) || !digit(t.runes[i]) {
		return at
	}
	n := 0
	for ; i < len(t.runes) && digit(t.runes[i]); i++ {
		n = min(n*10+int(t.runes[i]-'0'), 9999)
	}
	d.exponent += sign * n
	return i
}

// unit finds the longest spelling of a unit of the kinds at a place, first in
// the right case, then in any.
func (t text) unit(at int, kinds []Kind) (Unit, int, bool) {
	for _, exact := range [...]bool{true, false} {
		best, length := -1, at
		for _, k := range kinds {
			for i := range units {
				if units[i].kind != k || units[i].symbol == ratio {
					continue
				}
				if end := t.spelled(at, &units[i], exact); end > length {
					best, length = i, end
				}
			}
		}
		if best >= 0 {
			return unitAt(best), length, true
		}
	}
	return Unit{}, at, false
}

// spelled gives the end of the longest spelling of u at a place, or at.
func (t text) spelled(at int, u *row, exact bool) int {
	longest := at
	for rest, spelling := u.other, u.symbol; ; {
		if end, ok := t.matches(at, spelling, exact); ok && end > longest {
			longest = end
		}
		if rest == "" {
			return longest
		}
		spelling, rest, _ = strings.Cut(rest, "|")
	}
}

// matches compares a spelling with the text, blanks apart, and wants the text
// not to go on with a letter.
func (t text) matches(at int, spelling string, exact bool) (int, bool) {
	start := at
	for _, w := range spelling {
		switch w {
		case ' ':
			continue
		case '²':
			w = '2'
		case '³', '₃':
			w = '3'
		}
		if at > start {
			at = t.blank(at)
		}
		if at >= len(t.runes) {
			return start, false
		}
		r := t.runes[at]
		if !exact {
			r, w = lower(r), lower(w)
		}
		if r != w {
			return start, false
		}
		at++
	}
	if at == start || at < len(t.runes) && letter(t.runes[at]) && letter(t.runes[at-1]) {
		return start, false
	}
	return at, true
}

// possible refuses amounts that cannot be.
func (t text) possible(si float64, kind Kind) *Error {
	switch {
	case math.IsNaN(si) || math.Abs(si) > largest*1e9:
		return t.fault(0, "the amount is too large to be meant")
	case kind == Temperature && si < -273.15-1e-9:
		return t.fault(0, "this is below absolute zero")
	}
	return nil
}

// blank gives the first place from at on that is not blank.
func (t text) blank(at int) int {
	for at < len(t.runes) && (t.runes[at] == ' ' || t.runes[at] == '\n' || t.runes[at] == '\r') {
		at++
	}
	return at
}

// word is what stands at a place, up to the next blank, for a message.
func (t text) word(at int) string {
	end := at
	for end < len(t.runes) && t.runes[end] != ' ' {
		end++
	}
	return clip(string(t.runes[at:end]))
}

func clip(s string) string {
	const most = 60
	if len(s) <= most {
		return s
	}
	end := most
	for end > 0 && !utf8.RuneStart(s[end]) {
		end--
	}
	return s[:end] + "…"
}

func has(kinds []Kind, kind Kind) bool {
	for _, k := range kinds {
		if k == kind {
			return true
		}
	}
	return false
}

func digit(r rune) bool { return r >= '0' && r <= '9' }

func letter(r rune) bool {
	return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r > 0xbf && r != '×' && r != '÷' && r != dash && r != '…' && r != '≤' && r != '≥'
}

func lower(r rune) rune {
	if r >= 'A' && r <= 'Z' {
		return r + 'a' - 'A'
	}
	return r
}
