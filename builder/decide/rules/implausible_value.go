package rules

import (
	"fmt"
	"math"
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/calculators/air"
	"tankside/calculators/water"
)

// implausibleValue finds amounts that cannot be, or that nobody can have meant: a pH of 95, aluminium from pH 0, a bath of water at 140 °C, a strength above the whole.
// It prevents that a slip of the finger becomes a limit by which parts are washed. The bounds are wide; what is unusual is left alone.
var implausibleValue = finding.Rule{
	Name: "implausible-value", Severity: finding.Parts,
	Finds:  "an amount in a header or the shop file beyond what can be, or a range whose ends do not belong together",
	Why:    "A limit with a digit or a unit wrong lets everything pass, or nothing, and looks like any other.",
	Source: "pH: 0 to 14 in water at 25 °C (IUPAC Gold Book, pH); boiling point at the altitude: IAPWS R7-97 (2012) and the standard atmosphere; the pH that substances stand: from memory of M. Pourbaix, Atlas of Electrochemical Equilibria in Aqueous Solutions (1974), and of tables of resistance, taken wide, to be confirmed by the process engineer; the other bounds are our own limits",
}

// bound is what an amount of a key can be, in SI units, temperatures in °C; why is a sentence. A range whose ends are further apart than span, or whose
// greater is more than ratio times the smaller, has ends that do not belong together; 0 is any.
type bound struct {
	low, high   float64
	span, ratio float64
	why         string
	least       float64 // that the upper end has to reach
}

const (
	hour        = 3600.
	longestWash = 3 * hour
)

var (
	pHBound       = bound{0, 14, 0, 0, "The scale of pH goes from 0 to 14.", 0}
	strengthBound = bound{0, 1, 0, 25, "No bath has more than 100 % of anything.", 0}
	washTime      = bound{1, longestWash, 0, 60, "Under ultrasonics minutes are meant, at most 3 h.", 0}
	soundBound    = bound{15e3, 1e6, 0, 0, "Cleaning with sound works between 15 kHz and 1000 kHz.", 0}
	sideBound     = bound{0.03, 10, 0, 0, "A tank's side is between 30 mm and 10 m.", 0}
	volumeBound   = bound{0.2e-3, 100, 0, 0, "A tank holds between 0.2 L and 100 m³.", 0}
)

// bound gives what an amount can be, by what it belongs to and its key; ok is false where nothing is known.
func (p *proof) bound(kind manual.Kind, v value) (b bound, ok bool) {
	boils, inWater := 0.0, ""
	if v.limit.Kind == quantity.Temperature {
		boils = p.boiling()
		inWater = fmt.Sprintf("Water boils at %s at the shop's altitude.", quantity.Show(math.Floor(boils), quantity.Temperature, p.Shop.System()))
	}
	switch v.limit.Kind {
	case quantity.PH:
		b = pHBound
		if kind == manual.Chemistry {
			b.span = 7 // one bath does not range over more than half of the scale
		}
		return b, true
	case quantity.VolumeFraction, quantity.MassFraction:
		return strengthBound, true
	case quantity.MassConcentration:
		if v.key == "strength" {
			return bound{0, 2000, 0, 25, "No bath has 2 kg of anything in a litre.", 0}, true
		}
		return bound{0, 40, 0, 0, "Sea water has 35 g/L of dissolved solids.", 0}, true
	case quantity.Frequency:
		b = soundBound
		if kind == "" { // a type plate
			b.high, b.why = 2e6, "Tanks for cleaning are built from 15 kHz to 2 MHz."
		}
		return b, true
	case quantity.Density:
		return bound{500, 3000, 0, 0, "Liquids of this trade have between 0.5 and 3 kg/L.", 0}, true
	}
	switch {
	case v.key == "time" && kind == manual.Procedure:
		return bound{1, 31 * 24 * hour, 0, 100, "A procedure is done in less than a month.", 0}, true
	case v.key == "duration":
		return bound{60, 10 * 24 * hour, 0, 100, "A lesson takes between a minute and ten days.", 0}, true
	case v.key == "time":
		return washTime, true
	case v.key == "flash-point":
		return bound{-60, 300, 0, 0, "Flash points lie between −60 °C and 300 °C.", 0}, true
	case kind == manual.Material && v.key == "temperature":
		return bound{-60, 100, 0, 0, "In water nothing gets hotter than 100 °C, and what does not stand 28 °C does not stand a summer's day.", 28}, true
	case kind != "" && v.limit.Kind == quantity.Temperature:
		return bound{0, boils, 75, 0, "A bath of water is liquid above 0 °C, and nothing is washed below 18 °C. " + inWater, 18}, true
	}
	return p.boundOfShop(v, boils, inWater)
}

// boundOfShop gives what an amount of the shop file can be.
func (p *proof) boundOfShop(v value, boils float64, inWater string) (bound, bool) {
	switch v.key {
	case "temperature":
		switch {
		case v.of == "" && v.label == "the shop's air":
			return bound{-5, 50, 0, 0, "People work between −5 °C and 50 °C.", 0}, true
		case v.of == "":
			return bound{0.5, 60, 0, 0, "Water comes from the tap between 0.5 °C and 60 °C.", 0}, true
		case v.of == p.Shop.Dryer.ID:
			return bound{15, 250, 0, 0, "A dryer has between 15 °C and 250 °C.", 0}, true
		}
		if p.Shop.Tank(v.of) != nil {
			return bound{0.5, boils, 75, 0, "A bath of water is liquid above 0 °C, and nothing is washed below 18 °C. " + inWater, 18}, true
		}
		return bound{0.5, boils, 75, 0, "Water is liquid above 0 °C. " + inWater, 0}, true
	case "altitude":
		return bound{-430, 4000, 0, 0, "The sums hold from the Dead Sea to 4000 m.", 0}, true
	case "humidity":
		return bound{0.01, 1, 0, 0, "Humidity is between 1 % and 100 %.", 0}, true
	case "hardness", "alkalinity":
		return bound{0, 5, 0, 0, "Tap water has at most a few hundred mg/L, and 5 g/L is no water to fill with.", 0}, true
	case "conductivity":
		return bound{5e-6, 5, 0, 0, "The purest water has 0.055 µS/cm; above 50 mS/cm it is sea water.", 0}, true
	case "volume":
		return volumeBound, true
	case "length", "width", "depth":
		return sideBound, true
	case "insulation":
		return bound{0.5e-3, 0.5, 0, 0, "Insulation is between half a millimetre and half a metre thick.", 0}, true
	case "heater", "ultrasonic-power":
		return bound{1, 5e6, 0, 0, "Heaters and generators have between 1 W and 5 MW.", 0}, true
	case "flow":
		return bound{1e-9, 0.1, 0, 0, "Rinses take between a few drops and 100 L in a second.", 0}, true
	}
	return bound{}, false
}

// boiling is the temperature in °C at which water boils at the shop's altitude; at the sea's level where that is not given, or cannot be.
func (p *proof) boiling() float64 {
	if h := p.Shop.Altitude; h.Set && h.High >= -430 && h.High <= 4000 {
		return water.BoilingPoint(air.Pressure(h.High))
	}
	return 100
}

// leaves tells whether a range is beyond a bound, or its ends do not belong together.
func (b bound) leaves(r quantity.Range) bool { return b.beyond(r) || b.apart(r) }

// beyond tells whether an end of a range cannot be.
func (b bound) beyond(r quantity.Range) bool {
	const slack = 1e-9
	out := func(end float64) bool {
		return !math.IsInf(end, 0) && (end > b.high*(1+slack) || end < b.low-math.Abs(b.low)*slack)
	}
	return out(r.Low) || out(r.High) || !math.IsInf(r.High, 0) && r.High < b.least-slack
}

// apart tells whether the ends of a range are too far from each other to be ends of one.
func (b bound) apart(r quantity.Range) bool {
	const slack = 1e-9
	if math.IsInf(r.Low, 0) || math.IsInf(r.High, 0) {
		return false
	}
	return b.span > 0 && r.High-r.Low > b.span+slack || b.ratio > 0 && r.Low > 0 && r.High/r.Low > b.ratio*(1+slack)
}

func findImplausibleValues(p *proof, a *manual.Article) []finding.Finding {
	return p.implausible(a.Kind, valuesOf(a), a)
}

func findImplausibleShop(p *proof) []finding.Finding {
	return p.implausible("", valuesOfShop(&p.Shop), nil)
}

func (p *proof) implausible(kind manual.Kind, values []value, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	var of []value // whose finding each is
	for _, v := range values {
		b, known := p.bound(kind, v)
		ofSubstance := false
		if known && !b.leaves(v.limit.Range) {
			if of, closed := substanceBound(a, v); of != nil {
				b, v, ofSubstance = *of, closed, true
			}
		}
		if !known || !b.leaves(v.limit.Range) || a != nil && oily(a, v) {
			continue
		}
		meant, why := b.meant(v), b.why
		if !b.beyond(v.limit.Range) {
			why = "Its ends are too far apart to be those of one range."
		}
		if i := slices.IndexFunc(of, func(w value) bool { return w.of == v.of && w.label == v.label && w.sort() == v.sort() }); i >= 0 {
			// Of several of a sort one is told of: they were pasted in together.
			f := &list[i]
			f.Message = "“" + v.written() + "” and " + f.Message
			f.Also = append(f.Also, v.at())
			if meant != "" {
				f.Remedy += " And " + meant + "?"
			}
			continue
		}
		remedy := "Correct it."
		if meant != "" {
			remedy = "Correct it; did you mean " + meant + "?"
		}
		if v.limit.Kind == quantity.PH && !ofSubstance {
			remedy += " What is stronger than the scale is written as its end, with contains: [free-caustic] or [acid], and its strength."
		}
		list = append(list, implausibleValue.At(v.at(), fmt.Sprintf("“%s” of %s cannot be meant. %s", v.written(), v.label, why), remedy))
		of = append(of, v)
	}
	return list
}

// oily tells whether a temperature is that of a liquid with a flash point, which need not be water.
func oily(a *manual.Article, v value) bool {
	return a.Chemistry != nil && v.limit.Kind == quantity.Temperature && a.Chemistry.FlashPoint.Set
}

// meant gives what was likely meant, or "": another unit, the decimal point of one end, that of both; the first that can be.
func (b bound) meant(v value) string {
	for _, slip := range slices.Concat(slipsOfWhole[:unitSlips], slipsOfEnd, slipsOfWhole[unitSlips:]) {
		if s, can := slip(v.limit.Range); can && !b.leaves(s) {
			return v.key + ": " + s.String()
		}
	}
	return ""
}

// otherUnits are the units for which one is written by mistake.
var otherUnits = map[string][]string{
	"°C": {"°F"}, "°F": {"°C"}, "Hz": {"kHz"}, "MHz": {"kHz"}, "h": {"min", "s"}, "s": {"min"}, "d": {"min", "h"}, "days": {"min", "h"}, "min": {"s"},
	"mm": {"cm", "m"}, "cm": {"mm"}, "m": {"mm", "cm"}, "m³": {"L"}, "mL": {"L"}, "L": {"mL"}, "kW": {"W"}, "W": {"kW"}, "MW": {"kW"},
	"kg/L": {"g/L"}, "g/L": {"kg/L"}, "mg/L": {"g/L"}, "S/m": {"µS/cm"}, "mS/cm": {"µS/cm"}, "S/cm": {"µS/cm"}, "km": {"m"},
}

// slipsOfWhole turn a range into what it may have been meant to be, both ends alike: in another unit, or with the decimal point moved.
var slipsOfWhole = []func(quantity.Range) (quantity.Range, bool){
	inOtherUnit(0), inOtherUnit(1), scaled(0.1, 0.1), scaled(10, 10), scaled(0.01, 0.01), scaled(100, 100), scaled(0.001, 0.001), scaled(1000, 1000),
}

// unitSlips is how many of slipsOfWhole change the unit.
const unitSlips = 2

// slipsOfEnd do the same for one end.
var slipsOfEnd = []func(quantity.Range) (quantity.Range, bool){
	scaled(1, 0.1), scaled(0.1, 1), scaled(1, 10), scaled(10, 1), scaled(1, 0.01), scaled(1, 100),
}

// inOtherUnit reads the numbers in one of the units for which a range's own is written by mistake.
func inOtherUnit(n int) func(quantity.Range) (quantity.Range, bool) {
	return func(r quantity.Range) (quantity.Range, bool) {
		symbols := otherUnits[r.Unit.Symbol]
		if n >= len(symbols) {
			return r, false
		}
		u, known := quantity.UnitNamed(symbols[n], r.Kind)
		return quantity.Range{Low: u.ToSI(r.Unit.FromSI(r.Low)), High: u.ToSI(r.Unit.FromSI(r.High)), Kind: r.Kind, Unit: u}, known
	}
}

// scaled multiplies the numbers of a range; ends of their own only where there are two.
func scaled(low, high float64) func(quantity.Range) (quantity.Range, bool) {
	return func(r quantity.Range) (quantity.Range, bool) {
		two := r.Low != r.High && !math.IsInf(r.Low, 0) && !math.IsInf(r.High, 0)
		if low != high && !two {
			return r, false
		}
		s := quantity.Range{Low: r.Unit.ToSI(r.Unit.FromSI(r.Low) * low), High: r.Unit.ToSI(r.Unit.FromSI(r.High) * high), Kind: r.Kind, Unit: r.Unit}
		return s, s.Low <= s.High
	}
}
