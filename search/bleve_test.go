package search_test

import (
	"os"
	"strings"
	"testing"

	"github.com/blevesearch/bleve/v2"

	"tankside/search"
)

// On the questions that its order has not been tried on the search is no worse than bleve as it comes: mean reciprocal rank of the first page
// that answers. This needs nothing that the project does not hold.
func TestUnseenQuestionsAgainstBleve(t *testing.T) {
	docs, synonyms := manual(t)
	f := open(t, docs, synonyms)
	index, err := bleve.NewMemOnly(bleve.NewIndexMapping())
	if err != nil {
		t.Fatal(err)
	}
	defer index.Close()
	batch := index.NewBatch()
	for _, d := range docs {
		if err := batch.Index(d.Path, map[string]any{"title": d.Title, "heading": d.Section, "also": d.AlsoCalled, "text": d.Text}); err != nil {
			t.Fatal(err)
		}
	}
	if err := index.Batch(batch); err != nil {
		t.Fatal(err)
	}
	file, err := os.ReadFile("../testdata/questions.tsv")
	if err != nil {
		t.Fatal(err)
	}
	asked, ours, theirs := 0.0, 0.0, 0.0
	for line := range strings.Lines(string(file)) {
		columns := strings.Split(strings.TrimSpace(line), "\t")
		if strings.HasPrefix(line, "#") || len(columns) < 2 {
			continue
		}
		wanted := map[string]bool{}
		for a := range strings.SplitSeq(columns[1], ",") {
			wanted[strings.TrimSuffix(strings.TrimSpace(a), ".md")+".html"] = true
		}
		found, err := index.Search(bleve.NewSearchRequestOptions(bleve.NewMatchQuery(columns[0]), 50, 0, false))
		if err != nil {
			t.Fatal(err)
		}
		var paths, own []string
		for _, hit := range found.Hits {
			paths = append(paths, hit.ID)
		}
		for _, hit := range ask(t, f, search.Question{Words: columns[0]}).Hits {
			own = append(own, hit.Path)
		}
		asked++
		ours += reciprocal(own, wanted)
		theirs += reciprocal(paths, wanted)
	}
	t.Logf("%.0f questions, mean reciprocal rank: bleve's defaults %.3f, this search %.3f", asked, theirs/asked, ours/asked)
	if asked == 0 || ours < theirs {
		t.Errorf("mean reciprocal rank %.3f is below bleve's %.3f", ours/asked, theirs/asked)
	}
}

// reciprocal is 1 through the rank of the first wanted page among ten pages, each counted once; 0 where there is none.
func reciprocal(paths []string, wanted map[string]bool) float64 {
	seen := map[string]bool{}
	for _, path := range paths {
		page, _, _ := strings.Cut(path, "#")
		if seen[page] {
			continue
		}
		if seen[page] = true; wanted[page] {
			return 1 / float64(len(seen))
		}
		if len(seen) == 10 {
			break
		}
	}
	return 0
}
