package quantity

import "math"

// Unit is a unit of one kind. The zero Unit is the plain number.
type Unit struct {
	Symbol string
	Kind   Kind

	factor float64 // SI = number × factor + offset
	offset float64
	shown  uint8   // bit 1<<System: offered and written in that system
	from   float64 // smallest number for which In prefers this unit to a smaller one; 0 for never
	other  string  // further spellings, separated by |
}

const (
	inSI   uint8 = 1 << SI
	inUS   uint8 = 1 << US
	inBoth       = inSI | inUS
)

// ratio is the symbol of "one part of concentrate to N parts of water".
const ratio = "1:N"

const (
	inch     = 0.0254
	foot     = 12 * inch
	pound    = 0.45359237
	ounce    = pound / 16
	usGallon = 231 * inch * inch * inch
	ukGallon = 4.54609e-3
	grain    = pound / 7000
	btu      = 1055.05585262
	minute   = 60
	hour     = 3600
	day      = 86400

	massCaCO3 = 100.0869 // g/mol
	massCaO   = 56.0774
	massHCO3  = 61.0168
	massCa    = 40.078
)

// units holds every unit, those of a kind together, smallest first where In
// climbs from one to the next.
var units = [...]Unit{
	{Symbol: "", Kind: Number, factor: 1, shown: inBoth, from: tiny},
	{Symbol: "", Kind: PH, factor: 1, shown: inBoth, from: tiny, other: "pH"},

	{Symbol: "°C", Kind: Temperature, factor: 1, shown: inSI, from: tiny, other: "C|degC|deg C|degrees C|Celsius|° Celsius|degrees Celsius"},
	{Symbol: "°F", Kind: Temperature, factor: 5. / 9, offset: -160. / 9, shown: inUS, from: tiny, other: "F|degF|deg F|degrees F|Fahrenheit|degrees Fahrenheit"},
	{Symbol: "K", Kind: Temperature, factor: 1, offset: -273.15, other: "kelvin"},

	{Symbol: "K", Kind: TemperatureDifference, factor: 1, shown: inSI, from: tiny, other: "°C|C|degC|kelvin"},
	{Symbol: "°F", Kind: TemperatureDifference, factor: 5. / 9, shown: inUS, from: tiny, other: "F|degF"},

	{Symbol: "mL", Kind: Volume, factor: 1e-6, shown: inSI, from: tiny, other: "ml|cm3|cc|millilitre|millilitres|milliliter|milliliters"},
	{Symbol: "L", Kind: Volume, factor: 1e-3, shown: inSI, from: 1, other: "l|litre|litres|liter|liters|dm3"},
	{Symbol: "m³", Kind: Volume, factor: 1, shown: inSI, from: 10, other: "cubic metres|cubic meters"},
	{Symbol: "US fl oz", Kind: Volume, factor: usGallon / 128, shown: inUS, from: tiny, other: "fl oz|floz|fl. oz.|fluid ounces"},
	{Symbol: "US qt", Kind: Volume, factor: usGallon / 4, shown: inUS, other: "qt|quart|quarts"},
	{Symbol: "US gal", Kind: Volume, factor: usGallon, shown: inUS, from: 0.5, other: "gal|gal.|gallon|gallons|gal US|US gallon|US gallons"},
	{Symbol: "imp gal", Kind: Volume, factor: ukGallon, other: "imperial gal|imperial gallon|imperial gallons|UK gal|gal UK|UK gallons|gal imp"},
	{Symbol: "imp fl oz", Kind: Volume, factor: ukGallon / 160, other: "UK fl oz"},
	{Symbol: "in³", Kind: Volume, factor: inch * inch * inch, other: "cubic inches|cu in"},
	{Symbol: "ft³", Kind: Volume, factor: foot * foot * foot, other: "cubic feet|cu ft"},

	{Symbol: "mg", Kind: Mass, factor: 1e-6, from: tiny, other: "milligram|milligrams"},
	{Symbol: "g", Kind: Mass, factor: 1e-3, shown: inSI, from: 1, other: "gram|grams"},
	{Symbol: "kg", Kind: Mass, factor: 1, shown: inSI, from: 1, other: "kilo|kilos|kilogram|kilograms"},
	{Symbol: "t", Kind: Mass, factor: 1000, from: 10, other: "tonne|tonnes"},
	{Symbol: "oz", Kind: Mass, factor: ounce, shown: inUS, from: tiny, other: "ounce|ounces"},
	{Symbol: "lb", Kind: Mass, factor: pound, shown: inUS, from: 1, other: "lbs|pound|pounds|lb."},

	{Symbol: "µm", Kind: Length, factor: 1e-6, shown: inSI, from: tiny, other: "um|micron|microns|micrometre|micrometer"},
	{Symbol: "mm", Kind: Length, factor: 1e-3, shown: inSI, from: 0.5, other: "millimetre|millimetres|millimeter|millimeters"},
	{Symbol: "cm", Kind: Length, factor: 1e-2, shown: inSI, other: "centimetre|centimetres|centimeter|centimeters"},
	{Symbol: "m", Kind: Length, factor: 1, shown: inSI, from: 2, other: "metre|metres|meter|meters"},
	{Symbol: "mil", Kind: Length, factor: inch / 1000, from: tiny, other: "mils|thou"},
	{Symbol: "in", Kind: Length, factor: inch, shown: inUS, from: 0.02, other: "inch|inches|in.|\""},
	{Symbol: "ft", Kind: Length, factor: foot, shown: inUS, from: 10, other: "foot|feet|'"},

	{Symbol: "mm²", Kind: Area, factor: 1e-6},
	{Symbol: "cm²", Kind: Area, factor: 1e-4, shown: inSI, from: tiny, other: "sq cm"},
	{Symbol: "dm²", Kind: Area, factor: 1e-2, shown: inSI},
	{Symbol: "m²", Kind: Area, factor: 1, shown: inSI, from: 0.1, other: "sq m|square metres|square meters"},
	{Symbol: "in²", Kind: Area, factor: inch * inch, shown: inUS, from: tiny, other: "sq in|square inches"},
	{Symbol: "ft²", Kind: Area, factor: foot * foot, shown: inUS, from: 1, other: "sq ft|square feet"},

	{Symbol: "s", Kind: Time, factor: 1, shown: inBoth, from: tiny, other: "sec|secs|second|seconds"},
	{Symbol: "min", Kind: Time, factor: minute, shown: inBoth, from: 2, other: "mins|minute|minutes"},
	{Symbol: "h", Kind: Time, factor: hour, shown: inBoth, from: 2, other: "hr|hrs|hour|hours"},
	{Symbol: "d", Kind: Time, factor: day, from: 2, other: "day|days"},
	{Symbol: "weeks", Kind: Time, factor: 7 * day, other: "week|wk"},

	{Symbol: "W", Kind: Power, factor: 1, shown: inBoth, from: tiny, other: "watt|watts"},
	{Symbol: "kW", Kind: Power, factor: 1000, shown: inBoth, from: 1, other: "kilowatt|kilowatts"},
	{Symbol: "MW", Kind: Power, factor: 1e6},
	{Symbol: "Btu/h", Kind: Power, factor: btu / hour, shown: inUS, other: "BTUh|BTU/hr"},
	{Symbol: "hp", Kind: Power, factor: 550 * foot * pound * 9.80665, other: "horsepower"},
	{Symbol: "kcal/h", Kind: Power, factor: 4186.8 / hour},

	{Symbol: "J", Kind: Energy, factor: 1, from: tiny, shown: inSI, other: "joule|joules"},
	{Symbol: "kJ", Kind: Energy, factor: 1000, from: 1, shown: inSI},
	{Symbol: "Wh", Kind: Energy, factor: hour},
	{Symbol: "Btu", Kind: Energy, factor: btu, shown: inUS, from: tiny},
	{Symbol: "kcal", Kind: Energy, factor: 4186.8},
	{Symbol: "MJ", Kind: Energy, factor: 1e6, shown: inSI},
	{Symbol: "kWh", Kind: Energy, factor: 1000 * hour, shown: inBoth, from: 0.1, other: "kW h|kW·h"},

	{Symbol: "Hz", Kind: Frequency, factor: 1, from: tiny, other: "hertz"},
	{Symbol: "kHz", Kind: Frequency, factor: 1000, shown: inBoth, from: 1},
	{Symbol: "MHz", Kind: Frequency, factor: 1e6, from: 1},

	{Symbol: "% v/v", Kind: VolumeFraction, factor: 0.01, shown: inBoth, from: tiny, other: "%|% vol|vol %|% by volume|%V|percent v/v|% v"},
	{Symbol: ratio, Kind: VolumeFraction, shown: inBoth},
	{Symbol: "mL/L", Kind: VolumeFraction, factor: 1e-3, shown: inSI},
	{Symbol: "fl oz/US gal", Kind: VolumeFraction, factor: 1. / 128, shown: inUS, other: "fl oz/gal|US fl oz/US gal"},

	{Symbol: "% w/w", Kind: MassFraction, factor: 0.01, shown: inBoth, from: tiny, other: "%|% m/m|wt %|% wt|w %|% by weight|% by mass|percent w/w"},
	{Symbol: "g/kg", Kind: MassFraction, factor: 1e-3},

	{Symbol: "µg/L", Kind: MassConcentration, factor: 1e-6, other: "ug/L|ppb"},
	{Symbol: "mg/L", Kind: MassConcentration, factor: 1e-3, shown: inBoth, from: tiny, other: "ppm|g/m3|mg/l"},
	{Symbol: "g/L", Kind: MassConcentration, factor: 1, shown: inBoth, from: 1, other: "kg/m3"},
	{Symbol: "% w/v", Kind: MassConcentration, factor: 10, shown: inBoth, other: "%|% m/v|g/100 mL|percent w/v"},
	{Symbol: "oz/US gal", Kind: MassConcentration, factor: ounce / usGallon, shown: inUS, other: "oz/gal"},
	{Symbol: "lb/US gal", Kind: MassConcentration, factor: pound / usGallon, other: "lb/gal"},

	{Symbol: "kg/m³", Kind: Density, factor: 1, shown: inSI},
	{Symbol: "kg/L", Kind: Density, factor: 1000, shown: inSI, from: tiny},
	{Symbol: "g/mL", Kind: Density, factor: 1000, shown: inSI, other: "g/cm3|g/cc"},
	{Symbol: "g/L", Kind: Density, factor: 1},
	{Symbol: "lb/US gal", Kind: Density, factor: pound / usGallon, shown: inUS, from: tiny, other: "lb/gal|ppg"},
	{Symbol: "lb/ft³", Kind: Density, factor: pound / (foot * foot * foot), shown: inUS},

	{Symbol: "W/m³", Kind: PowerDensity, factor: 1, other: ""},
	{Symbol: "kW/m³", Kind: PowerDensity, factor: 1000},
	{Symbol: "W/L", Kind: PowerDensity, factor: 1000, shown: inSI, from: tiny},
	{Symbol: "W/US gal", Kind: PowerDensity, factor: 1 / usGallon, shown: inUS, from: tiny, other: "W/gal|watts/gal|watts/gallon"},

	{Symbol: "Pa", Kind: Pressure, factor: 1},
	{Symbol: "hPa", Kind: Pressure, factor: 100},
	{Symbol: "mbar", Kind: Pressure, factor: 100},
	{Symbol: "kPa", Kind: Pressure, factor: 1000, shown: inSI, from: tiny},
	{Symbol: "bar", Kind: Pressure, factor: 1e5, shown: inSI},
	{Symbol: "MPa", Kind: Pressure, factor: 1e6},
	{Symbol: "psi", Kind: Pressure, factor: pound * 9.80665 / (inch * inch), shown: inUS, from: tiny},
	{Symbol: "mmHg", Kind: Pressure, factor: 133.322387415, other: "mm Hg|torr"},
	{Symbol: "inHg", Kind: Pressure, factor: 25.4 * 133.322387415, shown: inUS, other: "in Hg"},
	{Symbol: "atm", Kind: Pressure, factor: 101325},

	{Symbol: "mm/s", Kind: Speed, factor: 1e-3, from: tiny},
	{Symbol: "cm/s", Kind: Speed, factor: 1e-2},
	{Symbol: "m/min", Kind: Speed, factor: 1. / minute, other: "m/minute"},
	{Symbol: "m/s", Kind: Speed, factor: 1, shown: inSI, from: 0.05},
	{Symbol: "km/h", Kind: Speed, factor: 1000. / hour, shown: inSI, other: "kph|km/hr"},
	{Symbol: "ft/min", Kind: Speed, factor: foot / minute, shown: inUS, from: tiny, other: "fpm|feet/min"},
	{Symbol: "ft/s", Kind: Speed, factor: foot, from: 50, other: "fps|ft/sec"},
	{Symbol: "mph", Kind: Speed, factor: 5280 * foot / hour, shown: inUS, other: "mi/h"},

	{Symbol: "mL/h", Kind: Flow, factor: 1e-6 / hour, other: "mL/hr"},
	{Symbol: "mL/min", Kind: Flow, factor: 1e-6 / minute, shown: inSI},
	{Symbol: "L/h", Kind: Flow, factor: 1e-3 / hour, shown: inSI, from: tiny, other: "L/hr|L/hour"},
	{Symbol: "L/min", Kind: Flow, factor: 1e-3 / minute, shown: inSI, from: 1, other: "lpm|L/minute"},
	{Symbol: "L/s", Kind: Flow, factor: 1e-3, other: "L/sec"},
	{Symbol: "L/d", Kind: Flow, factor: 1e-3 / day, other: "L/day"},
	{Symbol: "m³/h", Kind: Flow, factor: 1. / hour, shown: inSI, from: 3, other: "m3/hr"},
	{Symbol: "m³/s", Kind: Flow, factor: 1},
	{Symbol: "US gal/d", Kind: Flow, factor: usGallon / day, other: "gal/d|gal/day|gpd"},
	{Symbol: "US gal/h", Kind: Flow, factor: usGallon / hour, shown: inUS, from: tiny, other: "gal/h|gal/hr|gph|gal/hour"},
	{Symbol: "US gal/min", Kind: Flow, factor: usGallon / minute, shown: inUS, from: 0.5, other: "gal/min|gpm"},
	{Symbol: "ft³/min", Kind: Flow, factor: foot * foot * foot / minute, shown: inUS, other: "cfm|cu ft/min"},

	{Symbol: "mg/L", Kind: Hardness, factor: 1e-3, shown: inBoth, from: tiny, other: "mg/L CaCO3|mg/L as CaCO3|ppm|ppm CaCO3|ppm as CaCO3|g/m3"},
	{Symbol: "°dH", Kind: Hardness, factor: 10e-3 * massCaCO3 / massCaO, shown: inSI, other: "dH|dGH|°d"},
	{Symbol: "°fH", Kind: Hardness, factor: 10e-3, shown: inSI, other: "fH"},
	{Symbol: "°e", Kind: Hardness, factor: grain / ukGallon, other: "°Clark|Clark|°eH|gr/imp gal"},
	{Symbol: "gr/US gal", Kind: Hardness, factor: grain / usGallon, shown: inUS, other: "gr/gal|gpg|grains|grains/gal|grains/US gal|grains per gallon"},
	{Symbol: "mmol/L", Kind: Hardness, factor: massCaCO3 * 1e-3, shown: inSI, other: "mol/m3|mM"},
	{Symbol: "meq/L", Kind: Hardness, factor: massCaCO3 / 2 * 1e-3, other: "mval/L"},
	{Symbol: "mg/L Ca", Kind: Hardness, factor: massCaCO3 / massCa * 1e-3, other: "mg/L calcium|mg/L as Ca|ppm Ca"},

	{Symbol: "mg/L", Kind: Alkalinity, factor: 1e-3, shown: inBoth, from: tiny, other: "mg/L CaCO3|mg/L as CaCO3|ppm|ppm CaCO3|ppm as CaCO3|g/m3"},
	{Symbol: "meq/L", Kind: Alkalinity, factor: massCaCO3 / 2 * 1e-3, shown: inSI, other: "mmol/L|mval/L"},
	{Symbol: "°dH", Kind: Alkalinity, factor: 10e-3 * massCaCO3 / massCaO, other: "dH|dKH|°dKH"},
	{Symbol: "°fH", Kind: Alkalinity, factor: 10e-3, other: "fH|°f"},
	{Symbol: "mg/L HCO₃", Kind: Alkalinity, factor: massCaCO3 / 2 / massHCO3 * 1e-3, other: "mg/L bicarbonate|mg/L as HCO3|mg/L hydrogen carbonate"},

	{Symbol: "µS/cm", Kind: Conductivity, factor: 1e-4, shown: inBoth, from: tiny, other: "uS/cm|microS/cm"},
	{Symbol: "mS/cm", Kind: Conductivity, factor: 0.1, shown: inBoth, from: 10},
	{Symbol: "mS/m", Kind: Conductivity, factor: 1e-3},
	{Symbol: "S/m", Kind: Conductivity, factor: 1},

	{Symbol: "mg/m²", Kind: ArealMass, factor: 1e-6, shown: inSI, from: tiny},
	{Symbol: "µg/cm²", Kind: ArealMass, factor: 1e-5, shown: inSI, other: "ug/cm2"},
	{Symbol: "mg/cm²", Kind: ArealMass, factor: 1e-2},
	{Symbol: "g/m²", Kind: ArealMass, factor: 1e-3, shown: inSI, from: 1},
	{Symbol: "kg/m²", Kind: ArealMass, factor: 1},
	{Symbol: "mg/ft²", Kind: ArealMass, factor: 1e-6 / (foot * foot), shown: inUS, from: tiny},

	{Symbol: "µm", Kind: Film, factor: 1e-6, shown: inSI, from: tiny, other: "um|micron|microns"},
	{Symbol: "mL/m²", Kind: Film, factor: 1e-6, shown: inSI},
	{Symbol: "mm", Kind: Film, factor: 1e-3, from: 1},
	{Symbol: "mil", Kind: Film, factor: inch / 1000, shown: inUS, from: tiny, other: "mils|thou"},
	{Symbol: "US gal/1000 ft²", Kind: Film, factor: usGallon / (1000 * foot * foot), shown: inUS, other: "gal/1000 ft2"},

	{Symbol: "%", Kind: Fraction, factor: 0.01, shown: inBoth, from: tiny, other: "percent|% RH|%rh|per cent"},

	{Symbol: "N", Kind: Normality, factor: 1000, shown: inBoth, from: tiny, other: "normal|eq/L|mol/L|M"},
	{Symbol: "meq/L", Kind: Normality, factor: 1, other: "mmol/L|mN"},

	{Symbol: "/kWh", Kind: EnergyPrice, factor: 1 / (1000. * hour), shown: inBoth, from: tiny, other: "per kWh"},
	{Symbol: "EUR/kWh", Kind: EnergyPrice, factor: 1 / (1000. * hour), shown: inSI, other: "€/kWh|EUR|€"},
	{Symbol: "USD/kWh", Kind: EnergyPrice, factor: 1 / (1000. * hour), shown: inUS, other: "$/kWh|USD|$"},
	{Symbol: "GBP/kWh", Kind: EnergyPrice, factor: 1 / (1000. * hour), other: "£/kWh|GBP|£"},
	{Symbol: "CHF/kWh", Kind: EnergyPrice, factor: 1 / (1000. * hour), other: "CHF"},
	{Symbol: "SEK/kWh", Kind: EnergyPrice, factor: 1 / (1000. * hour), other: "SEK"},
	{Symbol: "CAD/kWh", Kind: EnergyPrice, factor: 1 / (1000. * hour), other: "CAD"},

	{Symbol: "", Kind: Money, factor: 1, shown: inBoth, from: tiny},
	{Symbol: "EUR", Kind: Money, factor: 1, shown: inSI, other: "€"},
	{Symbol: "USD", Kind: Money, factor: 1, shown: inUS, other: "$"},
	{Symbol: "GBP", Kind: Money, factor: 1, other: "£"},
	{Symbol: "CHF", Kind: Money, factor: 1},
	{Symbol: "SEK", Kind: Money, factor: 1},
	{Symbol: "CAD", Kind: Money, factor: 1},
}

// tiny as Unit.from marks the unit for the smallest amounts of its system.
const tiny = math.SmallestNonzeroFloat64

// ToSI turns a number of this unit into the SI unit of the kind.
func (u Unit) ToSI(number float64) float64 {
	switch {
	case u.Symbol == ratio:
		return 1 / (1 + number)
	case u.factor == 0: // the zero Unit
		return number
	}
	return number*u.factor + u.offset
}

// FromSI turns an amount in the SI unit of the kind into a number of this unit.
func (u Unit) FromSI(si float64) float64 {
	switch {
	case u.Symbol == ratio:
		return 1/si - 1
	case u.factor == 0:
		return si
	}
	return (si - u.offset) / u.factor
}

// Suits reports whether the unit belongs to what people of that system read.
func (u Unit) Suits(system System) bool { return u.shown&(1<<system) != 0 }

// System is the one to which the unit belongs, or otherwise where it belongs to
// both or to neither.
func (u Unit) System(otherwise System) System {
	switch u.shown {
	case inSI:
		return SI
	case inUS:
		return US
	}
	return otherwise
}

// UnitsOf lists the units a kind is offered in, those of both systems; every
// kind has at least one. Units that are understood but not offered, such as
// horsepower, are left out.
func UnitsOf(kind Kind) []Unit {
	var offered []Unit
	for _, u := range units {
		if u.Kind == kind && u.shown != 0 {
			offered = append(offered, u)
		}
	}
	return offered
}

// UnitNamed finds a unit of a kind by any spelling that Parse accepts.
func UnitNamed(symbol string, kind Kind) (Unit, bool) {
	t := normal(symbol)
	if len(t.runes) == 0 {
		for _, u := range units {
			if u.Kind == kind && u.Symbol == "" {
				return u, true
			}
		}
		return Unit{}, false
	}
	if kind == VolumeFraction && symbol == ratio {
		return ratioUnit(), true
	}
	u, end, ok := t.unit(0, []Kind{kind})
	return u, ok && t.blank(end) == len(t.runes)
}

func ratioUnit() Unit {
	for _, u := range units {
		if u.Symbol == ratio {
			return u
		}
	}
	return Unit{}
}

// Preferred is the unit in which an amount of that size is written in a system.
func Preferred(si float64, kind Kind, system System) Unit {
	var best Unit
	found := false
	for _, u := range units {
		if u.Kind != kind || u.from == 0 || (u.shown != 0 && !u.Suits(system)) {
			continue
		}
		if u.shown == 0 && (u.customary() != (system == US)) {
			continue
		}
		if !found || math.Abs(u.FromSI(si)) >= u.from*(1-1e-9) {
			best, found = u, true
		}
	}
	return best
}

// customary tells the units of the US ladder that are written but not offered
// (mil, ft/s) from the metric ones.
func (u Unit) customary() bool { return u.Symbol == "mil" || u.Symbol == "ft/s" }
