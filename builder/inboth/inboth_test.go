package inboth

import (
	"regexp"
	"strings"
	"testing"

	"tankside/builder/quantity"
)

// marked is what a text has for one family: [us] and {si} below.
var marked = regexp.MustCompile(`<span class="(us|si)">([^<]*)</span>`)

// The exact factors are those of NIST Special Publication 811 (2008), appendix B: °F = 1.8 °C + 32, 1 US gal = 3.785 411 784 L, 1 in = 0.0254 m,
// 1 lb = 0.453 592 37 kg, 1 psi = 6.894 757 kPa; a difference of 1 K is one of 1.8 °F. The values were reckoned by hand from these.
func TestAmountsInText(t *testing.T) {
	for _, c := range [][2]string{
		{"Heat to 60 °C and wait.", "Heat to [140 °F (]60 °C[)] and wait."},
		{"Between 50–65 °C it works.", "Between [122–149 °F (]50–65 °C[)] it works."},
		{"At 50, 60 and 70 °C.", "At [122, 140 and 158 °F (]50, 60 and 70 °C[)]."},
		{"A 50, 60 y 70 °C.", "A [122, 140 y 158 °F (]50, 60 y 70 °C[)]."},
		{"Keep it 60 ± 2 °C.", "Keep it [140 ± 3.6 °F (]60 ± 2 °C[)]."},
		{"Keep it ± 2 °C.", "Keep it ± [3.6 °F (]2 °C[)]."},
		{"Fill 120 L.", "Fill [31.7 US gal (]120 L[)]."},
		{"Add 5 mL/L.", "Add [0.64 fl oz/US gal (]5 mL/L[)]."}, // 5 · 128/1000
		{"Add 40 g/L.", "Add [5.34 wt oz/US gal (]40 g/L[)]."}, // 40 · 3.785411784/28.349523125
		{"Stay 5 °C below the flash point; within 15 °C of it.", "Stay [9 °F (]5 °C[)] below the flash point; within [27 °F (]15 °C[)] of it."},
		{"It rises by 40 °C, 50 °C above the room.", "It rises by [72 °F (]40 °C[)], [90 °F (]50 °C[)] above the room."},
		{"It cools 24 °C an hour.", "It cools [43 °F (]24 °C[)] an hour."},
		{"Heat it to 60 °C an hour before the shift.", "Heat it to [140 °F (]60 °C[)] an hour before the shift."},
		{"Below 20 °C it is slow.", "Below [68 °F (]20 °C[)] it is slow."},
		{"Store at 4 °C, at −18 °C.", "Store at [39 °F (]4 °C[)], at [0 °F (]−18 °C[)]."},
		{"Nothing says what 4 °C are.", "Nothing says what 4 °C are."},
		{"At 60 °C (140 °F) it is ready.", "At {60 °C (140 °F)}[140 °F (60 °C)] it is ready."},
		{"At 40 kHz, 3 min, 4 % v/v, 20 mg/m², 30 µS/cm.", "At 40 kHz, 3 min, 4 % v/v, 20 mg/m², 30 µS/cm."},
		{"Hang it 2 m up.", "Hang it [6.6 ft (]2 m[)] up."},
		{"A basket of 300 × 200 × 150 mm.", "A basket of [11.8 × 7.87 × 5.91 in (]300 × 200 × 150 mm[)]."},
		{"Two cans: 2 × 5 L.", "Two cans: 2 × [1.32 US gal (]5 L[)]."},
		{"Wash 1 and 60 °C.", "Wash 1 and [140 °F (]60 °C[)]."},
		{"Into Wash 2 is a 28 °C step, which is at the edge.", "Into Wash 2 is a [50 °F (]28 °C[)] step, which is at the edge."},
		{"Auf 60 °C heizen, zwischen 50 und 65 °C halten, 5 bis 10 Liter.", "Auf [140 °F (]60 °C[)] heizen, zwischen [122 und 149 °F (]50 und 65 °C[)] halten, [1.32 bis 2.64 US gal (]5 bis 10 Liter[)]."},
		{"Um 20 °C wärmer als die Spüle, 5 °C unter dem Flammpunkt.", "Um [36 °F (]20 °C[)] wärmer als die Spüle, [9 °F (]5 °C[)] unter dem Flammpunkt."},
		{"Das Bad fällt um 4 °C; bei 4 °C lagern; mehr als 3 °C; von 0 °C bis 100 °C.", "Das Bad fällt um [7.2 °F (]4 °C[)]; bei [39 °F (]4 °C[)] lagern; mehr als [5.4 °F (]3 °C[)]; von [32 °F (]0 °C[)] bis [212 °F (]100 °C[)]."},
		{"In Wanne 1 und 60 °C.", "In Wanne 1 und [140 °F (]60 °C[)]."},
		{"Chauffer de 50 à 65 °C, 50 et 60 °C.", "Chauffer de [122 à 149 °F (]50 à 65 °C[)], [122 et 140 °F (]50 et 60 °C[)]."},
		{"Od 50 do 65 °C, 50 tot 65 °C.", "Od [122 do 149 °F (]50 do 65 °C[)], [122 tot 149 °F (]50 tot 65 °C[)]."},
		{"Por ejemplo 60 °C o 140 °F.", "Por ejemplo {60 °C o 140 °F}[140 °F o 60 °C]."},
		{"In step 3, 60 °C.", "In step 3, [140 °F (]60 °C[)]."},
		{"4.19 kJ/(kg·K), 8 W/m², 3 L-shaped, M5 mm.", "4.19 kJ/(kg·K), 8 W/m², 3 L-shaped, M5 mm."},
		{"What is left: 120 L − 4.8 L.", "What is left: [31.7 US gal (]120 L[)] − [1.27 US gal (]4.8 L[)]."},
		{"Flash point less 30 °F (16.7 K).", "Flash point less [30 °F (16.7 K)]{16.7 K (30 °F)}."},
		{"Stay 30 °F (17 °C) below it.", "Stay [30 °F (17 °C)]{17 °C (30 °F)} below it."},
		{"From 0 °C to 100 °C.", "From [32 °F (]0 °C[)] to [212 °F (]100 °C[)]."},
		{"Above 75 °C Too hot", "Above [167 °F (]75 °C[)] Too hot"},
		{"Warm it to 80 °C in a water bath, at 49 °C from the sheet.", "Warm it to [176 °F (]80 °C[)] in a water bath, at [120 °F (]49 °C[)] from the sheet."},
		{"Not harmed by 190–230 °C.", "Not harmed by [374–446 °F (]190–230 °C[)]."},
		{"Wash 1 subido a 65–70 °C.", "Wash 1 subido a [149–158 °F (]65–70 °C[)]."},
		{"It gains 1 °C in a quarter of an hour, más de 3 °C por debajo.", "It gains [1.8 °F (]1 °C[)] in a quarter of an hour, más de [5.4 °F (]3 °C[)] por debajo."},
		{"Keep every step under 30 °C: no step over 30 °C.", "Keep every step under [54 °F (]30 °C[)]: no step over [54 °F (]30 °C[)]."},
		{"Bring it to 1.5 °C below room temperature, at least 17 °C below, 2 °C over what it stands.", "Bring it to [2.7 °F (]1.5 °C[)] below room temperature, at least [31 °F (]17 °C[)] below, [3.6 °F (]2 °C[)] over what it stands."},
		{"Lift at 50 mm/s.", "Lift at [9.8 ft/min (]50 mm/s[)]."},
		{"<b>60</b> °C, 3&nbsp;L, <code>60 °C</code>, <span class=\"si\">5 L</span>.", "<b>[140 °F (]60</b> °C[)], [0.793 US gal (]3&nbsp;L[)], <code>60 °C</code>, {5 L}."},
		{"Ratio 1:40 L is nothing.", "Ratio 1:40 L is nothing."},
		{"Put 3 in the basket.", "Put 3 in the basket."},
		{"Heat to 140 °F.", "Heat to {60 °C (}140 °F{)}."},
		{"It is 18 in, or 1/2 in.", "It is {460 mm (}18 in{)}, or {13 mm (}1/2 in{)}."},
		{"Use 1 200 mL, 1,200 mL.", "Use [40.6 US fl oz (]1 200 mL[)], [40.6 US fl oz (]1,200 mL[)]."},
		{"At 5 bar, 17.5 mbar, 10 W/L, 4 L/min.", "At [73 psi (]5 bar[)], [0.254 psi (]17.5 mbar[)], [38 W/US gal (]10 W/L[)], [1.1 US gal/min (]4 L/min[)]."},
	} {
		got := marked.ReplaceAllStringFunc(string(HTML([]byte(c[0]))), func(span string) string {
			m := marked.FindStringSubmatch(span)
			if m[1] == "si" {
				return "{" + m[2] + "}"
			}
			return "[" + m[2] + "]"
		})
		plain := strings.ReplaceAll(got, "\u00a0", " ")
		if plain != c[1] {
			t.Errorf("%q became\n  %q, want\n  %q", c[0], plain, c[1])
		}
	}
}

// A text without markup is for readers of one family; what names both families already is put in their order and not converted once more.
func TestTextForReaders(t *testing.T) {
	for _, c := range []struct{ text, si, us string }{
		{"Heat to 60 °C.", "Heat to 60 °C.", "Heat to 140\u00a0°F (60 °C)."},
		{"Heat to 140 °F.", "Heat to 60\u00a0°C (140 °F).", "Heat to 140 °F."},
		{"write 60 °C or 140 °F.", "write 60 °C or 140 °F.", "write 140 °F or 60 °C."},
		{"escribir 60 °C o 140 °F.", "escribir 60 °C o 140 °F.", "escribir 140 °F o 60 °C."},
		{"120 L or 32 US gal, then 5 L.", "120 L or 32 US gal, then 5 L.", "32 US gal or 120 L, then 1.32\u00a0US gal (5 L)."},
	} {
		if got := Text(c.text, quantity.SI); got != c.si {
			t.Errorf("SI: %q, want %q", got, c.si)
		}
		if got := Text(c.text, quantity.US); got != c.us {
			t.Errorf("US: %q, want %q", got, c.us)
		}
	}
}
