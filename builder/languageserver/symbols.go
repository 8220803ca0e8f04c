package languageserver

import (
	"context"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

type symbol struct {
	Name           string   `json:"name"`
	Detail         string   `json:"detail,omitempty"`
	Kind           int      `json:"kind"`
	Range          Range    `json:"range"`
	SelectionRange Range    `json:"selectionRange"`
	Children       []symbol `json:"children,omitempty"`
}

// Kinds of symbol: LSP 3.17, SymbolKind.
const (
	symbolHeading = 15 // string, as headings of texts usually are
	symbolTank    = 19 // object
)

// documentSymbols are the headings of an article, those of a section below it; of the shop file its tanks, rinses and dryer.
func documentSymbols(ctx context.Context, s *server, p positionParams) (any, error) {
	q := s.inquire(ctx, p)
	if q == nil {
		return nil, nil
	}
	if q.doc.path == manual.ShopFile {
		return s.vessels(q), nil
	}
	a := q.desk.manual.At(q.doc.path)
	if a == nil {
		return []symbol{}, nil
	}
	var sections []manual.Section
	for _, sec := range a.Sections {
		if sec.Level > 0 && sec.At.Line >= 1 && sec.At.Line <= len(q.text) {
			sections = append(sections, sec)
		}
	}
	list, _ := s.below(q, sections, 0)
	return list, nil
}

// below are the headings deeper than a level, each with those below it, and how many there are.
func (s *server) below(q *inquiry, sections []manual.Section, level int) (list []symbol, taken int) {
	list = []symbol{}
	for taken < len(sections) && sections[taken].Level > level {
		sec := sections[taken]
		children, n := s.below(q, sections[taken+1:], sec.Level)
		taken += 1 + n
		end := len(q.text)
		if taken < len(sections) {
			end = sections[taken].At.Line - 1
		}
		line := sec.At.Line - 1
		own := s.bytesIn(q.text, line, 0, len(q.text[line]))
		list = append(list, symbol{Name: orHash(sec.Heading), Kind: symbolHeading, Range: s.toLine(q, own, max(end-1, line)), SelectionRange: own, Children: children})
	}
	return list, taken
}

// orHash is a name for a heading without words, which the protocol does not allow.
func orHash(heading string) string {
	if heading == "" {
		return "#"
	}
	return heading
}

// toLine is a range up to the end of a line.
func (s *server) toLine(q *inquiry, from Range, line int) Range {
	return Range{from.Start, s.bytesIn(q.text, line, 0, len(q.text[line])).End}
}

func (s *server) vessels(q *inquiry) []symbol {
	list := []symbol{}
	add := func(id, name string, at finding.Place) {
		if id == "" || at.Line < 1 || at.Line > len(q.text) {
			return
		}
		own := s.bytesIn(q.text, at.Line-1, 0, len(q.text[at.Line-1]))
		list = append(list, symbol{Name: id, Detail: name, Kind: symbolTank, Range: own, SelectionRange: own})
	}
	shop := &q.desk.manual.Shop
	for _, t := range shop.Tanks {
		add(t.ID, t.Name, t.At)
	}
	for _, r := range shop.Rinses {
		add(r.ID, r.Name, r.At)
	}
	add(shop.Dryer.ID, shop.Dryer.Name, shop.Dryer.At)
	return list
}
