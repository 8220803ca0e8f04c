package rules

import (
	"fmt"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// datesOutOfOrder finds dates of approval and of review that cannot be: a review that is due before the approval.
// It prevents that an article counts as reviewed by a slip of the pen.
var datesOutOfOrder = finding.Rule{
	Name: "dates-out-of-order", Severity: finding.Result,
	Finds:  "a review that is due before the approval",
	Why:    "One of the two dates is wrong, so nobody can tell whether the article is in force.",
	Source: "the article's own dates",
}

func findDatesOutOfOrder(_ *proof, a *manual.Article) []finding.Finding {
	approved, due := a.Head.Approved, a.Head.ReviewBy
	if approved.IsZero() || due.IsZero() || due.After(approved) {
		return nil
	}
	return []finding.Finding{datesOutOfOrder.At(at(a, "review-by"),
		fmt.Sprintf("The review is due on %s, but the article was approved on %s.", due.Format("2 January 2006"), approved.Format("2 January 2006")),
		"Correct the date that is wrong.", at(a, "approved"))}
}
