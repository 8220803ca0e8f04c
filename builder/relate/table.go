package relate

import (
	"slices"

	"tankside/builder/admit"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/calculators/quantity"
)

// Table makes from a manual all that is needed to answer “may it go in?”. Tanks come before chemistries, each in the order of the manual.
func Table(m *manual.Manual) *admit.Table {
	in := m.Shop.System()
	t := &admit.Table{
		System:      in.String(),
		SoilReasons: map[string][]admit.Reason{}, MaterialReasons: map[string][]admit.Reason{},
	}
	var materials, soils []*manual.Article
	for _, a := range m.Articles {
		if m.Named(a.Kind, a.Name) != a {
			continue // of two with one name only the first can be asked for
		}
		switch a.Kind {
		case manual.Material:
			materials = append(materials, a)
		case manual.Soil:
			soils = append(soils, a)
		}
	}
	slices.SortFunc(materials, byTitle)
	slices.SortFunc(soils, byTitle)
	for i, a := range materials {
		t.Materials = append(t.Materials, admit.Item{Name: a.Name, Title: a.Head.Title, Path: a.Path, Limits: entries(OfMaterial(a)), Cautions: cautions(a)})
		if r := looseSet(a); r != nil {
			t.MaterialReasons[a.Name] = []admit.Reason{*r}
		}
		for _, b := range materials[:i] {
			if why, at, also := Couple(a, b); why.Phrase != "" {
				other := place(also.At)
				t.Pairs = append(t.Pairs, admit.Pair{A: a.Name, B: b.Name, Reason: admit.Reason{
					Verdict: admit.No, Says: admit.Say("{material} and {material} must not share a bath: {why}.", titled(b), titled(a), admit.Clause(why)),
					Place: place(at.At), Also: &other, Rule: DissimilarMetals.Name,
				}})
			}
		}
	}
	for _, a := range soils {
		t.Soils = append(t.Soils, admit.Item{Name: a.Name, Title: a.Head.Title, Path: a.Path, Cautions: cautions(a)})
		for _, may := range a.Soil.MayContain {
			t.SoilReasons[a.Name] = append(t.SoilReasons[a.Name], admit.Reason{
				Verdict: admit.No, Says: admit.Say("{soil} may contain {constituent}: not before the safety officer has cleared this lot.", titled(a), spoken(may.Name)),
				Place: place(may.At), Rule: SoilNeedsClearance.Name,
			})
		}
	}
	lifted := liftedBy(m, soils)
	for i := range m.Shop.Tanks {
		tank := &m.Shop.Tanks[i]
		if b := InTank(m, tank); b.Chemistry != nil {
			t.Baths = append(t.Baths, bath(b, materials, lifted[b.Chemistry.Name], in))
		}
	}
	for _, a := range m.Articles {
		if a.Kind == manual.Chemistry && m.Named(manual.Chemistry, a.Name) == a {
			t.Baths = append(t.Baths, bath(Bath{Chemistry: a}, materials, lifted[a.Name], in))
		}
	}
	return t
}

// liftedBy gives for the name of each chemistry the soils that it lifts.
func liftedBy(m *manual.Manual, soils []*manual.Article) map[string][]*manual.Article {
	lifted := make(map[string][]*manual.Article)
	add := func(chemistry string, soil *manual.Article) {
		if !slices.Contains(lifted[chemistry], soil) {
			lifted[chemistry] = append(lifted[chemistry], soil)
		}
	}
	for _, s := range soils {
		for _, r := range s.Soil.RemovedBy {
			add(r.Chemistry.Name, s)
		}
	}
	for _, a := range m.Articles {
		if a.Kind == manual.Chemistry {
			for _, r := range a.Chemistry.Removes {
				if s := m.Named(manual.Soil, r.Name); s != nil {
					add(a.Name, s)
				}
			}
		}
	}
	return lifted
}

// cautions are the safety messages of an article.
func cautions(a *manual.Article) []admit.Caution {
	var list []admit.Caution
	for _, s := range a.Signals {
		list = append(list, admit.Caution{Signal: s.Word, Text: s.Text, Place: place(s.At)})
	}
	return list
}

// looseSet is the condition that hangs on parts from which something may fall.
func looseSet(a *manual.Article) *admit.Reason {
	of, is := one(a.Material.Features, []string{"loose-set"})
	if !is {
		return nil
	}
	return &admit.Reason{Verdict: admit.Conditions, Says: admit.Say("Look for cracks first, and hang a catch tray under the part: {material} may lose pieces.", titled(a)), Place: place(of.At)}
}

// bath is the entry of a bath.
func bath(b Bath, materials, soils []*manual.Article, in quantity.System) admit.Bath {
	e := admit.Bath{
		Name: b.Chemistry.Name, Title: b.Chemistry.Head.Title, Chemistry: b.Chemistry.Head.Title, Path: b.Chemistry.Path,
		Limits: entries(OfChemistry(b.Chemistry)), Materials: map[string][]admit.Reason{}, Soils: map[string]admit.Lift{},
	}
	_, e.Silicated = b.Contains("silicate")
	e.Cautions, e.Protect = cautions(b.Chemistry), b.Chemistry.Chemistry.ProtectiveEquipment
	if b.Tank != nil {
		e.Name, e.Title, e.Tank = b.Tank.ID, b.Tank.Name, true
		e.Limits = append(e.Limits, entries(OfTank(b.Tank))...)
		e.Today = map[admit.What]quantity.Range{}
		for what, l := range map[admit.What]manual.Limit{admit.Temperature: b.Temperature, admit.Strength: b.Strength} {
			if l.Set && l.Low == l.High {
				e.Today[what] = l.Range
			}
		}
	}
	for _, f := range b.Hits(in) {
		e.Reasons = append(e.Reasons, f.Reason())
	}
	for _, a := range materials {
		x := Meeting{Bath: b, Material: a, Features: a.Material.Features}
		for _, f := range x.Hits() {
			e.Materials[a.Name] = append(e.Materials[a.Name], f.Reason())
		}
	}
	for _, a := range soils {
		r, lifts := Lifts(b.Chemistry, a)
		if !lifts {
			continue
		}
		lift := admit.Lift{Limits: entries(OfLift(a, r))}
		lift.Reasons = append(lift.Reasons, admit.Reason{Verdict: admit.Yes, Says: admit.Say("{chemistry} lifts {soil}.", titled(b.Chemistry), within(a)), Place: place(r.Chemistry.At)})
		e.Soils[a.Name] = lift
	}
	return e
}

// Suits tells what a chemistry by itself does to a material, in the middle of both their windows or wherever they agree.
func Suits(m *manual.Manual, chemistry, material *manual.Article) (admit.Verdict, []admit.Reason) {
	return verdict(m, Bath{Chemistry: chemistry}, material)
}

// SuitsTank tells whether a material may go into a tank as it stands today. A tank without chemistry suits nothing.
func SuitsTank(m *manual.Manual, tank *manual.Tank, material *manual.Article) (admit.Verdict, []admit.Reason) {
	b := InTank(m, tank)
	if b.Chemistry == nil {
		return admit.No, []admit.Reason{{Verdict: admit.No, Text: tank.Name + " has no chemistry that the manual knows.", Place: place(tank.At)}}
	}
	return verdict(m, b, material)
}

func verdict(m *manual.Manual, b Bath, material *manual.Article) (admit.Verdict, []admit.Reason) {
	in := m.Shop.System()
	t := &admit.Table{System: in.String(), Materials: []admit.Item{{Name: material.Name, Title: material.Head.Title, Path: material.Path, Limits: entries(OfMaterial(material))}}}
	if r := looseSet(material); r != nil {
		t.MaterialReasons = map[string][]admit.Reason{material.Name: {*r}}
	}
	t.Baths = []admit.Bath{bath(b, []*manual.Article{material}, nil, in)}
	answer, err := t.Answer(admit.Question{Materials: []string{material.Name}, Bath: t.Baths[0].Name})
	if err != nil {
		// The table holds just what is asked for.
		return admit.No, []admit.Reason{{Verdict: admit.No, Text: err.Error() + ".", Place: place(finding.Place{File: material.Path, Line: 1})}}
	}
	return answer.Verdict, answer.Reasons
}
