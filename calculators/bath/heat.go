package bath

import (
	"math"

	"tankside/calculators/water"
)

// Boiling is a kelvin below the boiling point at the vessel's pressure: the
// hottest bath that the model speaks of.
func (v *Vessel) Boiling() float64 { return water.BoilingPoint(v.Pressure) - 1 }

// HeatCapacity of bath, vessel and load at a temperature, in J/K. The bath's
// mass is that of its volume at the starting temperature.
func (v *Vessel) HeatCapacity(mass, t float64) float64 {
	return mass*water.HeatCapacity(t) + v.Fixed
}

// Highest is the bath temperature at which the losses eat up the power, in °C.
// boils is true when they do not even a kelvin below boiling; that temperature
// is then given. A vessel without power ends where its losses are nothing, at
// the room's temperature or a little below it.
func (v *Vessel) Highest() (t float64, boils bool) {
	top := v.Boiling()
	net := func(t float64) float64 { return v.Power - v.Loss(t).Total() }
	fb := net(top)
	if fb >= 0 {
		return top, true
	}
	bottom := math.Min(v.Air, top) - 40
	fa := net(bottom)
	a, b := bottom, top
	for range 100 {
		// Losses bend upwards, so the secant lands low; bisect every time it
		// moves too little.
		c := a + (b-a)*fa/(fa-fb)
		if c-a < (b-a)*0.05 || b-c < (b-a)*0.05 {
			c = (a + b) / 2
		}
		fc := net(c)
		if fc > 0 {
			a, fa = c, fc
		} else {
			b, fb = c, fc
		}
		if b-a < 1e-4 {
			break
		}
	}
	return (a + b) / 2, false
}

// Moment is one point of heating up.
type Moment struct {
	Time        float64 // s
	Temperature float64 // °C
}

// Heating is the course of a bath from one temperature to another.
type Heating struct {
	Time   float64 // s
	Stored float64 // J taken up by bath, vessel and load
	Lost   float64 // J
	Water  float64 // kg evaporated
	Course []Moment
}

// steps in temperature into which heating up is divided. Between two of them
// the losses are taken as linear, for which the time is exact; at 64 steps the
// error is below 0.01 %, and the energy balance closes to 0.1 % even close to
// the highest temperature.
const steps = 64

// Table holds a vessel's losses at the steps from one temperature to another.
// They do not depend on its power, so that one table serves several.
type Table struct {
	start, target float64
	scale         float64
	losses        [steps + 1]Loss
}

// Tabulate computes the losses between two temperatures.
func (v *Vessel) Tabulate(start, target float64) *Table {
	t := &Table{start: start, target: target, scale: v.scale()}
	for i := range t.losses {
		t.losses[i] = v.Loss(start + float64(i)*(target-start)/steps)
	}
	return t
}

// HeatUp computes the course from start to target. ok is false when the target
// lies at or above the highest temperature, or start is not below it.
func (v *Vessel) HeatUp(start, target float64) (h Heating, ok bool) {
	if !(start < target) || target > v.Boiling() || v.Power <= v.Loss(target).Total() { // losses rise with temperature
		return Heating{}, false
	}
	return v.HeatUpBy(v.Tabulate(start, target))
}

// HeatUpBy is HeatUp with the losses of a table, which may have been computed
// for another power or Scale of the same vessel.
func (v *Vessel) HeatUpBy(table *Table) (h Heating, ok bool) {
	start, width := table.start, (table.target-table.start)/steps
	if !(width > 0) || table.target > v.Boiling() {
		return Heating{}, false
	}
	scale := v.scale() / table.scale
	mass := v.Volume * water.Density(start)
	last := &table.losses[0]
	net := v.Power - scale*last.Total()
	h.Course = append(make([]Moment, 0, steps+1), Moment{0, start})
	for i := 1; i <= steps; i++ {
		t := start + float64(i)*width
		loss := &table.losses[i]
		next := v.Power - scale*loss.Total()
		if net <= 0 || next <= 0 {
			return Heating{}, false
		}
		heat := v.HeatCapacity(mass, t-width/2) * width
		dt := heat / logMean(net, next)
		h.Time += dt
		h.Stored += heat
		h.Lost += v.Power*dt - heat
		h.Water += scale * (last.Water + loss.Water) / 2 * dt
		h.Course = append(h.Course, Moment{h.Time, t})
		net, last = next, loss
	}
	return h, true
}

// logMean is the mean power while it falls in proportion to the temperature's
// rise from a to b.
func logMean(a, b float64) float64 {
	x := (b - a) / a
	if math.Abs(x) < 1e-6 {
		return (a + b) / 2
	}
	return (b - a) / math.Log1p(x)
}
