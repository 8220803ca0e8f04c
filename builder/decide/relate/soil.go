package relate

import (
	"slices"

	"tankside/builder/decide/admit"
	"tankside/builder/manual"
)

// Lifts gives the removal of a soil by a chemistry, whether the soil's article or the chemistry's says so.
// When only the chemistry says so, the removal has no window.
func Lifts(chemistry, soil *manual.Article) (manual.Removal, bool) {
	return admit.Removal(chemistry.Name, chemistry.Chemistry, soil.Name, soil.Soil)
}

// Removes gives the soils that a chemistry lifts, by title.
func Removes(m *manual.Manual, chemistry *manual.Article) []*manual.Article {
	return whichOf(m, manual.Soil, func(soil *manual.Article) bool { _, lifts := Lifts(chemistry, soil); return lifts })
}

// whichOf gives the articles of a kind that are so, by title.
func whichOf(m *manual.Manual, kind manual.Kind, is func(*manual.Article) bool) []*manual.Article {
	var list []*manual.Article
	for _, a := range m.Articles {
		if a.Kind == kind && is(a) {
			list = append(list, a)
		}
	}
	slices.SortFunc(list, byTitle)
	return list
}
