package record

import (
	"fmt"
	"slices"

	"tankside/builder/finding"
)

// corrected parts the rows that hold from those that others replace, by the rule of [Standing], and tells of corrections that are not clear.
func (p *parser) corrected(rows []Row) []Row {
	if !slices.ContainsFunc(rows, func(r Row) bool { return r.Replaces != "" }) {
		return rows
	}
	p.unclearCorrections(rows)
	holds := standing(len(rows), func(i int) (id, replaces string) { return rows[i].ID, rows[i].Replaces })
	kept := rows[:0:0]
	for i := range rows {
		r := &rows[i]
		if !holds[i] || r.Replaces != "" && r.bare() {
			p.record.Replaced = append(p.record.Replaced, *r)
			continue
		}
		kept = append(kept, *r)
	}
	return kept
}

// bare tells whether a row has neither a number nor work: then it takes back the one that it replaces.
func (r *Row) bare() bool {
	return r.Work == "" && !slices.ContainsFunc(r.Values, func(v Value) bool { return v.Set })
}

// unclearCorrections tells of rows that replace themselves, none, or one that another row replaces as well.
func (p *parser) unclearCorrections(rows []Row) {
	lines := map[string]int{}
	for i := range rows {
		if rows[i].ID != "" {
			lines[rows[i].ID] = rows[i].Line
		}
	}
	by := map[string]*Row{}
	for i := range rows {
		r := &rows[i]
		if r.Replaces == "" {
			continue
		}
		line, there := lines[r.Replaces]
		first, twice := by[r.Replaces]
		if !twice {
			by[r.Replaces] = r
		}
		switch {
		case r.Replaces == r.ID:
			p.tellAt(ruleCorrection, r.At, fmt.Sprintf("The row with the id “%s” replaces itself.", clip(r.ID)), "Write the id of the row that it corrects under “replaces”, and give it an id of its own.")
		case !there:
			p.tellAt(ruleCorrection, r.At, fmt.Sprintf("This row replaces “%s”, and no row here has that id. It is charted by itself.", clip(r.Replaces)),
				"Put the row that it corrects into this record too, or empty the cell.")
		case twice:
			p.tellAt(ruleCorrection, r.At, fmt.Sprintf("This row replaces that of line %d, and so does the one in line %d. One of them is charted.", line, first.Line),
				"Ask who made them. Let the one that holds replace the other: write the other's id under “replaces”.", finding.Place{File: p.path, Line: first.Line, Column: 1})
		}
	}
}
