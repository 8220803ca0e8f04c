package builder

import (
	"maps"
	"os"
	"path"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/changes"
)

// What has to be replaced is told by what is printed: a process sheet or a lesson that says the same is not named, one that shows another number is, whoever's words have changed.
func TestReplacedIsWhatSaysSomethingElse(t *testing.T) {
	t.Parallel()
	was, err := EarlierIn(t.Context(), os.DirFS("../content"))
	if err != nil {
		t.Fatal(err)
	}
	said, err := was.Printed()
	if err != nil {
		t.Fatal(err)
	}
	demo := fileSystem(files(t, "../content")).(fstest.MapFS)
	var inWash2 []string
	parts := 0
	for _, p := range slices.Sorted(maps.Keys(demo)) {
		if path.Dir(p) != "parts" || strings.HasSuffix(p, ".es.md") {
			continue
		}
		parts++
		if head, _, _ := strings.Cut(strings.TrimPrefix(string(demo[p].Data), "---"), "\n---\n"); strings.Contains(head, "wash-2") {
			inWash2 = append(inWash2, p)
		}
	}
	if len(inWash2) == 0 || len(inWash2) == parts {
		t.Fatalf("%v are run in Wash 2, so nothing is shown", inWash2)
	}
	for what, c := range map[string]struct {
		file, from, to  string
		sheets, lessons []string // originals
	}{
		"where the edition is served":            {"shop.yaml", "https://manual.brackwater.example/", "https://other.example/", nil, nil},
		"the temperature of one tank":            {"shop.yaml", "temperature: 48 °C", "temperature: 47 °C", inWash2, nil},
		"what lessons reckon with":               {"shop.yaml", "volume: 120 L", "volume: 118 L", nil, []string{"lessons/filling-and-dilution.md"}},
		"the name of a chemistry in a language":  {"chemistries/neutral-detergent.es.md", "\ntitle: ", "\ntitle: X ", nil, nil},
		"words of a chemistry that no sheet has": {"chemistries/neutral-detergent.md", "\n## ", "\nOne more sentence.\n\n## ", nil, nil},
		"a revision":                             {"parts/gland-nut-brass.md", "revision: D", "revision: E", []string{"parts/gland-nut-brass.md"}, nil},
	} {
		fsys := maps.Clone(demo)
		old := string(fsys[c.file].Data)
		if !strings.Contains(old, c.from) {
			t.Fatalf("%s: %s has no %q", what, c.file, c.from)
		}
		fsys[c.file] = &fstest.MapFile{Data: []byte(strings.Replace(old, c.from, c.to, 1)), Mode: 0o644}
		now, err := EarlierIn(t.Context(), fsys)
		if err != nil {
			t.Fatal(err)
		}
		says, err := now.Printed()
		if err != nil {
			t.Fatal(err)
		}
		list := changes.Between(was.Content, now.Content, nil)
		f := changes.Consequences(was.Content, now.Content, list).With(said, says, list)
		spanish := func(p string) bool { return strings.HasSuffix(p, ".es.md") }
		if got := slices.DeleteFunc(slices.Clone(f.Sheets), spanish); !slices.Equal(got, c.sheets) {
			t.Errorf("%s: sheets %v, not %v", what, got, c.sheets)
		}
		if got := slices.DeleteFunc(slices.Clone(f.Lessons), spanish); !slices.Equal(got, c.lessons) {
			t.Errorf("%s: lessons %v, not %v", what, got, c.lessons)
		}
		if strings.HasSuffix(c.file, ".es.md") && len(f.Sheets) != len(inWash2) {
			t.Errorf("%s: sheets %v", what, f.Sheets)
		}
	}
}
