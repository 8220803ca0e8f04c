package sentence

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"

	"tankside/builder/manual"
)

// BlockKind is what a block is.
type BlockKind uint8

// The kinds of block.
const (
	Paragraph BlockKind = iota
	Item
	Cell
	Quote // of a safety message or a quotation
	Heading
)

// Block is a piece of running text: words without markup.
type Block struct {
	Kind    BlockKind
	Text    string
	Signal  string // of a safety message: its signal word
	Steps   bool   // in a numbered list
	Section string // the heading above
	Links   []Link
	Bold    bool // opens in bold

	Row, Column string // of a cell: the first cell of its row, and the head of its column
	RowLinks    []Link // of the first cell
	First       bool   // it is the first cell

	marks []mark
}

// Link is a link in the text of a block.
type Link struct {
	From, To int // its words, bytes of the text
	Target   string
}

// mark says where in the source a piece of the text begins.
type mark struct{ text, source int }

// At gives the place in the source of a byte of the text.
func (b *Block) At(offset int) int {
	i, exact := slices.BinarySearchFunc(b.marks, offset, func(m mark, o int) int { return m.text - o })
	if !exact {
		i--
	}
	if i < 0 {
		return 0
	}
	return b.marks[i].source + offset - b.marks[i].text
}

// Blocks reads the blocks of a body.
func Blocks(body []byte) []Block { return BlocksOf(manual.Parse(body), body) }

// BlocksOf reads the blocks of a body that has been parsed.
func BlocksOf(doc ast.Node, body []byte) []Block {
	r := &blockReader{source: body}
	r.children(doc, Block{})
	return r.blocks
}

type blockReader struct {
	source []byte
	blocks []Block
	head   string
}

// children reads the blocks below a node; each is made like the given one.
func (r *blockReader) children(n ast.Node, like Block) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Heading:
			b := r.block(c, Block{Kind: Heading})
			r.head = b.Text
			b.Section = b.Text
			r.blocks = append(r.blocks, b)
		case *ast.Paragraph, *ast.TextBlock:
			r.blocks = append(r.blocks, r.block(c, like))
		case *ast.Blockquote:
			quote := Block{Kind: Quote}
			if p := c.FirstChild(); p != nil {
				if _, is := p.(*ast.Paragraph); is {
					_, quote.Signal = manual.SignalWord(p, r.source)
				}
			}
			r.children(c, quote)
		case *ast.List:
			item := like
			item.Kind, item.Steps = Item, c.IsOrdered()
			r.children(c, item)
		case *ast.ListItem:
			r.children(c, like)
		case *east.Table:
			r.table(c)
		}
	}
}

// table reads the cells of a table.
func (r *blockReader) table(t *east.Table) {
	var heads []string
	for row := t.FirstChild(); row != nil; row = row.NextSibling() {
		_, isHead := row.(*east.TableHeader)
		var first Block
		column := 0
		for c := row.FirstChild(); c != nil; c = c.NextSibling() {
			b := r.block(c, Block{Kind: Cell})
			if column == 0 {
				first = b
			}
			switch {
			case isHead:
				heads = append(heads, b.Text)
			default:
				b.Row, b.RowLinks, b.First = first.Text, first.Links, column == 0
				if column < len(heads) {
					b.Column = heads[column]
				}
				r.blocks = append(r.blocks, b)
			}
			column++
		}
	}
}

// block reads the text of a node.
func (r *blockReader) block(n ast.Node, b Block) Block {
	b.Section = r.head
	w := inlineWriter{source: r.source, block: &b}
	if e, ok := n.FirstChild().(*ast.Emphasis); ok && e.Level == 2 {
		b.Bold = true
	}
	w.children(n)
	b.Text = w.text.String()
	return b
}

// noWord stands for what is shown and not said: code, a picture.
const noWord = "\ufffc"

type inlineWriter struct {
	source []byte
	text   strings.Builder
	block  *Block
}

func (w *inlineWriter) write(s string, at int) {
	w.block.marks = append(w.block.marks, mark{w.text.Len(), at})
	w.text.WriteString(s)
}

func (w *inlineWriter) children(n ast.Node) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Text:
			w.write(string(c.Value(w.source)), c.Segment.Start)
			if c.SoftLineBreak() || c.HardLineBreak() {
				w.write(" ", c.Segment.Stop)
			}
		case *ast.String:
			w.text.Write(c.Value)
		case *ast.CodeSpan, *ast.Image:
			w.text.WriteString(noWord)
		case *ast.RawHTML, *east.Strikethrough:
		case *ast.AutoLink:
			w.text.WriteString(noWord)
		case *ast.Link:
			from := w.text.Len()
			w.children(c)
			w.block.Links = append(w.block.Links, Link{from, w.text.Len(), string(c.Destination)})
		default:
			w.children(c)
		}
	}
}

// Summary tells whether the block is no part of a body, but text by itself.
func (b *Block) Summary() bool { return len(b.marks) == 0 }
