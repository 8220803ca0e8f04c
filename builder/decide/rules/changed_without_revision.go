package rules

import (
	"fmt"
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// changedWithoutRevision finds articles whose text or facts are not those of an earlier edition, under the same revision.
// It prevents that two texts go by one revision. That a text is the one that was approved says changedSinceApproval; this one looks at what was
// approved anew under the revision that readers have already.
var changedWithoutRevision = finding.Rule{
	Name: "changed-without-revision", Severity: finding.Result,
	Finds:  "text or facts that have changed since the edition before, under the same revision",
	Why:    "Two people with the same revision in hand would read different things.",
	Source: "the list of the edition before; control of documented information, ISO 9001:2015, 7.5.3.2, from memory, to be confirmed by the process engineer",
}

// Standing is what an edition has told its readers of an article.
type Standing struct {
	Revision string // of a translation, the one that it translates
	Approved string // as the header has it
	Content  string // digest of text and facts
}

// StandingOf is what the next edition will tell of an article.
func StandingOf(a *manual.Article) Standing {
	return Standing{a.Head.Revision, a.Head.Approval.String(), a.Content}
}

// Earlier is an edition that the manual is compared with.
type Earlier struct {
	Name string                                             // such as "edition 3 of 2026-11-01"
	Of   func(*manual.Article) (before Standing, told bool) // what it has told of an article
}

// ProofAgainst gives what can only be found beside an earlier edition. Of an article about whose text it has told nothing, nothing is found.
func ProofAgainst(m *manual.Manual, e Earlier) []finding.Finding {
	if m.Undecided {
		return nil
	}
	var list []finding.Finding
	for _, a := range m.Articles { // a translation has no revision of its own
		list = append(list, e.changed(a)...)
	}
	list = accepted(m, list)
	finding.Sort(list)
	return list
}

func (e Earlier) changed(a *manual.Article) []finding.Finding {
	before, told := e.Of(a)
	now := StandingOf(a)
	if !told || before.Content == "" || now.Content == "" || before.Content == now.Content || said(a, before.Content) || before.Revision != now.Revision {
		return nil
	}
	return []finding.Finding{changedWithoutRevision.At(at(a, "revision"),
		fmt.Sprintf("The text or the facts are not those of %s, which has revision %s as well.", e.Name, now.Revision),
		fmt.Sprintf("Raise the revision%s with tankside revise %s and have it approved anew; or take the change back.", after(now.Revision), a.Path), at(a, "approved"))}
}

// said tells whether an article said something before anything was renamed: other names alone are no change of what it says.
func said(a *manual.Article, content string) bool {
	return slices.ContainsFunc(a.Before, func(b manual.Before) bool { return b.Content == content })
}

// after proposes the revision after one, as half a sentence.
func after(revision string) string {
	if next, ok := manual.NextRevision(revision); ok {
		return " to " + next
	}
	return ""
}
