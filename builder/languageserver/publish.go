package languageserver

import (
	"context"
	"maps"
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// source is what the editor shows as where a finding comes from.
const source = "tankside"

// publishUnless proof-reads a manual and tells the editor the findings of each file for which they are not what they were; or nothing where stop says so on
// the way: again tells that this is still to be done.
func (s *server) publishUnless(ctx context.Context, stop func() bool, d *desk) (again bool, err error) {
	found, done := d.proof(ctx, stop, s.options.Now(), s.options.Compare)
	if !done {
		return true, nil
	}
	if d.refused != "" {
		found = append(found[:len(found):len(found)], finding.Finding{Rule: "unusable", Severity: finding.Result, Place: finding.Place{File: manual.ShopFile}, Message: d.refused})
	}
	byFile := make(map[string][]finding.Finding)
	for _, f := range found {
		byFile[f.File] = append(byFile[f.File], f)
	}
	for p := range d.told {
		if _, still := byFile[p]; !still {
			byFile[p] = nil
		}
	}
	for _, doc := range s.open {
		if _, has := byFile[doc.path]; doc.desk == d && !has {
			byFile[doc.path] = nil
		}
	}
	texts := make(map[string][]string)
	for _, p := range slices.Sorted(maps.Keys(byFile)) {
		if err := s.publishFile(d, p, byFile[p], texts); err != nil {
			return false, err
		}
	}
	clear(d.touched)
	d.whole = true
	return false, nil
}

// publishFirst tells what is found in the texts that have changed, where all else takes long; again tells that this is still to be done.
func (s *server) publishFirst(ctx context.Context, d *desk) (again bool, err error) {
	found := d.first(ctx, s.options.Now)
	texts := make(map[string][]string)
	for _, p := range slices.Sorted(maps.Keys(found)) {
		if err := s.publishFile(d, p, found[p], texts); err != nil {
			return false, err
		}
		delete(d.touched, p)
	}
	return found != nil, nil
}

// publishFile tells the findings of one file, unless they have been told.
func (s *server) publishFile(d *desk, path string, found []finding.Finding, texts map[string][]string) error {
	p := publishParams{URI: d.uri(path), Diagnostics: []diagnostic{}}
	now := told{found, -1}
	if doc := s.openAt(d, path); doc != nil {
		p.URI, p.Version, now.version = doc.uri, &doc.version, doc.version
	}
	before, known := d.told[path]
	if known && !d.touched[path] && before.version == now.version && slices.EqualFunc(before.found, found, same) {
		return nil
	}
	if len(found) == 0 && p.Version == nil {
		delete(d.told, path)
	} else {
		d.told[path] = now
	}
	for _, f := range found {
		p.Diagnostics = append(p.Diagnostics, s.diagnostic(d, f, texts))
	}
	return s.notify("textDocument/publishDiagnostics", p)
}

// same tells whether two findings say the same of the same places.
func same(a, b finding.Finding) bool {
	return a.Rule == b.Rule && a.Place == b.Place && a.Message == b.Message && a.Severity == b.Severity && a.Why == b.Why && a.Remedy == b.Remedy && slices.Equal(a.Also, b.Also)
}

// diagnostic is a finding as the editor shows it: what is wrong, why it matters and what to do.
func (s *server) diagnostic(d *desk, f finding.Finding, texts map[string][]string) diagnostic {
	g := diagnostic{Range: s.spanOf(d, f.Place, texts), Severity: severityWarning, Code: string(f.Rule), Source: source, Message: f.Message}
	if f.Severity.Stops() {
		g.Severity = severityError
	}
	for _, more := range []string{f.Why, f.Remedy} {
		if more != "" {
			g.Message += "\n" + more
		}
	}
	if s.related {
		for _, at := range f.Also {
			uri := d.uri(at.File)
			if doc := s.openAt(d, at.File); doc != nil {
				uri = doc.uri
			}
			g.Related = append(g.Related, related{location{uri, s.spanOf(d, at, texts)}, "disagrees with it"})
		}
	}
	return g
}

// spanOf is where a finding's word stands. texts keeps the lines of the files that were looked at.
func (s *server) spanOf(d *desk, at finding.Place, texts map[string][]string) Range {
	text, known := texts[at.File]
	if !known {
		text = lines(d.text(at.File))
		texts[at.File] = text
	}
	return s.encoding.span(text, at)
}
