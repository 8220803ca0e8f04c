package calculators

import (
	"math"

	"tankside/calculators/air"
	"tankside/calculators/bath"
	q "tankside/calculators/quantity"
	"tankside/calculators/water"
)

var sound = Calculator{
	Name:    "sound",
	Title:   "Sound in the bath",
	Summary: "Wavelength, stripe spacing and bubble size for a frequency.",
	Inputs: []Input{
		frequencyInput,
		{Name: "temperature", Label: "Temperature of the bath", Measures: temperature(0.1, 95), Default: "20 °C"},
		{Name: "depth", Label: "Depth of the liquid", Measures: length(0.02, 10), Help: "For how many layers stand in it."},
	},
	Readings: []Declared{{"speed", "Speed of sound"}, {"wavelength", "Wavelength"}, {"antinode-spacing", "Stripes lie apart"}, {"resonant-radius", "Radius of a resonant bubble"}, {"boundary-layer", "Still layer at a surface"}, {"layers", "Layers in the depth"}},
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

func init() { sound.run = resonate }

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
	s.put(Reading{Name: "resonant-radius", SI: adiabatic, Low: isothermal, High: adiabatic, Kind: q.Length, Unit: micrometre()})
	s.put(Reading{Name: "boundary-layer", SI: layer, Low: layer, High: layer, Kind: q.Length, Unit: micrometre()})
	s.step("speed at ", s.show(t, q.Temperature), " = ", s.show(speed, q.Speed))
	s.step("wavelength = ", s.show(speed, q.Speed), " ÷ ", s.show(f, q.Frequency), " = ", s.show(wave, q.Length), "; stripes lie half of it apart, ", s.show(wave/2, q.Length))
	s.step("bubble: f·R ≈ 3.3 m/s, and with surface tension R = ", q.ShowIn(adiabatic, micrometre()))
	if s.has("depth") {
		layers := math.Floor(s.si("depth") / (wave / 2))
		s.give("layers", layers, q.Number)
		s.step("layers = ", s.show(s.si("depth"), q.Length), " ÷ ", s.show(wave/2, q.Length), " = ", q.Decimal(layers, 6))
	}
	if f < 30e3 {
		s.caution(Notice, "20–30 kHz pits and dulls soft and polished metal (aluminium, silver, brass), optics and thin parts: go higher, or try it on scrap.")
		s.caution(Careful, "Low frequencies are loud, also below what one hears: lid on, ear muffs where you must raise your voice.")
	}
	s.caution(Warning, "No hand, finger or hand-held tool in a running bath.")
}

func micrometre() q.Unit {
	u, _ := q.UnitNamed("µm", q.Length)
	return u
}
