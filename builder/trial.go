package builder

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"time"

	"tankside/builder/decide/relate"
	"tankside/builder/edition"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/page"
	"tankside/themes"
)

// Proof does what Read does, and where the manual has a theme of its own, tries it: what is wrong with a template shows when a page is made
// with it. So a manual without findings that stop publication can be published.
func Proof(ctx context.Context, folder string, now time.Time) (_ *manual.Manual, _ []finding.Finding, err error) {
	root, err := openManual(folder)
	if err != nil {
		return nil, nil, err
	}
	defer func() { err = errors.Join(err, root.Close()) }()
	m, used, findings, err := new(Sitting).read(ctx, root, nil, Options{Now: now})
	if err != nil || finding.Stopping(findings) > 0 {
		return m, findings, err
	}
	if _, err := root.Lstat("theme"); errors.Is(err, fs.ErrNotExist) {
		return m, findings, nil
	}
	fault, err := inTheme(try(ctx, root, m, used, now))
	if fault != nil {
		findings = append(findings, *fault)
		finding.Sort(findings)
	}
	return m, findings, err
}

// try makes every page and keeps none.
func try(ctx context.Context, root *os.Root, m *manual.Manual, used relate.Uses, now time.Time) error {
	theme, err := themeOf(root.FS(), m.Shop.Look.Theme)
	if err != nil {
		return err
	}
	if _, err := theme.Digest(); err != nil {
		return err
	}
	if _, err := page.Tools(m, theme); err != nil {
		return err
	}
	_, err = page.Render(ctx, inputOf(m, theme, used, edition.Mark{Draft: true}, now), func(string, []byte) error { return nil })
	return err
}

// inTheme makes a finding of an error that a file of the manual's own theme has caused, and gives any other error back.
func inTheme(err error) (*finding.Finding, error) {
	var fault *themes.FaultError
	if !errors.As(err, &fault) {
		return nil, err
	}
	at := finding.Place{File: "theme/" + fault.File, Line: fault.Line}
	if at.Line > 0 {
		at.Column = 1
	}
	if fault.File == "" {
		at.File = "theme"
	}
	f := manual.UnusableTheme.At(at, "With this file of the shop's own theme no page can be made: "+fault.Err.Error()+".", "Put it right, or take it out: then the built-in one is used.")
	return &f, nil
}
