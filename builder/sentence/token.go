package sentence

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"tankside/builder/quantity"
)

type tokenKind uint8

const (
	word tokenKind = iota
	figure
	mark_
	amount
)

// token is a word, a number without unit, a mark or a quantity.
type token struct {
	text      string // lower case
	from, to  int    // bytes of the block's text
	known     *known // from the vocabulary; nil of a word that nobody asks for
	*measured        // of a quantity, and of a number: low alone
	kinds     wordKind
	kind      tokenKind
	signed    bool // with a plus or minus sign, or ±
	lookedUp  bool // in the vocabulary, as words are when they are read
}

// measured is what a quantity or number is.
type measured struct {
	q    quantity.Range
	low  number // as written
	high number
	span bool // a range
}

// tokens reads a text; base is added to the places.
func tokens(text string, base int, names *Names) []token {
	list := make([]token, 0, 8+len(text)/5)
	vocabulary := knownWords().words
	sincePH := 99 // tokens since the word pH
	for i := 0; i < len(text); {
		r, w := utf8.DecodeRuneInString(text[i:])
		switch {
		case r == ' ' || r == '\t' || r == '\n' || r == '\u00a0' || r == '\u202f' || r == '\u2009':
			i += w
			continue
		case r >= '0' && r <= '9' || r == '½' || r == '¼' || r == '¾':
			var t token
			end := 0
			if n, ok := numberAt(text, i); ok && len(list) > 0 && names.numbered(list[len(list)-1].text, text[n.from:n.to]) {
				t, end = token{kind: figure, text: text[n.from:n.to], from: n.from, measured: &measured{low: n, high: n}}, n.to // Wash 2
			} else {
				t, end = amountAt(text, i, sincePH <= 5)
			}
			if n := len(list); n > 0 && t.kind == amount && (list[n-1].text == "−" || list[n-1].text == "-" && (n == 1 || list[n-1].from > list[n-2].to)) && list[n-1].to == i+base {
				t.q.Low, t.q.High = t.negative()
				t.from = list[n-1].from - base
				list = list[:n-1]
			} else if n > 0 && (list[n-1].text == "±" || list[n-1].text == "+") {
				t.signed = true
			}
			if n := len(list); n > 1 && list[n-1].text == "/" && list[n-2].kind == figure && t.kind == amount && !t.span && t.low.value > 0 && list[n-2].low.value < t.low.value {
				t.divide(list[n-2]) // 1/4 in
				t.from = list[n-2].from - base
				list = list[:n-2]
			}
			t.from, t.to = t.from+base, end+base
			list = append(list, t)
			i = end
			if t.kind == amount {
				sincePH = 99
			}
		case unicode.IsLetter(r):
			end := wordEnd(text, i)
			t, after, ok := amountInWords(text, i, end)
			if !ok {
				t, after, ok = timeInWords(text, i, end, list)
			}
			if ok {
				t.from, t.to = i+base, after+base
				list = append(list, t)
				i = after
				continue
			}
			s := text[i:end]
			if s == "pH" || s == "PH" {
				sincePH = 0
			}
			s = lowered(s)
			t = token{kind: word, text: s, from: i + base, to: end + base, lookedUp: true, known: vocabulary[s]}
			if t.known != nil {
				t.kinds = t.known.kinds
			}
			list = append(list, t)
			i = end
		default:
			list = append(list, token{kind: mark_, text: text[i : i+w], from: i + base, to: i + w + base})
			i += w
		}
		sincePH++
	}
	return list
}

// negative turns the amount of a token to the other side of nought, in the unit in which it is written.
func (t *token) negative() (low, high float64) {
	return t.q.Unit.ToSI(-t.low.value), t.q.Unit.ToSI(-t.low.value)
}

// divide makes a fraction of the amount of a token.
func (t *token) divide(above token) {
	t.low.value = above.low.value / t.low.value
	t.low.decimals = 2
	t.high = t.low
	t.q.Low = t.q.Unit.ToSI(t.low.value)
	t.q.High = t.q.Low
}

// wordEnd is where a word ends: hyphens and apostrophes inside belong to it, and the points of e.g.
func wordEnd(text string, i int) int {
	for i < len(text) {
		r, w := utf8.DecodeRuneInString(text[i:])
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			i += w
			continue
		}
		if next, _ := utf8.DecodeRuneInString(text[i+w:]); strings.ContainsRune("-'’‑.", r) && unicode.IsLetter(next) && (r != '.' || abbreviated(text, i)) {
			i += w
			continue
		}
		break
	}
	return i
}

// abbreviated tells whether the point stands between two single letters.
func abbreviated(text string, point int) bool {
	return point >= 1 && (point == 1 || !isLetterByte(text[point-2])) && point+2 <= len(text) && (point+2 == len(text) || !isLetterByte(text[point+2]))
}

func isLetterByte(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= 0x80 }

// amountAt reads the number at a place, with its unit or as a range with units.
func amountAt(text string, i int, ph bool) (token, int) {
	t, end := readAmount(text, i, ph)
	if t.measured == nil {
		t.measured = &measured{}
	}
	return t, end
}

func readAmount(text string, i int, ph bool) (token, int) {
	low, ok := numberAt(text, i)
	if !ok {
		for i < len(text) && text[i] >= '0' && text[i] <= '9' {
			i++
		}
		return token{kind: figure, text: "0", from: low.from}, i
	}
	plain := token{kind: figure, text: text[low.from:low.to], from: low.from, measured: &measured{low: low, high: low}}
	if end, ok := continues(text, low.to); ok {
		return token{kind: word, text: strings.ToLower(text[low.from:end]), from: low.from}, end
	}
	if low.value == 1 && low.to < len(text) && text[low.to] == ':' {
		if n, ok := numberAt(text, low.to+1); ok {
			unit, _ := quantity.UnitNamed("1:N", quantity.VolumeFraction)
			si := unit.ToSI(n.value)
			return token{kind: amount, from: low.from, text: text[low.from:n.to], measured: &measured{low: n, high: n, q: quantity.Range{Low: si, High: si, Kind: quantity.VolumeFraction, Unit: unit}}}, n.to
		}
	}
	unit, end, has := unitAt(text, blanks(text, low.to))
	if has && (glued(text, low.to, end) || end == low.to+1 && (text[low.to] == 'C' || text[low.to] == 'F') && low.value > 250) { // 440C is a steel
		has = false
	}
	after := low.to
	if has {
		after = end
	}
	if high, ok := rangeEnd(text, after); ok {
		second, stop, also := unitAt(text, blanks(text, high.to))
		switch {
		case also && !has:
			unit = second
		case has:
			also = also && second.Kind == unit.Kind
		case ph:
			unit, _ = quantity.UnitNamed("", quantity.PH)
			stop, also = high.to, true
		}
		if also && high.value >= low.value {
			from := unit
			if has {
				unit = second
			}
			return token{kind: amount, from: low.from, text: text[low.from:stop], measured: &measured{low: low, high: high, span: true, q: quantity.Range{Low: from.ToSI(low.value), High: unit.ToSI(high.value), Kind: unit.Kind, Unit: unit}}}, stop
		}
	}
	if has {
		return token{kind: amount, from: low.from, text: text[low.from:end], measured: &measured{low: low, high: low, q: quantity.Range{Low: unit.ToSI(low.value), High: unit.ToSI(low.value), Kind: unit.Kind, Unit: unit}}}, end
	}
	if n, ok := strings.CutPrefix(text[blanks(text, low.to):], "±"); ok { // “72 ± 1 °C”
		at := len(text) - len(n)
		if by, is := numberAt(text, blanks(text, at)); is {
			if u, _, has := unitAt(text, blanks(text, by.to)); has {
				return token{kind: amount, from: low.from, text: text[low.from:low.to], measured: &measured{low: low, high: low, q: quantity.Range{Low: u.ToSI(low.value), High: u.ToSI(low.value), Kind: u.Kind, Unit: u}}}, low.to
			}
		}
	}
	if ph && low.value <= 20 {
		unit, _ = quantity.UnitNamed("", quantity.PH)
		return token{kind: amount, from: low.from, text: "pH " + text[low.from:low.to], measured: &measured{low: low, high: low, q: quantity.Range{Low: low.value, High: low.value, Kind: quantity.PH, Unit: unit}}}, low.to
	}
	return plain, low.to
}

// continues tells whether letters or more hang on a number, as in 304L, 40-mesh or 2026-09-14: then it is a name.
func continues(text string, at int) (int, bool) {
	if at >= len(text) {
		return at, false
	}
	if text[at] == '-' && at+1 < len(text) && text[at+1] >= '0' && text[at+1] <= '9' {
		// A range has one hyphen; a date has two.
		n, ok := numberAt(text, at+1)
		if ok && n.to < len(text) && text[n.to] == '-' && n.to+1 < len(text) && text[n.to+1] >= '0' && text[n.to+1] <= '9' {
			end := n.to + 1
			for end < len(text) && (text[end] >= '0' && text[end] <= '9' || text[end] == '-') {
				end++
			}
			return end, true
		}
		return at, false
	}
	if text[at] == ':' && at+1 < len(text) && text[at+1] >= '0' && text[at+1] <= '9' {
		end := at + 1
		for end < len(text) && (text[end] >= '0' && text[end] <= '9' || text[end] == ':' && end+1 < len(text) && text[end+1] >= '0' && text[end+1] <= '9') {
			end++
		}
		if text[max(0, at-1)] != '1' || at >= 2 && text[at-2] >= '0' && text[at-2] <= '9' {
			return end, true // a time of day
		}
		return at, false
	}
	if _, _, unit := unitAt(text, at); unit || !isLetterByte(text[at]) {
		return at, false
	}
	r, _ := utf8.DecodeRuneInString(text[at:])
	if !unicode.IsLetter(r) {
		return at, false
	}
	return wordEnd(text, at), true
}

// glued tells that a unit of one letter hangs on the number of a name: 3C, 2L are read, “4F” after a letter is not.
func glued(text string, numberEnd, unitEnd int) bool {
	return unitEnd-numberEnd == 1 && strings.ContainsRune("CFm", rune(text[numberEnd])) && unitEnd < len(text) && text[unitEnd] == '.' && unitEnd+1 < len(text) && isLetterByte(text[unitEnd+1])
}

func blanks(text string, at int) int {
	for at < len(text) {
		r, w := utf8.DecodeRuneInString(text[at:])
		if r != ' ' && r != '\u00a0' && r != '\u202f' && r != '\u2009' {
			break
		}
		at += w
	}
	return at
}

// rangeEnd reads what stands between the ends of a range, and the second number.
func rangeEnd(text string, at int) (number, bool) {
	i := blanks(text, at)
	for _, sign := range []string{"–", "—", "-", "‑", "...", "…", "to ", "and "} {
		if !strings.HasPrefix(text[i:], sign) {
			continue
		}
		if sign == "and " && !betweenBefore(text, at) {
			return number{}, false
		}
		if sign == "to " && i == at {
			return number{}, false
		}
		return numberAt(text, blanks(text, i+len(sign)))
	}
	return number{}, false
}

// betweenBefore tells whether “between”, or “within” as some say, stands before the first end of a range.
func betweenBefore(text string, at int) bool {
	if i := strings.LastIndexByte(text[:at], '('); i >= 0 && at-i < 6 { // “between 45 and 50 °C (113 and 122 °F)”
		return strings.Contains(strings.ToLower(text[max(0, at-40):i]), "between ")
	}
	before := strings.ToLower(text[max(0, at-24):at])
	return strings.Contains(before, "between ") || strings.Contains(before, "within ")
}

// amountInWords reads “eighty degrees”, “four per cent”, “half an hour”. A word for a number counts only with a unit behind it.
func amountInWords(text string, from, end int) (token, int, bool) {
	if end-from < 3 || end-from > 14 || !beginsNumber(text[from]|0x20, text[from+1]) {
		return token{}, 0, false
	}
	two := [2]string{text[from:end]}
	words := two[:1]
	next := blanks(text, end)
	nextEnd := next
	if next < len(text) && isLetterByte(text[next]) {
		nextEnd = wordEnd(text, next)
		words = append(words, text[next:nextEnd])
	}
	value, count := numberWord(words)
	if count == 0 {
		return token{}, 0, false
	}
	after := end
	if count == 2 {
		after = nextEnd
	}
	if part, width := fractionInWords(text[after:]); count == 1 && value >= 1 && width > 0 { // two and a half hours
		value, after = value+part, after+width
	}
	at := blanks(text, after)
	if value == 0.5 {
		for _, article := range []string{"a ", "an ", "of the "} {
			if strings.HasPrefix(text[at:], article) {
				at += len(article)
			}
		}
	}
	if t, stop, ok := rangeInWords(text, from, at, value); ok && count == 1 {
		return t, stop, true
	}
	unit, stop, ok := unitAt(text, at)
	if !ok || stop-at < 2 || at == after {
		return token{}, 0, false
	}
	n := number{value: value, from: from, to: after, word: true}
	si := unit.ToSI(value)
	return token{kind: amount, text: text[from:stop], measured: &measured{low: n, high: n, q: quantity.Range{Low: si, High: si, Kind: unit.Kind, Unit: unit}}}, stop, true
}

// fractionInWords reads the rest of “two and a half”, “one and a quarter” and “two and three quarters”, and how many bytes it has.
func fractionInWords(rest string) (part float64, width int) {
	for _, f := range fractionsInWords {
		if strings.HasPrefix(rest, f.words+" ") {
			return f.part, len(f.words)
		}
	}
	return 0, 0
}

var fractionsInWords = []struct {
	words string
	part  float64
}{{" and a half", 0.5}, {" and a quarter", 0.25}, {" and three quarters", 0.75}, {" and three quarter", 0.75}}

// timeInWords reads “quarter of an hour”, “three quarters of an hour”, and “an hour” or “a minute” behind a word with which it can only be how long
// something lasts: “for an hour”, “takes a minute”.
func timeInWords(text string, from, end int, before []token) (token, int, bool) {
	rest, seconds, unit := text[end:], 0., "min"
	stop := end
	count := len(before)
	switch w := text[from:end]; {
	case count > 1 && before[count-1].text == "a" && (before[count-2].text == "in" || before[count-2].text == "within" || before[count-2].text == "per"):
		return token{}, 0, false // how fast something changes
	case (w == "quarter" || w == "Quarter") && strings.HasPrefix(rest, " of an hour"):
		seconds, stop = 900, end+len(" of an hour")
	case (w == "three" || w == "Three") && strings.HasPrefix(rest, " quarters of an hour"):
		seconds, stop = 2700, end+len(" quarters of an hour")
	case (w == "an" || w == "An") && strings.HasPrefix(rest, " hour and a half"):
		seconds, stop, unit = 5400, end+len(" hour and a half"), "h"
	case (w == "an" || w == "An") && strings.HasPrefix(rest, " hour and a quarter"):
		seconds, stop, unit = 4500, end+len(" hour and a quarter"), "h"
	case (w == "an" || w == "An") && strings.HasPrefix(rest, " hour and three quarters"):
		seconds, stop, unit = 6300, end+len(" hour and three quarters"), "h"
	case (w == "a" || w == "A") && strings.HasPrefix(rest, " minute and a half"):
		seconds, stop = 90, end+len(" minute and a half")
	case len(before) == 0 || !lastBefore[before[len(before)-1].text]:
		return token{}, 0, false
	case w == "an" && strings.HasPrefix(rest, " hour"):
		seconds, stop, unit = 3600, end+len(" hour"), "h"
	case w == "a" && strings.HasPrefix(rest, " minute"):
		seconds, stop = 60, end+len(" minute")
	}
	if seconds == 0 || stop < len(text) && isLetterByte(text[stop]) || strings.HasPrefix(text[stop:], " and a ") || strings.HasPrefix(text[stop:], " or ") {
		return token{}, 0, false
	}
	u, _ := quantity.UnitNamed(unit, quantity.Time)
	n := number{value: seconds / u.ToSI(1), from: from, to: end, word: true}
	return token{kind: amount, text: text[from:stop], measured: &measured{low: n, high: n, q: quantity.Range{Low: seconds, High: seconds, Kind: quantity.Time, Unit: u}}}, stop, true
}

// lastBefore are words behind which “an hour” tells how long something lasts.
var lastBefore = set("for takes take lasts last needs need wants want gets get spends")

// rangeInWords reads the rest of “eight to ten minutes”.
func rangeInWords(text string, from, at int, low float64) (token, int, bool) {
	rest := text[at:]
	skip := 0
	switch {
	case strings.HasPrefix(rest, "to "):
		skip = 3
	case strings.HasPrefix(rest, "or "):
		skip = 3
	default:
		return token{}, 0, false
	}
	start := at + skip
	if start >= len(text) || !isLetterByte(text[start]) {
		return token{}, 0, false
	}
	end := wordEnd(text, start)
	high, count := numberWord([]string{text[start:end]})
	if count == 0 || high <= low {
		return token{}, 0, false
	}
	place := blanks(text, end)
	unit, stop, ok := unitAt(text, place)
	if !ok || stop-place < 2 || place == end {
		return token{}, 0, false
	}
	return token{kind: amount, text: text[from:stop], from: from, measured: &measured{low: number{value: low, from: from, to: at, word: true}, high: number{value: high, from: start, to: end, word: true}, span: true,
		q: quantity.Range{Low: unit.ToSI(low), High: unit.ToSI(high), Kind: unit.Kind, Unit: unit}}}, stop, true
}

// numberStarts are the first two letters of number words.
var numberStarts = func() (starts [26][26]bool) {
	for w := range smallNumbers {
		starts[w[0]-'a'][w[1]-'a'] = true
	}
	return starts
}()

func beginsNumber(a, b byte) bool {
	return a >= 'a' && a <= 'z' && b >= 'a' && b <= 'z' && numberStarts[a-'a'][b-'a']
}

// lowered is a word in small letters, with plain apostrophes; most are so already.
func lowered(s string) string {
	for i := range len(s) {
		if c := s[i]; c >= 'A' && c <= 'Z' || c >= 0x80 {
			return strings.ToLower(strings.ReplaceAll(s, "’", "'"))
		}
	}
	return s
}
