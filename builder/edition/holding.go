package edition

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"tankside/builder/workers"
)

// holding is what there is in a folder: files of the edition whose list it has, as they were published, and everything else, which is
// somebody's work.
type holding struct {
	list    *List                  // or nil
	own     map[string]fs.FileInfo // by path
	folders map[string]bool        // folders of the list's files
	others  []Stray                // in the order of their paths
}

// Stray is something in an edition's folder that the edition did not put there, or not so.
type Stray struct {
	Path    string // within the folder, slash-separated
	Size    int64  // in bytes; of a file
	Time    time.Time
	Changed bool // the edition has a file of this name, and this is another
	folder  bool
	regular bool
}

// String gives path, size and date, as they are told to whoever may look for the file.
func (s Stray) String() string {
	name := s.Path
	if strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) && !unicode.IsMark(r) }) {
		name = strconv.QuoteToGraphic(name) // a terminal would obey it
	}
	switch date := s.Time.Format("2 January 2006, 15:04"); {
	case s.Time.IsZero():
		return name + " (folder that may not be opened)"
	case s.folder:
		return fmt.Sprintf("%s (folder, %s)", name, date)
	case s.Changed:
		return fmt.Sprintf("%s (%d bytes, changed %s)", name, s.Size, date)
	default:
		return fmt.Sprintf("%s (%d bytes, %s)", name, s.Size, date)
	}
}

// hold looks through a folder. l is its list, or nil where it has none; then nothing in it is ours. Files that are as they are in seen are not
// read again. Folders in which the list has nothing, and what is in them, are others.
func hold(ctx context.Context, dir string, l *List, seen map[string]fs.FileInfo) (*holding, error) {
	h := &holding{own: map[string]fs.FileInfo{}, folders: map[string]bool{".": true}}
	sums := l.sums()
	for name := range sums {
		for dir := path.Dir(name); !h.folders[dir]; dir = path.Dir(dir) {
			h.folders[dir] = true
		}
	}
	var found []candidate
	err := filepath.WalkDir(dir, func(at string, e fs.DirEntry, err error) error {
		name, local := within(dir, at)
		if !local {
			return err
		}
		if err != nil {
			return h.closed(name, e, err)
		}
		info, err := e.Info()
		if errors.Is(err, fs.ErrNotExist) {
			return nil
		}
		if err != nil {
			return err
		}
		if e.IsDir() {
			if !h.folders[name] {
				h.others = append(h.others, strayOf(name, info))
			}
			return nil
		}
		sum, listed := sums[name]
		if !listed || !info.Mode().IsRegular() {
			s := strayOf(name, info)
			s.Changed = listed
			h.others = append(h.others, s)
			return nil
		}
		found = append(found, candidate{name: name, sum: sum, info: info})
		return nil
	})
	if err != nil {
		return nil, err
	}
	if err := h.compare(ctx, dir, found, seen); err != nil {
		return nil, err
	}
	slices.SortFunc(h.others, func(a, b Stray) int { return strings.Compare(a.Path, b.Path) })
	return h, nil
}

// within is the path of something below a folder; local is false for the folder itself.
func within(dir, at string) (name string, local bool) {
	rel, err := filepath.Rel(dir, at)
	if err != nil || rel == "." {
		return "", false
	}
	return filepath.ToSlash(rel), true
}

// closed notes a folder that may not be listed. One of the list's own may hold anything now.
func (h *holding) closed(name string, e fs.DirEntry, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case !errors.Is(err, fs.ErrPermission) || e == nil:
		return err
	case h.folders[name]:
		h.others = append(h.others, Stray{Path: name, Changed: true, folder: true})
	}
	return nil
}

// candidate is a file that has a name of the list.
type candidate struct {
	name, sum string
	info      fs.FileInfo
	same      bool
}

// compare tells which of the files are as the list says.
func (h *holding) compare(ctx context.Context, dir string, found []candidate, seen map[string]fs.FileInfo) error {
	err := workers.Each(ctx, len(found), func(i int) error {
		c := &found[i]
		if before, known := seen[c.name]; known && untouched(before, c.info) {
			c.same = true
			return nil
		}
		got, err := SumOf(os.DirFS(dir), c.name)
		if errors.Is(err, fs.ErrNotExist) || errors.Is(err, fs.ErrPermission) {
			return nil
		}
		c.same = got == c.sum
		return err
	})
	if err != nil {
		return err
	}
	for _, c := range found {
		if c.same {
			h.own[c.name] = c.info
			continue
		}
		s := strayOf(c.name, c.info)
		s.Changed = true
		h.others = append(h.others, s)
	}
	return nil
}

func strayOf(name string, info fs.FileInfo) Stray {
	return Stray{Path: name, Size: info.Size(), Time: info.ModTime(), folder: info.IsDir(), regular: info.Mode().IsRegular()}
}

// untouched tells whether a file is still the one that was looked at before.
func untouched(before, now fs.FileInfo) bool {
	return now.Mode().IsRegular() && os.SameFile(before, now) && before.Size() == now.Size() && before.ModTime().Equal(now.ModTime())
}

// sums are the checksums of all files of an edition by their paths, compressed neighbours with them, and of the list itself.
func (l *List) sums() map[string]string {
	if l == nil {
		return nil
	}
	sums := make(map[string]string, 2*len(l.Files)+1)
	for _, f := range l.Files {
		sums[f.Path] = f.SHA256
		if f.Gzip != "" {
			sums[f.Path+".gz"] = f.Gzip
		}
		if f.Brotli != "" {
			sums[f.Path+".br"] = f.Brotli
		}
	}
	if l.sum != "" {
		sums[ListName] = l.sum
	}
	return sums
}

// outermost are the others that lie in folders of the edition: of a folder of somebody's, the folder alone.
func (h *holding) outermost() []Stray {
	var list []Stray
	for _, s := range h.others {
		if h.folders[path.Dir(s.Path)] {
			list = append(list, s)
		}
	}
	return list
}

// InTheWayError says that a folder holds what the new edition would replace and no edition has put there. Nothing was changed.
type InTheWayError struct {
	Dir    string
	NoList string // why nothing in the folder is taken for an edition's, or "" where it has a list
	Strays []Stray
}

// mostNamed is how many strays an error names.
const mostNamed = 12

// Error names what is in the way, with size and date, and says what to do.
func (e *InTheWayError) Error() string {
	var b strings.Builder
	if e.NoList != "" {
		fmt.Fprintf(&b, "%s is not an edition and will not be replaced: %s. It holds", e.Dir, e.NoList)
	} else {
		fmt.Fprintf(&b, "%s holds what the new edition would replace and did not come from one, so nothing was published:", e.Dir)
	}
	for i, s := range e.Strays {
		if i == mostNamed {
			fmt.Fprintf(&b, "\n  and %d more", len(e.Strays)-i)
			break
		}
		fmt.Fprintf(&b, "\n  %s", s)
	}
	if e.NoList != "" {
		b.WriteString("\nName another folder with --to, or move what is in this one to another place")
	} else {
		b.WriteString("\nMove it to another place, or rename it, and publish again; or name another folder with --to")
	}
	return b.String()
}

// inTheWay are the strays that cannot stay beside the files of an edition: those that it was to replace, and those that on many computers
// have the same name, where capitals do not count.
func (h *holding) inTheWay(l *List) []Stray {
	files, folders := map[string]bool{fold(ListName): true}, map[string]bool{}
	for name := range l.sums() {
		files[fold(name)] = true
		for dir := path.Dir(name); dir != "." && !folders[fold(dir)]; dir = path.Dir(dir) {
			folders[fold(dir)] = true
		}
	}
	var list []Stray
	for _, s := range h.others {
		name := fold(s.Path)
		blocked := s.Changed || files[name] || !s.folder && folders[name]
		for dir := path.Dir(name); dir != "." && !blocked; dir = path.Dir(dir) {
			blocked = files[dir]
		}
		if blocked {
			list = append(list, s)
		}
	}
	return list
}

// fold writes a path as systems compare it that tell neither capitals nor the two spellings of a letter with its accent.
func fold(name string) string { return strings.ToLower(norm.NFC.String(name)) }
