package quantity

import (
	"strings"
	"testing"
)

// TestOuncesAreNotGuessed: in every spelling, alone and as a range, whatever strengths are welcome, and what is named instead fits the gallon.
func TestOuncesAreNotGuessed(t *testing.T) {
	const american, british = "wt oz/US gal, fl oz/US gal", "wt oz/imp gal, imp fl oz/imp gal"
	for text, ways := range map[string]string{
		"8 oz/gal": american + ", " + british, "8oz/gal": american + ", " + british, "8 OZ/GAL": american + ", " + british, "8 ounces/gallon": american + ", " + british,
		"8 oz per gallon": american + ", " + british, "8 oz./gal.": american + ", " + british, "8 ounces a gallon": american + ", " + british, "8 oz to the gallon": american + ", " + british,
		"8 oz/US gal": american, "8 ounces per US gallon": american, "8 oz/imp gal": british, "8 oz per imperial gallon": british, "8 oz/UK gal": british,
	} {
		for _, kinds := range [][]Kind{{VolumeFraction, MassFraction, MassConcentration}, {VolumeFraction}, {MassConcentration}} {
			if _, err := Parse(text, kinds...); err == nil || !strings.Contains(err.Error(), "by weight or fluid ounces? Say which: "+ways+";") {
				t.Errorf("%q: %v", text, err)
			}
			if _, err := ParseRange("6–"+text, kinds...); err == nil || !strings.Contains(err.Error(), "by weight or fluid ounces?") {
				t.Errorf("6–%q: %v", text, err)
			}
		}
		for _, way := range strings.Split(ways, ", ") { // each remedy is read
			if _, err := Parse("8 "+way, VolumeFraction, MassConcentration); err != nil {
				t.Errorf("the remedy %q: %v", way, err)
			}
		}
	}
	for _, text := range []string{"6 imp fl oz/gal", "6 US fl oz/gal", "6 UK fl oz per gallon"} {
		if _, err := Parse(text, VolumeFraction); err == nil || !strings.Contains(err.Error(), "in which gallon? Say which: fl oz/US gal, imp fl oz/imp gal") {
			t.Errorf("%q: %v", text, err)
		}
	}
	if v, err := Parse("5 lb 3 oz", Mass); err != nil || v.SI < 2.35 || v.SI > 2.36 {
		t.Errorf("%v, %v", v, err)
	}
}

// TestOuncesByWeightAndFluidOunces: 8 ounces of 28.349523 g in a US gallon of 3.785412 L are 59.913 g/L, in an imperial one of 4.54609 L 49.888 g/L;
// 6 fluid ounces are 6/128 of a US gallon and 6/160 of an imperial one: NIST Special Publication 811 (2008), appendix B.8.
func TestOuncesByWeightAndFluidOunces(t *testing.T) {
	for text, want := range map[string]float64{
		"8 oz (wt)/gal": 59.913, "8 oz (wt)/US gal": 59.913, "8 wt oz/gal": 59.913, "8 ounces by weight per gallon": 59.913, "8 oz (wt)/imp gal": 49.888, "8 wt oz/imperial gallon": 49.888,
		"6 fl oz/gal": 6. / 128, "6 oz (fl)/gal": 6. / 128, "6 fluid ounces per gallon": 6. / 128, "6 fl oz per US gallon": 6. / 128, "6 fl oz/imp gal": 6. / 160, "6 oz (fl)/imp gal": 6. / 160,
		"6 fl oz per imperial gallon": 6. / 160,
	} {
		if v, err := Parse(text, VolumeFraction, MassFraction, MassConcentration); err != nil || !near(v.SI, want, 1e-4) {
			t.Errorf("%q: %v, %v, want %g", text, v.SI, err, want)
		}
	}
}

// TestGallonsOfWhichNothingIsSaid are marked, and what they may mean is read again, a fifth apart by volume.
func TestGallonsOfWhichNothingIsSaid(t *testing.T) {
	for i := range units {
		u := unitAt(i)
		if !u.american() {
			continue
		}
		v := Value{SI: u.ToSI(30), Kind: u.Kind, Unit: u}
		us, imperial := v.BothGallons()
		a, errA := Parse(us, u.Kind)
		b, errB := Parse(imperial, u.Kind)
		if errA != nil || errB != nil || a.Loose || b.Loose || !b.Unit.Imperial() || a.Unit.Imperial() || !near(a.SI, v.SI, 1e-9) || near(b.SI, v.SI, 0.02) {
			t.Errorf("%s: %q is %v (%v), %q is %v (%v)", u.Symbol, us, a, errA, imperial, b, errB)
		}
	}
	for text, loose := range map[string]bool{
		"30 gal": true, "30 gallons": true, "30 US gal": false, "30 gal US": false, "30 us gallons": false, "30 imp gal": false, "30 imperial gallons": false, "30 L": false, "6 fl oz": true, "6 US fl oz": false, "2 qt": true,
		"1 gpm": true, "1 US gal/min": false, "6 fl oz/gal": true, "6 oz (wt)/gal": true, "6 wt oz/US gal": false, "8 gpg": true, "8 gr/US gal": false, "8 °e": false, "10 W/gal": true, "9 lb/gal": true,
	} {
		v, err := Parse(text, Volume, Flow, VolumeFraction, MassConcentration, Hardness, PowerDensity)
		if err != nil || v.Loose != loose {
			t.Errorf("%q: loose %v, %v", text, v.Loose, err)
		}
	}
}

// TestPartsOfConcentrateAndWater: 1+40 is one part in 41 wherever 1:40 is read.
func TestPartsOfConcentrateAndWater(t *testing.T) {
	for _, text := range []string{"1+40", "1 + 40", "1:40", "2+80", "0.5+20"} {
		if v, err := Parse(text, VolumeFraction, MassFraction, MassConcentration); err != nil || !near(v.SI, 1./41, 1e-12) {
			t.Errorf("%q: %v, %v", text, v.SI, err)
		}
	}
	for _, text := range []string{"1+20–40", "1+20–1+40", "1+40 to 1+20", "1:20–1+40"} {
		if r, err := ParseRange(text, VolumeFraction); err != nil || !near(r.Low, 1./41, 1e-12) || !near(r.High, 1./21, 1e-12) {
			t.Errorf("%q: %v, %v", text, r, err)
		}
	}
	for _, text := range []string{"0+40", "1+-40", "1+"} {
		if v, err := Parse(text, VolumeFraction); err == nil {
			t.Errorf("%q is %v", text, v)
		}
	}
	if _, err := Parse("1+40", Volume); err == nil || !strings.Contains(err.Error(), "a ratio does not fit here") {
		t.Error(err)
	}
}
