package calculators

import (
	"errors"
	"maps"
	"math"
	"strings"
	"testing"

	"tankside/builder/quantity"
)

// TestLevelBelowTheMark: a level in place of a volume, each by hand: what is missing is level × length × width, and the tank is filled to the mark.
func TestLevelBelowTheMark(t *testing.T) {
	tank := Tank{Volume: "120 L", Length: "600 mm", Width: "450 mm", Strength: "4 % v/v", Freeboard: "70 mm"}
	for _, c := range []struct {
		now, below                string
		drain, concentrate, water float64 // L
	}{
		{"3.4 % v/v", "18 mm", 0, 4.8 - 115.14*0.034, 4.86 - (4.8 - 115.14*0.034)},
		{"4 % v/v", "0 mm", 0, 0, 0},
		{"4 % v/v", "10 mm", 0, 0.108, 2.592},
		{"5 % v/v", "0 mm", 24, 0, 24},                                           // too strong and full: 96 L at 5 % are in 120 L 4 %
		{"4.1 % v/v", "40 mm", 0, 4.8 - 109.2*0.041, 10.8 - (4.8 - 109.2*0.041)}, // too strong and low: water alone does most
		{"3 % v/v", "0 mm", 120 - 120*0.96/0.97, 4.8 - 120*0.96/0.97*0.03, 0},    // full: what is poured needs room first
		{"0 % v/v", "440 mm", 0, 4.8, 114},                                       // 1.2 L of water left
		{"3.4 % v/v", "0.5 in", 0, 4.8 - (120-12.7*0.27)*0.034, 12.7*0.27 - (4.8 - (120-12.7*0.27)*0.034)},
	} {
		values := Fill("top-up", tank, Shop{}, map[string]string{"strength-now": c.now, "below-mark": c.below})
		a, err := Run("top-up", values, quantity.SI)
		if err != nil {
			t.Errorf("%s, %s: %v", c.now, c.below, err)
			continue
		}
		for name, want := range map[string]float64{"drain-volume": c.drain, "concentrate-volume": c.concentrate, "water-volume": c.water, "volume-after": 120} {
			if r, _ := a.Reading(name); math.Abs(r.SI*1000-want) > 1e-6 {
				t.Errorf("%s, %s: %s is %.4f L, want %.4f", c.now, c.below, name, r.SI*1000, want)
			}
		}
	}
	base := map[string]string{"strength-now": "3 % v/v", "strength": "4 % v/v", "below-mark": "18 mm", "tank-capacity": "120 L", "length": "600 mm", "width": "450 mm"}
	with := func(name, value string) map[string]string {
		values := maps.Clone(base)
		values[name] = value
		return values
	}
	for _, c := range []struct {
		values map[string]string
		input  string
		says   string
	}{
		{with("below-mark", "450 mm"), "below-mark", "deeper than the tank"},
		{with("volume", "110 L"), "below-mark", "not both"},
		{with("length", ""), "volume", "or below-mark, tank-capacity, length and width instead"},
		{with("tank-capacity", ""), "volume", "instead"},
		{with("below-mark", "-5 mm"), "below-mark", "outside"},
		{with("volume-wanted", "121 L"), "volume-wanted", "more than the tank may hold"}, // never above the mark
	} {
		_, err := Run("top-up", c.values, quantity.SI)
		var wrong Errors
		if !errors.As(err, &wrong) || wrong[0].Input != c.input || !strings.Contains(wrong[0].Problem, c.says) {
			t.Errorf("%v: %v, want %q of %s", c.values, err, c.says, c.input)
		}
	}
	// A volume wanted goes first.
	if a, err := Run("top-up", with("volume-wanted", "116 L"), quantity.SI); err != nil {
		t.Error(err)
	} else if r, _ := a.Reading("volume-after"); math.Abs(r.SI-0.116) > 1e-9 {
		t.Errorf("it comes to %v, want 116 L", r)
	}
}
