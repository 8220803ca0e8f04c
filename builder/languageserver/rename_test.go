package languageserver

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/decide/rules"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/rename"
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
	for _, f := range r.made {
		if after[f] != nil {
			t.Fatalf("%s is there already", f)
		}
		after[f] = &fstest.MapFile{}
	}
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

// What an editor is told to do is what the command does, to the byte, with line ends of Windows and with a text that was not saved yet; nothing is found afterwards
// but that somebody has to approve the words of a heading anew.
func TestEditorAndCommandRenameAlike(t *testing.T) {
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
	wax := m.At("soils/wax.md")
	typed := strings.Replace(string(files[wax.Path].Data), "title: Wax", "title: Hard wax", 1)
	for old, to := range map[string]string{wax.Path: "hard-wax", wax.Path + "#" + wax.Sections[1].Anchor: "Quite other words", partOf(m): "called-otherwise"} {
		d := newDesk("/", files, func() error { return nil })
		d.files.texts[wax.Path] = typed
		r, err := d.planned(t.Context(), old, to)
		if err != nil {
			t.Errorf("%s: %v", old, err)
			continue
		}
		now := maps.Clone(files)
		now[wax.Path] = &fstest.MapFile{Data: []byte(typed)}
		plan, err := rename.For(t.Context(), now, old, to)
		if err != nil {
			t.Fatal(err)
		}
		written, gone, err := plan.Files()
		if err != nil {
			t.Fatal(err)
		}
		got := done(t, now, r)
		for name, data := range written {
			if got[name] == nil || !bytes.Equal(got[name].Data, data) {
				t.Errorf("%s: %s is not as the command writes it", old, name)
			}
		}
		for _, name := range gone {
			if got[name] != nil {
				t.Errorf("%s: %s is still there", old, name)
			}
		}
		_, after := found(t, got)
		for _, f := range after {
			if f.Rule != "changed-since-approval" || f.File != wax.Path && f.File != "soils/hard-wax.md" {
				t.Errorf("%s: %s %+v", old, f.Rule, f)
			}
		}
	}
}

// What cannot be renamed is refused with a sentence.
func TestRenameIsRefused(t *testing.T) {
	files := inMap(t, "../../content")
	d := newDesk("/", files, func() error { return nil })
	for _, name := range []string{"Two Words", "smut", "con", "../x", "wax"} {
		if r, err := d.planned(t.Context(), "soils/wax.md", name); err == nil {
			t.Errorf("%q: %+v", name, r.moves)
		}
	}
	m, _ := found(t, files)
	for _, words := range []string{"", "a\nb"} {
		if _, err := d.planned(t.Context(), "soils/wax.md#"+m.At("soils/wax.md").Sections[1].Anchor, words); err == nil {
			t.Errorf("%q is a heading", words)
		}
	}
}

// The editor is told of a renaming as edits of texts with their versions, and of files; one that cannot rename files is told so.
func TestRenameOverTheProtocol(t *testing.T) {
	able := map[string]any{"workspace": map[string]any{"workspaceEdit": map[string]any{"documentChanges": true, "resourceOperations": []string{"create", "rename"}}}}
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
	moved, made, open := 0, 0, false
	for _, d := range e.DocumentChanges {
		if d.Kind == "rename" {
			moved++
		}
		if d.Kind == "create" {
			made++
		}
		open = open || d.TextDocument.URI == c.uri("soils/wax.md") && d.TextDocument.Version != nil
	}
	last := e.DocumentChanges[len(e.DocumentChanges)-1]
	if moved != 2 || made != 1 || last.Kind != "rename" || last.NewURI != c.uri("soils/hard-wax.md") {
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
	if _, err := c.try("textDocument/rename", renameParams{p, "Then wash hot"}); err == nil || !strings.Contains(err.Message, manual.MovedFile) {
		t.Errorf("a file is made by an editor that cannot: %v", err)
	}
	c.close()
	if err := os.WriteFile(filepath.Join(c.folder, manual.MovedFile), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	c, _ = connect(t, c.folder, nil, onDisk())
	p = asked(t, c, "soils/wax.md", strings.Replace(text, "## Then wash", "## Then w‸ash", 1))
	var simple workspaceEdit
	if err := json.Unmarshal(c.ask("textDocument/rename", renameParams{p, "Then wash hot"}), &simple); err != nil || len(simple.Changes[c.uri("soils/wax.md")]) == 0 {
		t.Errorf("%+v %v", simple, err)
	}
	c.close()
}

// partOf is the path of a part.
func partOf(m *manual.Manual) string {
	for _, a := range m.Articles {
		if a.Kind == manual.Part {
			return a.Path
		}
	}
	return ""
}
