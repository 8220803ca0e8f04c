package admit

import (
	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/quantity"
)

// flammableInOrdinaryTank keeps liquids that can be lit out of vessels that are not for them: heaters and generators spark, and sound makes
// mist, which burns below the flash point. A shop may have them in a tank that is built and approved for them, or cold in a covered jar
// without heat and sound, with ventilation.
// Limit: OSHA 29 CFR 1910.123–126 (dip tanks with liquids of a flash point below 93 °C, 200 °F); UN GHS, chapter 2.6: categories 1 to 4 end at 93 °C.
// That a jar is covered, cold and ventilated is common practice, no source.
var flammableInOrdinaryTank = Exclusion{
	Rule: finding.Rule{
		Name: "flammable-in-ordinary-tank", Severity: finding.People,
		Finds:  "a chemistry with H224, H225 or H226 or a flash point of 93 °C or less in a tank that is not built for flammable liquids, or in a jar that is not covered, cold and ventilated",
		Why:    "Heater, generator or a spark from a basket can set the vapour or mist on fire.",
		Source: "OSHA 29 CFR 1910.123–126; UN GHS, chapter 2.6 (flash point up to 93 °C); jars: common practice, no source",
	},
	Group: "fire",
	Of: func(b *Bath, in quantity.System) *Hit {
		at, is := b.Chemistry.Flammable()
		switch {
		case !is:
			return nil
		case b.Tank == nil:
			return b.flammableByItself(at)
		case b.Tank.Vessel == fact.Jar:
			return b.flammableInJar(at)
		case b.Tank.Flammables:
			return nil
		}
		return &Hit{
			Verdict: No, Says: Say("{chemistry} can be lit, with a flash point of {temperature}, and {tank} is not built for flammable liquids.", titled(b.Chemistry), Amount(b.Chemistry.Flash().Range), Title(b.Tank.Name)),
			Remedy: "Take a chemistry that cannot be lit, or a tank that is built and approved for flammable liquids, with exhaust, or a covered cold jar without heat and sound.", At: at, Also: b.Tank.At,
		}
	},
}

const inJar = "{chemistry} can be lit: only cold, in a covered and ventilated jar without heat and sound, with nothing near that sparks or burns, and never from it into a hot dryer."

// flammableByItself says in what a chemistry may be that nobody has put into a tank.
func (b *Bath) flammableByItself(at finding.Place) *Hit {
	if b.Chemistry.coldOnly() {
		return &Hit{Verdict: Conditions, Says: Say(inJar, titled(b.Chemistry)), Brief: Say("covered cold jar, no sound"), At: at}
	}
	return &Hit{
		Verdict: Conditions, Says: Say("{chemistry} can be lit, with a flash point of {temperature}: only in a tank that is built and approved for flammable liquids.", titled(b.Chemistry), Amount(b.Chemistry.Flash().Range)),
		Brief: Say("tank for flammables"), At: at,
	}
}

// flammableInJar says whether a jar is fit for it.
func (b *Bath) flammableInJar(at finding.Place) *Hit {
	if !b.Tank.Lid || !b.Tank.Ventilated || !b.cold() {
		return &Hit{
			Verdict: No, Says: Say("{chemistry} can be lit, and the shop file does not say of {tank} that it is covered, cold and ventilated.", titled(b.Chemistry), Title(b.Tank.Name)),
			Remedy: "Where it is so, give the jar lid: yes, ventilated: yes and a temperature of 30 °C at most; where it is not, it does not stand there.", At: at, Also: b.Tank.At,
		}
	}
	return &Hit{Verdict: Conditions, Says: Say(inJar, titled(b.Chemistry)), Brief: Say("covered, cold, no hot dryer"), At: at, Also: b.Tank.At}
}
