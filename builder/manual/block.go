package manual

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
)

// BlockKind is what a block is.
type BlockKind uint8

// The kinds of block.
const (
	ParagraphBlock BlockKind = iota
	ItemBlock
	CellBlock
	QuoteBlock // of a safety message or a quotation
	HeadingBlock
)

// Block is a piece of running text: words without markup.
type Block struct {
	Kind    BlockKind
	Text    string
	Signal  string // of a safety message: its signal word
	Steps   bool   // in a numbered list
	Section string // the heading above
	Links   []BlockLink
	Bold    bool // opens in bold

	Row, Column string      // of a cell: the first cell of its row, and the head of its column
	RowLinks    []BlockLink // of the first cell
	First       bool        // it is the first cell

	Rests []BlockRest // the marks of sources in it

	marks []blockMark
}

// BlockLink is a link in the text of a block.
type BlockLink struct {
	From, To int // its words, bytes of the text
	Target   string
}

// BlockRest is a mark of sources in a block: what stands before it rests on them.
type BlockRest struct {
	At    int      // byte of the text, after what rests on them
	Names []string // of sources, as written
}

// blockMark says where in the source a piece of the text begins.
type blockMark struct{ text, source int32 }

// At gives the place in the source of a byte of the text.
func (b *Block) At(offset int) int {
	i, exact := slices.BinarySearchFunc(b.marks, offset, func(m blockMark, o int) int { return int(m.text) - o })
	if !exact {
		i--
	}
	if i < 0 {
		return 0
	}
	return int(b.marks[i].source) + offset - int(b.marks[i].text)
}

// Blocks reads the blocks of a body.
func Blocks(body []byte) []Block { return blocksOf(Parse(body), body, nil) }

// ReadBlocks reads the blocks of the article's body, which a translation does not keep.
func (a *Article) ReadBlocks() []Block { return blocksOf(Parse(a.Body), a.Body, a) }

// blocksOf reads the blocks of a body that has been parsed, of an article or of none. What is kept of one body shares its memory.
func blocksOf(doc ast.Node, body []byte, a *Article) []Block {
	r := &blockReader{source: body, article: a}
	r.text.Grow(len(body))
	r.marks = make([]blockMark, 0, len(body)/24)
	r.blocks = make([]Block, 0, 4+len(body)/80)
	r.children(doc, Block{})
	return slices.Clip(r.blocks)
}

type blockReader struct {
	source  []byte
	article *Article // or nil
	blocks  []Block
	head    string
	text    strings.Builder // of all blocks
	marks   []blockMark     // of all blocks
}

// children reads the blocks below a node; each is made like the given one.
func (r *blockReader) children(n ast.Node, like Block) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Heading:
			b := r.block(c, Block{Kind: HeadingBlock})
			r.head = b.Text
			b.Section = b.Text
			r.blocks = append(r.blocks, b)
		case *ast.Paragraph, *ast.TextBlock:
			r.blocks = append(r.blocks, r.block(c, like))
		case *ast.Blockquote:
			quote := Block{Kind: QuoteBlock}
			if p := c.FirstChild(); p != nil {
				if _, is := p.(*ast.Paragraph); is {
					_, quote.Signal = r.article.SignalWord(p, r.source)
				}
			}
			r.children(c, quote)
		case *ast.List:
			item := like
			item.Kind, item.Steps = ItemBlock, c.IsOrdered()
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
			b := r.block(c, Block{Kind: CellBlock})
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
	if e, ok := n.FirstChild().(*ast.Emphasis); ok && e.Level == 2 {
		b.Bold = true
	}
	w := inlineWriter{blockReader: r, block: &b, start: r.text.Len()}
	from := len(r.marks)
	w.children(n)
	b.Text = r.text.String()[w.start:]
	b.marks = r.marks[from:len(r.marks):len(r.marks)]
	return b
}

// noWord stands for what is shown and not said: code, a picture.
const noWord = "\ufffc"

type inlineWriter struct {
	*blockReader
	block *Block
	start int // of its text in that of all blocks
}

func (w *inlineWriter) write(s []byte, at int) {
	w.marks = append(w.marks, blockMark{int32(w.text.Len() - w.start), int32(at)})
	w.text.Write(s)
}

var softBreak = []byte(" ")

func (w *inlineWriter) children(n ast.Node) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Text:
			w.write(c.Value(w.source), c.Segment.Start)
			if c.SoftLineBreak() || c.HardLineBreak() {
				w.write(softBreak, c.Segment.Stop)
			}
		case *ast.String:
			w.text.Write(c.Value)
		case *ast.CodeSpan, *ast.Image:
			w.text.WriteString(noWord)
		case *ast.RawHTML, *east.Strikethrough:
		case *SourceMark:
			w.block.Rests = append(w.block.Rests, BlockRest{w.text.Len() - w.start, c.Names})
		case *ast.AutoLink:
			w.text.WriteString(noWord)
		case *ast.Link:
			from := w.text.Len() - w.start
			w.children(c)
			w.block.Links = append(w.block.Links, BlockLink{from, w.text.Len() - w.start, string(c.Destination)})
		default:
			w.children(c)
		}
	}
}

// Summary tells whether the block is no part of a body, but text by itself.
func (b *Block) Summary() bool { return len(b.marks) == 0 }
