package control

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
)

// RefusedError says why a header was not changed, and what to do.
type RefusedError struct {
	Path    string // of the article
	Problem string // half a sentence
	Remedy  string // a sentence
}

// Error gives all of it.
func (e *RefusedError) Error() string { return e.Path + ": " + e.Problem + ". " + e.Remedy }

// entry is a key that is to have a value. Where the header has not got it, it comes behind the key after; with "" it has to be there.
type entry struct{ key, value, after string }

// setKeys gives the file with the keys set. Every other byte stays as it is: comments, order, line ends, the mark at the beginning.
func setKeys(path string, data []byte, entries []entry) ([]byte, error) {
	refuse := func(problem, remedy string) error { return &RefusedError{path, problem, remedy} }
	if !utf8.Valid(data) || bytes.IndexByte(data, 0) >= 0 {
		return nil, refuse("it is not UTF-8 text", "Save it as UTF-8 in your editor.")
	}
	if bytes.Contains(bytes.ReplaceAll(data, []byte("\r\n"), nil), []byte("\r")) {
		return nil, refuse("some of its lines end in a carriage return alone", "Have your editor save it with one kind of line end.")
	}
	from, to, ok := headerOf(data)
	if !ok {
		return nil, refuse("it has no header between two lines of three hyphens", "See what tankside proof says of it.")
	}
	before, err := values(data[from:to])
	if err != nil {
		return nil, refuse("its header cannot be read", "See what tankside proof says of it.")
	}
	header := data[from:to]
	for _, e := range entries {
		if header, err = setKey(header, e); err != nil {
			return nil, refuse(err.Error(), fmt.Sprintf("Set it by hand: %s: %s", e.key, e.value))
		}
	}
	// What was written is read again: the keys have their values, and nothing else is another.
	after, err := values(header)
	if err != nil {
		return nil, refuse("its header could not be read any more after the change", "Set the keys by hand.")
	}
	for _, e := range entries {
		if got := after[e.key]; got == nil || got.Value != e.value {
			return nil, refuse(fmt.Sprintf("“%s” would not be read as %s after the change", e.key, e.value), "Set it by hand.")
		}
		delete(before, e.key)
		delete(after, e.key)
	}
	if !same(before, after) {
		return nil, refuse("other keys of its header would change as well", "Set the keys by hand.")
	}
	return bytes.Join([][]byte{data[:from], header, data[to:]}, nil), nil
}

// headerOf gives where the lines between the two lines of hyphens begin and end.
func headerOf(data []byte) (from, to int, ok bool) {
	at := len(data) - len(bytes.TrimPrefix(data, []byte("\uFEFF")))
	for first := true; at < len(data); first = false {
		end := len(data)
		if i := bytes.IndexByte(data[at:], '\n'); i >= 0 {
			end = at + i + 1
		}
		hyphens := string(bytes.TrimRight(data[at:end], " \t\r\n")) == "---"
		switch {
		case first && !hyphens:
			return 0, 0, false
		case first:
			from = end
		case hyphens:
			return from, at, true
		}
		at = end
	}
	return 0, 0, false
}

// values gives the values of a header's keys.
func values(header []byte) (map[string]*yaml.Node, error) {
	root, err := mapping(header)
	if err != nil {
		return nil, err
	}
	list := make(map[string]*yaml.Node, len(root.Content)/2)
	for i := 0; i+1 < len(root.Content); i += 2 {
		if _, twice := list[root.Content[i].Value]; twice {
			return nil, fmt.Errorf("the key “%s” is written twice", root.Content[i].Value)
		}
		list[root.Content[i].Value] = root.Content[i+1]
	}
	return list, nil
}

func mapping(header []byte) (*yaml.Node, error) {
	var doc yaml.Node
	if err := yaml.Unmarshal(header, &doc); err != nil {
		return nil, err
	}
	if len(doc.Content) == 0 || doc.Content[0].Kind != yaml.MappingNode || doc.Content[0].Style&yaml.FlowStyle != 0 {
		return nil, fmt.Errorf("the header is not one key a line")
	}
	return doc.Content[0], nil
}

// same tells whether two headers have the same keys with the same values and comments.
func same(a, b map[string]*yaml.Node) bool {
	if len(a) != len(b) {
		return false
	}
	for key, n := range a {
		m := b[key]
		if m == nil {
			return false
		}
		x, errX := yaml.Marshal(n)
		y, errY := yaml.Marshal(m)
		if errX != nil || errY != nil || !bytes.Equal(x, y) {
			return false
		}
	}
	return true
}

// quotedForm is a value between quotation marks.
var quotedForm = regexp.MustCompile(`^(?:"(?:[^"\\]|\\.)*"|'(?:[^']|'')*')`)

// remarkForm is what may stand behind a value: blanks, and a comment.
var remarkForm = regexp.MustCompile(`^(?:[ \t]*|[ \t]+#.*)$`)

// cutRemark parts what stands behind a key's colon into the value and the comment behind it with its blanks.
func cutRemark(text string) (value, remark string, ok bool) {
	switch {
	case text == "" || strings.ContainsAny(text[:1], "|>&*!%@`[{#"):
		return "", "", false
	case text[0] == '"' || text[0] == '\'':
		value = quotedForm.FindString(text)
	default:
		value = text
		for i := 1; i < len(text); i++ {
			if text[i] == '#' && (text[i-1] == ' ' || text[i-1] == '\t') {
				value = text[:i]
				break
			}
		}
		value = strings.TrimRight(value, " \t")
	}
	remark = text[len(value):]
	return value, remark, value != "" && remarkForm.MatchString(remark)
}

// setKey changes the line of a key, or adds one.
func setKey(header []byte, e entry) ([]byte, error) {
	lines := bytes.SplitAfter(header, []byte("\n"))
	start := func(key string) int {
		for i, line := range lines {
			if rest, is := bytes.CutPrefix(line, []byte(key+":")); is && (len(rest) == 0 || strings.ContainsRune(" \t\r\n", rune(rest[0]))) {
				return i
			}
		}
		return -1
	}
	at := start(e.key)
	if at < 0 && e.after == "" {
		return nil, fmt.Errorf("its header has no line “%s: …”", e.key)
	}
	if at < 0 {
		behind := start(e.after)
		if behind < 0 {
			return nil, fmt.Errorf("its header has neither a line “%s: …” nor one “%s: …” behind which to put it", e.key, e.after)
		}
		if _, _, err := parts(lines, behind, e.after); err != nil {
			return nil, err
		}
		added := []byte(e.key + ": " + e.value + endOf(lines[behind]))
		return bytes.Join([][]byte{bytes.Join(lines[:behind+1], nil), added, bytes.Join(lines[behind+1:], nil)}, nil), nil
	}
	begin, rest, err := parts(lines, at, e.key)
	if err != nil {
		return nil, err
	}
	lines[at] = []byte(begin + e.value + rest)
	return bytes.Join(lines, nil), nil
}

// parts gives what stands in a key's line before its value and behind it. A value that goes on in the next line is refused.
func parts(lines [][]byte, at int, key string) (begin, rest string, err error) {
	end := endOf(lines[at])
	text := strings.TrimSuffix(string(lines[at]), end)
	body := strings.TrimLeft(text[len(key)+1:], " \t")
	_, remark, ok := cutRemark(body)
	if !ok {
		return "", "", fmt.Errorf("the value of “%s” is not one that can be changed for certain", key)
	}
	if at+1 < len(lines) {
		next := string(lines[at+1])
		if said := strings.TrimSpace(next); said != "" && said[0] != '#' && (next[0] == ' ' || next[0] == '\t') {
			return "", "", fmt.Errorf("the value of “%s” goes on in the next line", key)
		}
	}
	return text[:len(text)-len(body)], remark + end, nil
}

// endOf is the end of a line as it is written.
func endOf(line []byte) string {
	switch {
	case bytes.HasSuffix(line, []byte("\r\n")):
		return "\r\n"
	case bytes.HasSuffix(line, []byte("\n")):
		return "\n"
	}
	return ""
}
