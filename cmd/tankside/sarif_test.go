package main

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"tankside/builder/finding"
)

// What SARIF 2.1.0 (OASIS Standard, 27 March 2020) requires, by section: the property, and the object that has it.
func TestSARIF(t *testing.T) {
	t.Parallel()
	hot := finding.Rule{Name: "too-hot", Severity: finding.People, Finds: "a bath that is too hot", Why: "It scalds.", Source: "common practice, no source"}
	loose := finding.Rule{Name: "loose-end", Severity: finding.Untidy, Finds: "a loose end", Why: "It looks bad.", Source: "our own"}
	findings := []finding.Finding{
		hot.At(finding.Place{File: "soils/harbour tar.md", Line: 3, Column: 7}, "Too hot: 95 °C.", "Make it colder.", finding.Place{File: "shop.yaml", Line: 20, Column: 5}),
		loose.At(finding.Place{File: "notes.txt"}, "A loose end.", ""),
		{Rule: "not-in-the-list", Severity: finding.Result, Place: finding.Place{File: "shop.yaml", Line: 1}, Message: "Odd."},
	}
	data, err := json.Marshal(sarif("content", findings, []finding.Rule{hot, loose}))
	if err != nil {
		t.Fatal(err)
	}
	var log map[string]any
	if err := json.Unmarshal(data, &log); err != nil {
		t.Fatal(err)
	}
	// at follows names and positions down into the log.
	at := func(path ...any) any {
		var here any = log
		for _, step := range path {
			switch s := step.(type) {
			case string:
				here = here.(map[string]any)[s]
			case int:
				here = here.([]any)[s]
			}
		}
		return here
	}
	for _, c := range []struct {
		section string
		want    any
		path    []any
	}{
		{"3.13.2 version", "2.1.0", []any{"version"}},
		{"3.14.6 tool, 3.18.2 driver, 3.19.8 name", "tankside", []any{"runs", 0, "tool", "driver", "name"}},
		{"3.14.17 columnKind", "unicodeCodePoints", []any{"runs", 0, "columnKind"}},
		{"3.49.3 id", "too-hot", []any{"runs", 0, "tool", "driver", "rules", 0, "id"}},
		{"3.50.3 level", "error", []any{"runs", 0, "tool", "driver", "rules", 0, "defaultConfiguration", "level"}},
		{"3.27.5 ruleId", "too-hot", []any{"runs", 0, "results", 0, "ruleId"}},
		{"3.27.6 ruleIndex", 0., []any{"runs", 0, "results", 0, "ruleIndex"}},
		{"3.27.6 ruleIndex", 1., []any{"runs", 0, "results", 1, "ruleIndex"}},
		{"3.27.6 ruleIndex of a rule without metadata", nil, []any{"runs", 0, "results", 2, "ruleIndex"}},
		{"3.27.10 level", "error", []any{"runs", 0, "results", 0, "level"}},
		{"3.27.10 level", "note", []any{"runs", 0, "results", 1, "level"}},
		{"3.11.8 text", "Too hot: 95 °C. It scalds. Make it colder.", []any{"runs", 0, "results", 0, "message", "text"}},
		{"3.4.3 uri, percent-encoded", "content/soils/harbour%20tar.md", []any{"runs", 0, "results", 0, "locations", 0, "physicalLocation", "artifactLocation", "uri"}},
		{"3.30.5 startLine, from 1", 3., []any{"runs", 0, "results", 0, "locations", 0, "physicalLocation", "region", "startLine"}},
		{"3.30.6 startColumn, from 1", 7., []any{"runs", 0, "results", 0, "locations", 0, "physicalLocation", "region", "startColumn"}},
		{"3.30 no region for a whole file", nil, []any{"runs", 0, "results", 1, "locations", 0, "physicalLocation", "region"}},
		{"3.30.6 no column 0", nil, []any{"runs", 0, "results", 2, "locations", 0, "physicalLocation", "region", "startColumn"}},
		{"3.27.22 relatedLocations", "content/shop.yaml", []any{"runs", 0, "results", 0, "relatedLocations", 0, "physicalLocation", "artifactLocation", "uri"}},
	} {
		if got := at(c.path...); got != c.want {
			t.Errorf("%s: %v is %v, want %v", c.section, c.path, got, c.want)
		}
	}
	if got, ok := at("$schema").(string); !ok || !strings.HasSuffix(got, "/sarif-schema-2.1.0.json") {
		t.Errorf("3.13.3 $schema: %v", got)
	}
	// 3.27.11: every result has a message with a text; 3.28, 3.29: every location has an address.
	for i := range findings {
		if text, _ := at("runs", 0, "results", i, "message", "text").(string); text == "" {
			t.Errorf("result %d has no text", i)
		}
		if uri, _ := at("runs", 0, "results", i, "locations", 0, "physicalLocation", "artifactLocation", "uri").(string); uri == "" {
			t.Errorf("result %d has no place", i)
		}
	}
	empty, err := json.Marshal(sarif("content", nil, nil))
	if err != nil || !strings.Contains(string(empty), `"results":[]`) || !strings.Contains(string(empty), `"rules":[]`) {
		t.Errorf("3.14.23: a run that found nothing has an empty list of results: %s", empty)
	}
}

func TestFileURI(t *testing.T) {
	t.Parallel()
	elsewhere := filepath.Join(t.TempDir(), "my manual")
	for folder, want := range map[string]string{
		"content":        "content/",
		"./a/../content": "content/",
		"my manual":      "my%20manual/",
		"../content":     "file:///", // RFC 8089
		elsewhere:        "file:///",
	} {
		got := fileURI(folder, "soils/wäx#.md")
		if !strings.HasPrefix(got, want) || !strings.HasSuffix(got, "/soils/w%C3%A4x%23.md") || strings.ContainsAny(got, " \\") {
			t.Errorf("%s: %s, want %s…", folder, got, want)
		}
	}
}
