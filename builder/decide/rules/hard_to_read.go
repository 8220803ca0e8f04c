package rules

import (
	"bytes"
	"fmt"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/prose"
)

// hardToRead finds English articles that are harder to read than the shop allows.
// It prevents that somebody with wet gloves and little schooling, or with another mother tongue, gives up half-way through a sentence.
// The measure is the grade level of Kincaid and others; the limit is the shop's own. A text of less than a hundred words is not graded.
var hardToRead = finding.Rule{
	Name: "hard-to-read", Severity: finding.Untidy,
	Finds:  "an English article above the reading grade that the shop file sets",
	Why:    "Whoever reads it between two loads, or in a second language, loses the thread and guesses.",
	Source: "Kincaid, Fishburne, Rogers and Chissom, Research Branch Report 8-75, Naval Technical Training Command (1975); the shop file",
}

func findHardReading(p *proof, a *manual.Article) []finding.Finding {
	if p.Shop.ReadingGrade <= 0 || !p.english() {
		return nil
	}
	m := prose.Of(a.Blocks, p.syllables)
	grade := m.Grade()
	if m.Words < prose.Enough || grade <= p.Shop.ReadingGrade {
		return nil
	}
	line := a.Start + bytes.Count(a.Body[:m.Longest.Offset], []byte("\n"))
	return []finding.Finding{hardToRead.At(finding.Place{File: a.Path, Line: line, Column: 1},
		fmt.Sprintf("The article reads at grade %.1f; the shop has set %g. Here is its longest sentence, of %d words: “%s”", grade, p.Shop.ReadingGrade, m.Longest.Words, m.Longest.Opening(60)),
		"Make two sentences of long ones, and take the shorter of two words where both say the same.")}
}
