package page

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/alecthomas/chroma/v2/lexers"
	"github.com/yuin/goldmark/ast"

	"tankside/builder/manual"
)

// Of many listings the first are highlighted and all are there: colouring takes longer than all else that is done for a page.
func TestManyListingsAreNotAllHighlighted(t *testing.T) {
	t.Parallel()
	const n = 60
	var source strings.Builder
	for i := range n {
		fmt.Fprintf(&source, "```json\n{\"listing\": %d}\n%s```\n\n", i, strings.Repeat("[true]\n", 90))
	}
	b := &body{source: []byte(source.String())}
	var blocks []*ast.FencedCodeBlock
	doc := manual.Parse(b.source)
	for c := doc.FirstChild(); c != nil; c = c.NextSibling() {
		blocks = append(blocks, c.(*ast.FencedCodeBlock))
	}
	for _, block := range blocks {
		b.listing(block)
	}
	if b.err != nil || len(blocks) != n {
		t.Fatal(len(blocks), b.err)
	}
	i, lit := 0, 0
	for c := doc.FirstChild(); c != nil; c, i = c.NextSibling(), i+1 {
		html := c.(*ready).html
		if !strings.Contains(html, fmt.Sprint(i)) || !strings.Contains(html, "true") {
			t.Fatalf("listing %d is lost: %s", i, html)
		}
		if strings.Contains(html, `class="nt"`) {
			lit++
		}
	}
	if each := 7*90 + 16; lit < mostHighlighted/each-1 || lit > mostHighlighted/each+1 {
		t.Errorf("%d of %d listings are highlighted, of %d bytes each", lit, n, each)
	}
}

// Whatever stands in a listing, its page is made at once, and nothing of the text is lost.
func TestListingsEnd(t *testing.T) {
	lines := func(piece string, n int) string {
		return strings.Repeat(strings.Repeat(piece, (longestLine-1)/len(piece))+"\n", n)
	}
	texts := map[string]string{
		"blank lines": strings.Repeat("\n", 5_000), "few blank lines": strings.Repeat("\n", mostLines), "one line": strings.Repeat("a", 50_000),
		"large": lines("a b ", 3000), "blanks": strings.Repeat(" ", 20_000), "two languages": strings.Repeat("<?php <?= {{ %> \n", 200),
	}
	for _, piece := range []string{"a", "(", "<", "{%<?=\"'", " ", "\"", "\\", "$(", "-", "#", "/*", "a:", "&a", "`"} {
		texts["lines of "+piece] = lines(piece, longestListing/longestLine)
	}
	const patience = 5 * time.Second // on a busy machine; each takes a few milliseconds
	languages := []string{"", "html+php", "markdown"}
	for language := range highlighted {
		if lexers.Get(language) == nil {
			t.Errorf("%s is no language of the library", language)
		}
		languages = append(languages, language)
	}
	for what, text := range texts {
		for _, language := range languages {
			begin := time.Now()
			if _, err := highlight(language, text); err != nil {
				t.Errorf("%s in %s: %v", what, language, err)
			}
			if took := time.Since(begin); took > patience {
				t.Errorf("%s in %s took %v", what, language, took)
			}
		}
	}
	if made, err := highlight("json", `{"a": 1}`); err != nil || !strings.Contains(made, `class="nt"`) {
		t.Errorf("a small listing is not highlighted: %s, %v", made, err)
	}
}
