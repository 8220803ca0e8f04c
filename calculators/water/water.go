// Package water holds the properties of pure water between 0 and 100 °C near
// atmospheric pressure, and what the hardness of a water means.
//
// Temperatures are in °C, everything else is SI. The correlations are compact
// ones, each with its source; the tests compare them with IAPWS-95. A
// detergent of a few per cent moves them by half a per cent or less.
//
// Outside 0–100 °C the functions go on smoothly for a few kelvin and are not to
// be trusted further; calculators refuse such temperatures.
package water

import "math"

// Kelvin is 0 °C on the thermodynamic scale.
const Kelvin = 273.15

// critical temperature of water in K, IAPWS R2-83(1992).
const critical = 647.096

// MolarMass of water in kg/mol.
const MolarMass = 0.018015268

// Density in kg/m³. G. S. Kell, J. Chem. Eng. Data 20 (1975) 97, equation for
// 0–150 °C at 101.325 kPa; within 0.002 % of IAPWS-95.
func Density(t float64) float64 {
	return (999.83952 + t*(16.945176+t*(-7.9870401e-3+t*(-46.170461e-6+t*(105.56302e-9-t*280.54253e-12))))) / (1 + 16.879850e-3*t)
}

// HeatCapacity at constant pressure in J/(kg·K). A sixth-order fit to IAPWS-95
// at 101.325 kPa, within 0.2 J/(kg·K) over 0–100 °C.
func HeatCapacity(t float64) float64 {
	return 4219.2876 + t*(-3.348088+t*(0.11202456+t*(-2.0439422e-3+t*(2.2736414e-5+t*(-1.3635613e-7+t*3.4489118e-10)))))
}

// VapourPressure over a flat surface, in Pa. W. Wagner and A. Pruß, IAPWS
// SR1-86(1992) equation 1; 273–647 K, within 0.01 %.
func VapourPressure(t float64) float64 {
	kelvin := t + Kelvin
	u := 1 - kelvin/critical
	root := math.Sqrt(u)
	u3 := u * u * u
	return 22.064e6 * math.Exp(critical/kelvin*
		(-7.85951783*u+1.84408259*u*root-11.7866497*u3+22.6807411*u3*root-15.9618719*u3*u+1.80122502*u3*u3*u*root))
}

// BoilingPoint at a pressure in Pa, the inverse of VapourPressure between 0
// and 120 °C; pressures beyond give the nearer end.
func BoilingPoint(pressure float64) float64 {
	low, high := 0., 120.
	for range 60 {
		if middle := (low + high) / 2; VapourPressure(middle) < pressure {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// LatentHeat of evaporation in J/kg. A cubic fit to IAPWS-95 on the saturation
// line, within 0.04 kJ/kg over 0–100 °C.
func LatentHeat(t float64) float64 {
	return 1000 * (2500.9062 + t*(-2.3746813+t*(5.2187616e-4-t*1.2244443e-5)))
}

// Viscosity in Pa·s. IAPWS SR6-08(2011), 0.1 MPa, 253–383 K.
func Viscosity(t float64) float64 {
	r := (t + Kelvin) / 300
	return 1e-6 * (280.68*math.Pow(r, -1.9) + 511.45*math.Pow(r, -7.7) + 61.131*math.Pow(r, -19.6) + 0.45903*math.Pow(r, -40))
}

// SurfaceTension against air in N/m. IAPWS R1-76(2014). Wetting agents bring it
// down to about half.
func SurfaceTension(t float64) float64 {
	u := 1 - (t+Kelvin)/critical
	return 0.2358 * math.Pow(u, 1.256) * (1 - 0.625*u)
}

// SpeedOfSound in m/s. W. Marczak, J. Acoust. Soc. Am. 102 (1997) 2776,
// 0–95 °C; within 0.1 m/s of IAPWS-95.
func SpeedOfSound(t float64) float64 {
	return 1402.385 + t*(5.038813+t*(-5.799136e-2+t*(3.287156e-4+t*(-1.398845e-6+t*2.787860e-9))))
}
