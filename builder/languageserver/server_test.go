package languageserver

import (
	"encoding/json"
	"strings"
	"testing"
	"testing/fstest"
	"time"
)

// A finding comes while somebody types, with its place, rule and what to do, and goes when it is mended; nothing was saved.
func TestFindingsWhileTyping(t *testing.T) {
	c, answer := connect(t, demo(t), nil, onDisk())
	var r initializeResult
	if err := json.Unmarshal(answer, &r); err != nil || r.Capabilities.PositionEncoding != "utf-16" || r.Capabilities.TextDocumentSync.Change != incremental {
		t.Fatalf("%s: %v", answer, err)
	}
	const path = "chemistries/mild-alkaline.md"
	text := c.read(path)
	c.openText(path, text)
	c.published(path, clean)
	c.changeText(path, instead(t, text, "strength:", "strenght:"))
	found := c.published(path, has("unknown-key"))
	for _, d := range found {
		if d.Code != "unknown-key" {
			continue
		}
		at := place(t, text, "strength:")
		if d.Range != (Range{at, Position{at.Line, at.Character + 8}}) || d.Severity != severityError || !strings.Contains(d.Message, "strength") || !strings.Contains(d.Message, "\nThe keys are") {
			t.Errorf("%+v", d)
		}
	}
	if c.raw[path].Version == nil || *c.raw[path].Version != 2 || c.raw[path].URI != c.uri(path) {
		t.Errorf("%+v", c.raw[path])
	}
	c.changeText(path, change{nil, text})
	c.published(path, clean)
	if c.read(path) != text {
		t.Error("the file was written")
	}
	c.close()
}

// An edit of one file has findings in another, which is not open; they go when the text is closed, since what was saved counts again.
func TestFindingsOfOtherFiles(t *testing.T) {
	c, _ := connect(t, demo(t), nil, onDisk())
	text := c.read("shop.yaml")
	c.openText("shop.yaml", text)
	c.published("shop.yaml", clean)
	c.changeText("shop.yaml", instead(t, text, "id: wash-1", "id: wash-9"))
	c.until("a part that is sent into a tank that is gone", func(result) bool {
		for path, list := range c.told {
			if strings.HasPrefix(path, "parts/") && has("other-tank-in-text")(list) {
				return true
			}
		}
		return false
	})
	c.say("textDocument/didClose", documentParams{documentID{URI: c.uri("shop.yaml")}})
	c.until("no finding at all", func(result) bool {
		for _, list := range c.told {
			if len(list) > 0 {
				return false
			}
		}
		return true
	})
	c.close()
}

// Columns are counted in UTF-16 unless the editor offers UTF-8, line ends of Windows are no columns, and a character beyond the BMP is two.
func TestEditsBeyondTheBMPAndCRLF(t *testing.T) {
	folder := demo(t)
	for _, e := range []encoding{utf16, utf8s} {
		c, answer := connect(t, folder, map[string]any{"general": map[string]any{"positionEncodings": []string{"utf-32", string(e)}}}, onDisk())
		if !strings.Contains(string(answer), `"positionEncoding":"`+string(e)+`"`) {
			t.Fatalf("%s", answer)
		}
		const path = "soils/wax.md"
		text := strings.ReplaceAll(c.read(path), "\n", "\r\n") + "\r\n𝛑 and 🧼 before [a link](missing.md) here.\r\n"
		c.openText(path, text)
		found := c.published(path, has("broken-link"))
		line := uint32(strings.Count(text, "\r\n") - 1)
		before := e.columns("𝛑 and 🧼 before ")
		for _, d := range found {
			if d.Code == "broken-link" && d.Range != (Range{Position{line, before}, Position{line, before + 20}}) {
				t.Errorf("%s: %+v", e, d.Range)
			}
		}
		from := e.columns("𝛑 and 🧼 before [a link](")
		c.changeText(path, change{&Range{Position{line, from}, Position{line, from + 10}}, "../materials/brass.md"}, change{&Range{Position{line, 0}, Position{line, e.columns("𝛑")}}, "A"})
		c.published(path, func(list []diagnostic) bool { return !has("broken-link")(list) })
		c.close()
	}
}

// Findings wait for a pause: as many letters as come without one make one proof.
func TestFindingsWaitForAPause(t *testing.T) {
	o, begun, pause := onDisk(), 0, make(chan time.Time)
	o.After = func(d time.Duration) <-chan time.Time {
		if d != Pause {
			t.Errorf("a pause of %s", d)
		}
		begun++
		return pause
	}
	proofs := 0
	o.Now = func() time.Time { proofs++; return today }
	c, _ := connect(t, demo(t), nil, o)
	text := c.read("soils/wax.md")
	c.openText("soils/wax.md", text)
	for range 20 {
		c.changeText("soils/wax.md", change{&Range{place(t, text, "title"), place(t, text, "title")}, "x"})
	}
	if _, err := c.try("tankside/none", nil); err == nil || err.Code != codeUnknownMethod { // everything before has been heeded
		t.Error(err)
	}
	if proofs != 0 || begun != 22 {
		t.Errorf("%d proofs, %d pauses begun", proofs, begun)
	}
	pause <- today
	c.published("soils/wax.md", has("unknown-key"))
	if c.raw["soils/wax.md"].Version == nil || *c.raw["soils/wax.md"].Version != 21 || proofs != 1 {
		t.Errorf("%d proofs, %+v", proofs, c.raw["soils/wax.md"])
	}
	c.close()
}

// What changes on the disk is told by the editor; a text that has never been saved belongs to the manual as well.
func TestFilesComeAndGo(t *testing.T) {
	c, _ := connect(t, demo(t), map[string]any{"workspace": map[string]any{"didChangeWatchedFiles": map[string]any{"dynamicRegistration": true}}}, onDisk())
	c.until("a wish to be told of changes", func(r result) bool { return r.Method == "client/registerCapability" })
	c.openText("soils/new-one.md", "no header\n")
	c.published("soils/new-one.md", has("no-header"))
	c.say("textDocument/didClose", documentParams{documentID{URI: c.uri("soils/new-one.md")}})
	c.published("soils/new-one.md", clean)
	write(t, c.folder, "soils/stray.md", "no header\n")
	c.say("workspace/didChangeWatchedFiles", map[string]any{"changes": []any{map[string]any{"uri": c.uri("soils/stray.md"), "type": 1}}})
	c.published("soils/stray.md", has("no-header"))
	remove(t, c.folder, "soils/stray.md")
	c.say("workspace/didChangeWatchedFiles", map[string]any{"changes": []any{map[string]any{"uri": c.uri("soils/stray.md"), "type": 3}}})
	c.published("soils/stray.md", clean)
	remove(t, c.folder, "shop.yaml")
	c.say("workspace/didChangeWatchedFiles", map[string]any{"changes": []any{map[string]any{"uri": c.uri("shop.yaml"), "type": 3}}})
	c.published("shop.yaml", has("unusable"))
	c.close()
}

// What comes in the wrong order, or is no message, is answered with the error that the standards name.
func TestWhatIsNoMessage(t *testing.T) {
	o := onDisk()
	c := dial(t, t.TempDir(), o)
	if _, err := c.try("textDocument/hover", nil); err == nil || err.Code != codeNotInitialized {
		t.Error(err)
	}
	if _, err := c.try("initialize", []int{1}); err == nil || err.Code != codeInvalidParams {
		t.Error(err)
	}
	c.ask("initialize", map[string]any{"capabilities": map[string]any{}})
	for _, bad := range []struct {
		content string
		code    int
	}{{"{", codeParse}, {"[]", codeInvalidRequest}, {"1", codeInvalidRequest}, {strings.Repeat(" ", maxMessage+1), codeInvalidRequest}} {
		if err := writeFrame(c.to, []byte(bad.content)); err != nil {
			t.Fatal(err)
		}
		c.until("an error", func(r result) bool {
			if r.Error != nil && r.Error.Code != bad.code {
				t.Errorf("%.20s: %+v", bad.content, r.Error)
			}
			return r.Error != nil
		})
	}
	c.say("textDocument/didChange", map[string]any{"textDocument": 3})
	c.until("a word to the user", func(r result) bool { return r.Method == "window/showMessage" })
	c.openText("far/away.md", "belongs to no manual")
	c.ask("shutdown", nil)
	if _, err := c.try("initialize", map[string]any{}); err == nil || err.Code != codeInvalidRequest {
		t.Error(err)
	}
	c.say("exit", nil)
	if err := <-c.ended; err != nil {
		t.Error(err)
	}
}

// An editor that goes away, or sends what is no frame, ends the conversation with an error.
func TestTheEditorGoesAway(t *testing.T) {
	for _, bytes := range []string{"", "Content-Length: 5\r\n\r\n{", "Content-Length: x\r\n\r\n", "Content-Type: x\r\n\r\n", "nonsense\n", strings.Repeat("x", maxFields+1)} {
		c := dial(t, t.TempDir(), onDisk())
		if bytes != "" {
			if _, err := c.to.Write([]byte(bytes)); err != nil {
				t.Fatal(err)
			}
		}
		c.to.Close()
		if err := <-c.ended; err == nil {
			t.Errorf("%.20q: no error", bytes)
		}
	}
}

// The open texts lie over the folder as files do, and that is all that changes.
func TestOverlay(t *testing.T) {
	under := fstest.MapFS{"shop.yaml": {Data: []byte("name: x")}, "soils/wax.md": {Data: []byte("old")}, "soils/oil.md": {Data: []byte("oil")}}
	o := &overlay{under, map[string]string{"soils/wax.md": "new text", "soils/tar.md": "tar", "parts/gear.md": "gear", "shop.yaml/odd.md": "below a file"}}
	delete(o.texts, "shop.yaml/odd.md")
	if err := fstest.TestFS(o, "shop.yaml", "soils/wax.md", "soils/oil.md", "soils/tar.md", "parts/gear.md"); err != nil {
		t.Error(err)
	}
	data, err := o.Open("soils/wax.md")
	if err != nil {
		t.Fatal(err)
	}
	if info, err := data.Stat(); err != nil || info.Size() != 8 {
		t.Error(info, err)
	}
}

// A text that grows beyond what is followed is taken away, and the user is told.
func TestTextBeyondTheLimit(t *testing.T) {
	c, _ := connect(t, demo(t), nil, onDisk())
	text := c.read("soils/wax.md")
	c.openText("soils/wax.md", text)
	c.published("soils/wax.md", clean)
	c.changeText("soils/wax.md", change{nil, strings.Repeat("x", maxText+1)})
	c.until("a word to the user", func(r result) bool {
		return r.Method == "window/showMessage" && strings.Contains(string(r.Params), "not followed any more")
	})
	c.changeText("soils/wax.md", change{nil, "no header"})
	c.say("textDocument/didClose", documentParams{documentID{URI: c.uri("soils/wax.md")}})
	c.openText("soils/wax.md", "no header")
	c.published("soils/wax.md", has("no-header"))
	c.close()
}
