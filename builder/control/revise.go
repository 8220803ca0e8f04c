package control

import (
	"fmt"
	"slices"

	"tankside/builder/manual"
)

// Revise raises the revision of articles, to the next or to the one given, and takes their approval away: what has changed has to be approved anew.
//
// The translations of an article lose their approval with it and go on naming the revision that they translate, until somebody has compared the two:
// a translation that is named itself says that this is done, and names the original's revision.
func Revise(m *manual.Manual, list []*manual.Article, to string) ([]Change, error) {
	raised := make(map[*manual.Article]string, len(list))
	for _, a := range list {
		if a.Language != "" {
			continue
		}
		next, ok := manual.NextRevision(a.Head.Revision)
		switch {
		case to != "":
			next = to
		case !ok:
			return nil, &RefusedError{a.Path, fmt.Sprintf("what comes after revision “%s” nobody has told", a.Head.Revision), "Say it with --to, for example --to " + a.Head.Revision + "-2"}
		}
		if next == a.Head.Revision {
			return nil, &RefusedError{a.Path, fmt.Sprintf("it has revision %s already", next), "Give it one that it has not had."}
		}
		raised[a] = next
	}
	var changes []Change
	for _, a := range list {
		if a.Language != "" {
			c, err := compared(a, raised)
			if err != nil {
				return nil, err
			}
			changes = append(changes, c)
			continue
		}
		changes = append(changes, Change{Article: a, Says: fmt.Sprintf("revision %s, was %s; not approved yet", raised[a], a.Head.Revision),
			set: []entry{{"revision", raised[a], ""}, cleared(a)}})
		for _, t := range translationsOf(m, a) {
			if !slices.Contains(list, t) {
				changes = append(changes, Change{Article: t, Says: fmt.Sprintf("not approved yet; it translates revision %s: compare it with the new one, then revise it too", t.Head.Revision), set: []entry{cleared(t)}})
			}
		}
	}
	return changes, nil
}

// cleared is no approval.
func cleared(a *manual.Article) entry {
	return entry{"approved", manual.Approval{}.String(), revisionKey(a)}
}

// compared has a translation name the revision that the original has, or gets with it.
func compared(t *manual.Article, raised map[*manual.Article]string) (Change, error) {
	if t.Original == nil {
		return Change{}, &RefusedError{t.Path, "it translates no article", "See what tankside proof says of it."}
	}
	revision := t.Original.Head.Revision
	if next, is := raised[t.Original]; is {
		revision = next
	}
	return Change{Article: t, Says: fmt.Sprintf("translates revision %s, was %s; not approved yet", revision, t.Head.Revision),
		set: []entry{{"translates", revision, ""}, cleared(t)}}, nil
}

// translationsOf gives the translations of an article, drafts among them.
func translationsOf(m *manual.Manual, a *manual.Article) []*manual.Article {
	var list []*manual.Article
	for _, t := range m.Translations {
		if t.Original == a {
			list = append(list, t)
		}
	}
	for _, t := range m.Drafts {
		if t.Original == a {
			list = append(list, t)
		}
	}
	return list
}
