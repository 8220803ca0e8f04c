package rename

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"tankside/builder/begin"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// split is a section that becomes an article of its own.
type split struct {
	p       *Plan
	kind    manual.Kind
	path    string // of the new article
	of      *manual.Article
	section *manual.Section
	moved   []*moving                   // of the article and of each of its translations
	anchors map[*manual.Section]string  // of what moves, in the new article; "" for the section itself
	home    map[*manual.Section]*moving // of what moves
}

// moving is the piece of one file that moves.
type moving struct {
	a          *manual.Article
	section    *manual.Section
	path       string // to where
	begin, end int    // of the text below its heading, in the body
}

// Split works out how a section, "soils/wax.md#melt-it", becomes an article of its own, with what translations say of it. In its place stays the heading with a
// link. The new article has the sources and the station of the old one, and no approval. The error is a *Refusal where it would be unsafe.
func Split(ctx context.Context, from fs.FS, old, to string) (*Plan, error) {
	p, findings, err := begun(ctx, from)
	if err != nil {
		return nil, err
	}
	s := &split{p: p, anchors: map[*manual.Section]string{}, home: map[*manual.Section]*moving{}}
	if s.find(old, to); len(p.why) > 0 {
		return nil, p.refused()
	}
	for _, m := range s.moved {
		s.number(m)
	}
	if err := p.links(s.target); err != nil {
		return nil, err
	}
	if err := p.refused(); err != nil {
		return nil, err
	}
	p.ordered()
	for _, m := range s.moved {
		if err := s.take(m); err != nil {
			return nil, err
		}
	}
	p.Old, p.New = old, s.path
	p.ordered()
	without := map[string]bool{}
	for _, m := range s.moved {
		without[m.a.Path] = true
	}
	m, after, err := p.afterwards(ctx)
	if err != nil {
		return nil, err
	}
	if err := p.approvals(m, without); err != nil {
		return nil, err
	}
	p.ordered()
	return p, s.prove(m, findings, after)
}

// find finds the section and where it is to go.
func (s *split) find(old, to string) {
	p := s.p
	file, anchor, is := strings.Cut(old, "#")
	s.of = p.m.At(file)
	if !is || s.of == nil || s.of.Language != "" {
		p.refuse(finding.Place{}, "“"+old+"” is no heading of an article.", "Give the path of the article, a number sign and the address of the heading: soils/wax.md#melt-it")
		return
	}
	if s.section = sectionAt(s.of, anchor); s.section == nil {
		p.refuse(finding.Place{File: file}, "The article has no heading #"+anchor+".", "Give the address of one of its headings.")
		return
	}
	if s.of.Kind == manual.Symptom {
		p.refuse(s.section.At, "The sections of a symptom are the steps of its walk.", "Move the step's words by hand, and have the answers lead to the new article.")
		return
	}
	if s.section.Level < 2 {
		p.refuse(s.section.At, "This is a heading of level 1, which the text has none of.", "Write it with two number signs.")
		return
	}
	if !strings.Contains(to, "/") {
		to = path.Dir(file) + "/" + to
	}
	s.path = path.Clean(strings.TrimSuffix(to, ".md")) + ".md"
	folder, _, _ := strings.Cut(s.path, "/")
	for _, k := range manual.Kinds {
		if k.Folder() == folder {
			s.kind = k
		}
	}
	name := strings.TrimSuffix(path.Base(s.path), ".md")
	if wrong := manual.CheckName(s.path); len(wrong) > 0 || s.kind == "" {
		p.refuse(finding.Place{}, "The new article cannot be called “"+s.path+"”.", "Choose a name of lower-case words joined by hyphens, in the folder of a kind.")
		return
	}
	if other := p.m.Named(s.kind, name); other != nil {
		p.refuse(finding.Place{File: other.Path}, fmt.Sprintf("There is a %s “%s” already.", s.kind, name), "Choose another name.")
		return
	}
	s.piece(s.of, s.section, s.path)
	for t := range everyArticle(p.m) {
		if t.Original != s.of {
			continue
		}
		if same := s.of.Same(s.section, t); same != nil {
			s.piece(t, same, strings.TrimSuffix(s.path, ".md")+strings.TrimPrefix(t.Path, strings.TrimSuffix(s.of.Path, ".md")))
		} else {
			p.refuse(finding.Place{File: t.Path}, "The translation has not the same sections, so its own cannot be told.", "Bring it into line first.")
		}
	}
	for _, m := range s.moved {
		there, err := p.exists(m.path)
		if err != nil || there != "" {
			p.refuse(finding.Place{File: m.path}, "There is a file of this name already.", "Choose another name.")
		}
	}
}

// piece notes what of a file moves.
func (s *split) piece(a *manual.Article, section *manual.Section, to string) {
	m := &moving{a: a, section: section, path: to, end: len(a.Body)}
	t := newText(a.Path, a.Body)
	inside := false
	for i := range a.Sections {
		one := &a.Sections[i]
		at := finding.Place{Line: one.At.Line - a.Start + 1, Column: 1}
		switch {
		case one == section:
			inside = true
			s.home[one] = m
			continue
		case !inside:
			continue
		case one.Level <= section.Level:
			m.end = t.at(at)
			inside = false
			continue
		}
		s.home[one] = m
		s.anchors[one] = one.Anchor
	}
	line := section.At.Line - a.Start + 1
	m.begin = t.at(finding.Place{Line: line + 1, Column: 1})
	if m.begin < m.end && (bytes.HasPrefix(a.Body[m.begin:], []byte("---")) || bytes.HasPrefix(a.Body[m.begin:], []byte("==="))) {
		m.begin = t.at(finding.Place{Line: line + 2, Column: 1})
	}
	if len(bytes.TrimSpace(a.Body[m.begin:m.end])) == 0 {
		s.p.refuse(section.At, "There is no text below this heading.", "Choose a section that has some.")
	}
	s.moved = append(s.moved, m)
}

// number gives what moves the addresses that it has in the new article, which may be without a number behind it.
func (s *split) number(m *moving) {
	var ids []string
	_ = ast.Walk(manual.Parse(m.a.Body[m.begin:m.end]), func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if h, is := n.(*ast.Heading); is && entering {
			if id, has := h.AttributeString("id"); has {
				ids = append(ids, string(id.([]byte)))
			}
		}
		return ast.WalkContinue, nil
	})
	n := 0
	for i := range m.a.Sections {
		one := &m.a.Sections[i]
		if s.home[one] == m && one != m.section && n < len(ids) {
			s.anchors[one] = ids[n]
			n++
		}
	}
}

// target is how a link is to be written afterwards.
func (s *split) target(a *manual.Article, offset int, written string) (string, bool) {
	to, problem := s.p.m.Resolve(a, written)
	if problem != nil || to.Article == nil && to.Picture == nil {
		return written, false
	}
	from := a.Path
	for _, m := range s.moved {
		if m.a == a && offset >= m.begin && offset < m.end {
			from = m.path
		}
	}
	there, anchor := "", ""
	if to.Picture != nil {
		there = to.Picture.Path
	} else {
		there = to.Article.Path
		if to.Section != nil {
			anchor = to.Section.Anchor
		}
	}
	m := s.home[to.Section]
	if to.Section != nil && m != nil {
		there, anchor = m.path, s.anchors[to.Section]
	}
	if from == a.Path && (to.Section == nil || m == nil) {
		return written, false
	}
	if from == there && anchor != "" {
		now := "#" + anchor
		return now, now != written
	}
	now := manual.Relative(&manual.Article{Path: from}, there)
	if anchor != "" {
		now += "#" + anchor
	}
	return now, now != written
}

// take makes the new file of what moves, with its links as they are then, and leaves a link in its place.
func (s *split) take(m *moving) error {
	t, err := s.p.text(m.a.Path)
	if err != nil {
		return err
	}
	body := t.starts[min(m.a.Start, len(t.starts))-1]
	first, last := t.onDisk(body+m.begin), t.onDisk(body+m.end)
	var text bytes.Buffer
	at := first
	rest := s.p.Edits[:0:0]
	for _, e := range s.p.Edits {
		if e.File != m.a.Path || e.Start < first || e.End > last {
			rest = append(rest, e)
			continue
		}
		text.Write(t.disk[at:e.Start])
		text.WriteString(e.Text)
		at = e.End
	}
	text.Write(t.disk[at:last])
	s.p.Edits = rest
	head, err := s.head(m)
	if err != nil {
		return err
	}
	end := t.lineEnd()
	made := strings.ReplaceAll(string(head), "\n", end)
	s.p.made[m.path] = []byte(made + s.raised(strings.Trim(text.String(), "\r\n")) + end)
	link := end + "[" + strings.ReplaceAll(m.section.Heading, "]", "\\]") + "](" + manual.Relative(m.a, m.path) + ")" + end
	if last < len(t.disk) {
		link += end
	}
	s.p.Edits = append(s.p.Edits, Edit{File: m.a.Path, Start: first, End: last, Text: link, At: t.place(body + m.begin)})
	return nil
}

// head is the header of the new file.
func (s *split) head(m *moving) ([]byte, error) {
	name := strings.TrimSuffix(path.Base(s.path), ".md")
	if m.a.Language != "" {
		return []byte("---\ntitle: " + begin.Quoted(m.section.Heading) + "\nsummary:\ntranslates: A\napproved: not yet\n---\n"), nil
	}
	var sources []string
	for _, source := range m.a.Head.Sources {
		sources = append(sources, begin.Quoted(source))
	}
	known := map[string]string{"station": string(m.a.Head.Station)}
	if len(sources) > 0 {
		known["sources"] = "[" + strings.Join(sources, ", ") + "]"
	}
	return begin.Knowing(s.kind, name, m.section.Heading, known)
}

// raised gives the headings of the text the levels that they have in an article of their own.
func (s *split) raised(text string) string {
	by := s.section.Level - 1
	var cuts []int
	_ = ast.Walk(manual.Parse([]byte(text)), func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if h, is := n.(*ast.Heading); is && entering && h.Level > s.section.Level && h.Lines().Len() > 0 {
			start := strings.LastIndexByte(text[:h.Lines().At(0).Start], '#')
			if start >= by {
				cuts = append(cuts, start+1-by)
			}
		}
		return ast.WalkContinue, nil
	})
	for _, at := range slices.Backward(cuts) {
		text = text[:at] + text[at+by:]
	}
	return text
}

func sectionAt(a *manual.Article, anchor string) *manual.Section {
	for i := range a.Sections {
		if s := &a.Sections[i]; s.Level > 0 && s.Anchor == anchor {
			return s
		}
	}
	return nil
}

// prove compares the manual with what it would be: every link has to lead where it led, to what moved in its new place, and nothing may be wrong with any file but that the
// new ones have values to be filled in.
func (s *split) prove(m *manual.Manual, before, after []finding.Finding) error {
	p := s.p
	counts := map[finding.RuleName]int{}
	for _, f := range before {
		counts[f.Rule]++
	}
	for _, f := range after {
		if p.made[f.File] != nil && f.Rule == "wrong-value" {
			continue
		}
		if counts[f.Rule]--; counts[f.Rule] < 0 {
			p.refuse(f.Place, "Afterwards something would be wrong here that is not wrong now: "+f.Message, "Put this right first, or move the section by hand.")
		}
	}
	for a := range everyArticle(p.m) {
		s.compare(m, a)
	}
	return p.refused()
}

// compare compares where the links of an article led and lead.
func (s *split) compare(m *manual.Manual, a *manual.Article) {
	var was, is []string
	piece := (*moving)(nil)
	for _, one := range s.moved {
		if one.a == a {
			piece = one
		}
	}
	for _, link := range slices.Concat(a.Links, a.Pictures) {
		was = append(was, s.leads(s.p.m, a, link.Target))
	}
	for _, file := range []string{a.Path, s.pathOf(piece)} {
		b := m.At(file)
		if b == nil {
			continue
		}
		for _, link := range slices.Concat(b.Links, b.Pictures) {
			is = append(is, s.leads(m, b, link.Target))
		}
	}
	if piece != nil { // the link that stays in its place
		was = append(was, piece.path)
	}
	slices.Sort(was)
	slices.Sort(is)
	if !slices.Equal(was, is) {
		s.p.refuse(finding.Place{File: a.Path}, "Afterwards the links of this article would not all lead where they lead now.", "Write them plainly, as [words](path), or move the section by hand.")
	}
}

func (s *split) pathOf(m *moving) string {
	if m == nil {
		return ""
	}
	return m.path
}

// leads says where a link leads, by paths and addresses of afterwards.
func (s *split) leads(m *manual.Manual, a *manual.Article, target string) string {
	to, problem := m.Resolve(a, target)
	switch {
	case problem != nil:
		return "nowhere: " + target[strings.LastIndexByte(target, '/')+1:]
	case to.Picture != nil:
		return to.Picture.Path
	case to.Article == nil:
		return to.Outside
	case to.Section == nil:
		return to.Article.Path
	}
	if home := s.home[to.Section]; home != nil && m == s.p.m {
		if s.anchors[to.Section] == "" {
			return home.path
		}
		return home.path + "#" + s.anchors[to.Section]
	}
	return to.Article.Path + "#" + to.Section.Anchor
}
