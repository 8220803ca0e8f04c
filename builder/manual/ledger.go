package manual

import (
	"fmt"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/ledger"
)

// readLedger reads the ledger of editions. It is no part of what an edition is made of, so that a fault in it leaves the rest of the manual to be
// proof-read.
func readLedger(d *decoder, data []byte) ledger.Ledger {
	l, faults := ledger.Parse(data)
	for _, f := range faults {
		at := finding.Place{File: d.file, Line: f.Line, Column: 1}
		if f.Conflict {
			d.report(ruleConflict, at, f.Problem, "Take the line with the mark out, and no other.")
			continue
		}
		d.report(ruleLedger, at, f.Problem, "Bring the line back as it was entered, from version control or from an older copy; a remark of your own begins with #.")
	}
	rivals := l.Rivals()
	for i, e := range rivals {
		if i == 0 {
			continue
		}
		d.report(ruleRivals, finding.Place{File: d.file, Line: e.Line, Column: 1},
			fmt.Sprintf("Edition %d is there twice: %s of %s and %s of %s.", e.Number, rivals[0].Code(), rivals[0].Date, e.Code(), e.Date),
			fmt.Sprintf("Enter what came of both as edition %d, with tankside publish --enter, and call in the copies of both.", l.Next()),
			finding.Place{File: d.file, Line: rivals[0].Line, Column: 1})
	}
	if missing := l.Missing(); len(missing) > 0 {
		const most = 8
		var numbers []string
		for _, n := range missing[:min(most, len(missing))] {
			numbers = append(numbers, fmt.Sprint(n))
		}
		if len(missing) > most {
			numbers = append(numbers, fmt.Sprintf("%d more", len(missing)-most))
		}
		d.report(ruleLost, finding.Place{File: d.file}, "The ledger has no entry of edition "+strings.Join(numbers, ", ")+".",
			"Bring the line back from version control or from an older copy.")
	}
	return l
}
