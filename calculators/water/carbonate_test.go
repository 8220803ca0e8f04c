package water

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestDissociation against the textbooks' table of pK1, pK2 and pKw (after Larson and Buswell 1942, from memory), which is given to two digits.
func TestDissociation(t *testing.T) {
	for _, c := range []struct{ t, pk1, pk2, pkw float64 }{
		{5, 6.52, 10.56, 14.73}, {10, 6.46, 10.49, 14.53}, {15, 6.42, 10.43, 14.34}, {20, 6.38, 10.38, 14.17}, {25, 6.35, 10.33, 14.00}, {40, 6.30, 10.22, 13.53}, {50, 6.28, 10.17, 13.26},
	} {
		k1, k2, kw := Dissociation(c.t)
		for i, pair := range [][2]float64{{3 - math.Log10(k1), c.pk1}, {3 - math.Log10(k2), c.pk2}, {6 - math.Log10(kw), c.pkw}} {
			if math.Abs(pair[0]-pair[1]) > 0.025 {
				t.Errorf("at %g °C constant %d is %.3f, want %.2f", c.t, i, pair[0], pair[1])
			}
		}
	}
}

// TestKnownSolutions at 25 °C, closed.
func TestKnownSolutions(t *testing.T) {
	for _, c := range []struct {
		source             string
		alkalinity, carbon float64 // mol/m³
		want, within       float64
	}{
		{"D. A. Reckhow, CEE 680 Water Chemistry, University of Massachusetts, homework 5 (2011), solution 1a: 5e-4 NaOH", 0.5, 0, 10.7, 0.05},
		{"the same, 1b: 5e-5 Na2CO3, read off a diagram", 0.1, 0.05, 9.7, 0.1},
		{"the same, 1c: 5e-5 KHCO3", 0.05, 0.05, 8.0, 0.1},
		{"the same, 1d: 1e-3 HCl", -1, 0, 3, 0.01},
		{"PHREEQC by way of phreeqpython: 1 mmol/L NaHCO3, pH 8.27", 1, 1, 8.27, 0.06},
		{"pure water", 0, 0, 7, 0.01},
		{"water in air, any textbook: pH 5.6", 0, inAir, 5.6, 0.05},
	} {
		if got := (Solution{Alkalinity: c.alkalinity, Carbon: c.carbon}).PH(25); math.Abs(got-c.want) > c.within {
			t.Errorf("%s: pH %.3f, want %.2f", c.source, got, c.want)
		}
	}
}

// TestTitrationCurve: PHREEQC runs (phreeqc.dat, 25 °C): acid to pH 8.3 and 4.5 in mmol/kg of water. What is left of the alkalinity there is
// what our balance says; without activity coefficients within 1 % of the whole.
func TestTitrationCurve(t *testing.T) {
	for _, c := range []struct{ alkalinity, carbon, toP, toT float64 }{{90, 20, 69.82, 89.67}, {40, 20, 19.88, 39.70}} {
		for ph, acid := range map[float64]float64{8.3: c.toP, 4.5: c.toT} {
			k1, k2, kw := Dissociation(25)
			h := hydrogen(ph)
			if got := c.alkalinity - (c.carbon*charge(h, k1, k2) + kw/h - h); math.Abs(got-acid) > 0.01*c.alkalinity {
				t.Errorf("%g and %g: to pH %g it takes %.2f, PHREEQC says %.2f", c.alkalinity, c.carbon, ph, got, acid)
			}
		}
	}
}

// TestThereAndBack: pH and alkalinity to carbon to pH; a bath has the pH that it was made from; and a mixture lies between what was mixed.
func TestThereAndBack(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	between := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	for range 2000 {
		temperature, ph := between(0, 90), between(5, 11.5)
		alkalinity := between(0, 50) + Hydroxide(temperature, ph) // never less than its hydroxide
		feed := Natural(temperature, ph, alkalinity)
		if got := feed[0].PH(temperature); math.Abs(got-ph) > 1e-6 {
			t.Fatalf("pH %g, alkalinity %g at %g °C comes back as %g", ph, alkalinity, temperature, got)
		}
		low := between(8, 11)
		high := between(low, 12)
		strong, acidity, share := between(0, 500)+Hydroxide(reference, high), between(1100, 3000), between(0, 1)
		for _, bath := range []Liquid{Alkaline(low, high, strong, false), Alkaline(low, high, strong, true), Acidic(low-8, high-8, acidity)} {
			want := [2]float64{low, high}
			if bath[0].Alkalinity < 0 {
				want = [2]float64{low - 8, high - 8}
			}
			l, h := Bounds(reference, []Part{{1, bath}})
			if math.Abs(l-want[0]) > 1e-6 && bath[0].Alkalinity < 0 || l > want[0]+1e-6 || math.Abs(h-want[1]) > 1e-6 {
				t.Fatalf("a bath of pH %v has %g to %g", want, l, h)
			}
			water := feed[0].PH(reference)
			a, z := Bounds(reference, []Part{{1 - share, feed}, {share, bath}})
			if a > z+1e-9 || a < math.Min(l, water)-1e-6 || z > math.Max(h, water)+1e-6 {
				t.Fatalf("pH %g mixed with a bath of %g to %g: %g to %g", water, l, h, a, z)
			}
		}
	}
}

// TestAnotherBufferLiesWithin: whatever single weak base or acid a bath is made with, mixed into water it stays within the bounds of a bath of
// which only pH and titration are known.
func TestAnotherBufferLiesWithin(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	between := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	k1, k2, kw := Dissociation(25)
	for i := range 4000 {
		share, feed := math.Pow(10, between(-3, -0.5)), Natural(25, between(6.5, 8.3), between(0.5, 6))
		ph, pka := between(9, 12), between(5, 13)
		fraction := func(p float64) float64 { return 1 / (1 + math.Pow(10, pka-p)) } // without its proton
		bath := Alkaline(ph, ph, 200+Hydroxide(25, ph), false)
		total, alkalinity := 200/fraction(ph), 200+Hydroxide(25, ph)
		if i%2 == 0 { // an acid, of which 200 mol/m³ are left to pH 8.3 and some are neutralised
			ph, pka = between(1.5, 5.5), between(0, 6)
			left := 1 - fraction(ph)
			total = 200 / left
			bath = Acidic(ph, ph, 200+Acid(ph))
			alkalinity = total*fraction(ph) - Acid(ph)
		}
		// The balance by hand, of carbonate and this one buffer.
		mixed := (1-share)*feed[0].Alkalinity + share*alkalinity
		low, high := 0., 15.
		for range 60 {
			p := (low + high) / 2
			h := hydrogen(p)
			if (1-share)*feed[0].Carbon*charge(h, k1, k2)+kw/h-h+share*total*fraction(p) < mixed {
				low = p
			} else {
				high = p
			}
		}
		l, h := Bounds(25, []Part{{1 - share, feed}, {share, bath}})
		if low < l-0.01 || low > h+0.01 {
			t.Fatalf("a bath of pH %g with pKa %g brings the rinse to %g, the bounds are %g and %g", ph, pka, low, l, h)
		}
	}
}

// TestPhosphateLiesWithin: a bath of carbonate, of phosphate (pK 2.15, 7.20, 12.35) or of half of each, mixed into water stays within the bounds of
// one that is known to be of that sort. The balance is written out here by itself.
func TestPhosphateLiesWithin(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	between := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	k1, k2, kw := Dissociation(25)
	charges := func(h float64) float64 { // of a mole of phosphate, beyond the one that it keeps at pH 4.5
		a, b, c := math.Pow(10, 3-2.15), math.Pow(10, 3-7.20), math.Pow(10, 3-12.35)
		return (a*h*h+2*a*b*h+3*a*b*c)/(h*h*h+a*h*h+a*b*h+a*b*c) - 1
	}
	for range 1000 {
		ph, share, feed := between(8.5, 12.5), math.Pow(10, between(-3, -1)), Natural(25, between(6.5, 8.3), between(0.5, 6))
		h := hydrogen(ph)
		held, part := 200., float64(r.IntN(3))/2 // of it phosphate: none, half, all
		phosphate, carbon := part*held/charges(h), (1-part)*held/charge(h, k1, k2)
		alkalinity := held + kw/h - h
		mixed := (1-share)*feed[0].Alkalinity + share*alkalinity
		low, high := 0., 15.
		for range 60 {
			p := (low + high) / 2
			h := hydrogen(p)
			if ((1-share)*feed[0].Carbon+share*carbon)*charge(h, k1, k2)+share*phosphate*charges(h)+kw/h-h < mixed {
				low = p
			} else {
				high = p
			}
		}
		if least, most := Bounds(25, []Part{{1 - share, feed}, {share, Alkaline(ph, ph, alkalinity, true)}}); low < least-1e-6 || low > most+1e-6 {
			t.Fatalf("a bath of pH %g with %g of phosphate brings the rinse to %g, the bounds are %g and %g", ph, part, low, least, most)
		}
	}
}
