package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"tankside/builder"
	"tankside/builder/finding"
	"tankside/builder/history"
	"tankside/builder/manual"
)

var recordCommand = command{
	name: "record",
	args: "[MANUAL]",
	does: "what the records of the baths show: control charts in figures, what is called out, drift",
	more: `Reads the records of the baths, records/TANK.csv in the manual, and says for each quantity what its control chart shows: mean and limits of the
present bath and the readings that they are taken from, the moving average, the readings that a rule calls out, whether it drifts and when it would
leave what its chemistry allows, each with how sure that is. What cannot be told is said to be so. Control limits tell what the bath has done, what
the chemistry allows stands apart from them. Readings later than today are left out.

With --merge it puts readings that were entered on devices into the records instead: files that a page of the edition has saved, TANK.csv. Each row is
taken once, by its id, whatever order the files come in and however often; what stands in a record stays as it is written. Rows that cannot be taken are
named with the reason, and everything else is taken.`,
	setUp: func(o *options) action {
		tank := o.text("tank", "ID", "one tank, rinse or dryer of the shop file", "")
		asJSON := o.yes("json", "the figures for programs: a list of tank, quantity, unit, n, mean, moving_range, upper, lower, ewma, ewma_upper, ewma_lower, signals, drift, leaves_window_at and what they rest on")
		merge := o.texts("merge", "FILE", "puts the readings of a device's file into the record of the tank that its name begins with, or of the one that --tank names")
		return func(ctx context.Context, c *console, args []string) error {
			folder, err := atMostOne(args, usualManual)
			if err != nil {
				return err
			}
			now, err := c.now()
			if err != nil {
				return err
			}
			if len(*merge) > 0 {
				return c.mergeRecords(ctx, folder, *merge, *tank, *asJSON, now)
			}
			m, findings, err := builder.Read(ctx, folder, now)
			if err != nil {
				return err
			}
			if m.Undecided {
				return fmt.Errorf("version control has left two versions in a file of the manual; see tankside proof %s", quoted(folder))
			}
			tanks := history.All(m, now)
			if *tank != "" {
				one, err := historyOf(m, tanks, *tank)
				if err != nil {
					return err
				}
				tanks = []history.Tank{one}
			}
			c.noteRecordFindings(folder, findings)
			switch {
			case len(tanks) == 0:
				return errors.New("the manual has no records: the readings of a tank stand in records/TANK.csv, and FORMAT.md says how")
			case *asJSON:
				return c.json(chartsForPrograms(tanks))
			}
			for i := range tanks {
				c.tellRecord(&tanks[i])
			}
			return nil
		}
	},
}

// historyOf finds the tank that is named.
func historyOf(m *manual.Manual, tanks []history.Tank, id string) (history.Tank, error) {
	ids := m.Shop.Vessels()
	for _, t := range tanks {
		if t.ID == id {
			return t, nil
		}
	}
	for _, known := range ids {
		if known == id {
			return history.Tank{}, fmt.Errorf("there are no readings of %s: they stand in records/%s.csv of the manual", id, id)
		}
	}
	return history.Tank{}, fmt.Errorf("the shop has no tank %q%s; it has %s", id, didYouMean(id, ids), strings.Join(ids, ", "))
}

// noteRecordFindings says that something in the records is not as it should be.
func (c *console) noteRecordFindings(folder string, findings []finding.Finding) {
	n := 0
	for _, f := range findings {
		if strings.HasPrefix(f.File, manual.RecordFolder+"/") {
			n++
		}
	}
	if n > 0 {
		c.note("There %s in the records; see tankside proof %s", map[bool]string{true: "is 1 finding", false: fmt.Sprintf("are %d findings", n)}[n == 1], quoted(folder))
	}
}

// chartAnswer is one chart for programs. What cannot be told is null, and a sentence says why.
type chartAnswer struct {
	Tank          string         `json:"tank"`
	Quantity      string         `json:"quantity"`
	Unit          string         `json:"unit"`
	N             int            `json:"n"` // readings of the present bath
	Mean          *float64       `json:"mean"`
	MovingRange   *float64       `json:"moving_range"`
	Upper         *float64       `json:"upper"`
	Lower         *float64       `json:"lower"`
	EWMA          *float64       `json:"ewma"`
	EWMAUpper     *float64       `json:"ewma_upper"`
	EWMALower     *float64       `json:"ewma_lower"`
	Signals       []signalAnswer `json:"signals"`
	Drift         *float64       `json:"drift"` // per day; null where none can be told
	LeavesAt      *string        `json:"leaves_window_at"`
	LeavesFrom    *string        `json:"leaves_window_earliest"`
	LeavesTo      *string        `json:"leaves_window_latest"`
	DriftLow      *float64       `json:"drift_low"`
	DriftHigh     *float64       `json:"drift_high"`
	DriftSays     string         `json:"drift_says"`
	LimitsSay     string         `json:"limits_say"`
	Baseline      baselineAnswer `json:"baseline"`
	Lambda        float64        `json:"ewma_lambda"`
	Window        *windowAnswer  `json:"window"`
	Newest        float64        `json:"newest"`
	NewestAt      string         `json:"newest_at"`
	ReadingsInAll int            `json:"readings"`
}

type signalAnswer struct {
	Rule string `json:"rule"`
	At   string `json:"at"`
	Row  int    `json:"row"` // line of the file
	High bool   `json:"high"`
}

type baselineAnswer struct {
	N    int    `json:"n"`
	From string `json:"from"`
	To   string `json:"to"`
}

type windowAnswer struct {
	Low     *float64 `json:"low"`
	High    *float64 `json:"high"`
	Article string   `json:"article"`
}
