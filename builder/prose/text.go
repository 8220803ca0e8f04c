package prose

import (
	"strings"
	"sync"
	"unicode"

	"tankside/builder/manual"
)

// Of measures the running text of an article, which is given by its blocks. Texts that are measured with the same counts are measured faster; nil is none.
func Of(blocks []manual.Block, counts *Counts) Measure {
	m := Measure{counts: counts}
	if counts == nil {
		m.counts = &Counts{}
	}
	for i := range blocks {
		if b := &blocks[i]; b.Kind != manual.HeadingBlock && b.Kind != manual.CellBlock {
			m.paragraph(b)
		}
	}
	return m
}

// Counts remembers how many syllables words have: a manual says most of its words again and again. The zero value is ready; it may be used by several
// at once.
type Counts struct {
	shelves [32]struct { // each has its own lock: several processors ask for every word of a manual at the same time
		sync.RWMutex
		known map[string]int
	}
}

// of counts the syllables of a word, which has a letter at least.
func (c *Counts) of(word string) int {
	at := &c.shelves[(len(word)+int(word[0])+7*int(word[len(word)-1]))%len(c.shelves)]
	at.RLock()
	n, known := at.known[word]
	at.RUnlock()
	if known {
		return n
	}
	n = Syllables(word)
	at.Lock()
	defer at.Unlock()
	if at.known == nil {
		at.known = map[string]int{}
	}
	at.known[strings.Clone(word)] = n
	return n
}

// paragraph measures one paragraph, without the signal word of a safety message, which is a label. What a remedy is seen with lists declared
// observations, and is left out.
func (m *Measure) paragraph(b *manual.Block) {
	text := b.Text
	if b.Bold {
		if strings.HasPrefix(text, seenWith) {
			return
		}
		for _, label := range manual.SignalWords {
			if rest, is := strings.CutPrefix(text, label+" "); is {
				text = rest
			}
		}
	}
	m.text(text, b.At(0))
}

// text measures a piece of running text that ends its last sentence.
func (m *Measure) text(text string, offset int) {
	tokens := strings.Fields(text)
	begin, words := 0, 0
	end := func(next int) {
		if words > 0 {
			m.Sentences++
		}
		if words > m.Longest.Words {
			m.Longest = Sentence{Text: strings.Join(tokens[begin:next], " "), Words: words, Offset: offset}
		}
		begin, words = next, 0
	}
	afterNumber := false
	for i, token := range tokens {
		word, number := reduce(token)
		if !number && afterNumber && unit(token) {
			word, number = "", true // another unit may follow: “% v/v”
		}
		if word != "" {
			words++
			m.Words++
			m.Syllables += m.counts.of(word)
		}
		afterNumber = number
		if ends(token) {
			end(i + 1)
			afterNumber = false
		}
	}
	end(len(tokens))
}

// reduce takes a word out of the marks around it. number tells that it is a number, or has one in it.
func reduce(token string) (word string, number bool) {
	word = strings.TrimFunc(token, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	if strings.ContainsFunc(word, unicode.IsDigit) {
		return "", true
	}
	return word, false
}

// ends tells whether a sentence ends with a token: a full stop, question mark or exclamation mark, perhaps with a bracket or quotation mark
// behind it.
func ends(token string) bool {
	token = strings.TrimRight(token, `"')]*_”’»`)
	return strings.HasSuffix(token, ".") || strings.HasSuffix(token, "?") || strings.HasSuffix(token, "!") || strings.HasSuffix(token, "…")
}

// unit tells whether what stands behind a number is its unit, or joins it to the next number.
func unit(token string) bool {
	token = strings.TrimRight(token, ".,;:?!)]*_\"”")
	if token == "" || !strings.ContainsFunc(token, unicode.IsLetter) {
		return true // “%”, “–”, “×”
	}
	return units[token]
}

// units are the units that a manual writes behind numbers.
var units = set("°C °F K v/v w/v w/w ppm ppb pH % g kg mg µg L mL µL m cm mm µm nm m² m³ mm² cm² L/min L/h m³/h mL/m² g/L mg/L µg/L mg/m³ µg/m³ kg/L mg/cm² " +
	"s min h kHz MHz Hz W kW kWh W/L V A bar mbar kPa MPa psi dB HRC µS/cm mol/L N mm/s mm²/s m/s kJ/mol mN/m °C/h °C/min ft gal lb oz")

func set(words string) map[string]bool {
	m := make(map[string]bool)
	for w := range strings.FieldsSeq(words) {
		m[w] = true
	}
	return m
}

// seenWith opens the paragraph in which a remedy says what its cause is seen with.
const seenWith = "Seen with."
