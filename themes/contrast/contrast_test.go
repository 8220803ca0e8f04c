package contrast

import (
	"math"
	"testing"

	"tankside/themes"
)

// Black on white is 21:1 and a colour on itself 1:1 by the definition in WCAG 2.2; #767676 on white is the darkest of W3C's own examples that
// passes 4.5 (Technique G18: 4.54), #777777 fails (4.48).
func TestRatio(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want float64
	}{{"#000000", "#ffffff", 21}, {"#123456", "#123456", 1}, {"#767676", "#fff", 4.54}, {"#777777", "#fff", 4.48}} {
		a, errA := Parse(c.a)
		b, errB := Parse(c.b)
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		if got := Ratio(a, b); math.Abs(got-c.want) > 0.005 {
			t.Errorf("%s on %s: %.3f, want %.2f", c.a, c.b, got, c.want)
		}
	}
	for _, bad := range []string{"", "#12", "123456", "#gggggg", "red", "#1234567"} {
		if _, err := Parse(bad); err == nil {
			t.Errorf("%q passes for a colour", bad)
		}
	}
}

// Every colour that stands on another in the styles, light and dark, in both themes: text at 4.5 (SC 1.4.3), lines, bands and the focus
// ring at 3 (SC 1.4.11). Hairlines, the water and the marked word's ground only decorate.
func TestEveryPairOfColours(t *testing.T) {
	const text, shape = 4.5, 3
	pairs := []struct {
		front, ground string
		least         float64
	}{
		{"ink", "paper", text}, {"ink", "sheet", text}, {"ink", "water", text}, {"ink", "mark", text},
		{"quiet", "paper", text}, {"quiet", "sheet", text}, {"quiet", "water", text}, {"sheet", "ink", text},
		{"rule", "paper", shape}, {"rule", "sheet", shape}, {"accent", "paper", shape}, {"accent", "sheet", shape},
		{"focus", "paper", shape}, {"focus", "sheet", shape}, {"water-line", "paper", shape}, {"water-line", "sheet", shape},
	}
	for _, name := range themes.Names {
		css := styles(t, themes.New(nil).Called(name))
		light, dark, err := Properties(css)
		if err != nil {
			t.Fatal(err)
		}
		for scheme, colours := range map[string]map[string]Colour{"light": light, "dark": dark} {
			for _, p := range pairs {
				front, ok1 := colours[p.front]
				ground, ok2 := colours[p.ground]
				if !ok1 || !ok2 {
					t.Errorf("%s, %s: --%s or --%s is not declared", name, scheme, p.front, p.ground)
					continue
				}
				if got := Ratio(front, ground); got < p.least {
					t.Errorf("%s, %s: --%s %s on --%s %s has %.2f, wants %.1f", name, scheme, p.front, front, p.ground, ground, got, p.least)
				}
			}
			white, black := Colour{255, 255, 255}, Colour{}
			for word, on := range map[string]Colour{"danger": white, "notice": white, "warning": black, "caution": black} {
				if got := Ratio(colours[word], on); got < text {
					t.Errorf("%s: the signal word on --%s has %.2f, wants %.1f", name, word, got, text)
				}
			}
			known := map[string]bool{"hair": true, "danger": true, "warning": true, "caution": true, "notice": true}
			for _, p := range pairs {
				known[p.front], known[p.ground] = true, true
			}
			for c := range colours {
				if !known[c] {
					t.Errorf("%s: nothing is said of what --%s stands on", name, c)
				}
			}
		}
	}
}

func styles(t *testing.T, theme themes.Theme) []byte {
	t.Helper()
	names, err := theme.List("styles")
	if err != nil {
		t.Fatal(err)
	}
	var all []byte
	for _, name := range names {
		data, err := theme.Read(name)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, data...)
	}
	return all
}
