package relate

import (
	"slices"

	"tankside/builder/manual"
)

// Lifts gives the removal of a soil by a chemistry, whether the soil's article or the chemistry's says so.
// When only the chemistry says so, the removal has no window.
func Lifts(chemistry, soil *manual.Article) (manual.Removal, bool) {
	for _, r := range soil.Soil.RemovedBy {
		if r.Chemistry.Name == chemistry.Name {
			return r, true
		}
	}
	for _, s := range chemistry.Chemistry.Removes {
		if s.Name == soil.Name {
			return manual.Removal{Chemistry: manual.Ref{Name: chemistry.Name, At: s.At}}, true
		}
	}
	return manual.Removal{}, false
}

// Removes gives the soils that a chemistry lifts, by title.
func Removes(m *manual.Manual, chemistry *manual.Article) []*manual.Article {
	var list []*manual.Article
	for _, a := range m.Articles {
		if a.Kind != manual.Soil {
			continue
		}
		if _, lifts := Lifts(chemistry, a); lifts {
			list = append(list, a)
		}
	}
	slices.SortFunc(list, byTitle)
	return list
}

// RemovedBy gives the chemistries that lift a soil, by title.
func RemovedBy(m *manual.Manual, soil *manual.Article) []*manual.Article {
	var list []*manual.Article
	for _, a := range m.Articles {
		if a.Kind != manual.Chemistry {
			continue
		}
		if _, lifts := Lifts(a, soil); lifts {
			list = append(list, a)
		}
	}
	slices.SortFunc(list, byTitle)
	return list
}

// onPurpose tells whether a soil is taken off by attacking: rust, scale, tarnish.
func onPurpose(soil *manual.Article) bool {
	return soil.Soil.Nature == "oxide" || soil.Soil.Nature == "scale"
}

// AttackedOnPurpose tells whether a wash is there to attack: it lifts one of the soils that come off only so.
func AttackedOnPurpose(chemistry *manual.Article, soils []*manual.Article) bool {
	return slices.ContainsFunc(soils, func(s *manual.Article) bool {
		_, lifts := Lifts(chemistry, s)
		return lifts && onPurpose(s)
	})
}
