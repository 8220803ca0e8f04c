package page

import (
	"strings"

	"github.com/alecthomas/chroma/v2"
	"github.com/alecthomas/chroma/v2/formatters/html"
	"github.com/alecthomas/chroma/v2/lexers"
)

// listingFormat writes listings with classes; the colours stand in the style sheet.
var listingFormat = html.New(html.WithClasses(true))

// listingStyle shows the parts of a listing by weight and slant, which paper and every kind of eye can tell apart, and a mistake in a frame. The library's
// own styles are not asked for: they are read, all of them, at the start of every command.
var listingStyle = chroma.MustNewStyle("listing", chroma.StyleEntries{
	chroma.Keyword: "bold", chroma.KeywordType: "nobold", chroma.NameTag: "bold", chroma.NameAttribute: "nobold", chroma.OperatorWord: "bold",
	chroma.LiteralString: "italic", chroma.Comment: "italic", chroma.CommentPreproc: "noitalic",
	chroma.GenericDeleted: "italic", chroma.GenericInserted: "bold", chroma.GenericHeading: "bold", chroma.GenericSubheading: "bold",
	chroma.Error: "border:#b00020",
})

// Highlighting goes by the library's patterns, and on many languages some texts take these minutes, or never end. So a listing is highlighted
// where its language is one of these, which a test tries with the worst texts we know, and where it is as small as a listing that is read.
var highlighted = map[string]bool{}

func init() {
	for language := range strings.FieldsSeq("bash c css diff html ini javascript json python sh sql toml xml") {
		highlighted[language] = true
	}
}

const (
	longestListing = 2 << 10 // bytes
	longestLine    = 160     // bytes
	mostLines      = 100

	mostHighlighted = 32 << 10 // bytes of all listings of an article; what comes after them is shown as plain text
)

// readable tells whether a listing may be highlighted.
func readable(language, text string) bool {
	if !highlighted[strings.ToLower(language)] || len(text) > longestListing || strings.Count(text, "\n") > mostLines {
		return false
	}
	for line := range strings.Lines(text) {
		if len(line) > longestLine {
			return false
		}
	}
	return true
}

// highlight gives the HTML of a listing. One that is not to be highlighted is shown as plain text.
func highlight(language, text string) (string, error) {
	lexer := lexers.Fallback
	if readable(language, text) {
		lexer = lexers.Get(language)
	}
	tokens, err := chroma.Coalesce(lexer).Tokenise(nil, text)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	b.WriteString(`<div class="listing" tabindex="0">`) // reachable by keyboard, to be scrolled by it
	if err := listingFormat.Format(&b, listingStyle, tokens); err != nil {
		return "", err
	}
	b.WriteString("</div>\n")
	return b.String(), nil
}
