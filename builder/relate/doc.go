// Package relate derives from a manual what nobody should keep by hand: which article speaks of which, which chemistry lifts which soil,
// what a bath does to a material, and what may go into which tank.
//
//	used := relate.UsedBy(m)                       // "used by"
//	soils := relate.Removes(m, chemistry)          // soils × chemistries
//	verdict, reasons := relate.Suits(m, chemistry, material)
//	table := relate.Table(m)                       // for admit: materials × soils × tanks
//
// Each exclusion, that is each thing that must not be done whatever the numbers say, is one small function in a file with its name.
// The same functions stand behind the tables of the pages, behind the answer to "may it go in?" and behind the proof-reader's rules
// for the process sheets of parts, so the three cannot disagree.
//
// An exclusion decides by what headers say (made-of, features, contains, ph …), not by names of articles: it holds for every shop.
package relate

import (
	"slices"

	"tankside/builder/admit"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/calculators/quantity"
)

// Bath is a chemistry with the values at which it is used: those of a tank as it stands today, or those of one wash of a part.
// Values that are not set are open.
type Bath struct {
	Chemistry *manual.Article
	Tank      *manual.Tank // nil for a chemistry by itself
	manual.Window
}

// InTank is the bath of a tank as it stands today; the chemistry is nil when the tank names none.
func InTank(m *manual.Manual, t *manual.Tank) Bath {
	return Bath{
		Chemistry: m.Named(manual.Chemistry, t.Chemistry.Name), Tank: t,
		Window: manual.Window{Strength: t.Strength, Temperature: t.Temperature, Frequency: t.Frequency},
	}
}

// InStep is the bath of one wash of a part. Where the wash does not say how strong or hot, the tank does, if it holds that chemistry today;
// and where it does not say at what frequency.
func InStep(m *manual.Manual, s *manual.Step) Bath {
	b := Bath{Chemistry: m.Named(manual.Chemistry, s.Chemistry.Name), Tank: m.Shop.Tank(s.Tank.Name), Window: s.Window}
	if b.Tank == nil {
		return b
	}
	if b.Tank.Chemistry.Name == s.Chemistry.Name {
		if !b.Strength.Set {
			b.Strength = b.Tank.Strength
		}
		if !b.Temperature.Set {
			b.Temperature = b.Tank.Temperature
		}
	}
	if !b.Frequency.Set {
		b.Frequency = b.Tank.Frequency
	}
	return b
}

// Meeting is a material in a bath.
type Meeting struct {
	Bath
	Material *manual.Article
	Features []manual.Ref // of the material, and of the part when there is one
	Soils    []*manual.Article
}

// MadeOf finds the first of the substances that the material is made of.
func (x *Meeting) MadeOf(substances ...string) (manual.Ref, bool) {
	return one(x.Material.Material.MadeOf, substances)
}

// Has finds the first of the features.
func (x *Meeting) Has(features ...string) (manual.Ref, bool) { return one(x.Features, features) }

// Contains finds the first of the constituents in the bath's chemistry.
func (b *Bath) Contains(constituents ...string) (manual.Ref, bool) {
	return one(b.Chemistry.Chemistry.Contains, constituents)
}

// one finds the first reference that is one of the words.
func one(refs []manual.Ref, words []string) (manual.Ref, bool) {
	for _, r := range refs {
		if slices.Contains(words, r.Name) {
			return r, true
		}
	}
	return manual.Ref{}, false
}

// Acid tells whether a chemistry is an acid: it says so, or its bath never comes above pH 6.
func Acid(chemistry *manual.Article) bool {
	c := chemistry.Chemistry
	_, says := one(c.Contains, []string{"acid"})
	return says || c.PH.Set && c.PH.High < 6
}

// Alkali tells whether a chemistry is an alkali: it says so, or its bath never comes below pH 9.
func Alkali(chemistry *manual.Article) bool {
	c := chemistry.Chemistry
	_, says := one(c.Contains, []string{"free-caustic"})
	return says || c.PH.Set && c.PH.Low >= 9
}

// Exclusion is one thing that must not be done whatever the numbers say.
type Exclusion struct {
	finding.Rule

	// Group tells which exclusions are about the same: of a group only the first that hits is reported, the most telling one.
	Group string

	// In looks at a material in a bath; nil where the exclusion does not ask about the material.
	In func(*Meeting) *Hit
	// Of looks at a bath alone; nil where the exclusion asks about the material.
	Of func(*Bath, quantity.System) *Hit
}

// Hit is why an exclusion applies.
type Hit struct {
	Verdict admit.Verdict // Conditions or No
	Says    admit.Sentence
	Remedy  string        // a sentence: what to change in a process sheet
	At      finding.Place // the fact that decides
	Also    finding.Place // the other fact, where two meet; zero when there is none
}

// exclusions lists them, within a group the most telling first.
var exclusions = []Exclusion{
	sealedPart, soundOnSensitiveDevice,
	strongAlkaliOnLightMetal, acidOnHardSteel, acidOnReactiveMaterial, ammoniaOnCopperAlloy, chlorideOnStainless, solventOnPlastic, emulsionInPores,
	constituentAttacksMaterial,
	lowFrequencyOnSoftSurface,
	flammableInOrdinaryTank, nearFlashPoint, enzymeKilled,
}

// Exclusions lists all exclusions, within a group the most telling first.
func Exclusions() []Exclusion { return slices.Clone(exclusions) }

// Hits gives what the exclusions find in a meeting of a material with a bath, each group once.
func (x *Meeting) Hits() []Found {
	return hits(func(e *Exclusion) *Hit {
		if e.In == nil {
			return nil
		}
		return e.In(x)
	})
}

// Hits gives what the exclusions find in a bath, whatever goes into it.
func (b *Bath) Hits(in quantity.System) []Found {
	return hits(func(e *Exclusion) *Hit {
		if e.Of == nil {
			return nil
		}
		return e.Of(b, in)
	})
}

func hits(ask func(*Exclusion) *Hit) []Found {
	var list []Found
	for i := range exclusions {
		e := &exclusions[i]
		if e.Group != "" && slices.ContainsFunc(list, func(f Found) bool { return f.Group == e.Group }) {
			continue
		}
		if h := ask(e); h != nil {
			list = append(list, Found{*e, *h})
		}
	}
	return list
}

// Found is an exclusion that applies.
type Found struct {
	Exclusion
	Hit
}

// Reason is the same for an answer.
func (f Found) Reason() admit.Reason {
	r := admit.Reason{Verdict: f.Verdict, Says: f.Says, Place: place(f.At), Rule: f.Name}
	if f.Also.File != "" {
		also := place(f.Also)
		r.Also = &also
	}
	return r
}

func place(p finding.Place) admit.Place { return admit.Place{Article: p.File, Line: p.Line} }
