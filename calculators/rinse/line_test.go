package rinse

import (
	"math"
	"math/rand/v2"
	"testing"

	"tankside/calculators/water"
)

// one is a rinse of n stages with one feed, liquid 0, into which bath 1 is dragged.
func one(flow, drag float64, n int, separate bool) *Line {
	return &Line{Liquids: 2, Rinses: []Tank{{Volume: 0.1, Stages: n, Separate: separate, Feeds: []Feed{{0, flow}}}}, Drags: []Drag{{Flow: drag, Liquid: 1, From: -1}}}
}

func steady(t *testing.T, l *Line) [][]Stage {
	t.Helper()
	s, ok := l.Steady()
	if !ok {
		t.Fatalf("%+v runs in a circle", l)
	}
	return s
}

// TestLineAgrees with the closed forms, among them the guidebook's 1 and 99 gal/h, 100:1.
func TestLineAgrees(t *testing.T) {
	for _, r := range []float64{0.5, 9, 99, 2000} {
		for n := 1; n <= 4; n++ {
			for separate, ratio := range map[bool]float64{false: Ratio(r, n), true: RatioSeparate(r, n)} {
				s := steady(t, one(r, 1, n, separate))[0]
				if got := 1 / s[n-1].Shares[1]; math.Abs(got-ratio) > 1e-9*ratio {
					t.Errorf("r %g, %d stages, separate %v: %g, want %g", r, n, separate, got, ratio)
				}
			}
		}
	}
}

// settled is when the first stage of a rinse is there.
func settled(t *testing.T, l *Line, r int) float64 { t.Helper(); return l.Settle(steady(t, l))[r][0] }

// TestSettle: a single stage goes as 1 − e^(−t/τ), so 95 % take 3.00 τ; of two like stages one after the other the second takes 4.74 τ,
// the root of (1 + x)·e^(−x) = 0.05.
func TestSettle(t *testing.T) {
	if got, tau := settled(t, one(99e-5, 1e-5, 1, false), 0), 0.1/1e-3; math.Abs(got-2.9957*tau) > 0.05*tau+1e-9 && got < 2.9957*tau {
		t.Errorf("%g s, want %g", got, 2.9957*tau)
	}
	l := &Line{Liquids: 2, Rinses: []Tank{{Volume: 1, Feeds: []Feed{{0, 1}}}, {Volume: 1, Feeds: []Feed{{0, 1}}}},
		Drags: []Drag{{Flow: 1e-3, Liquid: 1, From: -1}, {Flow: 1e-3, From: 0, To: 1}}}
	if got := settled(t, l, 1); math.Abs(got-4.744) > 0.12 {
		t.Errorf("the second of two: %g s, want 4.74", got)
	}
	still := &Line{Liquids: 2, Rinses: []Tank{{Volume: 0.09}}, Drags: []Drag{{Flow: 1e-6, Liquid: 1, From: -1}}}
	if rest, time := steady(t, still)[0][0], settled(t, still, 0); math.Abs(rest.Shares[1]-1) > 1e-12 || math.Abs(time-2.9957*9e4) > 1e4 {
		t.Errorf("a rinse without water becomes the bath: %+v after %g s", rest, time)
	}
	nothing := &Line{Liquids: 2, Rinses: []Tank{{Volume: 0.09}}}
	if dry := steady(t, nothing)[0][0]; dry.Shares[0]+dry.Shares[1] != 0 || !math.IsInf(settled(t, nothing, 0), 1) {
		t.Errorf("nothing runs in: %+v", dry)
	}
}

// TestTwoFeeds by hand: 3 parts of one water, 1 of another, 0.01 of bath; the overflow of a second rinse feeds the first.
func TestTwoFeeds(t *testing.T) {
	l := &Line{Liquids: 3, Rinses: []Tank{{Feeds: []Feed{{0, 3}, {1, 1}}}}, Drags: []Drag{{Flow: 0.01, Liquid: 2, From: -1}}}
	for i, want := range []float64{3 / 4.01, 1 / 4.01, 0.01 / 4.01} {
		if got := steady(t, l)[0][0].Shares[i]; math.Abs(got-want) > 1e-12 {
			t.Errorf("liquid %d: %g, want %g", i, got, want)
		}
	}
	both := &Line{Liquids: 3, Rinses: []Tank{{FedBy: []int{1}}, {Feeds: []Feed{{1, 4}}}}, Drags: []Drag{{Flow: 0.01, Liquid: 2, From: -1}, {Flow: 0.01, From: 0, To: 1}}}
	if got, want := steady(t, both)[1][0].Shares[2], 1/Ratio(400, 2); math.Abs(got-want) > 1e-12 {
		t.Errorf("counterflow through two rinses: %g, want %g", got, want)
	}
	if _, ok := (&Line{Liquids: 1, Rinses: []Tank{{FedBy: []int{1}}, {FedBy: []int{0}}}}).Steady(); ok {
		t.Error("two rinses that feed each other")
	}
	if _, ok := (&Line{Liquids: 1, Rinses: []Tank{{FedBy: []int{0}}}}).Steady(); ok {
		t.Error("a rinse that feeds itself")
	}
	temperatures, _ := both.Temperatures([]float64{0, 12, 62}, []float64{math.NaN(), 40})
	if got, want := temperatures[0][0], (4*40+0.01*62)/4.01; math.Abs(got-want) > 1e-12 || temperatures[1][0] != 40 {
		t.Errorf("%v, want %g and 40", temperatures, want)
	}
}

// TestLineProperties: shares add up to 1; what is dragged in of a bath goes out again; more flow never brings the pH further from the
// feed's; a counterflow is never worse than the same water and volume in one tank.
func TestLineProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	between := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	for range 500 {
		flow, drag := between(1, 10), math.Pow(10, between(-4, -0.5))
		n := 1 + r.IntN(4)
		l := &Line{Liquids: 4, Rinses: []Tank{{Volume: between(0.02, 1), Stages: n, Feeds: []Feed{{0, flow}}}, {Volume: 0.1, Stages: 1 + r.IntN(2), Feeds: []Feed{{1, between(0.1, 3)}}}},
			Drags: []Drag{{drag, 2, -1, 0}, {drag * between(0, 2), 3, -1, 0}, {drag, 0, 0, 1}}}
		if r.IntN(2) == 0 {
			l.Rinses[0].FedBy = []int{1}
		}
		s := steady(t, l)
		for _, row := range s {
			for _, stage := range row {
				sum := 0.
				for _, share := range stage.Shares {
					sum += share
					if share < -1e-12 {
						t.Fatalf("%+v: %+v", l, s)
					}
				}
				if math.Abs(sum-1) > 1e-9 {
					t.Fatalf("%+v: shares add up to %g", l, sum)
				}
			}
		}
		if len(l.Rinses[0].FedBy) == 0 {
			in := drag
			out := flow*s[0][0].Shares[2] + (drag+l.Drags[1].Flow)*s[0][n-1].Shares[2]
			if math.Abs(in-out) > 1e-9*in {
				t.Fatalf("%+v: %g of the bath come in, %g go out", l, in, out)
			}
		}
		plain, counter := one(flow, drag, 1, false), one(flow, drag, n, false)
		if a, b := steady(t, plain)[0][0].Shares[1], steady(t, counter)[0][n-1].Shares[1]; b > a*(1+1e-12) {
			t.Fatalf("counterflow in %d stages %g, one tank %g", n, b, a)
		}
		feed := water.Natural(25, between(6.5, 8.5), between(0.5, 6))
		baths := []water.Liquid{water.Alkaline(9, between(9, 12), between(20, 500), r.IntN(2) == 0), water.Acidic(1, between(1, 4), between(200, 2000))}
		start := feed[0].PH(25)
		for _, bath := range baths {
			last := [2]float64{math.Inf(1), math.Inf(1)}
			for _, times := range []float64{1, 1.5, 4, 30} {
				shares := steady(t, one(flow*times, drag, n, false))[0][0].Shares
				low, high := water.Bounds(25, []water.Part{{Share: shares[0], Liquid: feed}, {Share: shares[1], Liquid: bath}})
				away := [2]float64{math.Abs(low - start), math.Abs(high - start)}
				if away[0] > last[0]+1e-6 || away[1] > last[1]+1e-6 {
					t.Fatalf("with %g times the flow the rinse is further off: %v, before %v", times, away, last)
				}
				last = away
			}
		}
	}
}
