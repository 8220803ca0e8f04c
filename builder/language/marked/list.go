package marked

import (
	"cmp"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tankside/themes"
)

// Note opens what is noted for translators of a phrase beside where it is said: what it means there.
const Note = "note: "

// List compares a list of phrases for translators with what is said, by whom; place says in a translator's words where that is. With TANKSIDE_PHRASES=write
// in the environment it writes the list.
func List(t *testing.T, name string, said map[string]string, place func(where string) string) {
	t.Helper()
	type row struct{ phrase, where string }
	var rows []row
	for phrase, by := range said {
		var where, notes []string
		for one := range strings.SplitSeq(by, "\n") {
			if note, is := strings.CutPrefix(one, Note); is {
				notes = append(notes, note)
				continue
			}
			words := place(one)
			if words == "" {
				t.Errorf("%s says %q: write down in a translator's words where that is", one, phrase)
			}
			if !slices.Contains(where, words) {
				where = append(where, words)
			}
		}
		slices.Sort(where)
		where = append(where, notes...)
		if strings.ContainsAny(phrase, "\t\n") {
			t.Errorf("%q has a tab or a line end", phrase)
		}
		rows = append(rows, row{phrase, strings.Join(where, "; ")})
	}
	slices.SortFunc(rows, func(a, b row) int {
		first := func(r row) string { one, _, _ := strings.Cut(r.where, "; "); return one }
		return cmp.Or(cmp.Compare(first(a), first(b)), cmp.Compare(a.phrase, b.phrase))
	})
	var b strings.Builder
	for _, r := range rows {
		b.WriteString(r.phrase + "\t" + r.where + "\n")
	}
	if os.Getenv("TANKSIDE_PHRASES") == "write" {
		if err := os.WriteFile(filepath.Join(rootOf(t), "themes", "phrases", name+".tsv"), []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if themes.Phrases(name) == b.String() {
		return
	}
	there := map[string]bool{}
	for line := range strings.Lines(themes.Phrases(name)) {
		there[line] = true
	}
	for line := range strings.Lines(b.String()) {
		if !there[line] {
			t.Errorf("themes/phrases/%s.tsv lacks, or says another place of: %q", name, line)
		}
		delete(there, line)
	}
	for line := range there {
		t.Errorf("themes/phrases/%s.tsv has what nothing says: %q", name, line)
	}
	t.Error("write it anew: TANKSIDE_PHRASES=write go test ./builder/page ./calculators -run Phrases")
}

// Also adds somebody to those who say a phrase, one a line, each once.
func Also(by, where string) string {
	if by == "" {
		return where
	}
	if slices.Contains(strings.Split(by, "\n"), where) {
		return by
	}
	return by + "\n" + where
}

// rootOf is the folder of the module.
func rootOf(t *testing.T) string {
	t.Helper()
	dir, err := os.Getwd()
	for err == nil {
		if _, gone := os.Stat(filepath.Join(dir, "go.mod")); gone == nil {
			return dir
		}
		up := filepath.Dir(dir)
		if up == dir {
			break
		}
		dir = up
	}
	t.Fatal("no go.mod above", dir, err)
	return ""
}
