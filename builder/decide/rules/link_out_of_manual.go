package rules

import (
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// linkOutOfManual finds links to files outside the manual, and absolute paths.
// It prevents links that work at the writer's desk and nowhere else, and that anything outside the manual is drawn into an edition.
var linkOutOfManual = finding.Rule{
	Name: "link-out-of-manual", Severity: finding.Result,
	Finds:  "a link to a file outside the manual, or an absolute path",
	Why:    "The edition holds the manual only: at the tank, on a stick or on a tablet the file is not there.",
	Source: "our own limit: an edition is one folder that works anywhere",
}

func findLinksOut(p *proof, a *manual.Article) []finding.Finding {
	return badLinks(p, a, linkOutOfManual, manual.Leaves)
}
