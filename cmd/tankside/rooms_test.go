package main

import (
	"go/build"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

const root = "../.."

// The table of rooms in DEVELOPERS.md names every package that there is and none besides, and says of each just what it knows.
func TestRooms(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, table, found := strings.Cut(strings.ReplaceAll(string(text), "\r\n", "\n"), "\n## The rooms\n")
	if !found {
		t.Fatal("DEVELOPERS.md has no table of rooms")
	}
	table, _, _ = strings.Cut(table, "\n## ")
	named := regexp.MustCompile("`([^`]+)`")
	may := map[string][]string{}
	for _, line := range strings.Split(table, "\n") {
		cells := strings.Split(line, " |")
		if m := named.FindStringSubmatch(cells[0]); strings.HasPrefix(line, "| `") && len(cells) == 4 {
			if _, twice := may[m[1]]; twice {
				t.Errorf("the room %s is there twice", m[1])
			}
			may[m[1]] = nil
			for _, k := range named.FindAllStringSubmatch(cells[2], -1) {
				may[m[1]] = append(may[m[1]], k[1])
			}
		}
	}
	there := rooms(t)
	for room, knows := range there {
		told, is := may[room]
		if !is {
			t.Errorf("DEVELOPERS.md has no room %s", room)
			continue
		}
		for _, k := range knows {
			if !slices.Contains(told, k) {
				t.Errorf("%s knows %s, which DEVELOPERS.md does not tell", room, k)
			}
		}
		for _, k := range told {
			if !slices.Contains(knows, k) {
				t.Errorf("DEVELOPERS.md says that %s knows %s, and it does not", room, k)
			}
		}
	}
	for room := range may {
		if _, is := there[room]; !is {
			t.Errorf("DEVELOPERS.md has a room %s, which is not there", room)
		}
	}
}

// Files and folders that the contributors' page names are there.
func TestGuideNamesWhatIsThere(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	named := regexp.MustCompile("`((?:builder|calculators|cmd|content|search|testdata|themes)/[\\w./-]*|[A-Z]+\\.md)`").FindAllStringSubmatch(string(text), -1)
	if len(named) < 40 {
		t.Fatalf("the page names only %d places", len(named))
	}
	built := regexp.MustCompile(`^themes/wasm/`) // by make
	for _, m := range named {
		name := m[1]
		if name == "FORMAT.md" {
			name = "builder/manual/FORMAT.md"
		}
		if _, err := os.Stat(filepath.Join(root, name)); err != nil && !built.MatchString(name) && !strings.Contains(name, "TAG") {
			t.Errorf("DEVELOPERS.md names %s, which is not there", m[1])
		}
	}
}

// rooms gives the packages of the project, programs of testdata left out, each with those it imports; what is built for one system alone counts
// too, and so does a package of tests.
func rooms(t *testing.T) map[string][]string {
	t.Helper()
	all := map[string][]string{}
	for _, top := range []string{"builder", "calculators", "cmd", "search", "themes"} {
		err := filepath.WalkDir(filepath.Join(root, top), func(name string, d fs.DirEntry, err error) error {
			switch {
			case err != nil || !d.IsDir():
				return err
			case d.Name() == "testdata" || d.Name() == "absent":
				return fs.SkipDir
			}
			context := build.Default
			context.UseAllFiles = true // whatever the system
			p, err := context.ImportDir(name, 0)
			if _, none := err.(*build.NoGoError); none {
				return nil
			}
			if err != nil && p.Name == "" {
				return err
			}
			room := path.Clean(filepath.ToSlash(strings.TrimPrefix(name, root+string(filepath.Separator))))
			all[room] = []string{}
			for _, i := range p.Imports {
				if own, is := strings.CutPrefix(i, "tankside/"); is {
					all[room] = append(all[room], own)
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if len(all) < 30 {
		t.Fatalf("only %d packages were found", len(all))
	}
	return all
}
