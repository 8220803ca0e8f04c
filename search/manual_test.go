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

// manual reads the demo manual's articles into documents: one for the head with
// the introduction, one for each second-level heading. Markup is taken off
// roughly; the builder does it properly.
func manual(t testing.TB) []search.Document {
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
			t.Logf("%s left out: %v", file, err)
			continue
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
	return docs
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
