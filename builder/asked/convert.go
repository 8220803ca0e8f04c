package asked

import (
	"strings"

	"tankside/builder/quantity"
)

// measured are the kinds that are converted. Differences of temperature are written like temperatures and are none of them; neither are pH, money and
// percentages, which have one unit alone.
var measured = []quantity.Kind{
	quantity.Temperature, quantity.Volume, quantity.Mass, quantity.Length, quantity.Area, quantity.Time, quantity.Power, quantity.Energy, quantity.Frequency,
	quantity.VolumeFraction, quantity.MassFraction, quantity.MassConcentration, quantity.Density, quantity.PowerDensity, quantity.Pressure, quantity.Speed,
	quantity.Flow, quantity.Hardness, quantity.Alkalinity, quantity.Conductivity, quantity.ArealMass,
}

// intos stand between an amount and the unit that it is wanted in.
var intos = []string{" in ", " to ", " into ", " as ", " en ", " a ", "=", "->", "→"}

// conversion reads an amount that is wanted in another unit.
func (n *Names) conversion(text string) (q Question, ok bool) {
	for _, before := range []string{"how many ", "how much ", "what is ", "convert ", "cuántos ", "cuantos ", "convertir "} {
		if len(text) > len(before) && strings.EqualFold(text[:len(before)], before) {
			text = strings.TrimSpace(text[len(before):])
			if strings.HasSuffix(before, "many ") || strings.HasSuffix(before, "ntos ") {
				return n.turned(text)
			}
			break
		}
	}
	for _, into := range intos {
		// The last one: "5 in in mm".
		if at := strings.LastIndex(lower(text), into); at > 0 {
			if q, ok = n.into(strings.TrimSpace(text[:at]), strings.TrimSpace(text[at+len(into):])); ok {
				return q, true
			}
		}
	}
	return q, false
}

// lower has small letters A to Z, and as many bytes.
func lower(text string) string {
	b := []byte(text)
	for i, c := range b {
		if c >= 'A' && c <= 'Z' {
			b[i] = c | 0x20
		}
	}
	return string(b)
}

// turned reads "litres in 5 US gal".
func (n *Names) turned(text string) (q Question, ok bool) {
	for _, between := range []string{" in ", " is ", " are ", " en ", " son "} {
		if unit, amount, found := strings.Cut(text, between); found {
			if q, ok = n.into(amount, unit); ok {
				return q, true
			}
		}
	}
	return q, false
}

// into reads an amount and a unit of one kind.
func (n *Names) into(amount, unit string) (q Question, ok bool) {
	switch last := strings.LastIndexByte(amount, ' '); {
	case unit == "" || strings.ContainsAny(unit, "0123456789"):
		return q, false
	case last > 0 && !strings.ContainsAny(amount[:last], "0123456789"): // the unit first: °dH 12
		amount = amount[last+1:] + " " + amount[:last]
	}
	for _, kind := range measured {
		u, known := quantity.UnitNamed(unit, kind)
		if !known {
			continue
		}
		if kind == quantity.Volume && isOunce(amount) {
			n.ounces(&q, amount, u)
			continue
		}
		v, err := quantity.Parse(amount, kind)
		if err != nil {
			if e := err.(*quantity.Error); e.Asks() {
				q.ask(e.In(n.Words))
			}
			continue
		}
		if v.Unit == u || percents(amount) {
			continue
		}
		if v.Unit.Symbol == "K" || u.Symbol == "K" {
			q.ask(n.Words.Say("A temperature or a difference? Kelvins can be either: write °C or °F."))
			continue
		}
		n.add(&q, v, u, unit)
	}
	return q, len(q.Readings)+len(q.Says) > 0
}

// percents tells whether an amount ends with a per cent sign that does not say of what.
func percents(amount string) bool {
	return strings.HasSuffix(amount, "%") || strings.HasSuffix(lower(amount), "percent")
}

// isOunce tells whether an amount is in ounces that do not say whether they are weighed or measured.
func isOunce(amount string) bool {
	v, err := quantity.Parse(amount, quantity.Mass)
	return err == nil && v.Unit.Symbol == "oz"
}

// ounces are taken for fluid ones where a volume is wanted, of both countries, and the question says so.
func (n *Names) ounces(q *Question, amount string, u quantity.Unit) {
	weighed, _ := quantity.Parse(amount, quantity.Mass)
	q.ask(n.Words.Say("Ounces by weight have no volume without a density; these are fluid ounces. Which gallon's?"))
	for _, symbol := range []string{"US fl oz", "imp fl oz"} {
		fluid, _ := quantity.UnitNamed(symbol, quantity.Volume)
		q.Readings = append(q.Readings, Reading{Amount: quantity.Value{SI: fluid.ToSI(weighed.Unit.FromSI(weighed.SI)), Kind: quantity.Volume, Unit: fluid}, Unit: u})
	}
}

// add adds a conversion, in both countries' gallons where the amount or the unit does not say which.
func (n *Names) add(q *Question, v quantity.Value, u quantity.Unit, unit string) {
	amounts, units := n.gallons(q, v), []quantity.Unit{u}
	if twin, has := imperial(u); has && !saysCountry(unit) {
		q.ask(n.Words.Say(whichGallon))
		units = append(units, twin)
	}
	for _, v := range amounts {
		for _, u := range units {
			if len(amounts) == 1 || len(units) == 1 || v.Unit.Imperial() == u.Imperial() {
				q.Readings = append(q.Readings, Reading{Amount: v, Unit: u})
			}
		}
	}
}

const whichGallon = "Which gallon? Write US gal or imp gal: an imperial one is a fifth more."

// gallons gives an amount, or both that it may be, where nobody says whether its gallon, quart or fluid ounce is the US or the imperial one.
func (n *Names) gallons(q *Question, v quantity.Value) []quantity.Value {
	if !v.Loose {
		return []quantity.Value{v}
	}
	q.ask(n.Words.Say(whichGallon))
	us, imp := v.BothGallons()
	var both []quantity.Value
	for _, text := range []string{us, imp} {
		if one, err := quantity.Parse(text, v.Kind); err == nil {
			both = append(both, one)
		}
	}
	return both
}

// imperial gives the imperial unit of a US one's name.
func imperial(u quantity.Unit) (quantity.Unit, bool) {
	if !strings.Contains(u.Symbol, "US ") {
		return u, false
	}
	return quantity.UnitNamed(strings.ReplaceAll(u.Symbol, "US ", "imp "), u.Kind)
}

// saysCountry tells whether a written unit says whose gallon it is, or means none: grains in a US gallon have names of their own.
func saysCountry(unit string) bool {
	unit = lower(unit)
	for _, word := range []string{"us", "imp", "uk"} {
		if strings.Contains(unit, word) {
			return true
		}
	}
	return !strings.Contains(unit, "gal") && !strings.Contains(unit, "oz") && !strings.Contains(unit, "q") && !strings.Contains(unit, "ounce")
}
