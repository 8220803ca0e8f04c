package bring

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"golang.org/x/net/html"

	"tankside/builder/expression"
)

// texts mends running text, not listings.
func (b *bringing) texts(body *html.Node) {
	for _, n := range all(body, func(n *html.Node) bool { return n.Type == html.TextNode }) {
		if !inside(n, "pre") && !inside(n, "code") {
			n.Data = b.text(n.Data)
		}
	}
}

const (
	number = `\d+(?:\.\d+)?`
	units  = `(?:°C|°F|K|%(?:\s?[vw]/[vw])?|kHz|Hz|min|minutes|s|h|hours|mL/L|g/L|mg/L|mL|L|kg|g|mg|mm|cm|m|µm|bar|psi|kPa|kW|W|V|A|µS/cm|L/min)`
)

// wrong are signs that another encoding has made of one.
var wrong = strings.NewReplacer("Â°", "°", "Â±", "±", "Âµ", "µ", "Â²", "²", "Â³", "³", "Â ", " ", "Â\u00a0", " ", "â€“", "–", "â€”", "—", "â€œ", `"`, "â€\u009d", `"`, "â€™", "'", "â€¦", "…", "Ã—", "×", "â‰¤", "≤", "â‰¥", "≥")

var (
	unseen     = expression.Of("[\u00ad\u200b\u200c\u200d\u2060\ufeff]")
	narrow     = expression.Of("[\u00a0\u2007\u2009\u200a\u202f]")
	quotes     = strings.NewReplacer("“", `"`, "”", `"`, "„", `"`, "‟", `"`, "‘", "'", "’", "'", "‚", "'", "‛", "'")
	inches     = expression.Of(`(` + number + `)\s?[”″"](?:[\s,.;)]|$)`)
	degrees    = expression.Of(`(\d+(?:\.\d+)?)\s*(?:deg\.?|degs\.?|degrees?|º|˚|⁰|°\s)\s*(C|F|Celsius|Fahrenheit)\b`)
	smallO     = expression.Of(`(\d+(?:\.\d+)?)(?:\s?o|\s0)\s?([CF])\b`)
	oneSign    = strings.NewReplacer("℃", "°C", "℉", "°F")
	loneDegree = expression.Of(`(^|[\s(])deg(?:\.|rees?)?\s?([CF])\b`)
	bareDegree = expression.Of(`\d+(?:\.\d+)?\s*(?:degrees?|deg\.?|°)(?:[^\w°]|\s[^CFcf]|$)`)
	bareLetter = expression.Of(`\d+(?:\.\d+)?\s?C\b`)
	commas     = expression.Of(`(^|[^\d,.])(\d{1,3}),(\d{1,2}|\d{4,})(\s?(?:[–-]\s?\d{1,3},\d{1,2}\s?)?` + units + `)(?:[^\w/]|$)`)
	commaRange = expression.Of(`(^|[^\d,.])(\d{1,3}),(\d{1,2})(\s?[–-]\s?)(\d{1,3}),(\d{1,2})(?:[^\d,]|$)`)
	commaPH    = expression.Of(`(?i)(\bpH\s*(?:of\s+|is\s+|=\s*|at\s+)?\d{1,2}),(\d{1,2})\b`)
	zeroComma  = expression.Of(`(^|[^\d,.])0,(\d{3,4})(\s?` + units + `)\b`)
	thousands  = expression.Of(`(?:^|[^\d,.])([1-9]\d{0,2},\d{3})(?:[^\d,]|$)`)
	bareComma  = expression.Of(`(?:^|[^\d,.])(\d{1,3},\d{1,2})(?:[^\d,.]|$)`)
	twiceUnit  = expression.Of(`(` + number + `)\s?(` + units + `)\s?(?:[-–—]|to)\s?(` + number + `)\s?(` + units + `)(?:[^\w/]|$)`)
	plusMinus  = expression.Of(`(` + number + `)\s?(` + units + `)?\s?(?:±|\+/-|\+/−|\+-)\s?(` + number + `)(?:\s?(` + units + `))?(?:([^\w/%°.])|\.\s|\.?$)`)
	loosePer   = expression.Of(`(` + number + `(?:\s?–\s?` + number + `)?)\s?%(\s*(?:[vw]/[vw]|RH|r\.\s?h\.|relative))?`)
	lostLink   = expression.Of(`Error! (?:Reference source not found|Bookmark not defined|Hyperlink reference not valid)\.?`)
	ownFont    = expression.Of("[\ue000-\uf8ff]")
)

// text mends a piece of text. What could be meant in two ways stays as it is, and is said.
func (b *bringing) text(s string) string {
	if now := wrong.Replace(s); now != s {
		b.add(Changed, "Letters of a wrong encoding: “%s” is “%s”.", short(s), short(now))
		s = now
	}
	s = b.all(s, unseen, "", "Signs that nobody sees, such as soft hyphens, are gone.")
	s = b.all(s, narrow, " ", "Blanks at which no line breaks are plain blanks.")
	for _, m := range inches.FindAllStringSubmatch(s, -1) {
		if strings.Contains(m[0], "”") || strings.Contains(m[0], "″") {
			b.add(Left, "“%s”: inches, or the end of a quotation? Write in for inches.", short(m[0]))
		}
	}
	if now := quotes.Replace(s); now != s {
		b.add(Changed, "Curved quotation marks are plain ones.")
		s = now
	}
	s = b.each(s, lostLink, func(m []string) (string, What, string) {
		return "", Dropped, "“" + m[0] + "”, which is what is left of a reference"
	})
	s = oneSign.Replace(s)
	degree := func(m []string) (string, What, string) {
		return m[1] + " °" + m[2][:1], Changed, ""
	}
	s = b.each(s, degrees, degree)
	s = b.each(s, smallO, degree)
	s = b.each(s, loneDegree, func(m []string) (string, What, string) { return m[1] + "°" + m[2], Changed, "" })
	for _, m := range bareDegree.FindAllString(s, -1) {
		b.add(Left, "“%s” does not say degrees of what: °C or °F.", short(m))
	}
	for _, m := range bareLetter.FindAllString(s, -1) {
		b.add(Left, "“%s”: if degrees are meant, write °C.", short(m))
	}
	s = b.commas(s)
	s = b.each(s, twiceUnit, func(m []string) (string, What, string) {
		if strings.ReplaceAll(m[2], " ", "") != strings.ReplaceAll(m[4], " ", "") {
			return m[0], Left, "“" + short(m[0]) + "” has two units"
		}
		return m[1] + "–" + m[3] + " " + m[2] + m[0][strings.LastIndex(m[0], m[4])+len(m[4]):], Changed, ""
	})
	s = b.each(s, plusMinus, tolerance)
	for _, m := range loosePer.FindAllStringSubmatch(s, -1) {
		if m[2] == "" {
			b.add(Left, "“%s” does not say per cent of what; where it is a strength, write v/v or w/w.", short(m[0]))
		}
	}
	for _, m := range ownFont.FindAllString(s, -1) {
		if !bulletSign.MatchString(m) {
			b.add(Left, "A sign of one font alone, U+%04X: write the one that was meant.", []rune(m)[0])
		}
	}
	return s
}

// commas writes decimal points where a comma can be nothing else, and says where it can.
func (b *bringing) commas(s string) string {
	s = b.each(s, commaPH, func(m []string) (string, What, string) { return m[1] + "." + m[2], Changed, "" })
	s = b.each(s, zeroComma, func(m []string) (string, What, string) { return m[1] + "0." + m[2] + m[3], Changed, "" })
	s = b.each(s, commaRange, func(m []string) (string, What, string) {
		return strings.NewReplacer(m[2]+","+m[3], m[2]+"."+m[3], m[5]+","+m[6], m[5]+"."+m[6]).Replace(m[0]), Changed, ""
	})
	s = b.each(s, commas, func(m []string) (string, What, string) {
		return strings.Replace(m[0], m[2]+","+m[3], m[2]+"."+m[3], 1), Changed, ""
	})
	for _, m := range thousands.FindAllStringSubmatch(s, -1) {
		b.add(Left, "“%s”: a decimal comma, or a comma between thousands? Write a decimal point, or no comma.", m[1])
	}
	for _, m := range bareComma.FindAllStringSubmatch(s, -1) {
		b.add(Left, "“%s”: one number with a decimal comma, or two? Write a decimal point, or a blank behind the comma.", m[1])
	}
	return s
}

// all replaces every match, and says so once.
func (b *bringing) all(s string, what *expression.Expression, with, says string) string {
	now := what.ReplaceAllString(s, with)
	if now != s {
		b.add(Changed, "%s", says)
	}
	return now
}

// each replaces each match and says what it was and is. says is a sentence of its own, or "".
func (b *bringing) each(s string, what *expression.Expression, with func(m []string) (now string, did What, says string)) string {
	return what.ReplaceAllStringFunc(s, func(piece string) string {
		m := what.FindStringSubmatch(piece)
		if m == nil { // what stands behind it decides, and is not in the piece
			return piece
		}
		now, did, says := with(m)
		switch {
		case says != "":
			b.add(did, "%s.", says)
		case now != piece:
			b.add(did, "“%s” is “%s”.", short(piece), short(now))
		}
		return now
	})
}

// tolerance makes a range of a number with what it may be off by, of one unit.
func tolerance(m []string) (string, What, string) {
	unit := m[2]
	if unit == "" {
		unit = m[4]
	}
	rest := ""
	if i := strings.LastIndex(m[0], m[3]); i >= 0 {
		rest = strings.TrimPrefix(strings.TrimLeft(m[0][i+len(m[3]):], " "), m[4])
	}
	switch {
	case unit == "":
		return m[0], Left, "“" + short(m[0]) + "” has no unit, and is no range that is compared with anything"
	case m[2] != "" && m[4] != "" && m[2] != m[4]:
		return m[0], Left, "“" + short(m[0]) + "” is off by another unit; write the range from least to most"
	case strings.HasPrefix(unit, "%"):
		return m[0], Left, "“" + short(m[0]) + "”: per cent of the whole, or of the value? Write the range from least to most"
	}
	middle, err1 := strconv.ParseFloat(m[1], 64)
	off, err2 := strconv.ParseFloat(m[3], 64)
	if err1 != nil || err2 != nil || middle > 1e12 || off > 1e12 {
		return m[0], Left, "“" + short(m[0]) + "” is no range that can be worked out"
	}
	places := max(decimals(m[1]), decimals(m[3]))
	low, high := middle-off, middle+off
	if low < 0 && !strings.HasPrefix(unit, "°") {
		return m[0], Left, "“" + short(m[0]) + "” would begin below nothing"
	}
	now := fmt.Sprintf("%s–%s %s", plainly(low, places), plainly(high, places), unit)
	if low < 0 {
		now = fmt.Sprintf("%s to %s %s", plainly(low, places), plainly(high, places), unit)
	}
	return now + rest, Changed, ""
}

func plainly(n float64, places int) string {
	return strings.Replace(strconv.FormatFloat(math.Round(n*math.Pow10(places))/math.Pow10(places), 'f', places, 64), "-", "−", 1)
}

func decimals(text string) int {
	_, after, _ := strings.Cut(text, ".")
	return min(len(after), 6)
}
