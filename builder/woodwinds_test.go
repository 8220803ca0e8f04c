package builder

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// woodwinds is a manual of an invented shop that repairs wind instruments. It was written by README.md, FORMAT.md and the findings alone.
const woodwinds = "../testdata/woodwinds/manual"

// publishesClean publishes a manual that has no findings and articles of every kind. It gives the edition's folder and the number of articles.
func publishesClean(t *testing.T, folder string) (to string, articles int) {
	t.Helper()
	m, findings, err := Read(t.Context(), folder, day)
	if err != nil || len(findings) > 0 {
		t.Fatal(err, findings)
	}
	kinds := map[manual.Kind]bool{}
	for _, a := range m.Articles {
		kinds[a.Kind] = true
		articles++
	}
	if len(kinds) != 7 {
		t.Errorf("articles of %d kinds", len(kinds))
	}
	to = filepath.Join(t.TempDir(), "edition")
	if _, err := Publish(t.Context(), Options{Manual: folder, To: to, Now: day}); err != nil {
		t.Fatal(err)
	}
	return to, articles
}

// The manual of another trade has no findings, publishes, and has at least so many articles, of every kind.
func TestWoodwindsManualPublishes(t *testing.T) {
	t.Parallel()
	to, articles := publishesClean(t, woodwinds)
	if articles < 25 {
		t.Errorf("%d articles", articles)
	}
	if _, err := os.Stat(filepath.Join(to, "parts", "flute-keys.html")); err != nil {
		t.Error(err)
	}
}

// Each key that stands in the manual's headers, shop file, glossary and vocabulary is explained in FORMAT.md; so is each head of its records.
func TestWoodwindsManualNeedsNothingUndocumented(t *testing.T) {
	t.Parallel()
	guide, err := os.ReadFile("manual/FORMAT.md")
	if err != nil {
		t.Fatal(err)
	}
	key := regexp.MustCompile(`(?m)^[ -]*([a-z][a-z-]*):|[{,] ?([a-z][a-z-]*): `)
	seen := map[string]bool{}
	err = fs.WalkDir(os.DirFS(woodwinds), ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || strings.HasPrefix(name, "pictures/") || name == "ledger.txt" {
			return err
		}
		data, err := os.ReadFile(filepath.Join(woodwinds, name))
		if err != nil {
			return err
		}
		text := string(data)
		switch {
		case strings.HasSuffix(name, ".md"):
			text, _, _ = strings.Cut(strings.TrimPrefix(text, "---\n"), "\n---\n")
		case name == "glossary.yaml": // the terms themselves are no keys
			text = regexp.MustCompile(`(?m)^[^:]*: `).ReplaceAllString(text, "")
		case strings.HasSuffix(name, ".csv"):
			head, _, _ := strings.Cut(text, "\n")
			for _, cell := range strings.Split(head, ",") {
				cell, _, _ = strings.Cut(cell, " (")
				seen[cell] = true
			}
			return nil
		}
		for _, found := range key.FindAllStringSubmatch(text, -1) {
			seen[found[1]+found[2]] = true
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for k := range seen {
		explained := regexp.MustCompile("`(?:[a-z-]+ → )*" + regexp.QuoteMeta(k) + `(?: \([^)]*\))?` + "`")
		if !explained.Match(guide) {
			t.Errorf("FORMAT.md does not explain %q", k)
		}
	}
	if len(seen) < 70 {
		t.Errorf("%d keys were looked at: the manual was not read as it stands", len(seen))
	}
}

// What the author of that manual could not find is found now, or said in the finding: how a tank without heater is written, that a sum that comes out
// is let through and one that does not is named, and what a soil with something dangerous in it leads to.
func TestWhatTheAuthorOfWoodwindsDidNotKnow(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ file, old, new, rule, remedy string }{
		{"shop.yaml", "    heater: 300 W\n", "    heater: none\n", "wrong-quantity", "Leave the line out where there is none"},
		{"chemistries/mild-soap.md", "that is 180 mL", "that is 1800 mL", "wrong-sum", ""},
		{"chemistries/mild-soap.md", "For 2 % v/v in 9 L that is 180 mL", "A jug of 9 L, that is 180 mL", "unequal-units", ""},
	} {
		dir := t.TempDir()
		if err := os.CopyFS(dir, os.DirFS(woodwinds)); err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(dir, filepath.FromSlash(test.file))
		data, err := os.ReadFile(file)
		if err != nil || !strings.Contains(string(data), test.old) {
			t.Fatalf("%s has no %q: %v", test.file, test.old, err)
		}
		if err := os.WriteFile(file, []byte(strings.Replace(string(data), test.old, test.new, 1)), 0o644); err != nil {
			t.Fatal(err)
		}
		_, findings, err := Read(t.Context(), dir, day)
		if err != nil {
			t.Fatal(err)
		}
		at := slices.IndexFunc(findings, func(f finding.Finding) bool { return string(f.Rule) == test.rule })
		if at < 0 || !strings.Contains(findings[at].Remedy, test.remedy) {
			t.Errorf("%s: %q: %v", test.file, test.new, findings)
		}
	}
	guide, err := os.ReadFile("manual/FORMAT.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, said := range []string{"left out where it has none", "of what is used only in a jar, time in the jar", "A soil with `may-contain` gets no yes"} {
		if !strings.Contains(string(guide), said) {
			t.Errorf("FORMAT.md does not say: %s", said)
		}
	}
}
