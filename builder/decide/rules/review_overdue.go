package rules

import (
	"fmt"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// reviewOverdue finds articles whose review date has passed.
// It prevents that people work by what nobody has looked at since a cleaner, a tank or a law has changed.
// The date is the article's own; that there has to be one is ISO 9001:2015, 7.5.3 (from memory).
var reviewOverdue = finding.Rule{
	Name: "review-overdue", Severity: finding.Result,
	Finds:  "an article whose review date has passed",
	Why:    "Cleaners, tanks and laws change; since this date nobody has looked whether the article still holds.",
	Source: "the article's own date; ISO 9001:2015, 7.5.3, from memory",
}

func findOverdueReviews(p *proof, a *manual.Article) []finding.Finding {
	due := a.Head.ReviewBy
	if due.IsZero() || !p.today.After(due.AddDate(0, 0, 1)) {
		return nil
	}
	return []finding.Finding{reviewOverdue.At(at(a, "review-by"), fmt.Sprintf("The article was to be reviewed by %s.", due.Format("2 January 2006")),
		"Review it, raise its revision, and set approved and review-by anew.")}
}
