package manual

import (
	"slices"
	"strings"
	"testing"

	"tankside/builder/quantity"
)

// What is offered for an amount that cannot be read is the whole remedy: it can be read.
func TestAnAmountThatCannotBeReadIsOfferedWhole(t *testing.T) {
	for _, c := range []struct {
		text  string
		kinds []quantity.Kind
		want  string // parted by semicolons
	}{
		{"9,5", []quantity.Kind{quantity.PH}, "9.5"},
		{"9,5–10,5", []quantity.Kind{quantity.PH}, "9.5–10.5"},
		{"10%-15%", strengthKinds, "10–15 % v/v;10–15 % w/w;10–15 % w/v"},
		{"10-15%", strengthKinds, "10–15 % v/v;10–15 % w/w;10–15 % w/v"},
		{"2,5 %", strengthKinds, "2.5 % v/v;2.5 % w/w;2.5 % w/v"},
		{"140", []quantity.Kind{quantity.Temperature}, "140 °C;140 °F"},
		{"50-60 C", []quantity.Kind{quantity.Temperature}, "50-60 °C"},
		{"50-60 deg F", []quantity.Kind{quantity.Temperature}, "50-60 °F"},
		{"65–50 °C", []quantity.Kind{quantity.Temperature}, "50–65 °C"},
		{"65–50", []quantity.Kind{quantity.Temperature}, "50–65 °C;50–65 °F"},
		{"≤ 50", []quantity.Kind{quantity.Temperature}, "≤ 50 °C;≤ 50 °F"},
		{"40", []quantity.Kind{quantity.Frequency}, "40 kHz"},
		{"warm", []quantity.Kind{quantity.Temperature}, ""},
		{"3 bar", []quantity.Kind{quantity.Temperature}, ""},
		{"5 %", []quantity.Kind{quantity.Temperature}, ""},
	} {
		got := repaired(c.text, c.kinds)
		if want := strings.FieldsFunc(c.want, func(r rune) bool { return r == ';' }); !slices.Equal(got, want) {
			t.Errorf("%q: %q, want %q", c.text, got, want)
		}
	}
}
