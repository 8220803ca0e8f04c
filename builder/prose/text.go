package prose

import (
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"

	"tankside/builder/manual"
)

// Of measures the running text of a markdown document.
func Of(doc ast.Node, source []byte) Measure {
	var m Measure
	m.blocks(doc, source)
	return m
}

// blocks measures every paragraph and list item below a node.
func (m *Measure) blocks(n ast.Node, source []byte) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Heading, *ast.FencedCodeBlock, *ast.CodeBlock, *ast.HTMLBlock, *east.Table:
		case *ast.Paragraph, *ast.TextBlock:
			m.paragraph(c, source)
		default:
			m.blocks(c, source)
		}
	}
}

// paragraph measures one paragraph, without the signal word of a safety message, which is a label. What a remedy is seen with lists declared
// observations, and is left out.
func (m *Measure) paragraph(n ast.Node, source []byte) {
	if lead(n, source) == seenWith {
		return
	}
	var b strings.Builder
	first := n.FirstChild()
	if _, means := manual.SignalWord(n, source); means != "" {
		first = first.NextSibling()
	}
	for c := first; c != nil; c = c.NextSibling() {
		running(&b, c, source)
	}
	offset := 0
	if lines := n.Lines(); lines.Len() > 0 {
		offset = lines.At(0).Start
	}
	m.text(b.String(), offset)
}

// running writes the running text of an inline node.
func running(b *strings.Builder, n ast.Node, source []byte) {
	switch n := n.(type) {
	case *ast.Text:
		b.Write(n.Value(source))
		if n.SoftLineBreak() || n.HardLineBreak() {
			b.WriteByte(' ')
		}
		return
	case *ast.String:
		b.Write(n.Value)
		return
	case *ast.CodeSpan, *ast.Image, *ast.AutoLink, *ast.RawHTML:
		return
	}
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		running(b, c, source)
	}
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
			m.Syllables += m.syllables(word)
		}
		afterNumber = number
		if ends(token) {
			end(i + 1)
			afterNumber = false
		}
	}
	end(len(tokens))
}

// syllables counts those of a word, of the same word once: a text says most of its words again.
func (m *Measure) syllables(word string) int {
	if n, known := m.counted[word]; known {
		return n
	}
	if m.counted == nil {
		m.counted = map[string]int{}
	}
	n := Syllables(word)
	m.counted[word] = n
	return n
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

// lead is the bold opening of a paragraph, or "".
func lead(paragraph ast.Node, source []byte) string {
	if e, ok := paragraph.FirstChild().(*ast.Emphasis); ok && e.Level == 2 {
		return manual.Plain(e, source)
	}
	return ""
}
