package rules

import (
	"fmt"
	"time"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// changedSinceApproval finds articles that are not what their approval was given to: the digest in the approval is of another text, revision, day,
// name or role.
// It prevents that a strength or a temperature that nobody has agreed to goes to the tank under somebody's name.
// The limit is the digest itself. That the approval belongs to what was reviewed is ISO 9001:2015, 7.5.2 and 7.5.3 (from memory).
var changedSinceApproval = finding.Rule{
	Name: "changed-since-approval", Severity: finding.Result,
	Finds:  "a text, facts, revision or signing line that is not what was approved",
	Why:    "What is printed as approved was never seen by whoever is named, and a number that slipped stands under a good name.",
	Source: "the digest in the approval; control of documented information, ISO 9001:2015, 7.5.2 and 7.5.3, from memory, to be confirmed by the process engineer",
}

func findChangedSinceApproval(_ *proof, a *manual.Article) []finding.Finding {
	if a.ApprovalState() != manual.ApprovalBroken {
		return nil
	}
	p := a.Head.Approval
	return []finding.Finding{changedSinceApproval.At(at(a, "approved"),
		fmt.Sprintf("This is not what %s (%s) approved on %s: the text, a key of the header, the revision or the approval itself has changed since.", p.Name, p.Role, p.Day.Format("2 January 2006")),
		"Raise the revision and have it approved anew: tankside revise "+a.Path+", then tankside approve. Or take the change back.", at(a, revisionKey(a)))}
}

// revisionKey is the key under which an article says its revision, or a translation that of the original.
func revisionKey(a *manual.Article) string {
	if a.Language != "" {
		return "translates"
	}
	return "revision"
}

// notApproved finds articles that nobody has approved, or whose approval binds nobody or nothing.
// It prevents that readers take for approved what is not: the pages say so as well.
var notApproved = finding.Rule{
	Name: "not-approved", Severity: finding.Untidy,
	Finds:  "an article that nobody has approved, or whose approval does not say by whom, or of which text",
	Why:    "Each of its pages and sheets says that it is not approved; nobody answers for what it says.",
	Source: "control of documented information, ISO 9001:2015, 7.5.2, from memory, to be confirmed by the process engineer",
}

func findNotApproved(p *proof, a *manual.Article) []finding.Finding {
	remedy := "Have it read and approved: tankside approve " + a.Path + " --by NAME --role ROLE"
	approval := a.Head.Approval
	switch a.ApprovalState() {
	case manual.NotApproved:
		if _, given := a.Head.At["approved"]; !given || a.Head.Draft || p.Doubted(at(a, "approved")) {
			return nil // that it is missing or cannot be read has been said; nobody approves what is not finished
		}
		return []finding.Finding{notApproved.At(at(a, "approved"), "Nobody has approved this.", remedy)}
	case manual.ApprovalUnbound:
		lacks := "does not say which text it is of"
		if approval.Name == "" {
			lacks = "does not say by whom it is"
			if approval.Digest == "" {
				lacks += ", nor of which text"
			}
		}
		return []finding.Finding{notApproved.At(at(a, "approved"), fmt.Sprintf("The approval of %s %s, so it counts as none.", approval.Day.Format(time.DateOnly), lacks), remedy)}
	}
	return nil
}
