package page

import (
	"bytes"
	"html/template"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// A walk shows one step at a time, on a phone's screen: the gate of safety, the question, the first sentence of how to look, the answers. All
// else that the article says is there as well, folded.

// screen is the text of a step, taken apart.
type screen struct {
	Safety template.HTML // messages, never folded
	Look   template.HTML // the first sentence, as a line of text; empty where the text does not begin with one
	Linked bool          // there is a link in it, so that it can't be folded out by touching it
	More   template.HTML // what follows it
	Sums   template.HTML // calculators
}

// gate is what is said before the first step of a walk.
type gate struct {
	Stops []stopLine    // first sentences: of every DANGER, or else of the gravest message
	First template.HTML // the paragraphs that open in bold: “First.”
	More  bool          // the messages say more than that
}

// stopLine is the first sentence of a safety message.
type stopLine struct {
	Word, Class string
	Says        template.HTML
}

// stop takes the first sentence of a safety message into the gate. Only dangers stand beside one another: of the others the gravest counts.
func (b *body) stop(m *safetyMessage) error {
	line := stopLine{Word: m.word, Class: strings.ToLower(m.means)}
	var says bytes.Buffer
	p, ok := m.FirstChild().(*ast.Paragraph)
	if !ok {
		return nil
	}
	rest := split(p, b.source)
	for _, mark := range marks(p) { // the message in full has them
		mark.numbers = nil
	}
	if err := b.inline(&says, p); err != nil {
		return err
	}
	line.Says = template.HTML(says.String())
	g := &b.gate
	rank := func(class string) int { return slices.Index(manual.SignalWords, strings.ToUpper(class)) }
	switch {
	case len(g.Stops) == 0:
		g.Stops = append(g.Stops, line)
	case line.Class == "danger" && g.Stops[0].Class == "danger":
		g.Stops = append(g.Stops, line)
	case rank(line.Class) < rank(g.Stops[0].Class):
		g.Stops, g.More = []stopLine{line}, true
	default:
		g.More = true
	}
	g.More = g.More || rest != nil || m.ChildCount() > 1
	return nil
}

// place puts a block of a walk, which is written as html, where the screen has it.
func (b *body) place(p *part, n ast.Node, html template.HTML) error {
	if p.section == nil {
		if opensBold(n) {
			b.gate.First += html
		} else {
			p.screen.More += html
		}
		return nil
	}
	st := &p.screen
	_, message := n.(*safetyMessage)
	block, is := n.(*ready)
	sum := is && block.sum
	question := len(p.section.Answers) > 0
	switch {
	case message:
		st.Safety += html
	case sum:
		st.Sums += html
	case !question: // a remedy is read from end to end
		st.More += html
	case st.Look == "" && st.More == "" && n.Kind() == ast.KindParagraph:
		rest := split(n, b.source)
		for _, mark := range marks(n) {
			mark.links = false
		}
		st.Linked = links(n)
		var look, more bytes.Buffer
		if err := b.inline(&look, n); err != nil {
			return err
		}
		st.Look = template.HTML(look.String())
		if rest != nil {
			if err := b.s.renderer.Render(&more, b.source, rest); err != nil {
				return err
			}
			st.More += template.HTML(more.String())
		}
	default:
		st.More += html
	}
	return nil
}

// opensBold tells whether a block is a paragraph that opens with bold words, such as “First.” or “First aid.”.
func opensBold(n ast.Node) bool {
	if n.Kind() != ast.KindParagraph {
		return false
	}
	e, ok := n.FirstChild().(*ast.Emphasis)
	return ok && e.Level == 2
}

// inline writes what stands in a block, without the block.
func (b *body) inline(w *bytes.Buffer, block ast.Node) error {
	for c := block.FirstChild(); c != nil; c = c.NextSibling() {
		if err := b.s.renderer.Render(w, b.source, c); err != nil {
			return err
		}
	}
	return nil
}

// links tells whether there is a link in a block.
func links(n ast.Node) bool {
	found := false
	_ = ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) { // which fails only where the function does
		found = found || n.Kind() == ast.KindLink || n.Kind() == kindForeign || n.Kind() == ast.KindAutoLink
		return ast.WalkContinue, nil
	})
	return found
}

// marks lists the numbers of sources in a block.
func marks(n ast.Node) []*restsOn {
	var list []*restsOn
	_ = ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) { // which fails only where the function does
		if mark, is := n.(*restsOn); is && entering {
			list = append(list, mark)
		}
		return ast.WalkContinue, nil
	})
	return list
}

// split leaves the first sentence in a paragraph and gives a paragraph with the rest, or nil where there is none. A sentence that ends within
// bold words, a link or code ends behind them for this purpose.
func split(p ast.Node, source []byte) *ast.Paragraph {
	for c := p.FirstChild(); c != nil; c = c.NextSibling() {
		t, ok := c.(*ast.Text)
		if !ok || t.IsRaw() {
			continue
		}
		text := string(t.Segment.Value(source))
		at := sentence.First(text)
		if at < 0 || at == len(text) && c.NextSibling() == nil {
			continue
		}
		rest := ast.NewParagraph()
		if at < len(text) {
			left := t.Segment.WithStart(t.Segment.Start + at)
			tail := ast.NewTextSegment(left.TrimLeftSpace(source))
			tail.SetSoftLineBreak(t.SoftLineBreak())
			tail.SetHardLineBreak(t.HardLineBreak())
			t.Segment = t.Segment.WithStop(t.Segment.Start + at)
			rest.AppendChild(rest, tail)
		}
		t.SetSoftLineBreak(false)
		t.SetHardLineBreak(false)
		for next := c.NextSibling(); next != nil; {
			following := next.NextSibling()
			rest.AppendChild(rest, next)
			next = following
		}
		if rest.ChildCount() == 0 {
			return nil
		}
		return rest
	}
	return nil
}
