// Package history says what the record of a bath shows: for each quantity its control chart from one change of bath to the next, what its chemistry allows
// beside it, whether it drifts and when it would leave what is allowed, what was done to the bath and on which days nobody looked.
//
// Everything follows from a manual, a record and a day; there is no clock here. Control limits tell what the bath has done, the window what it may do: the two
// are kept apart everywhere. What cannot be told is said to be so, with the reason.
//
// Control charts take readings for independent of each other. Those of a bath are not quite: what is called out is a reason to look, not a verdict.
package history

import (
	"time"

	"tankside/builder/quantity"
	"tankside/builder/record"
	"tankside/calculators/control"
)

// LeastBaseline is how many readings limits need: with fewer they say nothing. As many are in the worked example of NIST/SEMATECH, 6.3.2.2.
const LeastBaseline = 10

const (
	usualBaseline = 20 // readings; ISO 7870-2 asks for about 20 to 25 (from memory) // fewer, and the limits say nothing; as many as in the worked example of NIST/SEMATECH 6.3.2.2
	mostForTrend  = 30 // the newest readings, which tell where the bath is going
	sure          = 0.95
	byChance      = 0.01 // a slope that chance makes more often is no drift
	longGap       = 4    // days: a long weekend
)

// Tank is what the record of one tank, rinse or dryer shows.
type Tank struct {
	ID, Name string
	Record   *record.Record
	Charts   []Chart
	Marks    []Mark
	Gaps     []Gap
	Last     *record.Row // the newest row that is not later than the day, or nil
	Later    int         // rows later than the day, which are left out
	rows     []record.Row
}

// Rows are those up to the day, in the order of time.
func (t *Tank) Rows() []record.Row { return t.rows }

// Chart is one quantity of a tank. Its numbers are in its unit.
type Chart struct {
	Quantity string // a word of record.Quantities
	Unit     quantity.Unit
	Points   []Point
	Baths    []Bath
	Window   Window
	Drift    Drift
}

// Now is the bath of the newest reading.
func (c *Chart) Now() *Bath { return &c.Baths[len(c.Baths)-1] }

// Point is a reading.
type Point struct {
	Row   int // of the tank's rows
	When  time.Time
	Day   bool // the day alone is known
	Line  int  // of the file
	Value float64
}

// Bath is what a quantity did from one change of bath to the next.
type Bath struct {
	From, To int // points, To not included
	Changed  bool
	Baseline int // its first points, from which the limits are taken
	Few      bool
	Alike    bool // the readings of the baseline do not differ, or by fewer steps than it takes to see chance in them
	Short    bool // limits are taken from fewer readings than the shop wants: there are no more yet
	Limits   control.Individuals
	Averages []control.Average
	Signals  []Signal
}

// Told tells whether there are limits.
func (b *Bath) Told() bool { return !b.Few && !b.Alike }

// Signal is a reading that a rule calls out.
type Signal struct {
	Rule  control.Rule
	Point int // of the chart
	High  bool
}

// Window is what the chemistry allows, in the chart's unit. Low or High is infinite where it is open.
type Window struct {
	Set       bool
	Low, High float64
	Article   string // path of the article that says it

	// Otherwise tells that the article gives it in another measure, which was not turned into the chart's.
	Otherwise bool
}

// Mark is work on a bath.
type Mark struct {
	When time.Time
	Day  bool
	Line int
	Work record.Work
	Note string
}

// Gap is a time without readings, longer than is usual for the tank.
type Gap struct {
	From, To time.Time // of the readings on both sides
	Days     int       // between them, these not counted
}

// State is what can be told of a drift.
type State uint8

// What can be told of it.
const (
	Few    State = iota // too few readings
	Steady              // none that chance would not make
	Drifts
)

// Drift is where the newest readings are going.
type Drift struct {
	State State
	N     int       // readings that it is told from
	From  time.Time // the first of them
	Since record.Work
	Over  bool // top-ups lie between the readings, and are part of what they show

	PerDay, Low, High float64 // slope with its band at 95 %
	P                 float64 // with which chance would make such a slope
	Level             float64 // of the line at the last reading

	Outside  bool // the line is out of the window already
	NoLimit  bool // nothing is allowed or forbidden on the side to which it goes
	Horizon  time.Time
	Leaves   *time.Time // when the line leaves the window; nil where not before the horizon
	Earliest *time.Time
	Latest   *time.Time
}
