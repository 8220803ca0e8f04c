package sentence

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"tankside/builder/quantity"
)

// spelling is a unit as texts write it.
type spelling struct {
	text string // lower case where fold is set
	unit quantity.Unit
	fold bool
}

// unitSpellings are the units of running text by their first byte, the longest first. Where one spelling means several kinds, such as °C, the
// reader decides by what stands around it.
var unitSpellings = func() map[byte][]spelling {
	byFirst := map[byte][]spelling{}
	add := func(kind quantity.Kind, symbol string, fold bool, texts ...string) {
		unit, ok := quantity.UnitNamed(symbol, kind)
		if !ok {
			panic("no unit " + symbol)
		}
		for _, t := range texts {
			byFirst[t[0]] = append(byFirst[t[0]], spelling{t, unit, fold})
			if fold {
				if c := byte(unicode.ToUpper(rune(t[0]))); c != t[0] {
					byFirst[c] = append(byFirst[c], spelling{t, unit, fold})
				}
			}
		}
	}
	add(quantity.Temperature, "°C", false, "°C", "° C", "ºC", "℃", "C", "°")
	add(quantity.Temperature, "°C", true, "degrees c", "degrees celsius", "degrees centigrade", "degree celsius", "deg c", "degc", "degrees")
	add(quantity.Temperature, "°F", false, "°F", "° F", "ºF", "℉", "F")
	add(quantity.Temperature, "°F", true, "degrees f", "degrees fahrenheit", "deg f", "degf")
	add(quantity.TemperatureDifference, "K", false, "K")
	add(quantity.TemperatureDifference, "K", true, "kelvin", "kelvins")
	add(quantity.VolumeFraction, "% v/v", true, "% v/v", "%v/v", "% vol", "% by volume", "per cent by volume", "percent by volume", "vol %", "vol.-%", "per cent v/v", "percent v/v")
	add(quantity.VolumeFraction, "mL/L", true, "ml/l", "ml per litre", "ml a litre", "ml per liter", "millilitres per litre", "millilitres a litre", "ml to the litre")
	add(quantity.MassFraction, "% w/w", true, "% w/w", "%w/w", "% by weight", "wt %", "per cent by weight", "percent by weight")
	add(quantity.MassConcentration, "% w/v", true, "% w/v", "%w/v", "per cent w/v")
	add(quantity.MassConcentration, "g/L", true, "g/l", "grams per litre", "grams a litre", "grams per liter", "grams to the litre", "gram per litre", "g per litre", "g a litre", "g to the litre", "grams in each litre", "g in each litre")
	add(quantity.MassConcentration, "mg/L", true, "mg/l", "ppm", "milligrams per litre")
	add(quantity.MassConcentration, "wt oz/US gal", true, "oz/gal", "ounces per gallon", "oz per gallon", "oz/us gal")
	add(quantity.Fraction, "%", true, "%", "per cent", "percent")
	add(quantity.Frequency, "kHz", true, "khz", "kilohertz")
	add(quantity.Frequency, "MHz", true, "mhz")
	add(quantity.Frequency, "Hz", true, "hz", "hertz")
	add(quantity.Conductivity, "µS/cm", true, "µs/cm", "μs/cm", "us/cm", "microsiemens", "microsiemens per centimetre")
	add(quantity.Conductivity, "mS/cm", false, "mS/cm")
	add(quantity.Flow, "L/min", true, "l/min", "litres per minute", "litres a minute", "liters per minute", "litre per minute", "litre a minute")
	add(quantity.Flow, "L/h", true, "l/h", "litres per hour", "litres an hour", "litre an hour", "liters per hour")
	add(quantity.Flow, "US gal/min", true, "gal/min", "gpm", "gallons per minute", "gallons a minute", "us gal/min")
	add(quantity.Flow, "US gal/h", true, "gal/h", "gallons per hour", "gallons an hour")
	add(quantity.Flow, "m³/h", true, "m³/h", "m3/h")
	add(quantity.Flow, "US gal/min", true, "us gallons per minute", "us gallons a minute", "us gal a minute", "us gal per minute")
	add(quantity.Flow, "US gal/h", true, "us gal/h", "us gallons per hour", "us gallons an hour")
	add(quantity.Flow, "mL/min", true, "ml/min", "millilitres a minute")
	add(quantity.Flow, "L/s", true, "l/s", "litres a second")
	add(quantity.Volume, "mL", true, "ml", "millilitres", "millilitre", "milliliters", "cc", "cm³")
	add(quantity.Volume, "L", true, "l", "litres", "litre", "liters", "liter")
	add(quantity.Volume, "m³", true, "m³", "m3", "cubic metres")
	add(quantity.Volume, "US gal", true, "gal", "gallons", "gallon", "us gal", "us gallons", "us gallon", "gal.")
	add(quantity.Volume, "imp gal", true, "imp gal", "imperial gallons", "imperial gallon", "imperial gal", "uk gallons", "uk gal")
	add(quantity.Volume, "ft³", true, "ft³", "ft3", "cubic feet", "cubic foot", "cu ft")
	add(quantity.Volume, "in³", true, "in³", "in3", "cubic inches", "cu in")
	add(quantity.Volume, "US fl oz", true, "fl oz", "us fl oz", "fluid ounces", "fl. oz.")
	add(quantity.Volume, "US qt", true, "qt", "quarts", "us qt")
	add(quantity.Mass, "mg", false, "mg")
	add(quantity.Mass, "g", true, "g", "grams", "gram")
	add(quantity.Mass, "kg", true, "kg", "kilos", "kilograms", "kilogram", "kilo")
	add(quantity.Mass, "lb", true, "lb", "lbs", "pounds", "pound", "lb.")
	add(quantity.Mass, "oz", true, "oz", "ounces", "ounce")
	add(quantity.Length, "µm", true, "µm", "μm", "micrometres", "microns", "micron", "um")
	add(quantity.Length, "mm", true, "mm", "millimetres", "millimetre", "millimeters")
	add(quantity.Length, "cm", true, "cm", "centimetres", "centimeters")
	add(quantity.Length, "m", false, "m")
	add(quantity.Length, "m", true, "metres", "metre", "meters", "meter")
	add(quantity.Length, "in", true, "inches", "inch", "in", "in.", "″", "\"")
	add(quantity.Length, "ft", true, "ft", "feet", "foot", "ft.")
	add(quantity.Length, "mil", true, "mil", "mils", "thou")
	add(quantity.Time, "s", true, "s", "sec", "secs", "seconds", "second")
	add(quantity.Time, "min", true, "min", "mins", "minutes", "minute", "min.")
	add(quantity.Time, "h", true, "h", "hr", "hrs", "hours", "hour")
	add(quantity.Time, "d", true, "d", "days", "day")
	add(quantity.Power, "kW", true, "kw", "kilowatts", "kilowatt")
	add(quantity.Power, "W", true, "w", "watts", "watt")
	add(quantity.Power, "Btu/h", true, "btu/h", "btu/hr", "btuh", "btu an hour", "btu per hour")
	add(quantity.Power, "hp", true, "hp", "horsepower")
	add(quantity.Energy, "kWh", true, "kwh", "kilowatt hours", "kilowatt-hours", "kilowatt hour", "kilowatt-hour")
	add(quantity.Energy, "Btu", true, "btu")
	add(quantity.Energy, "kJ", false, "kJ")
	add(quantity.Energy, "MJ", false, "MJ")
	add(quantity.Energy, "Wh", false, "Wh")
	add(quantity.Hardness, "gr/US gal", true, "gpg", "gr/gal", "gr/us gal", "grains/gal", "grains per us gallon", "grains per gallon", "grains a gallon", "grains to the us gallon")
	add(quantity.Hardness, "°dH", false, "°dH")
	add(quantity.VolumeFraction, "fl oz/US gal", true, "fl oz/us gal", "us fl oz/us gal", "fl oz per us gallon", "us fl oz per us gallon", "fl oz per us gal", "us fl oz per us gal")
	add(quantity.Density, "lb/US gal", true, "lb/us gal", "lb per us gallon", "lb per us gal", "pounds per us gallon")
	add(quantity.PowerDensity, "W/L", true, "w/l", "watts per litre", "watts a litre")
	add(quantity.PowerDensity, "W/US gal", true, "w/gal", "watts per gallon", "w/us gal")
	add(quantity.Pressure, "psi", true, "psi", "psig")
	add(quantity.Pressure, "bar", true, "bar", "bars")
	add(quantity.Pressure, "mbar", true, "mbar")
	add(quantity.Pressure, "kPa", true, "kpa")
	add(quantity.Pressure, "MPa", true, "mpa", "n/mm²", "n/mm2")
	add(quantity.Pressure, "ksi", true, "ksi")
	add(quantity.Speed, "m/s", true, "m/s")
	add(quantity.Area, "m²", false, "m²", "m2")
	add(quantity.Area, "m²", true, "square metres", "square metre", "square meters")
	add(quantity.Area, "cm²", false, "cm²", "cm2")
	add(quantity.Area, "ft²", true, "ft²", "ft2", "sq ft", "square feet", "square foot")
	add(quantity.Area, "in²", true, "in²", "in2", "sq in", "square inches")
	add(quantity.Speed, "m/min", false, "m/min")
	add(quantity.Speed, "ft/min", true, "ft/min", "feet per minute", "feet a minute")
	add(quantity.Speed, "ft/s", true, "ft/s")
	add(quantity.Film, "mL/m²", true, "ml/m²", "ml/m2")
	add(quantity.Density, "kg/L", true, "kg/l", "kg per litre", "kilograms per litre", "kilos a litre", "kg to the litre", "kg a litre", "kg to a litre", "kilograms a litre", "kilos per litre")
	add(quantity.Density, "g/mL", true, "g/ml", "g/cm³", "g/cm3", "g/cc")
	for c := range byFirst {
		slices.SortStableFunc(byFirst[c], func(a, b spelling) int { return cmp.Compare(len(b.text), len(a.text)) })
	}
	return byFirst
}()

// unitAt reads the unit that stands at a place.
func unitAt(text string, at int) (quantity.Unit, int, bool) {
	if at >= len(text) {
		return quantity.Unit{}, at, false
	}
	for _, s := range unitSpellings[text[at]] {
		end := at + len(s.text)
		if end > len(text) || !(text[at:end] == s.text || s.fold && strings.EqualFold(text[at:end], s.text)) {
			continue
		}
		next, _ := utf8.DecodeRuneInString(text[end:])
		last, _ := utf8.DecodeLastRuneInString(s.text)
		if (unicode.IsLetter(next) || unicode.IsDigit(next)) && (unicode.IsLetter(last) || unicode.IsDigit(next)) {
			continue
		}
		if s.text == "°" && unicode.IsLetter(next) {
			continue
		}
		if next == '/' || next == '²' || next == '³' || next == '·' {
			continue // W/m², mg/m³: a unit that is not read
		}
		if (s.text == "in" || s.text == "\"") && !endsPhrase(text[end:]) {
			continue // “5 in Wash 1”, and the end of a quotation
		}
		if len(s.text) == 1 && strings.ContainsRune("CFdgmsh", rune(s.text[0])) && strings.HasPrefix(text[end:], "-") {
			continue
		}
		return s.unit, end, true
	}
	return quantity.Unit{}, at, false
}

// endsPhrase tells whether nothing, a mark, or a word follows that no place begins with.
func endsPhrase(rest string) bool {
	rest = strings.TrimLeft(rest, " \u00a0")
	word, _, _ := strings.Cut(rest, " ")
	return rest == "" || behindInches[strings.TrimRight(word, ".,;:")] || strings.ContainsRune("),.;(–/=", []rune(rest)[0])
}

// behindInches are words behind “in” with which it can only be a unit: “4 in are 102 mm”, “2 in deep”.
var behindInches = set("is are deep long wide high thick apart below above across")

// number is a number in the text.
type number struct {
	value    float64
	from, to int
	decimals int
	round    int // noughts at the end of a whole number
	word     bool
}

// numberAt reads the number that begins at a place: 4, 4.8, 1 200, 1,200, ½, 1½.
func numberAt(text string, at int) (number, bool) {
	n := number{from: at}
	i := at
	var digits strings.Builder
	for i < len(text) {
		c := text[i]
		if c >= '0' && c <= '9' {
			digits.WriteByte(c)
			i++
			continue
		}
		if digits.Len() == 0 {
			break
		}
		if width, is := thousands(text[i:]); is && digits.Len() <= 3 && digits.String() != "0" {
			i += width
			continue
		}
		break
	}
	if digits.Len() == 0 || digits.Len() > 12 {
		if f, width := fractionSign(text[i:]); f > 0 && digits.Len() == 0 {
			n.value, n.to, n.decimals = f, i+width, 2
			return n, true
		}
		return n, false
	}
	whole := digits.String()
	if i+1 < len(text) && text[i] == '.' && text[i+1] >= '0' && text[i+1] <= '9' {
		digits.WriteByte('.')
		for i++; i < len(text) && text[i] >= '0' && text[i] <= '9'; i++ {
			digits.WriteByte(text[i])
			n.decimals++
		}
	} else {
		n.round = len(whole) - len(strings.TrimRight(whole, "0"))
		if f, width := fractionSign(text[i:]); f > 0 {
			n.value, n.decimals = f, 2
			i += width
		}
	}
	n.value += parseFloat(digits.String())
	n.to = i
	return n, true
}

// thousands tells whether a mark between thousands stands there with three digits behind it.
func thousands(rest string) (width int, is bool) {
	r, w := utf8.DecodeRuneInString(rest)
	if !strings.ContainsRune(" ,\u00a0\u2009\u202f", r) || len(rest) < w+3 {
		return 0, false
	}
	for i := range 3 {
		if c := rest[w+i]; c < '0' || c > '9' {
			return 0, false
		}
	}
	if len(rest) > w+3 && rest[w+3] >= '0' && rest[w+3] <= '9' {
		return 0, false
	}
	return w, true
}

func fractionSign(rest string) (float64, int) {
	r, w := utf8.DecodeRuneInString(rest)
	switch r {
	case '½':
		return 0.5, w
	case '¼':
		return 0.25, w
	case '¾':
		return 0.75, w
	}
	return 0, 0
}

func parseFloat(s string) float64 {
	whole, part, _ := strings.Cut(s, ".")
	v := 0.
	for _, c := range whole {
		v = v*10 + float64(c-'0')
	}
	scale := 0.1
	for _, c := range part {
		v += scale * float64(c-'0')
		scale /= 10
	}
	return v
}

var smallNumbers = map[string]float64{
	"half": 0.5, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
	"thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
	"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
}

// numberWord reads a number written as a word, with its unit digit: "eighty", "seventy-five", "seventy five", "a hundred and twenty".
func numberWord(words []string) (value float64, count int) {
	if len(words) == 0 {
		return 0, 0
	}
	first := strings.ToLower(words[0])
	if ten, one, ok := strings.Cut(first, "-"); ok {
		if smallNumbers[ten] >= 20 && smallNumbers[one] >= 1 && smallNumbers[one] <= 9 {
			return smallNumbers[ten] + smallNumbers[one], 1
		}
		return 0, 0
	}
	v, ok := smallNumbers[first]
	if !ok {
		return 0, 0
	}
	if len(words) > 1 {
		next := strings.ToLower(words[1])
		switch w := smallNumbers[next]; {
		case v >= 20 && v < 100 && w >= 1 && w <= 9:
			return v + w, 2
		case v <= 9 && next == "hundred":
			return v * 100, 2
		}
	}
	return v, 1
}
