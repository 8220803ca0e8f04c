package history

import (
	"context"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"tankside/builder/manual"
	"tankside/builder/record"
	"tankside/calculators/control"
)

// demoDay is the day on which tests read the demo manual.
var demoDay = time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC)

func demo(t *testing.T) *manual.Manual {
	t.Helper()
	m, _, err := manual.Read(context.Background(), os.DirFS("../../content"))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// shop gives the demo manual with another record of Wash 1, and with other lines at the end of its shop file.
func shop(t *testing.T, text, more string) *manual.Manual {
	t.Helper()
	files := fstest.MapFS{"records/wash-1.csv": {Data: []byte(text)}}
	for _, name := range []string{"shop.yaml", "chemistries/mild-alkaline.md", "chemistries/neutral-detergent.md"} {
		data, err := os.ReadFile("../../content/" + name)
		if err != nil {
			t.Fatal(err)
		}
		if name == "shop.yaml" {
			data = append(data, more...)
		}
		files[name] = &fstest.MapFile{Data: data}
	}
	m, findings, err := manual.Read(context.Background(), files)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range findings {
		if f.File == "records/wash-1.csv" {
			t.Fatal(f.Place, f.Message)
		}
	}
	return m
}

// find gives what the record of a tank shows; false where it has none.
func find(m *manual.Manual, id string, day time.Time) (Tank, bool) {
	for _, t := range All(m, day) {
		if t.ID == id {
			return t, true
		}
	}
	return Tank{}, false
}

func chartOf(t *testing.T, m *manual.Manual, id, quantity string) (Tank, *Chart) {
	t.Helper()
	h, known := find(m, id, demoDay)
	if !known {
		t.Fatal("no record of", id)
	}
	for i := range h.Charts {
		if h.Charts[i].Quantity == quantity {
			return h, &h.Charts[i]
		}
	}
	t.Fatal("no chart of", quantity)
	return h, nil
}

// written makes a record of a column, a reading a day from 2026-09-01 on; work is by number of the day.
func written(head string, readings []float64, work map[int]string) string {
	text := "when," + head + ",work\n"
	for i, x := range readings {
		text += fmt.Sprintf("%s,%.2f,%s\n", time.Date(2026, 9, 1+i, 6, 10, 0, 0, time.UTC).Format("2006-01-02T15:04"), x, work[i])
	}
	return text
}

// around gives n readings that go back and forth by a tenth.
func around(n int, mean float64) []float64 {
	list := make([]float64, n)
	for i := range list {
		list[i] = mean + 0.1*[]float64{1, -1, 0.4, -0.6, 0.2}[i%5]
	}
	return list
}

// What was put into the demo's records is found, and nothing else is called out.
func TestDemoRecords(t *testing.T) {
	m := demo(t)
	tanks := All(m, demoDay)
	var names []string
	for _, h := range tanks {
		names = append(names, h.ID)
		if len(h.Gaps) != 1 || h.Gaps[0].From.Format(time.DateOnly) != "2026-10-09" || h.Gaps[0].To.Format(time.DateOnly) != "2026-10-19" || h.Gaps[0].Days != 9 {
			t.Errorf("%s: the missed week: %+v", h.ID, h.Gaps)
		}
		if h.Later != 0 || h.Record.Unused != 0 {
			t.Errorf("%s: %d later, %d not used", h.ID, h.Later, h.Record.Unused)
		}
		weeks := h.Last.When.Sub(h.Rows()[0].When).Hours() / 24 / 7
		if weeks < 11.5 || weeks > 12 {
			t.Errorf("%s: %.1f weeks", h.ID, weeks)
		}
		if !strings.Contains(h.Rows()[0].Note, "invented") {
			t.Errorf("%s does not say that its readings are invented", h.ID)
		}
		for _, c := range h.Charts {
			strength := h.ID == "wash-1" && c.Quantity == "strength"
			for _, b := range c.Baths {
				for _, s := range b.Signals {
					if !strength || c.Points[s.Point].When.Format(time.DateOnly) < "2026-11-03" {
						t.Errorf("%s %s: called out by chance: %s on %s", h.ID, c.Quantity, s.Rule, c.Points[s.Point].When)
					}
				}
			}
			if (c.Drift.State == Drifts) != strength {
				t.Errorf("%s %s drifts: %+v", h.ID, c.Quantity, c.Drift)
			}
		}
	}
	if fmt.Sprint(names) != "[wash-1 wash-2 rinse-2]" {
		t.Error(names)
	}
	h, c := chartOf(t, m, "wash-1", "strength")
	changes := slices.DeleteFunc(slices.Clone(h.Marks), func(m Mark) bool { return m.Work != record.Change })
	if len(changes) != 1 || changes[0].When.Format(time.DateOnly) != "2026-09-28" || len(c.Baths) != 2 || c.Points[c.Baths[1].From].When.Format(time.DateOnly) != "2026-09-28" {
		t.Errorf("the change of bath: %+v", changes)
	}
	var wrong, low []string
	for _, s := range c.Now().Signals {
		if s.Rule == control.Beyond {
			day := c.Points[s.Point].When.Format(time.DateOnly)
			if s.High {
				wrong = append(wrong, day)
			} else {
				low = append(low, day)
			}
		}
	}
	if fmt.Sprint(wrong) != "[2026-11-03 2026-11-04 2026-11-05]" {
		t.Errorf("the wrong titrant: %v", wrong)
	}
	if len(low) == 0 || low[0] > "2026-11-14" {
		t.Errorf("the drift is called out on %v", low)
	}
	// It was made to fall by 0.072 a day from 4.0 on 6 November, and so to reach 2 on 4 December.
	d := c.Drift
	if d.Since != record.TopUp || d.Low > -0.072 || d.High < -0.072 {
		t.Errorf("the drift: %+v", d)
	}
	truly := time.Date(2026, 12, 4, 0, 0, 0, 0, time.UTC)
	if d.Earliest == nil || d.Latest == nil || d.Earliest.After(truly) || d.Latest.Before(truly) {
		t.Errorf("it leaves the window %v to %v, truly %v", d.Earliest, d.Latest, truly)
	}
}

// The readings of the handbook (NIST/SEMATECH 6.3.2.2), as a record: its figures.
func TestHandbookAsRecord(t *testing.T) {
	m := shop(t, written("temperature (°C)", []float64{49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1}, nil), "")
	_, c := chartOf(t, m, "wash-1", "temperature")
	b := c.Now()
	if !b.Told() || !b.Short || math.Abs(b.Limits.Upper-55.8041) > 1e-3 || math.Abs(b.Limits.Lower-45.8159) > 1e-3 || math.Abs(b.Limits.Mean-50.81) > 1e-9 {
		t.Errorf("%+v", b.Limits)
	}
	if !c.Window.Set || c.Window.Low != 50 || c.Window.High != 70 || c.Window.Article != "chemistries/mild-alkaline.md" {
		t.Errorf("the window: %+v", c.Window)
	}
}

// The baseline is the first readings after a change, as many as the shop file says; those before have their own.
func TestBaseline(t *testing.T) {
	readings := append(around(30, 4), around(30, 5)...)
	text := written("strength (% v/v)", readings, map[int]string{30: "change"})
	_, c := chartOf(t, shop(t, text, ""), "wash-1", "strength")
	if len(c.Baths) != 2 || c.Baths[0].Baseline != 20 || c.Baths[1].From != 30 || !c.Baths[1].Changed || c.Baths[0].Changed || len(c.Baths[0].Signals)+len(c.Baths[1].Signals) != 0 {
		t.Errorf("%+v", c.Baths)
	}
	_, c = chartOf(t, shop(t, text, "records:\n  baseline: 12\n"), "wash-1", "strength")
	if c.Baths[1].Baseline != 12 || c.Baths[1].Short {
		t.Errorf("%+v", c.Baths[1])
	}
	_, c = chartOf(t, shop(t, written("strength (% v/v)", readings, nil), ""), "wash-1", "strength")
	if len(c.Baths) != 1 || len(c.Baths[0].Signals) == 0 {
		t.Error("a change that nobody wrote down is called out")
	}
}

func TestCannotBeTold(t *testing.T) {
	_, c := chartOf(t, shop(t, written("strength (% v/v)", around(9, 4), nil), ""), "wash-1", "strength")
	if b := c.Now(); b.Told() || !b.Few || len(b.Signals) > 0 || b.Averages != nil {
		t.Errorf("limits from nine readings: %+v", b)
	}
	_, c = chartOf(t, shop(t, written("strength (% v/v)", around(7, 4), nil), ""), "wash-1", "strength")
	if c.Drift.State != Few || c.Drift.N != 7 {
		t.Errorf("a drift from seven readings: %+v", c.Drift)
	}
	same := slices.Repeat([]float64{4}, 15)
	_, c = chartOf(t, shop(t, written("strength (% v/v)", append(same, 4.1), nil), ""), "wash-1", "strength")
	if b := c.Now(); b.Told() || !b.Alike || len(b.Signals) > 0 {
		t.Errorf("limits from readings that are all the same: %+v", b)
	}
}

// Readings in other units are charted in the tank's, and what cannot be compared with the chemistry says so.
func TestUnits(t *testing.T) {
	f := make([]float64, 12)
	for i, x := range around(12, 62) {
		f[i] = x*9/5 + 32
	}
	_, c := chartOf(t, shop(t, written("temperature (°F)", f, nil), ""), "wash-1", "temperature")
	if c.Unit.Symbol != "°C" || math.Abs(c.Points[0].Value-62.1) > 1e-3 {
		t.Errorf("%s %v", c.Unit.Symbol, c.Points[0])
	}
	_, c = chartOf(t, shop(t, written("strength (g/L)", around(12, 40), nil), ""), "wash-1", "strength")
	if c.Window.Set || !c.Window.Otherwise || !c.Window.Allows(1e9) {
		t.Errorf("g/L against %% v/v: %+v", c.Window)
	}
}

// A drift is told from what lies behind the last work that moves the quantity.
func TestDriftSince(t *testing.T) {
	falling := make([]float64, 30)
	for i := range falling {
		falling[i] = 4.5 - 0.05*float64(i) + 0.02*[]float64{1, -1, 0.4, -0.6, 0.2}[i%5]
	}
	drift := func(head string, work map[int]string) Drift {
		name, _, _ := strings.Cut(head, " ")
		_, c := chartOf(t, shop(t, written(head, falling, work), ""), "wash-1", name)
		return c.Drift
	}
	if d := drift("strength (% v/v)", nil); d.State != Drifts || d.N != 30 || d.Since != "" || math.Abs(d.PerDay+0.05) > 0.002 || d.Leaves == nil {
		t.Errorf("%+v", d)
	}
	if d := drift("strength (% v/v)", map[int]string{14: "top-up"}); d.N != 15 || d.Since != record.TopUp || d.Over {
		t.Errorf("%+v", d)
	}
	if d := drift("strength (% v/v)", map[int]string{5: "change", 25: "top-up"}); d.N != 25 || d.Since != record.Change || !d.Over {
		t.Errorf("%+v", d)
	}
	if d := drift("strength (% v/v)", map[int]string{26: "change"}); d.State != Few || d.N != 4 || d.Since != record.Change {
		t.Errorf("%+v", d)
	}
	if d := drift("level (mm)", map[int]string{25: "repair"}); d.State != Few || d.N != 5 || d.Since != record.Repair {
		t.Errorf("%+v", d)
	}
	if d := drift("level (mm)", nil); d.State != Drifts || !d.NoLimit || d.Leaves != nil {
		t.Errorf("%+v", d)
	}
	steady := around(30, 4)
	_, c := chartOf(t, shop(t, written("strength (% v/v)", steady, nil), ""), "wash-1", "strength")
	if c.Drift.State != Steady || c.Drift.Leaves != nil {
		t.Errorf("%+v", c.Drift)
	}
}

// What is out of the window is said to be so, and nothing is said of when it leaves it.
func TestOutside(t *testing.T) {
	falling := make([]float64, 20)
	for i := range falling {
		falling[i] = 2.2 - 0.05*float64(i) + 0.02*[]float64{1, -1, 0.4, -0.6, 0.2}[i%5]
	}
	_, c := chartOf(t, shop(t, written("strength (% v/v)", falling, nil), ""), "wash-1", "strength")
	if d := c.Drift; d.State != Drifts || !d.Outside || d.Leaves != nil {
		t.Errorf("%+v", d)
	}
}

// Rows later than the day are left out: a published page follows from the manual and the day alone.
func TestLaterRowsAreLeftOut(t *testing.T) {
	m := demo(t)
	early, _ := find(m, "wash-1", time.Date(2026, 10, 5, 0, 0, 0, 0, time.UTC))
	if early.Last == nil || early.Last.When.Format(time.DateOnly) != "2026-10-05" || early.Later != 34 {
		t.Errorf("%+v, %d later", early.Last, early.Later)
	}
	none, known := find(m, "wash-1", time.Date(2026, 9, 1, 0, 0, 0, 0, time.UTC))
	if !known || none.Last != nil || len(none.Charts) != 0 {
		t.Errorf("%+v", none)
	}
	if _, known := find(m, "rinse-1", demoDay); known {
		t.Error("a rinse without a record has one")
	}
}

func TestEpisodes(t *testing.T) {
	b := Bath{Signals: []Signal{{control.MovedMean, 3, true}, {control.Beyond, 4, true}, {control.MovedMean, 4, true}, {control.Beyond, 5, false}, {control.MovedMean, 6, true}}}
	got := fmt.Sprint(b.Episodes())
	if want := "[{moving-average true 3 4} {beyond-limits true 4 4} {beyond-limits false 5 5} {moving-average true 6 6}]"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}
