package rules

import (
	"fmt"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// reviewOverdue finds articles whose review date has passed.
// It prevents that people work by what nobody has looked at since a cleaner, a tank or a law has changed: each page and sheet of the article says so.
// It stops nothing, for what stands in the other articles may be a correction that somebody waits for.
// The date is the article's own; that there has to be one is ISO 9001:2015, 7.5.3 (from memory).
var reviewOverdue = finding.Rule{
	Name: "review-overdue", Severity: finding.Untidy,
	Finds:  "an article whose review date has passed",
	Why:    "Cleaners, tanks and laws change; since this date nobody has looked whether the article still holds. Its pages and sheets say so.",
	Source: "the article's own date; ISO 9001:2015, 7.5.3, from memory, to be confirmed by the process engineer",
}

func findOverdueReviews(p *proof, a *manual.Article) []finding.Finding {
	due := a.Head.ReviewBy
	if !a.Overdue(p.today) {
		return nil
	}
	return []finding.Finding{reviewOverdue.At(at(a, "review-by"), fmt.Sprintf("The article was to be reviewed by %s.", due.Format("2 January 2006")),
		"Review it and set review-by anew. Where it has to change: tankside revise "+a.Path+", and have it approved.")}
}
