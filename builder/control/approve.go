package control

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"tankside/builder/manual"
)

// Approve enters an approval into articles or translations: everything that is approved has one day, name and role; the digest of each is its own.
// It refuses what nobody can approve: a draft, what cannot be read, what has changed under the revision that was approved before, a translation of
// an older revision, a day to come. stops tells whether findings about an article stop publication.
func Approve(m *manual.Manual, list []*manual.Article, by manual.Approval, today time.Time, stops func(*manual.Article) bool) ([]Change, error) {
	if err := usable(m, by, today); err != nil {
		return nil, err
	}
	var changes []Change
	var refused []error
	for _, a := range list {
		if problem, remedy := obstacle(a, stops); problem != "" {
			refused = append(refused, &RefusedError{a.Path, problem, remedy})
			continue
		}
		p := by
		p.Digest = a.DigestFor(p)
		changes = append(changes, Change{Article: a, Says: fmt.Sprintf("revision %s approved on %s by %s, %s", a.Head.Revision, p.Day.Format(time.DateOnly), p.Name, p.Role),
			set: []entry{{"approved", p.String(), revisionKey(a)}}})
	}
	switch {
	case len(refused) == 0:
		return changes, nil
	case len(list) == 1:
		return nil, refused[0]
	}
	return nil, fmt.Errorf("none of these %d articles was approved, since of %d that is not possible:\n%w", len(list), len(refused), errors.Join(refused...))
}

// usable tells what is wrong with an approval itself.
func usable(m *manual.Manual, by manual.Approval, today time.Time) error {
	year, month, day := today.Date()
	switch {
	case !manual.UsableName(by.Name):
		return fmt.Errorf("“%s” cannot stand in a header as a name: write a name or initials, of letters, digits, blanks, full stops, hyphens and apostrophes", by.Name)
	case len(m.Shop.Roles) == 0:
		return fmt.Errorf("the shop file has no roles, so nobody can approve in one; add for example roles: [operator, trainer, process engineer]")
	case !slices.Contains(m.Shop.Roles, by.Role):
		return fmt.Errorf("the shop file has no role “%s”; it has %s", by.Role, strings.Join(m.Shop.Roles, ", "))
	case strings.Contains(by.Role, ","):
		return fmt.Errorf("the role “%s” has a comma in it, by which the parts of an approval are parted; take it out of the shop file's roles", by.Role)
	case by.Day.After(time.Date(year, month, day, 0, 0, 0, 0, time.UTC)):
		return fmt.Errorf("%s is still to come; nothing is approved before it has been read", by.Day.Format(time.DateOnly))
	}
	return nil
}

// obstacle says why an article cannot be approved, and what to do; "" where it can.
func obstacle(a *manual.Article, stops func(*manual.Article) bool) (problem, remedy string) {
	switch {
	case a.Partial || a.Content == "":
		return "it cannot be read as a whole", "See what tankside proof says of it."
	case a.Head.Draft:
		return "it is a draft", "Take “draft” out of its header when it is finished."
	case a.Language != "" && a.Original == nil:
		return "it translates no article", "See what tankside proof says of it."
	case a.Language != "" && a.Head.Revision != a.Original.Head.Revision:
		return fmt.Sprintf("it translates revision %s, and the original has revision %s", a.Head.Revision, a.Original.Head.Revision), "Compare the two, then: tankside revise " + a.Path
	case a.Language == "" && a.ApprovalState() == manual.ApprovalBroken:
		return fmt.Sprintf("it is not what was approved as revision %s", a.Head.Revision), "A new text has a new revision: tankside revise " + a.Path
	case stops(a):
		return "findings about it stop publication", "Put right what tankside proof says of it."
	}
	return "", ""
}

// revisionKey is the key under which an article says its revision, or a translation that of the original.
func revisionKey(a *manual.Article) string {
	if a.Language != "" {
		return "translates"
	}
	return "revision"
}
