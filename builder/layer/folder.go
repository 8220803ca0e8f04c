package layer

import (
	"io"
	"io/fs"
	"time"
)

// folder is a folder that both have part in.
type folder struct{ name string }

func (d folder) Name() string               { return d.name }
func (d folder) IsDir() bool                { return true }
func (d folder) Type() fs.FileMode          { return fs.ModeDir }
func (d folder) Info() (fs.FileInfo, error) { return d, nil }
func (d folder) Size() int64                { return 0 }
func (d folder) Mode() fs.FileMode          { return fs.ModeDir | 0o555 }
func (d folder) ModTime() time.Time         { return time.Time{} }
func (d folder) Sys() any                   { return nil }

// opened is a folder that is being listed.
type opened struct {
	folder
	left []fs.DirEntry
}

func (o *opened) Stat() (fs.FileInfo, error) { return o.folder, nil }
func (o *opened) Close() error               { return nil }

func (o *opened) Read([]byte) (int, error) {
	return 0, &fs.PathError{Op: "read", Path: o.name, Err: fs.ErrInvalid}
}

// ReadDir gives the next n entries, or with n ≤ 0 all that are left.
func (o *opened) ReadDir(n int) ([]fs.DirEntry, error) {
	if n <= 0 {
		n = len(o.left)
	} else if len(o.left) == 0 {
		return nil, io.EOF
	}
	n = min(n, len(o.left))
	list := o.left[:n]
	o.left = o.left[n:]
	return list, nil
}
