package asked

import (
	"strings"

	"tankside/builder/quantity"
)

// conversion reads an amount that is wanted in another unit, or a unit of which somebody asks how many an amount is.
func (r *reader) conversion() {
	words := r.words
	turned := false
	if len(words) > 2 && strings.Contains(" many is much ", " "+words[1]+" ") {
		turned = words[1] == "many"
		words = words[2:]
	}
	for at := len(words) - 2; at > 0 && r.out == ""; at-- { // the last one: 5 in in mm
		if strings.Contains(" in to into as is are en a ", " "+words[at]+" ") {
			amount, unit := strings.Join(words[:at], " "), strings.Join(words[at+1:], " ")
			if turned {
				amount, unit = unit, amount
			}
			r.into(amount, unit)
		}
	}
}

// into reads an amount and a unit of one kind. The unit may stand before the number: °dH 12. Differences of temperature are written like temperatures
// and are not converted; neither are pH, money and percentages, which have one unit alone. Of kelvins nobody knows whether they are a difference.
// Degrees of hardness are one; an alkalinity is written in its own units.
func (r *reader) into(amount, unit string) {
	if before, number, two := strings.Cut(amount, " "); two && amount[0] > '9' {
		amount = number + " " + before
	}
	for kind := quantity.Temperature; kind < quantity.Fraction; kind++ {
		u, known := quantity.UnitNamed(unit, kind)
		if !known || kind == quantity.TemperatureDifference || kind == quantity.Alkalinity && r.out != "" || amount[len(amount)-1] == '%' {
			continue
		}
		v, err := quantity.Parse(amount, kind)
		switch symbol := v.Unit.Symbol; {
		case err != nil && kind == quantity.Volume && strings.Contains(amount+" ", " oz "):
			r.put(asks, "ounce")
		case err != nil:
			r.refused(err)
		case symbol == u.Symbol:
		case symbol == "K" || u.Symbol == "K":
			r.put(asks, "kelvin")
		default:
			r.same(written(v), countries(u.Symbol, unit), kind)
		}
	}
}

// countries is a unit's symbol, or that of both countries where nobody says whose gallon it is. Grains and gpg are of the US one.
func countries(symbol, written string) string {
	if strings.Contains(symbol, "US ") && !strings.Contains(written, "US") && !strings.Contains(written, "us") && written[0] != 'g' || written[:min(len(written), 3)] == "gal" {
		return symbol + between + strings.ReplaceAll(symbol, "US ", "imp ")
	}
	return symbol
}

// same puts what an amount is in a unit. Either may be two, of the US and the imperial gallon: then each in its own country's.
func (r *reader) same(from, to string, kind quantity.Kind) {
	amounts, symbols := r.both(from), r.both(to)
	for i, amount := range amounts {
		v, _ := quantity.Parse(amount, kind)
		for k, symbol := range symbols {
			if u, known := quantity.UnitNamed(symbol, kind); known && (i == k || len(amounts) != len(symbols)) {
				r.put(isSame, amount, quantity.ShowIn(v.SI, u))
			}
		}
	}
}
