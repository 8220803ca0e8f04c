package calculators

import (
	"math"

	"tankside/calculators/bath"
	q "tankside/calculators/quantity"
)

// Measures that several calculators ask for, each with the range that is
// accepted.

const (
	litre  = 1e-3
	minute = 60.
	hour   = 3600.
	kWh    = 3.6e6
)

var inf = math.Inf(1)

func volume(low, high float64) []Measure {
	return []Measure{{q.Volume, low, high, "L", "US gal"}}
}

func temperature(low, high float64) []Measure {
	return []Measure{{q.Temperature, low, high, "°C", "°F"}}
}

func length(low, high float64) []Measure {
	return []Measure{{q.Length, low, high, "mm", "in"}}
}

func watts(low, high float64) []Measure { return []Measure{{q.Power, low, high, "kW", "kW"}} }

func mass(low, high float64) []Measure { return []Measure{{q.Mass, low, high, "kg", "lb"}} }

// strengths of a bath in all the ways that labels give them.
func strengths(low, high float64) []Measure {
	return []Measure{
		{q.VolumeFraction, low, high, "% v/v", "% v/v"},
		{q.MassFraction, low, high, "% w/w", "% w/w"},
		{q.MassConcentration, low * 1000, high * 1000, "g/L", "oz/US gal"},
	}
}

var yesNo = []Choice{{"yes", "yes"}, {"no", "no"}}

// volumeInput asks for the bath, or for its size instead.
var (
	volumeInput = Input{Name: "volume", Label: "Volume of the bath", Required: true, Measures: volume(0.2*litre, 100),
		Or: [][]string{{"length", "width", "depth"}}, Help: "The filled volume, not the tank's brim."}
	lengthInput = Input{Name: "length", Label: "Length inside", Measures: length(0.02, 20), Help: "Without it the bath is taken as wide as it is deep."}
	widthInput  = Input{Name: "width", Label: "Width inside", Measures: length(0.02, 20)}
	depthInput  = Input{Name: "depth", Label: "Depth of the liquid", Measures: length(0.02, 10)}

	lidInput        = Input{Name: "lid", Label: "Lid closed", Choices: yesNo, Default: "no", Help: "An open surface loses most of a hot bath's heat."}
	insulationInput = Input{Name: "insulation", Label: "Insulation of the walls", Measures: length(0, 0.5), Default: "none", None: true,
		Help: "Mineral wool or the like, on sides and bottom."}
	airInput       = Input{Name: "air", Label: "Air in the room", Measures: temperature(-10, 50), Default: "20 °C"}
	humidityInput  = Input{Name: "humidity", Label: "Relative humidity of the room", Measures: []Measure{{q.Fraction, 0, 1, "%", "%"}}, Default: "50 %"}
	draughtInput   = Input{Name: "draught", Label: "Draught over the surface", Measures: []Measure{{q.Speed, 0, 5, "m/s", "ft/min"}}, Default: "0 m/s", Help: "Rim exhaust or an open door: about 0.3 m/s."}
	altitudeInput  = Input{Name: "altitude", Label: "Altitude of the shop", Measures: []Measure{{q.Length, -430, 4000, "m", "ft"}}, Default: "0 m"}
	vesselInput    = Input{Name: "vessel-mass", Label: "Mass of the empty tank", Measures: mass(0, 1e5), Help: "Without it: 2 mm of stainless steel all round."}
	loadMassInput  = Input{Name: "load-mass", Label: "Mass of parts in the bath", Measures: mass(0, 1e5), Default: "0 kg"}
	materialInput  = Input{Name: "load-material", Label: "Material of the parts", Choices: materials(), Default: "steel"}
	ceilingInput   = Input{Name: "ceiling", Label: "Highest temperature the chemistry allows", Measures: temperature(0, 120)}
	flashInput     = Input{Name: "flash-point", Label: "Flash point of the bath", Measures: temperature(-50, 300), Help: "From the safety data sheet, where there is one."}
	ultrasonicHelp = "Electrical power of the sound while it runs. Leave 0 W where the sound stays off."
	frequencyInput = Input{Name: "frequency", Label: "Frequency", Required: true, Measures: []Measure{{q.Frequency, 15e3, 5e6, "kHz", "kHz"}}}
)

// material of a load with its specific heat in J/(kg·K) near 300 K: F. P.
// Incropera, Fundamentals of Heat and Mass Transfer (6th ed. 2007), tables A.1
// and A.3; plastics and cast iron from memory.
type material struct {
	name, label string
	heat        float64
}

var loads = []material{
	{"steel", "steel", 434},
	{"stainless-steel", "stainless steel", 477},
	{"cast-iron", "cast iron", 500},
	{"aluminium", "aluminium", 903},
	{"brass", "brass", 380},
	{"bronze", "bronze", 420},
	{"copper", "copper", 385},
	{"zinc", "zinc", 389},
	{"magnesium", "magnesium", 1024},
	{"titanium", "titanium", 522},
	{"nickel", "nickel", 444},
	{"glass", "glass", 750},
	{"ceramic", "ceramic", 765},
	{"plastic", "plastic", 1500},
}

func materials() []Choice {
	c := make([]Choice, len(loads))
	for i, m := range loads {
		c[i] = Choice{m.name, m.label}
	}
	return c
}

func specificHeat(name string) float64 {
	for _, m := range loads {
		if m.name == name {
			return m.heat
		}
	}
	return loads[0].heat
}

// soundToHeat is the share of the electrical power of the sound that ends as
// heat in the bath: likely, low and high. Generator and transducers keep the
// rest (0.4–0.8 from memory).
const (
	soundToHeat     = 0.6
	soundToHeatLow  = 0.4
	soundToHeatHigh = 0.8
)

// lossBand is by how much the heat losses may be off either way: in the open
// the scatter of evaporation measurements about Shah's correlation, larger
// above 80 °C; under a lid how well it fits, for which there is no source.
func lossBand(t float64, lid bool) float64 {
	switch {
	case lid:
		return 0.4
	case t > 80:
		return 0.3
	}
	return 0.2
}

// steelHeat is the specific heat of a tank's stainless steel in J/(kg·K).
const steelHeat = 500.

// sheetMass estimates an empty tank: 2 mm of stainless steel around the liquid
// and 30 % for rim and frame.
func sheetMass(v bath.Vessel) float64 { return (v.Walls() + v.Surface()) * 0.002 * 7900 * 1.3 }
