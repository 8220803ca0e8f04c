package rules

import (
	"bytes"
	"fmt"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// pastedText finds what pasting from a word processor or a web page leaves: a decimal comma in a quantity, “10%-15%”, letters of a wrong
// encoding, “Error! Reference source not found”, a bullet that is no list, a picture or link with a blank in its name, which markdown shows as
// the bare text. It prevents that 9,5 is read as 95 or as two numbers, and that a reader sees brackets instead of a picture.
// Limit: the manual's format (a decimal point; en dash and one unit for a range); CommonMark 0.31.2, section 6.3 (link destinations have no
// blanks). A comma before three digits may part thousands and is left alone.
var pastedText = finding.Rule{
	Name: "pasted-text", Severity: finding.Result,
	Finds:  "what pasting leaves: a decimal comma, “10%-15%”, wrong letters, a link with a blank in its name",
	Why:    "The reader sees a number that can be read in two ways, or brackets where a picture should be.",
	Source: "the manual's format; CommonMark 0.31.2, section 6.3",
}

const unitsForPaste = `(?:%|°\s?[CF]|℃|L\b|l\b|mL|ml\b|kHz|Hz|min\b|minutes|s\b|h\b|hours|kg|g\b|g/L|mm|cm|m\b|µm|bar|psi|kPa|W\b|kW|V\b|A\b|K\b|µS/cm|litres|litre|per cent|mg)`

// pastedKind is one sort of what pasting leaves.
type pastedKind struct {
	pattern *expression.Expression
	says    string // with the piece
	remedy  string
	once    bool                   // said once of an article
	may     func(line []byte) bool // tells quickly of most lines that they have nothing of the kind
}

var pastedTraces = []pastedKind{
	{expression.Of(`\bpH\s*(?:of\s+|is\s+|=\s*|at\s+|about\s+|below\s+|above\s+|under\s+|over\s+|to\s+)?(\d{1,2},\d{1,2})(?:\D|$)`), "“%s” has a decimal comma.", "Write a decimal point: 9.5. Where two numbers are meant, write “9 and 5” or 9–5 with a dash.", false, commaInNumber[[]byte]},
	{expression.Of(`(?:^|[^\d,.])(\d{1,3},\d{1,2}\s?` + unitsForPaste + `)`), "“%s” has a decimal comma.", "Write a decimal point: 9.5. Where two numbers are meant, write a blank behind the comma.", false, commaInNumber[[]byte]},
	{expression.Of(`(?:^|[^\d,.])(0,\d{3,4}\s?` + unitsForPaste + `)`), "“%s” has a decimal comma.", "Write a decimal point: 0.125.", false, commaInNumber[[]byte]},
	{expression.Of(`(?:^|[^\d,.])(\d{1,3},\d{1,2}\s?[–-]\s?\d{1,3},\d{1,2})(?:\D|$)`), "“%s” has decimal commas.", "Write decimal points: 9.5–10.5.", false, commaInNumber[[]byte]},
	{expression.Of(`(?:^|[^\d.])(\d+(?:\.\d+)?%\s?[-–—]\s?\d+(?:\.\d+)?\s?%)`), "The range “%s” has its unit twice.", "Write the unit once, behind a dash without blanks: 10–15 %, with v/v, w/w or w/v where it is a strength.", false, twice("%")},
	{expression.Of(`(?:^|[^\d.])(\d+(?:\.\d+)?\s?%\s?-\s?\d+(?:\.\d+)?\s?%)`), "The range “%s” has its unit twice, and a hyphen for a dash.", "Write the unit once, behind a dash without blanks: 10–15 %, with v/v, w/w or w/v where it is a strength.", false, twice("%")},
	{expression.Of(`(?:^|[^\d.])(\d+(?:\.\d+)?\s?°\s?[CF]\s?-\s?\d+(?:\.\d+)?\s?°\s?[CF])`), "The range “%s” has its unit twice, and a hyphen that can be read as a minus.", "Write the unit once, behind a dash without blanks: 50–65 °C.", false, twice("°")},
	{expression.Of(`(?:^|[^\d.])(\d+(?:\.\d+)?\s?kHz\s?-\s?\d+(?:\.\d+)?\s?kHz)`), "The range “%s” has its unit twice.", "Write the unit once, behind a dash without blanks: 25–40 kHz.", false, twice("kHz")},
	{expression.Of(`(?:^|[^\d.])(\d+(?:\.\d+)?\s?` + unitsForPaste + `?\s?(?:±|\+/[-−])\s?\d+(?:\.\d+)?(?:\s?` + unitsForPaste + `)?)`), "“%s” is compared with nothing.", "Write the range from least to most, such as 55–65 °C.", false, hasOne("±", "+/-", "+/−")},
	{expression.Of(`(\d+(?:\.\d+)?\s?(?:[Dd]eg\.?|[Dd]egrees?|º|˚)\s?[CF])\b`), "In “%s” the degree sign is written out.", "Write °C or °F.", false, degreesWritten},
	{expression.Of(`^\s*\*\*(DANGER|WARNING|CAUTION|NOTICE)\*\*\s?:`), "“%s:” begins a line, and no safety message.", "Write it as a block quote: > **WARNING** and the text.", false, hasOne("DANGER", "WARNING", "CAUTION", "NOTICE")},
	{expression.Of(`(\[\^[\w-]{1,20}\])`), "“%s” is a footnote, which a manual has none of.", "Write it into the text, or as a source.", false, hasOne("[^")},
	{expression.Of(`(\d+(?:\s[o0⁰]|o|⁰)\s?C)\b`), "In “%s” the degree sign is lost.", "Write °C.", false, hasOne("oC", " 0C", "⁰C", "⁰ C", "o C")},
	{expression.Of("([ÂÃ][°±µ²³€©–\u00a0-\u00bf]|â€[\u201c\u201d\u2122œ™“”˜¦]|\ufffd)"), "“%s” comes from a wrong encoding.", "Write the sign that was meant.", false, hasOne("Â", "Ã", "â€", "\ufffd")},
	{expression.Of(`(Error! (?:Reference source not found|Bookmark not defined|Hyperlink reference not valid)\.?)`), "“%s” is what a word processor leaves of a reference.", "Write the link anew.", false, hasOne("Error!")},
	{expression.Of("([\ue000-\uf8ff])"), "“%s” is a sign of one font alone, as word processors use for bullets.", "Write a list with hyphens, or the sign that was meant.", false, privateSign},
	{expression.Of(`^\s*([•▪◦‣●·])\s+\S`), "The bullet “%s” makes no list.", "Begin each such line with a hyphen and a blank.", true, bullet},
	{expression.Of(`((?:^|[^!])\[[^\]]+\]\((?:[^()<>"\s]+\s+)+[^()<>"\s]*\.md(?:#[^()\s]*)?\s*\))`), "The link “%s” has a blank in its address, so that its text is shown and no link.", "Write the name of the file as it is, with hyphens.", false, blankInLink},
	{expression.Of(`(!\s\[[^\]]*\]\([^)\s]+\.(?:svg|png|jpe?g|gif|webp)\)|!\[[^\]]*\]\s\([^)]+\.(?:svg|png|jpe?g|gif|webp)\))`), "“%s” has a blank inside the marks of a picture, so that no picture is shown.", "Write ![what it shows](path) without blanks between the marks.", false, hasOne("! [", "] (")},
}

// hasOne tells whether one of the pieces stands in a line.
func hasOne(texts ...string) func([]byte) bool {
	var pieces [][]byte
	for _, t := range texts {
		pieces = append(pieces, []byte(t))
	}
	return func(line []byte) bool {
		for _, p := range pieces {
			if bytes.Contains(line, p) {
				return true
			}
		}
		return false
	}
}

// twice tells whether a piece stands in a line twice, with no more between than a number.
func twice(piece string) func([]byte) bool {
	p := []byte(piece)
	return func(line []byte) bool {
		for {
			i := bytes.Index(line, p)
			if i < 0 {
				return false
			}
			line = line[i+len(p):]
			if near := bytes.Index(line, p); near >= 0 && near <= 40 {
				return true
			}
		}
	}
}

// degreesWritten tells whether a degree is written out, or with another sign, in a line. Most lines with these letters tell of degassing.
func degreesWritten(line []byte) bool {
	for _, sign := range [][]byte{[]byte("deg"), []byte("Deg"), []byte("º"), []byte("˚")} {
		for rest := line; ; {
			i := bytes.Index(rest, sign)
			if i < 0 {
				break
			}
			if before := bytes.TrimRight(rest[:i], " \t\u00a0"); len(before) > 0 && digitAt(before, len(before)-1) {
				return true
			}
			rest = rest[i+len(sign):]
		}
	}
	return false
}

// commaInNumber tells whether a comma stands between two digits.
func commaInNumber[T string | []byte](line T) bool {
	for i := 1; i+1 < len(line); i++ {
		if line[i] == ',' && isDigit(line[i-1]) && isDigit(line[i+1]) {
			return true
		}
	}
	return false
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// privateSign tells whether a sign of the private area of Unicode stands in a line.
func privateSign(line []byte) bool {
	return bytes.IndexByte(line, 0xee) >= 0 || bytes.IndexByte(line, 0xef) >= 0
}

// bullet tells whether a line begins with a sign that is no letter and of no markdown.
func bullet(line []byte) bool {
	line = bytes.TrimLeft(line, " ")
	return len(line) > 0 && (line[0] == 0xe2 || line[0] == 0xc2)
}

// blankInLink tells whether a blank stands in the brackets behind the words of a link.
func blankInLink(line []byte) bool {
	for {
		i := bytes.Index(line, []byte("]("))
		if i < 0 {
			return false
		}
		line = line[i+2:]
		if end := bytes.IndexByte(line, ')'); end >= 0 && bytes.IndexByte(line[:end], ' ') >= 0 {
			return true
		}
	}
}

func digitAt(line []byte, i int) bool { return isDigit(line[i]) }

// inBody tells quickly of most bodies that nothing of the kind stands in them. A bullet begins a line, which a body as a whole cannot tell.
func (w *pastedKind) inBody(body []byte) bool {
	if w.once {
		return bytes.IndexByte(body, 0xe2) >= 0 || bytes.IndexByte(body, 0xc2) >= 0
	}
	return w.may(body)
}

func findPastedText(_ *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	report := func(offset int, piece, says, remedy string) {
		list = append(list, pastedText.At(placeOf(a, offset), fmt.Sprintf(says, shorten(strings.TrimSpace(piece))), remedy))
	}
	bullets := false
	likely := make([]int, 0, len(pastedTraces)) // what may stand anywhere in this body
	for i := range pastedTraces {
		if pastedTraces[i].inBody(a.Body) {
			likely = append(likely, i)
		}
	}
	if len(likely) == 0 {
		return nil
	}
	for offset, line := range textLines(a.Body) {
		hit := -1
		for _, i := range likely {
			w := &pastedTraces[i]
			if !w.may(line) || w.once && bullets {
				continue // one is for all of a list
			}
			if m := w.pattern.FindSubmatchIndex(line); m != nil && !insideCode(line, m[2]) && (hit < 0 || m[2] > hit+24) {
				report(offset+m[2], string(line[m[2]:m[3]]), w.says, w.remedy)
				hit, bullets = m[2], bullets || w.once
			}
		}
	}
	return list
}

// textLines goes through the lines of a body that are not in a listing, with their offsets.
func textLines(body []byte) func(yield func(int, []byte) bool) {
	return func(yield func(int, []byte) bool) {
		fence := ""
		offset := 0
		for line := range bytes.Lines(body) {
			start := offset
			offset += len(line)
			trimmed := string(bytes.TrimLeft(line, " >\t"))
			switch {
			case fence != "":
				if strings.HasPrefix(trimmed, fence) {
					fence = ""
				}
				continue
			case strings.HasPrefix(trimmed, "```"):
				fence = "```"
				continue
			case strings.HasPrefix(trimmed, "~~~"):
				fence = "~~~"
				continue
			case bytes.HasPrefix(line, []byte("    ")) || bytes.HasPrefix(line, []byte("\t")):
				if !strings.HasPrefix(trimmed, "-") && !strings.HasPrefix(trimmed, "*") && !strings.HasPrefix(trimmed, "|") {
					continue
				}
			}
			if !yield(start, bytes.TrimRight(line, "\r\n")) {
				return
			}
		}
	}
}

// insideCode tells whether a place in a line stands between back-ticks.
func insideCode(line []byte, at int) bool {
	return bytes.Count(line[:at], []byte("`"))%2 == 1
}
