package admit

import (
	"tankside/builder/decide/fact"
	"tankside/builder/finding"
)

// FlammableIntoDryer keeps parts that are wet with something that can be lit out of a hot dryer.
// Limit: UN GHS, chapter 2.6, for what can be lit; hot air above the flash point makes a mixture that a heater lights: common practice, no source.
var FlammableIntoDryer = finding.Rule{
	Name: "flammable-into-dryer", Severity: finding.People,
	Finds:  "a part that goes wet with a flammable liquid into a hot dryer",
	Why:    "The film turns to vapour between the heater and the fan, and the dryer explodes.",
	Source: "UN GHS, chapter 2.6; common practice, no source",
}

// DryerTooHot finds parts of plastic, rubber, bonds or paint in a dryer hotter than the material stands.
// A metal may be drier than its bath may be hot, so metals are left alone: their limit is one for wet metal.
var DryerTooHot = finding.Rule{
	Name: "dryer-too-hot", Severity: finding.Parts,
	Finds:  "a part of plastic, rubber, paint or with bonds in a dryer hotter than the material stands",
	Why:    "Plastic warps or crazes, bonds creep and seals set, in the last minute of an otherwise good wash.",
	Source: "the material's article, temperature; the shop file, dryer",
}

var softens = []string{
	"polycarbonate", "acrylic", "abs", "polystyrene", "pvc", "nylon", "acetal", "polyolefin", "nbr", "epdm", "epoxy", "cyanoacrylate", "paint", "coated-optic",
}

// dries tells what becomes of a load in the dryer to which its sheet sends it.
func (d *deciding) dries(baths []Bath, after line) {
	if after.dryer == nil {
		return
	}
	air := after.dryer.Temperature
	if len(baths) > 0 {
		last := baths[len(baths)-1].Chemistry
		at, lit := last.Flammable()
		if lit && (len(after.rinses) == 0 || last.Rinses != "easy") && !(air.Set && air.High <= Room) {
			d.add(against(&FlammableIntoDryer, Say("The last wash is {chemistry}, which can be lit, and the part goes wet with it into {dryer}.", within(last), Title(after.dryer.Name))).
				mend("Rinse it off with water first, or let it dry in the open under exhaust; then leave dry out.").by(at).other(after.dryer.At).value(after.dryerAt))
		}
	}
	for _, m := range d.materials {
		_, bonded := d.meeting(nil, m).Has("bonded")
		if !bonded && !Softens(m.MadeOf) {
			continue
		}
		if !air.Set {
			d.add(unknown(Say("The shop file does not say how warm {dryer} is: not checked, but heat alone spoils {material}.", Title(after.dryer.Name), within(m))).by(m.first()).other(after.dryer.At))
		}
		if air.Set && m.Temperature.Set && air.High > m.Temperature.High+1e-9 {
			d.add(against(&DryerTooHot, Say("{dryer} has {temperature}, but the limit of {material} is {limit}.", Title(after.dryer.Name), Amount(air.Range), titled(m), Amount(m.Temperature.Range))).
				mend("Blow the part off and let it dry in the air, or give it a cooler dryer; then leave dry out.").by(m.Temperature.At).other(air.At).value(after.dryerAt))
		}
	}
}

// Softens tells whether heat alone spoils one of the substances.
func Softens(madeOf []fact.Ref) bool {
	_, is := fact.One(madeOf, softens...)
	return is
}
