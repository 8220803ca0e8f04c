package bath

import (
	"math"
	"testing"
)

// TestSoiling: by hand. 120 L with 0.216 kg in and 9.6 L out a day steady at 22.5 g/L; 20 g/L after 12.5·ln(22.5/2.5) = 27.465 days. With nothing out
// 120 L·20 g/L ÷ 216 g are 11.11 days. And step by step, day by hundredth of a day, the balance gives the same.
func TestSoiling(t *testing.T) {
	b := Soiling{Volume: 0.12, In: 0.216, Out: 0.0096}
	if got := b.Steady(); math.Abs(got-22.5) > 1e-9 {
		t.Errorf("steady %g", got)
	}
	if got := b.Until(20); math.Abs(got-27.4653) > 1e-3 {
		t.Errorf("20 g/L after %g days", got)
	}
	if got := (Soiling{Volume: 0.12, In: 0.216}).Until(20); math.Abs(got-11.1111) > 1e-3 {
		t.Errorf("with nothing out after %g days", got)
	}
	c := 0.
	for range 2746 {
		c += 0.01 * (b.In - b.Out*c) / b.Volume
	}
	if math.Abs(c-b.After(27.46)) > 0.01 || math.Abs(b.After(b.Until(20))-20) > 1e-9 {
		t.Errorf("by steps %g, by the formula %g", c, b.After(27.46))
	}
	if !math.IsInf(b.Until(22.5), 1) || !math.IsInf(b.Until(30), 1) || (Soiling{Volume: 1, In: 1, Out: 1, Now: 5}).Until(4) != 0 {
		t.Error("never, or already, is told as a time")
	}
	if clean := (Soiling{Volume: 1, Now: 5}); clean.Steady() != 0 || clean.After(3) != 5 || !math.IsInf(clean.Until(6), 1) {
		t.Error("where nothing comes in and nothing leaves, nothing changes")
	}
}
