package page

import (
	"html"
	"html/template"
	"strconv"
	"strings"
	"unicode/utf8"

	"tankside/builder/manual"
	"tankside/builder/tree"
)

// The drawn overview of a tree, in units of the drawing. A box takes four lines of about twenty letters, the gap above it an answer in two.
var overviewMeasure = tree.Measure{BoxWidth: 168, BoxHeight: 86, GapX: 16, GapY: 62}

const (
	overviewEdge    = 3.0 // room for the frames
	overviewLetters = 21
	overviewLines   = 4

	answerLetters = 24 // a line of an answer above its box
	answerLines   = 2
	mostAnswers   = 4 // lines that the gap above a box takes
	answerHeight  = 14.0
)

// overview draws the whole tree of a symptom; each box is a link to its step. The numbered steps of the page say the same in words.
func (b *body) overview(a *manual.Article) template.HTML {
	t, _ := tree.Of(a)
	d := t.Draw(overviewMeasure)
	if len(d.Boxes) < 2 {
		return ""
	}
	m := overviewMeasure
	var w strings.Builder
	width, height := number(d.Width+2*overviewEdge), number(d.Height+2*overviewEdge)
	w.WriteString(`<svg viewBox="-` + number(overviewEdge) + " -" + number(overviewEdge) + " " + width + " " + height + `" width="` + width + `" height="` + height + `" role="group" aria-label="` + html.EscapeString(b.s.words.say("The whole tree, drawn")) + `">` + "\n")
	for _, l := range d.Lines {
		w.WriteString(`<path class="way" data-from="` + boxName(d.Boxes[l.From]) + `" data-to="` + boxName(d.Boxes[l.To]) + `" d="` + way(l.Points) + `"/>` + "\n")
	}
	for _, box := range d.Boxes {
		b.overviewBox(&w, box, m)
	}
	for i := range d.Boxes {
		overviewAnswers(&w, d, i)
	}
	w.WriteString("</svg>")
	return template.HTML(w.String()) // every text in it is escaped above
}

// overviewAnswers writes above a box the answers that lead to it: one in two lines, several in one each, behind the number of their step. It is for the eye:
// who hears the page has the answers in the list of steps.
func overviewAnswers(w *strings.Builder, d tree.Drawing, box int) {
	var said []string
	from := []string{}
	for _, l := range d.Lines {
		if l.To != box {
			continue
		}
		var answers []string
		for _, a := range d.Boxes[l.From].Node.Answers {
			to := d.Boxes[box]
			if to.Node != nil && a.To == to.Node || to.Node == nil && a.To == nil && a.Link.Target == to.Answer.Link.Target {
				answers = append(answers, a.Text)
			}
		}
		said = append(said, strings.Join(answers, " / "))
		from = append(from, strconv.Itoa(d.Boxes[l.From].Node.Number))
	}
	lines := said
	switch {
	case len(said) == 0:
		return
	case len(said) == 1:
		lines = broken(said[0], answerLetters, answerLines)
	default:
		for i, text := range said {
			lines[i] = broken(from[i]+": "+text, answerLetters, 1)[0]
		}
		if len(lines) > mostAnswers {
			lines = append(lines[:mostAnswers-1:mostAnswers-1], "…")
		}
	}
	x := d.Boxes[box].X + overviewMeasure.BoxWidth/2
	y := d.Boxes[box].Y - 8 - answerHeight*float64(len(lines)-1)
	w.WriteString(`<text class="says" aria-hidden="true">`)
	for i, line := range lines {
		w.WriteString(`<tspan x="` + number(x) + `" y="` + number(y+answerHeight*float64(i)) + `">` + html.EscapeString(line) + `</tspan>`)
	}
	w.WriteString("</text>\n")
}

func boxName(box tree.Box) string {
	if box.Node == nil {
		return ""
	}
	return html.EscapeString(box.Node.Section.Anchor)
}

// overviewBox writes one box: a question in a plain frame, a remedy in a heavy one, another article in a broken one.
func (b *body) overviewBox(w *strings.Builder, box tree.Box, m tree.Measure) {
	class, href, text, key := "asks", "", "", ""
	language := ""
	switch {
	case box.Node == nil:
		to, ok := b.leads(box.Answer.Link.Target)
		if !ok {
			return // reported by the rules
		}
		class, href, text = "elsewhere", to.href, "→ "+box.Answer.Link.Text
		if to.language != "" {
			language = ` hreflang="` + html.EscapeString(to.language) + `"`
		}
	case box.Node.Remedy:
		class = "mends"
	}
	if n := box.Node; n != nil {
		href, text = "#"+b.s.anchor(n.Section.Anchor), strconv.Itoa(n.Number)+" "+n.Section.Heading
		key = ` data-step="` + html.EscapeString(n.Section.Anchor) + `"`
	}
	w.WriteString(`<a class="` + class + `" href="` + html.EscapeString(href) + `"` + language + key + `><rect x="` + number(box.X) + `" y="` + number(box.Y) + `" width="` + number(m.BoxWidth) + `" height="` + number(m.BoxHeight) + `"/><text>`)
	lines := broken(text, overviewLetters, overviewLines)
	const lineHeight = 18.0
	y := box.Y + m.BoxHeight/2 - lineHeight*float64(len(lines)-1)/2 + 5
	for i, line := range lines {
		if i > 0 {
			w.WriteByte(' ') // for those who hear it
		}
		w.WriteString(`<tspan x="` + number(box.X+m.BoxWidth/2) + `" y="` + number(y+lineHeight*float64(i)) + `">` + html.EscapeString(line) + `</tspan>`)
	}
	w.WriteString("</text></a>\n")
}

// way is the path of a line: straight down past the boxes of a layer, bent between layers.
func way(points []tree.Point) string {
	var w strings.Builder
	for i, p := range points {
		switch {
		case i == 0:
			w.WriteString("M" + number(p.X) + " " + number(p.Y))
		case i%2 == 1: // from one layer to the next
			before := points[i-1]
			middle := number((before.Y + p.Y) / 2)
			w.WriteString("C" + number(before.X) + " " + middle + " " + number(p.X) + " " + middle + " " + number(p.X) + " " + number(p.Y))
		default:
			w.WriteString("L" + number(p.X) + " " + number(p.Y))
		}
	}
	return w.String()
}

func number(v float64) string {
	return strings.TrimSuffix(strconv.FormatFloat(v, 'f', 1, 64), ".0")
}

// broken breaks a text at blanks into lines of at most so many letters; what does not fit into the last line is cut with an ellipsis.
func broken(text string, letters, lines int) []string {
	var list []string
	line := ""
	for _, word := range strings.Fields(text) {
		switch {
		case line == "":
			line = word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) <= letters:
			line += " " + word
		default:
			list = append(list, line)
			line = word
		}
	}
	list = append(list, line)
	if len(list) > lines {
		list = list[:lines]
		list[lines-1] += " …"
	}
	for i, l := range list {
		if r := []rune(l); len(r) > letters+2 {
			list[i] = string(r[:letters]) + "…"
		}
	}
	return list
}
