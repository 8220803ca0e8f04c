package manual

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"hash"
	"slices"

	"go.yaml.in/yaml/v3"
)

// controlKeys are the keys of a header that say how an article is controlled, and nothing that a reader works by.
var controlKeys = []string{"revision", "translates", "approved", "review-by", "accept", "draft", "replaces"}

// Controls tells whether a key of a header says how the article is controlled, and nothing that a reader works by.
func Controls(key string) bool { return slices.Contains(controlKeys, key) }

// contentOf is a digest of an article's text and facts: of its body, and of its header but for the keys of its control. What does not change
// what is read does not change it: the order of keys, comments, quotation marks, line ends, empty lines at the beginning and end, a blank at
// the end of a line.
func contentOf(header *yaml.Node, body []byte) string {
	h := sha256.New()
	sumNode(h, header, controlKeys)
	for line := range bytes.Lines(bytes.TrimSpace(body)) {
		text := bytes.TrimRight(line, " \t\n")
		h.Write(text)
		if bytes.HasSuffix(bytes.TrimRight(line, "\n"), []byte("  ")) { // two blanks break the line, CommonMark 0.31.2, section 6.7
			h.Write([]byte("  "))
		}
		h.Write([]byte("\n"))
	}
	return hex.EncodeToString(h.Sum(nil))
}

// sumNode adds a value to a digest: its kind, how long it is, and what it holds. Keys are in order; those of without are left out.
func sumNode(h hash.Hash, n *yaml.Node, without []string) {
	put := func(kind byte, length int) { h.Write(binary.AppendUvarint([]byte{kind}, uint64(length))) }
	switch n.Kind {
	case yaml.MappingNode:
		type pair struct{ key, value *yaml.Node }
		var pairs []pair
		for i := 0; i+1 < len(n.Content); i += 2 {
			if !slices.Contains(without, n.Content[i].Value) {
				pairs = append(pairs, pair{n.Content[i], n.Content[i+1]})
			}
		}
		slices.SortStableFunc(pairs, func(a, b pair) int { return cmp.Compare(a.key.Value, b.key.Value) })
		put('m', len(pairs))
		for _, p := range pairs {
			sumNode(h, p.key, nil)
			sumNode(h, p.value, nil)
		}
	case yaml.SequenceNode:
		put('l', len(n.Content))
		for _, c := range n.Content {
			sumNode(h, c, nil)
		}
	default:
		put('t', len(n.Value))
		h.Write([]byte(n.Value))
	}
}
