package segment

import (
	"fmt"

	index "github.com/blevesearch/bleve_index_api"
	bleve "github.com/blevesearch/scorch_segment_api/v2"
)

// Reader finds the documents that hold a term, segment by segment, as bleve's own index does. It keeps the dictionaries that it has met, and
// is not for use by several goroutines at once.
type Reader struct {
	*Index
	fields map[string][]words // of each segment
	found  []words
	at     int // the segment that is being read
}

// words are those of one field in one segment, with the list last looked up, whose memory serves for the next.
type words struct {
	bleve.TermDictionary
	list     bleve.PostingsList
	postings bleve.PostingsIterator
}

// Reader gives a new reader of the index.
func (x *Index) Reader() *Reader { return &Reader{Index: x, fields: map[string][]words{}} }

// Find turns to the documents that hold a term in a field and says how many there are. [Reader.Next] gives them one after another.
func (r *Reader) Find(field, term string) (documents int, err error) {
	if r.found, err = r.words(field); err != nil {
		return 0, err
	}
	r.at = 0
	for i := range r.found {
		w := &r.found[i]
		if w.list, err = w.PostingsList([]byte(term), nil, w.list); err != nil {
			return 0, fmt.Errorf("looking up %q: %w", term, err)
		}
		w.postings = w.list.Iterator(true, true, false, w.postings)
		documents += int(w.list.Count())
	}
	return documents, nil
}

// Next gives the next document in the order of their numbers, how often it has the term and its norm, or nil after the last. What it gives is
// the memory that it is given.
func (r *Reader) Next(into *index.TermFieldDoc) (*index.TermFieldDoc, error) {
	for ; r.at < len(r.found); r.at++ {
		met, err := r.found[r.at].postings.Next()
		if err != nil {
			return nil, fmt.Errorf("reading a list of documents: %w", err)
		}
		if met != nil {
			into.ID = index.NewIndexInternalID(into.ID, met.Number()+uint64(r.first[r.at]))
			into.Freq, into.Norm = met.Frequency(), met.Norm()
			return into, nil
		}
	}
	return nil, nil
}

func (r *Reader) words(field string) ([]words, error) {
	own, known := r.fields[field]
	if known {
		return own, nil
	}
	for _, s := range r.segments {
		d, err := s.Dictionary(field)
		if err != nil {
			return nil, fmt.Errorf("reading the words of %q: %w", field, err)
		}
		own = append(own, words{TermDictionary: d})
	}
	r.fields[field] = own
	return own, nil
}
