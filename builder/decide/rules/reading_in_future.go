package rules

import (
	"fmt"
	"time"

	"tankside/builder/finding"
)

// readingInFuture finds rows of records that are later than the day on which the manual is proof-read.
// It prevents that a mistyped year or month puts a reading where nobody looks for it; charts leave such rows out until their day.
// The day is that of the row's own clock and of the proof-reader's.
var readingInFuture = finding.Rule{
	Name: "reading-in-future", Severity: finding.Untidy,
	Finds:  "a row of a record that is of a day to come",
	Why:    "Nobody has read it yet: a date was mistyped. Charts leave the row out.",
	Source: "the calendar",
}

// mostInFuture is how many are told one by one for each record.
const mostInFuture = 20

func findReadingsInFuture(p *proof) []finding.Finding {
	var list []finding.Finding
	today := p.today.Format(time.DateOnly)
	for _, r := range p.Records {
		n := 0
		for i := range r.Rows {
			row := &r.Rows[i]
			day := row.When.Format(time.DateOnly)
			if day <= today {
				continue
			}
			if n++; n <= mostInFuture {
				list = append(list, readingInFuture.At(row.At, fmt.Sprintf("This row is of %s, and today is %s. It is left out of the charts.", day, today), "Put the day right."))
			}
		}
		if n > mostInFuture {
			list = append(list, readingInFuture.At(finding.Place{File: r.Path}, fmt.Sprintf("There are %d more rows of days to come.", n-mostInFuture), "Put the first ones right; the others may have the same cause."))
		}
	}
	return list
}
