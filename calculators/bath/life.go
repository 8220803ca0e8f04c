package bath

import "math"

// Soiling is how a bath takes up soil while it is worked with: what comes in stays but for what the bath that leaves takes along. Evaporation takes
// none. The bath is kept at its volume and is well mixed: V·dc/dt = In − Out·c.
type Soiling struct {
	Volume float64 // m³
	In     float64 // kg a day that stays in the bath, without what is skimmed
	Out    float64 // m³ of bath a day that leaves by drag-out and let out, and is replaced
	Now    float64 // kg/m³ at the beginning
}

// Steady is the soil in kg/m³ where as much leaves as comes in: +Inf where nothing leaves and something comes in.
func (b Soiling) Steady() float64 {
	switch {
	case b.In <= 0:
		return 0
	case b.Out <= 0:
		return math.Inf(1)
	}
	return b.In / b.Out
}

// After is the soil in kg/m³ after so many days.
func (b Soiling) After(days float64) float64 {
	if b.Out <= 0 {
		return b.Now + b.In*days/b.Volume
	}
	steady := b.Steady()
	return steady + (b.Now-steady)*math.Exp(-b.Out*days/b.Volume)
}

// Until is the number of days until the soil reaches a limit in kg/m³, 0 where it is there and +Inf where it never gets there.
func (b Soiling) Until(limit float64) float64 {
	steady := b.Steady()
	switch {
	case b.Now >= limit:
		return 0
	case steady <= limit:
		return math.Inf(1)
	case math.IsInf(steady, 1):
		return (limit - b.Now) * b.Volume / b.In
	}
	return b.Volume / b.Out * math.Log((steady-b.Now)/(steady-limit))
}
