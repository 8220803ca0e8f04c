package asked

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// What stands in the search field is read as the grammar says, in every way that it can be read, or not at all.
func TestRead(t *testing.T) {
	for text, want := range map[string]string{
		"brass in wash 1":                        "load//wash-1/brass",
		"Can I put brass in Wash 1?":             "load//wash-1/brass",
		"brass wash1":                            "load//wash-1/brass",
		"magnesium and brass with wax in wash 1": "load/wax/wash-1/magnesium/brass",
		"brass, rust, wash 2":                    "load/heavy-rust-and-scale/wash-2/brass load/light-rust/wash-2/brass ask/which",
		"housing in wash 1":                      "load//wash-1/aluminium-cast ask/taken",
		"zinc wash 2":                            "load//wash-2/conversion-coated load//wash-2/zinc-and-galvanised ask/which",
		"magnesium citric acid":                  "load//citric-descaler/magnesium ask/taken",
		"brass not in wash 1":                    "",
		"brass or copper in wash 1":              "",
		"brass after wash 1":                     "",
		"brass fittings in wash 1":               "",
		"brass wash 1 wash 2":                    "",
		"spots on brass":                         "",
		"wash 2":                                 "",
		"white spots":                            "",
		"":                                       "",

		"140 F in C":                   "same/140 °F/60 °C",
		"what is 140 F in C":           "same/140 °F/60 °C",
		"60 °C = °F":                   "same/60 °C/140 °F",
		"how many litres in 5 US gal":  "same/5 US gal/18.9 L",
		"0.5 gal in L":                 "ask/gallon same/0.5 US gal/1.89 L same/0.5 imp gal/2.27 L",
		"2 L in gal":                   "ask/gallon same/2 L/0.528 US gal same/2 L/0.44 imp gal",
		"2 L in US gal":                "same/2 L/0.528 US gal",
		"3 gal in qt":                  "ask/gallon same/3 US gal/12 US qt same/3 imp gal/12 imp qt",
		"5 oz in mL":                   "ask/ounce",
		"5 oz in g":                    "same/5 oz/141.7 g",
		"°dH 12 in ppm":                "same/12 °dH/214 mg/L",
		"5 in in mm":                   "same/5 in/127 mm",
		"1:40 in %":                    "same/1:40/2.44 % v/v",
		"5 K in F":                     "ask/kelvin",
		"4 % in g/L":                   "",
		"1,5 L in US gal":              "",
		"60 C":                         "",
		"20 min":                       "",
		"60 L at 1:40":                 "sum//dilution/volume/60 L/strength/1:40",
		"40 g/L 60 L":                  "sum//dilution/volume/60 L/strength/40 g/L",
		"3 % of 60 L":                  "ask/percent sum//dilution/volume/60 L/strength/3 % v/v sum//dilution/volume/60 L/strength/3 % w/w sum//dilution/volume/60 L/strength/3 % w/v",
		"10 gal at 1:40":               "ask/gallon sum//dilution/volume/10 US gal/strength/1:40 sum//dilution/volume/10 imp gal/strength/1:40",
		"8 oz/gal 60 L":                "says/ounces by weight or fluid ounces? Say which: wt oz/US gal, fl oz/US gal, wt oz/imp gal, imp fl oz/imp gal",
		"wash 1 3 % v/v":               "sum//dilution/volume/120 L/density/1.08 kg/L/strength/3 % v/v",
		"120 L 12 to 62":               "ask/heater sum/Wash 1/heat-up/heater/6 kW/lid/yes/volume/120 L/start/12 °C/target/62 °C",
		"500 L 12 to 62":               "ask/heater",
		"heat 60 L to 62 from 12 3 kW": "sum//heat-up/volume/60 L/start/12 °C/target/62 °C/heater/3 kW",
		"10 US gal 60–140 6 kW":        "sum//heat-up/volume/10 US gal/start/60 °F/target/140 °F/heater/6 kW",
		"10 US gal 60 to 140":          "ask/heater sum/Wash 1/heat-up/heater/6 kW/lid/yes/volume/10 US gal/start/60 °F/target/140 °F",
		"wash 1 12 to 62":              "sum//heat-up/volume/120 L/heater/6 kW/lid/yes/start/12 °C/target/62 °C",
		"60 L":                         "",
		"60 L 40 L 3 % v/v":            "",
		"60 L at 1:40 tomorrow":        "",
	} {
		got := strings.ReplaceAll(strings.ReplaceAll(strings.Join(read(t, text), " "), between, "/"), "\u00a0", " ")
		if got != want {
			t.Errorf("%q is read as\n%s\nnot as\n%s", text, got, want)
		}
	}
}

// A verdict comes from the decision, and one that says no or has a hazard has its signal word.
func TestTell(t *testing.T) {
	d, err := demo()
	if err != nil {
		t.Fatal(err)
	}
	r := d.names.Tell(d.sheet, "brass in wash 1", 0)
	if len(r.Answers) != 1 || r.Answers[0].Verdict != "no" || r.Answers[0].Signal == "" || r.Answers[0].Path != "may-it-go-in.html#material=brass&bath=wash-1" {
		t.Errorf("%+v", r)
	}
	if r = d.names.Tell(d.sheet, "150 % v/v of 60 L", 0); len(r.Answers) != 1 || !strings.Contains(strings.Join(r.Answers[0].Lines, ""), "outside what is accepted") {
		t.Errorf("%+v", r)
	}
}

// No text makes the reader panic, and what it reads can be taken apart again.
func FuzzRead(f *testing.F) {
	for _, text := range []string{"brass in wash 1", "120 l 4 % 12 to 62", "°dH 12 in ppm", "how many gal in 3 L", "8 oz/gal 60 L", "- to - in =", "wash 1 wash 1", "1 in in", "\x1e\x1f", "é in °"} {
		f.Add(text)
	}
	d, err := demo()
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text string) {
		out := d.names.Read(nil, text)
		if utf8.ValidString(text) && !utf8.ValidString(out) {
			t.Errorf("%q gives %q", text, out)
		}
		d.names.Tell(d.sheet, text, 1)
	})
}

// Whatever a page hands over as names, a question is read and answered by them; what has no such name has no tank.
func FuzzUnpack(f *testing.F) {
	d, err := demo()
	if err != nil {
		f.Fatal(err)
	}
	for _, packed := range []string{"", "\x1e", "\nbrass\x1fmbrass\n", "\nwash 1\x1ftwash-1\n\x1ewash-1\x1eWash 1\x1e120 L", "\n\x1f~\n\x1e\x1e\x1e\x1e\x1e\x1e\x1e", "\xff\n\xff\x1f\xff"} {
		f.Add(packed, "brass in wash 1 at 3 %")
	}
	f.Fuzz(func(t *testing.T, packed, text string) {
		n := Unpack(packed)
		n.Read(nil, text)
		n.Tell(d.sheet, text, 1)
	})
}
