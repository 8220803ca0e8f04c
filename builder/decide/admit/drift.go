package admit

import (
	"math"

	"tankside/builder/quantity"
	"tankside/calculators/safety"
)

// drifts says what to do about a bath that its own sound warms beyond what somebody is hurt by, parts or bath: the limit of a material, the
// ceiling, the cloud point, the distance to the flash point. Where it cannot be reckoned how far the sound goes, that is said.
func (d *deciding) drifts(b *Bath, asks []Limit) {
	if !b.Sounds() {
		return
	}
	l := harmful(asks)
	drift := b.Tank.Drift
	switch {
	case l == nil:
	case !drift.Known:
		if t := b.value(Temperature); t.Set && l.High <= t.High+safety.NearSetPoint {
			d.add(unknown(Say("How far its own sound warms {tank} is not checked, for the shop file lacks what that is reckoned from: watch the thermometer, because {another asks}.",
				Title(b.Title), Clause(l.Asks))).by(l.At).other(b.Tank.At))
		}
	case drift.Ends > l.High+close(l.High) && !(b.Temperature.Set && b.Temperature.High >= drift.Ends): // where the heater goes no higher
		stop := quantity.Range{Low: l.High, High: l.High, Kind: quantity.Temperature, Unit: l.Unit}
		ends := stop
		ends.Low, ends.High = drift.Ends, drift.Ends
		says := Say("Sound alone warms {tank} towards {temperature} without a lid: at {limit} stop the sound until it has cooled, because {another asks}.",
			Title(b.Title), Amount(rounded(ends)), Amount(stop), Clause(l.Asks))
		if b.Tank.Lid {
			says = Say("Sound alone warms {tank} towards {temperature} under its lid: at {limit} stop the sound and take the lid off until it has cooled, because {another asks}.",
				Title(b.Title), Amount(rounded(ends)), Amount(stop), Clause(l.Asks))
		}
		d.add(wants(l.Rule, says, Say("stop at {limit}", Amount(stop))).by(l.At).other(b.Tank.At))
	}
}

// harmful is the lowest limit above which something is hurt; nil where there is none. Beyond its window a bath only cleans otherwise.
func harmful(asks []Limit) *Limit {
	var lowest *Limit
	for i := range asks {
		l := &asks[i]
		hurts := l.by != nil || l.of == ofChemistry && l.Rule != &OutsideChemistryWindow
		if hurts && !math.IsInf(l.High, 0) && (lowest == nil || l.High < lowest.High) {
			lowest = l
		}
	}
	return lowest
}

// rounded is a temperature to the kelvin.
func rounded(r quantity.Range) quantity.Range {
	r.Low = float64(int(r.Low + 0.5))
	r.High = r.Low
	r.Unit, _ = quantity.UnitNamed("°C", quantity.Temperature)
	return r
}
