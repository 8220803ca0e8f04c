package admit

import (
	"tankside/builder/finding"
)

// Place is where in the manual a reason stands.
type Place struct {
	Article string `json:"article"`
	Line    int    `json:"line"`
	Column  int    `json:"-"`
}

// Finding is the same for a finding.
func (p Place) Finding() finding.Place {
	return finding.Place{File: p.Article, Line: p.Line, Column: p.Column}
}

func place(p finding.Place) Place { return Place{p.File, p.Line, p.Column} }

// Reason is one reason for a verdict.
type Reason struct {
	Verdict Verdict `json:"verdict"`
	Text    string  `json:"text"` // a sentence, in English and the shop's units; an answer has it
	Place
	Also       *Place           `json:"also,omitempty"`        // the other place, where two disagree
	Rule       finding.RuleName `json:"rule,omitempty"`        // the proof-reader's rule that guards the same
	NotChecked bool             `json:"not-checked,omitempty"` // nothing is known, so nothing was compared
	Wash       int              `json:"wash,omitempty"`        // of a process sheet with several, from 1

	Says  Sentence `json:"-"` // the same for every language and both families of units
	Brief Sentence `json:"-"` // of a condition: in a few words, for a cell, a list or a card

	Guard  *finding.Rule `json:"-"` // the rule itself; nil where none guards it
	Remedy string        `json:"-"` // what to change in a process sheet
	Of     finding.Place `json:"-"` // where the value stands that is wrong; zero where none is
	Window bool          `json:"-"` // the chemistry's own window allows it, so that is at fault

	sort What // of the value
}

// against is a reason for a no, guarded by a rule.
func against(r *finding.Rule, says Sentence) Reason {
	return Reason{Verdict: No, Guard: r, Rule: ruleName(r), Says: says}
}

func ruleName(r *finding.Rule) finding.RuleName {
	if r == nil {
		return ""
	}
	return r.Name
}

// wants is a condition, in full and in a few words.
func wants(r *finding.Rule, says, brief Sentence) Reason {
	return Reason{Verdict: Conditions, Guard: r, Rule: ruleName(r), Says: says, Brief: brief}
}

// unknown is a condition where nothing is known.
func unknown(says Sentence) Reason {
	return Reason{Verdict: Conditions, NotChecked: true, Says: says, Brief: Say("not checked")}
}

func (r Reason) mend(remedy string) Reason    { r.Remedy = remedy; return r }
func (r Reason) by(p finding.Place) Reason    { r.Place = place(p); return r }
func (r Reason) value(p finding.Place) Reason { r.Of = p; return r }
func (r Reason) fault(ofWindow bool) Reason   { r.Window = ofWindow; return r }
func (r Reason) other(p finding.Place) Reason {
	if p.File != "" {
		also := place(p)
		r.Also = &also
	}
	return r
}

// same tells whether two reasons say the same of the same.
func (r *Reason) same(other *Reason) bool {
	return r.Place == other.Place && r.Wash == other.Wash && r.Says.same(other.Says)
}

// Reason is the exclusion as a reason.
func (f Found) Reason() Reason {
	r := against(&f.Rule, f.Says)
	if f.Verdict == Conditions {
		r = wants(&f.Rule, f.Says, f.Brief)
	}
	return r.mend(f.Remedy).by(f.At).other(f.Also)
}
