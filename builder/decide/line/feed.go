package line

import (
	"math"
	"strings"

	"tankside/builder/manual"
	"tankside/calculators/safety"
	"tankside/calculators/water"
)

// pure are words for water without salts, as people write them in “water”.
var pure = []string{"deionised", "deionized", "demineralised", "demineralized", "distilled", "purified", "reverse osmosis"}

// mains are words for the shop's own water; no word means it too.
var mains = []string{"mains", "tap", "town", "shop"}

func says(text string, words []string) bool {
	text = strings.ToLower(text)
	for _, w := range words {
		if strings.Contains(text, w) {
			return true
		}
	}
	return false
}

// feed is the water of a rinse itself, as far as one knows it.
func feed(m *manual.Manual, r *manual.Rinse) (f fluid) {
	shop := &m.Shop.Water
	f.heat = middle(shop.Temperature)
	f.rests(shop.Temperature)
	ph, alkalinity, isPure := Water(m, r)
	if isPure {
		f.Liquid = water.Pure()
		return f
	}
	f.rests(ph, alkalinity)
	if !ph.Set {
		f.lacks("ph", r.Name, r.At)
	}
	if !alkalinity.Set {
		f.lacks("alkalinity", r.Name, r.At)
	}
	if len(f.missing) > 0 {
		return f
	}
	at := f.heat
	if math.IsNaN(at) {
		at = cold
	}
	f.Liquid = water.Natural(at, ph.High, math.Max(0, alkalinity.High)*perEquivalent)
	f.alkali = Span{alkalinity.High, alkalinity.High}
	return f
}

// cold is the temperature of a laboratory, in °C, at which headers give a pH; a rinse whose temperature is not known is taken to have it.
const cold = safety.Laboratory
