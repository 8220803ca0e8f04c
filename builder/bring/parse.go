package bring

import (
	"bytes"
	"fmt"
	"io"
	"path"
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/renderer/html"
	nethtml "golang.org/x/net/html"
	"golang.org/x/net/html/atom"
	"golang.org/x/net/html/charset"

	"tankside/builder/expression"
	"tankside/builder/manual"
)

// parse reads a file as a tree of elements.
func (b *bringing) parse(file string, data []byte) (*nethtml.Node, error) {
	if len(data) > MostBytes {
		return nil, fmt.Errorf("the file has more than %d MiB; save it without its pictures, or in pieces", MostBytes>>20)
	}
	isHTML := false
	switch path.Ext(strings.ToLower(file)) {
	case ".html", ".htm", ".xhtml":
		isHTML = true
	case ".md", ".markdown", ".txt":
	default:
		return nil, fmt.Errorf("it is neither HTML nor markdown by its name; in your word processor, save the document as a web page (.html, filtered if it offers that)")
	}
	text, err := b.decode(data, isHTML)
	if err != nil {
		return nil, err
	}
	if now := bytes.Map(func(r rune) rune {
		if r < ' ' && r != '\n' && r != '\r' && r != '\t' || r >= 0x7f && r < 0xa0 || r == 0x2028 || r == 0x2029 {
			return -1
		}
		return r
	}, text); len(now) != len(text) {
		b.add(Dropped, "Signs that steer a machine and show nothing.")
		text = now
	}
	if !isHTML {
		if text, err = b.fromMarkdown(text); err != nil {
			return nil, err
		}
	}
	root, err := nethtml.Parse(bytes.NewReader(text))
	if err != nil && strings.Contains(err.Error(), "open stack of elements") { // the library has no error of its own for it
		return nil, errDeep
	}
	if err != nil {
		return nil, fmt.Errorf("it cannot be read as HTML: %w", err)
	}
	return root, bounded(root)
}

// decode gives the text in UTF-8.
func (b *bringing) decode(data []byte, isHTML bool) ([]byte, error) {
	_, name, certain := charset.DetermineEncoding(data, map[bool]string{true: "text/html", false: "text/plain"}[isHTML])
	if utf8.Valid(data) {
		return bytes.TrimPrefix(data, []byte("\uFEFF")), nil
	}
	r, err := charset.NewReaderLabel(name, bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("the letters are written as %s, which cannot be read: %w", name, err)
	}
	text, err := io.ReadAll(io.LimitReader(r, 4*MostBytes))
	if err != nil {
		return nil, err
	}
	if certain || bytes.Contains(bytes.ToLower(data[:min(len(data), 1024)]), []byte("charset")) {
		b.add(Changed, "The letters were written as %s, and are UTF-8 now.", name)
	} else {
		b.add(Guessed, "The file does not say how its letters are written; they were read as %s.", name)
	}
	return bytes.TrimPrefix(text, []byte("\uFEFF")), nil
}

var (
	headerLine = expression.Of(`^([A-Za-z][\w-]*):[ \t]*(.*)$`)
	converters = goldmark.New(goldmark.WithExtensions(extension.Table, extension.Strikethrough, extension.Footnote), goldmark.WithRendererOptions(html.WithUnsafe()))
)

// fromMarkdown makes HTML of markdown. Of a header the title is taken, and the rest is told.
func (b *bringing) fromMarkdown(text []byte) ([]byte, error) {
	text = bytes.ReplaceAll(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n")), []byte("\r"), []byte("\n"))
	before := 0 // lines of the document's own header
	if rest, is := bytes.CutPrefix(text, []byte("---\n")); is {
		if head, body, closed := bytes.Cut(rest, []byte("\n---\n")); closed {
			for line := range strings.Lines(string(head)) {
				m := headerLine.FindStringSubmatch(strings.TrimSpace(line))
				switch {
				case m != nil && strings.EqualFold(m[1], "title"):
					b.title = strings.Trim(m[2], `"' `)
				case strings.TrimSpace(line) != "":
					b.add(Dropped, "The line “%s” of the document's own header.", short(line))
				}
			}
			before = 2 + bytes.Count(head, []byte("\n")) + 1
			text = body
		}
	}
	if line, message, remedy := manual.TooLarge(text); message != "" {
		return nil, fmt.Errorf("line %d: %s. %s", before+line, message, remedy)
	}
	var out bytes.Buffer
	if err := converters.Convert(text, &out); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

var errDeep = fmt.Errorf("elements lie more than %d deep in one another; save it more plainly, as a filtered web page", mostDeep)

// texts are the elements that become a text of the article each. A document with more of them than a manual reads, or with a longer one, is refused before it is
// looked through: that would take long, and be in vain.
var texts = map[atom.Atom]bool{atom.P: true, atom.Pre: true, atom.H1: true, atom.H2: true, atom.H3: true, atom.H4: true, atom.H5: true, atom.H6: true}

// bounded refuses trees that are too deep or too large.
func bounded(root *nethtml.Node) error {
	nodes, depth, paragraphs := 0, 0, 0
	for n := root; n != nil; {
		if nodes++; nodes > mostNodes {
			return fmt.Errorf("the document has more than %d pieces; save it in several files", mostNodes)
		}
		if n.Type == nethtml.ElementNode && texts[n.DataAtom] {
			if paragraphs++; paragraphs > manual.MostTexts {
				return fmt.Errorf("the document has more than %d paragraphs and headings, which is what an article may have; save it in several files", manual.MostTexts)
			}
		}
		if n.Type == nethtml.TextNode && len(n.Data) > manual.MostText && n.Parent != nil && n.Parent.DataAtom != atom.Style && n.Parent.DataAtom != atom.Script {
			return fmt.Errorf("a paragraph has more than %d KiB in one piece, which is what an article may have; divide it", manual.MostText>>10)
		}
		if depth > mostDeep {
			return errDeep
		}
		if n.FirstChild != nil {
			n = n.FirstChild
			depth++
			continue
		}
		for n != nil && n != root && n.NextSibling == nil {
			n = n.Parent
			depth--
		}
		if n == nil || n == root {
			return nil
		}
		n = n.NextSibling
	}
	return nil
}
