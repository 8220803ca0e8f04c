package search_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"go.yaml.in/yaml/v3"

	"tankside/search"
)

// manual reads the demo manual into documents: one for an article's head with
// the introduction, one for each second-level heading, one for each term of the
// glossary, whose everyday words are synonyms as well. Markup is taken off
// roughly; the builder does it properly.
func manual(t testing.TB) ([]search.Document, []search.Synonym) {
	t.Helper()
	files, err := filepath.Glob("../content/*/*.md")
	if err != nil || len(files) == 0 {
		t.Skipf("no demo manual to ask: %v", err)
	}
	kinds := map[string]string{
		"soils": "soil", "chemistries": "chemistry", "materials": "material", "symptoms": "symptom",
		"procedures": "procedure", "lessons": "lesson", "parts": "part",
	}
	var docs []search.Document
	for _, file := range files {
		source, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		folder := filepath.Base(filepath.Dir(file))
		path := folder + "/" + strings.TrimSuffix(filepath.Base(file), ".md") + ".html"
		_, rest, _ := strings.Cut(string(source), "---\n")
		head, body, found := strings.Cut(rest, "\n---\n")
		var header struct {
			Title, Summary, Station string
			AlsoCalled              []string `yaml:"also-called"`
		}
		if err := yaml.Unmarshal([]byte(head), &header); err != nil || !found {
			t.Fatalf("%s cannot be read: %v", file, err)
		}
		sections := strings.Split("\n"+body, "\n## ")
		for i, text := range sections {
			d := search.Document{Path: path, Title: header.Title, Kind: kinds[folder], Station: header.Station}
			if i == 0 {
				d.AlsoCalled = header.AlsoCalled
				d.Text = header.Summary + " " + plain(text)
			} else {
				heading, text, _ := strings.Cut(text, "\n")
				d.Section = plain(heading)
				d.Path += "#" + anchor(d.Section)
				d.Question = strings.HasSuffix(d.Section, "?")
				d.Text = plain(text)
			}
			docs = append(docs, d)
		}
	}
	terms, synonyms := glossary(t)
	return append(docs, terms...), synonyms
}

func glossary(t testing.TB) (docs []search.Document, synonyms []search.Synonym) {
	t.Helper()
	source, err := os.ReadFile("../content/glossary.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var terms map[string]struct {
		Means      string
		AlsoCalled []string `yaml:"also-called"`
	}
	if err := yaml.Unmarshal(source, &terms); err != nil {
		t.Fatal(err)
	}
	for term, entry := range terms {
		docs = append(docs, search.Document{Path: "glossary.html#" + anchor(term), Title: term, Kind: "glossary",
			Text: entry.Means, AlsoCalled: entry.AlsoCalled})
		synonyms = append(synonyms, search.Synonym{Term: term, Words: entry.AlsoCalled})
	}
	return docs, synonyms
}

// Everyday questions lead to the article that answers them: within the first
// three hits for 95 of 100, as the first for 80 (success at rank; mean
// reciprocal rank as E. M. Voorhees, The TREC-8 question answering track
// report, 1999).
func TestEverydayQuestions(t *testing.T) {
	docs, synonyms := manual(t)
	f := open(t, docs, synonyms)
	file, err := os.ReadFile("testdata/questions.tsv")
	if err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{}
	for _, d := range docs {
		known[d.Path] = true
	}
	var asked, first, third, reciprocal float64
	for line := range strings.Lines(string(file)) {
		question, answers, found := strings.Cut(strings.TrimSpace(line), "\t")
		if !found || strings.HasPrefix(line, "#") {
			continue
		}
		wanted := map[string]bool{}
		for _, a := range strings.Fields(answers) {
			if !known[a+".html"] {
				t.Errorf("%q: there is no article %s", question, a)
			}
			wanted[a+".html"] = true
		}
		rank := 0
		hits := ask(t, f, search.Question{Words: question}).Hits
		for i, h := range hits {
			if page, _, _ := strings.Cut(h.Path, "#"); rank == 0 && wanted[page] {
				rank = i + 1
			}
		}
		asked++
		if rank > 0 {
			reciprocal += 1 / float64(rank)
		}
		if rank == 1 {
			first++
		}
		if rank >= 1 && rank <= 3 {
			third++
		}
		if rank != 1 {
			t.Logf("rank %d of %q, wanted %s; got %s", rank, question, answers, pathsOf(hits, 3))
		}
	}
	t.Logf("%.0f questions: success@1 %.3f, success@3 %.3f, MRR %.3f", asked, first/asked, third/asked, reciprocal/asked)
	if first/asked < 0.80 || third/asked < 0.95 {
		t.Errorf("success@1 %.3f, success@3 %.3f; wanted 0.80 and 0.95", first/asked, third/asked)
	}
}

func pathsOf(hits []search.Hit, n int) string {
	var all []string
	for _, h := range hits[:min(n, len(hits))] {
		all = append(all, h.Path)
	}
	return strings.Join(all, ", ")
}

var (
	link   = regexp.MustCompile(`!?\[([^\]]*)\]\([^)]*\)`)
	markup = regexp.MustCompile("[*`#>|]+|(?m)^-{2,}")
	other  = regexp.MustCompile(`[^\p{L}\p{N}]+`)
)

func plain(markdown string) string {
	return strings.TrimSpace(markup.ReplaceAllString(link.ReplaceAllString(markdown, "$1"), " "))
}

func anchor(heading string) string {
	return strings.Trim(other.ReplaceAllString(strings.ToLower(heading), "-"), "-")
}
