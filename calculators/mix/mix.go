// Package mix holds the sums of strength: what to measure out, how to bring a
// bath back, and what a titration says.
//
// Strengths are fractions of neat concentrate by volume of bath, 0–1; volumes
// in m³, masses in kg, densities in kg/m³. Volumes are taken to add up, which
// is good to a per cent for cleaners.
package mix

import "tankside/builder/quantity"

// WaterDensity of make-up water at 20 °C in kg/m³.
const WaterDensity = 998.207

// FromMassFraction turns the mass of concentrate in the mass of bath into a
// fraction by volume.
func FromMassFraction(w, density float64) float64 {
	return w / density / (w/density + (1-w)/WaterDensity)
}

// ToMassFraction is the inverse of FromMassFraction.
func ToMassFraction(v, density float64) float64 {
	return v * density / (v*density + (1-v)*WaterDensity)
}

// FromMassConcentration turns kg of concentrate per m³ of bath into a fraction
// by volume; above the concentrate's own density it is more than 1.
func FromMassConcentration(c, density float64) float64 { return c / density }

// ToMassConcentration is the inverse of FromMassConcentration.
func ToMassConcentration(v, density float64) float64 { return v * density }

// ByVolume turns a strength in the SI unit of its measure into a fraction by
// volume. Any measure but those of mass is taken for one by volume.
func ByVolume(x float64, measure quantity.Kind, density float64) float64 {
	switch measure {
	case quantity.MassFraction:
		return FromMassFraction(x, density)
	case quantity.MassConcentration:
		return FromMassConcentration(x, density)
	}
	return x
}

// FromVolume is the inverse of ByVolume.
func FromVolume(v float64, measure quantity.Kind, density float64) float64 {
	switch measure {
	case quantity.MassFraction:
		return ToMassFraction(v, density)
	case quantity.MassConcentration:
		return ToMassConcentration(v, density)
	}
	return v
}

// TopUp is what to do to a bath.
type TopUp struct {
	Drain       float64 // m³ to let out first
	Concentrate float64 // m³ to add
	Water       float64 // m³ to add
	Volume      float64 // m³ afterwards
}

// Natural is the volume at which a bath reaches a wanted strength with nothing
// let out: concentrate alone is added to a weak bath, water alone to a strong
// one. wanted must lie between 0 and 1, both excluded.
func Natural(volume, now, wanted float64) float64 {
	if wanted >= now {
		return volume * (1 - now) / (1 - wanted)
	}
	return volume * now / wanted
}

// Adjust finds what brings a volume of bath from one strength to another at a
// wanted volume with as little as possible let out:
//
//	(V − d)·c + x = W·t and (V − d) + x + w = W, with d, x, w ≥ 0
//
// for the drained volume d, concentrate x, water w, wanted volume W.
// Strengths must lie between 0 and 1, wanted above 0.
func Adjust(volume, now, wantedVolume, wanted float64) TopUp {
	keep := min(volume, wantedVolume)
	if now < 1 {
		keep = min(keep, wantedVolume*(1-wanted)/(1-now)) // leaves room for the concentrate
	}
	if now > 0 {
		keep = min(keep, wantedVolume*wanted/now) // leaves out what is too much already
	}
	x := wantedVolume*wanted - keep*now
	nothing := 1e-12 * max(volume, wantedVolume) // what rounding leaves over
	some := func(v float64) float64 {
		if v < nothing {
			return 0
		}
		return v
	}
	return TopUp{
		Drain:       some(volume - keep),
		Concentrate: some(x),
		Water:       some(wantedVolume - keep - x),
		Volume:      wantedVolume,
	}
}

// Equivalent masses in kg per mol of alkali: half a mole of CaCO₃, and NaOH.
const (
	EquivalentCaCO3 = 0.1000869 / 2
	EquivalentNaOH  = 0.0399971
)

// Alkalinity of a sample from the acid it took, in mol of equivalents per m³:
// Standard Methods for the Examination of Water and Wastewater, 2320 B, without
// the factor to mg/L CaCO₃. used and sample in m³, normality in mol/m³.
func Alkalinity(used, normality, sample float64) float64 { return used * normality / sample }

// Molar masses in kg/mol.
const (
	MolarMassCO2 = 0.0440095
	MolarMassCO3 = 0.0600089
)

// Split tells what an alkalinity is made of, in equivalents as given, from that to phenolphthalein (pH 8.3) and the total (to pH 4.5): Standard
// Methods 2320 B, table of alkalinity relationships. It holds for waters and baths whose alkali is hydroxide and carbonate; phosphate counts as
// carbonate, silicate and amines as hydroxide. free lies between 0 and total.
func Split(free, total float64) (hydroxide, carbonate, bicarbonate float64) {
	switch {
	case 2*free <= total:
		return 0, 2 * free, total - 2*free
	default:
		return 2*free - total, 2 * (total - free), 0
	}
}

// TakenUp is the carbon dioxide in mol/m³ that a bath has taken up since it had a ratio of total to free alkalinity, both in mol/m³ of
// equivalents. Each mole takes away one of the free alkalinity, be it that hydroxide turns into carbonate or carbonate into bicarbonate, and none
// of the total. Soil that uses up alkali counts with it, so that it is the most that it can be.
func TakenUp(free, total, freshRatio float64) float64 { return max(0, total/freshRatio-free) }

// EquivalentIron is the mass in kg of iron that takes a mole of acid, as Fe²⁺: half of 55.845 g/mol.
const EquivalentIron = 0.055845 / 2

// Spent is the share of its free alkalinity that a bath has lost since it had a ratio of total to free alkalinity, 0 to 1; see TakenUp. The total
// is above nought. Water that thins the bath takes both alike and does not count.
//
// Of an acid bath, with free acid to pH 3.7 and total to 8.3, both are what metal has taken: each equivalent of it takes one of the free acid, and
// its hydroxide, which falls out before pH 8.3, gives it back to the total. The solubility products of the hydroxides of iron, zinc, copper and
// nickel, 5e-16 mol³/L³ and less (CRC Handbook of Chemistry and Physics, from memory), leave less than 0.2 mmol/L of them dissolved there. What takes
// free and total acid alike, such as lime, is not in it, so that it is the least that is spent.
func Spent(free, total, freshRatio float64) float64 { return max(0, 1-free*freshRatio/total) }
