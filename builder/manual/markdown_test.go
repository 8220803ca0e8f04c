package manual

import (
	"bytes"
	"testing"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/util"
)

// definitions are link reference definitions and what only looks like them.
// Source: CommonMark Spec 0.31.2 (2024), section 4.7, its examples.
var definitions = []struct{ markdown, html string }{
	{"[foo]: /url \"title\"\n\n[foo]\n", "<p><a href=\"/url\" title=\"title\">foo</a></p>\n"},
	{"   [foo]: \n      /url  \n           'the title'  \n\n[foo]\n", "<p><a href=\"/url\" title=\"the title\">foo</a></p>\n"},
	{"[foo]\n\n[foo]: url\n", "<p><a href=\"url\">foo</a></p>\n"},
	{"[FOO]: /url\n\n[Foo]\n", "<p><a href=\"/url\">Foo</a></p>\n"},
	{"[foo]: /url\n", ""},
	{"[\nfoo\n]: /url\nbar\n", "<p>bar</p>\n"},
	{"[foo]: /url \"title\" ok\n", "<p>[foo]: /url &quot;title&quot; ok</p>\n"},
	{"    [foo]: /url \"title\"\n\n[foo]\n", "<pre><code>[foo]: /url &quot;title&quot;\n</code></pre>\n<p>[foo]</p>\n"},
	{"Foo\n[bar]: /baz\n\n[bar]\n", "<p>Foo\n[bar]: /baz</p>\n<p>[bar]</p>\n"},
	{"[foo]: /foo-url \"foo\"\n[bar]: /bar-url\n  \"bar\"\n[baz]: /baz-url\n\n[foo],\n[bar],\n[baz]\n",
		"<p><a href=\"/foo-url\" title=\"foo\">foo</a>,\n<a href=\"/bar-url\" title=\"bar\">bar</a>,\n<a href=\"/baz-url\">baz</a></p>\n"},
	{"[foo]\n\n> [foo]: /url\n", "<p><a href=\"/url\">foo</a></p>\n<blockquote>\n</blockquote>\n"},
}

func TestLinkReferenceDefinitions(t *testing.T) {
	for _, c := range definitions {
		if got := asHTML(t, dialect, []byte(c.markdown)); got != c.html {
			t.Errorf("%q gives\n%s\nnot\n%s", c.markdown, got, c.html)
		}
	}
}

// FuzzMarkdown compares the parser of manuals with the library's own.
func FuzzMarkdown(f *testing.F) {
	library := goldmark.New(
		goldmark.WithExtensions(extension.Table, extension.Strikethrough, extension.TaskList),
		goldmark.WithParserOptions(parser.WithASTTransformers(util.Prioritized(anchors{}, 100))),
	)
	for _, c := range definitions {
		f.Add([]byte(c.markdown))
	}
	f.Add([]byte("- [a]: b\n  | c |\n  | - |\n\n[a]\n===\n> \v[d]: e\n\n[d]\n"))
	f.Fuzz(func(t *testing.T, source []byte) {
		if len(source) > 1<<10 {
			t.Skip()
		}
		if ours, theirs := asHTML(t, dialect, source), asHTML(t, library, source); ours != theirs {
			t.Errorf("ours:\n%s\nthe library's:\n%s", ours, theirs)
		}
	})
}

func asHTML(t *testing.T, md goldmark.Markdown, source []byte) string {
	t.Helper()
	var out bytes.Buffer
	if err := md.Convert(source, &out); err != nil {
		t.Fatal(err)
	}
	return out.String()
}
