package rules

import (
	"fmt"
	"time"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// datesOutOfOrder finds dates of approval and of review that cannot be: a review that is due before the approval, an approval on a day to come.
// It prevents that an article counts as reviewed by a slip of the pen, and that one is in force before anybody has approved it.
var datesOutOfOrder = finding.Rule{
	Name: "dates-out-of-order", Severity: finding.Result,
	Finds:  "a review that is due before the approval, or an approval on a day to come",
	Why:    "A date is wrong, so nobody can tell whether the article is in force.",
	Source: "the article's own dates, and today's",
}

func findDatesOutOfOrder(p *proof, a *manual.Article) []finding.Finding {
	approved, due := a.Head.Approval.Day, a.Head.ReviewBy
	if approved.IsZero() || due.IsZero() || due.After(approved) {
		return findFutureApprovals(p, a)
	}
	return []finding.Finding{datesOutOfOrder.At(at(a, "review-by"),
		fmt.Sprintf("The review is due on %s, but the article was approved on %s.", due.Format("2 January 2006"), approved.Format("2 January 2006")),
		"Correct the date that is wrong.", at(a, "approved"))}
}

// findFutureApprovals compares approvals with today's date where the proof is read. The zero time is no date to compare with.
func findFutureApprovals(p *proof, a *manual.Article) []finding.Finding {
	year, month, day := p.today.Date()
	if p.today.IsZero() || !a.Head.Approval.Day.After(time.Date(year, month, day, 0, 0, 0, 0, time.UTC)) {
		return nil
	}
	return []finding.Finding{datesOutOfOrder.At(at(a, "approved"),
		fmt.Sprintf("The approval is dated %s, and today is %s.", a.Head.Approval.Day.Format("2 January 2006"), p.today.Format("2 January 2006")),
		"Correct the date, or have the article approved first. Where today's date is wrong, set the clock of this computer.")}
}
