package browser

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"go.yaml.in/yaml/v3"

	"tankside/builder"
)

// What tries to run or to load something; A is the alarm. The addresses are of this machine and of nobody.
var payloads = []string{
	`"><img src=x onerror=A()>`,
	`<script>A()</script>`,
	`' onfocus=A() autofocus x='`,
	`</title><svg onload=A()>`,
	`--></script><script>A()</script>`,
	`&lt;img src=x onerror=A()&gt;`,
	` <a href=javascript:A()>x</a>`,
	`<iframe src=http://127.0.0.2:9/x>`,
	`<link rel=stylesheet href=http://127.0.0.2:9/x>`,
	`<img src=http://127.0.0.2:9/x>`,
	"\u2028A()//`${A()}`",
}

// hostileText is what is added to an article: what a text can have without being refused, each with something that tries to run.
const hostileText = `

## Hostile \<img src=x onerror=A()\> "' onfocus=A() x='

Plain \<script\>A()\</script\> and &lt;img src=x onerror=A()&gt; and ` + "`<img src=x onerror=A()>`" + ` and *\<svg onload=A()\>* and [A() "' onfocus=A()](<https://127.0.0.2:9/"onfocus=A()> "\"><img src=x onerror=A()>").

| Head \<img src=x onerror=A()\> | ` + "`<script>A()</script>`" + ` |
| --- | --- |
| &lt;iframe src=http://127.0.0.2:9/x&gt; | "><img src\=x |

` + "```html\n<script>A()</script><img src=x onerror=A()>\n```\n\n```\" onfocus=A() x=\"\n</code></pre><script>A()</script>\n```\n"

const hostileSVG = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20"><title>&lt;script&gt;A()&lt;/script&gt;"' onload=A()</title><desc>&lt;img src=x onerror=A()&gt;</desc><rect width="40" height="20" fill="#fff"/><text x="1" y="9" font-size="4">&lt;img src=x onerror=A()&gt;</text></svg>`

// change is one string of the manual that became hostile.
type change struct {
	file       string
	line       int // 1 is the first; 0: the whole file
	start, end int // bytes in the line
	text       string
}

// hostileManual makes the demo manual hostile, string by string, and takes back what the proof-reader refuses: what is left is what reaches pages. It gives
// the folder of the published edition and how many strings were made hostile, and how many of them were refused.
var hostileManual = sync.OnceValues(func() (hostileEdition, error) {
	demo.Lock()
	folder, err := os.MkdirTemp(demo.parent, "hostile-")
	demo.Unlock()
	if err != nil {
		return hostileEdition{}, err
	}
	h := hostileEdition{folder: filepath.Join(folder, "edition"), source: filepath.Join(folder, "manual")}
	original := map[string][]byte{}
	if err := collect(original, "../../content", ""); err != nil {
		return h, err
	}
	if err := collect(original, "../../themes/words", "theme/words/"); err != nil {
		return h, err
	}
	original["pictures/hostile.svg"] = []byte(hostileSVG)
	changes, err := hostileChanges(original)
	if err != nil {
		return h, err
	}
	h.tried = map[string]int{}
	for _, c := range changes {
		h.tried[classOf(c)]++
	}
	for range 12 {
		h.kept = map[string]int{}
		for _, c := range changes {
			h.kept[classOf(c)]++
		}
		if err := h.write(original, changes); err != nil {
			return h, err
		}
		_, findings, err := builder.Proof(context.Background(), h.source, hostileDay)
		if err != nil {
			return h, err
		}
		refused := map[string]map[int]bool{}
		stops := 0
		for _, f := range findings {
			if !f.Stops() {
				continue
			}
			stops++
			for _, p := range append(f.Also, f.Place) {
				if refused[p.File] == nil {
					refused[p.File] = map[int]bool{}
				}
				refused[p.File][p.Line] = true
			}
		}
		if stops == 0 {
			_, err := builder.Publish(context.Background(), builder.Options{Manual: h.source, To: h.folder, Now: hostileDay})
			return h, err
		}
		before := len(changes)
		left := slices.DeleteFunc(slices.Clone(changes), func(c change) bool { return refused[c.file][c.line] })
		if len(left) == before { // what is refused stands elsewhere: nothing of these files stays hostile
			left = slices.DeleteFunc(left, func(c change) bool {
				return refused[c.file] != nil || strings.HasPrefix(c.file, "theme/") && refused["theme"] != nil
			})
		}
		if len(left) == before {
			return h, fmt.Errorf("%d findings stop the manual and none is of what was made hostile: %s %s", stops, findings[0].Place, findings[0].Message)
		}
		changes = left
	}
	return h, fmt.Errorf("the manual is refused again and again")
})

var hostileDay = time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)

type hostileEdition struct {
	source, folder string
	tried, kept    map[string]int // strings, by what holds them
}

// classOf is what holds a string.
func classOf(c change) string {
	switch {
	case c.line == 0 && strings.Contains(c.text, "| Head "):
		return "texts of articles"
	case c.line == 0:
		return "files"
	case filepath.Ext(c.file) == ".md":
		return "headers"
	case strings.HasPrefix(c.file, "theme/"):
		return "words"
	}
	return filepath.Base(c.file)
}

func collect(files map[string][]byte, folder, prefix string) error {
	return filepath.WalkDir(folder, func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		at, err := filepath.Rel(folder, name)
		if err != nil {
			return err
		}
		files[prefix+filepath.ToSlash(at)], err = os.ReadFile(name)
		return err
	})
}

// hostileChanges makes each string of headers, shop file, glossary, words and records hostile, adds a hostile text to each article, and files with hostile
// names.
func hostileChanges(files map[string][]byte) ([]change, error) {
	var list []change
	names := make([]string, 0, len(files))
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	next := func() string { return payloads[len(list)%len(payloads)] }
	for _, name := range names {
		text := string(files[name])
		lines := strings.Split(text, "\n")
		switch filepath.Ext(name) {
		case ".md":
			header, _, _ := strings.Cut(strings.TrimPrefix(text, "---\n"), "\n---\n")
			if err := scalars([]byte(header), lines, 1, func(line, start, end int, value string) {
				list = append(list, change{name, line, start, end, jsonOf(value + next())})
			}); err != nil {
				return nil, fmt.Errorf("%s: %w", name, err)
			}
			text := hostileText
			if strings.HasPrefix(name, "symptoms/") { // headings are the steps of a tree
				text = strings.Replace(text, "## ", "", 1)
			}
			list = append(list, change{file: name, text: text})
		case ".yaml":
			if err := scalars([]byte(text), lines, 0, func(line, start, end int, value string) {
				if strings.Contains(lines[line-1][:start], "article:") {
					return // the names of articles
				}
				list = append(list, change{name, line, start, end, jsonOf(value + next())})
			}); err != nil {
				return nil, fmt.Errorf("%s: %w", name, err)
			}
		case ".csv":
			for i, line := range lines {
				if at := strings.LastIndex(line, ","); i > 0 && at > 0 {
					list = append(list, change{name, i + 1, at, at, `"` + strings.ReplaceAll(next(), `"`, `""`) + `"`})
				}
			}
		}
	}
	for i, p := range payloads {
		list = append(list, change{file: fmt.Sprintf("soils/hostile-%d%s.md", i, strings.ReplaceAll(p, "/", "")), text: strings.Replace(hostileFile, "Hostile", fmt.Sprint("Hostile ", i), 1)})
	}
	list = append(list, change{file: "soils/hostile-picture.md", text: hostileFile + "\n![\\<img src=x onerror=A()\\> \"' onfocus=A() x='](../pictures/hostile.svg \"Picture &lt;script&gt;A()&lt;/script&gt;\")\n"})
	return list, nil
}

const hostileFile = "---\ntitle: Hostile\nsummary: A soil that tries to run something.\nstation: receive\nrevision: A\napproved: not yet\nreview-by: 2027-05-29\nsources:\n  - common practice, no source\nnature: oil\nremoved-by: [alkaline-detergent]\n---\nIt is oily.\n"

// scalars finds the texts that stand on one line of a YAML text; keys are names and stay.
func scalars(text []byte, lines []string, before int, found func(line, start, end int, value string)) error {
	var doc yaml.Node
	if err := yaml.Unmarshal(text, &doc); err != nil {
		return err
	}
	var walk func(n *yaml.Node, key bool)
	walk = func(n *yaml.Node, key bool) {
		if n.Kind == yaml.ScalarNode && !key && n.Tag == "!!str" && n.Value != "" {
			line := n.Line + before
			if line > len(lines) || n.Column > len(lines[line-1]) {
				return
			}
			for _, raw := range []string{n.Value, jsonOf(n.Value), `"` + n.Value + `"`, "'" + n.Value + "'"} {
				if strings.HasPrefix(lines[line-1][n.Column-1:], raw) {
					found(line, n.Column-1, n.Column-1+len(raw), n.Value)
					return
				}
			}
		}
		for i, c := range n.Content {
			walk(c, n.Kind == yaml.MappingNode && i%2 == 0)
		}
	}
	walk(&doc, false)
	return nil
}

var approvedLine = regexp.MustCompile(`(?m)^approved: .*$`)

// write writes the manual with the changes.
func (h *hostileEdition) write(original map[string][]byte, changes []change) error {
	if err := os.RemoveAll(h.source); err != nil {
		return err
	}
	lines := map[string][]string{}
	added := map[string]string{}
	for name, data := range original {
		lines[name] = strings.Split(string(data), "\n")
	}
	for i := len(changes) - 1; i >= 0; i-- { // from the right, so that places hold
		c := changes[i]
		if c.line == 0 {
			added[c.file] = c.text
			continue
		}
		l := &lines[c.file][c.line-1]
		*l = (*l)[:c.start] + c.text + (*l)[c.end:]
	}
	for name := range added {
		if lines[name] == nil {
			lines[name] = nil
		}
	}
	for name := range lines {
		data := []byte(strings.Join(lines[name], "\n") + added[name])
		if strings.HasPrefix(name, "symptoms/") && added[name] != "" && original[name] != nil { // before the first step
			head, rest, _ := strings.Cut(strings.Join(lines[name], "\n"), "\n---\n")
			data = []byte(head + "\n---\n" + added[name] + "\n" + rest)
		}
		if old := original[name]; filepath.Ext(name) == ".md" && old != nil && !bytes.Equal(old, data) {
			data = approvedLine.ReplaceAll(data, []byte("approved: not yet"))
		}
		at := filepath.Join(h.source, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(at, data, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// hostile gives the published hostile manual.
func hostile(t testing.TB) hostileEdition {
	t.Helper()
	demo.Lock()
	makeParent(t)
	demo.Unlock()
	h, err := hostileManual()
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("made hostile: %v; of these the proof-reader lets in: %v", h.tried, h.kept)
	return h
}
