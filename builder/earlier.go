package builder

import (
	"errors"
	"fmt"
	"os"

	"tankside/builder/content"
	"tankside/builder/decide/rules"
	"tankside/builder/edition"
	"tankside/builder/ledger"
	"tankside/builder/manual"
	"tankside/builder/page"
)

// listIn gives the list of the edition in a folder, or nil where there is no edition.
func listIn(folder string) (*edition.List, error) {
	at, err := edition.Place(folder)
	if err != nil {
		return nil, err
	}
	l, err := edition.ReadList(os.DirFS(at))
	if errors.Is(err, edition.ErrNotEdition) {
		return nil, nil
	}
	return l, err
}

// told is what an edition says of an article in its list.
func told(a *manual.Article) edition.Article {
	s := rules.StandingOf(a)
	return edition.Article{Path: page.Path(a), Title: a.Head.Title, Revision: s.Revision, Approved: s.Approved, Content: s.Content}
}

// toldBy is what the edition that would be made of a manual tells of its articles.
func toldBy(m *manual.Manual, c *content.Content) *edition.List {
	l := &edition.List{Shop: m.Shop.Name, Mark: edition.Mark{Code: ledger.Code(c.Digest())}}
	for _, a := range m.Articles {
		l.Articles = append(l.Articles, told(a))
	}
	return l
}

// earlier makes of an edition's list what the manual is compared with.
func earlier(l *edition.List) rules.Earlier {
	known := make(map[string]edition.Article, len(l.Articles)+len(l.Translations))
	for _, list := range [][]edition.Article{l.Articles, l.Translations} {
		for _, a := range list {
			known[a.Path] = a
		}
	}
	return rules.Earlier{
		Name: nameOf(l.Mark),
		Of: func(a *manual.Article) (rules.Standing, bool) {
			before, is := known[page.Path(a)]
			for _, b := range a.Before {
				if !is {
					before, is = known[page.Path(&manual.Article{Path: b.Path})]
				}
			}
			return rules.Standing{Revision: before.Revision, Approved: before.Approved, Content: before.Content}, is
		},
	}
}

// nameOf names an edition within a sentence.
func nameOf(m edition.Mark) string {
	if m.Edition > 0 {
		return fmt.Sprintf("edition %d of %s", m.Edition, m.Date)
	}
	return "the edition with the code " + m.Code
}
