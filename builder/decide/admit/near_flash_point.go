package admit

import (
	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/quantity"
	"tankside/calculators/safety"
)

// FlashMargin is how far below its flash point a bath has to stay, in K; its source stands with it. No margin covers the mist that sound makes.
const FlashMargin = safety.FlashMargin

var flashMargin = margin(FlashMargin)

// margin is a difference of temperature in K.
func margin(kelvins float64) quantity.Range {
	k, _ := quantity.UnitNamed("°F", quantity.TemperatureDifference)
	return quantity.Range{Low: kelvins, High: kelvins, Kind: quantity.TemperatureDifference, Unit: k}
}

// nearFlashPoint keeps a bath below its flash point by a margin.
// Limit: OSHA 29 CFR 1910.106, within 30 °F of the flash point; ASM Handbook vol. 5 (1994), emulsion cleaning, asks for a distance too.
var nearFlashPoint = Exclusion{
	Rule: finding.Rule{
		Name: "near-flash-point", Severity: finding.People,
		Finds:  "a bath less than 30 °F (16.7 K) below its flash point",
		Why:    "Close to the flash point the vapour over the bath can be lit, and a thermostat can be some degrees off.",
		Source: "OSHA 29 CFR 1910.106 (30 °F); ASM Handbook vol. 5 (1994), emulsion cleaning",
	},
	Group: "fire",
	Of: func(b *Bath, in quantity.System) *Hit {
		flash := b.Chemistry.Flash()
		if !flash.Set {
			return nil
		}
		open := b.Tank != nil && b.Tank.Vessel != fact.Jar
		if open && b.Chemistry.coldOnly() && !b.Temperature.Set {
			return &Hit{
				Verdict: No, Says: Say("{chemistry} has a flash point of {temperature}: in {tank}, which has heat or sound, it is never far enough below it.", titled(b.Chemistry), Amount(flash.Range), Title(b.Tank.Name)),
				Remedy: inJarOnly(in), At: flash.At, Also: b.Tank.At,
			}
		}
		if !b.Temperature.Set || b.Temperature.High <= flash.Low-FlashMargin+1e-9 || !open && b.Chemistry.coldOnly() && b.cold() {
			return nil
		}
		remedy := "Stay at or below " + quantity.Show(flash.Low-FlashMargin, quantity.Temperature, in) + "."
		if b.Chemistry.coldOnly() {
			remedy = inJarOnly(in)
		}
		return &Hit{
			Verdict: No, Says: Say("At {temperature} the bath is less than {kelvins} below the flash point of {chemistry}, {temperature}.",
				Amount(b.Temperature.Range), Amount(flashMargin), titled(b.Chemistry), Amount(flash.Range)),
			Remedy: remedy, At: flash.At, Also: b.Temperature.At,
		}
	},
}

func inJarOnly(in quantity.System) string {
	return "It can only stand cold, at " + quantity.Show(Room, quantity.Temperature, in) + " at most, in a covered and ventilated jar without heat and sound."
}
