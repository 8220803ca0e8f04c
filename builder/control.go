package builder

import (
	"context"
	"errors"
	"slices"
	"time"

	"tankside/builder/control"
	"tankside/builder/decide/rules"
	"tankside/builder/manual"
)

// Approve enters an approval into the headers of articles; by has its name, role and day.
func Approve(ctx context.Context, folder string, names []string, by manual.Approval, now time.Time) ([]control.Change, error) {
	m, findings, err := Read(ctx, folder, now)
	if err != nil {
		return nil, err
	}
	stopped := make(map[string]bool)
	for _, f := range findings {
		if f.Severity.Stops() && !rules.OfApproval(f.Rule) {
			stopped[f.File] = true
		}
	}
	return changeAll(folder, m, names, func(list []*manual.Article) ([]control.Change, error) {
		return control.Approve(m, list, by, now, func(a *manual.Article) bool { return stopped[a.Path] })
	})
}

// Revise raises the revision of articles, to the next or to the one given, and takes their approval away.
func Revise(ctx context.Context, folder string, names []string, to string, now time.Time) ([]control.Change, error) {
	m, _, err := Read(ctx, folder, now)
	if err != nil {
		return nil, err
	}
	return changeAll(folder, m, names, func(list []*manual.Article) ([]control.Change, error) { return control.Revise(m, list, to) })
}

// changeAll finds the articles, has it worked out what becomes of them, and writes that.
func changeAll(folder string, m *manual.Manual, names []string, work func([]*manual.Article) ([]control.Change, error)) (changes []control.Change, err error) {
	if m.Undecided {
		return nil, errors.New("version control has left two versions of a file in the manual; join them first, as tankside proof says")
	}
	list, err := control.Find(m, folder, names)
	if err == nil {
		changes, err = work(list)
	}
	if err != nil {
		return nil, err
	}
	root, err := openManual(folder)
	if err != nil {
		return nil, err
	}
	if err = errors.Join(control.Write(root, changes), root.Close()); err != nil {
		return nil, err
	}
	return slices.Clip(changes), nil
}
