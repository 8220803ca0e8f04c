package calculators

import (
	"maps"
	"math"
	"strings"
	"testing"

	"tankside/builder/quantity"
)

// An invented shop.
var (
	washTank = Tank{
		Volume: "120 L", Length: "600 mm", Width: "450 mm", Depth: "445 mm", Heater: "6 kW", UltrasonicPower: "1.2 kW", Frequency: "40 kHz",
		Lid: "yes", Insulation: "25 mm", Strength: "4 % v/v", Temperature: "62 °C", Density: "1.08 kg/L", Ceiling: "70 °C",
	}
	theShop = Shop{
		Air: "20 °C", Humidity: "50 %", Altitude: "240 m", EnergyPrice: "0.28 EUR/kWh", WaterTemperature: "12 °C", Hardness: "260 mg/L",
		DissolvedSolids: "410 mg/L", WaterConductivity: "640 µS/cm", PH: "7.6", Alkalinity: "220 mg/L", Dryer: "80 °C",
	}
)

// asked are the inputs of a calculator with that tank and shop: what they do
// not know is the example's.
func asked(c *Calculator) map[string]string {
	known, added := Fill(c.Name, washTank, theShop, nil), map[string]string{}
	for _, e := range c.Example {
		if known[e.Name] == "" {
			added[e.Name] = e.Text
		}
	}
	return Fill(c.Name, washTank, theShop, added)
}

func mustRun(t *testing.T, name string, values map[string]string) Answer {
	t.Helper()
	a, err := Run(name, values, quantity.SI)
	if err != nil {
		t.Fatalf("%s %v: %v", name, values, err)
	}
	return a
}

func siOf(t *testing.T, a Answer, name string) float64 {
	t.Helper()
	r, ok := a.Reading(name)
	if !ok {
		t.Fatalf("%s gives no %s", a.Calculator.Name, name)
	}
	return r.SI
}

// TestFill: with a tank and a shop each calculator needs only what is not
// theirs to know, answers in both systems, and both answers are one.
func TestFill(t *testing.T) {
	for _, c := range All() {
		values := asked(c)
		a, err := c.Run(values, quantity.SI)
		if err != nil {
			t.Errorf("%s %v: %v", c.Name, values, err)
			continue
		}
		b, err := c.Run(values, quantity.US)
		if err != nil {
			t.Errorf("%s in US customary: %v", c.Name, err)
			continue
		}
		for i, r := range a.Readings {
			if u := b.Readings[i]; u.Name != r.Name || u.SI != r.SI || u.Text != r.Text {
				t.Errorf("%s: %s is %v and %v", c.Name, r.Name, r, u)
			}
		}
	}
}

func TestFillKeepsWhatIsGiven(t *testing.T) {
	given := map[string]string{"volume": "60 L", "target": "50 °C"}
	before := maps.Clone(given)
	values := Fill("heat-up", washTank, theShop, given)
	if values["volume"] != "60 L" || values["target"] != "50 °C" || values["heater"] != "6 kW" || values["start"] != "12 °C" {
		t.Errorf("%v", values)
	}
	if values["length"] != "" || values["width"] != "" || values["depth"] != "" {
		t.Error("another volume than the tank's goes with the tank's size")
	}
	if _, ok := values["ultrasonic-power"]; ok {
		t.Error("heating up is done with the sound off")
	}
	if !maps.Equal(given, before) {
		t.Error("the given inputs were changed")
	}
	values = Fill("heat-up", washTank, theShop, map[string]string{"length": "1 m", "width": "1 m", "depth": "1 m"})
	if values["volume"] != "" {
		t.Error("another size than the tank's goes with the tank's volume")
	}
	if values := Fill("spotting", washTank, theShop, map[string]string{"conductivity": "12 µS/cm"}); values["dissolved-solids"] != "" {
		t.Error("the tap's dissolved solids go with another water's conductivity")
	}
	if values := Fill("spotting", Tank{Conductivity: "12 µS/cm"}, theShop, nil); values["dissolved-solids"] != "" || values["conductivity"] != "12 µS/cm" {
		t.Errorf("a rinse tank's own conductivity is not used: %v", values)
	}
	if values := Fill("no such", washTank, theShop, given); !maps.Equal(values, given) {
		t.Errorf("%v", values)
	}
}

// TestHeatOf: what the rules ask agrees with the calculators.
func TestHeatOf(t *testing.T) {
	open := washTank
	open.Lid, open.Heater = "no", "1 kW"
	h, err := HeatOf(open, theShop)
	if err != nil {
		t.Fatal(err)
	}
	a := mustRun(t, "heat-up", Fill("heat-up", open, theShop, nil))
	if got := siOf(t, a, "highest-temperature"); math.Abs(got-h.Highest) > 1e-9 || h.Boils {
		t.Errorf("highest temperature %g and %g", got, h.Highest)
	}
	if !(h.Least < h.Highest && h.Highest < h.Most) {
		t.Errorf("%g to %g to %g", h.Least, h.Highest, h.Most)
	}
	likely, low, high := heldAt(h, 62)
	if got := siOf(t, a, "loss-at-target"); math.Abs(got-likely) > 1e-9*got || !(low < likely && likely < high) {
		t.Errorf("loss at 62 °C %g and %g (%g to %g)", got, likely, low, high)
	}
	if likely, _, _ := heldAt(h, h.Highest); math.Abs(likely-1000) > 0.1 {
		t.Errorf("at the highest temperature %g W are lost, the heater gives 1000", likely)
	}
	if h, err := HeatOf(washTank, theShop); err != nil || !h.Boils {
		t.Errorf("6 kW under a lid boil 120 L: %+v, %v", h.Highest, err)
	}
	if _, err := HeatOf(Tank{Volume: "120 L"}, theShop); err == nil || !strings.Contains(err.Error(), "heater") {
		t.Errorf("a tank without a heater: %v", err)
	}
}

// heldAt is the heat in W that a tank loses at a temperature in °C, likely,
// low and high.
func heldAt(h Heat, t float64) (likely, low, high float64) {
	v := h.sum.vessel()
	likely = v.Loss(t).Total()
	b := v.LossBand(t)
	return likely, likely * (1 - b), likely * (1 + b)
}
