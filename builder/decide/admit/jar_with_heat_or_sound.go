package admit

import (
	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/quantity"
)

// jarWithHeatOrSound keeps the two kinds of vessel apart: a jar has rules of its own because it has neither heat nor sound.
// It prevents that a heated tank passes for a jar, and what can be lit with it. The limit is what a jar is: our own.
var jarWithHeatOrSound = Exclusion{
	Rule: finding.Rule{
		Name: "jar-with-heat-or-sound", Severity: finding.People,
		Finds:  "a jar with a heater, ultrasonics or a set-point above 30 °C",
		Why:    "What is allowed in a cold jar, a flammable liquid above all, burns in a tank with heat or sound.",
		Source: "our own limit",
	},
	Of: func(b *Bath, in quantity.System) *Hit {
		if b.Tank == nil || b.Tank.Vessel != fact.Jar {
			return nil
		}
		at := finding.Place{}
		switch t := &b.Tank.Tank; {
		case t.Heater.Set && t.Heater.High > 0:
			at = t.Heater.At
		case t.Power.Set && t.Power.High > 0:
			at = t.Power.At
		case b.Frequency.Set:
			at = b.Frequency.At
		case b.Temperature.Set && b.Temperature.High > Room:
			at = b.Temperature.At
		default:
			return nil
		}
		return &Hit{
			Verdict: No, Says: Say("{tank} is a jar, and a jar has neither heat nor sound.", Title(b.Tank.Name)),
			Remedy: "Take heater, ultrasonic-power, frequency and warm set-point out of the jar, or leave vessel out where it is a tank.", At: at, Also: b.Tank.At,
		}
	},
}
