package rules

import (
	"fmt"
	"strings"

	"tankside/builder/admit"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/relate"
)

// soilNotRemoved finds soils of a part that none of its washes lifts.
// It prevents that a part is washed, rinsed and dried with the soil still on it. What lifts what is in the articles of soils and chemistries.
var soilNotRemoved = finding.Rule{
	Name: "soil-not-removed", Severity: finding.Result,
	Finds:  "a part's soil that none of its washes lifts",
	Why:    "The part goes through wash, rinse and dryer and comes out dirty.",
	Source: "the soil's article, removed-by, and the chemistry's, removes",
}

func findSoilsNotRemoved(p *proof, a *manual.Article) []finding.Finding {
	all := washes(p, a)
	if len(all) == 0 {
		return nil
	}
	var list []finding.Finding
	for _, ref := range a.Part.Soils {
		soil := p.Named(manual.Soil, ref.Name)
		if soil == nil {
			continue
		}
		lifted, inWindow := false, false
		var outside *finding.Finding
		for i := range all {
			w := &all[i]
			removal, lifts := relate.Lifts(w.Chemistry, soil)
			if !lifts {
				continue
			}
			lifted = true
			f := w.outsideSoilWindow(soil, removal)
			inWindow = inWindow || f == nil
			if outside == nil {
				outside = f
			}
		}
		switch {
		case !lifted:
			var names []string
			for _, c := range relate.RemovedBy(p.Manual, soil) {
				names = append(names, c.Name)
			}
			remedy := "Write in the soil's article what lifts it."
			if len(names) > 0 {
				remedy = "These lift it: " + strings.Join(names, ", ") + "."
			}
			list = append(list, soilNotRemoved.At(ref.At, fmt.Sprintf("No wash of this part lifts %s.", soil.Head.Title), remedy, finding.Place{File: soil.Path, Line: 1, Column: 1}))
		case !inWindow:
			list = append(list, *outside)
		}
	}
	return list
}

// outsideSoilWindow reports a wash that lifts the soil by its chemistry, but not as it is run.
func (w *wash) outsideSoilWindow(soil *manual.Article, r manual.Removal) *finding.Finding {
	for _, l := range relate.OfLift(soil, r) {
		v := w.value(l.What)
		// More time than the soil needs is a matter for the material, not for the soil.
		if !beyond(v, l) || l.What == admit.Time && v.Low >= l.Low*(1-1e-9) {
			continue
		}
		f := l.Rule.At(w.where(v), w.says(asSentence(exceeds(l.What, v, l, w.in))), "Run the wash in this window, or correct it in the soil's article.", l.Limit.At)
		return &f
	}
	return nil
}
