// Package bath models an open or lidded hot tank with ultrasonics: its heat,
// its dissolved gas and its sound field.
//
// # Heat
//
// The bath is taken as well stirred, so one temperature t describes it:
//
//	(m·cp + Σ mᵢcᵢ)·dt/dτ = P − evaporation − convection − radiation − walls − bottom
//
// with Shah's correlation for evaporation, free convection and radiation from
// the surface, and for the walls free convection and radiation through the
// insulation. What each correlation was checked against stands beside it. The
// result is good to a fifth of the losses, which is the scatter of the evaporation
// data, and to less near boiling and near the room: see [Vessel.LossBand]. [Vessel.Scale] carries
// that band.
//
// # Gas and sound
//
// See [Saturation], [Degassing] and [ResonantRadius].
package bath

import (
	"math"

	"tankside/calculators/air"
	"tankside/calculators/safety"
	"tankside/calculators/water"
)

const (
	stefan  = 5.670374e-8 // W/(m²·K⁴), CODATA 2018
	gravity = 9.80665

	// WaterEmissivity of a water surface for heat radiation; handbooks give 0.95–0.96.
	WaterEmissivity = 0.95
	// CladEmissivity of a painted or oxidised jacket.
	CladEmissivity = 0.9
	// BareEmissivity of clean stainless steel, WoolConductivity of insulation in W/(m·K), LidTransmittance of a closed single-skin lid in
	// W/(m²·K) and LidLeak, the share of the open surface's evaporation that finds its way past a loose lid: what they rest on stands with the numbers.
	BareEmissivity   = safety.BareEmissivity
	WoolConductivity = safety.WoolConductivity
	LidTransmittance = safety.LidTransmittance
	LidLeak          = safety.LidLeak
)

// Vessel is a tank of hot water. All in SI, temperatures in °C.
type Vessel struct {
	Volume float64 // m³ of bath
	Length float64 // m, of the surface
	Width  float64 // m
	Depth  float64 // m of bath

	Lid            bool
	LidLeak        float64 // share of open evaporation under a lid
	Insulation     float64 // m of mineral wool on walls and bottom
	Conductivity   float64 // W/(m·K) of the insulation
	WallEmissivity float64 // of bare walls
	OpenBottom     bool    // the bottom hangs in the room's air and loses heat too

	Fixed float64 // J/K of vessel and load, which follow the bath's temperature

	Air      float64 // °C
	Humidity float64 // 0–1
	Draught  float64 // m/s of air over the surface
	Pressure float64 // Pa

	Power float64 // W into the bath from heater and sound

	// Scale multiplies every loss; 1 is the best estimate.
	Scale float64
}

// Loss is where heat goes at one bath temperature, in W; Evaporation is also
// given as water in kg/s.
type Loss struct {
	Evaporation, Convection, Radiation, Lid, Walls, Bottom float64
	Water                                                  float64
}

// Total of the losses in W.
func (l Loss) Total() float64 {
	return l.Evaporation + l.Convection + l.Radiation + l.Lid + l.Walls + l.Bottom
}

// Surface is the area of the bath's surface in m².
func (v *Vessel) Surface() float64 { return v.Length * v.Width }

// Walls is the wetted area of the side walls in m².
func (v *Vessel) Walls() float64 { return 2 * (v.Length + v.Width) * v.Depth }

// Cube gives a vessel of that volume the proportions of a cube, for want of
// anything better known.
func Cube(volume float64) (length, width, depth float64) {
	side := math.Cbrt(volume)
	return side, side, side
}

// Loss at a bath temperature. A bath colder than the room gains by convection
// and radiation, which are then negative; condensation on it is left out.
func (v *Vessel) Loss(t float64) Loss {
	var l Loss
	area := v.Surface()
	rate := area * EvaporationRate(t, v.Air, v.Humidity, v.Pressure) * (1 + draughtFactor*v.Draught)
	latent := water.LatentHeat(t)
	convection := area * surfaceConvection(t, v.Air, v.Humidity, v.Pressure, area/(2*(v.Length+v.Width))) * (1 + draughtFactor*v.Draught)
	radiation := area * radiation(WaterEmissivity, t, v.Air)
	if v.Lid {
		l.Water = rate * v.LidLeak
		l.Lid = area * LidTransmittance * (t - v.Air)
		if open := convection + radiation; l.Lid > open { // a lid is never worse than none
			l.Lid = math.Max(open, 0)
		}
	} else {
		l.Water, l.Convection, l.Radiation = rate, convection, radiation
	}
	l.Evaporation = l.Water * latent
	l.Walls = v.Walls() * v.wall(t, v.Depth, vertical)
	if v.OpenBottom {
		l.Bottom = area * v.wall(t, area/(2*(v.Length+v.Width)), facingDown)
	}
	return l.times(v.scale())
}

// LossBand is by how much the losses at a bath temperature may be off either way, as a share of them. It covers the other published correlations of
// evaporation, each where it was made for; TestBandCoversOtherCorrelations has them with their sources, from 25 to 95 °C and to 2,000 m. In the open
// it is 0.2, the scatter of the measurements about Shah's correlation, and more at both ends:
//
//   - where the water drives out little vapour, below some 40 °C in a usual room, for there each breath of air counts: 0.5 where its vapour pressure
//     is 1.5 kPa above the room's or less, 0.2 from 4.5 kPa on;
//   - where the vapour has more than a fifth of the air's pressure, 61 °C at sea level, for the correlations differ in how it then drives itself out:
//     it grows to 0.5 at three quarters, 92 °C at sea level and 85 °C at 2,000 m.
//
// Under a lid it is how well the lid fits, 0.4, for which there is no source, and no less than in the open.
func (v *Vessel) LossBand(t float64) float64 {
	vapour := water.VapourPressure(t)
	hot := (vapour/v.Pressure - 0.2) / 0.55
	cool := 1 - (vapour-air.Vapour(v.Air, v.Humidity)-1500)/3000
	band := safety.LossBandLeast + (safety.LossBandMost-safety.LossBandLeast)*math.Max(0, math.Min(1, math.Max(hot, cool)))
	if v.Lid {
		return math.Max(safety.LossBandLid, band)
	}
	return band
}

func (v *Vessel) scale() float64 {
	if v.Scale == 0 {
		return 1
	}
	return v.Scale
}

func (l Loss) times(k float64) Loss {
	return Loss{l.Evaporation * k, l.Convection * k, l.Radiation * k, l.Lid * k, l.Walls * k, l.Bottom * k, l.Water * k}
}

// draughtFactor: W. H. Carrier's evaporation formula (Trans. ASHVE 24 (1918)
// 25; ASHRAE Handbook HVAC Applications) has 0.089 + 0.0782·v, that is a
// factor 1 + 0.88 v with v in m/s. It agrees with the U.S. Department of
// Energy's steam tip sheet 19, by which 3 mph more than double the loss.
const draughtFactor = 0.0782 / 0.089

// EvaporationRate from a still open surface in kg/(m²·s). M. M. Shah, HVAC&R
// Research 8 (2002) 125 and ASHRAE Transactions 120(2) (2014) SE-14-001:
//
//	E = C·ρw·(ρr − ρw)^⅓·(Ww − Wr) kg/(m²·h), C = 35, or 40 where ρr − ρw ≤ 0.02
//
// ρ the dry air per volume of moist air at the surface and in the room, and
// never below 5e-5·(pw − pr). Mean deviation from the eleven sets of data it
// was made for, 7–94 °C: 18 %. Against the open-tank tables in the tests it
// stays within a fifth up to 80 °C and is up to three tenths high above.
//
// Between the two constants the larger result counts, so that a hotter bath
// never evaporates less.
//
// The data are from near sea level. The correlation is the analogy of heat and mass by free convection, in whose constant stands the diffusivity of
// vapour to the power of ⅔, and that goes as 1/pressure (E. N. Fuller, P. D. Schettler and J. C. Giddings, Ind. Eng. Chem. 58 (1966) 19): so the result
// grows with the altitude by (sea level ÷ pressure)^⅔ beside what density and humidity ratio say.
func EvaporationRate(t, room, humidity, pressure float64) float64 {
	pw, pr := water.VapourPressure(t), air.Vapour(room, humidity)
	if pw <= pr {
		return 0
	}
	pw = math.Min(pw, pressure*0.995) // boiling
	rate := 5e-5 * (pw - pr)
	w, r := air.DryDensity(t, pw, pressure), air.DryDensity(room, pr, pressure)
	if d := r - w; d > 0 {
		thin := air.SeaLevel / pressure
		lift := math.Max(35*math.Cbrt(d), 40*math.Cbrt(math.Min(d, 0.02))) * math.Cbrt(thin*thin)
		rate = math.Max(rate, lift*w*(air.HumidityRatio(pw, pressure)-air.HumidityRatio(pr, pressure)))
	}
	return rate / 3600
}

// surfaceConvection is the heat in W/m² that a bath's surface gives to still
// air: McAdams, hot plate facing up (Incropera, Fundamentals of Heat and Mass
// Transfer, 6th ed., equations 9.30 and 9.31), driven by the difference in
// density of the moist air relative to that of the room, over the length
// area/perimeter.
func surfaceConvection(t, room, humidity, pressure, length float64) float64 {
	surface := air.Density(t, math.Min(water.VapourPressure(t), pressure*0.995), pressure)
	away := air.Density(room, air.Vapour(room, humidity), pressure)
	film := (t + room) / 2
	k := air.Conductivity(film)
	ra := rayleigh((away-surface)/away, length, film, pressure, k)
	nu := 0.27 * math.Sqrt(math.Sqrt(math.Abs(ra))) // stable layer, as a hot plate facing down
	if ra > 0 {
		nu = math.Max(0.54*math.Sqrt(math.Sqrt(ra)), 0.15*math.Cbrt(ra))
	}
	return nu * k / length * (t - room)
}

// rayleigh number for a relative difference in density, in air of conductivity
// k.
func rayleigh(buoyancy, length, film, pressure, k float64) float64 {
	density := air.DryDensity(film, 0, pressure)
	viscosity, diffusivity := air.Viscosity(film)/density, k/(density*air.HeatCapacity)
	return gravity * buoyancy * length * length * length / (viscosity * diffusivity)
}

func radiation(emissivity, t, room float64) float64 {
	a, b := t+water.Kelvin, room+water.Kelvin
	return emissivity * stefan * (a*a + b*b) * (a + b) * (t - room)
}

// nusselt is S. W. Churchill and H. H. S. Chu's correlation for a
// vertical plate, Int. J. Heat Mass Transfer 18 (1975) 1323, for all Rayleigh
// numbers; term is prandtlTerm of the Prandtl number.
func nusselt(ra, term float64) float64 {
	n := 0.825 + 0.387*math.Cbrt(math.Sqrt(ra))/term
	return n * n
}

func prandtlTerm(prandtl float64) float64 {
	return math.Pow(1+math.Pow(0.492/prandtl, 9./16), 8./27)
}

// airTerm is the term for air, whose Prandtl number is 0.71 within a hundredth
// from 0 to 100 °C; the heat follows it by less than a thousandth.
var airTerm = prandtlTerm(0.71)

type facing uint8

const (
	vertical facing = iota
	facingDown
)

// outside is the heat in W/m² that a wall at t gives to the room.
func (v *Vessel) outside(t, length float64, emissivity float64, f facing) float64 {
	film := (t + v.Air) / 2
	k := air.Conductivity(film)
	ra := rayleigh(math.Abs(t-v.Air)/(film+water.Kelvin), length, film, v.Pressure, k)
	nu := 0.27 * math.Sqrt(math.Sqrt(ra)) // Incropera 6th ed. equation 9.32
	if f == vertical {
		nu = nusselt(ra, airTerm)
	}
	return nu*k/length*(t-v.Air) + radiation(emissivity, t, v.Air)
}

// wall is the heat in W/m² through a wall of the bath: bare, or through the
// insulation with its outer skin at the temperature at which both agree.
// Against a table of bare walls it is within 3 %.
func (v *Vessel) wall(t, length float64, f facing) float64 {
	bare := v.outside(t, length, v.WallEmissivity, f)
	if v.Insulation <= 0 || t == v.Air {
		return bare
	}
	k := v.Conductivity / v.Insulation
	// Secant steps in the skin temperature; the balance is nearly linear.
	balance := func(skin float64) float64 {
		return k*(t-skin) - v.outside(skin, length, CladEmissivity, f)
	}
	a, b := v.Air, t
	fa, fb := balance(a), balance(b)
	for range 40 {
		skin := b - fb*(b-a)/(fb-fa)
		fs := balance(skin)
		if fs*fb < 0 {
			a, fa = b, fb
		} else {
			fa /= 2 // Illinois: keeps the far end moving
		}
		b, fb = skin, fs
		if math.Abs(fs) < 1e-7*math.Abs(bare)+1e-12 || a == b || fa == fb {
			break
		}
	}
	through := k * (t - b)
	if math.Abs(through) > math.Abs(bare) { // insulation never makes it worse
		return bare
	}
	return through
}
