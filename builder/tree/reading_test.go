package tree

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"tankside/builder/manual"
)

func section(heading, text string, answers ...string) *manual.Section {
	s := &manual.Section{Level: 2, Heading: heading, Text: text}
	for _, a := range answers {
		s.Answers = append(s.Answers, manual.Answer{Text: a})
	}
	return s
}

// A number picks the answer that states it, none where none does, and never two.
func TestReadings(t *testing.T) {
	for _, c := range []struct {
		name    string
		heading string
		answers []string
		want    string         // unit, of
		picks   map[string]int // number → answer; −1 for none
	}{
		{"over and or less", "Feed?", []string{"Over 10 µS/cm", "10 µS/cm or less", "I can't measure it"}, "µS/cm|", map[string]int{"10.01": 0, "10": 1, "0": 1}},
		{"pH in words around it", "Does wet pH paper show 9 or more?", []string{"9 or more: dried cleaner", "6 to 8.5", "5 or less: dried acid", "I have no pH paper"}, "pH|", map[string]int{"9": 0, "8.7": -1, "8.5": 1, "6": 1, "5.5": -1, "5": 2}},
		{"further conditions", "Hot?", []string{"Above 75 °C", "Below 35 °C, or still climbing", "35–75 °C and steady"}, "°C|", map[string]int{"76": 0, "75": 2, "34.9": 1}},
		{"what it is of", "Level?", []string{"More than 3 mm in 8 h", "3 mm or less"}, "mm|in 8 h", map[string]int{"3": 1, "3.1": 0}},
		{"a difference", "Sensor?", []string{"No, more than 3 °C apart", "Yes, within 3 °C"}, "°C|apart", map[string]int{"3": 1, "4": 0}},
		{"plain numbers", "How deep?", []string{"Less than 3", "3 to 8", "More than 8"}, "|", map[string]int{"2.9": 0, "3": 1, "8": 1, "9": 2}},
		{"two overlap", "?", []string{"Over 10 °C", "Over 20 °C"}, "none", nil},
		{"touching ends of both", "?", []string{"10 °C or more", "10 °C or less"}, "none", nil},
		{"two units", "?", []string{"Over 10 °C", "3 mm or less"}, "none", nil},
		{"one alone", "?", []string{"Over 10 °C", "It is cold"}, "none", nil},
		{"numbers that are no limits", "?", []string{"Wash 1", "2 of 5 parts", "10× lens shows a crust"}, "none", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := ReadingOf(section(c.heading, "", c.answers...))
			got := "none"
			if r != nil {
				got = r.Unit + "|" + r.Of
			}
			if got != c.want {
				t.Fatalf("got %q, want %q", got, c.want)
			}
			for number, want := range c.picks {
				var v float64
				if _, err := fmt.Sscan(number, &v); err != nil {
					t.Fatal(err)
				}
				picked := -1
				for _, p := range r.Picks {
					if p.Contains(v) {
						picked = p.Answer
					}
				}
				if picked != want {
					t.Errorf("%s picks answer %d, want %d", number, picked, want)
				}
			}
		})
	}
	alone := ReadingOf(section("pH?", "", "Below 9, or acid came before", "9 or more: salt", "7 °C"))
	if alone == nil || !alone.Picks[0].Alone || !alone.Picks[1].Alone {
		t.Error("“or …” and an explanation ask for nothing besides the number")
	}
	steady := ReadingOf(section("Hot?", "", "Above 75 °C", "35–75 °C and steady"))
	if steady == nil || steady.Picks[1].Alone || !steady.Picks[0].Alone {
		t.Error("“and steady” asks for more than the number")
	}
}

// No number picks two answers of any step of the demo manual, and those steps that ask for a number do.
func TestReadingsOfTheDemo(t *testing.T) {
	m, _, err := manual.Read(t.Context(), os.DirFS("../../content"))
	if err != nil {
		t.Fatal(err)
	}
	asked := 0
	for _, a := range m.Articles {
		for i := range a.Sections {
			s := &a.Sections[i]
			r := ReadingOf(s)
			if r == nil {
				continue
			}
			asked++
			t.Logf("%s: %s: %s %s", strings.TrimSuffix(a.Path, ".md"), s.Heading, r.Unit, r.Of)
			for v := -5.; v < 130; v += 0.25 {
				n := 0
				for _, p := range r.Picks {
					if p.Contains(v) {
						n++
					}
				}
				if n > 1 {
					t.Errorf("%s: %g picks %d answers", s.Heading, v, n)
				}
			}
			for _, p := range r.Picks {
				if p.Low > p.High || math.IsNaN(p.Low) {
					t.Errorf("%s: %v", s.Heading, p)
				}
			}
		}
	}
	if asked < 10 {
		t.Errorf("%d steps ask for a number", asked)
	}
}
