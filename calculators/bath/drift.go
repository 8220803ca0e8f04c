package bath

import (
	"math"

	"tankside/calculators/safety"
	"tankside/calculators/water"
)

// The share of the electrical power of the sound that ends as heat in the bath: likely, low and high. It is the one place where the sound's
// heat is weighed; what it rests on stands with the numbers.
const (
	SoundToHeat     = safety.SoundToHeat
	SoundToHeatLow  = safety.SoundToHeatLow
	SoundToHeatHigh = safety.SoundToHeatHigh
)

// Ends is Highest for a vessel whose power may be below 0, for its cooling takes more than goes in: it then ends where it does without either,
// for cooling stops at its set-point.
func (v *Vessel) Ends() (t float64, boils bool) {
	if v.Power >= 0 {
		return v.Highest()
	}
	w := *v
	w.Power = 0
	return w.Highest()
}

// Rise is by how many kelvins a bath gets warmer in a time in s, from a temperature on; below 0 where it gets colder. Midpoint steps of half a
// minute: the temperature changes little in one of them.
func (v *Vessel) Rise(start, time float64) float64 {
	mass := v.Volume * water.Density(start)
	top := v.Boiling()
	rate := func(t float64) float64 { return (v.Power - v.Loss(t).Total()) / v.HeatCapacity(mass, t) }
	n := math.Max(1, math.Ceil(time/30))
	step := time / n
	t := start
	for range int(n) {
		t = math.Min(t+step*rate(t+step/2*rate(t)), math.Max(top, start))
	}
	return t - start
}
