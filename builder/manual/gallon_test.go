package manual

import (
	"context"
	"strings"
	"testing"
)

// TestGallonsOfNoCountry: a bare gallon, quart or fluid ounce in the shop file and in a header, alone, as a bound and as an end of a range, is a finding
// with both ways to write it; each of them is read. Where the shop says units: US nothing is open.
func TestGallonsOfNoCountry(t *testing.T) {
	shop := func(volume, more string) string {
		return strings.Replace(smallShop, "volume: 120 L", "volume: "+volume, 1) + more
	}
	for text, want := range map[string]string{
		"32 gal": "Write volume: 32 US gal, or 32 imp gal,", "32 gallons": "Write volume: 32 US gal, or 32 imp gal,", "32 gal.": "Write volume: 32 US gal, or 32 imp gal,", "20 qt": "Write volume: 20 US qt, or 20 imp qt,",
		"400 fl oz": "Write volume: 400 US fl oz, or 400 imp fl oz,", "32 US gal": "", "32 gal US": "", "32 imp gal": "", "32 imperial gallons": "", "120 L": "",
	} {
		for _, units := range []string{"", "units: SI\n", "units: US\n"} {
			fsys := files(map[string]string{"soils/wax.md": soilHead})
			fsys[ShopFile].Data = []byte(shop(text, units))
			m, findings, err := Read(context.Background(), fsys)
			if err != nil {
				t.Fatal(err)
			}
			if units == "units: US\n" || want == "" {
				if len(findings) > 0 || !m.Shop.Tanks[0].Volume.Set {
					t.Errorf("%s, %q: %v", text, units, findings)
				}
				continue
			}
			if len(findings) != 1 || findings[0].Rule != "wrong-quantity" || !strings.Contains(strings.ReplaceAll(findings[0].Remedy, "\u00a0", " "), want) {
				t.Errorf("%s, %q: %v, want %s", text, units, findings, want)
			}
		}
	}
}

// TestGallonsInHeaders: strengths and densities in headers are held to the same, at their own place, and so are both ends of a range.
func TestGallonsInHeaders(t *testing.T) {
	head := strings.Replace(soilHead, "nature: wax", "ph: 9–11\nstrength: STRENGTH\ndensity: DENSITY", 1)
	for _, c := range []struct{ strength, density, at, remedy string }{
		{"6 fl oz/gal", "1.1 kg/L", "10:11", "Write strength: 6 fl oz/US gal, or 6 imp fl oz/imp gal,"},
		{"4–6 fl oz/gal", "1.1 kg/L", "10:11", "Write strength: 4–6 fl oz/US gal, or 4–6 imp fl oz/imp gal,"},
		{"≤ 8 wt oz/gal", "1.1 kg/L", "10:11", "Write strength: ≤ 8 wt oz/US gal, or ≤ 8 wt oz/imp gal,"},
		{"6 fl oz/US gal", "9 lb/gal", "11:10", "Write density: 9 lb/US gal, or 9 lb/imp gal,"},
		{"6 imp fl oz/imp gal", "9 lb/imp gal", "", ""},
		{"8 oz/gal", "1.1 kg/L", "10:13", "by weight"},
	} {
		text := strings.Replace(strings.Replace(head, "STRENGTH", c.strength, 1), "DENSITY", c.density, 1)
		_, findings, err := Read(context.Background(), files(map[string]string{"chemistries/x.md": text}))
		if err != nil {
			t.Fatal(err)
		}
		var found []string
		for _, f := range findings {
			if f.Rule == "wrong-quantity" {
				found = append(found, strings.ReplaceAll(f.Place.String()+" "+f.Message+" "+f.Remedy, "\u00a0", " "))
			}
		}
		switch {
		case c.at == "" && len(found) == 0:
		case len(found) != 1 || !strings.HasPrefix(found[0], "chemistries/x.md:"+c.at) || !strings.Contains(found[0], c.remedy):
			t.Errorf("%s, %s: %q, want %s", c.strength, c.density, found, c.remedy)
		}
	}
}
