package quantity

import (
	"math"
	"strings"
)

// Unit is a unit of one kind. The zero Unit is the plain number. Units are
// compared with ==.
type Unit struct {
	Symbol string
	Kind   Kind

	index uint8 // of its row in units
}

// row is what is known of a unit. The table is read in place: a Unit stays
// small, which keeps the module small that a page loads.
type row struct {
	symbol string
	kind   Kind
	factor float64 // SI = number × factor + offset
	offset float64
	shown  uint8   // bit 1<<System: offered and written in that system
	from   float64 // smallest number for which In prefers this unit to a smaller one; 0 for never
	other  string  // further spellings, separated by |
}

func (u Unit) row() *row { return &units[u.index] }

func unitAt(i int) Unit { return Unit{units[i].symbol, units[i].kind, uint8(i)} }

const (
	inSI   uint8 = 1 << SI
	inUS   uint8 = 1 << US
	inBoth       = inSI | inUS
)

// loose is the symbol of fluid ounces in a gallon of which nobody says whether it is the US or the imperial one: 1/128 or 1/160.
const loose = "fl oz/gal"

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
var units = [...]row{
	{symbol: "", kind: Number, factor: 1, shown: inBoth, from: tiny},
	{symbol: "", kind: PH, factor: 1, shown: inBoth, from: tiny, other: "pH"},

	{symbol: "°C", kind: Temperature, factor: 1, shown: inSI, from: tiny, other: "C|degC|deg C|degrees C|Celsius|° Celsius|degrees Celsius"},
	{symbol: "°F", kind: Temperature, factor: 5. / 9, offset: -160. / 9, shown: inUS, from: tiny, other: "F|degF|deg F|degrees F|Fahrenheit|degrees Fahrenheit"},
	{symbol: "K", kind: Temperature, factor: 1, offset: -273.15, other: "kelvin"},

	{symbol: "K", kind: TemperatureDifference, factor: 1, shown: inSI, from: tiny, other: "°C|C|degC|kelvin"},
	{symbol: "°F", kind: TemperatureDifference, factor: 5. / 9, shown: inUS, from: tiny, other: "F|degF"},

	{symbol: "mL", kind: Volume, factor: 1e-6, shown: inSI, from: tiny, other: "ml|cm3|cc|millilitre|millilitres|milliliter|milliliters"},
	{symbol: "L", kind: Volume, factor: 1e-3, shown: inSI, from: 1, other: "l|litre|litres|liter|liters|dm3"},
	{symbol: "m³", kind: Volume, factor: 1, shown: inSI, from: 10, other: "cubic metres|cubic meters"},
	{symbol: "US fl oz", kind: Volume, factor: usGallon / 128, shown: inUS, from: tiny, other: "fl oz|floz|fl. oz.|fluid ounces"},
	{symbol: "US qt", kind: Volume, factor: usGallon / 4, shown: inUS, other: "qt|quart|quarts"},
	{symbol: "US gal", kind: Volume, factor: usGallon, shown: inUS, from: 0.5, other: "gal|gal.|gallon|gallons|gal US|US gallon|US gallons"},
	{symbol: "imp gal", kind: Volume, factor: ukGallon, other: "imperial gal|imperial gallon|imperial gallons|imp gallon|imp gallons|imp. gal|UK gal|gal UK|UK gallon|UK gallons|gal imp|gallons imperial"},
	{symbol: "imp qt", kind: Volume, factor: ukGallon / 4, other: "imperial quart|imperial quarts|UK qt"},
	{symbol: "imp fl oz", kind: Volume, factor: ukGallon / 160, other: "UK fl oz|imperial fl oz|imperial fluid ounces"},
	{symbol: "in³", kind: Volume, factor: inch * inch * inch, other: "cubic inches|cu in"},
	{symbol: "ft³", kind: Volume, factor: foot * foot * foot, other: "cubic feet|cu ft"},

	{symbol: "mg", kind: Mass, factor: 1e-6, shown: inBoth, from: tiny, other: "milligram|milligrams"},
	{symbol: "g", kind: Mass, factor: 1e-3, shown: inSI, from: 1, other: "gram|grams"},
	{symbol: "kg", kind: Mass, factor: 1, shown: inSI, from: 1, other: "kilo|kilos|kilogram|kilograms"},
	{symbol: "t", kind: Mass, factor: 1000, from: 10, other: "tonne|tonnes"},
	{symbol: "oz", kind: Mass, factor: ounce, shown: inUS, from: tiny, other: "ounce|ounces"},
	{symbol: "lb", kind: Mass, factor: pound, shown: inUS, from: 1, other: "lbs|pound|pounds|lb."},

	{symbol: "µm", kind: Length, factor: 1e-6, shown: inSI, from: tiny, other: "um|micron|microns|micrometre|micrometer"},
	{symbol: "mm", kind: Length, factor: 1e-3, shown: inSI, from: 0.5, other: "millimetre|millimetres|millimeter|millimeters"},
	{symbol: "cm", kind: Length, factor: 1e-2, shown: inSI, other: "centimetre|centimetres|centimeter|centimeters"},
	{symbol: "m", kind: Length, factor: 1, shown: inSI, from: 2, other: "metre|metres|meter|meters"},
	{symbol: "mil", kind: Length, factor: inch / 1000, from: tiny, other: "mils|thou"},
	{symbol: "in", kind: Length, factor: inch, shown: inUS, from: 0.02, other: "inch|inches|in.|\""},
	{symbol: "ft", kind: Length, factor: foot, shown: inUS, from: 10, other: "foot|feet|'"},

	{symbol: "mm²", kind: Area, factor: 1e-6},
	{symbol: "cm²", kind: Area, factor: 1e-4, shown: inSI, from: tiny, other: "sq cm"},
	{symbol: "dm²", kind: Area, factor: 1e-2, shown: inSI},
	{symbol: "m²", kind: Area, factor: 1, shown: inSI, from: 0.1, other: "sq m|square metres|square meters"},
	{symbol: "in²", kind: Area, factor: inch * inch, shown: inUS, from: tiny, other: "sq in|square inches"},
	{symbol: "ft²", kind: Area, factor: foot * foot, shown: inUS, from: 1, other: "sq ft|square feet"},

	{symbol: "s", kind: Time, factor: 1, shown: inBoth, from: tiny, other: "sec|secs|second|seconds"},
	{symbol: "min", kind: Time, factor: minute, shown: inBoth, from: 2, other: "mins|minute|minutes"},
	{symbol: "h", kind: Time, factor: hour, shown: inBoth, from: 2, other: "hr|hrs|hour|hours"},
	{symbol: "d", kind: Time, factor: day, from: 2, other: "day|days"},
	{symbol: "weeks", kind: Time, factor: 7 * day, other: "week|wk"},

	{symbol: "W", kind: Power, factor: 1, shown: inBoth, from: tiny, other: "watt|watts"},
	{symbol: "kW", kind: Power, factor: 1000, shown: inBoth, from: 1, other: "kilowatt|kilowatts"},
	{symbol: "MW", kind: Power, factor: 1e6},
	{symbol: "Btu/h", kind: Power, factor: btu / hour, shown: inUS, other: "BTUh|BTU/hr"},
	{symbol: "hp", kind: Power, factor: 550 * foot * pound * 9.80665, other: "horsepower"},
	{symbol: "kcal/h", kind: Power, factor: 4186.8 / hour},

	{symbol: "J", kind: Energy, factor: 1, from: tiny, shown: inSI, other: "joule|joules"},
	{symbol: "kJ", kind: Energy, factor: 1000, from: 1, shown: inSI},
	{symbol: "Wh", kind: Energy, factor: hour},
	{symbol: "Btu", kind: Energy, factor: btu, shown: inUS, from: tiny},
	{symbol: "kcal", kind: Energy, factor: 4186.8},
	{symbol: "MJ", kind: Energy, factor: 1e6, shown: inSI},
	{symbol: "kWh", kind: Energy, factor: 1000 * hour, shown: inBoth, from: 0.1, other: "kW h|kW·h"},

	{symbol: "Hz", kind: Frequency, factor: 1, from: tiny, other: "hertz"},
	{symbol: "kHz", kind: Frequency, factor: 1000, shown: inBoth, from: 1},
	{symbol: "MHz", kind: Frequency, factor: 1e6, from: 1},

	{symbol: "% v/v", kind: VolumeFraction, factor: 0.01, shown: inBoth, from: tiny, other: "%|% vol|vol %|% by volume|%V|percent v/v|% v"},
	{symbol: ratio, kind: VolumeFraction, shown: inBoth},
	{symbol: "mL/L", kind: VolumeFraction, factor: 1e-3, shown: inSI},
	{symbol: "fl oz/US gal", kind: VolumeFraction, factor: 1. / 128, shown: inUS, other: "US fl oz/US gal|fl oz per US gal|fl oz per US gallon|fluid ounces per US gallon|oz (fl)/US gal"},
	{symbol: loose, kind: VolumeFraction, factor: 1. / 128, other: "fl oz/gallon|fl oz per gal|fl oz per gallon|fl. oz./gal|floz/gal|oz (fl)/gal|fluid ounces/gal|fluid ounces/gallon|fluid ounces per gal|fluid ounces per gallon"},
	{symbol: "imp fl oz/imp gal", kind: VolumeFraction, factor: 1. / 160, other: "fl oz/imp gal|UK fl oz/UK gal|fl oz/UK gal|oz (fl)/imp gal|fl oz per imp gal|fl oz per imperial gallon|fl oz/imperial gallon|fluid ounces per imperial gallon"},

	{symbol: "% w/w", kind: MassFraction, factor: 0.01, shown: inBoth, from: tiny, other: "%|% m/m|wt %|% wt|w %|% by weight|% by mass|percent w/w"},
	{symbol: "g/kg", kind: MassFraction, factor: 1e-3},

	{symbol: "µg/L", kind: MassConcentration, factor: 1e-6, other: "ug/L|ppb"},
	{symbol: "mg/L", kind: MassConcentration, factor: 1e-3, shown: inBoth, from: tiny, other: "ppm|g/m3|mg/l"},
	{symbol: "g/L", kind: MassConcentration, factor: 1, shown: inBoth, from: 1, other: "kg/m3"},
	{symbol: "% w/v", kind: MassConcentration, factor: 10, shown: inBoth, other: "%|% m/v|g/100 mL|percent w/v"},
	{symbol: "wt oz/US gal", kind: MassConcentration, factor: ounce / usGallon, shown: inUS, other: "wt oz/gal|wt oz/gallon|wt oz per gal|wt oz per gallon|wt oz per US gallon|oz wt/gal|oz wt/US gal|oz (wt)/gal|oz (wt)/US gal|oz by weight/US gal|oz by weight/gal|ounces by weight per gallon|ounces by weight per US gallon"},
	{symbol: "wt oz/imp gal", kind: MassConcentration, factor: ounce / ukGallon, other: "oz wt/imp gal|wt oz/UK gal|oz (wt)/imp gal|oz by weight/imp gal|wt oz per imp gal|wt oz per imperial gallon|wt oz/imperial gallon|ounces by weight per imperial gallon"},
	{symbol: "lb/US gal", kind: MassConcentration, factor: pound / usGallon, other: "lb/gal"},
	{symbol: "lb/imp gal", kind: MassConcentration, factor: pound / ukGallon, other: "lb/UK gal"},

	{symbol: "kg/m³", kind: Density, factor: 1, shown: inSI},
	{symbol: "kg/L", kind: Density, factor: 1000, shown: inSI, from: tiny},
	{symbol: "g/mL", kind: Density, factor: 1000, shown: inSI, other: "g/cm3|g/cc"},
	{symbol: "g/L", kind: Density, factor: 1},
	{symbol: "lb/US gal", kind: Density, factor: pound / usGallon, shown: inUS, from: tiny, other: "lb/gal|ppg"},
	{symbol: "lb/imp gal", kind: Density, factor: pound / ukGallon, other: "lb/UK gal"},
	{symbol: "lb/ft³", kind: Density, factor: pound / (foot * foot * foot), shown: inUS},

	{symbol: "W/m³", kind: PowerDensity, factor: 1, other: ""},
	{symbol: "kW/m³", kind: PowerDensity, factor: 1000},
	{symbol: "W/L", kind: PowerDensity, factor: 1000, shown: inSI, from: tiny},
	{symbol: "W/US gal", kind: PowerDensity, factor: 1 / usGallon, shown: inUS, from: tiny, other: "W/gal|watts/gal|watts/gallon"},
	{symbol: "W/imp gal", kind: PowerDensity, factor: 1 / ukGallon, other: "W/UK gal"},

	{symbol: "Pa", kind: Pressure, factor: 1},
	{symbol: "hPa", kind: Pressure, factor: 100},
	{symbol: "mbar", kind: Pressure, factor: 100},
	{symbol: "kPa", kind: Pressure, factor: 1000, shown: inSI, from: tiny},
	{symbol: "bar", kind: Pressure, factor: 1e5, shown: inSI},
	{symbol: "MPa", kind: Pressure, factor: 1e6},
	{symbol: "psi", kind: Pressure, factor: pound * 9.80665 / (inch * inch), shown: inUS, from: tiny},
	{symbol: "ksi", kind: Pressure, factor: 1000 * pound * 9.80665 / (inch * inch)},
	{symbol: "mmHg", kind: Pressure, factor: 133.322387415, other: "mm Hg|torr"},
	{symbol: "inHg", kind: Pressure, factor: 25.4 * 133.322387415, shown: inUS, other: "in Hg"},
	{symbol: "atm", kind: Pressure, factor: 101325},

	{symbol: "mm/s", kind: Speed, factor: 1e-3, from: tiny},
	{symbol: "cm/s", kind: Speed, factor: 1e-2},
	{symbol: "m/min", kind: Speed, factor: 1. / minute, other: "m/minute"},
	{symbol: "m/s", kind: Speed, factor: 1, shown: inSI, from: 0.05},
	{symbol: "km/h", kind: Speed, factor: 1000. / hour, shown: inSI, other: "kph|km/hr"},
	{symbol: "ft/min", kind: Speed, factor: foot / minute, shown: inUS, from: tiny, other: "fpm|feet/min"},
	{symbol: "ft/s", kind: Speed, factor: foot, from: 50, other: "fps|ft/sec"},
	{symbol: "mph", kind: Speed, factor: 5280 * foot / hour, shown: inUS, other: "mi/h"},

	{symbol: "mL/h", kind: Flow, factor: 1e-6 / hour, other: "mL/hr"},
	{symbol: "mL/min", kind: Flow, factor: 1e-6 / minute, shown: inSI},
	{symbol: "L/h", kind: Flow, factor: 1e-3 / hour, shown: inSI, from: tiny, other: "L/hr|L/hour"},
	{symbol: "L/min", kind: Flow, factor: 1e-3 / minute, shown: inSI, from: 1, other: "lpm|L/minute"},
	{symbol: "L/s", kind: Flow, factor: 1e-3, other: "L/sec"},
	{symbol: "L/d", kind: Flow, factor: 1e-3 / day, other: "L/day"},
	{symbol: "m³/h", kind: Flow, factor: 1. / hour, shown: inSI, from: 3, other: "m3/hr"},
	{symbol: "m³/s", kind: Flow, factor: 1},
	{symbol: "US gal/d", kind: Flow, factor: usGallon / day, other: "gal/d|gal/day|gpd"},
	{symbol: "US gal/h", kind: Flow, factor: usGallon / hour, shown: inUS, from: tiny, other: "gal/h|gal/hr|gph|gal/hour"},
	{symbol: "US gal/min", kind: Flow, factor: usGallon / minute, shown: inUS, from: 0.5, other: "gal/min|gpm"},
	{symbol: "imp gal/d", kind: Flow, factor: ukGallon / day, other: "imp gal/day|UK gal/d"},
	{symbol: "imp gal/h", kind: Flow, factor: ukGallon / hour, other: "imp gal/hr|imp gal/hour|UK gal/h"},
	{symbol: "imp gal/min", kind: Flow, factor: ukGallon / minute, other: "UK gal/min"},
	{symbol: "ft³/min", kind: Flow, factor: foot * foot * foot / minute, shown: inUS, other: "cfm|cu ft/min"},

	{symbol: "mg/L", kind: Hardness, factor: 1e-3, shown: inBoth, from: tiny, other: "mg/L CaCO3|mg/L as CaCO3|ppm|ppm CaCO3|ppm as CaCO3|g/m3"},
	{symbol: "°dH", kind: Hardness, factor: 10e-3 * massCaCO3 / massCaO, shown: inSI, other: "dH|dGH|°d"},
	{symbol: "°fH", kind: Hardness, factor: 10e-3, shown: inSI, other: "fH"},
	{symbol: "°e", kind: Hardness, factor: grain / ukGallon, other: "°Clark|Clark|°eH|gr/imp gal"},
	{symbol: "gr/US gal", kind: Hardness, factor: grain / usGallon, shown: inUS, other: "gr/gal|gpg|grains|grains/gal|grains/US gal|grains per gallon"},
	{symbol: "mmol/L", kind: Hardness, factor: massCaCO3 * 1e-3, shown: inSI, other: "mol/m3|mM"},
	{symbol: "meq/L", kind: Hardness, factor: massCaCO3 / 2 * 1e-3, other: "mval/L"},
	{symbol: "mg/L Ca", kind: Hardness, factor: massCaCO3 / massCa * 1e-3, other: "mg/L calcium|mg/L as Ca|ppm Ca"},

	{symbol: "mg/L", kind: Alkalinity, factor: 1e-3, shown: inBoth, from: tiny, other: "mg/L CaCO3|mg/L as CaCO3|ppm|ppm CaCO3|ppm as CaCO3|g/m3"},
	{symbol: "meq/L", kind: Alkalinity, factor: massCaCO3 / 2 * 1e-3, shown: inSI, other: "mmol/L|mval/L"},
	{symbol: "°dH", kind: Alkalinity, factor: 10e-3 * massCaCO3 / massCaO, other: "dH|dKH|°dKH"},
	{symbol: "°fH", kind: Alkalinity, factor: 10e-3, other: "fH|°f"},
	{symbol: "mg/L HCO₃", kind: Alkalinity, factor: massCaCO3 / 2 / massHCO3 * 1e-3, other: "mg/L bicarbonate|mg/L as HCO3|mg/L hydrogen carbonate"},

	{symbol: "µS/cm", kind: Conductivity, factor: 1e-4, shown: inBoth, from: tiny, other: "uS/cm|microS/cm"},
	{symbol: "mS/cm", kind: Conductivity, factor: 0.1, shown: inBoth, from: 10},
	{symbol: "mS/m", kind: Conductivity, factor: 1e-3},
	{symbol: "S/m", kind: Conductivity, factor: 1},

	{symbol: "mg/m²", kind: ArealMass, factor: 1e-6, shown: inSI, from: tiny},
	{symbol: "µg/cm²", kind: ArealMass, factor: 1e-5, shown: inSI, other: "ug/cm2"},
	{symbol: "mg/cm²", kind: ArealMass, factor: 1e-2},
	{symbol: "g/m²", kind: ArealMass, factor: 1e-3, shown: inSI, from: 1},
	{symbol: "kg/m²", kind: ArealMass, factor: 1},
	{symbol: "mg/ft²", kind: ArealMass, factor: 1e-6 / (foot * foot), shown: inUS, from: tiny},

	{symbol: "µm", kind: Film, factor: 1e-6, shown: inSI, from: tiny, other: "um|micron|microns"},
	{symbol: "mL/m²", kind: Film, factor: 1e-6, shown: inSI},
	{symbol: "mm", kind: Film, factor: 1e-3, from: 1},
	{symbol: "mil", kind: Film, factor: inch / 1000, shown: inUS, from: tiny, other: "mils|thou"},
	{symbol: "US gal/1000 ft²", kind: Film, factor: usGallon / (1000 * foot * foot), shown: inUS, other: "gal/1000 ft2"},
	{symbol: "imp gal/1000 ft²", kind: Film, factor: ukGallon / (1000 * foot * foot)},

	{symbol: "%", kind: Fraction, factor: 0.01, shown: inBoth, from: tiny, other: "percent|% RH|%rh|per cent"},

	{symbol: "N", kind: Normality, factor: 1000, shown: inBoth, from: tiny, other: "normal|eq/L"},
	{symbol: "meq/L", kind: Normality, factor: 1, other: "mN"},
	{symbol: "mol/L", kind: Normality, factor: 1000, shown: inBoth, other: "M|molar"}, // of a substance that gives one equivalent; see Molar
	{symbol: "mmol/L", kind: Normality, factor: 1, other: "mM|mol/m3"},

	{symbol: "/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), shown: inBoth, from: tiny, other: "per kWh"},
	{symbol: "EUR/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), shown: inSI, other: "€/kWh|EUR|€"},
	{symbol: "USD/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), shown: inUS, other: "$/kWh|USD|$"},
	{symbol: "GBP/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "£/kWh|GBP|£"},
	{symbol: "CHF/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "CHF"},
	{symbol: "SEK/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "SEK"},
	{symbol: "CAD/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "CAD"},
	{symbol: "AUD/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "AUD"},
	{symbol: "BRL/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "BRL"},
	{symbol: "CNY/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "CNY"},
	{symbol: "CZK/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "CZK"},
	{symbol: "DKK/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "DKK"},
	{symbol: "HUF/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "HUF"},
	{symbol: "INR/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "INR"},
	{symbol: "JPY/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "JPY"},
	{symbol: "KRW/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "KRW"},
	{symbol: "MXN/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "MXN"},
	{symbol: "NOK/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "NOK"},
	{symbol: "NZD/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "NZD"},
	{symbol: "PLN/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "PLN"},
	{symbol: "RON/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "RON"},
	{symbol: "SGD/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "SGD"},
	{symbol: "THB/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "THB"},
	{symbol: "TRY/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "TRY"},
	{symbol: "ZAR/kWh", kind: EnergyPrice, factor: 1 / (1000. * hour), other: "ZAR"},

	{symbol: "", kind: Money, factor: 1, shown: inBoth, from: tiny},
	{symbol: "EUR", kind: Money, factor: 1, shown: inSI, other: "€"},
	{symbol: "USD", kind: Money, factor: 1, shown: inUS, other: "$"},
	{symbol: "GBP", kind: Money, factor: 1, other: "£"},
	{symbol: "CHF", kind: Money, factor: 1},
	{symbol: "SEK", kind: Money, factor: 1},
	{symbol: "CAD", kind: Money, factor: 1},
	{symbol: "AUD", kind: Money, factor: 1},
	{symbol: "BRL", kind: Money, factor: 1},
	{symbol: "CNY", kind: Money, factor: 1},
	{symbol: "CZK", kind: Money, factor: 1},
	{symbol: "DKK", kind: Money, factor: 1},
	{symbol: "HUF", kind: Money, factor: 1},
	{symbol: "INR", kind: Money, factor: 1},
	{symbol: "JPY", kind: Money, factor: 1},
	{symbol: "KRW", kind: Money, factor: 1},
	{symbol: "MXN", kind: Money, factor: 1},
	{symbol: "NOK", kind: Money, factor: 1},
	{symbol: "NZD", kind: Money, factor: 1},
	{symbol: "PLN", kind: Money, factor: 1},
	{symbol: "RON", kind: Money, factor: 1},
	{symbol: "SGD", kind: Money, factor: 1},
	{symbol: "THB", kind: Money, factor: 1},
	{symbol: "TRY", kind: Money, factor: 1},
	{symbol: "ZAR", kind: Money, factor: 1},
}

// tiny as Unit.from marks the unit for the smallest amounts of its system.
const tiny = math.SmallestNonzeroFloat64

// ToSI turns a number of this unit into the SI unit of the kind.
func (u Unit) ToSI(number float64) float64 {
	if u.Symbol == ratio {
		return 1 / (1 + number)
	}
	return number*u.row().factor + u.row().offset
}

// FromSI turns an amount in the SI unit of the kind into a number of this unit.
func (u Unit) FromSI(si float64) float64 {
	if u.Symbol == ratio {
		return 1/si - 1
	}
	return (si - u.row().offset) / u.row().factor
}

// Molar reports whether the unit counts molecules, of which one may give several equivalents: its amounts are those of one each.
func (u Unit) Molar() bool {
	return u.Kind == Normality && (u.Symbol == "mol/L" || u.Symbol == "mmol/L")
}

// Imperial reports whether the unit's gallon, quart or fluid ounce is the imperial one.
func (u Unit) Imperial() bool { return strings.Contains(u.Symbol, "imp ") || u.Symbol == "°e" }

// american reports whether it is the US one, said or not.
func (u Unit) american() bool { return strings.Contains(u.Symbol, "US ") || u.Symbol == loose }

// Suits reports whether the unit belongs to what people of that system read.
func (u Unit) Suits(system System) bool { return u.row().shown&(1<<system) != 0 }

// System is the one to which the unit belongs, or otherwise where it belongs to
// both or to neither.
func (u Unit) System(otherwise System) System {
	switch u.row().shown {
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
	for i := range units {
		if units[i].kind == kind && units[i].shown != 0 {
			offered = append(offered, unitAt(i))
		}
	}
	return offered
}

// UnitNamed finds a unit of a kind by any spelling that Parse accepts.
func UnitNamed(symbol string, kind Kind) (Unit, bool) {
	t := normal(symbol)
	if len(t.runes) == 0 {
		for i := range units {
			if units[i].kind == kind && units[i].symbol == "" {
				return unitAt(i), true
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
	for i := range units {
		if units[i].symbol == ratio {
			return unitAt(i)
		}
	}
	return Unit{}
}

// Preferred is the unit in which an amount of that size is written in a system.
func Preferred(si float64, kind Kind, system System) Unit {
	best, found := 0, false
	for i := range units {
		r := &units[i]
		if r.kind != kind || r.from == 0 || r.shown != 0 && r.shown&(1<<system) == 0 || r.shown == 0 && r.customary() != (system == US) {
			continue
		}
		if !found || math.Abs(unitAt(i).FromSI(si)) >= r.from*(1-1e-9) {
			best, found = i, true
		}
	}
	return unitAt(best)
}

// customary tells the units of the US ladder that are written but not offered
// (mil, ft/s) from the metric ones.
func (r *row) customary() bool { return r.symbol == "mil" || r.symbol == "ft/s" }
