package calculators

import (
	"math"

	q "tankside/builder/quantity"
	"tankside/calculators/bath"
	"tankside/calculators/safety"
)

// Course is where a bath goes with its heater off and its sound on, likely, and at the low and the high end of what is likely: see Drift.
type Course struct {
	End, EndLow, EndHigh    float64 // °C, in the end
	Rise, RiseLow, RiseHigh float64 // K in the first quarter of an hour; below 0 where it falls
	Boils                   bool    // End is a kelvin below boiling, and the sound's heat goes beyond
}

// Drift is what a bath does from its set-point with the heater off and the sound on, for the share of the time that it runs, and with its
// cooling, if it has any, at full power.
type Drift struct {
	SetPoint   float64 // °C
	Shut, Open Course  // lid shut, lid off
	StopAt     float64 // °C at which to stop the sound; see stopAt

	shut, open, high float64 // W: losses at the set-point, and the sound's heat at its high end while it runs
	cooling, likely  float64 // W
	openBand         float64 // of open
	lid              bool
}

// DriftOf works out what a tank does under its sound. It wants the tank's volume, or its length, width and depth, its ultrasonic power and its
// temperature. The error is an [Errors].
func DriftOf(t Tank, s Shop) (Drift, error) {
	h := sum{calculator: &holding, values: make([]value, len(holding.Inputs)), answer: Answer{Calculator: &holding, System: q.SI}}
	values := Fill("holding", t, s, map[string]string{"hours": "1 h"})
	h.read(values)
	if len(h.errs) == 0 && t.UltrasonicPower == "" {
		e := h.wrong(holding.Inputs[holding.index("ultrasonic-power")])
		e.Problem, e.Missing = h.say("this is needed")+".", true
		h.errs = append(h.errs, e)
	}
	if len(h.errs) > 0 {
		return Drift{}, h.errs
	}
	return h.drift(), nil
}

// quarter is the time for which a rise is told, in s.
const quarter = 15 * minute

// drift computes both courses from the inputs of holding.
func (s *sum) drift() Drift {
	t := s.si("target")
	us, cooling := s.si("ultrasonic-power"), s.si("cooling")
	d := Drift{SetPoint: t, StopAt: s.stopAt(t), lid: s.yes("lid"), cooling: cooling, likely: bath.SoundToHeat * us * s.si("duty"), high: bath.SoundToHeatHigh * us}
	v := s.sizeOnly()
	v.Fixed = sheetMass(v) * steelHeat
	for _, lid := range []bool{false, true} {
		v.Lid = lid
		likely, slow, fast := copyOf(v), copyOf(v), copyOf(v)
		b := v.LossBand(t)
		slow.Scale, fast.Scale = 1+b, 1-b
		for i, w := range []*bath.Vessel{likely, slow, fast} {
			share := [...]float64{bath.SoundToHeat, bath.SoundToHeatLow, bath.SoundToHeatHigh}[i]
			w.Power = share*us*s.si("duty") - cooling
		}
		var c Course
		c.End, c.Boils = likely.Ends()
		c.EndLow, _ = slow.Ends()
		c.EndHigh, _ = fast.Ends()
		c.Rise, c.RiseLow, c.RiseHigh = likely.Rise(t, quarter), slow.Rise(t, quarter), fast.Rise(t, quarter)
		if lid {
			d.Shut, d.shut = c, v.Loss(t).Total()
		} else {
			d.Open, d.open, d.openBand = c, v.Loss(t).Total(), b
		}
	}
	return d
}

// stopAt is where to stop the sound: so far above the set-point, and never above what the chemistry allows or within the margin of its flash point,
// as the decision has both. What parts stand is not known here: whoever knows it gives it as what is allowed.
func (s *sum) stopAt(t float64) float64 {
	stop := t + safety.StopAbove
	if s.has("ceiling") {
		stop = math.Min(stop, s.si("ceiling"))
	}
	if s.has("flash-point") {
		stop = math.Min(stop, safety.BelowFlash(s.si("flash-point")))
	}
	return stop
}

// underSound gives the readings of a drift and says what to do about it.
func (s *sum) underSound(d Drift) {
	for _, way := range []struct {
		end, rise string
		Course
	}{{"drift-shut", "rise-shut", d.Shut}, {"drift-open", "rise-open", d.Open}} {
		r := s.between(way.end, way.End, way.EndLow, way.EndHigh, q.Temperature)
		if way.Boils {
			s.note(r, "it would boil")
		}
		s.between(way.rise, way.Rise, way.RiseLow, way.RiseHigh, q.TemperatureDifference)
	}
	stop := s.give("stop-at", d.StopAt, q.Temperature)
	if d.StopAt < d.SetPoint+safety.StopAbove {
		s.note(stop, "what is allowed, or the distance to the flash point; parts that stand less stop it sooner")
	} else {
		s.note(stop, "{kelvins} above the set-point: common practice, no source; parts that stand less stop it sooner", safety.StopAbove)
	}
	s.step("with the heater off the sound's heat of {power} less {power} of cooling stands against a loss of {power} with the lid shut, {power} with it off", d.likely, d.cooling, d.shut, d.open)
	c, t := d.Open, d.SetPoint
	if d.lid {
		c = d.Shut
	}
	// What holds whatever is likely: the sound's heat at its high end, the losses with the lid off at their low.
	least := d.open * (1 - d.openBand)
	share, coil := math.Max(0, math.Min(1, (least+d.cooling)/d.high)), math.Max(0, d.high*s.si("duty")-least)
	switch {
	case c.Rise <= 0 && c.RiseHigh <= 0:
	case c.Rise <= 0:
		s.verdict("It is close: if more of the sound ends as heat than is likely, this bath drifts past {temperature} with the heater off, to about {temperature}. Watch the thermometer; at {temperature} stop the sound.", t, c.EndHigh, d.StopAt)
	case d.lid && d.Open.RiseHigh <= 0:
		s.verdict("With the lid shut the sound alone warms this bath past {temperature}, by {kelvins} in 15 minutes and to about {temperature} in the end. Take the lid off, pause the sound or cool the bath: with the lid off it does not drift. At {temperature} stop the sound.", t, c.Rise, c.End, d.StopAt)
	case d.lid:
		s.verdict("With the lid shut the sound alone warms this bath past {temperature}, by {kelvins} in 15 minutes and to about {temperature} in the end. Taking the lid off may not be enough: run the sound at most {share} of the time with the lid off, or fit a cooling coil of {power}. At {temperature} stop the sound.", t, c.Rise, c.End, share, coil, d.StopAt)
	default:
		s.verdict("The sound alone warms this bath past {temperature}, by {kelvins} in 15 minutes and to about {temperature} in the end. Run it at most {share} of the time, or fit a cooling coil of {power}. At {temperature} stop the sound.", t, c.Rise, c.End, share, coil, d.StopAt)
	}
}
