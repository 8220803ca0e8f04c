package calculators

import (
	"math"

	"tankside/calculators/air"
	"tankside/calculators/bath"
	"tankside/calculators/safety"
)

// size works out the bath's volume, length, width and depth from whichever are
// given; what is missing shares the rest evenly.
func (s *sum) size() (volume, length, width, depth float64) {
	volume = s.si("volume")
	length, width, depth = s.si("length"), s.si("width"), s.si("depth")
	known := 1.
	missing := 0
	for _, d := range []float64{length, width, depth} {
		if d > 0 {
			known *= d
		} else {
			missing++
		}
	}
	if volume == 0 {
		volume = known
		s.step("volume = {length} × {length} × {length} = {volume}", length, width, depth, volume)
		return volume, length, width, depth
	}
	if missing == 0 {
		if r := volume / known; r < 0.85 || r > 1.18 {
			s.caution(Notice, "{volume} do not fit {length} × {length} × {length}, which hold {volume}. The volume is used; check which is right.", volume, length, width, depth, known)
		}
		return volume, length, width, volume / (length * width)
	}
	side := math.Pow(volume/known, 1/float64(missing))
	for _, d := range []*float64{&length, &width, &depth} {
		if *d == 0 {
			*d = side
		}
	}
	s.step("size not fully given: taken as {length} long, {length} wide, {length} deep", length, width, depth)
	return volume, length, width, depth
}

// vessel builds the heat model from the inputs; its power is the heater's plus
// the likely share of the sound's.
func (s *sum) vessel() *bath.Vessel {
	v := s.sizeOnly()
	empty := sheetMass(v)
	if s.has("vessel-mass") {
		empty = s.si("vessel-mass")
	}
	v.Fixed = empty*steelHeat + s.si("load-mass")*specificHeat(s.at("load-material").choice)
	v.Power = s.si("heater") + bath.SoundToHeat*s.si("ultrasonic-power")
	return v
}

// sizeOnly is the vessel without power, and without the heat in its steel and
// load, which do not matter once it is hot.
func (s *sum) sizeOnly() *bath.Vessel {
	v := &bath.Vessel{
		Lid: s.yes("lid"), LidLeak: bath.LidLeak,
		Insulation: s.si("insulation"), Conductivity: bath.WoolConductivity, WallEmissivity: bath.BareEmissivity, OpenBottom: true,
		Air: s.si("air"), Humidity: s.si("humidity"), Draught: s.si("draught"), Pressure: air.Pressure(s.si("altitude")),
		Scale: 1,
	}
	v.Volume, v.Length, v.Width, v.Depth = s.size()
	return v
}

// hot warns of what a bath of a temperature does, and of a bath too hot for
// its chemistry.
func (s *sum) hot(t float64) {
	switch {
	case t >= safety.Scalding:
		s.caution(Warning, "A bath at {temperature} scalds in seconds, and parts, rim and basket burn: long gloves, face shield, lift the lid away from you. (Water scalds deep in 30 s at {temperature}, in 5 s at {temperature}, in 1 s at {temperature}.)", t, safety.ScaldsIn30s, safety.ScaldsIn5s, safety.ScaldsIn1s)
	case t >= safety.HurtsSkin:
		s.caution(Careful, "A bath at {temperature} scalds skin held in it: gloves, and no hands in the bath.", t)
	}
	if s.has("flash-point") {
		flash := s.si("flash-point")
		switch {
		case t > flash-safety.FlashMargin:
			s.caution(Danger, "The bath at {temperature} comes within {kelvins} of its flash point, {temperature}: vapour can catch fire. Do not heat it in a tank that is not built and approved for it. No margin covers the mist that sound makes: it can catch fire below the flash point.", t, safety.FlashMargin, flash)
		default:
			s.caution(Warning, "The bath has a flash point, {temperature}. Only in a tank built and approved for it, with the over-temperature cut-out at or below {temperature}, {kelvins} lower. No margin covers the mist that sound makes: it can catch fire below the flash point.", flash, flash-safety.FlashMargin, safety.FlashMargin)
		}
	}
	if s.has("ceiling") {
		if ceiling := s.si("ceiling"); t > ceiling+1e-9 {
			s.caution(Warning, "{temperature} is above what the chemistry allows, {temperature}: it can split, gas or attack the parts.", t, ceiling)
		}
	}
}

// dry reminds of what burns out without liquid over it.
func (s *sum) dry() {
	s.caution(Notice, "Heat and sound only with the liquid above the mark: a heater or transducer running dry burns out, and may set the tank on fire.")
}
