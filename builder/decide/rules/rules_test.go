package rules

import (
	"context"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// today is the day on which the small manual is read, and demoDay that of the demo manual, some of which was approved later.
var (
	today   = time.Date(2026, 10, 20, 9, 0, 0, 0, time.UTC)
	demoDay = time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC)
)

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

// asItStands puts into a text of an edit what the header of its file says, so that a new revision of the demo manual changes no test: {revision}, which
// one it {translates}, the {day} of the approval, and what is {replaceable} by a shop's article.
func asItStands(t testing.TB, files fstest.MapFS, file, text string) string {
	t.Helper()
	if !strings.ContainsRune(text, '{') || files[file] == nil {
		return text
	}
	for hole, form := range map[string]*regexp.Regexp{"{revision}": revisionLine, "{translates}": translatesLine, "{day}": approvedLine} {
		if found := form.FindSubmatch(files[file].Data); found != nil {
			text = strings.ReplaceAll(text, hole, string(found[1]))
		}
	}
	if strings.Contains(text, "{replaceable}") {
		var r manual.Reader
		m, _, err := r.Read(context.Background(), files, nil)
		if err != nil {
			t.Fatal(err)
		}
		text = strings.ReplaceAll(text, "{replaceable}", m.At(file).Replaceable().String())
	}
	return text
}

var (
	revisionLine   = regexp.MustCompile(`(?m)^revision: (.+)$`)
	translatesLine = regexp.MustCompile(`(?m)^translates: (.+)$`)
	approvedLine   = regexp.MustCompile(`(?m)^approved: (\d{4}-\d\d-\d\d)`)
)

// edited gives a copy of the files with the edits made. What an edit changes has to be there exactly once.
func edited(t testing.TB, files fstest.MapFS, edits []edit) fstest.MapFS {
	t.Helper()
	copied := fstest.MapFS{}
	for name, f := range files {
		copied[name] = f
	}
	for _, e := range edits {
		e.old, e.new = asItStands(t, files, e.file, e.old), asItStands(t, files, e.file, e.new)
		switch {
		case e.new == pipe:
			copied[e.file] = &fstest.MapFile{Mode: fs.ModeNamedPipe}
		case e.new == gone:
			if copied[e.file] == nil {
				t.Fatalf("there is no %s to remove", e.file)
			}
			delete(copied, e.file)
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

// ofText are the rules that hold an approval against the text.
var ofText = []finding.RuleName{changedSinceApproval.Name, notApproved.Name}

// withoutApprovals leaves out what these find, but for files of which keep says so: the tests of other rules change texts that nobody approves anew.
func withoutApprovals(list []finding.Finding, keep func(file string) bool) []finding.Finding {
	return slices.DeleteFunc(list, func(f finding.Finding) bool { return slices.Contains(ofText, f.Rule) && !keep(f.File) })
}

func ofNoFile(string) bool { return false }

// proofread gives what reader and rules find, but for approvals.
func proofread(t testing.TB, files fs.FS) []finding.Finding {
	t.Helper()
	return withoutApprovals(proofreadAll(t, files), ofNoFile)
}

// proofreadAll gives everything that they find.
func proofreadAll(t testing.TB, files fs.FS) []finding.Finding {
	t.Helper()
	m, list, err := manual.Read(context.Background(), files)
	if err != nil {
		t.Fatal(err)
	}
	return withProof(m, list)
}

// withProof are the findings of reading a manual and those of its proof, sorted.
func withProof(m *manual.Manual, list []finding.Finding) []finding.Finding {
	list = append(list, Proof(m, dayOf(m))...)
	m.MarkDrafts(list)
	finding.Sort(list)
	return list
}

func show(list []finding.Finding) string {
	var b strings.Builder
	for _, f := range list {
		b.WriteString("\n  " + f.Place.String() + " " + string(f.Rule) + ": " + f.Message + " " + f.Remedy)
	}
	return b.String()
}

const small = "../../../testdata/mistakes/manual"

func TestSmallManualIsWithoutFault(t *testing.T) {
	if list := proofread(t, folder(t, small)); len(list) > 0 {
		t.Error(show(list))
	}
}

func TestEveryRuleHasItsCaseAndSaysWhatItIsFor(t *testing.T) {
	have := map[string]bool{}
	for _, c := range readCases(t) {
		have[c.rule] = true
	}
	seen := map[string]bool{}
	for _, r := range All() {
		if seen[string(r.Name)] {
			t.Errorf("%s is listed twice", r.Name)
		}
		seen[string(r.Name)] = true
		if !have[string(r.Name)] && r.Name != manual.UnusableTheme.Name { // which takes pages
			t.Errorf("%s has no case in %s", r.Name, casesFolder)
		}
		if r.Finds == "" || r.Why == "" || r.Source == "" || r.Severity == "" || strings.HasSuffix(r.Finds, ".") || !strings.HasSuffix(r.Why, ".") {
			t.Errorf("%s does not say in full what it is for: %+v", r.Name, r)
		}
	}
	for rule := range have {
		if !seen[rule] {
			t.Errorf("%s has a case and is not listed", rule)
		}
	}
}

// dayOf is the day on which a manual is read.
func dayOf(m *manual.Manual) time.Time {
	if m.Shop.Name == "Invented shop" {
		return today
	}
	return demoDay
}
