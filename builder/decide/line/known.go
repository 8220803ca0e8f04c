package line

import (
	"slices"

	"tankside/builder/manual"
)

// Titration is what a tank's bath has of alkalinity and acidity in kg/m³ as CaCO₃, at the upper end of its strength of today; 0 where its
// chemistry does not say. carbonate tells that its alkali is carbonate or phosphate alone. ok is false where the tank's chemistry is not
// known or the strengths cannot be compared.
func Titration(m *manual.Manual, t *manual.Tank) (alkalinity, acidity float64, carbonates, ok bool) {
	a := m.Named(manual.Chemistry, t.Chemistry.Name)
	if a == nil {
		return 0, 0, false, false
	}
	scale, ok := strength(t, a.Chemistry)
	return scale.High * a.Chemistry.Alkalinity.High, scale.High * a.Chemistry.Acidity.High, carbonate(a.Chemistry), ok
}

// Route lists the rinses that parts go through from a tank: those of the first process sheet that ends there, or the first rinse of the shop.
func Route(m *manual.Manual, t *manual.Tank) []*manual.Rinse {
	var route []*manual.Rinse
	from := -1
	for _, w := range ways(m) {
		if &m.Shop.Tanks[w.tank] == t && w.from == from && len(route) < len(m.Shop.Rinses) {
			from = w.to
			route = append(route, &m.Shop.Rinses[from])
		}
	}
	return route
}

// Shared reports whether something else is dragged into the rinses of a tank's route: another bath, or its own by another way.
func Shared(m *manual.Manual, t *manual.Tank) bool {
	before := map[*manual.Rinse]int{} // the rinse from which the route comes
	from := -1
	for _, r := range Route(m, t) {
		before[r] = from
		from = slices.IndexFunc(m.Shop.Rinses, func(o manual.Rinse) bool { return o.ID == r.ID })
	}
	return slices.ContainsFunc(ways(m), func(w way) bool {
		from, on := before[&m.Shop.Rinses[w.to]]
		return on && (&m.Shop.Tanks[w.tank] != t || w.from != from)
	})
}

// Water is the pH and the alkalinity of what is fed to a rinse, as the shop file gives them; pure tells that it is water without salts.
func Water(m *manual.Manual, r *manual.Rinse) (ph, alkalinity manual.Limit, isPure bool) {
	ph, alkalinity = r.PH, r.Alkalinity
	switch {
	case says(r.Water, pure):
		return ph, alkalinity, !alkalinity.Set
	case r.Water == "" || says(r.Water, mains):
		if !ph.Set {
			ph = m.Shop.Water.PH
		}
		if !alkalinity.Set {
			alkalinity = m.Shop.Water.Alkalinity
		}
	}
	return ph, alkalinity, false
}
