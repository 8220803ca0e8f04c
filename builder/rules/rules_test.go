package rules

import (
	"context"
	"io/fs"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

var today = time.Date(2026, 10, 20, 9, 0, 0, 0, time.UTC)

// folder reads a folder of files into memory.
func folder(t testing.TB, name string) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	root := os.DirFS(name)
	err := fs.WalkDir(root, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(root, p)
		files[p] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// edited gives a copy of the files with the edits made. What an edit changes has to be there exactly once.
func edited(t testing.TB, files fstest.MapFS, edits []edit) fstest.MapFS {
	t.Helper()
	copied := fstest.MapFS{}
	for name, f := range files {
		copied[name] = f
	}
	for _, e := range edits {
		switch {
		case e.new == pipe:
			copied[e.file] = &fstest.MapFile{Mode: fs.ModeNamedPipe}
		case e.old == atEnd:
			f := copied[e.file]
			if f == nil {
				t.Fatalf("there is no %s to add to", e.file)
			}
			copied[e.file] = &fstest.MapFile{Data: append(slices.Clone(f.Data), e.new...)}
		case e.old == "":
			copied[e.file] = &fstest.MapFile{Data: []byte(e.new)}
		default:
			f := copied[e.file]
			if f == nil {
				t.Fatalf("there is no %s to change", e.file)
			}
			if n := strings.Count(string(f.Data), e.old); n != 1 {
				t.Fatalf("%s has %q %d times", e.file, e.old, n)
			}
			copied[e.file] = &fstest.MapFile{Data: []byte(strings.Replace(string(f.Data), e.old, e.new, 1))}
		}
	}
	return copied
}

// proofread gives everything that reader and rules find.
func proofread(t testing.TB, files fs.FS) []finding.Finding {
	t.Helper()
	m, list, err := manual.Read(context.Background(), files)
	if err != nil {
		t.Fatal(err)
	}
	list = append(list, Proof(m, today)...)
	finding.Sort(list)
	return list
}

func show(list []finding.Finding) string {
	var b strings.Builder
	for _, f := range list {
		b.WriteString("\n  " + f.Place.String() + " " + f.Rule + ": " + f.Message + " " + f.Remedy)
	}
	return b.String()
}

const small = "../../testdata/mistakes/manual"

func TestSmallManualIsWithoutFault(t *testing.T) {
	if list := proofread(t, folder(t, small)); len(list) > 0 {
		t.Error(show(list))
	}
}

func TestEachRuleCatchesItsMistakeAndLeavesTheNearMissAlone(t *testing.T) {
	base := folder(t, small)
	for _, p := range pairs {
		t.Run(p.rule, func(t *testing.T) {
			proofread := proofread
			if p.rule == changedWithoutRevision.Name {
				proofread = func(t testing.TB, files fs.FS) []finding.Finding {
					return proofreadSince(t, files.(fstest.MapFS), base)
				}
			}
			list := proofread(t, edited(t, base, p.caught))
			if len(list) != 1 || list[0].Rule != p.rule || list[0].Place.String() != p.place {
				t.Errorf("the mistake: want %s %s alone, got%s", p.place, p.rule, show(list))
			}
			for _, f := range list {
				if f.Message == "" || f.Why == "" || f.Remedy == "" || !f.Severity.Stops() && f.Severity != finding.Untidy {
					t.Errorf("half a note: %+v", f)
				}
			}
			if near := proofread(t, edited(t, base, p.near)); len(near) > 0 {
				t.Errorf("the near miss: want nothing, got%s", show(near))
			}
		})
	}
}

func TestEveryRuleHasItsPairAndSaysWhatItIsFor(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range All() {
		if seen[r.Name] {
			t.Errorf("%s is listed twice", r.Name)
		}
		seen[r.Name] = true
		if !slices.ContainsFunc(pairs, func(p pair) bool { return p.rule == r.Name }) {
			t.Errorf("%s has no pair of cases", r.Name)
		}
		if r.Finds == "" || r.Why == "" || r.Source == "" || r.Severity == "" || strings.HasSuffix(r.Finds, ".") || !strings.HasSuffix(r.Why, ".") {
			t.Errorf("%s does not say in full what it is for: %+v", r.Name, r)
		}
	}
	for _, p := range pairs {
		if !seen[p.rule] {
			t.Errorf("%s has a pair of cases and is not listed", p.rule)
		}
	}
}
