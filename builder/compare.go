package builder

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash/fnv"
	"io/fs"
	"os"
	"time"

	"tankside/builder/book"
	"tankside/builder/changes"
	"tankside/builder/content"
	"tankside/builder/decide/rules"
	"tankside/builder/edition"
	"tankside/builder/finding"
	"tankside/builder/ledger"
	"tankside/builder/manual"
	"tankside/builder/page"
	"tankside/themes"
)

// Earlier is the content of an edition before, and what version control knows of the names that its files got later.
type Earlier struct {
	Content *content.Content
	Renamed map[string]string               // old path → new path; may be nil
	Told    *edition.List                   // what it tells of its articles, under its code; nil where nobody knows
	Printed func() (changes.Printed, error) // codes of what is printed of it; nil where nobody knows them
}

// EarlierIn gives the edition that would be made of the manual in a file system.
func EarlierIn(ctx context.Context, fsys fs.FS) (*Earlier, error) {
	c, m, err := ContentIn(ctx, fsys)
	if err != nil {
		return nil, err
	}
	return &Earlier{Content: c, Told: toldBy(m, c), Printed: func() (changes.Printed, error) { return printedOf(fsys, m) }}, nil
}

// EarlierOfFolder is EarlierIn for a folder of the operating system.
func EarlierOfFolder(ctx context.Context, folder string) (*Earlier, error) {
	c, m, err := ContentOfFolder(ctx, folder)
	if err != nil {
		return nil, err
	}
	return &Earlier{Content: c, Told: toldBy(m, c), Printed: func() (codes changes.Printed, err error) {
		root, err := openManual(folder)
		if err != nil {
			return codes, err
		}
		codes, err = printedOf(root.FS(), m)
		return codes, errors.Join(err, root.Close())
	}}, nil
}

// printedOf gives the codes of what is printed of a manual.
func printedOf(fsys fs.FS, m *manual.Manual) (changes.Printed, error) {
	theme, err := themeOf(fsys, m.Shop.Look.Theme)
	if err != nil {
		return changes.Printed{}, err
	}
	return page.PrintedCodes(page.Input{Manual: m, Theme: theme, Beside: book.Sheets})
}

// PrintedIn gives the codes of what is printed of the edition of a list.
func PrintedIn(l *edition.List) func() (changes.Printed, error) {
	return printedIn(l, l.Source)
}

// Entering asks for an entry in the ledger.
type Entering struct {
	By      string // who enters it, or ""
	Changed string // what has changed, in short; without it the program says it

	// Revision, where it is not nil, gives the revision of version control whose content has a digest, if it is the one that is checked out, or "".
	Revision func(ctx context.Context, digest string) (string, error)
}

// ContentIn gives what an edition of the manual in a file system would be made from, and the manual.
func ContentIn(ctx context.Context, fsys fs.FS) (*content.Content, *manual.Manual, error) {
	m, _, err := manual.Read(ctx, fsys)
	if err != nil {
		return nil, nil, err
	}
	theme, err := themeOf(fsys, m.Shop.Look.Theme)
	if err != nil {
		return nil, nil, err
	}
	c, err := contentOf(m, theme, nil)
	return c, m, err
}

// ContentOfFolder is ContentIn for a folder of the operating system.
func ContentOfFolder(ctx context.Context, folder string) (*content.Content, *manual.Manual, error) {
	root, err := openManual(folder)
	if err != nil {
		return nil, nil, err
	}
	c, m, err := ContentIn(ctx, root.FS())
	return c, m, errors.Join(err, root.Close())
}

func contentOf(m *manual.Manual, theme themes.Theme, memo *content.Memo) (*content.Content, error) {
	names, err := theme.Reaching(append(m.Languages(), m.OwnLanguage()))
	if err != nil {
		return nil, err
	}
	var own []content.File
	for _, name := range names {
		data, err := theme.Read(name)
		if err != nil {
			return nil, err
		}
		own = append(own, content.File{Path: "theme/" + name, Data: data})
	}
	return content.Of(m, own, memo)
}

// ErrNoContent says that an edition does not carry what it was made from: an older program has written it.
var ErrNoContent = errors.New("this edition does not carry what it was made from, because an older tankside wrote it; name the manual's folder or a revision of it instead")

// ContentOfEdition gives what the edition in a folder was made from.
func ContentOfEdition(folder string) (*content.Content, *edition.List, error) {
	at, err := edition.Place(folder)
	if err != nil {
		return nil, nil, err
	}
	fsys := os.DirFS(at)
	l, err := edition.ReadList(fsys)
	if err != nil {
		return nil, nil, err
	}
	c, err := contentOfList(fsys, l)
	return c, l, err
}

func contentOfList(fsys fs.FS, l *edition.List) (*content.Content, error) {
	if len(l.Content) == 0 {
		return nil, ErrNoContent
	}
	var docs []content.Doc
	for _, file := range l.Content {
		packed, err := l.Read(fsys, file)
		if err != nil {
			return nil, err
		}
		some, err := content.Unpack(packed)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", file, err)
		}
		docs = append(docs, some...)
	}
	c := content.New(docs)
	if c.Digest() != l.Source {
		return nil, fmt.Errorf("%w: what it was made from is not what its code stands for", edition.ErrDamaged)
	}
	return c, nil
}

// beforeOfList gives the content with which an edition was compared, where that has a digest.
func beforeOfList(fsys fs.FS, l *edition.List, now *content.Content, digest string) (*content.Content, error) {
	own := now
	if l.Source != now.Digest() {
		var err error
		if own, err = contentOfList(fsys, l); err != nil {
			return nil, err
		}
	}
	if l.Source == digest {
		return own, nil
	}
	packed, err := l.Read(fsys, l.Before.File)
	if err != nil {
		return nil, err
	}
	delta, err := content.Unpack(packed)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", l.Before.File, err)
	}
	return content.Undo(delta, own), nil
}

// OnceIn gives the edition with a digest where that in a folder is it, or was compared with it; otherwise nil.
func OnceIn(folder, digest string) (*Earlier, error) {
	l, err := listIn(folder)
	if err != nil || l == nil || l.Source != digest && (l.Before == nil || l.Before.Source != digest) {
		return nil, err
	}
	own, l, err := ContentOfEdition(folder)
	if err != nil {
		return nil, err
	}
	at, err := edition.Place(folder)
	if err != nil {
		return nil, err
	}
	c, err := beforeOfList(os.DirFS(at), l, own, digest)
	if err != nil || c.Digest() != digest {
		return nil, err
	}
	e := &Earlier{Content: c, Printed: printedIn(l, digest)}
	if l.Source == digest { // of the one that it was compared with, it says what was otherwise, but not what it told
		e.Told = l
	}
	return e, nil
}

// printedIn gives the codes in a list, of its own edition or of the one that it was compared with.
func printedIn(l *edition.List, digest string) func() (changes.Printed, error) {
	told := changes.Printed{Cards: l.Cards, Sheets: l.Sheets}
	if l.Source != digest && l.Before != nil {
		told = changes.Printed{Cards: l.Before.Cards, Sheets: l.Before.Sheets}
	}
	return func() (changes.Printed, error) { return told, nil }
}

// earlier gives the content of an edition that is entered: from the edition in place, which is it or was compared with it, or from version control. It is nil
// where that cannot be had; why is a sentence where something has gone wrong.
func (s *Sitting) earlier(ctx context.Context, o Options, e ledger.Entry, now *content.Content) (got *Earlier, why string) {
	if s.had != nil && s.had.Content.Digest() == e.Digest {
		return s.had, ""
	}
	defer func() {
		if got != nil && s.memo != nil {
			s.had = got
		}
	}()
	l, err := listIn(o.To)
	if err == nil && l != nil && (l.Source == e.Digest || l.Before != nil && l.Before.Source == e.Digest) {
		at, err := edition.Place(o.To)
		if err != nil {
			return nil, err.Error()
		}
		c, err := beforeOfList(os.DirFS(at), l, now, e.Digest)
		switch {
		case err != nil:
			why = fmt.Sprintf("the edition in %s cannot be read for it: %v", o.To, err)
		case c.Digest() == e.Digest:
			return &Earlier{Content: c, Printed: printedIn(l, e.Digest)}, ""
		}
	}
	if o.Earlier == nil {
		return nil, why
	}
	found, err := o.Earlier(ctx, e)
	switch {
	case err != nil:
		return nil, err.Error()
	case found == nil:
		return nil, why
	case found.Content.Digest() != e.Digest:
		return nil, fmt.Sprintf("revision %s is not what was entered as edition %d", e.Revision, e.Number)
	}
	return found, ""
}

// issue is what a publication knows of its edition and of the one before.
type issue struct {
	content  *content.Content
	mark     edition.Mark
	ledger   ledger.Ledger // with the entry
	entry    []byte        // to be added to the ledger, or nil
	before   *ledger.Entry
	earlier  *content.Content                // of that entry, or nil
	printed  func() (changes.Printed, error) // codes of what is printed of it, or nil
	told     *edition.List                   // what it tells of its articles, or nil
	changes  []changes.Change
	forwards map[string]string // old file → where it is now
	revision string            // that the entry names
	why      string            // why there is nothing to compare with, or ""
}

// issueOf works out which edition a manual is, and what has changed against the one before it in the ledger.
func (s *Sitting) issueOf(ctx context.Context, o Options, m *manual.Manual, theme themes.Theme) (issue, error) {
	i := issue{ledger: m.Ledger}
	var memo *content.Memo
	if s.memo != nil {
		memo = &s.memo.content
	}
	var err error
	if i.content, err = contentOf(m, theme, memo); err != nil {
		return i, err
	}
	digest := i.content.Digest()
	if e, some := m.Ledger.Before(digest); some {
		i.before = &e
		var had *Earlier
		if had, i.why = s.earlier(ctx, o, e, i.content); had != nil {
			i.earlier, i.printed, i.told = had.Content, had.Printed, had.Told
			i.changes = changes.Between(had.Content, i.content, had.Renamed)
		}
	}
	renamed := changes.Renamings(i.changes)
	newest, some := m.Ledger.Newest()
	if o.Enter != nil && !(some && newest.Digest == digest) {
		e := ledger.Entry{Number: m.Ledger.Next(), Date: o.Now.Format(time.DateOnly), Digest: digest, By: o.Enter.By, Changed: o.Enter.Changed, Renamed: renamed}
		if o.Enter.Revision != nil {
			if e.Revision, err = o.Enter.Revision(ctx, digest); err != nil {
				return i, err
			}
		}
		i.revision = e.Revision
		if e.Changed == "" {
			e.Changed = i.inShort()
		}
		i.ledger, i.entry = m.Ledger.With(e)
	}
	i.mark = markOf(i.ledger, digest, o.Draft)
	i.forwards = i.ledger.Forwards(renamed, func(path string) bool { return m.At(path) != nil })
	return i, nil
}

// unrevised gives what may not be entered: texts that have changed since the edition before in the ledger, under the same revision. That edition may have been
// published to another folder, so that nothing was in place here to compare with.
func (i issue) unrevised(m *manual.Manual) []finding.Finding {
	if i.entry == nil || i.told == nil {
		return nil
	}
	told := *i.told
	told.Mark.Edition, told.Mark.Date = i.before.Number, i.before.Date
	return rules.ProofAgainst(m, earlier(&told))
}

// markOf says how an edition is told from others.
func markOf(l ledger.Ledger, digest string, draft bool) edition.Mark {
	m := edition.Mark{Code: ledger.Code(digest), Draft: draft}
	if e, entered := l.Of(digest); entered {
		m.Edition, m.Date = e.Number, e.Date
	} else if e, some := l.Newest(); some {
		m.After = e.Number
	}
	return m
}

// inShort says what has changed, for the ledger.
func (i issue) inShort() string {
	switch {
	case i.before == nil:
		return "first entry"
	case i.earlier == nil:
		return fmt.Sprintf("not compared: what was edition %d could not be had", i.before.Number)
	}
	return changes.InShort(i.earlier, i.content, i.changes)
}

// since is what the pages show of it.
func (i issue) since() page.Since {
	s := page.Since{Why: i.why, Compared: i.earlier != nil, List: i.changes, Printed: i.printed}
	if i.before != nil {
		s.Entry = *i.before
	}
	if s.Compared {
		s.Files = changes.ByFile(i.earlier, i.content, i.changes)
		s.Follows = changes.Consequences(i.earlier, i.content, i.changes)
		s.Title = func(path string) string { return titleIn(i.earlier, path) }
	}
	return s
}

// titleIn is the title of an article in a content, or its path.
func titleIn(c *content.Content, path string) string {
	if d, there := c.At(path); there {
		for _, p := range d.Parts() {
			if p.Name == content.HeaderKey+"title" {
				return p.Text
			}
		}
	}
	return path
}

// mostInPack is about how many files of the manual are packed into one file of the edition: so few that in a sitting one saved article is soon packed.
const mostInPack = 400

// pack writes the files by which the edition can be compared with others.
func (i issue) pack(w *edition.Writer, l *edition.List) error {
	docs := i.content.Docs()
	packs := make([][]content.Doc, 1+len(docs)/mostInPack)
	for _, d := range docs {
		h := fnv.New32a()
		h.Write([]byte(d.Path))
		n := int(h.Sum32() % uint32(len(packs)))
		packs[n] = append(packs[n], d)
	}
	for n, some := range packs {
		if len(some) == 0 {
			continue
		}
		name, err := addPack(w, fmt.Sprintf("part-%d", n+1), some)
		if err != nil {
			return err
		}
		l.Content = append(l.Content, name)
	}
	if i.earlier == nil || i.earlier.Digest() == i.content.Digest() {
		return nil
	}
	name, err := addPack(w, "before", content.Delta(i.earlier, i.content))
	l.Before = &edition.Before{Source: i.earlier.Digest(), File: name}
	return err
}

// addPack packs some files. The name follows from what is in them, so that a pack that is there already is kept.
func addPack(w *edition.Writer, base string, docs []content.Doc) (string, error) {
	h := sha256.New()
	for _, d := range docs {
		h.Write(d.Sum[:])
	}
	name := edition.ContentFolder + base + "." + hex.EncodeToString(h.Sum(nil)[:5]) + content.Extension
	if kept, err := w.Keep(name); kept || err != nil {
		return name, err
	}
	packed, err := content.Pack(docs)
	if err != nil {
		return name, err
	}
	return name, w.Add(name, packed)
}
