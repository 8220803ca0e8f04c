package rules

import (
	"fmt"
	"strconv"
	"time"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// changedWithoutRevision finds articles whose text or facts are not those of an earlier edition, under the same revision.
// It prevents that what nobody has approved is read as approved, and that two texts go by one revision.
var changedWithoutRevision = finding.Rule{
	Name: "changed-without-revision", Severity: finding.Result,
	Finds:  "text or facts that have changed since the edition before, under the same revision",
	Why:    "The approval that is printed was given to another text, and two people with the same revision in hand would read different things.",
	Source: "the list of the edition before; control of documented information, ISO 9001:2015, 7.5.3.2, from memory",
}

// Standing is what an edition has told its readers of an article.
type Standing struct {
	Revision string // of a translation, the one that it translates
	Approved string // date and role
	Content  string // digest of text and facts
}

// StandingOf is what the next edition will tell of an article.
func StandingOf(a *manual.Article) Standing {
	return Standing{a.Head.Revision, a.Head.Approved.Format(time.DateOnly) + ", " + a.Head.ApprovedBy, a.Content}
}

// Earlier is an edition that the manual is compared with.
type Earlier struct {
	Name string                                             // such as "edition 3 of 2026-11-01"
	Of   func(*manual.Article) (before Standing, told bool) // what it has told of an article
}

// ProofAgainst gives what can only be found beside an earlier edition. Of an article about whose text it has told nothing, nothing is found.
func ProofAgainst(m *manual.Manual, e Earlier, today time.Time) []finding.Finding {
	if m.Undecided {
		return nil
	}
	var list []finding.Finding
	for _, a := range m.Articles {
		list = append(list, e.changed(a, today)...)
	}
	for _, t := range m.Translations {
		list = append(list, e.changed(t, today)...)
	}
	list = accepted(m, list)
	finding.Sort(list)
	return list
}

func (e Earlier) changed(a *manual.Article, today time.Time) []finding.Finding {
	before, told := e.Of(a)
	now := StandingOf(a)
	if !told || before.Content == "" || now.Content == "" || before.Content == now.Content || before.Revision != now.Revision {
		return nil
	}
	if a.Language == "" {
		return []finding.Finding{changedWithoutRevision.At(at(a, "revision"),
			fmt.Sprintf("The text or the facts are not those of %s, which has revision %s as well.", e.Name, now.Revision),
			fmt.Sprintf("Raise the revision%s, have the article approved anew and set approved; or take the change back.", after(now.Revision)), at(a, "approved"))}
	}
	// A translation has no revision of its own. One that was approved today may have been approved before and after the change.
	if before.Approved != now.Approved || a.Head.Approved.Format(time.DateOnly) == today.Format(time.DateOnly) {
		return nil
	}
	return []finding.Finding{changedWithoutRevision.At(at(a, "approved"),
		fmt.Sprintf("The translation is not that of %s, which has the same approval for the same revision, %s.", e.Name, now.Revision),
		"Have the translation approved anew and set approved; or take the change back.", at(a, "translates"))}
}

// after proposes the revision after one that is a letter or a number, as half a sentence.
func after(revision string) string {
	if n, err := strconv.Atoi(revision); err == nil {
		return fmt.Sprintf(" to %d", n+1)
	}
	if len(revision) == 1 && (revision[0] >= 'A' && revision[0] < 'Z' || revision[0] >= 'a' && revision[0] < 'z') {
		return " to " + string(revision[0]+1)
	}
	return ""
}
