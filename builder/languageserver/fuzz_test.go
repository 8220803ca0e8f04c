package languageserver

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"io/fs"
	"testing"
	"testing/fstest"
	"time"
	"unicode/utf8"
)

// inMemory are the options of a server whose only manual stands in memory, below /m, and in which a pause comes at once.
func inMemory() Options {
	files := fstest.MapFS{
		"shop.yaml":             {Data: []byte("name: Shop\ntanks:\n  - id: wash-1\n    name: Wash 1\n    volume: 90 L\n    chemistry: alkali\nroles: [trainer]\n")},
		"chemistries/alkali.md": {Data: []byte("---\ntitle: Alkali\nsummary: Lifts oil.\nstation: wash\nph: 9–11\nremoves: [oil]\n---\n## Use\n\nSee [oil](../soils/oil.md#use).\n")},
		"soils/oil.md":          {Data: []byte("---\ntitle: Oil\nsummary: Oil.\nstation: wash\nnature: oil\nremoved-by: [alkali]\n---\n## Use\n\nText.\n")},
	}
	at := make(chan time.Time)
	close(at)
	return Options{
		Now:    func() time.Time { return today },
		After:  func(time.Duration) <-chan time.Time { return at },
		Folder: func(string) (string, bool) { return "/m", true },
		Open:   func(string) (fs.FS, func() error, error) { return files, func() error { return nil }, nil },
	}
}

// FuzzStream feeds arbitrary bytes as the stream, as they are and as the content of a message. The conversation ends with its input.
func FuzzStream(f *testing.F) {
	f.Add([]byte("Content-Length: 2\r\n\r\n{}"))
	f.Add([]byte("Content-Length: 99999999999999999999\r\n\r\n"))
	f.Add([]byte("Content-Length: 9223372036854775807\r\n\r\nx"))
	f.Add([]byte(`{"jsonrpc":"2.0","id":2,"method":"textDocument/hover","params":{"textDocument":{"uri":"file:///m/soils/oil.md"},"position":{"line":4,"character":9}}}`))
	f.Add([]byte(`{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":"file:///m/soils/oil.md","version":1,"text":"---\n"}}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		var in bytes.Buffer
		for _, content := range []string{`{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"rootUri":"file:///m","capabilities":{}}}`, `{"jsonrpc":"2.0","method":"initialized"}`, string(data)} {
			if err := writeFrame(&in, []byte(content)); err != nil {
				t.Fatal(err)
			}
		}
		in.Write(data)
		var out bytes.Buffer
		_ = Serve(t.Context(), &in, &out, inMemory()) // how it ends is the input's; what it says has to be messages
		readable(t, &out)
	})
}

// readable fails unless a stream is messages and nothing else.
func readable(t *testing.T, out *bytes.Buffer) {
	messages := make(chan incoming)
	go read(t.Context(), bytes.NewReader(out.Bytes()), messages)
	for m := range messages {
		if m.err == io.EOF {
			return
		}
		if m.err != nil || !json.Valid(m.content) {
			t.Fatalf("%v: %q", m.err, m.content)
		}
	}
}

// FuzzEdits changes a text at arbitrary places and asks everything that can be asked at one. The text stays as if it had been changed by
// somebody who counts characters one by one.
func FuzzEdits(f *testing.F) {
	f.Add("---\r\ntitle: 𝛑🧼\r\n---\r\ntext", uint32(1), uint32(8), uint32(1), uint32(9), "x\r", true)
	f.Add("a\rb\nc", uint32(9), uint32(9), uint32(0), uint32(0), "𝛑", false)
	f.Add("---\nnature: oil\nremoved-by:\n  - {chemistry: al", uint32(3), uint32(16), uint32(3), uint32(17), "k", false)
	f.Fuzz(func(t *testing.T, text string, line, column, endLine, endColumn uint32, with string, wide bool) {
		if !utf8.ValidString(text) || !utf8.ValidString(with) {
			t.Skip("JSON has no such text")
		}
		e := utf16
		if wide {
			e = utf8s
		}
		d := &document{text: text}
		from, to := Position{line, column}, Position{endLine, endColumn}
		if err := d.edit(e, []change{{&Range{from, to}, with}}); err != nil {
			t.Skip(err)
		}
		a := slowOffset(e, text, from)
		b := max(a, slowOffset(e, text, to))
		if want := text[:a] + with + text[b:]; d.text != want {
			t.Fatalf("%q, want %q", d.text, want)
		}
		var in bytes.Buffer
		open, _ := json.Marshal(documentItem{"file:///m/soils/oil.md", 1, d.text})
		at, _ := json.Marshal(from)
		contents := []string{
			`{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"rootUri":"file:///m","capabilities":{}}}`,
			`{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":` + string(open) + `}}`,
		}
		for method := range requests {
			if method != "initialize" && method != "shutdown" {
				contents = append(contents, fmt.Sprintf(`{"jsonrpc":"2.0","id":2,"method":%q,"params":{"textDocument":{"uri":"file:///m/soils/oil.md"},"position":%s,"range":{"start":%s,"end":%s},"newName":"name","context":{}}}`, method, at, at, at))
			}
		}
		contents = append(contents, `{"jsonrpc":"2.0","id":3,"method":"shutdown"}`, `{"jsonrpc":"2.0","method":"exit"}`)
		for _, content := range contents {
			if err := writeFrame(&in, []byte(content)); err != nil {
				t.Fatal(err)
			}
		}
		var out bytes.Buffer
		if err := Serve(t.Context(), &in, &out, inMemory()); err != nil {
			t.Fatal(err)
		}
		readable(t, &out)
	})
}

// slowOffset walks a text one character after the other.
func slowOffset(e encoding, text string, at Position) int {
	var line, column uint32
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRuneInString(text[i:])
		ends := r == '\n' || r == '\r'
		if r == '\r' && i+1 < len(text) && text[i+1] == '\n' {
			n = 2
		}
		switch {
		case line == at.Line && (ends || column+e.width(r, n) > at.Character):
			return i
		case ends:
			line, column = line+1, 0
		default:
			column += e.width(r, n)
		}
		i += n
	}
	return len(text)
}
