package edition

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
)

// ListName is the file that holds the checksum list.
const ListName = "edition.json"

// WorkerName is the script that keeps an edition for use without a network.
const WorkerName = "offline.js"

// List is the checksum list of an edition, and what it was made from.
type List struct {
	Shop     string            `json:"shop"`
	Edition  int               `json:"edition"`
	Date     string            `json:"date"`   // year-month-day
	Source   string            `json:"source"` // SHA-256 over everything the edition was made from
	Digest   string            `json:"digest"` // SHA-256 over Files
	Changes  Changes           `json:"changes"`
	Articles []Article         `json:"articles"`
	Parcels  map[string]string `json:"parcels"` // what the scripts load on demand: name → file
	Files    []File            `json:"files"`   // by path
}

// Article is one article of the edition, by which two editions are compared.
type Article struct {
	Path     string `json:"path"` // page within the edition
	Title    string `json:"title"`
	Revision string `json:"revision"`
	SHA256   string `json:"sha256"` // of the article's file in the manual
}

// Changes says what an edition changed against the one before it.
type Changes struct {
	Added   []Article `json:"added,omitempty"`
	Revised []Article `json:"revised,omitempty"`
	Removed []Article `json:"removed,omitempty"`
}

// File is one file of the edition with its checksum, and the checksums of its compressed neighbours where it has them.
type File struct {
	Path   string `json:"path"`
	Bytes  int64  `json:"bytes"`
	SHA256 string `json:"sha256"`
	Gzip   string `json:"gz,omitempty"` // SHA-256 of path.gz
	Brotli string `json:"br,omitempty"` // SHA-256 of path.br
}

// ErrNotEdition says that a folder holds no checksum list.
var ErrNotEdition = errors.New("no edition here: the folder has no " + ListName)

// ReadList reads the checksum list of an edition. It returns ErrNotEdition where there is none.
func ReadList(fsys fs.FS) (*List, error) {
	data, err := fs.ReadFile(fsys, ListName)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, ErrNotEdition
	}
	if err != nil {
		return nil, err
	}
	var l List
	if err := json.Unmarshal(data, &l); err != nil {
		return nil, fmt.Errorf("%s is damaged: %w", ListName, err)
	}
	return &l, nil
}

// Compare says what articles changed from one edition to the next.
func Compare(before, after []Article) Changes {
	old := make(map[string]Article, len(before))
	for _, a := range before {
		old[a.Path] = a
	}
	var c Changes
	for _, a := range after {
		b, was := old[a.Path]
		switch {
		case !was:
			c.Added = append(c.Added, a)
		case b.SHA256 != a.SHA256:
			c.Revised = append(c.Revised, a)
		}
		delete(old, a.Path)
	}
	for _, b := range before {
		if _, gone := old[b.Path]; gone {
			c.Removed = append(c.Removed, b)
		}
	}
	return c
}
