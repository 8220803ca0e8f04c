package water

import "math"

// Class is how hard a water is, in the four classes of the U.S. Geological
// Survey: soft to 60, moderately hard to 120, hard to 180, very hard above,
// in mg/L as CaCO₃ (class limits from memory). hardness is in kg/m³ as CaCO₃.
func Class(hardness float64) string {
	switch milligrams := hardness * 1000; {
	case milligrams <= 60:
		return "soft"
	case milligrams <= 120:
		return "moderately hard"
	case milligrams <= 180:
		return "hard"
	}
	return "very hard"
}

// Saturation is the working of a Langelier saturation index.
type Saturation struct {
	A, B, C, D float64 // factors for dissolved solids, temperature, calcium, alkalinity
	PHs        float64 // the pH at which the water would just not dissolve or lay down calcite
	Index      float64 // pH − PHs
	Stability  float64 // 2·PHs − pH, J. W. Ryznar, J. Am. Water Works Assoc. 36 (1944) 472
}

// Langelier computes the saturation index of a make-up or rinse water from its
// temperature in °C, its pH, calcium and alkalinity in kg/m³ as CaCO₃ and
// dissolved solids in kg/m³.
//
// pHs = (9.3 + A + B) − (C + D), the handbook form of W. F. Langelier, J. Am.
// Water Works Assoc. 28 (1936) 1500. Valid 0–90 °C, below about 5000 mg/L,
// pH 6.5–9; as meaning good to ±0.3. It says nothing about built alkaline
// cleaners, whose silicates, phosphates and chelants hold calcium back.
func Langelier(temperature, ph, calcium, alkalinity, solids float64) Saturation {
	s := Saturation{
		A: (math.Log10(solids*1000) - 1) / 10,
		B: -13.12*math.Log10(temperature+273) + 34.55,
		C: math.Log10(calcium*1000) - 0.4,
		D: math.Log10(alkalinity * 1000),
	}
	s.PHs = 9.3 + s.A + s.B - s.C - s.D
	s.Index, s.Stability = ph-s.PHs, 2*s.PHs-ph
	return s
}
