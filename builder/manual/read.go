package manual

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"

	"tankside/builder/finding"
	"tankside/builder/workers"
)

// What a manual may hold.
const (
	maxText    = 1 << 20 // bytes of an article, of the shop file, of the glossary
	maxHeader  = 64 << 10
	maxBlock   = 32 << 10 // of lines without an empty one between them, listings apart
	maxPicture = 8 << 20
	maxFiles   = 100_000
)

// UnusableError says why a folder cannot be read as a manual at all, and what to do.
type UnusableError struct {
	Problem string // a sentence
	Remedy  string // a sentence
	Err     error  // what the file system said, or nil
}

// Error gives problem and remedy.
func (e *UnusableError) Error() string { return e.Problem + " " + e.Remedy }

// Unwrap gives what the file system said.
func (e *UnusableError) Unwrap() error { return e.Err }

// Read reads the manual in a folder. Articles are read in parallel.
//
// What is wrong with a file is a finding, in the order of places, and the file is read as far as it can be. The error is an
// *UnusableError where there is no manual to speak of (no folder, nothing in it, no shop file), or the error of the context.
//
// Links in the folder that lead out of it are never followed. For a folder of the operating system pass the file system of
// an os.Root, which keeps to this even when the folder is changed while it is read.
func Read(ctx context.Context, fsys fs.FS) (*Manual, []finding.Finding, error) {
	top := &decoder{}
	files, err := walk(ctx, fsys, top)
	if err != nil {
		return nil, nil, err
	}
	read, err := readAll(ctx, fsys, files)
	if err != nil {
		return nil, nil, err
	}

	m := &Manual{
		byPath:  make(map[string]*Article, len(files)),
		byName:  make(map[Kind]map[string]*Article, len(Kinds)),
		byImage: make(map[string]*File),
		refused: make(map[string]bool),
	}
	for _, k := range Kinds {
		m.byName[k] = make(map[string]*Article)
	}
	for _, f := range files {
		if f.sort == refusedFile {
			m.refused[f.path] = true
		}
	}
	digest := sha256.New()
	shopRead := false
	findings := top.findings
	for _, r := range read {
		findings = append(findings, r.d.findings...)
		if r.refused {
			m.refused[r.path] = true
			continue
		}
		fmt.Fprintf(digest, "%d %s %d %x\n", len(r.path), r.path, r.size, r.sum)
		switch r.sort {
		case shopFile:
			m.Shop, shopRead = r.shop, r.shopRead
		case glossaryFile:
			m.Glossary = r.terms
		case pictureFile:
			m.Pictures = append(m.Pictures, File{Path: r.path, Data: r.data})
		case articleFile:
			r.article.Sum = hex.EncodeToString(r.sum[:])
			m.Articles = append(m.Articles, r.article)
			m.byPath[r.path] = r.article
		}
	}
	m.Digest = hex.EncodeToString(digest.Sum(nil))
	for i := range m.Pictures {
		m.byImage[m.Pictures[i].Path] = &m.Pictures[i]
	}
	last := &decoder{}
	m.nameArticles(last)
	for _, r := range read {
		m.lookUp(last, r.d.names, shopRead)
	}
	findings = append(findings, last.findings...)
	finding.Sort(findings)
	return m, findings, nil
}

// result is a file that was read.
type result struct {
	source
	d        *decoder
	refused  bool
	sum      [sha256.Size]byte
	article  *Article
	shop     Shop
	shopRead bool
	terms    []Term
	data     []byte
}

// readAll reads the files that are not refused, in parallel, and gives the results in the order of the files.
func readAll(ctx context.Context, fsys fs.FS, files []source) ([]result, error) {
	results := make([]result, len(files))
	err := workers.Each(ctx, len(files), func(i int) error {
		results[i] = readOne(fsys, files[i])
		return nil
	})
	return results, err
}

func readOne(fsys fs.FS, f source) result {
	r := result{source: f, d: &decoder{file: f.path}}
	if f.sort == refusedFile {
		r.refused = true
		return r
	}
	data, ok := r.d.load(fsys, f)
	if !ok {
		r.refused = true
		return r
	}
	r.sum = sha256.Sum256(data)
	if f.sort == pictureFile {
		r.data = data
		r.refused = !safePicture(r.d, f.path, data)
		return r
	}
	data, ok = r.d.clean(data)
	switch {
	case !ok && f.sort == articleFile:
		r.refused = true
	case !ok:
		// Without the shop file there is nothing to check names against, but the rest of the manual can be read.
	case f.sort == shopFile:
		r.shop, r.shopRead = readShop(r.d, data)
	case f.sort == glossaryFile:
		r.terms = readGlossary(r.d, data)
	default:
		r.article = readArticle(r.d, f.kind, data)
	}
	return r
}
