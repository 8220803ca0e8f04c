package languageserver

import (
	"context"
	"errors"
	"regexp"
	"strings"

	"tankside/builder/manual"
)

var oneLineHeading = regexp.MustCompile(`^( {0,3}#{2,6}[ \t]+)(.*?)(?:[ \t]+#+)?[ \t]*$`)

// headingWords gives where the words of a heading stand in a line; ok is false for one that is underlined instead.
func headingWords(line string) (from, to int, ok bool) {
	m := oneLineHeading.FindStringSubmatchIndex(line)
	if m == nil {
		return 0, 0, false
	}
	return m[4], m[5], true
}

// renameHeading gives a heading of an article other words, and every link to it, or to another heading whose address follows from it, the
// address that it then has.
func renameHeading(ctx context.Context, m *manual.Manual, of texts, a *manual.Article, section int, words string) (renaming, error) {
	words = strings.TrimSpace(words)
	if words == "" || strings.ContainsAny(words, "\r\n") {
		return renaming{}, errors.New("a heading has words, in one line")
	}
	text := of(a.Path)
	place := a.Sections[section].At
	place.Column = 1
	start := at(text, place)
	length, _ := lineEnd(text[start:])
	from, to, ok := headingWords(text[start : start+length])
	if !ok {
		return renaming{}, errors.New("the heading does not begin with ##, so it cannot be changed by itself")
	}
	w := &rewriting{m: m, of: of, mends: []mend{{a.Path, start + from, start + to, words}}}
	after, _, err := alone(ctx, a.Path, text[:start+from]+words+text[start+to:])
	if err != nil {
		return renaming{}, err
	}
	if after == nil || len(after.Sections) != len(a.Sections) || after.Sections[section].At.Line != a.Sections[section].At.Line {
		return renaming{}, errors.New("with these words it would be no heading any more")
	}
	anchors := map[*manual.Section]string{}
	for i := range a.Sections {
		if a.Sections[i].Anchor != after.Sections[i].Anchor {
			anchors[&a.Sections[i]] = after.Sections[i].Anchor
		}
	}
	for _, list := range []func(func(int, *manual.Article) bool){m.Articles, m.Translations} {
		for _, by := range list {
			for _, l := range by.Links {
				if dest, problem := m.Resolve(by, l.Target); problem == nil && anchors[dest.Section] != "" {
					where, _, _ := strings.Cut(l.Target, "#")
					w.link(by.Path, l, where+"#"+anchors[dest.Section])
				}
			}
			if by.Language != "" {
				continue
			}
			for _, e := range by.Head.SeeAlso {
				if !strings.Contains(e.Name, "#") {
					continue
				}
				if dest, problem := m.Resolve(by, e.Name); problem == nil && anchors[dest.Section] != "" {
					where, _, _ := strings.Cut(e.Name, "#")
					w.word(e.At, e.Name, where+"#"+anchors[dest.Section])
				}
			}
		}
	}
	return renaming{mends: w.sorted()}, w.err
}
