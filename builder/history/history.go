package history

import (
	"math"
	"slices"
	"time"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/record"
	"tankside/calculators/control"
)

// All gives the tanks, rinses and the dryer of which there is a record with rows up to a day, in the order of the line.
func All(m *manual.Manual, day time.Time) []Tank {
	var list []Tank
	for _, v := range vessels(m) {
		if r := m.Record(v.id); r != nil {
			if t := of(m, v, r, day); len(t.rows) > 0 || t.Later > 0 {
				list = append(list, t)
			}
		}
	}
	return list
}

// vessel is a tank, rinse or dryer.
type vessel struct {
	id, name string
	tank     *manual.Tank // nil for the others
}

func vessels(m *manual.Manual) []vessel {
	var list []vessel
	for i := range m.Shop.Tanks {
		t := &m.Shop.Tanks[i]
		list = append(list, vessel{t.ID, t.Name, t})
	}
	for i := range m.Shop.Rinses {
		list = append(list, vessel{m.Shop.Rinses[i].ID, m.Shop.Rinses[i].Name, nil})
	}
	if d := &m.Shop.Dryer; d.ID != "" {
		list = append(list, vessel{d.ID, d.Name, nil})
	}
	return list
}

// charted are the quantities that tell the state of a bath; what was added and how many loads went through it is what was done to it.
func charted(name string) bool { return name != "added" && name != "loads" }

func of(m *manual.Manual, v vessel, r *record.Record, day time.Time) Tank {
	t := Tank{ID: v.id, Name: v.name, Record: r}
	last := day.Format(time.DateOnly)
	for i := range r.Rows {
		if r.Rows[i].When.Format(time.DateOnly) > last {
			t.Later++
			continue
		}
		t.rows = append(t.rows, r.Rows[i])
	}
	for i := range t.rows {
		row := &t.rows[i]
		if row.Work != "" {
			t.Marks = append(t.Marks, Mark{row.When, row.Day, row.Line, row.Work, row.Note})
		}
		t.Last = row
	}
	t.Gaps = gaps(t.rows)
	baseline := m.Shop.Records.Baseline
	if baseline == 0 {
		baseline = usualBaseline
	}
	for _, q := range record.Quantities {
		at := r.Column(q.Name)
		if at < 0 || !charted(q.Name) {
			continue
		}
		c := Chart{Quantity: q.Name, Unit: unit(m, v, q.Name, r.Columns[at].Unit)}
		for i := range t.rows {
			if x := t.rows[i].Values[at]; x.Set {
				c.Points = append(c.Points, Point{i, t.rows[i].When, t.rows[i].Day, t.rows[i].Line, c.Unit.FromSI(x.SI)})
			}
		}
		if len(c.Points) == 0 {
			continue
		}
		c.Window = window(m, v, q.Name, c.Unit)
		c.Baths = baths(&t, &c, baseline)
		c.Drift = drift(&t, &c)
		t.Charts = append(t.Charts, c)
	}
	return t
}

// unit is the unit of a chart: that of the tank's set-point, or the column's where people of the shop read it, or theirs.
func unit(m *manual.Manual, v vessel, name string, column quantity.Unit) quantity.Unit {
	var set manual.Limit
	if v.tank != nil {
		switch name {
		case "strength":
			set = v.tank.Strength
		case "temperature":
			set = v.tank.Temperature
		}
	}
	plain := func(u quantity.Unit) bool { return u.Symbol != "1:N" } // in which more is less
	switch {
	case set.Set && set.Kind == column.Kind && plain(set.Unit):
		return set.Unit
	case column.Suits(m.Shop.System()) && plain(column):
		return column
	}
	return quantity.Preferred(column.ToSI(1), column.Kind, m.Shop.System())
}

// window is what the chemistry of a tank allows of a quantity.
func window(m *manual.Manual, v vessel, name string, u quantity.Unit) Window {
	if v.tank == nil {
		return Window{}
	}
	a := m.Named(manual.Chemistry, v.tank.Chemistry.Name)
	if a == nil || a.Chemistry == nil {
		return Window{}
	}
	var allowed manual.Limit
	switch name {
	case "strength":
		allowed = a.Chemistry.Strength
	case "ph":
		allowed = a.Chemistry.PH
	case "temperature":
		allowed = a.Chemistry.Temperature
		if c := a.Chemistry.Ceiling; c.Set && !allowed.Set {
			allowed = c
			allowed.Low = math.Inf(-1)
		} else if c.Set {
			allowed.High = min(allowed.High, c.High)
		}
	}
	switch {
	case !allowed.Set:
		return Window{}
	case allowed.Kind != u.Kind:
		return Window{Article: a.Path, Otherwise: true}
	}
	return Window{Set: true, Low: u.FromSI(allowed.Low), High: u.FromSI(allowed.High), Article: a.Path}
}

// Allows tells whether a number is in the window; with none, everything is.
func (w Window) Allows(x float64) bool {
	const slack = 1e-9
	return !w.Set || x >= w.Low-slack && x <= w.High+slack
}

// baths parts a chart where the bath was changed, and charts each.
func baths(t *Tank, c *Chart, baseline int) []Bath {
	var list []Bath
	from, changed := 0, false
	part := func(to int) {
		if to > from {
			list = append(list, bath(c.Points, from, to, changed, baseline))
		}
	}
	for i := range c.Points {
		before := 0
		if i > 0 {
			before = c.Points[i-1].Row + 1
		}
		// The row of a change may have the first reading of the new bath.
		if slices.ContainsFunc(t.rows[before:c.Points[i].Row+1], func(r record.Row) bool { return r.Work == record.Change }) {
			part(i)
			from, changed = i, true
		}
	}
	part(len(c.Points))
	return list
}

// bath charts the readings of one bath.
func bath(points []Point, from, to int, changed bool, baseline int) Bath {
	b := Bath{From: from, To: to, Changed: changed, Baseline: min(baseline, to-from)}
	b.Short = b.Baseline < baseline
	readings := make([]float64, to-from)
	for i := range readings {
		readings[i] = points[from+i].Value
	}
	var told bool
	b.Limits, told = control.Of(readings[:b.Baseline])
	b.Few = b.Baseline < LeastBaseline
	b.Alike = !b.Few && (!told || control.Step(readings[:b.Baseline]) > b.Limits.Sigma)
	if !b.Told() {
		return b
	}
	b.Averages = control.Averages(readings, b.Limits.Mean, b.Limits.Sigma, control.Lambda, control.Width)
	for _, s := range append(b.Limits.Runs(readings), control.Moved(b.Averages)...) {
		b.Signals = append(b.Signals, Signal{s.Rule, from + s.At, s.High})
	}
	slices.SortStableFunc(b.Signals, func(x, y Signal) int { return x.Point - y.Point })
	return b
}

// gaps finds where nobody looked for longer than a long weekend and than three times what is usual for the tank.
func gaps(rows []record.Row) []Gap {
	var apart []int
	for i := 1; i < len(rows); i++ {
		if d := daysBetween(rows[i-1].When, rows[i].When); d > 0 {
			apart = append(apart, d)
		}
	}
	if len(apart) == 0 {
		return nil
	}
	slices.Sort(apart)
	most := max(longGap, 3*apart[len(apart)/2])
	var list []Gap
	for i := 1; i < len(rows); i++ {
		if d := daysBetween(rows[i-1].When, rows[i].When); d > most {
			list = append(list, Gap{rows[i-1].When, rows[i].When, d - 1})
		}
	}
	return list
}

// daysBetween counts days by the calendar of each time.
func daysBetween(a, b time.Time) int {
	date := func(t time.Time) time.Time { return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC) }
	return int(date(b).Sub(date(a)).Hours() / 24)
}
