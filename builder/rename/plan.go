package rename

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// Edit puts a text in place of a piece of a file.
type Edit struct {
	File       string        // as it was called before
	Start, End int           // offsets in bytes in the file on the disk
	Text       string        // what stands there afterwards
	At         finding.Place // of Start
}

// Plan is what a renaming would do. It is found out without changing anything.
type Plan struct {
	Edits    []Edit            // in the order of files and places, none within another
	Moves    map[string]string // files that get another path: old → new
	Old, New string            // the addresses, as the file of old addresses has them
	Kept     bool              // whether the old address leads on; false where a renaming is taken back

	made  map[string][]byte // files that are new
	from  fs.FS
	texts map[string]*text
	m     *manual.Manual
	why   []Reason
}

// Reason is why a renaming is refused, where, and what to do.
type Reason struct {
	At              finding.Place
	Problem, Remedy string
}

// Refusal says why a renaming would be unsafe. Nothing has been changed.
type Refusal struct{ Reasons []Reason }

// Error gives the reasons, each with its place.
func (r *Refusal) Error() string {
	var b bytes.Buffer
	for i, reason := range r.Reasons {
		if i > 0 {
			b.WriteByte('\n')
		}
		if reason.At.File != "" {
			b.WriteString(reason.At.String() + ": ")
		}
		b.WriteString(reason.Problem + " " + reason.Remedy)
	}
	return b.String()
}

// refuse notes a reason against the renaming.
func (p *Plan) refuse(at finding.Place, problem, remedy string) {
	p.why = append(p.why, Reason{at, problem, remedy})
}

// refused gives the reasons so far as an error, or nil.
func (p *Plan) refused() error {
	if len(p.why) == 0 {
		return nil
	}
	return &Refusal{p.why}
}

// unread are the rules of the reader after which part of a file is not known, and a name in it would be missed.
var unread = []finding.RuleName{"unreadable-file", "two-versions", "too-large", "not-a-file", "no-header", "unreadable-yaml", "same-address"}

// begun reads the manual for a plan, and refuses where part of it is not known.
func begun(ctx context.Context, from fs.FS) (*Plan, []finding.Finding, error) {
	m, findings, err := manual.Read(ctx, from)
	if err != nil {
		return nil, nil, err
	}
	p := &Plan{from: from, texts: map[string]*text{}, m: m, Moves: map[string]string{}, made: map[string][]byte{}}
	for _, f := range findings {
		if slices.Contains(unread, f.Rule) {
			p.refuse(f.Place, "This cannot be read whole, so a name in it would be missed: "+f.Message, f.Remedy)
		}
	}
	return p, findings, p.refused()
}

// ordered puts the edits in order.
func (p *Plan) ordered() {
	slices.SortFunc(p.Edits, func(a, b Edit) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Start, b.Start), cmp.Compare(a.End, b.End))
	})
	p.Edits = slices.Compact(p.Edits)
}

// For works out how old gets the name to. Old is a path of the manual ("soils/wax.md"), a path with a heading ("soils/wax.md#melt-it"), the name of an
// article or the id of a tank; to is a path, a name, the new words of the heading or an id. The error is a *Refusal where it would be unsafe.
func For(ctx context.Context, from fs.FS, old, to string) (*Plan, error) {
	p, findings, err := begun(ctx, from)
	if err != nil {
		return nil, err
	}
	if err := p.work(old, to); err != nil {
		return nil, err
	}
	if err := p.refused(); err != nil {
		return nil, err
	}
	p.ordered()
	without := map[string]bool{}
	if file, _, heading := strings.Cut(old, "#"); heading {
		without[file] = true // its own words are others
	}
	m, after, err := p.afterwards(ctx)
	if err != nil {
		return nil, err
	}
	if err := p.approvals(m, without); err != nil {
		return nil, err
	}
	p.ordered()
	return p, p.prove(m, findings, after)
}

// everyArticle goes through articles, translations and drafts, those that are left out as well.
func everyArticle(m *manual.Manual) func(func(*manual.Article) bool) {
	return func(yield func(*manual.Article) bool) {
		for _, articles := range []func(func(int, *manual.Article) bool){m.Articles, m.Translations, m.Drafts} {
			for _, a := range articles {
				if !yield(a) {
					return
				}
			}
		}
	}
}

// text gives a file of the manual, empty where there is none.
func (p *Plan) text(file string) (*text, error) {
	if t := p.texts[file]; t != nil {
		return t, nil
	}
	data, err := fs.ReadFile(p.from, file)
	if err != nil {
		return nil, err
	}
	p.texts[file] = newText(file, data)
	return p.texts[file], nil
}

// edit puts new words in place of those between two offsets of a text that was read.
func (p *Plan) edit(t *text, start, end int, words string) {
	if string(t.read[start:end]) == words {
		return
	}
	p.Edits = append(p.Edits, Edit{File: t.file, Start: t.onDisk(start), End: t.onDisk(end), Text: words, At: t.place(start)})
}

// Made lists the files that are new.
func (p *Plan) Made() []string { return slices.Sorted(maps.Keys(p.made)) }

// Files gives what is written and what is taken away: the content of each file that changes, by its path afterwards, and the paths that are gone.
func (p *Plan) Files() (written map[string][]byte, gone []string, err error) {
	written = map[string][]byte{}
	byFile := map[string][]Edit{}
	for old := range p.Moves {
		byFile[old] = nil
	}
	for _, e := range p.Edits {
		byFile[e.File] = append(byFile[e.File], e)
	}
	for file, edits := range byFile {
		var disk []byte
		if t := p.texts[file]; t != nil {
			disk = t.disk
		} else if disk, err = fs.ReadFile(p.from, file); err != nil {
			return nil, nil, err
		}
		var b bytes.Buffer
		at := 0
		for _, e := range edits {
			if e.Start < at {
				return nil, nil, fmt.Errorf("%s: two edits of a renaming meet", e.At)
			}
			b.Write(disk[at:e.Start])
			b.WriteString(e.Text)
			at = e.End
		}
		b.Write(disk[at:])
		to := file
		if moved := p.Moves[file]; moved != "" {
			to = moved
			gone = append(gone, file)
		}
		if file == manual.MovedFile && b.Len() == 0 {
			gone = append(gone, file)
			continue
		}
		written[to] = b.Bytes()
	}
	for file, text := range p.made {
		written[file] = text
	}
	slices.Sort(gone)
	return written, gone, nil
}

// Moved lists the files that get another path, as they were called.
func (p *Plan) Moved() []string { return slices.Sorted(maps.Keys(p.Moves)) }

// Begun lists the files that are edited and not there yet: the file of old addresses, at the first renaming.
func (p *Plan) Begun() []string {
	var list []string
	for _, e := range p.Edits {
		if t := p.texts[e.File]; t != nil && t.disk == nil && !slices.Contains(list, e.File) {
			list = append(list, e.File)
		}
	}
	return list
}
