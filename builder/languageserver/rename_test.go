package languageserver

import (
	"context"
	"encoding/json"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/decide/rules"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// inMap is the demo manual in memory.
func inMap(t *testing.T, folder string) fstest.MapFS {
	t.Helper()
	c := &client{t: t, folder: folder}
	files := fstest.MapFS{}
	d := diskFiles(t, folder)
	for _, f := range d {
		files[f] = &fstest.MapFile{Data: []byte(c.read(f))}
	}
	return files
}

func diskFiles(t *testing.T, folder string) []string {
	t.Helper()
	files, closes, err := onDisk().Open(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer closes()
	var list []string
	err = fs.WalkDir(files, ".", func(p string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			list = append(list, p)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// found is everything that is found in a manual.
func found(t *testing.T, files fs.FS) (*manual.Manual, []finding.Finding) {
	t.Helper()
	m, list, err := manual.Read(t.Context(), files)
	if err != nil {
		t.Fatal(err)
	}
	return m, append(list, rules.Proof(m, today)...)
}

// done carries a renaming out, from the last mend of a file to the first.
func done(t *testing.T, files fstest.MapFS, r renaming) fstest.MapFS {
	t.Helper()
	after := maps.Clone(files)
	for _, m := range slices.Backward(r.mends) {
		text := string(after[m.file].Data)
		after[m.file] = &fstest.MapFile{Data: []byte(text[:m.from] + m.with + text[m.to:])}
	}
	for _, m := range r.moves {
		if after[m.to] != nil || after[m.from] == nil {
			t.Fatalf("%+v", m)
		}
		after[m.to] = after[m.from]
		delete(after, m.from)
	}
	return after
}

func textsOf(files fstest.MapFS) texts {
	return func(file string) string {
		if files[file] == nil {
			return ""
		}
		return string(files[file].Data)
	}
}

// An article of any kind of the demo manual is renamed, with line ends of Windows too: nothing is found afterwards, and it is named as often as before.
func TestRenameOfAnArticleBreaksNothing(t *testing.T) {
	files := inMap(t, "../../content")
	for name, f := range files {
		if strings.HasSuffix(name, ".md") && len(name)%2 == 0 || name == "shop.yaml" {
			files[name] = &fstest.MapFile{Data: []byte(strings.ReplaceAll(string(f.Data), "\n", "\r\n"))}
		}
	}
	m, before := found(t, files)
	if len(before) > 0 {
		t.Fatalf("%+v", before[0])
	}
	tried := map[manual.Kind]bool{}
	for _, a := range m.Articles {
		used := len(thing{article: a}.uses(m))
		if tried[a.Kind] || used < 10 && a.Kind != manual.Part && a.Kind != manual.Lesson {
			continue
		}
		tried[a.Kind] = true
		r, err := renameArticle(t.Context(), m, textsOf(files), a, "called-otherwise")
		if err != nil {
			t.Errorf("%s: %v", a.Path, err)
			continue
		}
		now, after := found(t, done(t, files, r))
		for _, f := range after { // a text with another link is another text, which somebody has to approve
			if f.Rule != "changed-since-approval" {
				t.Errorf("%s: %s %+v", a.Path, f.Rule, f)
			}
		}
		b := now.Named(a.Kind, "called-otherwise")
		if b == nil || len((thing{article: b}).uses(now)) != used {
			t.Errorf("%s: it is not named as often as before", a.Path)
		}
	}
}

// A heading takes its links with it, from everywhere, and those to headings that are numbered because of it.
func TestRenameOfAHeadingBreaksNothing(t *testing.T) {
	files := inMap(t, "../../content")
	m, _ := found(t, files)
	count, proofed := 0, 0
	for _, a := range m.Articles {
		for i := range a.Sections {
			if count++; a.Sections[i].Level == 0 || count%40 != 0 {
				continue
			}
			r, err := renameHeading(t.Context(), m, textsOf(files), a, i, "Quite other words")
			if err != nil {
				t.Errorf("%s: %v", a.Sections[i].At, err)
				continue
			}
			used := len(thing{article: a, section: &a.Sections[i]}.uses(m))
			if proofed++; proofed > 4 {
				continue
			}
			now, after := found(t, done(t, files, r))
			for _, f := range after {
				if f.Rule == "broken-link" || strings.Contains(string(f.Rule), "step") {
					t.Errorf("%s: %+v", a.Sections[i].At, f)
				}
			}
			b := now.At(a.Path)
			if b.Sections[i].Anchor != "quite-other-words" || len((thing{article: b, section: &b.Sections[i]}).uses(now)) != used {
				t.Errorf("%s: %q, named %d times before", a.Sections[i].At, b.Sections[i].Anchor, used)
			}
		}
	}
	small := fstest.MapFS{
		"shop.yaml":    {Data: []byte("name: Shop\n")},
		"soils/a.md":   {Data: []byte("---\ntitle: A\n---\n## Use\n\n## Use\n\nSee [the second](#use-2), [b][b] and [it](b.md#use).\n\n[b]: b.md#use\n")},
		"soils/b.md":   {Data: []byte("---\ntitle: B\nsee-also: [a.md#use-2, ../soils/a.md]\n---\n## Use\n\n[a](a.md#use)\n")},
		"lessons/c.md": {Data: []byte("---\ntitle: C\n---\n[a](<../soils/a.md#use-2> \"title\"), ![x](y.svg)\n")},
	}
	m, _, err := manual.Read(context.Background(), small)
	if err != nil {
		t.Fatal(err)
	}
	a := m.At("soils/a.md")
	r, err := renameHeading(t.Context(), m, textsOf(small), a, 0, "First")
	if err != nil {
		t.Fatal(err)
	}
	after := done(t, small, r)
	for file, want := range map[string]string{
		"soils/a.md":   "---\ntitle: A\n---\n## First\n\n## Use\n\nSee [the second](#use), [b][b] and [it](b.md#use).\n\n[b]: b.md#use\n",
		"soils/b.md":   "---\ntitle: B\nsee-also: [a.md#use, ../soils/a.md]\n---\n## Use\n\n[a](a.md#first)\n",
		"lessons/c.md": "---\ntitle: C\n---\n[a](<../soils/a.md#use> \"title\"), ![x](y.svg)\n",
	} {
		if got := string(after[file].Data); got != want {
			t.Errorf("%s:\n%s", file, got)
		}
	}
	r, err = renameArticle(t.Context(), m, textsOf(small), m.At("soils/b.md"), "beta")
	if err != nil {
		t.Fatal(err)
	}
	if got := string(done(t, small, r)["soils/a.md"].Data); !strings.Contains(got, "[it](beta.md#use)") || !strings.Contains(got, "[b]: beta.md#use\n") {
		t.Error(got)
	}
}

// What cannot be renamed is refused with a sentence.
func TestRenameIsRefused(t *testing.T) {
	files := inMap(t, "../../content")
	m, _ := found(t, files)
	a := m.At("soils/wax.md")
	for _, name := range []string{"", "Two Words", "smut", "index", "con", "../x", "a/b", "wax", strings.Repeat("x", 200)} {
		if r, err := renameArticle(t.Context(), m, textsOf(files), a, name); err == nil {
			t.Errorf("%q: %+v", name, r.moves)
		}
	}
	for _, words := range []string{"", " ", "a\nb", "a\rb"} {
		if _, err := renameHeading(t.Context(), m, textsOf(files), a, 1, words); err == nil {
			t.Errorf("%q is a heading", words)
		}
	}
}

// The editor is told of a renaming as edits of texts with their versions, and of files; one that cannot rename files is told so.
func TestRenameOverTheProtocol(t *testing.T) {
	able := map[string]any{"workspace": map[string]any{"workspaceEdit": map[string]any{"documentChanges": true, "resourceOperations": []string{"rename"}}}}
	c, _ := connect(t, demo(t), able, onDisk())
	text := c.read("soils/wax.md")
	p := asked(t, c, "soils/wax.md", strings.Replace(text, "title: Wax", "title: W‸ax", 1))
	var at prepared
	if err := json.Unmarshal(c.ask("textDocument/prepareRename", p), &at); err != nil || at.Placeholder != "wax" {
		t.Errorf("%+v %v", at, err)
	}
	var e struct {
		DocumentChanges []struct {
			documentEdit
			renameFile
		}
	}
	if err := json.Unmarshal(c.ask("textDocument/rename", renameParams{p, "hard-wax"}), &e); err != nil {
		t.Fatal(err)
	}
	moved, open := 0, false
	for _, d := range e.DocumentChanges {
		if d.Kind == "rename" {
			moved++
		}
		open = open || d.TextDocument.URI == c.uri("soils/wax.md") && d.TextDocument.Version != nil
	}
	last := e.DocumentChanges[len(e.DocumentChanges)-1]
	if moved != 2 || last.Kind != "rename" || last.NewURI != c.uri("soils/hard-wax.es.md") {
		t.Errorf("%d files, %+v, open %v", moved, last, open)
	}
	if _, err := c.try("textDocument/rename", renameParams{p, "Hard Wax"}); err == nil || err.Code != codeRequestFailed {
		t.Error(err)
	}
	c.close()

	c, _ = connect(t, c.folder, nil, onDisk())
	p = asked(t, c, "soils/wax.md", strings.Replace(text, "title: Wax", "title: W‸ax", 1))
	if _, err := c.try("textDocument/rename", renameParams{p, "hard-wax"}); err == nil {
		t.Error("a file is renamed by an editor that cannot")
	}
	p = asked(t, c, "soils/wax.md", strings.Replace(text, "## Then wash", "## Then w‸ash", 1))
	var simple workspaceEdit
	if err := json.Unmarshal(c.ask("textDocument/rename", renameParams{p, "Then wash hot"}), &simple); err != nil || len(simple.Changes[c.uri("soils/wax.md")]) == 0 {
		t.Errorf("%+v %v", simple, err)
	}
	c.close()
}
