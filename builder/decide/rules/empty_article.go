package rules

import (
	"bytes"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// emptyArticle finds articles that have a header and nothing to read.
// It prevents that a search leads to a page that says nothing.
var emptyArticle = finding.Rule{
	Name: "empty-article", Severity: finding.Result,
	Finds:  "an article without text",
	Why:    "The search leads here, and there is nothing to read.",
	Source: "our own limit",
}

func findEmptyArticles(_ *proof, a *manual.Article) []finding.Finding {
	if len(bytes.TrimSpace(a.Body)) > 0 {
		return nil
	}
	return []finding.Finding{emptyArticle.At(at(a, "title"), "The article has a header and no text.", "Write the text below the header, or take the file away until it is written.")}
}
