package admit

import (
	"slices"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/quantity"
	"tankside/calculators/safety"
)

// Meeting is a material in a bath, on a part and under soils.
type Meeting struct {
	*Bath
	Material *Material
	Features []fact.Ref // of the material, and of the part when there is one
	Part     []fact.Ref // of the part alone
	Windowed bool       // one of the load's materials is a device that gives its maker's window for sound
	Soils    []*Soil
}

// MadeOf finds the first of the substances that the material is made of.
func (x *Meeting) MadeOf(substances ...string) (fact.Ref, bool) {
	return fact.One(x.Material.MadeOf, substances...)
}

// Has finds the first of the features.
func (x *Meeting) Has(features ...string) (fact.Ref, bool) { return fact.One(x.Features, features...) }

// Contains finds the first of the constituents in the bath's chemistry.
func (b *Bath) Contains(constituents ...string) (fact.Ref, bool) {
	return fact.One(b.Chemistry.Contains, constituents...)
}

// Acid tells whether a chemistry is an acid: it says so, or its bath can come below pH 5 or never comes above pH 6. Pure water, which the
// air takes to 5.5, is none.
func Acid(c *Chemistry) bool {
	_, says := fact.One(c.Contains, "acid")
	return says || c.PH.Set && (c.PH.Low < safety.AcidBelow || c.PH.High <= safety.AcidTo)
}

// Alkali tells whether a chemistry is an alkali: it says so, or its bath never comes below pH 9 or can come to pH 11.
func Alkali(c *Chemistry) bool {
	_, says := fact.One(c.Contains, "free-caustic")
	return says || c.PH.Set && (c.PH.Low >= safety.AlkaliFrom || c.PH.High >= safety.AlkaliReaching)
}

// Exclusion is one thing that must not be done whatever the numbers say.
type Exclusion struct {
	finding.Rule

	// Group tells which exclusions are about the same: of a group only the first that hits is reported, the most telling one.
	Group string

	// Never tells that nobody may live with it, though its rule is about parts: people are hurt as well, at once or when the part fails.
	Never bool

	// In looks at a material in a bath; nil where the exclusion does not ask about the material.
	In func(*Meeting) *Hit
	// Of looks at a bath alone; nil where the exclusion asks about the material.
	Of func(*Bath, quantity.System) *Hit
}

// Hit is why an exclusion applies.
type Hit struct {
	Verdict Verdict // Conditions or No
	Says    Sentence
	Brief   Sentence      // a condition in a few words, for a narrow cell
	Remedy  string        // a sentence: what to change in a process sheet
	At      finding.Place // the fact that decides
	Also    finding.Place // the other fact, where two meet; zero when there is none
}

// exclusions lists them, within a group the most telling first.
var exclusions = []Exclusion{
	sealedPart, cadmiumInBath, soundOnSensitiveDevice,
	strongAlkaliOnLightMetal, acidOnHardSteel, acidOnReactiveMaterial, ammoniaOnCopperAlloy, chlorideOnStainless, solventOnPlastic, emulsionInPores,
	constituentAttacksMaterial,
	lowFrequencyOnSoftSurface,
	jarWithHeatOrSound, flammableInOrdinaryTank, nearFlashPoint, enzymeKilled,
}

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
		if h := ask(e); h != nil {
			list = append(list, Found{e, *h})
		}
	}
	return list
}

// telling leaves of each group of exclusions the first that says no, or the first.
func telling(list []Found) []Found {
	var kept []Found
	for _, f := range list {
		at := slices.IndexFunc(kept, func(k Found) bool { return f.Group != "" && k.Group == f.Group })
		switch {
		case at < 0:
			kept = append(kept, f)
		case kept[at].Verdict == Conditions && f.Verdict == No:
			kept[at] = f
		}
	}
	return kept
}

// Found is an exclusion that applies.
type Found struct {
	*Exclusion
	Hit
}
