package builder

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"slices"
	"strings"
	"sync"

	"tankside/builder/manual"
	"tankside/builder/page"
	"tankside/search"
)

// index is the search index of a manual, to be made when its turn comes: in one piece, or of a large manual in several.
func index(m *manual.Manual, tools []page.Tool) []page.Index {
	n := search.Pieces(m.Count())
	docs := sync.OnceValue(func() [][]search.Document {
		parts := make([][]search.Document, n)
		for _, d := range documents(m, tools) {
			own, _, _ := strings.Cut(d.Path, "#")
			i := search.PieceOf(own, n)
			parts[i] = append(parts[i], d)
		}
		return parts
	})
	words := sync.OnceValue(func() []search.Synonym { return synonyms(m) })
	if n == 1 {
		return []page.Index{{
			From: func() string { return digest(docs()[0], words(), nil) },
			Make: func() ([]byte, error) { return search.Index(docs()[0], words()) },
		}}
	}
	languages := func() (tags []string) {
		for _, part := range docs() {
			for _, d := range part {
				if !slices.Contains(tags, d.Language) {
					tags = append(tags, d.Language)
				}
			}
		}
		slices.Sort(tags)
		return tags
	}
	pieces := []page.Index{{
		From: func() string { return digest(nil, words(), languages()) },
		Make: func() ([]byte, error) { return search.Words(languages(), words()) },
	}}
	for i := range n {
		pieces = append(pieces, page.Index{
			From: func() string { return digest(docs()[i], nil, nil) },
			Make: func() ([]byte, error) { return search.Part(docs()[i]) },
		})
	}
	return pieces
}

// digest changes with everything that a piece of the index is made from.
func digest(docs []search.Document, words []search.Synonym, languages []string) string {
	h := sha256.New()
	var b []byte
	put := func(texts ...string) {
		b = binary.AppendUvarint(b[:0], uint64(len(texts)))
		for _, t := range texts {
			b = binary.AppendUvarint(b, uint64(len(t)))
			b = append(b, t...)
		}
		h.Write(b)
	}
	for _, d := range docs {
		question := ""
		if d.Question {
			question = "question"
		}
		put(d.Path, d.Title, d.Section, d.Kind, d.Station, d.Text, d.Language, question)
		put(d.AlsoCalled...)
	}
	put("words")
	for _, s := range words {
		put(s.Term, s.Language)
		put(s.Words...)
	}
	put("languages")
	put(languages...)
	return hex.EncodeToString(h.Sum(nil))
}
