package search_test

import (
	"compress/gzip"
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/blevesearch/bleve/v2"

	"tankside/search"
)

// cranfield is the collection of C. Cleverdon, J. Mills, M. Keen, Factors
// determining the performance of indexing systems, Aslib Cranfield Research
// Project, 1966: 1,400 abstracts, 225 questions, judged exhaustively.
type cranfield struct {
	titles, texts []string          // by number, from 0
	questions     []string          // in order; the judgements count them from 1
	gains         []map[int]float64 // by question, of a document's number from 1
}

const cranfieldFolder = "../testdata/cranfield/"

func readCranfield(t testing.TB) (c cranfield) {
	t.Helper()
	read := func(name string) string {
		f, err := os.Open(cranfieldFolder + name + ".gz")
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		unpacked, err := gzip.NewReader(f)
		if err != nil {
			t.Fatal(err)
		}
		data, err := io.ReadAll(unpacked)
		if err != nil {
			t.Fatal(name, err)
		}
		return string(data)
	}
	part := regexp.MustCompile(`(?m)^\.([TABW])\s*$`)
	records := func(name string) (all []map[string]string) {
		for _, record := range strings.Split("\n"+read(name), "\n.I ")[1:] {
			fields := map[string]string{}
			marks := part.FindAllStringSubmatchIndex(record, -1)
			for i, m := range marks {
				end := len(record)
				if i+1 < len(marks) {
					end = marks[i+1][0]
				}
				fields[record[m[2]:m[3]]] = strings.Join(strings.Fields(record[m[1]:end]), " ")
			}
			all = append(all, fields)
		}
		return all
	}
	for _, r := range records("cran.all") {
		c.titles = append(c.titles, r["T"])
		c.texts = append(c.texts, strings.TrimPrefix(r["W"], r["T"])) // the abstract repeats its title
	}
	for _, r := range records("cran.qry") {
		c.questions = append(c.questions, r["W"])
		c.gains = append(c.gains, map[int]float64{})
	}
	// Codes: 1 complete answer, 2 high relevance, 3 useful, 4 minimal, -1 none.
	gain := map[int]float64{1: 4, 2: 3, 3: 2, 4: 1, -1: 0}
	for line := range strings.Lines(read("cranqrel")) {
		var question, document, code int
		if _, err := fmt.Sscan(line, &question, &document, &code); err != nil {
			continue
		}
		c.gains[question-1][document] = gain[code]
	}
	if len(c.texts) != 1400 || len(c.questions) != 225 {
		t.Fatalf("%d documents and %d questions", len(c.texts), len(c.questions))
	}
	return c
}

// ndcg is the mean normalised discounted cumulative gain at 10 (K. Järvelin,
// J. Kekäläinen, Cumulated gain-based evaluation of IR techniques, ACM
// Transactions on Information Systems 20, 2002) of a way to answer.
func (c cranfield) ndcg(answer func(question string) []int) float64 {
	total := 0.0
	for q, question := range c.questions {
		sum := func(gains []float64) (sum float64) {
			for i, g := range gains[:min(10, len(gains))] {
				sum += g / math.Log2(float64(i+2))
			}
			return sum
		}
		var got, ideal []float64
		for _, document := range answer(question) {
			got = append(got, c.gains[q][document])
		}
		for _, g := range c.gains[q] {
			ideal = append(ideal, g)
		}
		slices.SortFunc(ideal, func(a, b float64) int { return int(b - a) })
		if best := sum(ideal); best > 0 {
			total += sum(got) / best
		}
	}
	return total / float64(len(c.questions))
}

// On an outside collection the search is no worse than bleve as it comes. The
// collection is asked as it is: no synonyms, each abstract an article.
func TestCranfieldAgainstBleve(t *testing.T) {
	t.Parallel()
	c := readCranfield(t)
	index, err := bleve.NewMemOnly(bleve.NewIndexMapping())
	if err != nil {
		t.Fatal(err)
	}
	defer index.Close()
	batch := index.NewBatch()
	var docs []search.Document
	for i := range c.texts {
		id := strconv.Itoa(i + 1)
		if err := batch.Index(id, map[string]string{"title": c.titles[i], "text": c.texts[i]}); err != nil {
			t.Fatal(err)
		}
		// Two of the abstracts are empty and have no title.
		docs = append(docs, search.Document{Path: id, Title: c.titles[i] + " -", Text: c.texts[i]})
	}
	if err := index.Batch(batch); err != nil {
		t.Fatal(err)
	}
	f := open(t, docs, nil)
	theirs := c.ndcg(func(question string) (numbers []int) {
		found, err := index.Search(bleve.NewSearchRequest(bleve.NewMatchQuery(question)))
		if err != nil {
			t.Fatal(err)
		}
		for _, hit := range found.Hits {
			numbers = append(numbers, number(t, hit.ID))
		}
		return numbers
	})
	ours := c.ndcg(func(question string) (numbers []int) {
		found, err := f.Ask(context.Background(), search.Question{Words: question + " "})
		if err != nil {
			t.Fatal(err)
		}
		for _, hit := range found.Hits {
			numbers = append(numbers, number(t, hit.Path))
		}
		return numbers
	})
	t.Logf("nDCG@10 of 225 questions: bleve's defaults %.4f, this search %.4f", theirs, ours)
	if ours < theirs {
		t.Errorf("nDCG@10 %.4f is below bleve's %.4f", ours, theirs)
	}
}

func number(t testing.TB, id string) int {
	t.Helper()
	n, err := strconv.Atoi(id)
	if err != nil {
		t.Fatal(err)
	}
	return n
}
