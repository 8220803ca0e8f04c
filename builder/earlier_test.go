package builder

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tankside/builder/finding"
)

const twoArticles = "## Fill\n\nSee [heat](heat.md).\n"

// manualOfTwo writes a manual of two articles that name each other.
func manualOfTwo(t *testing.T) (src, article string) {
	t.Helper()
	src = folder(t, map[string]string{"shop.yaml": smallShop, "procedures/fill.md": head + twoArticles, "procedures/heat.md": head + "## Heat\n\nSee [fill](fill.md).\n"})
	return src, filepath.Join(src, "procedures", "fill.md")
}

// change replaces a piece of a file.
func change(t *testing.T, file, old, new string) {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil || !strings.Contains(string(data), old) {
		t.Fatalf("%s has no %q: %v", file, old, err)
	}
	if err := os.WriteFile(file, []byte(strings.ReplaceAll(string(data), old, new)), 0o644); err != nil {
		t.Fatal(err)
	}
}

func changedAlone(t *testing.T, r Report, err error, where string) {
	t.Helper()
	r.Findings = butApprovals(r.Findings)
	if !errors.Is(err, ErrStopped) || len(r.Findings) != 1 || r.Findings[0].Rule != "changed-without-revision" || r.Findings[0].File != where ||
		r.Findings[0].Severity != finding.Result || !strings.Contains(r.Findings[0].Message, "edition 1 of 2026-12-01") || !strings.Contains(r.Findings[0].Remedy, "Raise the revision to B") {
		t.Errorf("got %+v, %v", r.Findings, err)
	}
}

// butApprovals leaves out that nobody has approved the articles of a test.
func butApprovals(list []finding.Finding) []finding.Finding {
	return slices.DeleteFunc(slices.Clone(list), func(f finding.Finding) bool { return f.Rule == "not-approved" })
}

// A text that has changed since the edition in the target folder is published under another revision only.
func TestChangeNeedsARevision(t *testing.T) {
	t.Parallel()
	src, article := manualOfTwo(t)
	to := filepath.Join(t.TempDir(), "edition")
	if r, err := enterIt(t, src, to, day); err != nil {
		t.Fatal(err, r.Findings)
	}
	change(t, article, "See [heat]", "See [heating]")
	r, err := publish(t, src, to, day)
	changedAlone(t, r, err, "procedures/fill.md")
	l, err := listIn(to)
	if err != nil {
		t.Fatal(err)
	}
	m, findings, err := Read(t.Context(), src, day)
	if findings = butApprovals(findings); err != nil || len(findings) != 0 {
		t.Errorf("proof with no edition to compare with: %v, %v", findings, err)
	}
	if findings = Against(m, findings, l, day); len(findings) != 1 {
		t.Errorf("proof: %v", findings)
	}
	change(t, article, "revision: A", "revision: B")
	if r, err := enterIt(t, src, to, day); err != nil || r.Mark.Edition != 2 {
		t.Errorf("%v, %v, %v", r.Mark, r.Findings, err)
	}
	if r, err := publish(t, src, filepath.Join(t.TempDir(), "edition"), day); err != nil {
		t.Errorf("to an empty folder: %v, %v", r.Findings, err)
	}
}

// In a sitting a text needs one new revision against the edition before it, and none for each draft.
func TestSittingComparesWithTheEditionBeforeIt(t *testing.T) {
	t.Parallel()
	src, article := manualOfTwo(t)
	to := filepath.Join(t.TempDir(), "edition")
	if r, err := enterIt(t, src, to, day); err != nil {
		t.Fatal(err, r.Findings)
	}
	s := NewSitting()
	next := func() (Report, error) {
		return Publish(context.Background(), Options{Manual: src, To: to, Now: day, Sitting: s, Draft: true, Changed: []string{"procedures/fill.md"}})
	}
	if r, err := next(); err != nil {
		t.Fatal(err, r.Findings)
	}
	change(t, article, "See [heat]", "See [heating]")
	r, err := next()
	changedAlone(t, r, err, "procedures/fill.md")
	change(t, article, "revision: A", "revision: B")
	for _, text := range []string{"one", "two", "three"} {
		change(t, article, "## Fill\n", "## Fill\n\n"+text+".\n")
		if r, err := next(); err != nil || r.Mark.Edition != 0 || r.Mark.After != 1 {
			t.Errorf("draft %s: %v, %v, %v", text, r.Mark, r.Findings, err)
		}
	}
	change(t, article, "revision: B", "revision: A") // back to the one that the edition before the sitting has
	r, err = next()
	changedAlone(t, r, err, "procedures/fill.md")
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	change(t, article, "revision: A", "revision: B")
	if r, err := publish(t, src, to, day); err != nil {
		t.Error(r.Findings, err)
	}
}
