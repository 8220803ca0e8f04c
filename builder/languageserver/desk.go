package languageserver

import (
	"context"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"
	"time"

	"tankside/builder/decide/relate"
	"tankside/builder/decide/rules"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// desk is one manual that is worked on, with what is remembered of it from one proof to the next.
type desk struct {
	folder string // absolute
	files  overlay
	close  func() error

	reader  manual.Reader
	uses    relate.Memo
	memo    rules.Memo
	read    bool            // the reader has read the folder
	changed map[string]bool // since

	manual  *manual.Manual    // nil where there is none
	found   []finding.Finding // by the reader, then by the proof
	refused string            // why there is no manual
	proofed bool              // found is of this manual

	whole   bool            // all that was found has been told once
	told    map[string]told // by path: what was published last
	touched map[string]bool // files that may be otherwise since
}

func newDesk(folder string, files fs.FS, close func() error) *desk {
	return &desk{folder: folder, files: overlay{files, map[string]string{}}, close: close, changed: map[string]bool{}, told: map[string]told{}, touched: map[string]bool{}}
}

// told is what was published of a file: of a file that is as it was, with findings that are as they were, the same would be said.
type told struct {
	found   []finding.Finding
	version int // of the open text; -1 where none is open
}

// touch notes that a file may be otherwise.
func (d *desk) touch(path string) { d.changed[path], d.touched[path] = true, true }

// update reads what has changed since the last time.
func (d *desk) update(ctx context.Context) {
	if d.read && len(d.changed) == 0 {
		return
	}
	var paths []string // nil: everything
	if d.read {
		for p := range d.changed {
			paths = append(paths, p)
		}
	}
	clear(d.changed)
	m, found, err := d.reader.Read(ctx, &d.files, paths)
	d.read, d.proofed = err == nil, false
	d.manual, d.found, d.refused = m, found, ""
	if err != nil {
		d.refused = err.Error()
	}
}

// proof gives all findings of the manual as it stands, or false where stop said so before it had them; compare, where it is not nil, adds those beside an
// earlier edition.
func (d *desk) proof(ctx context.Context, stop func() bool, today time.Time, compare Compare) (found []finding.Finding, done bool) {
	d.update(ctx)
	if d.proofed || d.manual == nil {
		return d.found, true
	}
	used := relate.UsedByAgain(d.manual, &d.uses)
	list, done := rules.ProofUnless(stop, d.manual, used, today, &d.memo)
	if !done {
		return nil, false
	}
	d.found = append(d.found, list...)
	if compare != nil {
		d.found = compare(d.folder, d.manual, d.found, today)
	}
	finding.Sort(d.found)
	d.proofed = true
	return d.found, true
}

// manyOthers is how many other texts have to be read again before what is found in the changed ones is told first: so many take as long as a reader waits.
const manyOthers = 12

// first gives, where a change touches many other texts, what is found in the changed ones alone, by their files; otherwise nothing. What was told of them by rules
// about the whole manual stays until those have been asked.
func (d *desk) first(ctx context.Context, today func() time.Time) map[string][]finding.Finding {
	d.update(ctx)
	if d.proofed || d.manual == nil || !d.whole || len(d.touched) == 0 {
		return nil
	}
	found, others := d.alone(slices.Sorted(maps.Keys(d.touched)), today)
	if others < manyOthers {
		return nil
	}
	return found
}

// alone gives what is found in some files alone, and how many other texts have to be read before it is known whether all else is as it was told.
func (d *desk) alone(files []string, today func() time.Time) (found map[string][]finding.Finding, others int) {
	list, others := rules.First(d.manual, relate.UsedByAgain(d.manual, &d.uses), today(), &d.memo, files)
	found = make(map[string][]finding.Finding, len(files))
	for _, p := range files {
		found[p] = nil
		for _, f := range slices.Concat(d.found, list) {
			if f.File == p {
				found[p] = append(found[p], f)
			}
		}
		text := d.manual.At(p) != nil
		for _, f := range d.told[p].found {
			if text && rules.OfWhole(f.Rule) || !text && !rules.OfReader(f.Rule) {
				found[p] = append(found[p], f)
			}
		}
		finding.Sort(found[p])
	}
	return found, others
}

// in gives what is found in one file: where much has to be read again, all that can be known without.
func (d *desk) in(ctx context.Context, path string, o Options) []finding.Finding {
	if d.update(ctx); d.manual != nil && !d.proofed && d.whole {
		if found, others := d.alone([]string{path}, o.Now); others >= manyOthers {
			return found[path]
		}
	}
	all, _ := d.proof(ctx, func() bool { return false }, o.Now(), o.Compare)
	return slices.DeleteFunc(slices.Clone(all), func(f finding.Finding) bool { return f.File != path })
}

// uri is the address of a file of the manual.
func (d *desk) uri(path string) string {
	return uriOf(filepath.Join(d.folder, filepath.FromSlash(path)))
}

// text gives the text of a file as it stands, open or on the disk; "" where it cannot be read.
func (d *desk) text(path string) string {
	if text, open := d.files.over(path); open {
		return text
	}
	info, err := fs.Stat(&d.files, path)
	if err != nil || !info.Mode().IsRegular() || info.Size() > maxText {
		return ""
	}
	data, err := fs.ReadFile(&d.files, path)
	if err != nil {
		return "" // the proof-reader says so
	}
	return string(data)
}
