package search

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// manyDocuments are the sections of invented articles in two languages.
func manyDocuments(n int) (docs []Document, synonyms []Synonym) {
	words := strings.Fields("water oil tank part bath clean hot cold rinse dry spot film foil test minute strength heat metal steel brass soil grease bubble basket thread lid")
	r := rand.New(rand.NewPCG(3, 4))
	text := func(n int) string {
		some := make([]string, n)
		for i := range some {
			some[i] = words[r.IntN(len(words))]
		}
		return strings.Join(some, " ")
	}
	for i := range n {
		path, language := fmt.Sprintf("soils/a-%d.html", i), ""
		if i%7 == 0 {
			language = "es"
		}
		title := fmt.Sprintf("%s %d", text(2), i)
		docs = append(docs, Document{Path: path, Title: title, Kind: "soil", Station: "wash", Text: text(10), AlsoCalled: []string{text(2)}, Language: language})
		for s := range 3 {
			docs = append(docs, Document{Path: fmt.Sprintf("%s#s%d", path, s), Title: title, Section: text(3), Kind: "soil", Station: "wash", Text: text(40), Language: language})
		}
	}
	return docs, []Synonym{{Term: "film", Words: []string{"haze", "white veil"}}, {Term: "lid", Words: []string{"cover"}}}
}

// Pieces, opened together in whatever order, answer as the index of everything does, with the same scores; and the same documents in
// whatever order give the same bytes.
func TestPiecesAnswerAsOne(t *testing.T) {
	t.Parallel()
	docs, synonyms := manyDocuments(200)
	one, err := Index(docs, synonyms)
	if err != nil {
		t.Fatal(err)
	}
	whole, err := Open(one)
	if err != nil {
		t.Fatal(err)
	}
	defer whole.Close()
	words, err := Words([]string{"", "es"}, synonyms)
	if err != nil {
		t.Fatal(err)
	}
	blobs := [][]byte{words}
	const n = 5
	for piece := range n {
		own := slices.DeleteFunc(slices.Clone(docs), func(d Document) bool { return PieceOf(page(d.Path), n) != piece })
		made, err := Part(own)
		if err != nil {
			t.Fatal(err)
		}
		slices.Reverse(own)
		if again, err := Part(own); err != nil || !bytes.Equal(made, again) {
			t.Errorf("piece %d is not the same in another order: %v", piece, err)
		}
		blobs = append(blobs, made)
	}
	slices.Reverse(blobs)
	parted, err := Open(blobs...)
	if err != nil {
		t.Fatal(err)
	}
	defer parted.Close()
	if parted.Sections() != whole.Sections() || parted.Articles() != whole.Articles() {
		t.Errorf("%d sections of %d articles, wanted %d of %d", parted.Sections(), parted.Articles(), whole.Sections(), whole.Articles())
	}
	hits := 0
	for _, q := range []Question{
		{Words: "white veil"}, {Words: "oil in thread"}, {Words: "grese"}, {Words: "hot rins"}, {Words: "brass foil test", Kind: "soil"},
		{Words: "cover", Language: "es"}, {Words: "steel 17"}, {Words: "nothing of the kind"}, {Words: "bubble basket", Limit: MaxLimit},
	} {
		want, err := whole.Ask(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		got, err := parted.Ask(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		hits += len(want.Hits)
		if len(got.Hits) == len(want.Hits) {
			for i := range got.Hits { // the mean length is kept to three decimals in each piece
				if d := got.Hits[i].Score - want.Hits[i].Score; d > 1e-3 || d < -1e-3 {
					t.Errorf("%q: %s scores %v, wanted %v", q.Words, got.Hits[i].Path, got.Hits[i].Score, want.Hits[i].Score)
				}
				got.Hits[i].Score = want.Hits[i].Score
			}
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%q: %+v,\nwanted %+v", q.Words, got, want)
		}
	}
	if hits < 50 {
		t.Errorf("only %d hits: the questions try little", hits)
	}
	if _, err := Open(blobs[:len(blobs)-1]...); err == nil {
		t.Error("pieces without the words are opened")
	}
}

func TestPieces(t *testing.T) {
	t.Parallel()
	for pages, want := range map[int]int{0: 1, 1000: 1, 1001: 2, 2000: 2, 2001: 4, 10_000: 16} {
		if got := Pieces(pages); got != want {
			t.Errorf("%d pages: %d pieces, wanted %d", pages, got, want)
		}
	}
}
