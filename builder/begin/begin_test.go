package begin_test

import (
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"tankside/builder/begin"
	"tankside/builder/decide/rules"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// today is the day of the demo manual's tests.
var today = time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)

// toFill are the rules whose findings say what is to be filled in: values, text, limits, the first question of a symptom.
var toFill = []finding.RuleName{"not-approved", "wrong-value", "empty-article", "unbounded-article", "no-first-step"}

// A new article of every kind has no other findings than those that say what is to be filled in, each at the line where it goes, and in the rest of
// the manual nothing is found.
func TestNothingIsFoundButWhatIsToBeFilledIn(t *testing.T) {
	t.Parallel()
	for _, kind := range manual.Kinds {
		text, err := begin.Article(kind, "begun-here", "")
		if err != nil {
			t.Fatal(err)
		}
		at := kind.Folder() + "/begun-here.md"
		files := demo(t)
		files[at] = &fstest.MapFile{Data: text}
		m, findings, err := manual.Read(t.Context(), files)
		if err != nil {
			t.Fatal(err)
		}
		findings = append(findings, rules.Proof(m, today)...)
		if len(findings) == 0 || finding.Stopping(findings) == 0 {
			t.Errorf("%s: an article that nobody has filled in or approved is published", kind)
		}
		for _, f := range findings {
			if f.File != at || f.Line == 0 || !slices.Contains(toFill, f.Rule) {
				t.Errorf("%s: %s %s: %s", kind, f.Rule, f.Place, f.Message)
			}
		}
		a := m.At(at)
		if !a.Head.Approval.Day.IsZero() || a.Head.Approval.Role != "" || !a.Head.ReviewBy.IsZero() || len(a.Head.Sources) > 0 || len(a.Body) > 0 {
			t.Errorf("%s: claims an approval, a source or a fact: %+v", kind, a.Head)
		}
	}
}

// Each key of every kind is explained, those of mappings too, and takes its example once its remark is a line of the header.
func TestEveryKeyIsExplainedAndTakesItsExample(t *testing.T) {
	t.Parallel()
	open := regexp.MustCompile(`(?m)^#?([a-z-]+):$`)
	for _, kind := range manual.Kinds {
		text, err := begin.Article(kind, "begun-here", "")
		if err != nil {
			t.Fatal(err)
		}
		examples := map[string]string{}
		explained := regexp.MustCompile(`\n#\s+`).ReplaceAllString("\n"+string(text), "\n# ")
		for _, k := range slices.Concat(manual.HeadKeys(), manual.Keys(kind)) {
			examples[k.Name] = k.Example
			for _, under := range slices.Concat([]manual.Key{{}}, k.Under) {
				want := "\n# " + k.Name
				if under.Name != "" {
					want += " → " + under.Name
				}
				if !strings.Contains(explained, want+": ") {
					t.Errorf("%s: %q is not explained", kind, want)
				}
			}
		}
		filled := open.ReplaceAllStringFunc(string(text), func(line string) string {
			key := open.FindStringSubmatch(line)[1]
			if examples[key] == "" {
				return line
			}
			return key + ": " + examples[key]
		})
		files := demo(t)
		files[kind.Folder()+"/begun-here.md"] = &fstest.MapFile{Data: []byte(filled)}
		_, findings, err := manual.Read(t.Context(), files)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range findings {
			if f.Rule == "unknown-key" || f.Rule == "unreadable-yaml" || f.Rule == "wrong-value" || f.Rule == "wrong-quantity" {
				t.Errorf("%s: filled with its examples: %s %s: %s", kind, f.Rule, f.Place, f.Message)
			}
		}
	}
}

// A title is one line, and stands in the header as it was given.
func TestTitles(t *testing.T) {
	t.Parallel()
	for given, want := range map[string]string{"": "Hard wax", `A "hard" wax: 7 \ #`: `A "hard" wax: 7 \ #`} {
		text, err := begin.Article(manual.Soil, "hard-wax", given)
		if err != nil {
			t.Fatal(err)
		}
		files := demo(t)
		files["soils/hard-wax.md"] = &fstest.MapFile{Data: text}
		m, _, err := manual.Read(t.Context(), files)
		if err != nil {
			t.Fatal(err)
		}
		if got := m.At("soils/hard-wax.md").Head.Title; got != want {
			t.Errorf("title %q, want %q", got, want)
		}
	}
	for _, bad := range []string{"two\nlines", strings.Repeat("x", 81), "\xff"} {
		if _, err := begin.Article(manual.Soil, "hard-wax", bad); err == nil {
			t.Errorf("%q is taken for a title", bad)
		}
	}
}

// demo is the demo manual, in memory.
func demo(t *testing.T) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	from := os.DirFS("../../content")
	err := fs.WalkDir(from, ".", func(p string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := fs.ReadFile(from, p)
		files[p] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}
