package manual

import (
	"slices"
	"testing"
)

// A mark is no part of what the text says, wherever it stands.
func TestSourceMarks(t *testing.T) {
	for _, c := range []struct {
		name, markdown, text string
		at                   []int // of the marks in the text
		names                []string
	}{
		{"before the full stop", "Bake within 4 h (source: ASTM B850). Then test.", "Bake within 4 h. Then test.", []int{15}, []string{"ASTM B850"}},
		{"behind it", "Bake within 4 h. (source: ASTM B850) Then test.", "Bake within 4 h. Then test.", []int{16}, []string{"ASTM B850"}},
		{"several", "Burns at once (source: CLP;  common   practice).", "Burns at once.", []int{13}, []string{"CLP", "common practice"}},
		{"over the end of a line", "Burns at once (source: CLP Annex VI,\n3.2). Stop.", "Burns at once. Stop.", []int{13}, []string{"CLP Annex VI, 3.2"}},
		{"at the beginning of a line", "Burns at once\n(source: CLP). Stop.", "Burns at once. Stop.", []int{13}, []string{"CLP"}},
		{"brackets within", "Burns (source: 29 CFR 1910.106(a)(19)). Stop.", "Burns. Stop.", []int{5}, []string{"29 CFR 1910.106(a)(19)"}},
		{"in bold and a link", "**Burns (source: CLP)**, see [acid (source: CLP)](a.md).", "Burns, see acid.", []int{5, 15}, []string{"CLP", "CLP"}},
		{"two", "One (source: a) and two (source: b).", "One and two.", []int{3, 11}, []string{"a", "b"}},
		{"no mark", "One (sources: a) and (source a) and \\(source: b).", "One (sources: a) and (source a) and \\(source: b).", nil, nil},
		{"in code", "Write `(source: a)` so.", "Write \ufffc so.", nil, nil},
		{"never closed", "One (source: a", "One (source: a", nil, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			blocks := Blocks([]byte(c.markdown))
			if len(blocks) != 1 {
				t.Fatalf("%d blocks", len(blocks))
			}
			var at []int
			var names []string
			for _, r := range blocks[0].Rests {
				at, names = append(at, r.At), append(names, r.Names...)
			}
			if blocks[0].Text != c.text || !slices.Equal(at, c.at) || !slices.Equal(names, c.names) {
				t.Errorf("got %q, marks at %v of %q", blocks[0].Text, at, names)
			}
			if c.at != nil {
				if got := Plain(Parse([]byte(c.markdown)), []byte(c.markdown)); got != c.text {
					t.Errorf("plainly %q", got)
				}
			}
		})
	}
}

func TestSourcesNamed(t *testing.T) {
	sources := []string{"ASTM B849, pre-treatments", "ASTM B850, post-coating", "hydrogen on hard steel: from memory", "common practice, no source", "from memory"}
	for name, want := range map[string][]int{
		"ASTM B849": {0}, "astm  b850": {1}, "ASTM": {0, 1}, "ASTM B8": nil, "from memory": {4}, "hydrogen": {2}, "post-coating": {1},
		"common practice": {3}, "no source": {3}, "": nil, "ISO 9": nil, "hard steel": {2},
	} {
		if got := SourcesNamed(sources, name); !slices.Equal(got, want) {
			t.Errorf("%q: %v, want %v", name, got, want)
		}
	}
}

func TestStandings(t *testing.T) {
	for source, want := range map[string]Standing{
		"common practice, no source": CommonPractice, "from memory": FromMemory, "ASTM B850, table 1": StandardOrLaw,
		"ASTM B850, from memory": FromMemory, "EU CLP Regulation 1272/2008 Annex VI": StandardOrLaw, "29 CFR 1910.1024": StandardOrLaw,
		"from the supplier's data sheet: check yours": DataSheet, "calculated from reaction equations": Calculated,
		"Metal Finishing Guidebook 2011–12": FromMemory, "Metal Finishing Guidebook 2011–12, metal cleaning: caustic on zinc": Handbook, "measured here 2026-10-05, jug and watch": MeasuredHere, "maker's plate": MeasuredHere,
		"hydrogen: to be confirmed by the safety officer": FromMemory, "Hydrogen, a report with heat in EN and misc": FromMemory, "Ensor, Journal 12 (1994)": FromMemory,
		"ANSI/ISEA Z358.1 (as quoted in a safety journal)": Handbook, "ASTM B850: 8–22 h (table as published by a plater)": Handbook,
		"classes after ISO 16232 (published explanations of test laboratories)": Handbook, "29 CFR 1910.147(d) (text as quoted)": Handbook,
		"guidance for electrical accidents of OSHA, as quoted by a utility": FromMemory, "OSHA fact sheet, hydrogen sulfide": FromMemory, "OSHA fact sheet (2005), hydrogen sulfide": Handbook,
		"NIOSH 86-110 (1986), preventing deaths in confined spaces": Handbook, "NIOSHTIC-2 00237078: 15 degreasers, 0.25 m³/s for each square metre": Handbook, "US EPA, Guidance for mechanics (1986)": Handbook,
		"Directive 2003/10/EC (as tabled by SCENIHR)": Handbook, "UK COSHH Regulations 2002, regulation 9": StandardOrLaw,
		"ASTM F22, as quoted, from memory": FromMemory, "29 CFR 1910.1025, lead, appendix A": StandardOrLaw, "EN ISO 4414, as in force in 2026": StandardOrLaw,
		"corrosion handbooks": FromMemory, "corrosion papers on tungsten carbide with cobalt binder": FromMemory, "trade press on polycarbonate: below 60 °C": FromMemory,
		"a report of 2019": FromMemory, "a handbook for AISI 304 and 316, on chloride in water": FromMemory, "corrosion of steel at 35 HRC: a study": FromMemory,
		"W. J. Tomlinson and I. D. Molyneux, J. Mater. Sci. 26 (1991) 1605, abstract": Handbook, "International Chemical Safety Card 0360, sodium hydroxide: attacks zinc": Handbook,
		"Cobalt in a hard metal plant (PubMed Central PMC5600122): asthma": Handbook, "HTM 01-05, section 15.6, ultrasonic activity test": Handbook,
		"Stokes' law, rise of a drop, calculated for oil": Calculated, "the shop's own settings in shop.yaml": CommonPractice, "accepted by the process engineer: a minute cold": CommonPractice,
		"common practice, no source, to be confirmed by the safety officer": CommonPractice, "our own limit, to be confirmed by the safety officer": CommonPractice,
		"International Titanium Association, fire safety (2012), on NFPA 484: no water": Handbook, "ISO says so": FromMemory, "OSHA": FromMemory, "CLP": FromMemory,
		"IEST-STD-CC1246E, table 2": StandardOrLaw, "MIL-STD-1330D (1996), residues": StandardOrLaw, "UN GHS, chapter 2.6, table 2.6.1": StandardOrLaw, "EU CLP, Annex VI": FromMemory,
	} {
		if got := StandingOf(source); got != want {
			t.Errorf("%q: %d, want %d", source, got, want)
		}
	}
	if got := Weakest([]string{"ASTM B850, table 1", "common practice, no source"}); got != CommonPractice {
		t.Errorf("a standard beside common practice: %d", got)
	}
	if Weakest(nil) != NotSaid {
		t.Error("nothing said")
	}
}
