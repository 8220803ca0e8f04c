package rename

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// heading gives a heading other words, and the links to it the address that follows from them.
func (p *Plan) heading(a *manual.Article, anchor, words string) error {
	var section *manual.Section
	var anchors []string
	for i := range a.Sections {
		if s := &a.Sections[i]; s.Level > 0 {
			anchors = append(anchors, s.Anchor)
			if s.Anchor == anchor {
				section = s
			}
		}
	}
	if section == nil {
		remedy := "Give the address of one of its headings: " + strings.Join(anchors, ", ") + "."
		if near := manual.Nearest(manual.Anchor(anchor), anchors); near != "" {
			remedy = "Did you mean #" + near + "?"
		}
		p.refuse(finding.Place{File: a.Path}, "The article has no heading #"+anchor+".", remedy)
		return nil
	}
	words = strings.TrimSpace(words)
	if words == "" || strings.ContainsAny(words, "\n\r") {
		p.refuse(section.At, "A heading is one line of words.", "Give the new words of the heading.")
		return nil
	}
	t, err := p.text(a.Path)
	if err != nil {
		return err
	}
	h := headings(a.Body)[anchor]
	if h == nil || h.Lines().Len() != 1 {
		p.refuse(section.At, "The heading goes over several lines.", "Write it in one line: ## "+section.Heading)
		return nil
	}
	body := t.starts[min(a.Start, len(t.starts))-1]
	line := h.Lines().At(0)
	raw := string(a.Body[line.Start:line.Stop])
	begins := line.Start + len(raw) - len(strings.TrimLeft(raw, " \t"))
	ends := begins + len(strings.TrimSpace(raw))
	p.edit(t, body+begins, body+ends, words)
	now, same := anchorsThen(a.Body, slices.Concat(a.Body[:begins], []byte(words), a.Body[ends:]))
	if !same {
		p.refuse(section.At, "With these words it would be no heading any more.", "Choose other words.")
		return nil
	}
	if other := now[anchor]; other != "" && slices.Contains(anchors, other) {
		p.refuse(section.At, "Another heading of the article has the address #"+other+".", "Choose other words.")
		return nil
	}
	if err := p.links(p.byAnchor(a, now)); err != nil {
		return err
	}
	leads := []lead{{a.Path + "#" + anchor, a.Path + "#" + cmp.Or(now[anchor], anchor)}}
	for _, was := range slices.Sorted(maps.Keys(now)) {
		if was != anchor {
			leads = append(leads, lead{a.Path + "#" + was, a.Path + "#" + now[was]})
		}
	}
	return p.forward(leads...)
}

// headings gives the headings of a text by their addresses.
func headings(body []byte) map[string]*ast.Heading {
	list := map[string]*ast.Heading{}
	for h, id := range eachHeading(body) {
		list[id] = h
	}
	return list
}

// eachHeading goes through the headings of a text, with their addresses.
func eachHeading(body []byte) func(func(*ast.Heading, string) bool) {
	return func(yield func(*ast.Heading, string) bool) {
		_ = ast.Walk(manual.Parse(body), func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			if h, is := n.(*ast.Heading); is && entering {
				if id, has := h.AttributeString("id"); has && !yield(h, string(id.([]byte))) {
					return ast.WalkStop, nil
				}
			}
			return ast.WalkContinue, nil
		})
	}
}

// anchorsThen gives the addresses of headings that are otherwise in another text with the same headings: those of one name are numbered. same is false where it
// has not the same headings.
func anchorsThen(before, after []byte) (now map[string]string, same bool) {
	var old, list []string
	for _, id := range eachHeading(before) {
		old = append(old, id)
	}
	for _, id := range eachHeading(after) {
		list = append(list, id)
	}
	if len(old) != len(list) {
		return nil, false
	}
	now = map[string]string{}
	for i, id := range old {
		if list[i] != id {
			now[id] = list[i]
		}
	}
	return now, true
}
