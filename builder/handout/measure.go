package handout

import (
	"math"
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/inboth"
	"tankside/builder/quantity"
)

// Sizes in em of the side's letters. The styles (themes/styles/94-handouts.css) have the same numbers.
const (
	lineHeight  = 1.22
	metreEm     = 2.6667 // 24 of 9 points, and more of 10
	metreHeight = 1.1
	paragraph   = 0.25 // below a paragraph
	headingRoom = 0.35 // above a heading
	edge        = 0.7  // left and right of a message
	writing     = 2.5  // the height of a line to write on: 8 mm at 9 points
	boxWidth    = 1.6
)

// em is the size of a format's letters in mm: a point is 25.4 ÷ 72 mm.
func (f *Format) em() float64 { return f.Points * 25.4 / 72 }

// run is a stretch of text in one font.
type run struct {
	text Text
	font *widths
}

// lines is how many lines runs take one behind the other in a width, in em of their letters, as either family of units has them. Words are not parted; one that is wider
// than the line takes as many as it fills.
func lines(width float64, runs ...run) int {
	n := 0
	for _, in := range []quantity.System{quantity.SI, quantity.US} {
		w := wrapping{width: width}
		for _, r := range runs {
			w.put(r.text.shown(in), r.font)
		}
		n = max(n, w.end())
	}
	return n
}

// shown is what a reader of a family sees of a text: where it is the same for both, with that family's amounts put before the others, as pages do it.
func (t Text) shown(in quantity.System) string {
	if t.SI != t.US || !strings.ContainsAny(t.SI, "0123456789") {
		return t.In(in)
	}
	return inboth.Text(t.SI, in)
}

// wrap is lines of a text that is the same for all readers.
func wrap(text string, font *widths, width float64) int { return lines(width, run{Plain(text), font}) }

// wrapping puts words into lines.
type wrapping struct {
	width       float64
	full        int     // lines that are full
	at          float64 // how far the last line reaches
	word, blank float64 // the word that is not at its end, and the blank before it
	some        bool    // something stands in the last line
}

func (w *wrapping) put(text string, font *widths) {
	for _, r := range text {
		switch r {
		case ' ', '\t':
			w.endWord()
			w.blank = font.of(' ')
		case '\n':
			w.endWord()
			if w.some {
				w.full, w.at, w.some = w.full+1, 0, false
			}
		default:
			w.word += font.of(r)
		}
	}
}

func (w *wrapping) endWord() {
	if w.word == 0 {
		return
	}
	switch {
	case !w.some && w.word <= w.width:
		w.at = w.word
	case w.some && w.at+w.blank+w.word <= w.width:
		w.at += w.blank + w.word
	case w.word <= w.width:
		w.full, w.at = w.full+1, w.word
	default: // it breaks anywhere
		if w.some {
			w.full++
		}
		more := math.Ceil(w.word/w.width) - 1
		w.full += int(more)
		w.at = w.word - more*w.width
	}
	w.word, w.blank, w.some = 0, 0, true
}

// end gives the number of lines.
func (w *wrapping) end() int {
	w.endWord()
	if w.some {
		return w.full + 1
	}
	return w.full
}

// Side is how many rows of a block stand side by side.
func (b *Block) Side() int {
	switch {
	case b.Across > 0:
		return b.Across
	case b.Sort == Checks || b.Sort == Steps:
		return 1
	}
	return 2
}

// gap is between what stands side by side, in em.
const gap = 1.2

// room is the height that a block takes, in em.
func (b *Block) room(f *Format) float64 {
	width := f.Width / f.em()
	switch b.Sort {
	case Heading:
		return headingRoom + lineHeight*1.1*float64(wrap(b.Mark+" "+b.Head, &bold, width/1.1)) + 0.1
	case Words:
		return lineHeight*float64(lines(width, run{Plain(ended(b.Head, b.Text)), &bold}, run{b.Text, &regular})) + paragraph
	case Large:
		h := 0.0
		for _, r := range b.Rows {
			part := 0.6
			if r.Name == "" {
				part = 1
			}
			h += max(metreEm*metreHeight*float64(lines(part*width/metreEm, run{r.Value, &bold})), lineHeight*float64(wrap(r.Name, &bold, 0.4*width-gap))) + 0.2
		}
		return h + paragraph
	case Message:
		size := f.signal(b.Head)
		h := size*metreHeight*float64(wrap("MM"+b.Head, &bold, (width-2*edge)/size)) + 0.2
		for _, r := range b.Rows {
			h += lineHeight*float64(lines(width-2*edge-2*frames[b.Head], run{r.Value, &regular})) + 0.15
		}
		return h + 0.75 + 2*frames[b.Head]
	case Run:
		var runs []run
		for i, r := range b.Rows {
			if i > 0 {
				runs = append(runs, run{Plain(" · "), b.font()})
			}
			if r.Name != "" {
				runs = append(runs, run{Plain(ended(r.Name, r.Value)), &regular}, run{r.Value, &bold})
				continue
			}
			runs = append(runs, run{r.Value, b.font()})
		}
		return lineHeight*float64(lines(width, runs...)) + paragraph
	case List:
		return b.columns(width)
	case Checks, Steps, Facts, Blanks:
		return b.beside(width)
	case Grid:
		return b.grid(width)
	case Control:
		return controlLines * lineHeight
	case Ruled:
		return writing * float64(b.Lines)
	}
	return 0
}

// frames are the widths of the frames of messages, in em.
var frames = map[string]float64{"DANGER": 0.5, "WARNING": 0.3, "CAUTION": 0.15, "NOTICE": 0.15}

// signal is the size of a signal word, in em: those of what kills or injures are read at a metre where a sheet hangs.
func (f *Format) signal(word string) float64 {
	switch word {
	case "DANGER", "WARNING":
		return f.Signal
	}
	return lesserSignal
}

const lesserSignal = 1.5

// ended is a bold opening with what parts it from the text.
func ended(head string, text Text) string {
	if head == "" || text.empty() {
		return head
	}
	return head + ": "
}

// columns is the height of a list in two columns that are about equal: half of all and half of the largest item.
func (b *Block) columns(width float64) float64 {
	all, most := 0, 0
	for _, r := range b.Rows {
		n := lines((width-gap)/2-indent, run{r.Value, b.font()})
		all, most = all+n, max(most, n)
	}
	return lineHeight*math.Ceil(float64(all+most)/2) + paragraph
}

// indent is how far the further lines of an item are moved in.
const indent = 0.8

// beside adds up the heights of rows that stand side by side: of each line the tallest.
func (b *Block) beside(width float64) float64 {
	n := b.Side()
	w := (width - gap*float64(n-1)) / float64(n)
	h := 0.0
	for i := 0; i < len(b.Rows); i += n {
		tallest := 0.0
		for _, r := range b.Rows[i:min(i+n, len(b.Rows))] {
			tallest = max(tallest, b.row(&r, w))
		}
		h += tallest
	}
	return h + paragraph
}

// row is the height of a row in a width.
func (b *Block) row(r *Row, width float64) float64 {
	switch b.Sort {
	case Facts:
		return lineHeight*float64(lines(width, run{Plain(ended(r.Name, r.Value)), &regular}, run{r.Value, &bold})) + 0.25
	case Blanks:
		return max(writing, lineHeight*float64(wrap(r.Name+":", &regular, width-leastBlank)))
	}
	return lineHeight*float64(lines(width-boxWidth, run{Plain(ended(r.Name, r.Value)), &regular}, run{r.Value, &regular})) + 0.15
}

// leastBlank is the least room to write in behind a word.
const leastBlank = 3.5

const cellEdge = 0.3 // left and right of what stands in a cell

func (b *Block) grid(width float64) float64 {
	all := 0.0
	for _, c := range b.Columns {
		all += c.Share
	}
	head, limit := 0, 0
	wide := make([]float64, len(b.Columns))
	for i, c := range b.Columns {
		wide[i] = width*c.Share/all - 2*cellEdge - 0.1
		head, limit = max(head, wrap(c.Head, &bold, wide[i])), max(limit, lines(wide[i], run{c.Limit, &regular}))
	}
	h := lineHeight*float64(head+limit) + 0.5
	for _, r := range b.Rows {
		tallest := 0
		for i, cell := range r.Cells {
			tallest = max(tallest, lines(wide[i], run{cell, &regular}))
		}
		h += max(lineHeight*float64(tallest)+0.4, b.least())
	}
	return h + float64(b.Lines)*b.least() + paragraph
}

// least is the height of a row to write in.
func (b *Block) least() float64 {
	if b.Lines == 0 {
		return 0
	}
	return writing * 0.84 // 6.7 mm at 9 points
}

// font is the one that a block's rows are set in.
func (b *Block) font() *widths {
	if b.Class == string(admit.No) {
		return &bold
	}
	return &regular
}

// Room is the height that the blocks of a side take, in mm.
func (s *Side) Room(f *Format) float64 {
	h, _ := taken(s.Blocks, f)
	return h * f.em()
}
