package manual

import (
	"bytes"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	gtext "github.com/yuin/goldmark/text"
)

// SourceMark says in a text on which of the article's sources the words before it rest:
//
//	Begin the bake within an hour (source: ASTM B850).
//
// Several are parted by semicolons. It is no part of what the text says: the page has a small number in its place, which leads to the source.
type SourceMark struct {
	ast.BaseInline
	Names  []string // as they are written
	Offset int      // in the body, of its bracket
}

// KindSourceMark is the kind of a SourceMark.
var KindSourceMark = ast.NewNodeKind("SourceMark")

// Kind implements ast.Node.
func (*SourceMark) Kind() ast.NodeKind { return KindSourceMark }

// Dump implements ast.Node.
func (n *SourceMark) Dump(source []byte, level int) {
	ast.DumpHelper(n, source, level, map[string]string{"Names": strings.Join(n.Names, "; ")}, nil)
}

// sourceMarks reads them.
type sourceMarks struct{}

const markOpens = "(source:"

// Trigger implements parser.InlineParser.
func (sourceMarks) Trigger() []byte { return []byte{'('} }

// Parse implements parser.InlineParser. The mark may run over the end of a line; it ends at the bracket that closes its own.
func (sourceMarks) Parse(parent ast.Node, block gtext.Reader, _ parser.Context) ast.Node {
	line, segment := block.PeekLine()
	if !bytes.HasPrefix(line, []byte(markOpens)) {
		return nil
	}
	var text strings.Builder
	depth := 0
	for line != nil {
		for i, c := range line {
			switch c {
			case '(':
				depth++
			case ')':
				depth--
			}
			if depth == 0 {
				text.Write(line[:i])
				block.Advance(i + 1)
				trimBlank(parent, block.Source())
				return &SourceMark{Names: namesIn(text.String()), Offset: segment.Start}
			}
		}
		text.Write(line)
		block.AdvanceLine()
		line, _ = block.PeekLine()
	}
	return nil
}

// namesIn takes apart what stands in a mark.
func namesIn(mark string) []string {
	var names []string
	for name := range strings.SplitSeq(strings.TrimPrefix(mark, markOpens), ";") {
		if name = strings.Join(strings.Fields(name), " "); name != "" {
			names = append(names, name)
		}
	}
	return names
}

// trimBlank takes the blank before a mark away: the text goes on without it.
func trimBlank(parent ast.Node, source []byte) {
	if t, ok := parent.LastChild().(*ast.Text); ok {
		t.Segment = t.Segment.TrimRightSpace(source)
		t.SetSoftLineBreak(false)
	}
}
