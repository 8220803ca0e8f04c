package relate

import (
	"tankside/builder/admit"
	"tankside/builder/finding"
	"tankside/calculators/quantity"
)

// flammableInOrdinaryTank keeps liquids with a flash point out of tanks that are not built and approved for them: heaters and generators
// spark, and sound makes mist.
// Limit: OSHA 29 CFR 1910.123–126 (dip tanks with liquids of a flash point below 93 °C, 200 °F); UN GHS, chapter 2.6: categories 1 to 4 end at 93 °C.
var flammableInOrdinaryTank = Exclusion{
	Rule: finding.Rule{
		Name: "flammable-in-ordinary-tank", Severity: finding.People,
		Finds:  "a chemistry with a flash point of 93 °C or less in a tank that is not built for flammable liquids",
		Why:    "Heater, generator or a spark from a basket can set the vapour or mist on fire.",
		Source: "OSHA 29 CFR 1910.123–126; UN GHS, chapter 2.6 (flash point up to 93 °C)",
	},
	Group: "fire",
	Of: func(b *Bath, in quantity.System) *Hit {
		flash := b.Chemistry.Chemistry.FlashPoint
		if b.Tank == nil || b.Tank.Flammables || !flash.Set || flash.High > 93 {
			return nil
		}
		return &Hit{
			Verdict: admit.No, Says: admit.Say("{chemistry} has a flash point of {temperature}, and {tank} is not built for flammable liquids.", titled(b.Chemistry), admit.Amount(flash.Range), admit.Title(b.Tank.Name)),
			Remedy: "Take a chemistry without flash point, or a tank that is built and approved for flammable liquids, with exhaust.", At: flash.At, Also: b.Tank.At,
		}
	},
}
