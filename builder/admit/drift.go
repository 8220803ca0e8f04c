package admit

import (
	"tankside/calculators/quantity"
)

// drifts says what to do about a bath that its own sound warms beyond what a material stands.
func (d *deciding) drifts(b *Bath, what What, common quantity.Range, high *Limit) (Reason, bool) {
	if what != Temperature || b.Tank == nil || !b.Tank.Drift.Known || b.Tank.Drift.Rises <= 0 || high == nil || high.by == nil || b.Tank.Drift.Ends <= common.High+close(common.High) {
		return Reason{}, false
	}
	stop := quantity.Range{Low: common.High, High: common.High, Kind: quantity.Temperature, Unit: common.Unit}
	ends := stop
	ends.Low, ends.High = b.Tank.Drift.Ends, b.Tank.Drift.Ends
	return wants(high.Rule, Say("Sound alone warms {tank} towards {temperature} under its lid: at {limit} stop the sound and take the lid off until it has cooled, because {another asks}.",
		Title(b.Title), Amount(rounded(ends)), Amount(stop), Clause(high.Asks)), Say("stop at {limit}", Amount(stop))).by(high.At).other(b.Tank.At), true
}

// rounded is a temperature to the kelvin.
func rounded(r quantity.Range) quantity.Range {
	r.Low = float64(int(r.Low + 0.5))
	r.High = r.Low
	r.Unit, _ = quantity.UnitNamed("°C", quantity.Temperature)
	return r
}
