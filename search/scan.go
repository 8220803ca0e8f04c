package search

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// scanner walks over one text. A word is a run of letters and digits; within
// it apostrophes vanish ("won't" is "wont") and hyphens part it, leaving the
// parts and the whole. Numbers keep their decimals and take their unit along,
// also across a range and a space: see [scanner.number].
type scanner struct {
	*reader
	only     *letters // where set, words beginning otherwise are passed over
	little   bool     // little words are given as well
	text     string
	tokens   []token
	at       int
	position int
	folded   []byte // scratch for the word being read
}

// letters is a set of first letters, by their first bytes.
type letters [256]bool

var alphanumeric = func() (set letters) {
	for _, b := range []byte("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789") {
		set[b] = true
	}
	return set
}()

// longest is the most bytes a word may have; what is longer is no word.
const longest = 64

func (s *scanner) scan() {
	for s.at < len(s.text) {
		if b := s.text[s.at]; b < utf8.RuneSelf && !alphanumeric[b] {
			s.at++
			continue
		}
		before := s.at
		c, size := utf8.DecodeRuneInString(s.text[s.at:])
		switch {
		case '0' <= c && c <= '9':
			s.number()
		case unicode.IsLetter(c):
			s.compound()
		}
		if s.at == before {
			s.at += size
		}
	}
}

// plain reads a run of letters and digits and returns it folded, without
// moving on; it lasts until the next call. Its end is the byte after it.
func (s *scanner) plain(from int) (word []byte, end int) {
	s.folded = s.folded[:0]
	end = from
	for end < len(s.text) {
		if b := s.text[end]; b < utf8.RuneSelf && alphanumeric[b] { // nearly always
			s.folded = append(s.folded, byte(fold(rune(b))))
			end++
			continue
		}
		c, size := utf8.DecodeRuneInString(s.text[end:])
		switch f := fold(c); {
		case f == 'ß':
			s.folded = append(s.folded, "ss"...)
		case f == 'æ':
			s.folded = append(s.folded, "ae"...)
		case f == 'ø':
			s.folded = append(s.folded, 'o')
		case isApostrophe(c):
			if !s.letterAt(end + size) {
				return s.folded, end
			}
		case unicode.IsLetter(f) || unicode.IsDigit(f):
			s.folded = utf8.AppendRune(s.folded, f)
		case ignored(c):
		default:
			return s.folded, end
		}
		end += size
	}
	return s.folded, end
}

func (s *scanner) letterAt(at int) bool {
	c, _ := utf8.DecodeRuneInString(s.text[at:])
	return unicode.IsLetter(c)
}

func (s *scanner) wordAt(at int) bool {
	c, _ := utf8.DecodeRuneInString(s.text[at:])
	return unicode.IsLetter(c) || unicode.IsDigit(c)
}

// compound reads a word and what hyphens join to it.
func (s *scanner) compound() {
	start := s.at
	var whole []byte
	for parts := 0; ; parts++ {
		word, end := s.plain(s.at)
		if end == s.at {
			return
		}
		s.add(word, s.at, end, false)
		c, size := utf8.DecodeRuneInString(s.text[end:])
		more := isDash(c) && s.wordAt(end+size) && parts < 4
		if more || parts > 0 {
			whole = append(whole, word...)
		}
		s.at = end
		if more {
			s.at += size
			continue
		}
		if parts > 0 {
			s.position--
			s.add(whole, start, end, true)
		}
		return
	}
}

// add gives one word as a token, unless it is a stop word or a single letter, and little words are not wanted.
func (s *scanner) add(word []byte, start, end int, extra bool) {
	s.position++
	if s.little && !extra && (len(word) < 2 || s.stop[string(word)]) {
		s.addExact(littleMark+string(word), start, end, false)
		return
	}
	if len(word) < 2 || len(word) > longest || s.only != nil && !s.only[word[0]] || !extra && s.stop[string(word)] {
		return
	}
	known := s.stemmed(word)
	s.tokens = append(s.tokens, token{
		term: known.stem, word: known.word, start: start, end: end, position: s.position, extra: extra,
	})
}

// addExact gives a token that is not to be stemmed, at the present position.
func (s *scanner) addExact(term string, start, end int, extra bool) {
	s.tokens = append(s.tokens, token{
		term: term, word: term, start: start, end: end, position: s.position, extra: extra,
	})
}

// number reads a number with what belongs to it. "60 °C" gives 60 and 60c,
// "50–65 °C" gives 50, 50c, 65, 65c and what lies [within], "1:40" stays whole, "1,000" is 1000,
// "9.5" keeps its point. A number that letters follow without a space is a
// code ("316L", "5083"), unless the letters are a unit.
func (s *scanner) number() {
	start := s.at
	first, end := s.digits(start)
	// A ratio is one thing.
	if rest := s.text[end:]; strings.HasPrefix(rest, ":") && s.digitAt(end+1) {
		second, ratioEnd := s.digits(end + 1)
		s.position++
		s.addExact(first+":"+second, start, ratioEnd, false)
		s.at = ratioEnd
		return
	}
	// A range shares the unit behind its second number.
	c, size := utf8.DecodeRuneInString(s.text[end:])
	if isDash(c) && s.digitAt(end+size) {
		second, secondEnd := s.digits(end + size)
		unit, unitEnd := s.unit(secondEnd)
		if unit != "" || !s.wordAt(secondEnd) {
			of := unit
			if s.afterPH() {
				of = "ph"
			}
			s.measured(first, unit, start, end)
			s.measured(second, unit, end+size, max(secondEnd, unitEnd))
			s.at = max(secondEnd, unitEnd)
			for _, term := range within(first, second, of) {
				s.addExact(term, start, s.at, true)
			}
			return
		}
	}
	unit, unitEnd := s.unit(end)
	switch {
	case unit != "":
		s.measured(first, unit, start, unitEnd)
		s.at = unitEnd
	case s.letterAt(end) || isDash(c) && s.letterAt(end+size):
		s.compound()
	default:
		s.measured(first, "", start, end)
		s.at = end
	}
}

// measured gives a number, and once more with its unit.
func (s *scanner) measured(number, unit string, start, end int) {
	acid := s.afterPH()
	s.position++
	s.addExact(number, start, end, false)
	if unit != "" {
		s.addExact(number+unit, start, end, true)
	}
	if acid {
		s.addExact("ph"+number, start, end, true)
	}
}

// afterPH tells whether the word just read is "pH".
func (s *scanner) afterPH() bool {
	last := len(s.tokens) - 1
	return last >= 0 && s.tokens[last].term == "ph" && s.tokens[last].position == s.position
}

func (s *scanner) digitAt(at int) bool {
	return at < len(s.text) && '0' <= s.text[at] && s.text[at] <= '9'
}

// digits reads a number from its first digit. A comma before exactly three
// digits parts thousands; before others it is a decimal comma.
func (s *scanner) digits(from int) (number string, end int) {
	s.folded = s.folded[:0]
	point := false
	for end = from; end < len(s.text) && end-from < longest; end++ {
		switch c := s.text[end]; {
		case '0' <= c && c <= '9':
			s.folded = append(s.folded, c)
			continue
		case c == '.' && !point && s.digitAt(end+1):
			point = true
			s.folded = append(s.folded, '.')
			continue
		case c == ',' && !point && s.digitAt(end+1):
			thousands := s.digitAt(end+2) && s.digitAt(end+3) && !s.digitAt(end+4)
			if !thousands {
				point = true
				s.folded = append(s.folded, '.')
			}
			continue
		}
		break
	}
	return string(s.folded), end
}
