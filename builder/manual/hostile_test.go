package manual

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"
)

// The folder testdata/hostile is a manual written to do harm. Every file of it must be reported, and nothing of it may run or lead out.
func TestHostileManual(t *testing.T) {
	root, err := os.OpenRoot("../../testdata/hostile")
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	m, list := read(t, root.FS())
	want := strings.TrimSpace(`
glossary.yaml:1:15 unreadable-yaml
pictures/not-a-picture.png unsafe-picture
pictures/entity.svg:2 unsafe-picture
pictures/event.svg:1 unsafe-picture
pictures/outside.svg:2 unsafe-picture
pictures/script.svg:2 unsafe-picture
soils/bomb.md:9:9 unreadable-yaml
soils/deep.md:9:17 unreadable-yaml
soils/latin.md:2:10 unreadable-file
soils/nul-byte.md:11:2 unreadable-file
soils/script.md:11:1 raw-html
soils/script.md:13:11 raw-html
soils/script.md:15:3 raw-html
soils/tag.md:2:8 unreadable-yaml
soils/utf-16.md:1:1 unreadable-file`)
	var lines []string
	for _, f := range list {
		lines = append(lines, f.Place.String()+" "+string(f.Rule))
	}
	slices.Sort(lines)
	wanted := strings.Split(want, "\n")
	slices.Sort(wanted)
	if got := strings.Join(lines, "\n"); got != strings.Join(wanted, "\n") {
		t.Errorf("got\n%s\nwant\n%s", got, strings.Join(wanted, "\n"))
	}
	for _, p := range m.Pictures {
		if p.Path != "pictures/sound.svg" {
			t.Errorf("the picture %s is in the model", p.Path)
		}
	}
	links := m.At("soils/links.md")
	for _, l := range append(links.Links, links.Pictures...) {
		to, problem := m.Resolve(links, l.Target)
		if good := strings.HasPrefix(l.Text, "good"); good != (problem == nil) {
			t.Errorf("%s (%s): %+v, %v", l.Target, l.Text, to, problem)
		}
		for word, kind := range map[string]LinkProblem{"unsafe": Unsafe, "leaves": Leaves, "missing": NotFound} {
			if strings.HasPrefix(l.Text, word) && (problem == nil || problem.Problem != kind) {
				t.Errorf("%s (%s): %+v, %v", l.Target, l.Text, to, problem)
			}
		}
	}
}

func TestLinksOutOfTheFolderAreNotFollowed(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("making symbolic links takes a privilege there")
	}
	outside, inside := t.TempDir(), t.TempDir()
	secret := "a secret that must not be published"
	write(t, filepath.Join(outside, "secret.md"), soilHead+secret)
	write(t, filepath.Join(inside, ShopFile), smallShop)
	write(t, filepath.Join(inside, "soils", "wax.md"), soilHead)
	for link, to := range map[string]string{
		"soils/file.md":   filepath.Join(outside, "secret.md"),
		"soils/up.md":     "../../" + filepath.Base(outside) + "/secret.md",
		"soils/inside.md": "wax.md",
		"materials":       outside,
		"glossary.yaml":   filepath.Join(outside, "secret.md"),
	} {
		if err := os.Symlink(to, filepath.Join(inside, link)); err != nil {
			t.Fatal(err)
		}
	}
	root, err := os.OpenRoot(inside)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	for name, fsys := range map[string]fs.FS{"root": root.FS(), "plain folder": os.DirFS(inside)} {
		m, list := read(t, fsys)
		want := "glossary.yaml not-a-file\nmaterials not-a-file\nsoils/file.md not-a-file\nsoils/inside.md not-a-file\nsoils/up.md not-a-file"
		if got := places(list); got != want {
			t.Errorf("%s: got\n%s\nwant\n%s", name, got, want)
		}
		if m.Count() != 1 {
			t.Errorf("%s: %d articles", name, m.Count())
		}
		for _, a := range m.Articles {
			if bytes.Contains(a.Body, []byte(secret)) {
				t.Errorf("%s: %s has come in from outside", name, a.Path)
			}
		}
	}
}

func write(t *testing.T, name, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

func TestHugeFileIsRefusedUnread(t *testing.T) {
	dir := t.TempDir()
	write(t, filepath.Join(dir, ShopFile), smallShop)
	write(t, filepath.Join(dir, "soils", "huge.md"), "")
	write(t, filepath.Join(dir, "soils", "wax.md"), soilHead+"[huge](huge.md)")
	if err := os.Truncate(filepath.Join(dir, "soils", "huge.md"), 50<<20); err != nil {
		t.Fatal(err)
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	m, list := read(t, os.DirFS(dir))
	runtime.ReadMemStats(&after)
	if got := places(list); got != "soils/huge.md too-large" {
		t.Error(got)
	}
	if taken := after.TotalAlloc - before.TotalAlloc; taken > 8<<20 {
		t.Errorf("%d bytes were taken to refuse a file", taken)
	}
	if _, problem := m.Resolve(m.At("soils/wax.md"), "huge.md"); problem != nil {
		t.Errorf("the link to the refused file is called broken as well: %v", problem)
	}
}

// lying is a file that says it is small and has no end.
type lying struct{ fstest.MapFS }

type endless struct {
	fs.File
	given *int64
}

var given int64

func (l lying) Open(name string) (fs.File, error) {
	f, err := l.MapFS.Open(name)
	if name == "soils/endless.md" && err == nil {
		return endless{f, &given}, nil
	}
	return f, err
}

func (e endless) Read(p []byte) (int, error) {
	*e.given += int64(len(p))
	if *e.given > 64<<20 {
		return 0, io.ErrUnexpectedEOF
	}
	return len(p), nil
}

func TestFileWithoutEndIsRefused(t *testing.T) {
	_, list := read(t, lying{files(map[string]string{"soils/endless.md": "x"})})
	if got := places(list); got != "soils/endless.md too-large" {
		t.Error(got)
	}
	if given > 2*maxText {
		t.Errorf("%d bytes were read", given)
	}
}

// Names that one computer stores and another does not: they cannot be files of this repository, since it has to be checked out everywhere.
func TestHostileNames(t *testing.T) {
	for name, c := range map[string]struct {
		path, want string
	}{
		"device":           {"soils/con.md", "unusable-file-name"},
		"device, capitals": {"soils/LPT1.md", "unusable-file-name"},
		"device folder":    {"soils/aux/wax.md", "unusable-file-name"},
		"no device":        {"soils/connector.md", ""},
		"colon":            {"soils/a:b.md", "unusable-file-name"},
		"question mark":    {"soils/why?.md", "unusable-file-name"},
		"hash":             {"soils/a#b.md", "unusable-file-name"},
		"control":          {"soils/a\nb.md", "unusable-file-name"},
		"backslash":        {`soils/a\..\..\x.md`, "unusable-file-name"},
		"blank at the end": {"soils/wax /wax.md", "unusable-file-name"},
		"stop at the end":  {"soils/wax./wax.md", "unusable-file-name"},
		"list page":        {"soils/index.md", "unusable-file-name"},
		"very long":        {"soils/" + strings.Repeat("a", 200) + ".md", "unusable-file-name"},
		"not UTF-8":        {"soils/w\xe4x.md", "unusable-file-name"},
		"capitals":         {"soils/Hard Wax.md", "untidy-file-name"},
		"underscore":       {"soils/hard_wax.md", "untidy-file-name"},
		"extension":        {"soils/wax.MD", "untidy-file-name"},
		"other letters":    {"soils/größe.md", "untidy-file-name"},
		"text file":        {"soils/wax.txt", "stray-file"},
		"wrong folder":     {"soil/wax.md", "stray-file"},
		"top":              {"wax.md", "stray-file"},
		"hidden":           {"soils/.wax.md.swp", ""},
		"hidden folder":    {".git/config", ""},
		"left by editor":   {"soils/wax.md~", ""},
		"sub-folder":       {"soils/waxes/hard-wax.md", ""},
	} {
		_, list := read(t, files(map[string]string{c.path: soilHead}))
		var got []string
		for _, f := range list {
			got = append(got, string(f.Rule))
		}
		if fmt.Sprint(got) != fmt.Sprint(strings.Fields(c.want)) {
			t.Errorf("%s, %q: %v, want %s", name, c.path, got, c.want)
		}
	}
}

func TestTwoFilesOneAddress(t *testing.T) {
	_, list := read(t, files(map[string]string{
		"soils/wax.md": soilHead, "soils/WAX.md": soilHead, // one file on many computers
		"soils/hard/oil.md": soilHead, "soils/soft/oil.md": soilHead, // two articles with one name
	}))
	want := "soils/WAX.md untidy-file-name\nsoils/soft/oil.md same-address\nsoils/wax.md same-address"
	if got := places(list); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// Markdown takes time with the square of the length of some blocks. None that is let through may hold up the reader.
// The minute is no measure of speed: without the refusal these texts take hours.
func TestTextsThatAreSlowToReadAreRefused(t *testing.T) {
	for name, text := range map[string]string{
		"quotes in quotes": strings.Repeat("> ", 400_000),
		"lists in quotes":  strings.Repeat("> - ", 200_000),
		"links unfinished": strings.Repeat("[a](", 200_000),
		"over many lines":  strings.Repeat("[a](\n", 150_000),
		"false fence":      "``` `\n" + strings.Repeat("[a](", 200_000),
		"fence closed":     "```\n```\n" + strings.Repeat("[a](", 200_000),
	} {
		begin := time.Now()
		m, list := read(t, files(map[string]string{"soils/wax.md": soilHead + text}))
		if len(list) != 1 || list[0].Rule != "too-large" || len(m.At("soils/wax.md").Body) > 0 {
			t.Errorf("%s: %s", name, places(list))
		}
		if took := time.Since(begin); took > time.Minute {
			t.Errorf("%s took %v", name, took)
		}
	}
	for name, text := range map[string]string{
		"many headings":    strings.Repeat("## Wax\n\n", 900),
		"long listing":     "```text\n" + strings.Repeat("12:00 heater on\n", 20_000) + "```\n",
		"just short":       strings.Repeat(strings.Repeat("[a](", 1900)+"\n\n", 5),
		"long in two":      strings.Repeat("Wax wax. ", 3600) + "\n\n" + strings.Repeat("Wax wax. ", 3600),
		"tildes in ticks":  "```text\n~~~\n" + strings.Repeat("12:00 heater on\n", 20_000) + "```\n",
		"shorter in fence": "````text\n```\n" + strings.Repeat("12:00 heater on\n", 20_000) + "````\n",
	} {
		begin := time.Now()
		_, list := read(t, files(map[string]string{"soils/wax.md": soilHead + text}))
		if len(list) != 0 {
			t.Errorf("%s: %s", name, places(list))
		}
		if took := time.Since(begin); took > time.Minute {
			t.Errorf("%s took %v", name, took)
		}
	}
}
