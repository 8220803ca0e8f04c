package edition

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"regexp"
)

// ListName is the file that holds the checksum list.
const ListName = "edition.json"

// WorkerName is the script that keeps an edition for use without a network.
const WorkerName = "offline.js"

// CurrentFile is the picture by which copies learn which edition is served, where the shop says where that is. No copy keeps it for use without a network.
const CurrentFile = "current.svg"

// List is the checksum list of an edition, and what it was made from.
type List struct {
	Shop    string `json:"shop"`
	Address string `json:"address,omitempty"` // where the shop serves its newest edition
	Mark
	Source string `json:"source"`          // SHA-256 over what the edition was made from, see package content; Code is made of it
	Digest string `json:"digest"`          // SHA-256 over Files
	First  string `json:"first,omitempty"` // SHA-256 of the page that leads in where the edition is carried as one file; see package carry

	Changes  json.RawMessage `json:"changes,omitempty"` // in lists of older programs
	Articles []Article       `json:"articles"`

	// Translations of the articles. They are articles' words in another language, and no changes of their own.
	Translations []Article `json:"translations,omitempty"`

	Base *Base `json:"base,omitempty"` // what the shop's manual lies over

	Content []string          `json:"content,omitempty"` // files that hold what the edition was made from
	Before  *Before           `json:"before,omitempty"`  // the edition that it was compared with
	Cards   map[string]string `json:"cards,omitempty"`   // codes of the cards, by the ids of tanks, rinses and the dryer; lists of older programs lack them
	Sheets  map[string]string `json:"sheets,omitempty"`  // codes of process sheets and lessons in print, by the paths of their articles; lists of older programs lack them
	Parcels map[string]string `json:"parcels"`           // what the scripts load on demand: name → file
	Files   []File            `json:"files"`             // by path
	Check   string            `json:"check,omitempty"`   // SHA-256 over the list as it is written without this line

	sum string // SHA-256 of the file
}

// plainAddress is what the address of an edition is made of, by package manual: nothing that could mean more in a content security policy.
var plainAddress = regexp.MustCompile(`^https?://[a-z0-9.:\[\]-]+/([A-Za-z0-9._~%/-]*)$`)

// Ask is the address of the picture that says which edition is served now, or "" where the shop serves none.
func (l *List) Ask() string {
	if !plainAddress.MatchString(l.Address) {
		return ""
	}
	return l.Address + CurrentFile
}

// Article is one article of the edition, by which two editions are compared.
type Article struct {
	Path     string `json:"path"` // page within the edition
	Title    string `json:"title"`
	Revision string `json:"revision"`
	SHA256   string `json:"sha256,omitempty"` // in lists of older programs

	// By these it can be told whether what readers work by has changed under one revision. Lists of older editions lack them.
	Approved string `json:"approved,omitempty"` // date and role
	Content  string `json:"content,omitempty"`  // SHA-256 of text and facts
}

// Base is the manual that a shop's edition was made over.
type Base struct {
	Shop string `json:"shop"` // as its shop file has it
	Mark
	Inputs string `json:"inputs"` // SHA-256 of all that the edition was made from, the day and the program among it
}

// Before is the edition with which another was compared.
type Before struct {
	Source string `json:"source"` // as of that edition
	File   string `json:"file"`   // holds what was otherwise in it

	Cards  map[string]string `json:"cards,omitempty"`  // as of that edition
	Sheets map[string]string `json:"sheets,omitempty"` // as of that edition
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

// DamagedListError says that a checksum list is not as an edition's is written, so that nothing it says counts.
type DamagedListError struct {
	Problem string // half a sentence
	Err     error  // what the JSON library said, or nil
}

// Error names the list and the problem.
func (e *DamagedListError) Error() string {
	return ListName + " is damaged, or not of an edition: " + e.Problem
}

// Unwrap gives what the JSON library said.
func (e *DamagedListError) Unwrap() error { return e.Err }

// largestList bounds what is read of a checksum list, in bytes.
const largestList = 1 << 28

// ReadList reads the checksum list of an edition. It returns ErrNotEdition where there is none, and a *DamagedListError where there is one that
// is not as it was written, to the byte.
func ReadList(fsys fs.FS) (*List, error) {
	info, err := fs.Stat(fsys, ListName)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, ErrNotEdition
	}
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() || info.Size() > largestList {
		return nil, &DamagedListError{Problem: "it is no file of a list's size"}
	}
	data, err := fs.ReadFile(fsys, ListName)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, ErrNotEdition
	}
	if err != nil {
		return nil, err
	}
	return parseList(data)
}

// parseList reads a list and compares it with its own checksums. Lists of editions that were written before lists had Check are compared by
// Digest alone.
func parseList(data []byte) (*List, error) {
	var l List
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&l); err != nil {
		return nil, &DamagedListError{Problem: "it cannot be read: " + err.Error(), Err: err}
	}
	for _, f := range l.Files {
		if !fs.ValidPath(f.Path) || f.Path == "." {
			return nil, &DamagedListError{Problem: fmt.Sprintf("%q is no path of a file", f.Path)}
		}
	}
	if l.Digest != l.digest() {
		return nil, &DamagedListError{Problem: "its files are not those of its digest"}
	}
	if l.Check != "" {
		check := l.Check
		again, err := l.encode()
		if err != nil {
			return nil, err
		}
		if l.Check != check || !bytes.Equal(again, data) {
			return nil, &DamagedListError{Problem: "it is not as it was written"}
		}
	}
	l.sum = Sum(data)
	return &l, nil
}

// Same tells whether two lists were read from the same text; nil stands for none.
func (l *List) Same(other *List) bool {
	if l == nil || other == nil {
		return l == other
	}
	return l.sum == other.sum
}

// digest is the checksum over the files, the offline worker apart, which has the digest in it.
func (l *List) digest() string {
	h := sha256.New()
	for _, f := range l.Files {
		if f.Path != WorkerName {
			fmt.Fprintf(h, "%s %s\n", f.SHA256, f.Path)
		}
	}
	return hex.EncodeToString(h.Sum(nil))
}

// encode writes the list with its own checksum.
func (l *List) encode() ([]byte, error) {
	l.Check = ""
	plain, err := l.bytes()
	if err != nil {
		return nil, err
	}
	l.Check = Sum(plain)
	data, err := l.bytes()
	l.sum = Sum(data)
	return data, err
}

func (l *List) bytes() ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	err := enc.Encode(l)
	return b.Bytes(), err
}
