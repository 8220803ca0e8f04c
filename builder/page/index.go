package page

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"github.com/klauspost/compress/gzip"
)

// The parcels of the search index, and the file that names them. Pages name that file: so they need not change with every index.
const (
	indexParcel = "search-segment"
	indexNamed  = "find-index"
	indexFile   = indexNamed + ".js"
)

// pieceName is the name of the parcel of a piece of the index: search-segment, search-segment-2 …
func pieceName(i int) string {
	if i == 0 {
		return indexParcel
	}
	return fmt.Sprintf("%s-%d", indexParcel, i+1)
}

// index gives the jobs that make the pieces of the search index and write their parcels, and note in named where they are.
// A parcel's name carries a hash of what the piece is made from and of the program that reads it, so that a piece that is there already need not
// be made.
func (s *site) index(named []string) []job {
	var jobs []job
	for i, piece := range s.Index {
		jobs = append(jobs, job{base: pieceName(i), path: pieceName(i), render: func(add Sink) error {
			named[i] = hashed(indexParcel+".js", []byte(s.parcels[searchModule]+" "+piece.From()))
			if s.Keep != nil {
				if kept, err := s.Keep(named[i]); kept || err != nil {
					return err
				}
			}
			made, err := piece.Make()
			if err != nil {
				return err
			}
			var script bytes.Buffer
			script.Grow(len(made))
			err = parcel(&script, pieceName(i), func(w io.Writer) error {
				z, err := gzip.NewWriterLevel(w, s.indexGzip(len(made)))
				if err != nil {
					return err
				}
				if _, err := z.Write(made); err != nil {
					return err
				}
				return z.Close()
			})
			if err != nil {
				return err
			}
			return add(named[i], script.Bytes())
		}})
	}
	return jobs
}

// nameIndex writes where the pieces of the index are, for the scripts of the pages and for the edition's list.
func (s *site) nameIndex(named []string, add Sink) error {
	for i, file := range named {
		s.parcels[pieceName(i)] = file
	}
	asked, err := s.askedFiles()
	if err != nil {
		return err
	}
	return add(indexFile, fmt.Appendf(nil, "tankside.parcel(\"find-edition\",%q);\ntankside.parcel(%q,%q);\ntankside.parcel(\"find-asked\",%q);\n",
		shownOf(s.Mark).Code, indexNamed, strings.Join(named, " "), asked))
}

// indexGzip is the level at which a piece of the index is packed: a middling one, on which the best takes three times as long and gains 0.1 %; a quick one for the index of
// a large manual, on which the best takes ten times as long and gains 2 %.
func (s *site) indexGzip(size int) int {
	if len(s.Index) == 1 && size < 4<<20 {
		return 6
	}
	return 5
}
