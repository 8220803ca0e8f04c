package line

import (
	"context"
	"os"
	"testing"

	"tankside/builder/manual"
	"tankside/calculators/water"
)

// TestDemo: the demo shop. From its figures by hand: 1.2 L/h of a bath with 200 mmol/L of alkalinity into 240 L/h of water with 4.40 mmol/L at
// pH 7.6 are 1.0 mmol/L; as carbonate at pH 11, of which 0.83 is CO₃ and 0.17 HCO₃, that brings 0.55 mmol/L of carbon, so that alkalinity less
// carbon, −0.28 in the water, is 0.18 mmol/L: CO₃ 0.19 beside 5 of HCO₃, pH 10.33 − log(5/0.19) = 8.9. At 3 % of carry-over it is 6 and 3.3:
// 10.3 − 7.9 = 2.4, beside 5.5 pH 10.0. In truth the last rinse has next to nothing to hold a pH: see its bounds.
func TestDemo(t *testing.T) {
	m, _, err := manual.Read(context.Background(), os.DirFS("../../../content"))
	if err != nil {
		t.Fatal(err)
	}
	states := Of(m)
	if len(states) != 2 {
		t.Fatal(states)
	}
	for i, want := range []struct{ low, high, within float64 }{{7.6, 8.9, 0.1}, {6.8, 8.5, 0.1}} {
		s := states[i]
		got, ok := s.Cold()
		if !ok || len(s.Missing) > 0 || len(s.Washes) != 2 || len(s.From) < 10 {
			t.Fatalf("%+v", s)
		}
		if !near(got.Low, want.low, want.within) || !near(got.High, want.high, want.within) {
			t.Errorf("%s: pH %+v, want %g to %g", s.Rinse.Name, got, want.low, want.high)
		}
	}
	if s := states[0].Stages[0]; s.Heat != 40 || !near(s.Shares[0], 1.2/241.8, 1e-9) || !near(s.Settled, 3*90/241.8*3600, 150) || !near(s.Feed.Low, 7.5, 0.1) {
		t.Errorf("%+v", s)
	}
	most, missing := carried(m, m.Shop.RinseTank("rinse-1"), m.Shop.Tank("wash-1"), 0.03)
	if missing != nil || !near(most.High, 10, 0.1) {
		t.Errorf("at 3 %% of carry-over pH %+v, %v", most, missing)
	}
}

func near(got, want, within float64) bool { return got > want-within && got < want+within }

// carried is the pH, as a cold sample reads, of a rinse that holds a share of a tank's bath and its own water for the rest, such as the most
// that is permitted; or what is missing.
func carried(m *manual.Manual, r *manual.Rinse, t *manual.Tank, share float64) (Span, []Missing) {
	own, dragged := feed(m, r), bath(m, t)
	if missing := append(own.missing, dragged.missing...); len(missing) > 0 {
		return Span{}, missing
	}
	low, high := water.Bounds(cold, []water.Part{{Share: 1 - share, Liquid: own.Liquid}, {Share: share, Liquid: dragged.Liquid}})
	return Span{low, high}, nil
}
