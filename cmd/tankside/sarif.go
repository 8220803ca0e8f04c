package main

import (
	"net/url"
	"path"
	"path/filepath"
	"strings"

	"tankside/builder/finding"
)

// The parts of SARIF that findings need. Sections are those of the Static Analysis Results Interchange Format (SARIF) Version 2.1.0,
// OASIS Standard, 27 March 2020.
type (
	sarifLog struct { // 3.13
		Version string     `json:"version"`
		Schema  string     `json:"$schema"`
		Runs    []sarifRun `json:"runs"`
	}
	sarifRun struct { // 3.14
		Tool       sarifTool     `json:"tool"`
		ColumnKind string        `json:"columnKind"`
		Results    []sarifResult `json:"results"`
	}
	sarifTool struct { // 3.18
		Driver sarifDriver `json:"driver"`
	}
	sarifDriver struct { // 3.19
		Name  string      `json:"name"`
		Rules []sarifRule `json:"rules"`
	}
	sarifRule struct { // 3.49
		ID      string       `json:"id"`
		Short   sarifText    `json:"shortDescription"`
		Full    sarifText    `json:"fullDescription"`
		Help    sarifText    `json:"help"`
		Default sarifDefault `json:"defaultConfiguration"`
	}
	sarifDefault struct { // 3.50
		Level string `json:"level"`
	}
	sarifText struct { // 3.11
		Text string `json:"text"`
	}
	sarifResult struct { // 3.27
		RuleID    string          `json:"ruleId"`
		RuleIndex *int            `json:"ruleIndex,omitempty"`
		Level     string          `json:"level"`
		Message   sarifText       `json:"message"`
		Locations []sarifLocation `json:"locations"`
		Related   []sarifLocation `json:"relatedLocations,omitempty"`
	}
	sarifLocation struct { // 3.28
		Physical sarifPhysical `json:"physicalLocation"`
	}
	sarifPhysical struct { // 3.29
		Artifact sarifArtifact `json:"artifactLocation"`
		Region   *sarifRegion  `json:"region,omitempty"`
	}
	sarifArtifact struct { // 3.4
		URI string `json:"uri"`
	}
	sarifRegion struct { // 3.30
		StartLine   int `json:"startLine"`
		StartColumn int `json:"startColumn,omitempty"`
	}
)

// sarif writes findings of the manual in folder as a SARIF log.
func sarif(folder string, findings []finding.Finding, all []finding.Rule) sarifLog {
	driver := sarifDriver{Name: "tankside", Rules: make([]sarifRule, len(all))}
	index := make(map[finding.RuleName]*int, len(all))
	for i, r := range all {
		driver.Rules[i] = sarifRule{
			ID: string(r.Name), Short: sarifText{"Finds " + r.Finds + "."}, Full: sarifText{r.Why}, Help: sarifText{r.Why + " Source: " + r.Source},
			Default: sarifDefault{sarifLevel(r.Severity)},
		}
		index[r.Name] = &i
	}
	results := make([]sarifResult, len(findings))
	for i, f := range findings {
		results[i] = sarifResult{
			RuleID: string(f.Rule), RuleIndex: index[f.Rule], Level: sarifLevelOf(f),
			Message:   sarifText{strings.TrimSpace(f.Message + " " + f.Why + " " + f.Remedy)},
			Locations: []sarifLocation{sarifAt(folder, f.Place)},
		}
		for _, also := range f.Also {
			results[i].Related = append(results[i].Related, sarifAt(folder, also))
		}
	}
	return sarifLog{
		Version: "2.1.0",
		Schema:  "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
		Runs:    []sarifRun{{Tool: sarifTool{driver}, ColumnKind: "unicodeCodePoints", Results: results}},
	}
}

// sarifLevel: what stops publication is an error (3.27.10).
func sarifLevel(s finding.Severity) string {
	if s.Stops() {
		return "error"
	}
	return "note"
}

// sarifLevelOf is the level of a finding: one about a draft that nobody gets stops nothing.
func sarifLevelOf(f finding.Finding) string {
	if f.Draft {
		return "note"
	}
	return sarifLevel(f.Severity)
}

func sarifAt(folder string, p finding.Place) sarifLocation {
	at := sarifPhysical{Artifact: sarifArtifact{fileURI(folder, p.File)}}
	if p.Line > 0 {
		at.Region = &sarifRegion{StartLine: p.Line, StartColumn: p.Column}
	}
	return sarifLocation{at}
}

// fileURI is a file of the manual as a URI: relative to the current folder where it lies below it, as build servers want it,
// otherwise absolute (3.4.3; RFC 8089).
func fileURI(folder, file string) string {
	if filepath.IsLocal(folder) {
		return (&url.URL{Path: path.Join(filepath.ToSlash(folder), file)}).EscapedPath()
	}
	absolute, err := filepath.Abs(folder)
	if err != nil { // there is no current folder any more
		absolute = folder
	}
	at := path.Join(filepath.ToSlash(absolute), file)
	if !strings.HasPrefix(at, "/") { // C:/…
		at = "/" + at
	}
	return (&url.URL{Scheme: "file", Path: at}).String()
}
