// Package finding holds what the proof-reader reports.
//
// A finding reads like a good colleague's note: what is wrong, where (both places when two disagree),
// why it matters and what to change. Its severity is its consequence, and the first three stop publication.
package finding

import (
	"cmp"
	"slices"
	"strconv"
)

// Severity is the consequence of leaving a finding as it is.
type Severity string

const (
	People Severity = "people" // somebody could be hurt
	Parts  Severity = "parts"  // parts or machine could be damaged
	Result Severity = "result" // the reader would get a wrong or no answer
	Untidy Severity = "untidy" // nothing breaks, but it should be put right
)

// Stops tells whether a finding of this severity keeps the manual from being published.
func (s Severity) Stops() bool { return s != Untidy }

// Severities lists them, gravest first.
var Severities = []Severity{People, Parts, Result, Untidy}

// Heading is what findings of this severity stand under.
func (s Severity) Heading() string {
	switch s {
	case People:
		return "Somebody could be hurt"
	case Parts:
		return "Parts or the machine could be damaged"
	case Result:
		return "Readers would get a wrong answer, or none"
	}
	return "Untidy, though nothing breaks"
}

// rank orders severities, gravest first.
func (s Severity) rank() int { return slices.Index(Severities, s) }

// Place is a position in a file of the manual. Line and Column count from 1, Column in runes;
// zero means the file as a whole.
type Place struct {
	File   string `json:"file"`
	Line   int    `json:"line"`
	Column int    `json:"column"`
}

// String gives the place in the form that terminals and editors turn into a link: file:line:column.
func (p Place) String() string {
	if p.Line == 0 {
		return p.File
	}
	if p.Column == 0 {
		return p.File + ":" + strconv.Itoa(p.Line)
	}
	return p.File + ":" + strconv.Itoa(p.Line) + ":" + strconv.Itoa(p.Column)
}

// Finding is one thing that the proof-reader has to say.
type Finding struct {
	Rule     RuleName `json:"rule"`
	Severity Severity `json:"severity"`
	Place
	Message string  `json:"message"`
	Why     string  `json:"why"`
	Remedy  string  `json:"remedy"`
	Also    []Place `json:"also,omitempty"`  // the other places that disagree with this one
	Draft   bool    `json:"draft,omitempty"` // it is about a draft that nobody gets, so that it keeps nothing from being published
}

// Stops tells whether the finding keeps the manual from being published.
func (f Finding) Stops() bool { return f.Severity.Stops() && !f.Draft }

// Sort orders findings by place, then severity, then rule, so that two runs print the same list.
func Sort(list []Finding) {
	slices.SortStableFunc(list, func(a, b Finding) int {
		return cmp.Or(
			cmp.Compare(a.File, b.File),
			cmp.Compare(a.Line, b.Line),
			cmp.Compare(a.Column, b.Column),
			cmp.Compare(a.Severity.rank(), b.Severity.rank()),
			cmp.Compare(a.Rule, b.Rule),
			cmp.Compare(a.Message, b.Message),
		)
	})
}

// Most is how many findings of a rule are told of a file. What is wrong so often is one mistake, and a list of all takes more room than the file.
const Most = 500

// Bounded leaves out of a sorted list what goes beyond Most, and says in the last of a rule and file how many there are.
func Bounded(list []Finding) []Finding {
	if len(list) <= Most {
		return list
	}
	type of struct {
		rule RuleName
		file string
	}
	last, more := map[of]int{}, map[of]int{} // where the last that is told stands; how many are not
	count := map[of]int{}
	told := list[:0:0]
	for _, f := range list {
		key := of{f.Rule, f.File}
		if count[key]++; count[key] > Most {
			more[key]++
			continue
		}
		last[key] = len(told)
		told = append(told, f)
	}
	for key, n := range more {
		told[last[key]].Message += " There are " + strconv.Itoa(n) + " more findings of this rule in this file, which are not told."
	}
	return told
}

// Stopping counts the findings that keep the manual from being published.
func Stopping(list []Finding) int {
	n := 0
	for _, f := range list {
		if f.Stops() {
			n++
		}
	}
	return n
}
