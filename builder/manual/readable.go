package manual

import (
	"bytes"
	"fmt"
	"strings"

	"tankside/builder/finding"
)

// What a body may have that takes the parser more than its own length: a row of a table has as many cells as its head, however short it is, and
// what stands in quotes or lists within each other is gone through once for each of them.
const (
	maxColumns = 64
	maxCells   = 20_000 // of the tables of an article
	maxNested  = 24     // block quotes and lists that a line begins with

	MostTexts        = 3000      // texts with empty lines between them, and listings, of an article: three hundred printed pages
	maxBrackets      = 10_000    // that open something in an article, listings apart
	maxBlockBrackets = 2000      // of one block: for each that nothing closes the parser looks at those before
	maxBlockTicks    = 2000      // backticks of one block: each run of them is looked for among those behind it
	maxListings      = 100       // of an article, calculators among them; highlighting one takes longer than reading it
	maxListed        = 400 << 10 // bytes of all of them
	maxSentence      = 500       // words that nothing ends; rules about people and metals compare each with the others of its sentence
	maxSentences     = 15_000    // of an article, listings apart: a megabyte of ordinary ones
	maxNumbers       = 10_000    // of an article, listings apart; with its unit each is read, compared and shown in both families of units
)

// readable refuses a body that only a mistake, or malice, makes: with a block of text so long, or a table so large, that reading it would take
// time or memory without end.
func (d *decoder) readable(a *Article) bool {
	line, message, remedy := TooLarge(a.Body)
	if message == "" {
		return true
	}
	d.report(ruleTooLarge, finding.Place{File: d.file, Line: a.Start + line - 1, Column: 1}, message+"; the text was not read.", remedy)
	return false
}

// TooLarge measures markdown line by line before anything parses it. It gives the line, from 1, in which the text has more of something than is read, what
// that is and what to do, as sentences without a full stop and with one; or nothing where the text can be read.
func TooLarge(body []byte) (line int, message, remedy string) {
	var g guard
	for text := range bytes.Lines(body) {
		line++
		if message, remedy := g.next(bytes.TrimRight(text, "\n")); message != "" {
			return line, message, remedy
		}
	}
	return 0, "", ""
}

// What an article may hold of what takes time with its square to lay out, or much memory to show.
const (
	maxSteps   = 200 // of a symptom's tree
	maxAnswers = 600 // of all its steps
	maxSums    = 50  // calculators
	maxSignals = 300 // safety messages: each stands on pages, cards and sheets of whatever meets the article

	maxHeadings = 1000 // each has an address of its own, a place in the search and a line of the contents
)

// measured refuses an article with more steps or calculators than anybody can walk through.
func (d *decoder) measured(a *Article) bool {
	steps, answers := 0, 0
	for _, s := range a.Sections {
		answers += len(s.Answers)
		if a.Kind == Symptom && answers > maxAnswers {
			d.report(ruleTooLarge, s.At, fmt.Sprintf("The steps of the tree have more than %d answers; the text was not read.", maxAnswers), "Divide it into several symptoms, and link them.")
			return false
		}
		if s.Level == 2 {
			steps++
		}
		if a.Kind == Symptom && steps > maxSteps {
			d.report(ruleTooLarge, s.At, fmt.Sprintf("The tree has more than %d steps and remedies; the text was not read.", maxSteps), "Divide it into several symptoms, and link them.")
			return false
		}
	}
	if len(a.Sections) > maxHeadings {
		d.report(ruleTooLarge, a.Sections[maxHeadings].At, manyHeadings+"; the text was not read.", divide)
		return false
	}
	if len(a.Signals) > maxSignals {
		d.report(ruleTooLarge, a.Signals[maxSignals].At, fmt.Sprintf("The article has more than %d safety messages; the text was not read.", maxSignals), "Say what matters once; nobody heeds the rest.")
		return false
	}
	if len(a.Sums) > maxSums {
		d.report(ruleTooLarge, a.Sums[maxSums].At, fmt.Sprintf("The article has more than %d calculators; the text was not read.", maxSums), divide)
		return false
	}
	return true
}

var manyHeadings = fmt.Sprintf("The article has more than %d headings", maxHeadings)

const divide = "Divide it into several articles."

// guard goes through a body line by line.
type guard struct {
	size   int    // bytes of the block so far
	fence  string // that opened the listing, or "" outside of one
	indent int    // of that fence

	lists   []int  // columns in which the text of the lists begins that a line may stand in, the outermost first
	columns int    // of the table so far; none outside of one
	cells   int    // of all tables
	before  []byte // the line before

	headings, blocks, brackets, numbers int

	listings, listed int // how many, and bytes in them

	blockBrackets int
	blockTicks    int
	sentence      int // words since something ended a sentence
	sentences     int // that are ended
}

// next takes a line and says what is too large by now, and what to do, or nothing.
func (g *guard) next(text []byte) (message, remedy string) {
	if g.listing(text) {
		g.listed += len(text) + 1
		return g.many()
	}
	before := g.before
	g.before = text
	blank := len(bytes.TrimSpace(text)) == 0
	if !blank && g.size == 0 {
		g.blocks++
	}
	if g.size += len(text) + 1; blank {
		g.size, g.blockBrackets, g.blockTicks, g.sentence = 0, 0, 0, 0
	}
	opened := bytes.Count(text, []byte("["))
	g.blockTicks += bytes.Count(text, []byte("`"))
	g.brackets, g.blockBrackets, g.numbers = g.brackets+opened, g.blockBrackets+opened, g.numbers+numbersIn(text)
	if message, remedy := g.many(); message != "" {
		return message, remedy
	}
	if g.size > MostText {
		return fmt.Sprintf("A block of text without an empty line has more than %d KiB", MostText>>10), "Divide it with empty lines."
	}
	inner, nested := g.unnested(text)
	line := bytes.TrimSpace(text)
	underlined := len(bytes.TrimSpace(before)) > 0 && !blank && (len(bytes.Trim(line, "=")) == 0 || len(bytes.Trim(line, "-")) == 0)
	if bytes.HasPrefix(inner, []byte("#")) || underlined {
		if g.headings++; g.headings > maxHeadings {
			return manyHeadings, divide
		}
	}
	if nested > maxNested {
		return fmt.Sprintf("More than %d quotes and lists stand within each other", maxNested), "Take out those that are not meant."
	}
	columns := delimiters(inner)
	switch {
	case columns > maxColumns && bytes.IndexByte(before, '|') >= 0:
		return fmt.Sprintf("A table has %d columns; more than %d are not read", columns, maxColumns), "Divide it into several tables."
	case columns > 0:
		g.columns = columns
		g.cells += 2 * columns // head and row of hyphens
	case blank || len(bytes.TrimSpace(inner)) == 0:
		g.columns = 0
	case g.columns > 0:
		g.cells += g.columns
	}
	if g.cells > maxCells {
		return fmt.Sprintf("The tables have more than %d cells", maxCells), "Divide the article into several."
	}
	if g.speak(text); g.sentence > maxSentence {
		return fmt.Sprintf("A sentence has more than %d words", maxSentence), "End it earlier: what has no end is read by nobody."
	}
	return "", ""
}

// speak counts the words of a line that belong to the sentence that is open. An item of a list and a cell of a table end what stands before them.
func (g *guard) speak(text []byte) {
	if line := bytes.TrimLeft(text, "> \t"); len(line) > 0 && listMarker(line) > 0 {
		g.sentence = 0
	}
	inWord := false
	for i, c := range text { // by bytes: it goes over every text of the manual
		switch blank := c == ' ' || c == '\t'; {
		case !blank && !inWord:
			g.sentence++
		case blank && inWord:
			g.end(text[:i])
		}
		inWord = c != ' ' && c != '\t'
	}
	if inWord {
		g.end(text)
	}
}

// end ends the sentence that is open, where the text ends with the end of one or of a cell.
func (g *guard) end(text []byte) {
	switch endOf(text) {
	case 0:
		return
	case '.', '!', '?':
		g.sentences++
	}
	g.sentence = 0
}

// endOf gives the sign with which a text ends a sentence or a cell, perhaps with brackets, quotation marks or emphasis behind it, or 0.
func endOf(text []byte) byte {
	for i := len(text) - 1; i >= 0; i-- {
		switch text[i] {
		case '.', '!', '?', '|':
			return text[i]
		case ')', '"', '\'', '*', '_', 0xe2, 0x80, 0x9d, 0x99: // ” and ’ are E2 80 9D and E2 80 99
		default:
			return 0
		}
	}
	return 0
}

// many says what there is too much of in the whole article, or nothing.
func (g *guard) many() (message, remedy string) {
	switch {
	case g.blocks > MostTexts:
		return fmt.Sprintf("The article has more than %d texts with empty lines between them", MostTexts), divide
	case g.listings > maxListings:
		return fmt.Sprintf("The article has more than %d listings", maxListings), divide
	case g.listed > maxListed:
		return fmt.Sprintf("The listings of the article have more than %d KiB", maxListed>>10), "Show the lines that matter, and keep the whole file elsewhere."
	case g.blockBrackets > maxBlockBrackets:
		return fmt.Sprintf("A block of text without an empty line has more than %d opening brackets", maxBlockBrackets), "Divide it with empty lines."
	case g.blockTicks > maxBlockTicks:
		return fmt.Sprintf("A block of text without an empty line has more than %d backticks", maxBlockTicks), "Divide it with empty lines."
	case g.brackets > maxBrackets:
		return fmt.Sprintf("The article has more than %d opening brackets", maxBrackets), divide
	case g.sentences > maxSentences:
		return fmt.Sprintf("The article has more than %d sentences", maxSentences), divide
	case g.numbers > maxNumbers:
		return fmt.Sprintf("The article has more than %d numbers", maxNumbers), "Divide it into several articles; what was measured belongs into a record."
	}
	return "", ""
}

// numbersIn counts runs of digits; 2.5 is one, and the two ends of a range are two.
func numbersIn(text []byte) (n int) {
	before := byte(' ')
	for i, c := range text {
		if c >= '0' && c <= '9' && (before < '0' || before > '9') && (before != '.' && before != ',' || i < 2 || text[i-2] < '0' || text[i-2] > '9') {
			n++
		}
		before = c
	}
	return n
}

// listing tells whether a line belongs to a listing, whose lines are read one by one however many there are. A fence that is indented by two
// blanks or more may stand in an item of a list, and the listing ends with that.
func (g *guard) listing(text []byte) bool {
	indent := len(text) - len(bytes.TrimLeft(text, " "))
	if g.fence != "" {
		if m := closesFence(text); m != nil && strings.HasPrefix(string(m[1]), g.fence) {
			g.fence = ""
			return true
		}
		if g.indent < 2 || indent >= g.indent || len(bytes.TrimSpace(text)) == 0 {
			return true
		}
		g.fence = ""
	}
	m := opensFence(text)
	if m == nil {
		return false
	}
	run := strings.TrimLeft(string(m[1]), string(m[1][0]))
	g.fence, g.indent = string(m[1][:len(m[1])-len(run)]), indent
	g.size, g.blockBrackets, g.columns, g.before = 0, 0, 0, nil
	g.blocks++
	g.listings++
	return true
}

// unnested takes the signs of block quotes and list items off the beginning of a line, and tells how many quotes and lists stand within each
// other there: those of the line, and lists of lines before that go on because the line is indented as far as their text.
func (g *guard) unnested(text []byte) (inner []byte, nested int) {
	column, quotes, lists := 0, 0, false
	for {
		rest := bytes.TrimLeft(text, " \t")
		for _, c := range text[:len(text)-len(rest)] {
			if column++; c == '\t' {
				column = (column + 3) &^ 3 // CommonMark 0.31.2, section 2.2: tab stops of 4
			}
		}
		text = rest
		n := 0
		switch {
		case len(text) == 0:
		case text[0] == '>':
			n = 1
			quotes++
		default:
			n = listMarker(text)
		}
		if n == 0 {
			if lists {
				return text, quotes + len(g.lists)
			}
			return text, quotes
		}
		if text[0] != '>' {
			for !lists && len(g.lists) > 0 && g.lists[len(g.lists)-1] > column {
				g.lists = g.lists[:len(g.lists)-1]
			}
			g.lists, lists = append(g.lists, column+n+1), true
		}
		text, column = text[n:], column+n
	}
}

// listMarker is the width of the marker of a list with which a text begins, or 0. The text is not empty.
func listMarker(text []byte) int {
	switch {
	case bytes.IndexByte([]byte("-+*"), text[0]) >= 0:
		return markerWidth(text, 1)
	case text[0] >= '0' && text[0] <= '9':
		digits := len(text) - len(bytes.TrimLeft(text, "0123456789"))
		if digits < len(text) && digits <= 9 && (text[digits] == '.' || text[digits] == ')') {
			return markerWidth(text, digits+1)
		}
	}
	return 0
}

// markerWidth is the width of a list's marker where a blank or the end of the line follows it, otherwise 0.
func markerWidth(text []byte, width int) int {
	if len(text) == width || text[width] == ' ' || text[width] == '\t' {
		return width
	}
	return 0
}

// delimiters is the number of columns of a line that parts a table's head from its rows (GFM 0.29, section 4.10), or 0.
func delimiters(text []byte) int {
	if bytes.IndexByte(text, '-') < 0 || len(bytes.Trim(text, "|:- \t")) > 0 {
		return 0
	}
	return bytes.Count(bytes.Trim(text, "| \t"), []byte("|")) + 1
}
