package calculators

import (
	"math"

	q "tankside/builder/quantity"
	"tankside/calculators/bath"
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

var yesNo = []Choice{{"yes", "yes"}, {"no", "no"}}

// volumeInput asks for the bath, or for its size instead.
var (
	volumeInput = Input{Name: "volume", Label: "Volume of the bath", Required: true, Measures: []Measure{{q.Volume, 0.2 * litre, 100, "L", "US gal"}},
		Or: [][]string{{"length", "width", "depth"}}, Help: "The filled volume, not the tank's brim."}
	lengthInput = Input{Name: "length", Label: "Length inside", Measures: []Measure{{q.Length, 0.02, 20, "mm", "in"}}, Help: "Without it the bath is taken as wide as it is deep."}
	widthInput  = Input{Name: "width", Label: "Width inside", Measures: []Measure{{q.Length, 0.02, 20, "mm", "in"}}}
	depthInput  = Input{Name: "depth", Label: "Depth of the liquid", Measures: []Measure{{q.Length, 0.02, 10, "mm", "in"}}}

	lidInput        = Input{Name: "lid", Label: "Lid closed", Choices: yesNo, Default: "no", Help: "An open surface loses most of a hot bath's heat."}
	insulationInput = Input{Name: "insulation", Label: "Insulation of the walls", Measures: []Measure{{q.Length, 0, 0.5, "mm", "in"}}, Default: "none", None: true,
		Help: "Mineral wool or the like, on sides and bottom."}
	airInput       = Input{Name: "air", Label: "Air in the room", Measures: []Measure{{q.Temperature, -10, 50, "°C", "°F"}}, Default: "20 °C"}
	humidityInput  = Input{Name: "humidity", Label: "Relative humidity of the room", Measures: []Measure{{q.Fraction, 0, 1, "%", "%"}}, Default: "50 %"}
	draughtInput   = Input{Name: "draught", Label: "Draught over the surface", Measures: []Measure{{q.Speed, 0, 5, "m/s", "ft/min"}}, Default: "0 m/s", Help: "Rim exhaust or an open door: about 0.3 m/s."}
	altitudeInput  = Input{Name: "altitude", Label: "Altitude of the shop", Measures: []Measure{{q.Length, -430, 4000, "m", "ft"}}, Default: "0 m"}
	vesselInput    = Input{Name: "vessel-mass", Label: "Mass of the empty tank", Measures: []Measure{{q.Mass, 0, 1e5, "kg", "lb"}}, Help: "Without it: 2 mm of stainless steel all round."}
	loadMassInput  = Input{Name: "load-mass", Label: "Mass of parts in the bath", Measures: []Measure{{q.Mass, 0, 1e5, "kg", "lb"}}, Default: "0 kg"}
	materialInput  = Input{Name: "load-material", Label: "Material of the parts", Choices: materials, Default: "steel"}
	ceilingInput   = Input{Name: "ceiling", Label: "Highest temperature the chemistry allows", Measures: []Measure{{q.Temperature, 0, 120, "°C", "°F"}}}
	flashInput     = Input{Name: "flash-point", Label: "Flash point of the bath", Measures: []Measure{{q.Temperature, -50, 300, "°C", "°F"}}, Help: "From the safety data sheet, where there is one."}
	capacityInput  = Input{Name: "tank-capacity", Label: "Most the tank may hold", Measures: []Measure{{q.Volume, 0.1 * litre, 100, "L", "US gal"}}, Help: "Filled to the mark. Without it nobody checks that the tank has room."}
	insideInput    = Input{Name: "length", Label: "Length inside", Measures: lengthInput.Measures, Help: "With the width and the height to the rim: for the room above the mark."}
	freeboardInput = Input{Name: "freeboard", Label: "Height from the mark to the rim", Measures: []Measure{{q.Length, 0, 2, "mm", "in"}}, Help: "Room for the parts, not for filling."}
	dutyInput      = Input{Name: "duty", Label: "Share of the time that the sound runs", Measures: []Measure{{q.Fraction, 0, 1, "%", "%"}}, Default: "100 %"}
	coolingInput   = Input{Name: "cooling", Label: "Cooling of the tank", Measures: []Measure{{q.Power, 0, 5e6, "kW", "kW"}}, Default: "0 W", Help: "What a cooling coil takes out, with the heater off."}
	ultrasonicHelp = "Electrical power of the sound while it runs. Leave 0 W where the sound stays off."
	frequencyInput = Input{Name: "frequency", Label: "Frequency", Required: true, Measures: []Measure{{q.Frequency, 15e3, 5e6, "kHz", "kHz"}}}
)

// materials of a load, and their specific heats in J/(kg·K) near 300 K: F. P.
// Incropera, Fundamentals of Heat and Mass Transfer (6th ed. 2007), tables A.1
// and A.3; plastics and cast iron from memory. Their densities in kg/m³ are from
// the same tables; plastics are taken as light ones, for what they displace.
var (
	materials = []Choice{
		{"steel", "steel"}, {"stainless-steel", "stainless steel"}, {"cast-iron", "cast iron"}, {"aluminium", "aluminium"}, {"brass", "brass"}, {"bronze", "bronze"}, {"copper", "copper"},
		{"zinc", "zinc"}, {"magnesium", "magnesium"}, {"titanium", "titanium"}, {"nickel", "nickel"}, {"glass", "glass"}, {"ceramic", "ceramic"}, {"plastic", "plastic"},
	}
	specificHeats = [...]float64{434, 477, 500, 903, 380, 420, 385, 389, 1024, 522, 444, 750, 765, 1500}
	densities     = [...]float64{7854, 7900, 7200, 2702, 8530, 8800, 8933, 7140, 1740, 4500, 8900, 2500, 3970, 900}
)

func specificHeat(name string) float64 { return specificHeats[materialNumber(name)] }

func densityOf(name string) float64 { return densities[materialNumber(name)] }

func materialNumber(name string) int {
	for i := range materials {
		if materials[i].Value == name {
			return i
		}
	}
	return 0
}

// steelHeat is the specific heat of a tank's stainless steel in J/(kg·K).
const steelHeat = 500.

// sheetMass estimates an empty tank: 2 mm of stainless steel around the liquid
// and 30 % for rim and frame.
func sheetMass(v *bath.Vessel) float64 { return (v.Walls() + v.Surface()) * 0.002 * 7900 * 1.3 }
