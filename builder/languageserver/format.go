package languageserver

import (
	"context"
	"reflect"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"tankside/builder/manual"
)

// formatting puts the keys of an article's header into the order of FORMAT.md. Nothing else of the text is touched.
func formatting(ctx context.Context, s *server, p positionParams) (any, error) {
	q := s.inquire(ctx, p)
	if q == nil {
		return nil, nil
	}
	from, to, with, ok := ordered(q.doc.path, q.doc.text)
	if !ok || q.doc.text[from:to] == with {
		return []textEdit{}, nil
	}
	return []textEdit{{Range{s.position(q.doc.text, from), s.position(q.doc.text, to)}, with}}, nil
}

// ordered gives the bytes of a header and the same with its keys in order. Comments stay above the key that they stand above, those before the
// closing line at the end, and every line keeps its end. ok is false where there is no header that can be read, or where the order would
// change what it says.
func ordered(file, text string) (from, to int, with string, ok bool) {
	all := lines(text)
	first, end := headerOf(file, all)
	keys := keysFor(file)
	if first != 1 || end >= len(all) || len(keys) == 0 {
		return 0, 0, "", false
	}
	starts := make([]int, end+1)
	for i, at := 0, 0; i <= end; i++ {
		starts[i] = at
		length, n := lineEnd(text[at:])
		at += length + n
	}
	from, to = starts[first], starts[end]
	type part struct {
		rank int
		text string
	}
	var parts []part
	begin := from // of what belongs to the next key
	for i := first; i <= end; i++ {
		name, is := topKey(all[i])
		if !is || i == end {
			continue
		}
		next := i + 1 // the first line that is not of this key
		for j := i + 1; j < end; j++ {
			if _, other := topKey(all[j]); other {
				break
			}
			if above := strings.TrimSpace(all[j]); above != "" && !strings.HasPrefix(all[j], "#") {
				next = j + 1
			}
		}
		rank := slices.IndexFunc(keys, func(k manual.Key) bool { return k.Name == name })
		if rank < 0 {
			rank = len(keys)
		}
		parts = append(parts, part{rank, text[begin:starts[next]]})
		begin = starts[next]
	}
	rest := text[begin:to]
	slices.SortStableFunc(parts, func(a, b part) int { return a.rank - b.rank })
	var b strings.Builder
	for _, p := range parts {
		b.WriteString(p.text)
	}
	b.WriteString(rest)
	return from, to, b.String(), sameYAML(text[from:to], b.String())
}

// topKey is the key at the beginning of a line, where there is one.
func topKey(line string) (string, bool) {
	m := yamlKey.FindStringSubmatch(line)
	if m == nil || strings.HasPrefix(line, "-") {
		return "", false
	}
	return unquoted(m[1]), true
}

// sameYAML tells whether two headers can be read and say the same.
func sameYAML(a, b string) bool {
	var x, y map[string]any
	if yaml.Unmarshal([]byte(a), &x) != nil || yaml.Unmarshal([]byte(b), &y) != nil {
		return false
	}
	return reflect.DeepEqual(x, y)
}
