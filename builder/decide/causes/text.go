package causes

import (
	"errors"
	"math"
	"strconv"
	"strings"
)

// The text form in which a page hands over a model and looks, and gets an answer: lines of fields, parted by tabs.
//
//	o  minutes                        an observation
//	c  weight  hurts  index:p  …      a cause; hurts is 1 or 0
//
// Minutes are decimal, of at most fifteen figures, which suits those of a look. Weight and p are the sixteen hexadecimal digits of an IEEE 754 double: nothing is lost by them, and
// reading decimal numbers of any length would make the page's module 10 kB larger.
//
// A question is the model, an empty line, and a line with one letter for each observation: s seen, n not seen, - not looked for.
//
//	s  probability  rest  part  …       a set, likeliest first; a part is cause:explains:missed, lists have commas, and rest is the list of what no cause shows
//	h  probability  rest  part  …       the set of a cause that can hurt
//	a  causes                           those that can hurt and are in no set
//	e  probability                      something else
//	n  index  bits  causes  causes      a look to take next, best first, with the first set if it is seen and if it is not
//
// Names stay in the page, which has them anyway.

var errText = errors.New("causes: the text is not a model and looks")

// Text writes the model. Probabilities and weights are written so that they are read back exactly.
func (m *Model) Text() string {
	var b strings.Builder
	for _, o := range m.Observations {
		b.WriteString("o\t" + digits(o.Minutes) + "\n")
	}
	for _, c := range m.Causes {
		hurts := "0"
		if c.Hurts {
			hurts = "1"
		}
		b.WriteString("c\t" + bits(c.Weight) + "\t" + hurts)
		for _, s := range c.Signs {
			b.WriteString("\t" + strconv.Itoa(s.Observation) + ":" + bits(s.P))
		}
		b.WriteByte('\n')
	}
	return b.String()
}

func digits(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// Reply answers a question: the model's text, an empty line, the looks.
func Reply(question string) (string, error) {
	model, looksText, found := strings.Cut(question, "\n\n")
	if !found {
		return "", errText
	}
	m, err := read(model)
	if err != nil {
		return "", err
	}
	var looks []Look
	for _, c := range strings.TrimSpace(looksText) {
		i := strings.IndexRune("-sn", c)
		if i < 0 || len(looks) == len(m.Observations) {
			return "", errText
		}
		looks = append(looks, Look(i))
	}
	answer := m.Explain(looks)
	return answer.Text(), nil
}

// Text writes the answer.
func (a *Answer) Text() string {
	var b strings.Builder
	writeSets(&b, "s\t", a.Sets)
	writeSets(&b, "h\t", a.Hurting)
	b.WriteString("a\t" + list(a.Apart) + "\ne\t" + digits(a.Else) + "\n")
	for i := range a.Next {
		n := &a.Next[i]
		b.WriteString("n\t" + strconv.Itoa(n.Observation) + "\t" + digits(n.Bits) + "\t" + list(n.IfSeen) + "\t" + list(n.IfNotSeen) + "\n")
	}
	return b.String()
}

func writeSets(b *strings.Builder, kind string, sets []Set) {
	for i := range sets {
		t := &sets[i]
		b.WriteString(kind + digits(t.Probability) + "\t" + list(t.Rest))
		for j := range t.Parts {
			p := &t.Parts[j]
			b.WriteString("\t" + strconv.Itoa(p.Cause) + ":" + list(p.Explains) + ":" + list(p.Missed))
		}
		b.WriteByte('\n')
	}
}

func list(numbers []int) string {
	text := ""
	for i, n := range numbers {
		if i > 0 {
			text += ","
		}
		text += strconv.Itoa(n)
	}
	return text
}

// read reads a model.
func read(text string) (*Model, error) {
	m := &Model{}
	for line := range strings.SplitSeq(text, "\n") {
		fields := strings.Split(line, "\t")
		switch {
		case len(fields) == 2 && fields[0] == "o":
			minutes, ok := decimal(fields[1])
			if !ok || minutes <= 0 {
				return nil, errText
			}
			m.Observations = append(m.Observations, Observation{Minutes: minutes})
		case len(fields) >= 3 && fields[0] == "c":
			weight, ok := fromBits(fields[1])
			c := Cause{Weight: weight, Hurts: fields[2] == "1"}
			if !ok || weight <= 0 || !c.readSigns(fields[3:], len(m.Observations)) {
				return nil, errText
			}
			m.Causes = append(m.Causes, c)
		default:
			return nil, errText
		}
	}
	return m, nil
}

func (c *Cause) readSigns(fields []string, observations int) bool {
	named := make([]bool, observations)
	for _, f := range fields {
		index, p, found := strings.Cut(f, ":")
		at, is := decimal(index)
		v, ok := fromBits(p)
		i := int(at)
		if !found || !is || !ok || float64(i) != at || i >= observations || named[i] || v <= 0 || v >= 1 {
			return false
		}
		named[i] = true
		c.Signs = append(c.Signs, Sign{i, v})
	}
	return true
}

const hexadecimal = "0123456789abcdef"

func bits(v float64) string {
	var text [16]byte
	for i, b := 15, math.Float64bits(v); i >= 0; i, b = i-1, b>>4 {
		text[i] = hexadecimal[b&15]
	}
	return string(text[:])
}

func fromBits(text string) (float64, bool) {
	var b uint64
	for i := range len(text) {
		digit := strings.IndexByte(hexadecimal, text[i])
		if digit < 0 {
			return 0, false
		}
		b = b<<4 | uint64(digit)
	}
	v := math.Float64frombits(b)
	return v, len(text) == 16 && !math.IsInf(v, 0) && !math.IsNaN(v)
}

// decimal reads a number of at most fifteen figures, which a double holds exactly before its point is set: so the quotient is the nearest double.
func decimal(text string) (float64, bool) {
	whole, fraction, point := strings.Cut(text, ".")
	figures := whole + fraction
	if whole == "" || point && fraction == "" || len(figures) > 15 {
		return 0, false
	}
	v, scale := 0., 1.
	for i := range len(figures) {
		if figures[i] < '0' || figures[i] > '9' {
			return 0, false
		}
		v = 10*v + float64(figures[i]-'0')
	}
	for range fraction {
		scale *= 10
	}
	return v / scale, true
}
