package relate

import (
	"cmp"
	"slices"
	"strings"

	"tankside/builder/manual"
)

// UsedBy gives for each article the ones that speak of it, by title: those that link to it in their text, in see-also or in an answer,
// and those that name it in their header.
func UsedBy(m *manual.Manual) map[*manual.Article][]*manual.Article {
	used := make(map[*manual.Article][]*manual.Article, len(m.Articles))
	for _, a := range m.Articles {
		for _, to := range Mentions(m, a) {
			used[to] = append(used[to], a)
		}
	}
	for _, list := range used {
		slices.SortFunc(list, byTitle)
	}
	return used
}

func byTitle(a, b *manual.Article) int {
	return cmp.Or(strings.Compare(strings.ToLower(a.Head.Title), strings.ToLower(b.Head.Title)), strings.Compare(a.Path, b.Path))
}

// Mentions gives the other articles that an article speaks of, each once, in the order in which it does: header before text.
func Mentions(m *manual.Manual, a *manual.Article) []*manual.Article {
	var list []*manual.Article
	seen := map[*manual.Article]bool{a: true}
	add := func(to *manual.Article) {
		if to != nil && !seen[to] {
			seen[to] = true
			list = append(list, to)
		}
	}
	named := func(kind manual.Kind, refs ...manual.Ref) {
		for _, r := range refs {
			add(m.Named(kind, r.Name))
		}
	}
	switch {
	case a.Soil != nil:
		for _, r := range a.Soil.RemovedBy {
			named(manual.Chemistry, r.Chemistry)
		}
	case a.Chemistry != nil:
		named(manual.Soil, a.Chemistry.Removes...)
		named(manual.Chemistry, a.Chemistry.NeverWith...)
		named(manual.Procedure, a.Chemistry.ControlTest)
	case a.Part != nil:
		named(manual.Material, a.Part.Materials...)
		named(manual.Soil, a.Part.Soils...)
		for _, s := range a.Part.Steps {
			named(manual.Chemistry, s.Chemistry)
		}
	case a.Procedure != nil:
		named(manual.Chemistry, a.Procedure.Chemistries...)
	case a.Lesson != nil:
		named(manual.Lesson, a.Lesson.Needs...)
		named(manual.Procedure, a.Lesson.Needs...)
	case a.Symptom != nil:
		named(manual.Material, a.Symptom.Affects...)
	}
	for _, entry := range a.Head.SeeAlso {
		if to, problem := m.Reference(a, entry.Name); problem == nil {
			add(to)
		}
	}
	for _, l := range a.Links {
		if strings.HasPrefix(l.Target, "#") {
			continue
		}
		if to, problem := m.Resolve(a, l.Target); problem == nil {
			add(to.Article)
		}
	}
	return list
}
