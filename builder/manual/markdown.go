package manual

import (
	"bytes"
	"strconv"
	"strings"
	"unicode"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	gtext "github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// dialect is the markdown of a manual: CommonMark with the tables, strikethrough and task lists of GitHub Flavored Markdown, and marks that
// say on what a statement rests.
var dialect = goldmark.New(
	goldmark.WithParser(parser.NewParser(
		parser.WithBlockParsers(parser.DefaultBlockParsers()...),
		parser.WithInlineParsers(append(parser.DefaultInlineParsers(), util.Prioritized(sourceMarks{}, 150))...),
		parser.WithParagraphTransformers(util.Prioritized(references{}, 100)),
	)),
	goldmark.WithExtensions(extension.Table, extension.Strikethrough, extension.TaskList),
	goldmark.WithParserOptions(parser.WithASTTransformers(util.Prioritized(anchors{}, 100))),
)

// Parse gives the syntax tree of a body. Each heading carries its anchor as the attribute "id".
func Parse(body []byte) ast.Node { return dialect.Parser().Parse(gtext.NewReader(body)) }

// references takes link reference definitions out of paragraphs, as the library does. It asks the library only about a paragraph that begins
// like one, because the library prepares each for reading again, and nearly none has one.
type references struct{}

// Transform implements parser.ParagraphTransformer.
func (references) Transform(p *ast.Paragraph, reader gtext.Reader, pc parser.Context) {
	if lines := p.Lines(); lines.Len() > 0 {
		first := lines.At(0)
		if start := bytes.TrimLeft(first.Value(reader.Source()), " \t\n\v\f\r"); len(start) > 0 && start[0] != '[' {
			return
		}
	}
	parser.LinkReferenceParagraphTransformer.Transform(p, reader, pc)
}

// anchors gives each heading its anchor.
type anchors struct{}

// Transform implements parser.ASTTransformer.
func (anchors) Transform(doc *ast.Document, reader gtext.Reader, _ parser.Context) {
	source := reader.Source()
	var taken map[string]int
	var visit func(ast.Node)
	visit = func(n ast.Node) {
		for c := n.FirstChild(); c != nil; c = c.NextSibling() {
			if c.Type() != ast.TypeBlock {
				return
			}
			if h, ok := c.(*ast.Heading); ok {
				if taken == nil {
					taken = make(map[string]int)
				}
				anchor := unique(Anchor(plain(h, source)), taken)
				h.SetAttributeString("id", []byte(anchor))
				continue
			}
			visit(c)
		}
	}
	visit(doc)
}

// Anchor gives the address of a heading inside its page: lower case, letters and digits kept, every other run of characters one
// hyphen, none at the ends. A heading without letters and digits is called "section".
func Anchor(heading string) string {
	var b strings.Builder
	b.Grow(len(heading))
	gap := false
	for _, r := range heading {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			if gap && b.Len() > 0 {
				b.WriteByte('-')
			}
			gap = false
			b.WriteRune(unicode.ToLower(r))
		} else {
			gap = true
		}
	}
	if b.Len() == 0 {
		return "section"
	}
	return b.String()
}

// unique adds -2, -3 … to an anchor that is taken, and takes it. taken holds for each anchor the last number that was added to it.
func unique(anchor string, taken map[string]int) string {
	n := taken[anchor]
	if n == 0 {
		taken[anchor] = 1
		return anchor
	}
	for n++; ; n++ {
		if with := anchor + "-" + strconv.Itoa(n); taken[with] == 0 {
			taken[anchor], taken[with] = n, 1
			return with
		}
	}
}

// Plain is the text of a node without its markup.
func Plain(n ast.Node, source []byte) string { return plain(n, source) }

// plain is the text of a node without its markup.
func plain(n ast.Node, source []byte) string {
	var b strings.Builder
	writePlain(&b, n, source)
	return strings.TrimSpace(b.String())
}

// writePlain writes the text of a node: words as they are read, blocks on lines of their own, table cells parted by a tab.
// The listing of a calculator is left out: its result is on the page, not its input.
func writePlain(b *strings.Builder, n ast.Node, source []byte) {
	switch n := n.(type) {
	case *ast.Text:
		if n.IsRaw() { // of code
			b.Write(n.Value(source))
		} else {
			writeUnescaped(b, n.Value(source))
		}
		if n.SoftLineBreak() || n.HardLineBreak() {
			b.WriteByte(' ')
		}
		return
	case *ast.String:
		b.Write(n.Value)
		return
	case *ast.AutoLink:
		b.Write(n.Label(source))
		return
	case *ast.RawHTML, *ast.HTMLBlock:
		return
	case *ast.FencedCodeBlock:
		if _, is := Calculator(n, source); is {
			return
		}
		writeLines(b, n, source)
		return
	case *ast.CodeBlock:
		writeLines(b, n, source)
		return
	}
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		writePlain(b, c, source)
		if c.Type() == ast.TypeBlock && c.NextSibling() != nil {
			if isCell(c) {
				b.WriteByte('\t')
			} else {
				b.WriteByte('\n')
			}
		}
	}
}

func writeLines(b *strings.Builder, n ast.Node, source []byte) {
	lines := n.Lines()
	for i := range lines.Len() {
		line := lines.At(i)
		b.Write(line.Value(source))
	}
}
