package search

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/blevesearch/snowballstem"
)

// token is one searchable form of a word of a text. A word can give several
// tokens at the same position: "60 °C" gives "60" and "60c", "re-rinse" gives
// "re", "rinse" and "rerins".
type token struct {
	term       string // as indexed: folded and stemmed
	word       string // folded, not stemmed: for the lexicon
	start, end int    // bytes of the text
	position   int    // counts words, stop words too
	extra      bool   // a further form of a word already given
}

// A reader cuts texts into tokens. It keeps the stems it has worked out; it is
// not for use by several goroutines at once.
type reader struct {
	*language
	env   *snowballstem.Env
	stems map[string]stemmed
	spare []token // see brief
}

// stemmed is a word with its stem. Holding the word too saves making a string
// of it each time it is read.
type stemmed struct{ word, stem string }

func newReader(l *language) *reader {
	return &reader{language: l, env: snowballstem.NewEnv(""), stems: map[string]stemmed{}}
}

// keptStems bounds the memory a reader takes however odd its texts are.
const keptStems = 1 << 16

// read appends the tokens of text to the given slice.
func (r *reader) read(text string, into []token) []token {
	s := scanner{reader: r, text: text, tokens: into}
	s.scan()
	return s.tokens
}

// brief gives the tokens of text until the next call.
func (r *reader) brief(text string) []token { return r.briefOnly(text, nil) }

// briefOnly leaves out words that do not begin with one of the letters, at a
// fraction of the time. Positions count all the same.
func (r *reader) briefOnly(text string, only *letters) []token {
	s := scanner{reader: r, only: only, text: text, tokens: r.spare[:0]}
	s.scan()
	r.spare = s.tokens
	return r.spare
}

// stem cuts a folded word down to what its relatives share.
func (r *reader) stem(word string) string { return r.stemmed([]byte(word)).stem }

func (r *reader) stemmed(folded []byte) stemmed {
	if known, ok := r.stems[string(folded)]; ok {
		return known
	}
	word := string(folded)
	made := stemmed{word, r.stemOf(word, r.env)}
	if made.stem == "" {
		made.stem = word
	}
	if len(r.stems) < keptStems {
		r.stems[word] = made
	}
	return made
}

// withoutY takes the stem of "rusty" on to that of "rust", which the stemmer
// leaves at "rusti": what people see is a "rusty", "spotty", "oily" part.
func withoutY(stem string) string {
	if len(stem) < 4 || stem[len(stem)-1] != 'i' {
		return stem
	}
	stem = stem[:len(stem)-1]
	if last := len(stem) - 1; last > 2 && stem[last] == stem[last-1] && strings.IndexByte("bdgmnprt", stem[last]) >= 0 {
		stem = stem[:last]
	}
	return stem
}

// irregular leads forms of verbs that no ending gives away to the verb, and
// short negations to "not".
var irregular = func() map[string]string {
	m := map[string]string{}
	for _, line := range [...]string{
		"bend bent", "bind bound", "blow blew blown", "break broke broken", "bring brought", "burn burnt", "buy bought",
		"come came", "choose chose chosen", "draw drew drawn", "drink drank drunk", "drive drove driven", "fall fell fallen",
		"feel felt", "find found", "freeze froze frozen", "give gave given", "grind ground", "grow grew grown", "hang hung",
		"hold held", "keep kept", "know knew known", "leave left", "lose lost", "make made", "melt molten", "run ran",
		"rise rose risen", "send sent", "shake shook shaken", "shine shone", "shrink shrank shrunk", "sink sank sunk",
		"smell smelt", "spill spilt", "spin spun", "spring sprung", "stand stood", "stick stuck", "sting stung",
		"stink stank stunk", "strike struck", "swell swollen", "take took taken", "tear tore torn", "throw threw thrown",
		"wear wore worn", "write wrote written", "foot feet", "tooth teeth",
		"not cannot cant couldnt didnt doesnt dont hasnt havent isnt arent shouldnt wasnt werent wont wouldnt aint",
	} {
		forms := strings.Fields(line)
		for _, form := range forms[1:] {
			m[form] = forms[0]
		}
	}
	return m
}()

// oneSpelling turns British spellings into American ones, which the stemmer
// treats better. It need not give a correct word, only the same for both.
func oneSpelling(word string) string {
	for _, pair := range [...][2]string{
		{"aluminium", "aluminum"}, {"sulph", "sulf"}, {"grey", "gray"},
		{"litre", "liter"}, {"metre", "meter"}, {"fibre", "fiber"}, {"mould", "mold"},
		{"odour", "odor"}, {"colour", "color"}, {"vapour", "vapor"}, {"catalyse", "catalyze"},
	} {
		if strings.HasPrefix(word, pair[0]) {
			return pair[1] + word[len(pair[0]):]
		}
	}
	if len(word) >= 7 {
		for _, end := range [...]string{"ise", "ised", "iser", "ises", "ising", "isation"} {
			if strings.HasSuffix(word, end) {
				return word[:len(word)-len(end)] + "iz" + end[2:]
			}
		}
	}
	return word
}

// fold gives the small letter without its accent, or the rune itself.
func fold(c rune) rune {
	if c < utf8.RuneSelf {
		if 'A' <= c && c <= 'Z' {
			return c + 'a' - 'A'
		}
		return c
	}
	c = unicode.ToLower(c)
	switch {
	case 'à' <= c && c <= 'å':
		return 'a'
	case c == 'ç':
		return 'c'
	case 'è' <= c && c <= 'ë':
		return 'e'
	case 'ì' <= c && c <= 'ï':
		return 'i'
	case c == 'ñ':
		return 'n'
	case 'ò' <= c && c <= 'ö':
		return 'o'
	case 'ù' <= c && c <= 'ü':
		return 'u'
	case c == 'ý' || c == 'ÿ':
		return 'y'
	case c == 'μ': // Greek letter for the micro sign
		return 'µ'
	case '₀' <= c && c <= '₉': // H₂O
		return c - '₀' + '0'
	}
	return c
}

func isApostrophe(c rune) bool { return c == '\'' || c == '’' || c == '‘' || c == 'ʼ' }

func isDash(c rune) bool { return c == '-' || c == '‐' || c == '‑' || c == '–' || c == '−' }

// ignored are characters that neither end a word nor belong to it: soft
// hyphens, zero-width and direction marks, combining accents.
func ignored(c rune) bool {
	return c == '\u00ad' || c >= 0x300 && unicode.In(c, unicode.Cf, unicode.Mn)
}

// stop words carry no meaning in a question of the trade. "not", "no", "off",
// "on", "out", "up", "down", "over", "under" and "too" do and stay.
var stop = func() map[string]bool {
	m := map[string]bool{}
	for _, word := range strings.Fields(`a an the and or but of to in at by for from with as into
		is are was were be been being am has have had having do does did doing
		i you he she it we they me him her us them my your his its our their
		this that these those there here what which who whom whose when where why how
		if then than so such each other another some any all very just also still
		get gets got getting go goes going went gone put puts let lets
		like stuff thing things something anything everything want need know please really use using somehow ok okay
		can could will would shall should may might must
		im ive id ill youre youve its theyre theres whats hows whys`) {
		m[word] = true
	}
	return m
}()
