package bring

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/JohannesKaufmann/html-to-markdown/v2/converter"
	"github.com/JohannesKaufmann/html-to-markdown/v2/plugin/base"
	"github.com/JohannesKaufmann/html-to-markdown/v2/plugin/commonmark"
	"github.com/JohannesKaufmann/html-to-markdown/v2/plugin/strikethrough"
	"github.com/JohannesKaufmann/html-to-markdown/v2/plugin/table"
	"golang.org/x/net/html"

	"tankside/builder/begin"
	"tankside/builder/manual"
)

// Limits of what is brought.
const (
	MostBytes = 4 << 20
	mostDeep  = 100    // elements within elements
	mostNodes = 200000 // elements and texts
	mostCells = 20000  // of a table, merged ones counted as often as they cover
	mostSpan  = 100    // columns or rows that a merged cell covers

	mostCopied       = 1 << 20 // bytes of what merged cells hold, in all places that they cover: an article has no more
	mostPictures     = 500
	mostPictureBytes = 128 << 20 // of all pictures
)

// Options say what becomes of a file.
type Options struct {
	Kind  manual.Kind
	Name  string // of the article
	Title string // "" takes the document's

	// Picture gives a picture by its path as written in the file, without the address of a computer; nil brings none. Where the error is fs.ErrNotExist it is not there.
	Picture func(path string) ([]byte, error)
}

// Result is the article, with what was done.
type Result struct {
	Text     []byte
	Pictures map[string][]byte // by their paths in the manual
	Notes    []Note
}

// Article makes an article of a file of the given name. The error is a sentence.
func Article(file string, data []byte, o Options) (Result, error) {
	b := &bringing{Options: o, pictures: map[string][]byte{}}
	root, err := b.parse(file, data)
	if err != nil {
		return Result{}, err
	}
	if err := b.clean(root); err != nil {
		return Result{}, err
	}
	body, err := markdown(root)
	if err != nil {
		return Result{}, fmt.Errorf("it cannot be made markdown: %w", err)
	}
	title := o.Title
	if title == "" {
		title = b.title
	}
	if title == "" {
		title = begin.Title(o.Name)
		b.add(Guessed, "The document has no title; “%s” is made of its name.", short(title))
	}
	title = short(strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return ' '
		}
		return r
	}, title))
	head, err := begin.Article(o.Kind, o.Name, title)
	if err != nil {
		return Result{}, err
	}
	b.add(Left, "The header: station, sources and what decides about a load are for you to fill in; nothing of it was taken from the text.")
	text := append(head, bytes.TrimSpace(body)...)
	return Result{append(text, '\n'), b.pictures, b.list}, nil
}

// bringing is one file on its way.
type bringing struct {
	Options
	notes
	title    string
	pictures map[string][]byte
	copied   int // bytes that merged cells hold once more in the places that they cover
}

// markdown renders what is clean.
func markdown(root *html.Node) ([]byte, error) {
	c := converter.NewConverter(converter.WithPlugins(
		base.NewBasePlugin(),
		commonmark.NewCommonmarkPlugin(commonmark.WithBulletListMarker("-"), commonmark.WithListEndComment(false)),
		strikethrough.NewStrikethroughPlugin(),
		table.NewTablePlugin(table.WithHeaderPromotion(true), table.WithSkipEmptyRows(true), table.WithNewlineBehavior(table.NewlineBehaviorSkip)),
	))
	return c.ConvertNode(root)
}
