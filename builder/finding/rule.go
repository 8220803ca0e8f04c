package finding

// RuleName names a rule: in findings, in what an author accepts, in concessions and in the list of rules. Nothing else is compared with it by
// mistake, and a rule is asked for by its variable (enzymeKilled.Name), not by its name written out.
type RuleName string

// Rule is what one check of the proof-reader stands for: its name, how grave its findings are,
// what it finds, which harm it prevents and where its limit comes from.
type Rule struct {
	Name     RuleName `json:"name"`
	Severity Severity `json:"severity"`
	Finds    string   `json:"finds"`  // one line, without a full stop
	Why      string   `json:"why"`    // the harm it prevents, one or two sentences; a finding repeats it
	Source   string   `json:"source"` // where the limit comes from
}

// At makes a finding of the rule at a place, with the rule's own reason for mattering.
func (r Rule) At(place Place, message, remedy string, also ...Place) Finding {
	return Finding{
		Rule: r.Name, Severity: r.Severity, Place: place,
		Message: message, Why: r.Why, Remedy: remedy, Also: also,
	}
}
