package rename

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// afterwards reads the manual as it would be.
func (p *Plan) afterwards(ctx context.Context) (*manual.Manual, []finding.Finding, error) {
	written, gone, err := p.Files()
	if err != nil {
		return nil, nil, err
	}
	return manual.Read(ctx, overlay{p.from, written, gone})
}

// prove compares the manual with what it would be: every link has to lead where it led, and nothing new may be wrong with any file.
func (p *Plan) prove(m *manual.Manual, before, after []finding.Finding) error {
	counts := map[finding.RuleName]int{}
	for _, f := range before {
		counts[f.Rule]++
	}
	for _, f := range after {
		if counts[f.Rule]--; counts[f.Rule] < 0 {
			p.refuse(f.Place, "After the renaming something would be wrong here that is not wrong now: "+f.Message, "Choose another name, or put this right first.")
		}
	}
	p.compare(m)
	return p.refused()
}

// compare finds links that would lead elsewhere.
func (p *Plan) compare(m *manual.Manual) {
	for a := range everyArticle(p.m) {
		b := m.At(p.after(a.Path))
		if b == nil || len(b.Links) != len(a.Links) || len(b.Pictures) != len(a.Pictures) {
			p.refuse(finding.Place{File: a.Path}, "After the renaming the article would have other links.", "Write its links plainly, as [words](path).")
			continue
		}
		for i := range a.Links {
			if p.leads(p.m, a, a.Links[i].Target, true) != p.leads(m, b, b.Links[i].Target, false) {
				p.refuse(a.Links[i].At, "After the renaming the link to “"+a.Links[i].Target+"” would lead elsewhere.", "Write it plainly, as [words](path).")
			}
		}
		for i := range a.Pictures {
			if p.leads(p.m, a, a.Pictures[i].Target, true) != p.leads(m, b, b.Pictures[i].Target, false) {
				p.refuse(a.Pictures[i].At, "After the renaming the picture “"+a.Pictures[i].Target+"” would be another.", "Write its path plainly.")
			}
		}
	}
}

// leads says where a link leads, by the paths after the renaming and the number of the heading. A link that leads nowhere leads to what it says.
func (p *Plan) leads(m *manual.Manual, a *manual.Article, target string, old bool) string {
	to, problem := m.Resolve(a, target)
	switch {
	case problem != nil:
		if at := strings.LastIndexByte(target, '/'); at >= 0 {
			target = target[at:]
		}
		return "nowhere: " + target
	case to.Picture != nil:
		return to.Picture.Path
	case to.Article == nil:
		return to.Outside
	}
	at := to.Article.Path
	if old {
		at = p.after(at)
	}
	for i := range to.Article.Sections {
		if &to.Article.Sections[i] == to.Section {
			return fmt.Sprintf("%s, heading %d", at, i)
		}
	}
	return at
}

// overlay is a folder as it would be: some files have other content, or are new, and some are gone.
type overlay struct {
	fs.FS
	written map[string][]byte
	gone    []string
}

// Open implements fs.FS.
func (o overlay) Open(name string) (fs.File, error) {
	if data, is := o.written[name]; is {
		return &memory{Reader: bytes.NewReader(data), entry: entry{path.Base(name), int64(len(data))}}, nil
	}
	if slices.Contains(o.gone, name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return o.FS.Open(name)
}

// ReadDir implements fs.ReadDirFS.
func (o overlay) ReadDir(name string) ([]fs.DirEntry, error) {
	list, err := fs.ReadDir(o.FS, name)
	there := map[string]bool{}
	list = slices.DeleteFunc(list, func(e fs.DirEntry) bool {
		at := path.Join(name, e.Name())
		_, new := o.written[at]
		there[e.Name()] = !new
		return new || slices.Contains(o.gone, at)
	})
	for at, data := range o.written {
		rest, below := strings.CutPrefix(at, name+"/")
		if name == "." {
			rest, below = at, true
		}
		first, _, deeper := strings.Cut(rest, "/")
		switch {
		case !below || deeper && there[first]:
		case deeper:
			there[first] = true
			list = append(list, fs.FileInfoToDirEntry(folder{entry{first, 0}}))
		default:
			list = append(list, fs.FileInfoToDirEntry(entry{first, int64(len(data))}))
		}
	}
	if len(list) > 0 {
		err = nil
	}
	slices.SortFunc(list, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	return list, err
}

// entry is a file in memory.
type entry struct {
	name string
	size int64
}

func (e entry) Name() string       { return e.name }
func (e entry) Size() int64        { return e.size }
func (e entry) Mode() fs.FileMode  { return 0o644 }
func (e entry) ModTime() time.Time { return time.Time{} }
func (e entry) IsDir() bool        { return false }
func (e entry) Sys() any           { return nil }

type folder struct{ entry }

func (folder) Mode() fs.FileMode { return fs.ModeDir | 0o755 }
func (folder) IsDir() bool       { return true }

type memory struct {
	*bytes.Reader
	entry entry
}

func (f *memory) Stat() (fs.FileInfo, error) { return f.entry, nil }
func (f *memory) Close() error               { return nil }

var _ io.Reader = (*memory)(nil)
