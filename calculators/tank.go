package calculators

import (
	"maps"
	"strings"

	"tankside/builder/quantity"
)

// Tank is what a shop knows of one of its tanks, as written: "120 L". Empty
// means unknown. Lid is "yes" or "no", Insulation a thickness or "none".
type Tank struct {
	Volume, Length, Width, Depth       string // filled to the mark
	Freeboard                          string // height from the mark to the rim
	Heater, UltrasonicPower, Frequency string
	Duty, Cooling                      string // share of the time that the sound runs; power of a cooling coil
	Lid, Insulation                    string
	Strength, Temperature              string
	Density                            string // of the concentrate
	Ceiling, FlashPoint                string // of the chemistry
	PH, Alkalinity, Acidity, Alkali    string // of the bath at its strength; Alkali is a choice of rinse
	PHTo                               string // the other end of PH, where it is a range
	DragOut                            string // what parts carry into the first of Rinses
	Flow, Stages, Conductivity         string // of a rinse tank
	WaterPH, WaterAlkalinity           string // of what is fed to a rinse tank
	RunsOn                             string // "yes" where the overflow of a rinse tank runs into the one before it
	OtherWays                          string // "yes" where another bath, or parts that come another way, are dragged into Rinses too
	Rinses                             []Tank // through which parts go from a tank
}

// Shop is what a shop knows of itself, as written.
type Shop struct {
	Air, Humidity, Altitude                                        string
	EnergyPrice                                                    string // "0.28 EUR/kWh"
	WaterTemperature, Hardness, DissolvedSolids, WaterConductivity string
	PH, Alkalinity                                                 string
	Dryer                                                          string // temperature of its air
}

// Fill joins the inputs that were given with what tank and shop know, for one
// calculator; given ones go first. Where a bath's volume is given, the tank's
// length, width and depth are left out, and the other way round, for they would
// speak of another bath; likewise with the sorts of dissolved solids. Where a
// bath is filled or brought back, the tank's volume is the most it may hold,
// whatever volume was given; where its level is given, that says what is in it. The
// sound's power goes to degassing, its measurement and holding: heating up is
// done with the sound off.
func Fill(calculator string, t Tank, s Shop, given map[string]string) map[string]string {
	filled := maps.Clone(given)
	if filled == nil {
		filled = make(map[string]string)
	}
	c, ok := Named(calculator)
	if !ok {
		return filled
	}
	known := map[string]string{
		"volume": t.Volume, "length": t.Length, "width": t.Width, "depth": t.Depth,
		"heater": t.Heater, "lid": t.Lid, "insulation": t.Insulation,
		"frequency": t.Frequency, "temperature": t.Temperature, "target": t.Temperature, "bath-temperature": t.Temperature,
		"strength": t.Strength, "bath-strength": t.Strength, "density": t.Density, "ceiling": t.Ceiling, "flash-point": t.FlashPoint,
		"freeboard": t.Freeboard, "flow": t.Flow, "stages": t.Stages, "conductivity": t.Conductivity,
		"start": s.WaterTemperature, "air": s.Air, "humidity": s.Humidity, "altitude": s.Altitude, "price": s.EnergyPrice,
		"part-temperature": s.Air,
	}
	filling := calculator == "dilution" || calculator == "top-up" || calculator == "titration"
	switch calculator {
	case "dilution", "top-up", "titration":
		known["tank-capacity"] = t.Volume
		if strings.TrimSpace(given["below-mark"]) != "" { // the level says what is in the tank
			delete(known, "volume")
		}
	case "degas":
		known["ultrasonic-power"] = t.UltrasonicPower
		delete(known, "target")
	case "holding":
		known["ultrasonic-power"], known["duty"], known["cooling"] = t.UltrasonicPower, t.Duty, t.Cooling
	case "power":
		known["electrical-power"] = t.UltrasonicPower
		delete(known, "temperature")
	case "hardness":
		known["hardness"] = s.Hardness
	case "spotting":
		if t.Conductivity == "" {
			known["dissolved-solids"] = s.DissolvedSolids
		}
	case "scale":
		known["ph"], known["sample-temperature"], known["alkalinity"], known["dissolved-solids"] = s.PH, s.WaterTemperature, s.Alkalinity, s.DissolvedSolids
		if strings.TrimSpace(given["calcium"]) == "" {
			known["hardness"] = s.Hardness
		}
		if strings.TrimSpace(given["ph"]) != "" { // whoever gives a pH knows how warm it was
			delete(known, "sample-temperature")
		}
		if s.DissolvedSolids == "" {
			known["dissolved-solids"] = s.WaterConductivity
		}
	case "bath-life":
		known["drag-out"] = t.DragOut
	case "rinse":
		rinseFrom(known, t, s)
	case "drying":
		known["air"], known["room"] = s.Dryer, s.Air
		delete(known, "flow")
	}
	has := func(name string) bool { return strings.TrimSpace(given[name]) != "" }
	switch {
	case has("volume") && !filling:
		for _, name := range []string{"length", "width", "depth", "freeboard"} {
			delete(known, name)
		}
	case has("length") && has("width") && has("depth"):
		delete(known, "volume")
	}
	for _, group := range [][2][]string{ // of spotting and hardness
		{{"dissolved-solids"}, {"hardness", "conductivity"}},
		{{"hardness"}, {"dissolved-solids", "conductivity"}},
		{{"conductivity"}, {"dissolved-solids", "hardness"}},
	} {
		if has(group[0][0]) && calculator != "scale" {
			for _, name := range group[1] {
				delete(known, name)
			}
		}
	}
	for name, text := range known {
		if text != "" && c.index(name) >= 0 && !has(name) {
			filled[name] = text
		}
	}
	return filled
}

// rinseFrom tells what the rinse calculator wants to know: of a rinse tank what is fed to it, of a wash its bath, and the first rinses that its
// parts go through, in their order. A later rinse into which no water runs is left out.
func rinseFrom(known map[string]string, t Tank, s Shop) {
	rinses := []Tank{t}
	if len(t.Rinses) > 0 {
		rinses = t.Rinses
		known["drag-out"], known["bath-ph"], known["bath-ph-to"], known["bath-alkalinity"], known["bath-acidity"], known["alkali"] = t.DragOut, t.PH, t.PHTo, t.Alkalinity, t.Acidity, t.Alkali
		known["other-ways"] = t.OtherWays
	} else {
		delete(known, "bath-temperature")
	}
	known["volume"], known["temperature"], known["water-temperature"] = rinses[0].Volume, rinses[0].Temperature, s.WaterTemperature
	n := 0
	for i, r := range rinses {
		if r.Flow == "" && i+1 < len(rinses) && rinses[i+1].RunsOn == "yes" {
			r.Flow = "0 L/min" // it has none of its own
		}
		if n == len(basins) || r.Flow == "" && i > 0 {
			continue
		}
		b := &basins[n]
		known[b.flow], known[b.stages], known[b.ph], known[b.alkalinity] = r.Flow, r.Stages, r.WaterPH, r.WaterAlkalinity
		if i > 0 && i == n {
			known[b.runsOn] = r.RunsOn
		}
		n++
	}
}

// Heat is how hot a tank gets.
type Heat struct {
	Highest float64 // °C, where the losses equal the heater; likely
	Least   float64 // °C, if the losses are at the high end of what is likely
	Most    float64 // °C, if they are at the low end
	Boils   bool    // Highest is a kelvin below boiling, and the heater goes beyond

	sum sum
}

// HeatOf works out how hot a tank with a heater gets, sound off. It wants the
// tank's volume, or length, width and depth, and its heater. The error is an
// [Errors].
func HeatOf(t Tank, s Shop) (Heat, error) {
	values := Fill("heat-up", t, s, map[string]string{"start": "1 °C", "target": "60 °C"})
	h := Heat{sum: sum{calculator: &heatUp, values: make([]value, len(heatUp.Inputs)), answer: Answer{Calculator: &heatUp, System: quantity.SI}}}
	h.sum.read(values)
	if len(h.sum.errs) > 0 {
		return Heat{}, h.sum.errs
	}
	v := h.sum.vessel()
	h.Highest, h.Boils = v.Highest()
	slow, fast := h.sum.band(v, h.Highest)
	h.Least, _ = slow.Highest()
	h.Most, _ = fast.Highest()
	return h, nil
}
