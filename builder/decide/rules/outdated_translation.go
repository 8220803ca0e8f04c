package rules

import (
	"fmt"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// outdatedTranslation finds translations of another revision than the original's present one.
// It prevents that readers of one language work by what has been corrected for the readers of the other.
// The limit is the original's own revision: what changed in it may be a word or a limit, which only somebody who reads both can tell.
var outdatedTranslation = finding.Rule{
	Name: "outdated-translation", Severity: finding.Result,
	Finds:  "a translation of another revision than the original has now",
	Why:    "The original has been changed since; readers of the translation work by what was corrected for the others.",
	Source: "the original's revision; control of documented information, ISO 9001:2015, 7.5.3, from memory, to be confirmed by the process engineer",
}

func findOutdatedTranslations(_ *proof, t *manual.Article) []finding.Finding {
	o := t.Original
	if o == nil || o.Partial || t.Head.Revision == "" || t.Head.Revision == o.Head.Revision {
		return nil
	}
	return []finding.Finding{outdatedTranslation.At(at(t, "translates"), fmt.Sprintf("This translates revision %s; the original has revision %s.", t.Head.Revision, o.Head.Revision),
		"Compare it with the original, put right what has changed, have it approved, and set translates: "+o.Head.Revision, at(o, "revision"))}
}
