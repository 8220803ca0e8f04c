package builder

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"time"

	"tankside/builder/edition"
	"tankside/builder/finding"
	"tankside/builder/layer"
	"tankside/builder/manual"
	"tankside/builder/page"
)

// Base is a manual that the manuals of many shops lie over. It is read once; what was read is shared by all that are published over it, one after the other. Close ends it.
type Base struct {
	root   *os.Root
	tree   *layer.Tree
	made   *manual.Manual
	mark   edition.Mark
	shelf  *edition.Shelf
	memo   page.Memo // assets, words and templates: what of pages does not depend on the shop
	reader manual.Reader

	// Findings are those in the base by itself, with its own shop file.
	Findings []finding.Finding
}

// OpenBase reads and proof-reads the manual in a folder. shelf, which may be nil, is for what the editions have in common.
func OpenBase(ctx context.Context, folder string, shelf *edition.Shelf, now time.Time) (*Base, error) {
	root, err := openManual(folder)
	if err != nil {
		return nil, err
	}
	b := &Base{root: root, shelf: shelf}
	if err := b.open(ctx, now); err != nil {
		return nil, errors.Join(err, root.Close())
	}
	return b, nil
}

func (b *Base) open(ctx context.Context, now time.Time) error {
	fsys := b.root.FS()
	var err error
	if b.tree, err = layer.Read(fsys); err != nil {
		return err
	}
	s := &Sitting{}
	if b.made, _, b.Findings, err = s.read(ctx, b.root, nil, Options{Now: now}); err != nil {
		return err
	}
	b.reader = s.reader
	theme, err := themeOf(fsys, b.made.Shop.Look.Theme)
	if err != nil {
		return err
	}
	c, err := contentOf(b.made, theme, nil)
	if err == nil {
		b.mark = markOf(b.made.Ledger, c.Digest(), false)
	}
	return err
}

// Close ends the use of the base.
func (b *Base) Close() error { return b.root.Close() }

// FS are the base's files.
func (b *Base) FS() fs.FS { return b.root.FS() }

// read reads the manual of a shop's folder over the base.
func (b *Base) read(ctx context.Context, shop fs.FS) (fs.FS, *manual.Manual, []finding.Finding, error) {
	tree, err := layer.Read(shop)
	if err != nil {
		return nil, nil, nil, err
	}
	fsys, own, apart := tree.Over(b.tree)
	m, findings, err := b.reader.ReadOver(ctx, fsys, &manual.Layer{Base: b.made, Own: own, Apart: apart})
	return fsys, m, findings, err
}

// share has an edition take from the shelf what editions over the base have in common. Without a base nothing is shared.
func (b *Base) share(w *edition.Writer) {
	if b != nil && b.shelf != nil {
		w.Share(b.shelf)
	}
}

// pages is what pages over the base are made with; nil without a base.
func (b *Base) pages() *page.Memo {
	if b == nil {
		return nil
	}
	return &b.memo
}

// told is what the list of an edition says of the base; nil without one.
func (b *Base) told(inputs func() (string, error)) (*edition.Base, error) {
	if b == nil {
		return nil, nil
	}
	digest, err := inputs()
	return &edition.Base{Shop: b.made.Shop.Name, Mark: b.mark, Inputs: digest}, err
}
