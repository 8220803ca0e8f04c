// Package content says what an edition is: the texts that it is made from, file by file and part by part, and one digest over all of it.
//
// A part of an article is a key of its header, or the text below one of its headings; of the shop file, the glossary and the vocabulary each value is a
// part; of a picture, or a file of the shop's own theme, the checksum. What does not reach an edition is no part: comments in headers, the order of
// their keys, quotation marks, line ends, byte order marks, empty lines around a heading, how the file system spells the names of files, the ledger, drafts that
// are left out, and signatures. The readings of baths do reach one and are no part all the same: a manual whose bath was read once more today is still the same
// manual, and otherwise no number would hold for a day. So is what a page says as of the day of publication, such as that a review is overdue.
// So one manual has one digest on every machine, and two manuals differ in their digest exactly if some part differs, which package changes then shows.
package content

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"slices"
	"strings"
	"sync"

	"tankside/builder/manual"
)

// HeaderKey begins the name of a part that is a key of an article's header.
const HeaderKey = "header: "

// Part is one piece of a file, under a name that no other piece of the file has: a key of the header as “header: ph”, a heading as it is read, a value of
// the shop file as “tanks: wash-1: temperature”. The text before the first heading, and a file that is one piece, has the name "".
type Part struct{ Name, Text string }

// IsArticle tells of the path of a file whether it is an article, in the parts of whose text the order counts.
func IsArticle(path string) bool { return strings.HasSuffix(strings.ToLower(path), ".md") }

// Sum is a digest.
type Sum [sha256.Size]byte

// Doc is one file of the manual.
type Doc struct {
	Path    string
	Ordered bool // it matters in which order its parts stand: it is an article
	Sum     Sum  // over path and parts

	parts func() []Part
}

// Parts are the pieces of the file: of an article those of its header by name, then its text in its order; otherwise by name.
func (d Doc) Parts() []Part { return d.parts() }

// DocOf makes a file of its parts.
func DocOf(path string, ordered bool, parts []Part) Doc {
	h := newHasher(path, ordered)
	for _, p := range parts {
		h.part(p.Name, []byte(p.Text))
	}
	return Doc{Path: path, Ordered: ordered, Sum: h.sum(), parts: func() []Part { return parts }}
}

// Content is all that an edition is made from, by path. It is immutable.
type Content struct {
	docs   []Doc
	digest string
}

// New gives the content of some files.
func New(docs []Doc) *Content {
	docs = slices.Clone(docs)
	slices.SortFunc(docs, func(a, b Doc) int { return strings.Compare(a.Path, b.Path) })
	h := sha256.New()
	for i := range docs {
		h.Write(docs[i].Sum[:])
	}
	return &Content{docs, hex.EncodeToString(h.Sum(nil))}
}

// Docs are the files, by path. They are not to be changed.
func (c *Content) Docs() []Doc { return c.docs }

// Digest is a SHA-256 over all parts of all files, in hexadecimal.
func (c *Content) Digest() string { return c.digest }

// At gives the file at a path.
func (c *Content) At(path string) (Doc, bool) {
	i, is := slices.BinarySearchFunc(c.docs, path, func(d Doc, path string) int { return strings.Compare(d.Path, path) })
	if !is {
		return Doc{}, false
	}
	return c.docs[i], true
}

// File is a file that is one piece, such as a picture or a style sheet of the shop's own.
type File struct {
	Path string
	Data []byte
}

// ErrUnreadable says that something of a manual cannot be read, so that nobody can say what its edition would be.
var ErrUnreadable = errors.New("there is something in the manual that cannot be read; see tankside proof")

// Memo keeps the digests of articles from one edition of a sitting to the next. The zero value keeps nothing yet.
type Memo struct {
	mu   sync.Mutex
	sums map[*manual.Article]Sum
}

// Of gives the content of a manual with the files of the shop's own theme that reach an edition. memo may be nil.
func Of(m *manual.Manual, theme []File, memo *Memo) (*Content, error) {
	if m.Undecided {
		return nil, ErrUnreadable
	}
	docs := make([]Doc, 0, m.Count()+len(theme)+8)
	var sums map[*manual.Article]Sum
	if memo != nil {
		memo.mu.Lock()
		defer memo.mu.Unlock()
		sums = make(map[*manual.Article]Sum, m.Count())
	}
	add := func(a *manual.Article) error {
		if a.Partial {
			return fmt.Errorf("%s: %w", a.Path, ErrUnreadable)
		}
		d := Doc{Path: a.Path, Ordered: true, parts: func() []Part { return partsOf(a) }}
		known := false
		if memo != nil {
			d.Sum, known = memo.sums[a]
		}
		if !known {
			d.Sum = sumOf(a)
		}
		if sums != nil {
			sums[a] = d.Sum
		}
		docs = append(docs, d)
		return nil
	}
	for _, a := range m.Articles {
		if err := add(a); err != nil {
			return nil, err
		}
	}
	for _, t := range m.Translations {
		if err := add(t); err != nil {
			return nil, err
		}
	}
	for _, t := range m.Texts {
		said, err := manual.SaidIn(t.Data)
		if err != nil {
			return nil, fmt.Errorf("%s: %w: %w", t.Path, ErrUnreadable, err)
		}
		if len(said) > 0 { // an empty file says no more than none
			docs = append(docs, DocOf(t.Path, false, named(said)))
		}
	}
	for _, p := range m.Pictures {
		docs = append(docs, onePiece(p.Path, p.Data))
	}
	for _, f := range theme {
		docs = append(docs, onePiece(f.Path, f.Data))
	}
	if memo != nil {
		memo.sums = sums
	}
	return New(docs), nil
}

// onePiece is a file of which only the checksum is kept.
func onePiece(path string, data []byte) Doc {
	return DocOf(path, false, []Part{{"", fmt.Sprintf("%d bytes, SHA-256 %x", len(data), sha256.Sum256(data))}})
}

// named makes parts of what a YAML text says.
func named(said []manual.Said) []Part {
	n := namer{}
	parts := make([]Part, len(said))
	for i, s := range said {
		parts[i] = Part{n.name(s.Key), s.Value}
	}
	slices.SortFunc(parts, func(a, b Part) int { return strings.Compare(a.Name, b.Name) })
	return parts
}

// namer gives each name once.
type namer map[string]bool

func (n namer) name(want string) string {
	name := want
	for i := 2; n[name]; i++ {
		name = fmt.Sprintf("%s (%d)", want, i)
	}
	n[name] = true
	return name
}

// partsOf are the parts of an article.
func partsOf(a *manual.Article) []Part {
	parts := make([]Part, 0, len(a.Header)+len(a.Sections)+1)
	pieces(a, func(name string, text []byte) { parts = append(parts, Part{name, string(text)}) })
	return parts
}

// sumOf is the digest over an article's parts, without making them.
func sumOf(a *manual.Article) Sum {
	h := newHasher(a.Path, true)
	pieces(a, h.part)
	return h.sum()
}

// shows tells whether a key of an article's header reaches its pages, as all do but two: that it is no draft goes without saying, and of what is accepted only
// the attack that the sheet of a part accepts is said.
func shows(a *manual.Article, key string) bool {
	switch key {
	case "draft":
		return a.Head.Draft
	case "accept":
		return a.Kind == manual.Part
	}
	return true
}

// pieces goes through the parts of an article. Each text begins with the line of its heading.
func pieces(a *manual.Article, give func(name string, text []byte)) {
	n := make(namer, len(a.Header)+len(a.Sections)+1)
	for _, s := range a.Header {
		if !shows(a, s.Key) {
			continue
		}
		give(n.name(HeaderKey+s.Key), []byte(s.Value))
	}
	rest, line := a.Body, a.Start
	text := func(until int) []byte { // up to a line of the file
		end := 0
		for ; line < until && end < len(rest); line++ {
			next := bytes.IndexByte(rest[end:], '\n')
			if next < 0 {
				end = len(rest)
				break
			}
			end += next + 1
		}
		piece := bytes.Trim(rest[:end], "\n")
		rest = rest[end:]
		return piece
	}
	heading := ""
	parent := ""
	for _, s := range a.Sections {
		if s.Level == 0 {
			continue
		}
		give(n.name(heading), text(s.At.Line))
		heading = s.Heading
		switch {
		case s.Level <= 2:
			parent = s.Heading
		case repeated(a, s.Heading):
			heading = parent + ", " + s.Heading
		}
	}
	give(n.name(heading), bytes.Trim(rest, "\n"))
}

// repeated tells whether several sections of an article have a heading, such as “Recheck” under each remedy.
func repeated(a *manual.Article, heading string) bool {
	times := 0
	for i := range a.Sections {
		if a.Sections[i].Heading == heading {
			times++
		}
	}
	return times > 1
}

// hasher makes the digest of a file.
type hasher struct {
	h   hash.Hash
	len [binary.MaxVarintLen64]byte
}

func newHasher(path string, ordered bool) *hasher {
	h := &hasher{h: sha256.New()}
	h.put([]byte(path))
	if ordered {
		h.put([]byte("ordered"))
	} else {
		h.put(nil)
	}
	return h
}

func (h *hasher) put(text []byte) {
	h.h.Write(h.len[:binary.PutUvarint(h.len[:], uint64(len(text)))])
	h.h.Write(text)
}

func (h *hasher) part(name string, text []byte) {
	h.put([]byte(name))
	h.put(text)
}

func (h *hasher) sum() Sum { return Sum(h.h.Sum(nil)) }
