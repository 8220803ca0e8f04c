package languageserver

import (
	"context"
	"strings"
)

type renameParams struct {
	positionParams
	NewName string `json:"newName"`
}

type prepared struct {
	Range       Range  `json:"range"`
	Placeholder string `json:"placeholder"`
}

type workspaceEdit struct {
	Changes         map[string][]textEdit `json:"changes,omitempty"`
	DocumentChanges []any                 `json:"documentChanges,omitempty"`
}

type documentEdit struct {
	TextDocument versioned  `json:"textDocument"`
	Edits        []textEdit `json:"edits"`
}

type versioned struct {
	URI     string `json:"uri"`
	Version *int   `json:"version"` // null of what is not open
}

type renameFile struct {
	Kind   string `json:"kind"`
	OldURI string `json:"oldUri"`
	NewURI string `json:"newUri"`
}

// newFile makes an empty file.
type newFile struct {
	Kind string `json:"kind"`
	URI  string `json:"uri"`
}

// renameable is what can be renamed at a position, and where its name stands there: a heading in its line, an article at its title, or
// where a header or a link names it.
func (s *server) renameable(q *inquiry) (t thing, at Range, name string, ok bool) {
	t, here, ok := s.thingAt(q.desk, q.doc.path, q.text, q.line, q.column)
	if !ok || t.article == nil {
		return t, at, "", false
	}
	line := q.text[q.line]
	if t.section != nil {
		from, to, plain := headingWords(line)
		if here && plain {
			return t, s.bytesIn(q.text, q.line, from, to), line[from:to], true
		}
		return t, at, "", false
	}
	if sp, in := spotAt(q.doc.path, q.text, q.line, q.column); in {
		if here && (sp.onKey || sp.key == nil || sp.key.Name != "title") {
			return t, at, "", false
		}
		return t, s.bytesIn(q.text, q.line, sp.from, sp.to), t.article.Name, true
	}
	for _, m := range wholeLink.FindAllStringSubmatchIndex(line, -1) {
		if !here && q.column >= m[0] && q.column <= m[1] {
			return t, s.bytesIn(q.text, q.line, m[2], m[3]), t.article.Name, true
		}
	}
	return t, at, "", false
}

// prepareRename says what would be renamed.
func prepareRename(ctx context.Context, s *server, p positionParams) (any, error) {
	q := s.inquire(ctx, p)
	if q == nil {
		return nil, nil
	}
	_, at, name, ok := s.renameable(q)
	if !ok {
		return nil, nil
	}
	return prepared{at, name}, nil
}

// renameRequest renames an article's file or a heading, with everything that names it.
func renameRequest(ctx context.Context, s *server, p renameParams) (any, error) {
	q := s.inquire(ctx, p.positionParams)
	if q == nil {
		return nil, nil
	}
	t, _, _, ok := s.renameable(q)
	if !ok {
		return nil, &problem{codeRequestFailed, "here stands no heading and no name of an article"}
	}
	old := t.article.Path
	if t.section != nil {
		old += "#" + t.section.Anchor
	} else if !s.renames {
		return nil, &problem{codeRequestFailed, "this editor cannot rename files at the word of a language server"}
	}
	r, err := q.desk.planned(ctx, old, strings.TrimSpace(p.NewName))
	if err != nil {
		return nil, err
	}
	if len(r.made) > 0 && !s.makes {
		return nil, &problem{codeRequestFailed, "this editor cannot make files at the word of a language server; make an empty file " + r.made[0] + " in the manual's folder first, which will say where the old address leads"}
	}
	return s.workspaceEdit(q.desk, r), nil
}

// workspaceEdit is a renaming as the protocol has it.
func (s *server) workspaceEdit(d *desk, r renaming) workspaceEdit {
	var e workspaceEdit
	byFile := map[string][]textEdit{}
	var files []string
	for _, m := range r.mends {
		if byFile[m.file] == nil {
			files = append(files, m.file)
		}
		text := d.text(m.file)
		byFile[m.file] = append(byFile[m.file], textEdit{Range{s.position(text, m.from), s.position(text, m.to)}, m.with})
	}
	if !s.versions {
		e.Changes = map[string][]textEdit{}
		for _, f := range files {
			e.Changes[s.uriAt(d, f)] = byFile[f]
		}
		return e
	}
	for _, f := range r.made {
		e.DocumentChanges = append(e.DocumentChanges, newFile{"create", d.uri(f)})
	}
	for _, f := range files {
		of := versioned{URI: s.uriAt(d, f)}
		if doc := s.openAt(d, f); doc != nil {
			of.Version = &doc.version
		}
		e.DocumentChanges = append(e.DocumentChanges, documentEdit{of, byFile[f]})
	}
	for _, m := range r.moves {
		e.DocumentChanges = append(e.DocumentChanges, renameFile{"rename", s.uriAt(d, m.from), d.uri(m.to)})
	}
	return e
}

// uriAt is the address of a file as the editor writes it.
func (s *server) uriAt(d *desk, file string) string {
	if doc := s.openAt(d, file); doc != nil {
		return doc.uri
	}
	return d.uri(file)
}

// position is where a byte of a text stands.
func (s *server) position(text string, offset int) Position {
	all := lines(text[:offset])
	return Position{uint32(len(all) - 1), s.encoding.columns(all[len(all)-1])}
}
