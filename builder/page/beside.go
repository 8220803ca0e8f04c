package page

import (
	"bytes"
	"fmt"
	"html"
	"html/template"
	"strings"

	"github.com/yuin/goldmark/ast"

	"tankside/builder/manual"
)

// In a preview each finding stands beside the block of the text that holds its line: below it, in the same column, so that a phone shows both. Within a list it
// stands in the item. What is about the header, or about a text that the page shows elsewhere, stays at the page's head.

// faultNote is what is wrong with the block before it, or with the list item that it is in.
type faultNote struct {
	ast.BaseBlock
	html string
}

var kindFault = ast.NewNodeKind("FaultNote")

func (*faultNote) Kind() ast.NodeKind              { return kindFault }
func (n *faultNote) Dump(source []byte, level int) { ast.DumpHelper(n, source, level, nil, nil) }

// besides finds, before the tree is changed, which block holds the line of each fault: the last one that begins at or above it. What is in an item of a list that
// the page shows as a list becomes part of the item.
func (b *body) besides(doc ast.Node) {
	b.beside = make(map[int][]int)
	for i := range b.faults {
		offset := b.offsetOf(b.faults[i].line)
		if offset < 0 {
			continue
		}
		number, holds := -1, ast.Node(nil)
		for n, k := doc.FirstChild(), 0; n != nil; n, k = n.NextSibling(), k+1 {
			if at := begins(n); at >= 0 && b.lineBegin(at) <= offset {
				number, holds = k, n
			}
		}
		switch {
		case number < 0:
		case holds.Kind() == ast.KindList && b.a.Kind != manual.Symptom: // whose answers the page shows otherwise
			b.within(holds, offset, &faultNote{html: b.note(i)})
		default:
			b.beside[number] = append(b.beside[number], i)
		}
	}
}

// offsetOf is where a line of the file begins in the text; -1 of one that is not in it.
func (b *body) offsetOf(line int) int {
	if line < b.a.Start {
		return -1
	}
	offset := 0
	for range line - b.a.Start {
		next := bytes.IndexByte(b.source[offset:], '\n')
		if next < 0 {
			return -1
		}
		offset += next + 1
	}
	return offset
}

// lineBegin is where the line begins that an offset is in: a block may begin behind blanks, hashes or the bar of a table.
func (b *body) lineBegin(offset int) int { return bytes.LastIndexByte(b.source[:offset], '\n') + 1 }

// begins is where a block begins in the source, or the first in it that knows; -1 where none does.
func begins(n ast.Node) int {
	if n.Type() == ast.TypeInline {
		return -1
	}
	if at := n.Pos(); at >= 0 {
		return at
	}
	if n.Lines().Len() > 0 {
		return n.Lines().At(0).Start
	}
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if at := begins(c); at >= 0 {
			return at
		}
	}
	return -1
}

// within puts a note into the innermost item of a list that holds a line, behind the block of the item that holds it.
func (b *body) within(list ast.Node, offset int, note *faultNote) {
	item := b.lastAt(list, offset)
	if item == nil {
		item = list.FirstChild()
	}
	block := b.lastAt(item, offset)
	switch {
	case block != nil && block.Kind() == ast.KindList:
		b.within(block, offset, note)
	case block != nil:
		item.InsertAfter(item, block, note)
	default:
		item.AppendChild(item, note)
	}
}

// lastAt is the last of a node's children that begins at or above a line, or nil.
func (b *body) lastAt(n ast.Node, offset int) (last ast.Node) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if at := begins(c); at >= 0 && b.lineBegin(at) <= offset {
			last = c
		}
	}
	return last
}

// notes are the faults of a top-level block, by its number, as HTML.
func (b *body) notes(number int) template.HTML {
	var all strings.Builder
	for _, i := range b.beside[number] {
		all.WriteString(b.note(i))
	}
	return template.HTML(all.String())
}

// note writes a fault and notes that it has its place.
func (b *body) note(i int) string {
	f := &b.faults[i]
	f.Anchor = fmt.Sprintf("at.fault-%d", i+1) // no heading has a point in its anchor
	f.Leads = f.Anchor
	return fmt.Sprintf(`<div class="fault fault-beside" id="%s" role="note" aria-label="%s"><code>%s</code> %s <span class="fault-remedy">%s</span></div>`+"\n",
		f.Anchor, html.EscapeString(b.s.words.say("What is wrong")), html.EscapeString(f.Where), html.EscapeString(f.Message), html.EscapeString(f.Remedy))
}

// placed parts the faults of a page: those that stand at its head, and those beside their lines.
func placed(all []fault) (head, beside []fault) {
	for _, f := range all {
		if f.Anchor == "" {
			head = append(head, f)
		} else {
			beside = append(beside, f)
		}
	}
	return head, beside
}
