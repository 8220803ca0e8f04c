package languageserver

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// rewriting gathers mends. A name that does not stand where the reader has found it ends it: half a renaming would be worse than none.
type rewriting struct {
	m     *manual.Manual
	of    texts
	known map[string]string // texts that were asked for
	mends []mend
	err   error
}

// text is the text of a file.
func (w *rewriting) text(file string) string {
	text, known := w.known[file]
	if !known {
		if w.known == nil {
			w.known = map[string]string{}
		}
		text = w.of(file)
		w.known[file] = text
	}
	return text
}

// at is the offset of a place in the text of its file.
func at(text string, p finding.Place) int {
	start := 0
	for range max(p.Line, 1) - 1 {
		length, end := lineEnd(text[start:])
		start += length + end
	}
	if p.Line <= 1 && strings.HasPrefix(text, mark) {
		start += len(mark)
	}
	length, _ := lineEnd(text[start:])
	return start + afterRunes(text[start:start+length], max(p.Column, 1)-1)
}

// word replaces a word that begins at a place, in quotation marks or not.
func (w *rewriting) word(p finding.Place, old, with string) {
	text := w.text(p.File)
	from := at(text, p)
	length, _ := lineEnd(text[from:])
	line := text[from : from+length]
	i := strings.Index(line, old)
	if i < 0 || strings.Trim(line[:i], `"' `) != "" {
		w.fail(p, old)
		return
	}
	w.mends = append(w.mends, mend{p.File, from + i, from + i + len(old), with})
}

func (w *rewriting) fail(p finding.Place, what string) {
	if w.err == nil {
		w.err = fmt.Errorf("nothing was renamed: at %s stands “%s” in a way that cannot be changed by itself", p, what)
	}
}

// header replaces the name of an article in a header.
func (w *rewriting) header(by, a *manual.Article, name string) {
	for kind, ref := range by.References {
		if w.m.Named(kind, ref.Name) == a {
			w.word(ref.At, ref.Name, name)
		}
	}
	if by.Language != "" {
		return // see-also is the original's
	}
	for _, e := range by.Head.SeeAlso {
		to, problem := w.m.Reference(by, e.Name)
		if problem != nil || to == nil || to != a && to.Original != a {
			continue
		}
		where, anchor, has := strings.Cut(e.Name, "#")
		i := strings.LastIndex(where, a.Name)
		if i < 0 {
			w.fail(e.At, e.Name)
			continue
		}
		target := where[:i] + name + where[i+len(a.Name):]
		if has {
			target += "#" + anchor
		}
		w.word(e.At, e.Name, target)
	}
}

// shop replaces the name of an article in the shop file and the glossary.
func (w *rewriting) shop(a *manual.Article, name, path string) {
	for _, t := range w.m.Shop.Tanks {
		if w.m.Named(manual.Chemistry, t.Chemistry.Name) == a {
			w.word(t.Chemistry.At, t.Chemistry.Name, name)
		}
	}
	for _, s := range w.m.Shop.SeenMost {
		if w.m.Named(manual.Symptom, s.Name) == a {
			w.word(s.At, s.Name, name)
		}
	}
	for _, term := range w.m.Glossary {
		if w.m.At(term.Article) != a {
			continue
		}
		text := w.text(term.At.File)
		from := at(text, term.At)
		end := len(text)
		for _, other := range w.m.Glossary { // the next term
			if o := at(text, other.At); o > from {
				end = min(end, o)
			}
		}
		key := strings.Index(text[from:end], "article:")
		i := -1
		if key >= 0 {
			i = strings.Index(text[from+key:end], term.Article)
		}
		if i < 0 {
			w.fail(term.At, term.Article)
			continue
		}
		begin := from + key + i
		w.mends = append(w.mends, mend{term.At.File, begin, begin + len(term.Article), path})
	}
}

// maxLink is how many bytes behind the beginning of a link its target may stand.
const maxLink = 4 << 10

// link replaces the target of a link, where it stands or in the definition that the link refers to.
func (w *rewriting) link(file string, l manual.Link, target string) {
	text := w.text(file)
	from := at(text, l.At)
	if i := closing(text[from:min(len(text), from+maxLink)]); i > 0 && strings.HasPrefix(text[from+i:], "](") {
		begin := from + i + len("](")
		begin += len(text[begin:]) - len(strings.TrimLeft(text[begin:], " <\t\r\n"))
		if strings.HasPrefix(text[begin:], l.Target) && ends(text[begin+len(l.Target):]) {
			w.mends = append(w.mends, mend{file, begin, begin + len(l.Target), target})
		} else {
			w.fail(l.At, l.Target)
		}
		return
	}
	found := false
	for begin, line := 0, ""; begin <= len(text); begin += len(line) {
		length, end := lineEnd(text[begin:])
		line = text[begin : begin+length+end]
		if i := strings.Index(line, "]:"); i > 0 && strings.HasPrefix(strings.TrimLeft(line, " "), "[") {
			rest := strings.TrimLeft(line[i+2:], " <")
			if strings.HasPrefix(rest, l.Target) && ends(rest[len(l.Target):]) {
				start := begin + len(line) - len(rest)
				w.mends = append(w.mends, mend{file, start, start + len(l.Target), target})
				found = true
			}
		}
		if end == 0 {
			break
		}
	}
	if !found {
		w.fail(l.At, l.Target)
	}
}

// closing is the offset of the bracket that closes the one with which a text begins; 0 where there is none.
func closing(text string) int {
	depth := 0
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case '\\':
			i++
		case '[':
			depth++
		case ']':
			if depth--; depth == 0 {
				return i
			}
		}
		if depth == 0 {
			return 0
		}
	}
	return 0
}

// ends tells whether the target of a link ends before a text.
func ends(text string) bool { return text == "" || strings.ContainsAny(text[:1], ")> \t\r\n") }

// sorted gives the mends by file and place, each once.
func (w *rewriting) sorted() []mend {
	slices.SortFunc(w.mends, func(a, b mend) int { return cmp.Or(strings.Compare(a.file, b.file), a.from-b.from) })
	return slices.Compact(w.mends)
}
