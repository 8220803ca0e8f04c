package quantity

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
)

// TestDecimal compares what Decimal writes with strconv over the whole range of
// numbers that amounts have. Halves may go the other way: strconv rounds the
// binary number exactly and to even, so the last digit may differ by one where
// the next ones are 5 or within a part in 10¹⁵ of it.
func TestDecimal(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 200000 {
		x := (r.Float64() + 0.1) * math.Pow(10, float64(r.IntN(40)-20))
		if r.IntN(4) == 0 {
			x = math.Round(x*1000) / 1000
		}
		digits := 1 + r.IntN(10)
		got := strings.NewReplacer("\u202f", "", "−", "-").Replace(Decimal(x, digits))
		rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', digits-1, 64), 64)
		if err != nil {
			t.Fatal(err)
		}
		if want := strconv.FormatFloat(rounded, 'f', -1, 64); got != want {
			back, err := strconv.ParseFloat(got, 64)
			ulp := math.Pow(10, math.Floor(math.Log10(x))-float64(digits-1))
			if err != nil || math.Abs(back-x) > ulp/2*(1+1e-5)+1e-15*x {
				t.Fatalf("%v to %d digits is %q, strconv has %q", x, digits, got, want)
			}
		}
	}
	for x, want := range map[float64]string{
		0: "0", 1: "1", -5: "−5", 0.1: "0.1", 9999: "9999", 12345: "12\u202f345", 1234567.5: "1\u202f234\u202f567.5", 99999.999999: "100\u202f000",
		0.000123: "0.000123", 62.5: "62.5", 1e12: "1\u202f000\u202f000\u202f000\u202f000", 5e-324: "0." + strings.Repeat("0", 323) + "4940656458", 1000: "1000",
	} {
		if got := Decimal(x, 10); got != want {
			t.Errorf("%v is written %q, want %q", x, got, want)
		}
	}
	if got := Decimal(62.5, 2); got != "63" {
		t.Errorf("62.5 to two digits is %s", got)
	}
	for x, want := range map[float64]string{math.NaN(): "not a number", math.Inf(1): "∞", math.Inf(-1): "−∞"} {
		if got := Decimal(x, 3); got != want {
			t.Errorf("%v is %q", x, got)
		}
	}
}

// TestReadNumbers compares reading with strconv: above 1e-6 to the last bit up to 15
// digits, to a part in 10¹⁵ beyond.
func TestReadNumbers(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for range 100000 {
		digits := 1 + r.IntN(20)
		s := strconv.FormatFloat((r.Float64()+0.001)*math.Pow(10, float64(r.IntN(18)-8)), 'g', digits, 64)
		want, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		v, err := Parse(s)
		if err != nil {
			t.Fatalf("%q: %v", s, err)
		}
		if digits <= 15 && want > 1e-6 && v.SI != want || math.Abs(v.SI-want) > 4e-16*want {
			t.Fatalf("%q is read as %v, want %v", s, v.SI, want)
		}
	}
}
