package page

import (
	"strings"
	"testing"

	"tankside/builder/quantity"
)

// The exact factors are those of NIST Special Publication 811 (2008), appendix B: °F = 1.8 °C + 32, 1 US gal = 3.785 411 784 L, 1 in = 0.0254 m,
// 1 lb = 0.453 592 37 kg, 1 psi = 6.894 757 kPa.
func TestQuantitiesInProse(t *testing.T) {
	for _, c := range []struct {
		own        quantity.System
		text, want string
	}{
		{quantity.SI, "Heat to 60 °C and wait.", "Heat to 60 °C[140 °F] and wait."},
		{quantity.SI, "Between 50–65 °C it works.", "Between 50–65 °C[122–149 °F] it works."},
		{quantity.SI, "Fill 120 L.", "Fill 120 L[31.7 US gal]."},
		{quantity.SI, "At 40 kHz, 3 min, 4 % v/v.", "At 40 kHz, 3 min, 4 % v/v."},
		{quantity.SI, "Stay 5 °C below the flash point; within 15 °C.", "Stay 5 °C below the flash point; within 15 °C."},
		{quantity.SI, "It rises by 40 °C, 50 °C above the room.", "It rises by 40 °C, 50 °C above the room."},
		{quantity.SI, "At 60 °C (140 °F) it is ready.", "At 60 °C (140 °F) it is ready."},
		{quantity.SI, "Hang it 2 m up.", "Hang it 2 m[78.7 in] up."},
		{quantity.SI, "Ratio 1:40 L is nothing.", "Ratio 1:40 L is nothing."},
		{quantity.SI, "No number L here, °C neither.", "No number L here, °C neither."},
		{quantity.US, "Heat to 140 °F.", "Heat to 140 °F[60 °C]."},
		{quantity.US, "Heat to 60 °C.", "Heat to 60 °C."},
		{quantity.US, "Put 3 in the basket.", "Put 3 in the basket."},
	} {
		var got strings.Builder
		conv := newConverter(c.own)
		for text := bind([]byte(c.text)); len(text) > 0; {
			end, other := conv.next(text)
			got.Write(text[:end])
			if other != "" {
				got.WriteString("[" + other + "]")
			}
			text = text[end:]
		}
		if plain := strings.ReplaceAll(got.String(), "\u00a0", " "); plain != c.want {
			t.Errorf("%s: %q became %q, want %q", c.own, c.text, plain, c.want)
		}
	}
}
