package relate

import (
	"tankside/builder/admit"
	"tankside/builder/finding"
	"tankside/calculators/quantity"
)

// FlashMargin is how far below its flash point a bath has to stay, in K.
const FlashMargin = 15

var flashMargin = margin(FlashMargin)

// margin is a difference of temperature in K.
func margin(kelvins float64) quantity.Range {
	k, _ := quantity.UnitNamed("K", quantity.TemperatureDifference)
	return quantity.Range{Low: kelvins, High: kelvins, Kind: quantity.TemperatureDifference, Unit: k}
}

// nearFlashPoint keeps a bath 15 °C below its flash point.
// Limit: ASM Handbook vol. 5 (1994), emulsion cleaning, and OSHA 29 CFR 1910.122–126 (vapour below 25 % of the lower flammable limit)
// ask for a distance; 15 °C is trade practice.
var nearFlashPoint = Exclusion{
	Rule: finding.Rule{
		Name: "near-flash-point", Severity: finding.People,
		Finds:  "a bath less than 15 °C below its flash point",
		Why:    "Close to the flash point the vapour over the bath can be lit, and a thermostat can be some degrees off.",
		Source: "OSHA 29 CFR 1910.122–126; ASM Handbook vol. 5 (1994), emulsion cleaning; 15 °C is common practice, no source",
	},
	Group: "fire",
	Of: func(b *Bath, in quantity.System) *Hit {
		flash := b.Chemistry.Chemistry.FlashPoint
		if !flash.Set || !b.Temperature.Set || b.Temperature.High <= flash.Low-FlashMargin+1e-9 {
			return nil
		}
		return &Hit{
			Verdict: admit.No, Says: admit.Say("At {temperature} the bath is less than {kelvins} below the flash point of {chemistry}, {temperature}.",
				admit.Amount(b.Temperature.Range), admit.Amount(flashMargin), titled(b.Chemistry), admit.Amount(flash.Range)),
			Remedy: "Stay at or below " + quantity.Show(flash.Low-FlashMargin, quantity.Temperature, in) + ".", At: flash.At, Also: b.Temperature.At,
		}
	},
}
