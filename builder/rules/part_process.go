package rules

import (
	"fmt"
	"math"
	"slices"

	"tankside/builder/admit"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/relate"
	"tankside/calculators/quantity"
)

// wash is one wash of a part, with what meets in it.
type wash struct {
	relate.Bath
	step      *manual.Step
	number    int // from 1
	part      *manual.Article
	materials []*manual.Article
	soils     []*manual.Article // of the part, lifted by this wash or not
	in        quantity.System
}

// washes gives the washes of a part whose chemistry is known.
func washes(p *proof, a *manual.Article) []wash {
	if a.Part == nil {
		return nil
	}
	materials, soils := named(p, manual.Material, a.Part.Materials), named(p, manual.Soil, a.Part.Soils)
	var list []wash
	for i := range a.Part.Steps {
		step := &a.Part.Steps[i]
		if b := relate.InStep(p.Manual, step); b.Chemistry != nil && !b.Chemistry.Partial {
			list = append(list, wash{b, step, i + 1, a, materials, soils, p.Shop.System()})
		}
	}
	return list
}

func named(p *proof, kind manual.Kind, refs []manual.Ref) []*manual.Article {
	var list []*manual.Article
	for _, r := range refs {
		if a := p.Named(kind, r.Name); a != nil {
			list = append(list, a)
		}
	}
	return list
}

// meeting is a material in the wash.
func (w *wash) meeting(material *manual.Article) *relate.Meeting {
	return &relate.Meeting{
		Bath: w.Bath, Material: material, Soils: w.soils,
		Features: append(slices.Clone(material.Material.Features), w.part.Part.Features...),
	}
}

// value gives what the wash has of something, and where that is written: in the wash, or in the shop file.
func (w *wash) value(what admit.What) manual.Limit {
	return valueOf(&w.Bath, what)
}

func valueOf(b *relate.Bath, what admit.What) manual.Limit {
	switch what {
	case admit.PH:
		return b.Chemistry.Chemistry.PH
	case admit.Strength:
		return b.Strength
	case admit.Temperature:
		return b.Temperature
	case admit.Time:
		return b.Time
	}
	return b.Frequency
}

// where is the place in the part's article to which a finding about a value belongs.
func (w *wash) where(l manual.Limit) finding.Place {
	if l.At.File == w.part.Path {
		return l.At
	}
	return w.step.Chemistry.At
}

// beyond tells whether a value leaves a limit. Values of different measures cannot be compared and do not.
func beyond(v manual.Limit, l relate.Limit) bool {
	return v.Set && l.Set && v.Kind == l.Kind && !v.Within(l.Range)
}

// gravest is the order in which limits of one sort are looked at: of several that a value leaves, only the first is reported.
var gravest = []string{"near-flash-point", relate.AboveCeiling.Name, relate.AboveCloudPoint.Name, relate.OutsideChemistryWindow.Name}

// ownFault tells whether a bath only does what its chemistry's own window allows: then the window is at fault, and is reported there.
func ownFault(b *relate.Bath, what admit.What) bool {
	var own manual.Limit
	switch what {
	case admit.Strength:
		own = b.Chemistry.Chemistry.Strength
	case admit.Temperature:
		own = b.Chemistry.Chemistry.Temperature
	case admit.Time:
		own = b.Chemistry.Chemistry.Time
	case admit.Frequency:
		own = b.Chemistry.Chemistry.Frequency
	}
	v := valueOf(b, what)
	return own.Set && v.Set && own.Kind == v.Kind && v.Within(own.Range) && own.At != v.At
}

// bathHits gives the exclusions of a bath, whatever goes into it, except those that its chemistry's own window is to blame for.
func bathHits(b *relate.Bath, in quantity.System) []relate.Found {
	var list []relate.Found
	itself := b.Window == b.Chemistry.Chemistry.Window
	for _, f := range b.Hits(in) {
		atWindow := f.Also == b.Temperature.At && ownFault(b, admit.Temperature)
		atPH := f.Also == b.Chemistry.Chemistry.PH.At && f.Also.File != ""
		if itself || !atWindow && !atPH {
			list = append(list, f)
		}
	}
	return list
}

// firstBeyond gives for each sort the gravest of a chemistry's limits that a bath leaves.
func firstBeyond(b *relate.Bath, in quantity.System) []relate.Limit {
	var list []relate.Limit
	limits := relate.OfChemistry(b.Chemistry)
	for _, what := range []admit.What{admit.Strength, admit.Temperature, admit.Time, admit.Frequency} {
		if ownFault(b, what) {
			continue
		}
	search:
		for _, rule := range gravest {
			for _, l := range limits {
				if l.What == what && l.Rule.Name == rule && beyond(valueOf(b, what), l) {
					if rule != gravest[0] { // relate reports that one itself
						list = append(list, l)
					}
					break search
				}
			}
		}
	}
	return list
}

// exceeds says by how much: "62 °C, but the limit of acrylic is ≤ 45 °C".
func exceeds(what admit.What, v manual.Limit, l relate.Limit, in quantity.System) string {
	return fmt.Sprintf("the %s is %s, but %s", what, v.In(in), l.Asks.Within(nil, in))
}

// findExcludedBaths finds in the washes of a part, in the tanks and in the windows of chemistries what relate's exclusions forbid,
// whatever goes into the bath.
func findExcludedBaths(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	in := p.Shop.System()
	switch {
	case a.Chemistry != nil:
		b := relate.Bath{Chemistry: a, Window: a.Chemistry.Window}
		for _, f := range bathHits(&b, in) {
			list = append(list, f.Rule.At(f.Also, f.Says.In(nil, in), f.Remedy, f.Hit.At))
		}
		for _, l := range firstBeyond(&b, in) {
			v := valueOf(&b, l.What)
			list = append(list, l.Rule.At(v.At, "The window disagrees with itself: "+exceeds(l.What, v, l, in)+".", "Narrow the window, or correct the other value.", l.Limit.At))
		}
	case a.Part != nil:
		for _, w := range washes(p, a) {
			for _, f := range bathHits(&w.Bath, in) {
				if f.Name == "flammable-in-ordinary-tank" && w.Tank.Chemistry.Name == w.Chemistry.Name {
					continue // the tank itself is reported
				}
				list = append(list, f.Rule.At(w.where(w.Temperature), w.says(f.Says.In(nil, w.in)), f.Remedy, f.Hit.At))
			}
		}
	}
	return list
}

// says puts the number of the wash before a sentence when the part has several.
func (w *wash) says(sentence string) string {
	if len(w.part.Part.Steps) > 1 {
		return fmt.Sprintf("Wash %d: %s", w.number, sentence)
	}
	return sentence
}

// findExcludedMeetings finds the materials of a part that must not go into its washes.
func findExcludedMeetings(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	for _, w := range washes(p, a) {
		for _, m := range w.materials {
			for _, f := range w.meeting(m).Hits() {
				if f.Verdict != admit.No {
					continue // a condition that the text of the sheet has to deal with
				}
				also := []finding.Place{f.Hit.At}
				if f.Also.File != "" && f.Also.File != w.part.Path {
					also = append(also, f.Also)
				}
				list = append(list, f.Rule.At(w.step.Chemistry.At, w.says(f.Says.In(nil, w.in)), f.Remedy, also...))
			}
		}
	}
	return list
}

// attacked tells whether an exclusion about the chemistry itself has hit already; then its pH needs no second finding.
func attacked(x *relate.Meeting) bool {
	return slices.ContainsFunc(x.Hits(), func(f relate.Found) bool { return f.Group == "attack" && f.Verdict == admit.No })
}

// findMaterialLimits finds washes that leave what a material stands.
func findMaterialLimits(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	all := washes(p, a)
	for _, w := range all {
		for _, m := range w.materials {
			for _, l := range relate.OfMaterial(m) {
				if silicate, has := w.Contains("silicate"); l.Silicated == "yes" && !has || l.Silicated == "no" && silicate.Name != "" {
					continue
				}
				v := w.value(l.What)
				switch l.What {
				case admit.Time:
					continue // for all washes together, below
				case admit.PH:
					if slips(v, l) && !attacked(w.meeting(m)) {
						list = append(list, w.phFinding(m, v, l))
					}
				default:
					if beyond(v, l) {
						list = append(list, l.Rule.At(w.where(v), w.says(asSentence(exceeds(l.What, v, l, w.in))), "Change the wash, or take another tank.", l.Limit.At))
					}
				}
			}
		}
	}
	return append(list, tooLong(all)...)
}

// slips tells whether less than half of a bath's pH range suits: see package admit, which decides alike.
func slips(v manual.Limit, l relate.Limit) bool {
	if !v.Set {
		return false
	}
	left := math.Min(v.High, l.High) - math.Max(v.Low, l.Low)
	return left < -1e-9 || !math.IsInf(v.Low, 0) && !math.IsInf(v.High, 0) && left < (v.High-v.Low)/2-1e-9
}

func (w *wash) phFinding(m *manual.Article, v manual.Limit, l relate.Limit) finding.Finding {
	rule, remedy := l.Rule, "Take a chemistry whose pH the material stands."
	if relate.AttackedOnPurpose(w.Chemistry, w.soils) {
		rule, remedy = relate.AttackOnPurpose, "Write a timed instruction with a trial and an approval, and accept this finding with the reason; or take a milder chemistry."
	}
	return rule.At(w.step.Chemistry.At, w.says(fmt.Sprintf("The bath of %s is pH %s, but %s.", w.Chemistry.Head.Title, v.In(w.in), l.Asks.Within(nil, w.in))), remedy, l.Limit.At, v.At)
}

// tooLong finds materials for which the washes together last too long.
func tooLong(all []wash) []finding.Finding {
	if len(all) == 0 {
		return nil
	}
	total, last := 0.0, all[0].step.Chemistry.At
	for _, w := range all {
		if w.Time.Set {
			total += w.Time.High
			last = w.Time.At
		}
	}
	var list []finding.Finding
	for _, m := range all[0].materials {
		limit := m.Material.Time
		if limit.Set && total > limit.High*(1+1e-9) {
			list = append(list, relate.TooLongForMaterial.At(last, fmt.Sprintf("The washes last up to %s, but the limit of %s is %s in one visit.",
				quantity.Show(total, quantity.Time, all[0].in), m.Head.Title, limit.In(all[0].in)), "Shorten them.", limit.At))
		}
	}
	return list
}

// findChemistryLimits finds washes that leave the window of their chemistry or what their tank can do.
func findChemistryLimits(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	for _, w := range washes(p, a) {
		for _, l := range firstBeyond(&w.Bath, w.in) {
			v := w.value(l.What)
			list = append(list, l.Rule.At(w.where(v), w.says(asSentence(exceeds(l.What, v, l, w.in))), "Stay inside the window, or correct it in the chemistry's article.", l.Limit.At))
		}
		if w.Tank != nil {
			for _, l := range relate.OfTank(w.Tank) {
				if v := w.value(l.What); beyond(v, l) {
					list = append(list, l.Rule.At(w.where(v), w.says(asSentence(exceeds(l.What, v, l, w.in))), "Take the tank that has this frequency.", l.Limit.At))
				}
			}
		}
	}
	return list
}

// asSentence makes one of a clause.
func asSentence(clause string) string {
	return string(clause[0]-'a'+'A') + clause[1:] + "."
}
