package search

import (
	"cmp"
	"errors"
	"hash/fnv"
	"maps"
	"slices"
	"strings"
)

// The index of a large manual is made in pieces, so that a change makes one of them anew and leaves the others as they were: one piece of
// words ([Words]) and several of documents ([Part]), each with the documents of some pages. [Open] takes all of them and gives the
// Finder that it gives for the one [Index] of everything, with the same scores.

// pieceSize is how many pages a piece of documents holds at most, on average.
const pieceSize = 1000

// Pieces is in how many pieces the documents of so many pages are to be indexed. With 1 the index is best made as a whole.
// It is a power of 2, so that it seldom changes while a manual grows.
func Pieces(pages int) int {
	n := 1
	for n*pieceSize < pages {
		n *= 2
	}
	return n
}

// PieceOf is the number of the piece, from 0, for the documents of a page.
func PieceOf(page string, pieces int) int {
	h := fnv.New32a()
	h.Write([]byte(page))
	return int(h.Sum32() % uint32(pieces))
}

// Part makes a piece of documents.
func Part(docs []Document) ([]byte, error) {
	docs = sorted(docs)
	if err := check(docs); err != nil {
		return nil, err
	}
	tags, docsIn, _ := byLanguage(docs, nil)
	return build(tags, func(t *table, tag string) (thesaurus, built []byte, err error) {
		*t = *arrange(docsIn[tag])
		t.tag = tag
		built, err = t.segment()
		return nil, built, err
	})
}

// Words makes the piece of words, for the languages of the documents.
func Words(languages []string, synonyms []Synonym) ([]byte, error) {
	docs := make([]Document, len(languages))
	for i, l := range languages {
		docs[i].Language = l
	}
	tags, _, synonymsIn := byLanguage(docs, synonyms)
	return build(tags, func(t *table, tag string) (thesaurus, built []byte, err error) {
		thesaurus, err = t.thesaurusIn(tag, synonymsIn[tag])
		return thesaurus, nil, err
	})
}

// pieces are those of one language, ready to be opened.
type pieces struct {
	tables    []*table
	thesaurus []byte
	segments  [][]byte
}

// gather takes the pieces apart and puts together what is of one language. The language with the most documents comes first.
func gather(blobs [][]byte) ([]*table, []pieces, error) {
	byTag := map[string]*pieces{}
	for _, blob := range blobs {
		parts, err := unbind(blob)
		if err != nil {
			return nil, nil, err
		}
		for _, p := range parts {
			packed, thesaurus, segment, err := unseal(p.blob)
			if err != nil {
				return nil, nil, err
			}
			t, err := unpack(packed)
			if err != nil {
				return nil, nil, err
			}
			own := byTag[p.tag]
			if own == nil {
				own = &pieces{}
				byTag[p.tag] = own
			}
			own.tables = append(own.tables, t)
			if len(thesaurus) > 0 {
				own.thesaurus = thesaurus
			}
			if len(segment) > 0 {
				own.segments = append(own.segments, segment)
			}
		}
	}
	var tables []*table
	for tag, own := range byTag {
		if len(own.thesaurus) == 0 || len(own.segments) == 0 {
			return nil, nil, errors.Join(ErrDamaged, errors.New("a piece is missing"))
		}
		t := joined(own.tables)
		t.tag = tag
		tables = append(tables, t)
	}
	slices.SortFunc(tables, func(a, b *table) int {
		return cmp.Or(cmp.Compare(len(b.sections), len(a.sections)), strings.Compare(a.tag, b.tag))
	})
	all := make([]pieces, len(tables))
	for i, t := range tables {
		all[i] = *byTag[t.tag]
	}
	return tables, all, nil
}

// joined makes one table of those of the pieces, in their order.
func joined(tables []*table) *table {
	if len(tables) == 1 {
		return tables[0]
	}
	t := &table{}
	words := map[string]int{}
	for _, piece := range tables {
		articles, sections := len(t.articles), len(t.sections)
		for _, a := range piece.articles {
			a.first += sections
			a.end += sections
			t.articles = append(t.articles, a)
		}
		for _, s := range piece.sections {
			s.article += articles
			t.sections = append(t.sections, s)
		}
		for _, e := range piece.lexicon {
			words[e.word] += e.documents
		}
		for f, n := range piece.having {
			t.lengths[f] += piece.lengths[f] * float64(n)
			t.having[f] += n
		}
		t.longest = max(t.longest, piece.longest)
		t.expressions = append(t.expressions, piece.expressions...)
	}
	for f, n := range t.having {
		t.lengths[f] /= float64(max(n, 1))
	}
	for _, word := range slices.Sorted(maps.Keys(words)) {
		t.lexicon = append(t.lexicon, entry{word: word, documents: words[word]})
	}
	return t
}
