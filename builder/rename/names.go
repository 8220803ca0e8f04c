package rename

import (
	"bytes"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// mentioned gives an article its new name in headers and in the shop file.
func (p *Plan) mentioned(a *manual.Article, name string) error {
	if name == a.Name {
		return nil
	}
	if err := p.notAWord(a, name); err != nil {
		return err
	}
	for mention := range p.m.Mentions {
		if !mention.Article(p.m, a) {
			continue
		}
		for _, k := range mention.Kinds {
			if k == a.Kind {
				continue
			}
			if other := p.m.Named(k, a.Name); other != nil {
				p.refuse(mention.At, fmt.Sprintf("“%s” may mean %s or %s here.", a.Name, a.Path, other.Path), "Rename the other first, or say which is meant by another name.")
			}
			if other := p.m.Named(k, name); other != nil {
				p.refuse(mention.At, fmt.Sprintf("“%s” would mean %s here as well.", name, other.Path), "Choose another name.")
			}
		}
		if slices.Contains(mention.Words, name) {
			p.refuse(mention.At, "“"+name+"” is a word of the format here, and would not name the article any more.", "Choose another name.")
		}
		if err := p.scalar(mention.At, a.Name, name); err != nil {
			return err
		}
	}
	return nil
}

// notAWord refuses a name that the shop has declared as a constituent: headers would mean that.
func (p *Plan) notAWord(a *manual.Article, name string) error {
	if there, err := p.exists(manual.VocabularyFile); err != nil || there == "" || a.Kind != manual.Chemistry {
		return err
	}
	t, doc, err := p.yaml(manual.VocabularyFile)
	if err != nil {
		return err
	}
	for item := range below(value(doc, "constituents")) {
		if word := value(item, "word"); word != nil && word.Value == name {
			p.refuse(t.nodePlace(word), "“"+name+"” is a word of the shop's own for a constituent, and headers would mean that.", "Choose another name.")
		}
	}
	return nil
}

// scalar puts a new value in place of the value of a header or of the shop file that stands at a place, between its quotation marks if it has any.
func (p *Plan) scalar(at finding.Place, old, to string) error {
	t, err := p.text(at.File)
	if err != nil {
		return err
	}
	start := t.at(at)
	rest := t.read[start:]
	if len(rest) > 0 && (rest[0] == '"' || rest[0] == '\'') {
		start++
		rest = rest[1:]
	}
	if !bytes.HasPrefix(rest, []byte(old)) {
		p.refuse(at, "“"+old+"” is named here, but written in a way that cannot be changed safely.", "Write it plainly, in one line and without escapes.")
		return nil
	}
	p.edit(t, start, start+len(old), to)
	return nil
}

// input puts another value in place of that of a calculator's input.
func (p *Plan) input(in manual.Input, old, to string) error {
	t, err := p.text(in.At.File)
	if err != nil {
		return err
	}
	start := t.at(in.At)
	end := len(t.read)
	if n := bytes.IndexByte(t.read[start:], '\n'); n >= 0 {
		end = start + n
	}
	line := string(t.read[start:end])
	colon := strings.IndexByte(line, ':')
	n := strings.Index(line[colon+1:], old)
	if colon < 0 || n < 0 || strings.Trim(line[colon+1:colon+1+n], " \t\"'") != "" {
		p.refuse(in.At, "“"+old+"” is named here, but written in a way that cannot be changed safely.", "Write it plainly: tank: "+old)
		return nil
	}
	p.edit(t, start+colon+1+n, start+colon+1+n+len(old), to)
	return nil
}

// ids gives a tank another id in the shop file.
func (p *Plan) ids(old, to string) error {
	t, doc, err := p.yaml(manual.ShopFile)
	if err != nil {
		return err
	}
	for item := range below(value(doc, "tanks")) {
		if id := value(item, "id"); id != nil && strings.TrimSpace(id.Value) == old {
			if err := p.scalar(t.nodePlace(id), old, to); err != nil {
				return err
			}
		}
	}
	return nil
}

// glossary has its terms name the articles by their new paths.
func (p *Plan) glossary() error {
	if there, err := p.exists(manual.GlossaryFile); err != nil || there == "" {
		return err
	}
	t, doc, err := p.yaml(manual.GlossaryFile)
	if err != nil {
		return err
	}
	if doc == nil {
		return nil
	}
	for i := 1; i < len(doc.Content); i += 2 {
		article := value(doc.Content[i], "article")
		if article == nil {
			continue
		}
		to, problem := p.m.Resolve(nil, article.Value)
		if problem != nil || to.Article == nil || p.Moves[to.Article.Path] == "" {
			continue
		}
		_, anchor, has := strings.Cut(article.Value, "#")
		words := p.Moves[to.Article.Path]
		if has {
			words += "#" + anchor
		}
		if err := p.scalar(t.nodePlace(article), article.Value, words); err != nil {
			return err
		}
	}
	return nil
}

// yaml gives a file of keys and values with its top mapping, nil where it has none.
func (p *Plan) yaml(file string) (*text, *yaml.Node, error) {
	t, err := p.text(file)
	if err != nil {
		return nil, nil, err
	}
	var doc yaml.Node
	if err := yaml.Unmarshal(t.read, &doc); err != nil {
		return nil, nil, fmt.Errorf("%s: %w", file, err)
	}
	if len(doc.Content) == 0 || doc.Content[0].Kind != yaml.MappingNode {
		return t, nil, nil
	}
	return t, doc.Content[0], nil
}

func (t *text) nodePlace(n *yaml.Node) finding.Place {
	return finding.Place{File: t.file, Line: n.Line, Column: n.Column}
}

// value gives the value of a key of a mapping, or nil.
func value(mapping *yaml.Node, key string) *yaml.Node {
	if mapping == nil || mapping.Kind != yaml.MappingNode {
		return nil
	}
	for i := 0; i+1 < len(mapping.Content); i += 2 {
		if mapping.Content[i].Value == key {
			return mapping.Content[i+1]
		}
	}
	return nil
}

// below goes through the items of a list; a single mapping counts as a list of one.
func below(list *yaml.Node) func(func(*yaml.Node) bool) {
	return func(yield func(*yaml.Node) bool) {
		if list == nil {
			return
		}
		items := list.Content
		if list.Kind == yaml.MappingNode {
			items = []*yaml.Node{list}
		}
		for _, item := range items {
			if !yield(item) {
				return
			}
		}
	}
}

// exists gives the path of a file that is there and will still be, compared as computers do that do not know capitals; "" where there is none.
func (p *Plan) exists(file string) (string, error) {
	there := ""
	err := fs.WalkDir(p.from, ".", func(at string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if e.IsDir() && at != "." && strings.HasPrefix(e.Name(), ".") {
			return fs.SkipDir
		}
		if !e.IsDir() && p.Moves[at] == "" && strings.EqualFold(at, file) {
			there = at
		}
		return nil
	})
	return there, err
}
