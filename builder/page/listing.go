package page

import (
	"strings"

	"github.com/alecthomas/chroma/v2"
	"github.com/alecthomas/chroma/v2/formatters/html"
	"github.com/alecthomas/chroma/v2/lexers"
	"github.com/alecthomas/chroma/v2/styles"
)

// listingFormat writes listings with classes; the colours stand in the style sheet.
var listingFormat = html.New(html.WithClasses(true))

// highlight gives the HTML of a listing. A language that is not known, or none, is shown as plain text.
func highlight(language, text string) (string, error) {
	lexer := lexers.Get(language)
	if lexer == nil {
		lexer = lexers.Fallback
	}
	tokens, err := chroma.Coalesce(lexer).Tokenise(nil, text)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	b.WriteString(`<div class="listing" tabindex="0">`) // reachable by keyboard, to be scrolled by it
	if err := listingFormat.Format(&b, styles.Fallback, tokens); err != nil {
		return "", err
	}
	b.WriteString("</div>\n")
	return b.String(), nil
}
