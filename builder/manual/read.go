package manual

import (
	"bytes"
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"unicode/utf8"

	"tankside/builder/finding"
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
	var names []pending
	for _, r := range read {
		findings = append(findings, r.d.findings...)
		names = append(names, r.d.names...)
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
	m.lookUp(last, names, shopRead)
	findings = append(findings, last.findings...)
	finding.Sort(findings)
	return m, findings, nil
}

// The sorts of file.
type sortOfFile uint8

const (
	refusedFile sortOfFile = iota
	shopFile
	glossaryFile
	articleFile
	pictureFile
)

// source is a file that was found.
type source struct {
	path string
	sort sortOfFile
	kind Kind
	size int64
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

// walk finds the files of the manual, in the order of their paths.
func walk(ctx context.Context, fsys fs.FS, d *decoder) ([]source, error) {
	if info, err := fs.Stat(fsys, "."); err != nil {
		return nil, &UnusableError{Problem: "The folder of the manual cannot be opened.", Remedy: "Give the folder that holds " + ShopFile + ".", Err: err}
	} else if !info.IsDir() {
		return nil, &UnusableError{Problem: "What was given is a file, not the folder of a manual.", Remedy: "Give the folder that holds " + ShopFile + "."}
	}
	var files []source
	entries := 0
	err := fs.WalkDir(fsys, ".", func(p string, entry fs.DirEntry, err error) error {
		if stop := ctx.Err(); stop != nil {
			return stop
		}
		if err != nil {
			if p == "." {
				return &UnusableError{Problem: "The folder of the manual cannot be listed.", Remedy: "See that you may read it.", Err: err}
			}
			d.report(ruleUnreadable, finding.Place{File: p}, "This folder or file cannot be opened: "+reason(err)+".", "See that you may read it.")
			return nil
		}
		if p == "." {
			return nil
		}
		if ignored(entry.Name()) {
			if entry.IsDir() {
				return fs.SkipDir
			}
			return nil
		}
		if entries++; entries > maxFiles {
			d.report(ruleTooLarge, finding.Place{File: p}, "The manual has more than "+strconv.Itoa(maxFiles)+" files and folders; the rest was not read.", "See whether the right folder was given.")
			return fs.SkipAll
		}
		if entry.IsDir() {
			return nil
		}
		files = append(files, sortFile(d, p, entry))
		return nil
	})
	if err != nil {
		return nil, err
	}
	if entries == 0 {
		return nil, &UnusableError{Problem: "The folder is empty: there is no manual in it.", Remedy: "Make one with “tankside start”, or give the folder that holds " + ShopFile + "."}
	}
	if !slices.ContainsFunc(files, func(f source) bool { return f.path == ShopFile }) {
		return nil, &UnusableError{
			Problem: "The folder has no " + ShopFile + ", so it is not a manual.",
			Remedy:  "Make one with “tankside start”, or give the folder that holds " + ShopFile + ".",
		}
	}
	slices.SortFunc(files, func(a, b source) int { return strings.Compare(a.path, b.path) })
	sameAddresses(d, files)
	return files, nil
}

// ignored tells whether a name is of the sort that computers and editors leave behind.
func ignored(name string) bool {
	switch {
	case strings.HasPrefix(name, "."), strings.HasSuffix(name, "~"), strings.HasPrefix(name, "#") && strings.HasSuffix(name, "#"):
		return true
	}
	switch strings.ToLower(name) {
	case "thumbs.db", "desktop.ini", "4913": // the last one is how an editor tries whether it may write
		return true
	}
	return false
}

// sortFile says what a file is in the manual.
func sortFile(d *decoder, p string, entry fs.DirEntry) source {
	at := finding.Place{File: p}
	f := source{path: p}
	if !utf8.ValidString(p) {
		at.File = strings.ToValidUTF8(p, "�")
		d.report(ruleUnusableName, at, "The name of this file is not UTF-8 text.", "Rename it.")
		return f
	}
	if entry.Type()&fs.ModeType != 0 {
		what := "a device, pipe or socket"
		if entry.Type()&fs.ModeSymlink != 0 {
			what = "a symbolic link"
		}
		d.report(ruleNotRegular, at, "This is "+what+", not a file.", "Put a copy of the file itself here.")
		return f
	}
	folder, _, inFolder := strings.Cut(p, "/")
	extension := strings.ToLower(path.Ext(p))
	limit := int64(maxText)
	kind, isKind := kindOf(folder)
	switch {
	case p == ShopFile:
		f.sort = shopFile
	case p == GlossaryFile:
		f.sort = glossaryFile
	case inFolder && isKind && extension == ".md":
		f.sort, f.kind = articleFile, kind
	case inFolder && folder == "pictures" && pictureTypes[extension]:
		f.sort, limit = pictureFile, maxPicture
	case inFolder && folder == "theme":
		return f // the shop's own templates and styles; package page reads them
	default:
		remedy := "Articles are .md files in " + strings.Join(folders(), ", ") + "; pictures are .svg, .png, .jpg, .webp or .gif files in pictures."
		if n := Nearest(folder, append(folders(), "pictures")); inFolder && n != "" && n != folder {
			remedy = "Did you mean the folder " + n + "? " + remedy
		}
		d.report(ruleStray, at, "This file belongs to no part of the manual.", remedy)
		return f
	}
	if !nameFile(d, f) {
		f.sort = refusedFile
		return f
	}
	info, err := entry.Info()
	if err != nil {
		d.report(ruleUnreadable, at, "This file cannot be opened: "+reason(err)+".", "See that you may read it.")
		f.sort = refusedFile
		return f
	}
	if f.size = info.Size(); f.size > limit {
		tooLarge(d, at, f.size, limit)
		f.sort = refusedFile
	}
	return f
}

func tooLarge(d *decoder, at finding.Place, size, limit int64) {
	d.report(ruleTooLarge, at, fmt.Sprintf("This file has %.1f MiB; its sort may have %d MiB. It was not read.", float64(size)/(1<<20), limit>>20),
		"Put a long listing into several articles, or make the picture smaller.")
}

// reason is what the file system said, without the path.
func reason(err error) string {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}

// readAll reads the files that are not refused, in parallel, and gives the results in the order of the files.
func readAll(ctx context.Context, fsys fs.FS, files []source) ([]result, error) {
	results := make([]result, len(files))
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(files)) {
		wait.Go(func() {
			for ctx.Err() == nil {
				i := int(next.Add(1)) - 1
				if i >= len(files) {
					return
				}
				results[i] = readOne(fsys, files[i])
			}
		})
	}
	wait.Wait()
	return results, ctx.Err()
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

// load gives the bytes of a file, never more than its sort may have, however large it says it is.
func (d *decoder) load(fsys fs.FS, f source) ([]byte, bool) {
	at := finding.Place{File: f.path}
	file, err := fsys.Open(f.path)
	if err != nil {
		d.report(ruleUnreadable, at, "This file cannot be opened: "+reason(err)+".", "See that you may read it.")
		return nil, false
	}
	defer file.Close()
	limit := int64(maxText)
	if f.sort == pictureFile {
		limit = maxPicture
	}
	var data bytes.Buffer
	data.Grow(int(min(max(f.size, 0), limit)) + bytes.MinRead)
	switch n, err := data.ReadFrom(io.LimitReader(file, limit+1)); {
	case err != nil:
		d.report(ruleUnreadable, at, "This file cannot be read: "+reason(err)+".", "See that you may read it, and that the disk is sound.")
		return nil, false
	case n > limit:
		tooLarge(d, at, n, limit)
		return nil, false
	}
	return data.Bytes(), true
}

// clean gives the text of a file with line feeds for line ends and without byte order mark.
func (d *decoder) clean(data []byte) ([]byte, bool) {
	data = bytes.TrimPrefix(data, []byte("\uFEFF"))
	if bytes.IndexByte(data, '\r') >= 0 {
		data = bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))
		data = bytes.ReplaceAll(data, []byte("\r"), []byte("\n"))
	}
	if i := invalid(data); i >= 0 {
		before := data[:i]
		at := finding.Place{File: d.file, Line: 1 + bytes.Count(before, []byte("\n")), Column: 1 + utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:])}
		message, remedy := "The file is not UTF-8 text: here stands a byte that no character has.", "Save it as UTF-8 in your editor; it may have been saved as “ANSI” or “Latin-1”."
		if data[i] == 0 {
			message, remedy = "The file has a NUL byte in it, so it is no text, or it was saved as UTF-16.", "Save it as UTF-8 in your editor."
		}
		d.report(ruleUnreadable, at, message, remedy)
		return nil, false
	}
	return data, true
}

// invalid is the offset of the first byte that is not part of a UTF-8 character, or NUL; -1 when there is none.
func invalid(data []byte) int {
	nul := bytes.IndexByte(data, 0)
	if utf8.Valid(data) {
		return nul
	}
	for i := 0; i < len(data); {
		r, n := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && n <= 1 || r == 0 {
			return i
		}
		i += n
	}
	return nul
}

// readArticle reads the cleaned text of an article.
func readArticle(d *decoder, kind Kind, data []byte) *Article {
	a := &Article{Path: d.file, Name: strings.TrimSuffix(path.Base(d.file), path.Ext(d.file)), Kind: kind}
	kindTable[kind].facts(a)
	header, body, start, ok := splitHeader(d, data)
	a.Body, a.Start = body, start
	a.Head.At = map[string]finding.Place{}
	a.Partial = true
	if ok {
		d.offset = 1
		if mapping := d.mapping(header, "header"); mapping != nil {
			a.Partial = false
			readHead(d, a, mapping)
		}
		d.offset = 0
	}
	if !d.readable(a) {
		a.Body, a.Partial = nil, true
		return a
	}
	readBody(d, a)
	return a
}

var (
	fenceOpens  = regexp.MustCompile("^ {0,3}(`{3,}[^`]*|~{3,}.*)$")
	fenceCloses = regexp.MustCompile("^ {0,3}(`{3,}|~{3,})[ \t]*$")
)

// mayFence tells quickly of most lines that they neither open nor close a listing.
func mayFence(line []byte) bool {
	line = bytes.TrimLeft(line, " ")
	return len(line) >= 3 && line[0] == line[1] && (line[0] == '`' || line[0] == '~')
}

func opensFence(line []byte) [][]byte {
	if !mayFence(line) {
		return nil
	}
	return fenceOpens.FindSubmatch(line)
}

func closesFence(line []byte) [][]byte {
	if !mayFence(line) {
		return nil
	}
	return fenceCloses.FindSubmatch(line)
}

// readable refuses a body with a block of text so long that only a mistake, or malice, makes it: reading markdown takes time with the square
// of such a block.
func (d *decoder) readable(a *Article) bool {
	size, line, fence := 0, a.Start-1, ""
	for text := range bytes.Lines(a.Body) {
		line++
		text = bytes.TrimRight(text, "\n")
		if fence != "" {
			if m := closesFence(text); m != nil && strings.HasPrefix(string(m[1]), fence) {
				fence = ""
			}
			continue
		}
		if m := opensFence(text); m != nil {
			run := strings.TrimLeft(string(m[1]), string(m[1][0]))
			fence, size = string(m[1][:len(m[1])-len(run)]), 0
			continue
		}
		if size += len(text) + 1; len(bytes.TrimSpace(text)) == 0 {
			size = 0
		}
		if size > maxBlock {
			d.report(ruleTooLarge, finding.Place{File: d.file, Line: line, Column: 1}, fmt.Sprintf("A block of text without an empty line has more than %d KiB; the text was not read.", maxBlock>>10), "Divide it with empty lines.")
			return false
		}
	}
	return true
}

// splitHeader parts the header from the body. start is the line on which the body begins.
func splitHeader(d *decoder, data []byte) (header, body []byte, start int, ok bool) {
	const remedy = "Begin the file with a line of three hyphens, the header's keys, and another line of three hyphens."
	first, rest, _ := bytes.Cut(data, []byte("\n"))
	if string(bytes.TrimRight(first, " \t")) != "---" {
		d.report(ruleNoHeader, finding.Place{File: d.file, Line: 1, Column: 1}, "The article has no header.", remedy)
		return nil, data, 1, false
	}
	start = 2
	for at := 0; at <= len(rest); start++ {
		line, _, more := bytes.Cut(rest[at:], []byte("\n"))
		next := at + len(line) + 1
		if string(bytes.TrimRight(line, " \t")) == "---" {
			if at > maxHeader {
				d.report(ruleNoHeader, finding.Place{File: d.file, Line: 1, Column: 1}, fmt.Sprintf("The header has more than %d KiB.", maxHeader>>10), "What is long belongs in the text below it.")
				return nil, rest[min(next, len(rest)):], start + 1, false
			}
			return rest[:at], rest[min(next, len(rest)):], start + 1, true
		}
		if !more {
			break
		}
		at = next
	}
	d.report(ruleNoHeader, finding.Place{File: d.file, Line: 1, Column: 1}, "The header is not closed.", remedy)
	return nil, nil, start + 1, false
}

// nameArticles fills the map of names and reports names that two articles of a kind share.
func (m *Manual) nameArticles(d *decoder) {
	for _, a := range m.Articles {
		if first := m.byName[a.Kind][a.Name]; first != nil {
			d.report(ruleSameAddress, finding.Place{File: a.Path}, fmt.Sprintf("There is another %s with the name “%s”, in %s.", kindTable[a.Kind].one, a.Name, first.Path),
				"Rename one of the two files.", finding.Place{File: first.Path})
			continue
		}
		m.byName[a.Kind][a.Name] = a
	}
}

// lookUp reports names for which there is nothing.
func (m *Manual) lookUp(d *decoder, names []pending, shopRead bool) {
	for _, p := range names {
		if m.knows(p, shopRead) {
			continue
		}
		var candidates []string
		var what []string
		for _, k := range p.kinds {
			what = append(what, kindTable[k].one)
			for n := range m.byName[k] {
				candidates = append(candidates, n)
			}
		}
		for _, l := range p.shop {
			what = append(what, string(l))
			candidates = append(candidates, m.shopNames(l)...)
		}
		candidates = append(candidates, p.words...)
		slices.Sort(candidates)
		remedy := "Names are file names without .md. Correct the name, or write the article."
		if len(p.shop) > 0 {
			remedy = "The shop file has: " + strings.Join(candidates, ", ") + "."
		}
		d.report(ruleUnknownName, p.ref.At, fmt.Sprintf("There is no %s “%s”, which “%s” names%s", strings.Join(what, " or "), clip(p.ref.Name, 40), p.key, stop(didYouMean(p.ref.Name, candidates))), remedy)
	}
}

func (m *Manual) knows(p pending, shopRead bool) bool {
	if slices.Contains(p.words, p.ref.Name) {
		return true
	}
	for _, k := range p.kinds {
		if m.byName[k][p.ref.Name] != nil || m.refused[kindTable[k].folder+"/"+p.ref.Name+".md"] {
			return true
		}
	}
	return len(p.shop) > 0 && !shopRead || slices.ContainsFunc(p.shop, func(l shopList) bool { return slices.Contains(m.shopNames(l), p.ref.Name) })
}

func (m *Manual) shopNames(of shopList) []string {
	var names []string
	switch of {
	case tankIDs:
		for _, t := range m.Shop.Tanks {
			names = append(names, t.ID)
		}
	case rinseIDs:
		for _, r := range m.Shop.Rinses {
			names = append(names, r.ID)
		}
	case dryerIDs:
		names = append(names, m.Shop.Dryer.ID)
	case roleList:
		names = append(names, m.Shop.Roles...)
	}
	return names
}

// sameAddresses reports paths that differ only in capitals: on many computers they are one.
func sameAddresses(d *decoder, files []source) {
	byFold := slices.Clone(files)
	slices.SortStableFunc(byFold, func(a, b source) int {
		return cmp.Or(strings.Compare(fold(a.path), fold(b.path)), strings.Compare(a.path, b.path))
	})
	for i := 1; i < len(byFold); i++ {
		if fold(byFold[i].path) == fold(byFold[i-1].path) {
			d.report(ruleSameAddress, finding.Place{File: byFold[i].path}, "There is another file with the same name but for capitals, "+byFold[i-1].path+".",
				"Rename one of the two.", finding.Place{File: byFold[i-1].path})
		}
	}
}
