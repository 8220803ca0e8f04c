package page

import (
	"fmt"
	"html"
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	ghtml "github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/util"

	"tankside/builder/manual"
)

// Nodes that the page puts into an article's syntax tree before it is rendered.

// ready is a block of finished HTML: a calculator or a listing.
type ready struct {
	ast.BaseBlock
	html string
	sum  bool // a calculator
}

var kindReady = ast.NewNodeKind("Ready")

func (*ready) Kind() ast.NodeKind              { return kindReady }
func (n *ready) Dump(source []byte, level int) { ast.DumpHelper(n, source, level, nil, nil) }

// safetyMessage is a message with a signal word of ANSI Z535.6.
type safetyMessage struct {
	ast.BaseBlock
	word  string // as it is written
	means string // the word of the standard
}

var kindSafety = ast.NewNodeKind("SafetyMessage")

func (*safetyMessage) Kind() ast.NodeKind              { return kindSafety }
func (n *safetyMessage) Dump(source []byte, level int) { ast.DumpHelper(n, source, level, nil, nil) }

// wideTable is a table that scrolls inside itself where the page is narrower.
type wideTable struct {
	ast.BaseBlock
	label string
}

var kindWide = ast.NewNodeKind("WideTable")

func (*wideTable) Kind() ast.NodeKind              { return kindWide }
func (n *wideTable) Dump(source []byte, level int) { ast.DumpHelper(n, source, level, nil, nil) }

// foreignLink is a link to a page in another language. The library's own link cannot say which.
type foreignLink struct {
	ast.BaseInline
	href, language string
}

var kindForeign = ast.NewNodeKind("ForeignLink")

func (*foreignLink) Kind() ast.NodeKind              { return kindForeign }
func (n *foreignLink) Dump(source []byte, level int) { ast.DumpHelper(n, source, level, nil, nil) }

// sectionNumber tells on paper to which section the link before it leads.
type sectionNumber struct {
	ast.BaseInline
	text string
}

var kindSectionNumber = ast.NewNodeKind("SectionNumber")

func (*sectionNumber) Kind() ast.NodeKind              { return kindSectionNumber }
func (n *sectionNumber) Dump(source []byte, level int) { ast.DumpHelper(n, source, level, nil, nil) }

// restsOn are the numbers of the sources on which what stands before them rests.
type restsOn struct {
	ast.BaseInline
	numbers []int
	said    string // the word for a source
	links   bool
}

var kindRestsOn = ast.NewNodeKind("RestsOn")

func (*restsOn) Kind() ast.NodeKind              { return kindRestsOn }
func (n *restsOn) Dump(source []byte, level int) { ast.DumpHelper(n, source, level, nil, nil) }

// corner is a head cell of a table with nothing in it.
type corner struct{ ast.BaseBlock }

var kindCorner = ast.NewNodeKind("Corner")

func (*corner) Kind() ast.NodeKind              { return kindCorner }
func (n *corner) Dump(source []byte, level int) { ast.DumpHelper(n, source, level, nil, nil) }

// articleRenderer writes the nodes above, and the ones of the library that the manual wants otherwise.
type articleRenderer struct {
	plain ghtml.Config
}

// newRenderer makes the renderer of article texts. It leaves out raw HTML.
func newRenderer() renderer.Renderer {
	return renderer.NewRenderer(renderer.WithNodeRenderers(
		util.Prioritized(&articleRenderer{ghtml.NewConfig()}, 100),
		util.Prioritized(extension.NewTableHTMLRenderer(extension.WithTableCellAlignMethod(extension.TableCellAlignAttribute)), 500),
		util.Prioritized(extension.NewStrikethroughHTMLRenderer(), 500),
		util.Prioritized(ghtml.NewRenderer(), 1000),
	))
}

// RegisterFuncs implements renderer.NodeRenderer.
func (r *articleRenderer) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	reg.Register(kindReady, renderReady)
	reg.Register(kindSafety, renderSafety)
	reg.Register(kindWide, renderWide)
	reg.Register(kindForeign, renderForeign)
	reg.Register(kindSectionNumber, renderNumber)
	reg.Register(east.KindTaskCheckBox, renderBox)
	reg.Register(kindFault, renderFault)
	reg.Register(kindCorner, renderCorner)
	reg.Register(kindRestsOn, renderRests)
	reg.Register(ast.KindText, r.text)
	reg.Register(ast.KindImage, renderImage)
	reg.Register(ast.KindRawHTML, renderNothing)
	reg.Register(ast.KindHTMLBlock, renderNothing)
}

func renderReady(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		_, err := w.WriteString(n.(*ready).html)
		return ast.WalkContinue, err
	}
	return ast.WalkContinue, nil
}

func renderFault(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		_, err := w.WriteString(n.(*faultNote).html)
		return ast.WalkContinue, err
	}
	return ast.WalkContinue, nil
}

func renderSafety(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	message := n.(*safetyMessage)
	text := "</div>\n"
	if entering {
		text = `<div class="safety ` + strings.ToLower(message.means) + `" role="note"><p class="signal">` + html.EscapeString(message.word) + "</p>\n"
	}
	_, err := w.WriteString(text)
	return ast.WalkContinue, err
}

func renderWide(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	text := "</div>\n"
	if entering { // reachable by keyboard, to be scrolled by it
		text = `<div class="wide" tabindex="0" role="region" aria-label="` + html.EscapeString(n.(*wideTable).label) + `">`
	}
	_, err := w.WriteString(text)
	return ast.WalkContinue, err
}

func renderForeign(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	text := "</a>"
	if entering {
		l := n.(*foreignLink)
		text = `<a href="` + string(util.EscapeHTML(util.URLEscape([]byte(l.href), true))) + `" hreflang="` + html.EscapeString(l.language) + `">`
	}
	_, err := w.WriteString(text)
	return ast.WalkContinue, err
}

func renderNumber(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	_, err := w.WriteString(` <span class="see">(` + html.EscapeString(n.(*sectionNumber).text) + `)</span>`)
	return ast.WalkContinue, err
}

func renderRests(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	mark := n.(*restsOn)
	if !entering || len(mark.numbers) == 0 {
		return ast.WalkContinue, nil
	}
	var text strings.Builder
	for i, number := range mark.numbers {
		if i > 0 {
			text.WriteString(", ")
		}
		if mark.links {
			fmt.Fprintf(&text, `<a href="#source-%d" aria-label="%s %d">%d</a>`, number, html.EscapeString(mark.said), number, number)
		} else {
			text.WriteString(strconv.Itoa(number))
		}
	}
	_, err := w.WriteString(`<sup class="rests">` + text.String() + `</sup>`)
	return ast.WalkContinue, err
}

// renderBox draws the box of a task list, to be ticked on paper.
func renderBox(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	text := `<span class="box" aria-hidden="true"></span> `
	if n.(*east.TaskCheckBox).IsChecked {
		text = `<span class="box done" role="img" aria-label="✓"></span> `
	}
	_, err := w.WriteString(text)
	return ast.WalkContinue, err
}

// renderCorner writes the empty corner of a table with heads on two sides; an empty head would be read out as one.
func renderCorner(w util.BufWriter, _ []byte, _ ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		_, err := w.WriteString("<td></td>\n")
		return ast.WalkContinue, err
	}
	return ast.WalkContinue, nil
}

func renderNothing(util.BufWriter, []byte, ast.Node, bool) (ast.WalkStatus, error) {
	return ast.WalkSkipChildren, nil
}

// text writes a stretch of text as the library does, with numbers bound to their units.
func (r *articleRenderer) text(w util.BufWriter, source []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	n := node.(*ast.Text)
	segment := bind(n.Segment.Value(source))
	if n.IsRaw() {
		r.plain.Writer.RawWrite(w, segment)
		return ast.WalkContinue, nil
	}
	r.plain.Writer.Write(w, segment)
	var err error
	switch {
	case n.HardLineBreak():
		_, err = w.WriteString("<br>\n")
	case n.SoftLineBreak():
		err = w.WriteByte('\n')
	}
	return ast.WalkContinue, err
}

// renderImage writes a picture.
func renderImage(w util.BufWriter, source []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	n := node.(*ast.Image)
	more := ""
	if v, ok := n.AttributeString("more"); ok {
		more, _ = v.(string)
	}
	_, err := w.WriteString(`<img src="` + html.EscapeString(string(n.Destination)) + `" alt="` + html.EscapeString(manual.Plain(n, source)) + `"` + more + `>`)
	return ast.WalkSkipChildren, err
}
