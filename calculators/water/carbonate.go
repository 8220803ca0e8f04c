package water

import "math"

// Concentrations of dissolved substances are in mol/m³, that is mmol/L; alkalinity in mol/m³ of equivalents.

// Dissociation gives the constants of carbonic acid, K1 and K2 in mol/m³, and of water, Kw in (mol/m³)², at a temperature in °C.
//
// K1 and K2: L. N. Plummer and E. Busenberg, Geochim. Cosmochim. Acta 46 (1982) 1011, 0–90 °C; Kw: the expression that PHREEQC (USGS) and
// CE-QUAL-W2 carry with them. At infinite dilution: at 0.01 mol/L of salts the pH comes out about 0.1 high.
func Dissociation(t float64) (k1, k2, kw float64) {
	k := t + Kelvin
	log := math.Log10(k)
	power := func(a, b, c, d, e float64) float64 { return math.Pow(10, a+b*k+c/k+d*log+e/(k*k)) }
	return 1e3 * power(-356.3094, -0.06091964, 21834.37, 126.8339, -1684915),
		1e3 * power(-107.8871, -0.03252849, 5151.79, 38.92561, -563713.9),
		1e6 * power(-283.971, -0.05069842, 13323, 102.24447, -1119669)
}

// hydrogen is the concentration of hydrogen ions at a pH, in mol/m³.
func hydrogen(ph float64) float64 { return math.Pow(10, 3-ph) }

// Hydroxide is the free hydroxide at a pH and a temperature, in mol/m³.
func Hydroxide(t, ph float64) float64 {
	_, _, kw := Dissociation(t)
	return kw / hydrogen(ph)
}

// Acid is the free acid at a pH, in mol/m³.
func Acid(ph float64) float64 { return hydrogen(ph) }

// charge is the alkalinity that a mole of dissolved carbon dioxide stands for at a concentration of hydrogen ions.
func charge(h, k1, k2 float64) float64 { return (k1*h + 2*k1*k2) / (h*h + k1*h + k1*k2) }

// phosphates are the constants of phosphoric acid in mol/m³ at 25 °C, pK 2.15, 7.20 and 12.35 (any table); they change little up to 60 °C.
var phosphates = [3]float64{math.Pow(10, 3-2.15), math.Pow(10, 3-7.20), math.Pow(10, 3-12.35)}

// phosphate is the alkalinity that a mole of phosphate stands for: its charge beyond the one that it keeps at pH 4.5.
func phosphate(h float64) float64 {
	a, b, c := phosphates[0]*h*h, phosphates[0]*phosphates[1]*h, phosphates[0]*phosphates[1]*phosphates[2]
	return (a+2*b+3*c)/(h*h*h+a+b+c) - 1
}

// Carbon is the dissolved carbon dioxide in all its forms, in mol/m³, of a water whose pH and alkalinity are known; 0 where the alkalinity is
// all hydroxide.
func Carbon(t, ph, alkalinity float64) float64 {
	k1, k2, kw := Dissociation(t)
	h := hydrogen(ph)
	return math.Max(0, (alkalinity-kw/h+h)/charge(h, k1, k2))
}

// Solution is what decides about the pH of a water or a thin bath. All of it is conserved when solutions are mixed.
type Solution struct {
	Alkalinity float64 // to about pH 4.5; below 0 for free acid
	Carbon     float64
	Phosphate  float64
	Others     []Other
}

// Other is alkali or acid that is held by something else than carbonate, of which nothing is known but its amount at one pH. Alkali is taken to
// fall with the pH as free hydroxide does, acid to fall with the rising pH as free acid does: of all that one weak base or acid can do, that
// moves the pH of a water into which it is mixed the furthest.
type Other struct {
	PH     float64 // at which
	Amount float64 // so much is held, in mol/m³: alkali above 0, acid below
}

// surplus is the alkalinity that a solution would need at a pH beyond what it has; it rises with the pH.
func (s *Solution) surplus(ph, k1, k2 float64) float64 {
	h := hydrogen(ph)
	left := s.Carbon*charge(h, k1, k2) + s.Phosphate*phosphate(h) - s.Alkalinity
	for _, o := range s.Others {
		if o.Amount >= 0 {
			left += o.Amount * math.Pow(10, ph-o.PH)
		} else {
			left += o.Amount * math.Pow(10, o.PH-ph)
		}
	}
	return left
}

// PH is that of the solution at a temperature in °C: see Bounds.
func (s Solution) PH(t float64) float64 {
	low, _ := Bounds(t, []Part{{1, Liquid{s}}})
	return low
}

// Liquid is what a water or a bath may be, as far as is known: one of several solutions.
type Liquid []Solution

// Part is the share of a liquid in a mixture.
type Part struct {
	Share float64
	Liquid
}

// Bounds are the lowest and the highest pH at which the charges of a mixture balance, at a temperature in °C, whichever of its solutions each
// liquid is. The vessel is closed: no carbon dioxide is taken from the air or lost to it, and no lime falls out. Both lie between -1 and 15.
//
// What each part needs at a pH adds up and rises with the pH, so the highest is where the least that each may need balances.
func Bounds(t float64, parts []Part) (low, high float64) {
	k1, k2, kw := Dissociation(t)
	find := func(sign float64) float64 {
		a, b := -1., 15.
		for range 50 {
			ph := (a + b) / 2
			h := hydrogen(ph)
			sum := kw/h - h
			for i := range parts {
				worst := math.Inf(-1)
				for k := range parts[i].Liquid {
					worst = math.Max(worst, sign*parts[i].Liquid[k].surplus(ph, k1, k2))
				}
				if len(parts[i].Liquid) > 0 {
					sum += sign * worst * parts[i].Share
				}
			}
			if sum < 0 {
				a = ph
			} else {
				b = ph
			}
		}
		return (a + b) / 2
	}
	return find(1), find(-1)
}

// reference is the temperature of a laboratory, at which a bath's pH is taken to have been read.
const reference = 25.

// Alkaline is a bath with a total alkalinity in mol/m³ between two pH. It may hold its alkali as carbonate or as phosphate, or some of each, which
// lies between. Unless it is known to be of that sort, it may hold alkali that nothing holds back, see Other, or none but what is free.
func Alkaline(low, high, alkalinity float64, known bool) Liquid {
	var l Liquid
	for _, ph := range []float64{low, high} {
		held := math.Max(0, alkalinity-Hydroxide(reference, ph)+Acid(ph))
		l = append(l, Solution{Alkalinity: alkalinity, Carbon: Carbon(reference, ph, alkalinity)})
		switch {
		case !known:
			l = append(l, Solution{Alkalinity: alkalinity, Others: []Other{{ph, held}}}, Solution{Alkalinity: alkalinity - held})
		case ph > 5:
			l = append(l, Solution{Alkalinity: alkalinity, Phosphate: held / phosphate(hydrogen(ph))})
		}
	}
	return l
}

// Acidic is a bath with an acidity in mol/m³, by titration to pH 8.3, between two pH. It may give off all its acid, or none but what is free.
func Acidic(low, high, acidity float64) Liquid {
	return Liquid{
		{Alkalinity: -acidity, Others: []Other{{low, -math.Max(0, acidity-Acid(low))}}},
		{Alkalinity: -math.Min(acidity, Acid(high))},
	}
}

// inAir is the carbon dioxide that pure water in air takes up, in mol/m³: 0.034 mol/(L·atm) by 420 ppm (Henry's constant at 25 °C: R. Sander,
// Atmos. Chem. Phys. 15 (2015) 4399), which is pH 5.6.
const inAir = 0.0143

// Pure is deionised water, fresh or as it stands in air.
func Pure() Liquid { return Liquid{{}, {Carbon: inAir}} }

// Natural is a water of a known pH and alkalinity, read at a temperature in °C.
func Natural(t, ph, alkalinity float64) Liquid {
	return Liquid{{Alkalinity: alkalinity, Carbon: Carbon(t, ph, alkalinity)}}
}
