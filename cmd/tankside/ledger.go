package main

import (
	"context"
	"errors"
	"fmt"

	"tankside/builder"
	"tankside/builder/ledger"
	"tankside/cmd/tankside/checkout"
)

// checkedOut gives the revision that is checked out, if an edition of it would have a digest; otherwise "". It is read and compared, so that what git is told to
// overlook does not count.
func checkedOut(folder string) func(context.Context, string) (string, error) {
	return func(ctx context.Context, digest string) (string, error) {
		at, err := checkout.Of(ctx, folder)
		if err != nil || at == nil {
			return "", err
		}
		revision, err := at.Resolve(ctx, "HEAD")
		if errors.Is(err, checkout.ErrNoRevision) { // nothing has been committed yet
			return "", nil
		}
		if err != nil {
			return "", err
		}
		files, err := at.Files(ctx, revision)
		if errors.Is(err, checkout.ErrNotThere) {
			return "", nil
		}
		if err != nil {
			return "", err
		}
		content, _, err := builder.ContentIn(ctx, files)
		if err != nil || content.Digest() != digest { // what was committed may be no manual yet
			return "", ctx.Err()
		}
		return revision, nil
	}
}

// tellEntered says what has become of an entry that was asked for.
func (c *console) tellEntered(r builder.Report, e *builder.Entering) {
	switch {
	case e == nil:
	case !r.Entered:
		c.note("It is the newest edition of the ledger already, so it was not entered again.")
	case r.Revision == "":
		c.note("Entered in %s. It names no revision of version control: commit the manual together with the ledger, so that this edition can be made again.", ledger.File)
	default:
		c.note("Entered in %s, from revision %s. Commit the ledger.", ledger.File, r.Revision[:12])
	}
	switch {
	case r.Before == 0:
	case r.Compared:
		c.note("What has changed since edition %d stands in changes.html, and in tankside changes.", r.Before)
	case r.Apart != "":
		c.note("It was not compared with edition %d: %s.", r.Before, r.Apart)
	default:
		c.note("It was not compared with edition %d, which neither the edition's folder nor git has.", r.Before)
	}
}

// earlier asks version control for editions of the manual in a folder.
func earlier(folder string) func(context.Context, ledger.Entry) (*builder.Earlier, error) {
	return func(ctx context.Context, e ledger.Entry) (*builder.Earlier, error) {
		at, err := checkout.Of(ctx, folder)
		if err != nil || at == nil {
			return nil, err
		}
		return entered(ctx, at, e)
	}
}

// entered finds the content of an entry: in the revision that it names, or in the one with which it came into the ledger. It is nil where neither has it.
func entered(ctx context.Context, at *checkout.Checkout, e ledger.Entry) (*builder.Earlier, error) {
	var tries []string
	if e.Revision != "" {
		if revision, err := at.Resolve(ctx, e.Revision); err == nil { // a copy need not have all revisions
			tries = append(tries, revision)
		}
	}
	came, err := at.Entered(ctx, e.Digest, ledger.File)
	if err != nil {
		return nil, err
	}
	if came != "" {
		tries = append(tries, came)
	}
	for _, revision := range tries {
		files, err := at.Files(ctx, revision)
		if errors.Is(err, checkout.ErrNotThere) {
			continue
		}
		if err != nil {
			return nil, err
		}
		had, err := builder.EarlierIn(ctx, files)
		if err != nil {
			return nil, fmt.Errorf("revision %.12s cannot be read as a manual: %w", revision, err)
		}
		if had.Content.Digest() != e.Digest {
			continue
		}
		had.Renamed, err = at.Renamed(ctx, revision, "")
		return had, err
	}
	return nil, nil
}
