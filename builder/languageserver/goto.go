package languageserver

import (
	"context"

	"tankside/builder/finding"
)

// inquiry is a question about a position of an open text, with all that is needed to answer it.
type inquiry struct {
	desk         *desk
	doc          *document
	text         []string
	line, column int // the column in bytes
}

// inquire reads the manual as it stands; nil where the text is not open or there is no manual.
func (s *server) inquire(ctx context.Context, p positionParams) *inquiry {
	file, _ := fileOf(p.TextDocument.URI)
	doc := s.open[file]
	if doc == nil {
		return nil
	}
	doc.desk.update(ctx)
	if doc.desk.manual == nil {
		return nil
	}
	q := &inquiry{desk: doc.desk, doc: doc, text: lines(doc.text), line: int(p.Position.Line)}
	if q.line >= len(q.text) {
		q.line = len(q.text) - 1
		q.column = len(q.text[q.line])
	} else {
		q.column = s.encoding.bytesOf(q.text[q.line], p.Position.Character)
	}
	return q
}

// bytes is the range of some bytes of a line.
func (s *server) bytesIn(text []string, line, from, to int) Range {
	return Range{Position{uint32(line), s.encoding.columns(text[line][:from])}, Position{uint32(line), s.encoding.columns(text[line][:to])}}
}

// locationOf is a place as the editor goes to it.
func (s *server) locationOf(d *desk, at finding.Place, texts map[string][]string) location {
	uri := d.uri(at.File)
	if doc := s.openAt(d, at.File); doc != nil {
		uri = doc.uri
	}
	return location{uri, s.spanOf(d, at, texts)}
}

// definition is where the thing stands that a word names.
func definition(ctx context.Context, s *server, p positionParams) (any, error) {
	q := s.inquire(ctx, p)
	if q == nil {
		return nil, nil
	}
	t, here, ok := s.thingAt(q.desk, q.doc.path, q.text, q.line, q.column)
	if !ok || here {
		return nil, nil
	}
	at, there := t.place(q.desk.manual)
	if !there {
		return nil, nil
	}
	return s.locationOf(q.desk, at, map[string][]string{}), nil
}

// references are the places that name a thing: the one that the word at the position names, or else the one that it stands in.
func references(ctx context.Context, s *server, p referenceParams) (any, error) {
	q := s.inquire(ctx, p.positionParams)
	if q == nil {
		return nil, nil
	}
	t, _, ok := s.thingAt(q.desk, q.doc.path, q.text, q.line, q.column)
	if !ok {
		return nil, nil
	}
	places := t.uses(q.desk.manual)
	if at, there := t.place(q.desk.manual); there && p.Context.IncludeDeclaration {
		places = append([]finding.Place{at}, places...)
	}
	texts, list := map[string][]string{}, []location{}
	for _, at := range places[:min(len(places), maxAddresses)] {
		list = append(list, s.locationOf(q.desk, at, texts))
	}
	return list, nil
}
