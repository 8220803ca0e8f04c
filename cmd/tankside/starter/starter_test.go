package starter

import (
	"strings"
	"testing"

	"tankside/builder/quantity"
)

// What a type plate says is read in any order, and an amount that could be two things is refused.
func TestTypePlates(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]Tank{
		"Wash 1, 120 L, 6 kW, 1.2 kW, 40 kHz":                  {Name: "Wash 1", Volume: "120 L", Heater: "6 kW", Power: "1.2 kW", Frequency: "40 kHz"},
		"40 kHz, 120 L":                                        {Volume: "120 L", Frequency: "40 kHz"},
		"capacity 28 L, 500 W ultrasonic, heater: none":        {Volume: "28 L", Power: "500 W", NoHeater: true},
		"37–45 kHz, 28 L, heating 1500 W, ultrasonics = 600 W": {Volume: "28 L", Heater: "1500 W", Power: "600 W", Frequency: "37–45 kHz"},
		"Cold: no heater, 120 L, none, 600 W, 132 kHz":         {Name: "Cold: no heater", Volume: "120 L", NoHeater: true, Power: "600 W", Frequency: "132 kHz"},
		"Jar, 4 L, none, none":                                 {Name: "Jar", Volume: "4 L", NoHeater: true, NoSound: true},
		"4 L, ultrasonics none, heater none":                   {Volume: "4 L", NoHeater: true, NoSound: true},
		"28 L, ultrasonic-power unknown, Bench":                {Volume: "28 L", Name: "Bench"},
	} {
		got, err := ReadTank(text, quantity.SI)
		if err != nil || got != want {
			t.Errorf("%q: %+v %v", text, got, err)
		}
	}
	for text, says := range map[string]string{
		"120 L, 6 kW":              "may be heater or ultrasonic-power",
		"120 L, heater 6 kg":       "heater: ",
		"6 kW heating":             "volume is missing",
		"120 L, 130 L":             "none of",
		"":                         "volume is missing",
		"120 L, 37-450000 kHz":     "is none of",
		"120 L, 120 L capacity":    "written twice",
		"32 gal, 40 kHz":           "volume",
		"A, B, 120 L":              "none of",
		"A, 120 L, 6 kW, 1, 40":    "ultrasonic-power: ",
		strings.Repeat("x", 5_000): "",
	} {
		if got, err := ReadTank(text, quantity.SI); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%.60q: %+v %v, want %q", text, got, err, says)
		}
	}
	if d, err := ReadDryer("80 °C, hot air", quantity.SI); err != nil || d != (Dryer{"Dryer", "80 °C", "hot air"}) {
		t.Errorf("%+v %v", d, err)
	}
	if r, err := ReadRinse("90 L, deionised, 2", quantity.SI); err != nil || r != (Rinse{Volume: "90 L", Water: "deionised", Stages: "2"}) {
		t.Errorf("%+v %v", r, err)
	}
}

// Whoever goes back by any number of answers and gives the same again comes to the same shop.
func TestWalkGoesBack(t *testing.T) {
	t.Parallel()
	answers := []string{"Shop", "US", "800 ft", "", "7.6", "", "", "Wash 1", "32 US gal", "none", "unknown", "37-45 kHz", "yes", "", "28 L", "2 kW", "500 W", "40 kHz", "no", "yes", "", "24 US gal", "", "2", "", "no", "yes", "", "176 °F", ""}
	whole, next, err := Walk(Shop{}, nil, answers)
	if err != nil || next != nil || len(whole.Tanks) != 2 || len(whole.Rinses) != 1 || whole.Dryer == nil || whole.Tanks[1].Name != "Wash 2" {
		t.Fatalf("%+v %+v %v", whole, next, err)
	}
	for n := range answers {
		s, next, err := Walk(Shop{}, nil, answers[:n])
		if next == nil || err != nil {
			t.Errorf("after %d answers: %+v %v", n, s, err)
		}
	}
	if s, next, err := Walk(Shop{}, nil, append(answers[:2:2], "high")); err == nil || next == nil || !strings.Contains(next.Text, "Height") || s.Altitude != "" {
		t.Errorf("%+v %+v %v", s, next, err)
	}
}

func FuzzAnswers(f *testing.F) {
	f.Add([]byte("name: S\ntanks: [{volume: 28 L}]\n"))
	f.Add([]byte("tanks: {a: b}\nwater: [1]\ndryer: {kind: [x]}\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := Read(data)
		if err == nil && len(s.Tanks) == 0 {
			t.Error("answers without a tank are enough")
		}
		if _, err := ReadTank(string(data), quantity.SI); err == nil && len(data) == 0 {
			t.Error("nothing is a tank")
		}
	})
}
