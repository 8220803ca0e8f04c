package languageserver

import (
	"regexp"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// thing is something that a manual names in several places.
type thing struct {
	article *manual.Article
	section *manual.Section // of the article, or nil
	list    string          // of the shop file: tank, rinse, dryer, role
	id      string          // in that list
}

var (
	wholeLink = regexp.MustCompile(`!?\[[^\]]*\]\(([^)\s]*)[^)]*\)`)
	tankInput = regexp.MustCompile(`^\s*tank:\s*(\S+)\s*$`)
)

// thingAt gives what the word at a position names: a link or a name in a header leads to an article, a heading or a tank. Where it
// names nothing, but is a heading or the id of a tank itself, it is that; here tells so.
func (s *server) thingAt(d *desk, file string, text []string, line, column int) (t thing, here, ok bool) {
	a := d.manual.At(file)
	if at, in := spotAt(file, text, line, column); in {
		if at.onKey {
			return thing{article: a}, true, a != nil
		}
		t, ok = named(d.manual, a, at)
		if !ok && file == manual.ShopFile {
			t, ok = ownID(at)
			return t, ok, ok
		}
		if !ok && a != nil {
			return thing{article: a}, true, true
		}
		return t, false, ok
	}
	if a == nil || line >= len(text) {
		return thing{}, false, false
	}
	for _, m := range wholeLink.FindAllStringSubmatchIndex(text[line], -1) {
		if column < m[0] || column > m[1] {
			continue
		}
		to, problem := d.manual.Resolve(a, text[line][m[2]:m[3]])
		return thing{article: to.Article, section: to.Section}, false, problem == nil && to.Article != nil
	}
	if m := tankInput.FindStringSubmatch(text[line]); m != nil && d.manual.Shop.Tank(m[1]) != nil {
		return thing{list: "tank", id: m[1]}, false, true
	}
	for i := range a.Sections {
		if sec := &a.Sections[i]; sec.Level > 0 && sec.At.Line == line+1 {
			return thing{article: a, section: sec}, true, true
		}
	}
	return thing{article: a}, true, true
}

// named is what the value at a spot of a header or of the shop file names.
func named(m *manual.Manual, from *manual.Article, at spot) (thing, bool) {
	if at.key == nil {
		return thing{}, false
	}
	for _, k := range at.key.Refers {
		if a := m.Named(k, at.token); a != nil {
			return thing{article: a}, true
		}
	}
	for _, l := range at.key.Shop {
		if slices.Contains(shopNames(m, l), at.token) {
			return thing{list: l, id: at.token}, true
		}
	}
	switch at.key.Name {
	case "see-also":
		a, problem := m.Reference(from, at.token)
		return thing{article: a}, problem == nil && a != nil
	case "article": // of a term of the glossary
		a := m.At(at.token)
		return thing{article: a}, a != nil
	}
	return thing{}, false
}

// ownID is the tank, rinse or dryer whose id a spot of the shop file is.
func ownID(at spot) (thing, bool) {
	if len(at.keys) != 2 || at.keys[1] != "id" {
		return thing{}, false
	}
	list := strings.TrimSuffix(at.keys[0], "s")
	return thing{list: list, id: at.token}, slices.Contains([]string{"tank", "rinse", "dryer"}, list)
}

// shopNames are the names in a list of the shop file.
func shopNames(m *manual.Manual, list string) []string {
	var names []string
	switch list {
	case "tank":
		for _, t := range m.Shop.Tanks {
			names = append(names, t.ID)
		}
	case "rinse":
		for _, r := range m.Shop.Rinses {
			names = append(names, r.ID)
		}
	case "dryer":
		if m.Shop.Dryer.ID != "" {
			names = append(names, m.Shop.Dryer.ID)
		}
	case "role":
		names = append(names, m.Shop.Roles...)
	}
	return names
}

// place is where a thing stands.
func (t thing) place(m *manual.Manual) (finding.Place, bool) {
	switch {
	case t.section != nil:
		return t.section.At, true
	case t.article != nil:
		if at, titled := t.article.Head.At["title"]; titled {
			return at, true
		}
		return finding.Place{File: t.article.Path, Line: 1, Column: 1}, true
	}
	switch t.list {
	case "tank":
		if k := m.Shop.Tank(t.id); k != nil {
			return orAt(k.Keys["id"], k.At), true
		}
	case "rinse":
		if r := m.Shop.RinseTank(t.id); r != nil {
			return orAt(r.Keys["id"], r.At), true
		}
	case "dryer":
		if m.Shop.Dryer.ID == t.id {
			return orAt(m.Shop.Dryer.Keys["id"], m.Shop.Dryer.At), true
		}
	case "role":
		at, there := m.Shop.At["roles"]
		return at, there
	}
	return finding.Place{}, false
}

func orAt(at, otherwise finding.Place) finding.Place {
	if at.File == "" {
		return otherwise
	}
	return at
}

// uses are the places that name a thing, in the order of the manual: shop file and glossary last.
func (t thing) uses(m *manual.Manual) []finding.Place {
	var list []finding.Place
	read := func(a *manual.Article) {
		for kind, ref := range a.References {
			if t.section == nil && t.article != nil && m.Named(kind, ref.Name) == t.article {
				list = append(list, ref.At)
			}
		}
		for of, ref := range a.FromShop {
			if t.list == of && ref.Name == t.id {
				list = append(list, ref.At)
			}
		}
		if t.article != nil {
			for _, e := range a.Head.SeeAlso {
				if to, problem := m.Reference(a, e.Name); problem == nil && to == t.article && t.section == nil && a.Language == "" {
					list = append(list, e.At)
				}
			}
			for _, l := range a.Links {
				if to, problem := m.Resolve(a, l.Target); problem == nil && to.Article == t.article && (t.section == nil || to.Section == t.section) {
					list = append(list, l.At)
				}
			}
		}
		for _, sum := range a.Sums {
			for _, in := range sum.Inputs {
				if t.list == "tank" && in.Name == "tank" && in.Value == t.id {
					list = append(list, in.At)
				}
			}
		}
	}
	for _, a := range m.Articles {
		read(a)
	}
	for _, a := range m.Translations {
		read(a)
	}
	if t.article == nil || t.section != nil {
		return list
	}
	for _, tank := range m.Shop.Tanks {
		if t.article.Kind == manual.Chemistry && tank.Chemistry.Name == t.article.Name {
			list = append(list, tank.Chemistry.At)
		}
	}
	for _, seen := range m.Shop.SeenMost {
		if t.article.Kind == manual.Symptom && seen.Name == t.article.Name {
			list = append(list, seen.At)
		}
	}
	for _, term := range m.Glossary {
		if term.Article == t.article.Path {
			list = append(list, term.At)
		}
	}
	return list
}
