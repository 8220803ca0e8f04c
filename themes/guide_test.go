package themes

import (
	"maps"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// Every file of the built-in theme, and every block of a template, says what it is there for, and nothing is told of that there is not.
func TestEveryPartHasAPurpose(t *testing.T) {
	told := map[[2]string]bool{}
	for _, p := range Parts() {
		key := [2]string{p.File, p.Block}
		if told[key] {
			t.Errorf("%s %s is told of twice", p.File, p.Block)
		}
		told[key] = true
		if strings.TrimSpace(p.Purpose) == "" {
			t.Errorf("%s %s does not say what it is there for: write it into purposes.tsv, or as the file's first comment", p.File, p.Block)
		}
	}
	there := map[[2]string]bool{}
	define := regexp.MustCompile(`{{-?\s*(?:define|block)\s+"([^"]+)"`)
	for _, file := range BuiltInFiles() {
		there[[2]string{file, ""}] = true
		data, err := BuiltInFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if !strings.HasPrefix(file, "templates/") {
			continue
		}
		for _, m := range define.FindAllStringSubmatch(string(data), -1) {
			if m[1] != "content" {
				there[[2]string{file, m[1]}] = true
			}
		}
	}
	for key := range there {
		if !told[key] {
			t.Errorf("nothing is told of %s %s: write it into purposes.tsv", key[0], key[1])
		}
	}
	for key := range told {
		if !there[key] {
			t.Errorf("purposes.tsv tells of %s %s, and there is no such part", key[0], key[1])
		}
	}
	for line := range strings.Lines(purposes) {
		f := strings.Split(strings.TrimSuffix(line, "\n"), "\t")
		if len(f) != 3 || !there[[2]string{f[0], f[1]}] {
			t.Errorf("purposes.tsv: %q is not file, block and purpose of a part that there is", line)
		}
	}
}

// The page about the theme's files is the one that is made of them:
//
//	TANKSIDE_THEME=write go test ./themes -run Guide
func TestGuideIsCurrent(t *testing.T) {
	want := Guide()
	if os.Getenv("TANKSIDE_THEME") == "write" {
		if err := os.WriteFile("THEME.md", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile("THEME.md")
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Error("THEME.md is not what the files say now; write it anew with TANKSIDE_THEME=write go test ./themes -run Guide")
	}
	for _, file := range BuiltInFiles() {
		if !strings.Contains(want, "`"+file+"`") {
			t.Errorf("the page does not tell of %s", file)
		}
	}
}

// What a style, a drawing or a script says of itself is its first comment, whole.
func TestFirstComment(t *testing.T) {
	for text, want := range map[string]string{
		"/* One\n   two. */\na {}\n/* three */": "One two.", "<svg><!-- A tank. --></svg>": "A tank.", "// One\n// two.\n//\n// three\nx": "One two.", "a { }": "",
		"// Not /* this */\nx": "Not /* this */",
	} {
		if got := firstComment(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// A built-in file is found whichever theme has it, and the modules are none that a shop replaces.
func TestBuiltInFiles(t *testing.T) {
	all := BuiltInFiles()
	for _, want := range []string{"templates/home.html", "styles/80-desk.css", "styles/80-tank-side.css", "drawings/mark.svg", "words/calculators/de.yaml"} {
		if data, err := BuiltInFile(want); !slices.Contains(all, want) || err != nil || len(data) == 0 {
			t.Errorf("%s: %v, %d bytes", want, err, len(data))
		}
	}
	if slices.ContainsFunc(all, IsModules) {
		t.Error("the modules are among the files that a shop replaces")
	}
	if got := map[string]string{"styles/80-desk.css": SetOf("styles/80-desk.css"), "styles/60-home.css": SetOf("styles/60-home.css")}; !maps.Equal(got, map[string]string{"styles/80-desk.css": "desk", "styles/60-home.css": ""}) {
		t.Error(got)
	}
}
