package spelling

import "testing"

// The distance is that of Damerau in its restricted form (optimal string alignment). Wagner and Fischer 1974 give kitten–sitting as 3 in the
// plain form; one swap of neighbours counts as one here, as in Damerau, Communications of the ACM 7 (1964) 171.
func TestBetween(t *testing.T) {
	var errors Distance // one for all: its rows are used again
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"kitten", "sitting", 3}, {"sunday", "saturday", 3}, {"ca", "abc", 3}, {"teh", "the", 1}, {"", "abc", 3}, {"abc", "abc", 0}, {"größe", "grösse", 2},
	} {
		if got := errors.Between([]rune(c.a), c.b, 10); got != c.want {
			t.Errorf("%s–%s: %d, want %d", c.a, c.b, got, c.want)
		}
		if got := errors.Between([]rune(c.a), c.b, 1); got != min(c.want, 2) {
			t.Errorf("%s–%s, of interest to 1: %d", c.a, c.b, got)
		}
	}
}
