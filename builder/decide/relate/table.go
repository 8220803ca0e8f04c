package relate

import (
	"slices"
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// Table makes from a manual all that is needed to decide what may go where. Tanks and chemistries are in the order of the manual, materials,
// soils and parts by title.
func Table(m *manual.Manual) *admit.Table { return TableOn(m, LineOf(m)) }

// TableOn is the same where the line of the manual is known.
func TableOn(m *manual.Manual, l Line) *admit.Table {
	var articles []*manual.Article
	for _, a := range m.Articles {
		if m.Named(a.Kind, a.Name) == a { // of two with one name only the first can be asked for
			articles = append(articles, a)
		}
	}
	return tableOf(m, articles, l)
}

// Sheet decides about a part by its process sheet on a line, and asks the manual for no more articles than it names.
func Sheet(m *manual.Manual, part *manual.Article, l Line) admit.Answer {
	articles := []*manual.Article{part}
	add := func(kind manual.Kind, name string) {
		if a := m.Named(kind, name); a != nil && !a.Partial && !slices.Contains(articles, a) {
			articles = append(articles, a)
		}
	}
	for _, r := range part.Part.Materials {
		add(manual.Material, r.Name)
	}
	for _, r := range part.Part.Soils {
		add(manual.Soil, r.Name)
		if s := m.Named(manual.Soil, r.Name); s != nil && !s.Partial {
			for _, by := range s.Soil.RemovedBy {
				add(manual.Chemistry, by.Chemistry.Name)
			}
		}
	}
	for _, s := range part.Part.Steps {
		add(manual.Chemistry, s.Chemistry.Name)
		if tank := m.Shop.Tank(s.Tank.Name); tank != nil {
			add(manual.Chemistry, tank.Chemistry.Name)
		}
	}
	t := tableOf(m, articles, l)
	return t.SheetOf(&t.Parts[0])
}

// Tanks is the table of the shop's vessels with what is in them, and of nothing else.
func Tanks(m *manual.Manual, l Line) *admit.Table {
	var articles []*manual.Article
	for _, t := range m.Shop.Tanks {
		if a := m.Named(manual.Chemistry, t.Chemistry.Name); a != nil && !slices.Contains(articles, a) {
			articles = append(articles, a)
		}
	}
	return tableOf(m, articles, l)
}

// Some is the table of the shop's vessels and of some articles.
func Some(m *manual.Manual, l Line, articles ...*manual.Article) *admit.Table {
	return tableOf(m, articles, l)
}

// tableOf makes a table of some of a manual's articles.
func tableOf(m *manual.Manual, articles []*manual.Article, l Line) *admit.Table {
	t := &admit.Table{System: m.Shop.System().String(), Tanks: l.tanks, Rinses: l.rinses, Dryer: m.Shop.Dryer}
	articles = slices.Clone(articles)
	slices.SortStableFunc(articles, func(a, b *manual.Article) int {
		if a.Kind != b.Kind {
			return strings.Compare(string(a.Kind), string(b.Kind))
		}
		if a.Kind == manual.Chemistry {
			return 0 // in the order of the manual
		}
		return byTitle(a, b)
	})
	for _, a := range articles {
		if a.Partial {
			continue // of an article that could not be read nothing is known
		}
		item := admit.Item{Name: a.Name, Title: a.Head.Title, Path: a.Path, Cautions: cautions(a)}
		switch {
		case a.Material != nil:
			t.Materials = append(t.Materials, admit.Material{Item: item, Material: *a.Material})
		case a.Soil != nil:
			t.Soils = append(t.Soils, admit.Soil{Item: item, Soil: *a.Soil})
		case a.Chemistry != nil:
			t.Chemistries = append(t.Chemistries, Chemistry(a))
		case a.Part != nil:
			t.Parts = append(t.Parts, admit.PartSheet{Item: item, Part: withAcceptances(a)})
		}
	}
	return t
}

// Chemistry is a chemistry's article as decisions know it.
func Chemistry(a *manual.Article) admit.Chemistry {
	return admit.Chemistry{Item: admit.Item{Name: a.Name, Title: a.Head.Title, Path: a.Path, Cautions: cautions(a)}, Chemistry: *a.Chemistry}
}

// withAcceptances is a part with its accepted attack on purpose as a concession: whoever approved the sheet lives with it, as the sheet runs.
func withAcceptances(a *manual.Article) manual.PartFacts {
	p := *a.Part
	for _, c := range a.Head.Accept {
		if finding.RuleName(c.Rule) != admit.AttackOnPurpose.Name || c.Reason == "" {
			continue
		}
		p.Concessions = slices.Clone(p.Concessions)
		for _, s := range p.Steps {
			p.Concessions = append(p.Concessions, manual.Concession{
				Chemistry: s.Chemistry, Rules: []manual.Ref{{Name: c.Rule, At: c.At}}, By: a.Head.Approval.Role, Reason: c.Reason, At: c.At,
			})
		}
	}
	return p
}

// cautions are the safety messages of an article.
func cautions(a *manual.Article) []admit.Caution {
	var list []admit.Caution
	for _, s := range a.Signals {
		list = append(list, admit.Caution{Signal: s.Word, Text: s.Text, Place: admit.Place{Article: s.At.File, Line: s.At.Line, Column: s.At.Column}})
	}
	return list
}
