package rules

import (
	"slices"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// findProcessFaults passes on what stands against a part's process sheet: the decision is that of package admit, for all washes, rinses and
// the dryer together, and each of its reasons against the sheet is a finding of the rule that guards it.
func findProcessFaults(p *proof, a *manual.Article) []finding.Finding {
	if a.Part == nil {
		return nil
	}
	var list []finding.Finding
	for _, r := range relate.Sheet(p.Manual, a, p.line).Reasons {
		if r.Verdict == admit.No && !reportedElsewhere(p, a, r) {
			at := where(a, r)
			if slices.ContainsFunc(list, func(f finding.Finding) bool {
				return f.Rule == r.Rule && f.Rule == admit.NotComparable.Name && f.Place == at
			}) {
				continue // one value in the wrong measure, compared with several limits
			}
			list = append(list, r.Guard.At(at, ofWash(r)+r.Says.In(nil, p.Shop.System()), r.Remedy, others(r, at)...))
		}
	}
	return list
}

// ofWash begins what is found in a sheet with several washes with the number of the wash.
func ofWash(r admit.Reason) string {
	if r.Wash == 0 {
		return ""
	}
	return admit.WashName(r.Wash, nil) + ": "
}

// reportedElsewhere tells whether what stands against a sheet is at fault in another file, where it is reported once: the window of its
// chemistry, the tank that holds it. A soil that needs clearance has a rule of its own about the sheet's safety messages.
func reportedElsewhere(p *proof, a *manual.Article, r admit.Reason) bool {
	switch r.Rule {
	case admit.SoilNeedsClearance.Name:
		return true
	case admit.TooLongForMaterial.Name:
		return slices.ContainsFunc(a.Part.Steps, func(s manual.Step) bool { return !s.Time.Set }) // a wash without time is the fault
	case "flammable-in-ordinary-tank", "jar-with-heat-or-sound":
		step := &a.Part.Steps[max(r.Wash, 1)-1]
		t := p.Shop.Tank(step.Tank.Name)
		return t != nil && t.Chemistry.Name == step.Chemistry.Name
	}
	return r.Window
}

// where is the place of the sheet to which a reason belongs: the value that is wrong, or the wash.
func where(a *manual.Article, r admit.Reason) finding.Place {
	if r.Of.File == a.Path {
		return r.Of
	}
	if len(a.Part.Steps) == 0 {
		return at(a, "material")
	}
	return a.Part.Steps[max(r.Wash, 1)-1].Chemistry.At
}

// others are the places that a reason rests on, but for the one at which it is reported.
func others(r admit.Reason, at finding.Place) []finding.Place {
	var list []finding.Place
	if r.Article != "" && r.Finding() != at {
		list = append(list, r.Finding())
	}
	if r.Also != nil && r.Also.Finding() != at {
		list = append(list, r.Also.Finding())
	}
	return list
}

// washes gives the washes of a part whose chemistry is known, as its sheet runs them.
func washes(p *proof, a *manual.Article) []admit.Bath {
	if a.Part == nil {
		return nil
	}
	var chemistries []*manual.Article
	for _, s := range a.Part.Steps {
		if c := p.Named(manual.Chemistry, s.Chemistry.Name); c != nil && !slices.Contains(chemistries, c) {
			chemistries = append(chemistries, c)
		}
	}
	var list []admit.Bath
	t := relate.Some(p.Manual, p.line, chemistries...)
	for i := range a.Part.Steps {
		if b, known := t.InStep(&a.Part.Steps[i]); known {
			list = append(list, b)
		}
	}
	return list
}
