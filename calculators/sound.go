package calculators

import (
	"math"

	q "tankside/builder/quantity"
	"tankside/calculators/air"
	"tankside/calculators/bath"
	"tankside/calculators/safety"
	"tankside/calculators/water"
)

var sound = Calculator{
	run: resonate,

	Name:    "sound",
	Title:   "Sound in the bath",
	Summary: "Wavelength, stripe spacing and bubble size for a frequency.",
	Inputs: []*Input{
		&frequencyInput,
		{Name: "temperature", Label: "Temperature of the bath", Measures: []Measure{{q.Temperature, 0.1, 95, "°C", "°F"}}, Default: "20 °C"},
		{Name: "depth", Label: "Depth of the liquid", Measures: []Measure{{q.Length, 0.02, 10, "mm", "in"}}, Help: "For how many layers stand in it."},
	},
	Readings: []Declared{{"speed", "Speed of sound"}, {"wavelength", "Wavelength"}, {"antinode-spacing", "Stripes lie apart"}, {"resonant-radius", "Radius of a resonant bubble"}, {"boundary-layer", "Still layer at a surface"}, {"layers", "Layers in the depth"}},
	Example:  []Written{{"frequency", "40 kHz"}, {"temperature", "62 °C"}, {"depth", "445 mm"}},
	Limits: []string{
		"Plain water; a few per cent of detergent change the speed by a few m/s. Bubbles in the liquid slow it down.",
		"Bubbles of a cleaning bath are smaller than the resonant radius of small vibrations: an order of size.",
		"A sweeping generator moves the stripes; a real field is less tidy than the sum.",
	},
	Sources: []string{
		"Speed: W. Marczak, J. Acoust. Soc. Am. 102 (1997) 2776",
		"Bubble: M. Minnaert, Phil. Mag. 16 (1933) 235, with surface tension after T. G. Leighton, The Acoustic Bubble (1994); low end isothermal, high end adiabatic",
		"Still layer √(ν/πf): any text on acoustics; viscosity IAPWS SR6-08(2011)",
	},
}

func resonate(s *sum) {
	f, t := s.si("frequency"), s.si("temperature")
	speed, wave := water.SpeedOfSound(t), bath.Wavelength(f, t)
	pressure := air.SeaLevel
	if s.has("depth") {
		pressure += water.Density(t) * 9.80665 * s.si("depth") / 2
	}
	adiabatic := bath.ResonantRadius(f, t, pressure, bath.Adiabatic)
	isothermal := bath.ResonantRadius(f, t, pressure, bath.Isothermal)
	layer := bath.BoundaryLayer(f, t)
	s.give("speed", speed, q.Speed)
	s.give("wavelength", wave, q.Length)
	s.give("antinode-spacing", wave/2, q.Length)
	s.put(Reading{Name: "resonant-radius", SI: adiabatic, Low: isothermal, High: adiabatic, Kind: q.Length, Unit: unit("µm", q.Length)})
	s.put(Reading{Name: "boundary-layer", SI: layer, Low: layer, High: layer, Kind: q.Length, Unit: unit("µm", q.Length)})
	s.step("speed at {temperature} = {speed}", t, speed)
	s.step("wavelength = {speed} ÷ {frequency} = {length}; stripes lie half of it apart, {length}", speed, f, wave, wave/2)
	s.step("bubble: f·R ≈ 3.3 m/s, and with surface tension R = {micrometres}", adiabatic)
	if s.has("depth") {
		layers := math.Floor(s.si("depth") / (wave / 2))
		s.give("layers", layers, q.Number)
		s.step("layers = {length} ÷ {length} = {6}", s.si("depth"), wave/2, layers)
	}
	if f <= safety.PitsTo {
		s.caution(Notice, "20–30 kHz pits and dulls soft and polished metal (aluminium, silver, brass), optics and thin parts: go higher, or try it on scrap.")
		s.caution(Careful, "Low frequencies are loud, also below what one hears: lid on, ear muffs where you must raise your voice.")
	}
	s.caution(Warning, "No hand, finger or hand-held tool in a running bath.")
}
