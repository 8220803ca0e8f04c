package manual

import (
	"slices"

	"tankside/builder/finding"
)

// fault is something that the reader has found: a rule and a place.
type fault struct {
	rule finding.RuleName
	finding.Place
}

// noteFaults keeps where the reader has found something that takes a value away, so that nobody concludes anything from its absence.
func (m *Manual) noteFaults(found []finding.Finding) {
	for _, f := range found {
		if f.Severity == finding.Untidy {
			continue
		}
		if m.faults == nil {
			m.faults = make(map[string][]fault)
		}
		m.faults[f.File] = append(m.faults[f.File], fault{f.Rule, f.Place})
	}
}

// Faulty tells whether the reader has found something in a file.
func (m *Manual) Faulty(file string) bool { return len(m.faults[file]) > 0 }

// Doubted tells whether a place belongs to a key of a header, or to a line of the shop file, in which the reader has found something. What
// follows from such a value has been said with it, and is not to be said again. Of a file of which nothing could be read every place is in doubt.
func (m *Manual) Doubted(p finding.Place) bool {
	faults := m.faults[p.File]
	if len(faults) == 0 {
		return false
	}
	if p.File == ShopFile && m.Shop.Partial {
		return true
	}
	from, to := p.Line, p.Line+1
	if a := m.byPath[p.File]; a != nil {
		if p.Line >= a.Start || a.Partial {
			return a.Partial
		}
		from, to = a.block(p.Line)
	}
	return slices.ContainsFunc(faults, func(f fault) bool { return f.Line >= from && f.Line < to })
}

// block gives the first line of the header key to which a line belongs, and the line of the next.
func (a *Article) block(line int) (from, to int) {
	to = a.Start
	for _, at := range a.Head.At {
		if at.Line <= line {
			from = max(from, at.Line)
		} else {
			to = min(to, at.Line)
		}
	}
	if from == 0 {
		from = line
	}
	return from, to
}

// NamesLost tells whether a header of the manual has lost names of articles: one that leads nowhere, a required list that is missing, a key that is not known.
// Then nobody knows which articles are not named at all.
func (m *Manual) NamesLost() bool {
	for _, a := range m.articles {
		if a.Partial {
			return true
		}
	}
	for file, faults := range m.faults {
		if m.byPath[file] != nil && slices.ContainsFunc(faults, func(f fault) bool {
			return slices.Contains([]finding.RuleName{ruleUnknownName.Name, ruleMissingKey.Name, ruleUnknownKey.Name, ruleWrongValue.Name, ruleNoHeader.Name, ruleYAML.Name}, f.rule)
		}) {
			return true
		}
	}
	return false
}
