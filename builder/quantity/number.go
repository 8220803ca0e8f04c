package quantity

import (
	"math"
	"strings"
)

// Numbers are read and written here and not by strconv, which would add 16 kB
// to what a page loads. They are those of people: reading keeps 18 digits and
// is right to the last bit up to 15, writing gives at most 15 digits and rounds
// halves away from nought.

// powers of ten that a float64 holds exactly.
var powers = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22}

// scale is x·10ⁿ; with x an integer below 2⁵³ and n within ±22 it is exact to
// the last bit.
func scale(x float64, n int) float64 {
	const step = len(powers) - 1
	for ; n > step && x != 0 && !math.IsInf(x, 0); n -= step {
		x *= powers[step]
	}
	for ; n < -step && x != 0; n += step {
		x /= powers[step]
	}
	switch {
	case x == 0 || math.IsInf(x, 0):
		return x
	case n < 0:
		return x / powers[-n]
	}
	return x * powers[n]
}

// digits gathers a decimal number from left to right.
type digits struct {
	mantissa uint64
	exponent int // of ten
	any      bool
}

func (d *digits) whole(r rune) {
	d.any = true
	if d.mantissa < 1e17 {
		d.mantissa = d.mantissa*10 + uint64(r-'0')
	} else {
		d.exponent++
	}
}

func (d *digits) decimal(r rune) {
	d.any = true
	if d.mantissa < 1e17 {
		d.mantissa = d.mantissa*10 + uint64(r-'0')
		d.exponent--
	}
}

func (d *digits) value() float64 { return scale(float64(d.mantissa), d.exponent) }

// Decimal writes a number with at most so many significant digits (1–15), no
// exponent, no noughts at the end, a proper minus sign, and the thousands of
// five digits and more set apart by a narrow no-break space.
func Decimal(x float64, digits int) string {
	switch {
	case math.IsNaN(x):
		return "not a number"
	case math.IsInf(x, 1):
		return "∞"
	case math.IsInf(x, -1):
		return "−∞"
	case x == 0:
		return "0"
	}
	digits = min(max(digits, 1), 15)
	a := math.Abs(x)
	e := int(math.Floor(math.Log10(a)))
	m := math.Round(scale(a, digits-1-e))
	for m < powers[digits-1] { // the logarithm was a little high
		e--
		m = math.Round(scale(a, digits-1-e))
	}
	if m >= powers[digits] { // rounding carried, or the logarithm was a little low
		e++
		m = math.Round(scale(a, digits-1-e))
	}
	var b strings.Builder
	if x < 0 {
		b.WriteString("−")
	}
	places(&b, uint64(m), digits, e)
	return b.String()
}

// places writes the digits of m, count of them, the first of which stands for
// 10^e.
func places(b *strings.Builder, m uint64, count, e int) {
	for m%10 == 0 && count > 1 {
		m /= 10
		count--
	}
	var figures [20]byte
	for i := count - 1; i >= 0; i-- {
		figures[i] = byte('0' + m%10)
		m /= 10
	}
	if e < 0 {
		b.WriteString("0.")
		for range -1 - e {
			b.WriteByte('0')
		}
		b.WriteString(string(figures[:count]))
		return
	}
	for i := 0; i <= e; i++ {
		if left := e + 1 - i; e >= 4 && i > 0 && left%3 == 0 {
			b.WriteString("\u202f")
		}
		if i < count {
			b.WriteByte(figures[i])
		} else {
			b.WriteByte('0')
		}
	}
	if count > e+1 {
		b.WriteByte('.')
		b.WriteString(string(figures[e+1 : count]))
	}
}
