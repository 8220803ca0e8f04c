package manual

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"

	"tankside/builder/finding"
	"tankside/builder/ledger"
	"tankside/builder/picture"
	"tankside/builder/record"
	"tankside/builder/workers"
)

// What a manual may hold.
const (
	maxText    = 1 << 20 // bytes of an article, of the shop file, of the glossary
	maxHeader  = 64 << 10
	MostText   = 32 << 10 // bytes of lines without an empty one between them, listings apart
	maxPicture = 8 << 20
	maxTheme   = 8 << 20 // bytes of a file of the shop's own theme
	maxFiles   = 100_000

	maxThemeFiles = 1000 // of the shop's own theme; the program's has a few hundred
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
	return new(Reader).Read(ctx, fsys, nil)
}

// Reader reads one folder again and again, each time only those of its files that have changed. The manuals share the articles that have
// not: an article is another one exactly if its file was read again. The zero value has read nothing yet.
type Reader struct {
	files []source
	found []finding.Finding // in the folder as a whole
	read  []result          // of files
	at    map[string]int    // path → number in files

	joined map[*Article]joined // by the translation as it was read
	words  *ownWords           // of the shop
	spoken spoken              // signal words
	before calledBefore        // of what was renamed
	over   *Layer              // what the manuals lie over, or nil
}

// Read reads the manual as [Read] does. changed are the files and folders that may be otherwise than the Reader has last read them; with nil
// everything may be. After an error the Reader begins anew.
func (r *Reader) Read(ctx context.Context, fsys fs.FS, changed []string) (*Manual, []finding.Finding, error) {
	if err := r.update(ctx, fsys, changed); err != nil {
		*r = Reader{}
		return nil, nil, err
	}
	m, findings := r.assemble()
	findings = append(findings, r.found...)
	finding.Sort(findings)
	return m, findings, nil
}

// update reads what has changed.
func (r *Reader) update(ctx context.Context, fsys fs.FS, changed []string) error {
	stale := make(map[string]bool, len(changed))
	for _, path := range changed {
		stale[norm.NFC.String(path)] = true
	}
	if r.read == nil || changed == nil {
		r.at = nil
	}
	if r.at == nil || !r.same(fsys, changed) {
		top := &decoder{}
		files, err := walk(ctx, fsys, top)
		if err != nil {
			return err
		}
		read, at := make([]result, len(files)), make(map[string]int, len(files))
		for i, f := range files {
			at[f.path] = i
			if before, known := r.at[f.path]; known && r.files[before] == f && !stale[f.path] {
				read[i] = r.read[before]
			} else {
				stale[f.path] = true
			}
		}
		r.files, r.found, r.read, r.at = files, top.findings, read, at
	}
	r.readWords(fsys, stale)
	r.readSignals(fsys, stale)
	r.readCalledBefore(fsys, stale)
	var again []int
	for path := range stale {
		if i, known := r.at[path]; known {
			again = append(again, i)
		}
	}
	slices.Sort(again)
	return workers.Each(ctx, len(again), func(i int) error {
		r.read[again[i]] = readOne(fsys, r.files[again[i]], r.words, r.spoken, r.before)
		return nil
	})
}

// readWords reads the shop's own words where they may have changed, or are gone; then every article is read again, since its header may use them.
func (r *Reader) readWords(fsys fs.FS, stale map[string]bool) {
	at, there := r.at[VocabularyFile]
	if there && !stale[VocabularyFile] || !there && r.words == nil {
		return
	}
	r.words = nil
	if there && r.files[at].sort == vocabularyFile {
		d := &decoder{file: VocabularyFile}
		if data, ok := d.load(fsys, r.files[at]); ok {
			if data, ok = d.clean(data); ok {
				r.words = readVocabulary(d, data) // what is wrong with it is told when the file itself is read
			}
		}
	}
	for _, f := range r.files {
		if f.sort == articleFile {
			stale[f.path] = true
		}
	}
}

// same tells whether the changed paths are files that were there before and are still, so that the folder need not be walked for them. A file
// that was not there before and is gone again, as editors make when they save, does not count.
func (r *Reader) same(fsys fs.FS, changed []string) bool {
	for _, name := range changed {
		path := norm.NFC.String(name)
		i, known := r.at[path]
		info, err := fs.Lstat(fsys, name)
		if !known && errors.Is(err, fs.ErrNotExist) && !r.below(path) {
			continue
		}
		if !known || r.files[i].sort == refusedFile || r.files[i].name != name {
			return false
		}
		if err != nil || !info.Mode().IsRegular() || info.Size() > r.files[i].sort.limit() {
			return false
		}
		r.files[i].size = info.Size()
	}
	return true
}

// below tells whether there was a file in a folder.
func (r *Reader) below(folder string) bool {
	return slices.ContainsFunc(r.files, func(f source) bool { return strings.HasPrefix(f.path, folder+"/") })
}

// assemble makes the manual of its files as they were read.
func (r *Reader) assemble() (*Manual, []finding.Finding) {
	files, read := r.files, r.read
	m := &Manual{
		byPath:  make(map[string]*Article, len(files)),
		byName:  make(map[Kind]map[string]*Article, len(Kinds)),
		byImage: make(map[string]*File),
		refused: make(map[string]bool),
		indexes: &indexes{},
		signals: r.spoken.signals,
		Over:    r.over,
	}
	for _, k := range Kinds {
		m.byName[k] = make(map[string]*Article)
	}
	rest := sha256.New()
	refuse := func(name string) {
		m.refused[name] = true
		fmt.Fprintf(rest, "refused %d %s\n", len(name), name)
	}
	shopRead := false
	var moved []Moved
	var findings []finding.Finding
	for i := range read {
		r := &read[i]
		findings = append(findings, r.d.findings...)
		m.Undecided = m.Undecided || r.conflict
		if r.refused {
			refuse(r.path)
			if r.sort == lookFile || r.sort == wordsFile {
				m.Theme = append(m.Theme, ThemeFile{strings.TrimPrefix(r.path, "theme/"), r.data})
				io.WriteString(rest, r.line)
			}
			if r.phrases != nil {
				m.Words = append(m.Words, *r.phrases)
			}
			if name, is := strings.CutPrefix(r.path, "theme/words/"); is && path.Ext(name) == ".yaml" && path.Dir(name) == "." {
				m.Spoken = append(m.Spoken, strings.TrimSuffix(name, ".yaml"))
			}
			continue
		}
		if r.sort != articleFile && r.sort != ledgerFile {
			io.WriteString(rest, r.line)
		}
		if r.text != nil {
			m.Texts = append(m.Texts, Text{r.path, r.text})
		}
		switch r.sort {
		case shopFile:
			m.Shop, shopRead = r.shop, r.shopRead
			m.Shop.Partial = !shopRead
		case glossaryFile:
			m.Glossary = r.terms
		case ledgerFile:
			m.Ledger = r.ledger
		case recordFile:
			m.Records = append(m.Records, r.record)
		case movedFile:
			moved = r.moved
		case pictureFile:
			m.Pictures = append(m.Pictures, File{Path: r.path, Data: r.data, Damage: r.damage})
		case articleFile:
			if r.article.Head.Draft {
				fmt.Fprintf(rest, "draft %d %s\n", len(r.path), r.path) // what is left out decides what other pages link to
			}
			if r.article.Language != "" {
				m.translations = append(m.translations, r.article)
				fmt.Fprintf(rest, "translation %d %s\n", len(r.path), r.path) // which there are decides where links of other pages lead
				continue
			}
			m.articles = append(m.articles, r.article)
			m.byPath[r.path] = r.article
		}
	}
	m.rest = hex.EncodeToString(rest.Sum(nil))
	for i := range m.Pictures {
		m.byImage[m.Pictures[i].Path] = &m.Pictures[i]
	}
	r.joined = m.translate(r.joined)
	m.setDraftsAside()
	if m.Undecided { // what is missing is in one of two versions
		return m, findings
	}
	last := &decoder{}
	m.nameArticles(last)
	if shopRead {
		m.nameRecords(last)
	}
	var names []pending
	for i := range read {
		names = append(names, read[i].d.names...)
		m.countries(last, read[i].d.gallons)
	}
	shopFaults := make(map[int]bool)
	for _, f := range findings {
		if f.File == ShopFile {
			shopFaults[f.Line] = true
		}
	}
	m.named = slices.Clone(names) // the other is shortened to what is not known
	m.lookUp(last, names, shopRead, shopFaults)
	if shopRead {
		m.follow(last, moved)
	}
	findings = append(findings, last.findings...)
	m.noteFaults(findings)
	return m, findings
}

// result is a file that was read.
type result struct {
	source
	d        *decoder
	refused  bool
	line     string // of the digest of everything but the articles
	article  *Article
	shop     Shop
	shopRead bool
	terms    []Term
	ledger   ledger.Ledger
	text     []byte // of a file that is neither an article nor a picture, cleaned
	moved    []Moved
	data     []byte
	damage   *picture.Problem // of a picture
	conflict bool             // version control has left two versions in it
	record   *record.Record
	phrases  *WordsFile // of a file of words
}

func readOne(fsys fs.FS, f source, words *ownWords, spoken spoken, before calledBefore) result {
	r := result{source: f, d: &decoder{file: f.path, words: words, before: before, signals: spoken.signals, language: spoken.language}}
	if f.sort == refusedFile {
		r.refused = true
		return r
	}
	data, ok := r.d.load(fsys, f)
	if !ok {
		r.refused = true
		return r
	}
	sum := sha256.Sum256(data)
	r.line = fmt.Sprintf("%d %s %d %x\n", len(r.path), r.path, len(data), sum)
	if f.sort == ledgerFile {
		r.ledger = readLedger(r.d, data)
		return r
	}
	if f.sort == pictureFile {
		if strings.EqualFold(path.Ext(f.path), ".svg") { // a text: the same with every computer's line ends
			data = bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))
		}
		r.data = data
		if r.refused = !safePicture(r.d, f.path, data); !r.refused {
			r.damage = picture.Damage(f.path, data)
		}
		return r
	}
	if f.sort == recordFile {
		r.readRecord(data)
		return r
	}
	if f.sort == lookFile {
		r.refused = true // package page reads it with the rest of the theme
		r.data = bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))
		return r
	}
	if f.sort == wordsFile {
		r.refused = true // package page reads it with the rest of the theme
		r.readWords(data)
		return r
	}
	data, ok = r.d.clean(data)
	r.conflict = ok && r.d.conflict(data)
	ok = ok && !r.conflict
	switch {
	case !ok && f.sort == articleFile:
		r.refused = true
	case !ok:
		// Without the shop file there is nothing to check names against, but the rest of the manual can be read.
	case f.sort == shopFile:
		r.shop, r.shopRead = readShop(r.d, data)
	case f.sort == glossaryFile:
		r.terms = readGlossary(r.d, data)
	case f.sort == movedFile:
		r.moved = readMoved(r.d, data)
	case f.sort == vocabularyFile:
		readVocabulary(r.d, data)
	default:
		r.article = readArticle(r.d, f.kind, data)
		r.article.File, r.article.Sum = f.name, hex.EncodeToString(sum[:])
	}
	if ok && f.sort != articleFile {
		r.text = data
	}
	return r
}
