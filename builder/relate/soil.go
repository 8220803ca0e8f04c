package relate

import (
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// SoilNeedsClearance holds back what may carry a substance that hurts people, until the safety officer has been asked.
// Limit: 29 CFR 1910.1001 (asbestos), 1910.1024 (beryllium), 1910.1025 (lead), 1910.1026 (chromate), 1910.1027 (cadmium), 1910.1030 (blood),
// from memory.
var SoilNeedsClearance = finding.Rule{
	Name: "soil-needs-clearance", Severity: finding.People,
	Finds:  "a part whose soil may contain asbestos, lead, beryllium, cadmium, chromate, PCB, radioactive or biological matter, without a DANGER or WARNING in its sheet",
	Why:    "What comes off goes into the bath, the sludge, the mist and on to hands; it needs the safety officer's word before washing and before draining.",
	Source: "29 CFR 1910.1001 and 1910.1024–1910.1030, from memory",
}

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
