package page

import (
	"strings"

	"tankside/builder/manual"
)

// pageLanguage is a language in which the edition has pages.
type pageLanguage struct {
	tag  string
	name string // as it calls itself
}

// itsLanguage is a site's own language.
func (s *site) itsLanguage() pageLanguage {
	t := pageLanguage{s.language, s.words["English"]}
	switch {
	case s.language == english:
		t.name = s.words.say("English") // each language has its own name for itself here
	case t.name == "":
		t.name = s.language // a shop's own file of words need not have every word
	}
	return t
}

// inLanguage is the page that says in another language what a page of the manual's own says: soils/wax.es.html beside soils/wax.html.
func inLanguage(page, tag string) string {
	return strings.TrimSuffix(page, ".html") + "." + strings.ToLower(tag) + ".html"
}

// withOthers makes the sites of the languages of translations and tells every site of all of them, the manual's own first. From then on no
// site changes.
func (s *site) withOthers() error {
	all := []*site{s}
	for _, tag := range s.Manual.Languages() {
		other, err := s.speak(tag)
		if err != nil {
			return err
		}
		all = append(all, other)
	}
	for _, one := range all {
		one.all, one.mine = all, map[string]bool{}
		for _, j := range one.jobs() {
			one.mine[j.base] = true
		}
	}
	for _, one := range all {
		if err := one.openNames(); err != nil {
			return err
		}
	}
	return nil
}

// isOwn tells whether the site speaks the manual's own language.
func (s *site) isOwn() bool { return s.language == s.manualLanguage() }

// name is the name of a page in the site's language.
func (s *site) name(base string) string {
	if s.isOwn() {
		return base
	}
	return inLanguage(base, s.language)
}

// ownName is the name in the manual's own language of a page that may be named in the site's.
func (s *site) ownName(page string) string {
	if base, is := strings.CutSuffix(page, "."+strings.ToLower(s.language)+".html"); is && !s.isOwn() {
		return base + ".html"
	}
	return page
}

// to is where a link to a page of the manual's own language leads from the site's pages: to the same page in the site's language where there is
// one. Pages are named from the edition's root; an anchor stays.
func (s *site) to(page string) string {
	base, anchor, has := strings.Cut(page, "#")
	if !s.mine[base] {
		return page
	}
	if base = s.name(base); has {
		base += "#" + anchor
	}
	return base
}

// foreign is the language of the page to which a link leads, where it is not the site's, or "".
func (s *site) foreign(page string) string {
	if base, _, _ := strings.Cut(page, "#"); s.isOwn() || s.mine[base] {
		return ""
	}
	return s.manualLanguage()
}

// written is the language of what shop and originals say, where it is not the site's, or "".
func (s *site) written() string {
	if s.isOwn() {
		return ""
	}
	return s.manualLanguage()
}

// local gives an article in the site's language where there is one, otherwise the original.
func (s *site) local(a *manual.Article) *manual.Article {
	if !s.isOwn() {
		if t := s.Manual.In(a, s.language); t != nil {
			return t
		}
	}
	return original(a)
}

// original is the article that a translation translates, or the article itself.
func original(a *manual.Article) *manual.Article {
	if a.Original != nil {
		return a.Original
	}
	return a
}

// toArticle is a link to an article in the site's language where there is one.
func (s *site) toArticle(root string, a *manual.Article) link {
	a = original(a)
	page := articlePage(a)
	l := link{Href: s.address(root, s.to(page)), Title: s.local(a).Head.Title, Hreflang: s.foreign(page), Number: s.number(page)}
	l.Lang = l.Hreflang
	return l
}

// toPage is a link to a page that nobody writes, whose title is in the site's language.
func (s *site) toPage(root, page, title string) link {
	return link{Href: s.address(root, s.to(page)), Title: title, Hreflang: s.foreign(page), Number: s.number(page)}
}

// version is a page in one of its languages.
type version struct {
	Href, Tag, Name string
	Here            bool
}

// versions lists the languages that a page is in, in the order of the sites; none where it is in one alone.
func (s *site) versions(base string) []version {
	var list []version
	for _, one := range s.all {
		if one.mine[base] {
			t := one.itsLanguage()
			list = append(list, version{one.name(base), t.tag, t.name, one.language == s.language})
		}
	}
	if len(list) < 2 {
		return nil
	}
	return list
}

// translated lists the translations into the site's language, by path.
func (s *site) translated() []*manual.Article {
	var list []*manual.Article
	for _, t := range s.Manual.Translations {
		if t.Language == s.language && t.Original != nil {
			list = append(list, t)
		}
	}
	return list
}
