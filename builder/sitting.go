package builder

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"syscall"

	"tankside/builder/content"
	"tankside/builder/decide/relate"
	"tankside/builder/decide/rules"
	"tankside/builder/edition"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/page"
)

// Sitting is a row of editions that are published while somebody works on a manual. Each goes through the same pipeline as an edition that
// stands by itself and has the same bytes; what the sitting remembers of the edition before saves making the same thing again:
//
//	manual.Reader    the articles, by their files
//	relate.Memo      which articles each speaks of      by the articles that were asked for
//	rules.Memo       what was found in each             by the articles that were asked for
//	page.Memo        the pages                          by the articles that were asked for
//	content.Memo     the digests of articles             by their files
//	edition.Sitting  the files on the disk
//
// Together all editions of a sitting are the next edition, and the last of them is what readers get. So a
// text that changes in it needs a new revision against the edition that was in place before the sitting, and not against its drafts: who has
// given it one may go on writing. Without that rule in a sitting, its last edition would stand in place with an old approval over a new text, and
// the next publication would compare with that.
// Make a Sitting with [NewSitting], use it for one manual and one folder, one publication at a time, and Close it.
type Sitting struct {
	begun  bool
	before *edition.List // what was in place before the sitting, or nil
	had    *Earlier      // the edition before in the ledger, as it was last found

	reader manual.Reader
	memo   *memo // nil where nothing is to be remembered
}

// memo is what is kept from one edition to the next.
type memo struct {
	uses  relate.Memo
	found rules.Memo
	pages page.Memo
	files edition.Sitting

	content content.Memo
	preview preview // of what cannot be published
}

// NewSitting begins a sitting.
func NewSitting() *Sitting { return &Sitting{memo: &memo{}} }

// Close ends the sitting. The last edition stays in place.
func (s *Sitting) Close() error { return s.memo.files.Close() }

// forget has the next edition made from the beginning, as after an edition that did not come to be.
func (s *Sitting) forget() error {
	err := s.memo.files.Close()
	s.reader, s.memo = manual.Reader{}, &memo{}
	return err
}

// read reads and proof-reads the manual.
func (s *Sitting) read(ctx context.Context, root *os.Root, since *edition.List, o Options) (*manual.Manual, relate.Uses, []finding.Finding, error) {
	_, m, used, findings, err := s.readOver(ctx, root, since, o)
	return m, used, findings, err
}

// readOver does so with the manual over its base, where there is one. It gives the files that the manual is made of as well.
func (s *Sitting) readOver(ctx context.Context, root *os.Root, since *edition.List, o Options) (fs.FS, *manual.Manual, relate.Uses, []finding.Finding, error) {
	fsys := root.FS()
	var m *manual.Manual
	var findings []finding.Finding
	var err error
	if o.Base != nil {
		fsys, m, findings, err = o.Base.read(ctx, fsys)
	} else {
		m, findings, err = s.reader.Read(ctx, fsys, o.Changed)
	}
	if err != nil {
		return nil, nil, nil, nil, err
	}
	var uses *relate.Memo
	var found *rules.Memo
	if s.memo != nil {
		uses, found = &s.memo.uses, &s.memo.found
	}
	used := relate.UsedByAgain(m, uses)
	findings = append(findings, rules.ProofAgain(m, used, o.Now, found)...)
	if since != nil {
		findings = append(findings, rules.ProofAgainst(m, earlier(since))...)
	}
	m.MarkDrafts(findings)
	finding.Sort(findings)
	return fsys, m, used, finding.Bounded(findings), nil
}

// since gives the list of the edition that was in place before this one, or before the sitting; nil where there was none. A folder that holds
// something else is refused when the edition is begun.
func (s *Sitting) since(o Options) (*edition.List, error) {
	if s.begun {
		return s.before, nil
	}
	l, err := listIn(o.To)
	var damaged *edition.DamagedListError
	if errors.As(err, &damaged) || errors.Is(err, syscall.ENOTDIR) {
		return nil, nil
	}
	return l, err
}

// begin notes what was in place when the sitting began. since is what the manual has been compared with: another edition may have
// been put in place in the meantime.
func (s *Sitting) begin(w *edition.Writer, since *edition.List) error {
	if s.begun {
		return nil
	}
	before := w.Previous()
	if !before.Same(since) {
		return errors.New("another publication has put an edition in place while the manual was read; publish again, so that it is compared with that one")
	}
	s.begun, s.before = true, before
	return nil
}

func (s *Sitting) pages(over *Base) *page.Memo {
	if s.memo == nil {
		return over.pages()
	}
	return &s.memo.pages
}

func (s *Sitting) places() *edition.Sitting {
	if s.memo == nil {
		return nil
	}
	return &s.memo.files
}
