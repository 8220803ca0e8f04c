package languageserver

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"
)

// overlay is a folder with open texts laid over its files. A text whose file is not there yet is there as if it had been saved; one whose
// path leads to something else than a file, such as a symbolic link, changes nothing.
type overlay struct {
	under fs.FS
	texts map[string]string // by path
}

// over tells whether a text lies at a path.
func (o *overlay) over(name string) (string, bool) {
	text, open := o.texts[name]
	if !open {
		return "", false
	}
	info, err := fs.Lstat(o.under, name)
	return text, err == nil && info.Mode().IsRegular() || errors.Is(err, fs.ErrNotExist)
}

// Open opens a text or a file.
func (o *overlay) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	if text, open := o.over(name); open {
		return &openText{textInfo{path.Base(name), int64(len(text))}, bytes.NewReader([]byte(text))}, nil
	}
	f, err := o.under.Open(name)
	if err != nil && o.holds(name) || err == nil && o.changes(name) {
		if err == nil {
			err = f.Close()
		} else {
			err = nil
		}
		return &openFolder{info: folderInfo(path.Base(name)), in: o, name: name}, err
	}
	return f, err
}

// changes tells whether a folder has other entries than below.
func (o *overlay) changes(name string) bool {
	info, err := fs.Stat(o.under, name)
	return err == nil && info.IsDir() && o.holds(name)
}

// holds tells whether there are texts in a folder or below.
func (o *overlay) holds(folder string) bool {
	for p := range o.texts {
		if folder == "." || strings.HasPrefix(p, folder+"/") {
			return true
		}
	}
	return false
}

// Stat tells of a text or a file.
func (o *overlay) Stat(name string) (fs.FileInfo, error) { return o.tell(name, fs.Stat) }

// Lstat tells of a text or a file, and follows no link.
func (o *overlay) Lstat(name string) (fs.FileInfo, error) { return o.tell(name, fs.Lstat) }

func (o *overlay) tell(name string, below func(fs.FS, string) (fs.FileInfo, error)) (fs.FileInfo, error) {
	if text, open := o.over(name); open {
		return textInfo{path.Base(name), int64(len(text))}, nil
	}
	info, err := below(o.under, name)
	if errors.Is(err, fs.ErrNotExist) && o.holds(name) {
		return folderInfo(path.Base(name)), nil
	}
	return info, err
}

// ReadLink gives where a link leads.
func (o *overlay) ReadLink(name string) (string, error) { return fs.ReadLink(o.under, name) }

// ReadDir lists a folder.
func (o *overlay) ReadDir(name string) ([]fs.DirEntry, error) {
	list, err := fs.ReadDir(o.under, name)
	if err != nil && !(errors.Is(err, fs.ErrNotExist) && o.holds(name)) {
		return list, err
	}
	at := make(map[string]int, len(list))
	for i, e := range list {
		at[e.Name()] = i
	}
	prefix := name + "/"
	if name == "." {
		prefix = ""
	}
	for p, text := range o.texts {
		rest, below := strings.CutPrefix(p, prefix)
		if !below {
			continue
		}
		first, _, deeper := strings.Cut(rest, "/")
		i, there := at[first]
		var e fs.DirEntry = fs.FileInfoToDirEntry(textInfo{first, int64(len(text))})
		if deeper {
			e = fs.FileInfoToDirEntry(folderInfo(first))
		}
		switch {
		case !there:
			at[first] = len(list)
			list = append(list, e)
		case !deeper && list[i].Type().IsRegular():
			list[i] = e
		}
	}
	slices.SortFunc(list, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	return list, nil
}

// textInfo tells of a text.
type textInfo struct {
	name string
	size int64
}

func (i textInfo) Name() string       { return i.name }
func (i textInfo) Size() int64        { return i.size }
func (i textInfo) Mode() fs.FileMode  { return 0o444 }
func (i textInfo) ModTime() time.Time { return time.Time{} }
func (i textInfo) IsDir() bool        { return false }
func (i textInfo) Sys() any           { return nil }

// folderInfo tells of a folder.
type folderInfo string

func (i folderInfo) Name() string       { return string(i) }
func (i folderInfo) Size() int64        { return 0 }
func (i folderInfo) Mode() fs.FileMode  { return fs.ModeDir | 0o555 }
func (i folderInfo) ModTime() time.Time { return time.Time{} }
func (i folderInfo) IsDir() bool        { return true }
func (i folderInfo) Sys() any           { return nil }

// openText is a text that is read.
type openText struct {
	info textInfo
	*bytes.Reader
}

func (t *openText) Stat() (fs.FileInfo, error) { return t.info, nil }
func (t *openText) Close() error               { return nil }

// openFolder is a folder that is read.
type openFolder struct {
	info folderInfo
	in   *overlay
	name string
	list []fs.DirEntry
	read bool
}

func (f *openFolder) Stat() (fs.FileInfo, error) { return f.info, nil }
func (f *openFolder) Close() error               { return nil }
func (f *openFolder) Read([]byte) (int, error) {
	return 0, &fs.PathError{Op: "read", Path: f.name, Err: errors.New("is a folder")}
}

// ReadDir gives the next entries, as fs.ReadDirFile says.
func (f *openFolder) ReadDir(n int) ([]fs.DirEntry, error) {
	if !f.read {
		list, err := f.in.ReadDir(f.name)
		if err != nil {
			return nil, err
		}
		f.list, f.read = list, true
	}
	if n <= 0 {
		list := f.list
		f.list = nil
		return list, nil
	}
	if len(f.list) == 0 {
		return nil, io.EOF
	}
	list := f.list[:min(n, len(f.list))]
	f.list = f.list[len(list):]
	return list, nil
}
