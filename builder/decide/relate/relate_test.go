package relate

import (
	"context"
	"os"
	"slices"
	"strings"
	"testing"

	"tankside/builder/decide/admit"
	"tankside/builder/manual"
)

func demo(t testing.TB) *manual.Manual {
	t.Helper()
	m, _, err := manual.Read(context.Background(), os.DirFS("../../../content"))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// What the trade has published, asked of the demo manual. A verdict of "" stands for anything but yes.
func TestPublishedCompatibility(t *testing.T) {
	table := Table(demo(t))
	for _, c := range []struct {
		chemistry, material string
		verdict             admit.Verdict
		rule                string
		source              string
	}{
		{"heavy-duty-caustic", "aluminium-wrought", admit.No, "strong-alkali-on-light-metal", "Metal Finishing Guidebook 2011–12, metal cleaning: no caustic on aluminium"},
		{"heavy-duty-caustic", "zinc-and-galvanised", admit.No, "strong-alkali-on-light-metal", "the same, on zinc and galvanised steel"},
		{"heavy-duty-caustic", "brass", admit.No, "strong-alkali-on-light-metal", "the same, on yellow brass"},
		{"heavy-duty-caustic", "magnesium", "", "", "TM 55-1520-240-23-1: magnesium by itself is cleaned in strong alkali, so there is no exclusion"},
		{"mild-alkaline", "brass", admit.No, "ph-outside-material", "ASM Handbook vol. 5 (1994), emulsion cleaning: brass darkens above about pH 10"},
		{"mild-alkaline", "carbon-steel", admit.Yes, "", "ASM Handbook vol. 5 (1994), alkaline cleaning: steel is cleaned in alkali"},
		{"phosphoric-descaler", "high-strength-steel", admit.No, "acid-on-hard-steel", "ASTM B849 and B850: steels of 1000 MPa or more"},
		{"citric-descaler", "tungsten-carbide", admit.No, "acid-on-reactive-material", "papers on the corrosion of WC-Co: cobalt dissolves fast in dilute acid"},
		{"citric-descaler", "stainless-300", admit.Yes, "", "ASTM A380: citric acid on stainless steel"},
		{"ammoniated-soap", "brass", admit.No, "ammonia-on-copper-alloy", "NACE/AMPP papers: ammonia cracks stressed brass"},
		{"glycol-ether-semi-aqueous", "polycarbonate", admit.No, "solvent-on-plastic", "from memory of resistance tables"},
		{"solvent-emulsion", "sintered-parts", admit.No, "emulsion-in-pores", "ASM Handbook vol. 5 (1994), emulsion cleaning: not on sintered metal"},
		{"silicated-alkaline", "aluminium-wrought", "", "", "MIL-STD-1330D (1996): silicate on aluminium, diluted"},
		{"mild-alkaline", "aluminium-wrought", admit.No, "ph-outside-material", "water-treatment handbooks: aluminium is passive at about pH 4–8.5"},
		{"neutral-detergent", "aluminium-wrought", admit.Conditions, "too-long-for-material", "the same; its time is less than half of the bath's"},
	} {
		answer, err := table.Answer(admit.Question{Materials: []string{c.material}, Bath: c.chemistry})
		if err != nil {
			t.Fatal(err)
		}
		verdict, reasons := answer.Verdict, answer.Reasons
		if c.verdict != "" && verdict != c.verdict || c.verdict == "" && c.material != "magnesium" && verdict == admit.No {
			t.Errorf("%s on %s: %s, want %s (%s): %+v", c.chemistry, c.material, verdict, c.verdict, c.source, reasons)
		}
		if c.rule != "" && !slices.ContainsFunc(reasons, func(r admit.Reason) bool { return string(r.Rule) == c.rule }) {
			t.Errorf("%s on %s: no reason by %s (%s): %+v", c.chemistry, c.material, c.rule, c.source, reasons)
		}
		for _, r := range reasons {
			if r.Article == "" || r.Line == 0 || !strings.HasSuffix(r.Text, ".") {
				t.Errorf("half a reason: %+v", r)
			}
			if c.material == "magnesium" && r.Rule == "strong-alkali-on-light-metal" {
				t.Errorf("%s on %s: %s (%s)", c.chemistry, c.material, r.Text, c.source)
			}
		}
	}
}

// Every reason points at a line that is there.
func TestReasonsPointIntoTheManual(t *testing.T) {
	m := demo(t)
	lines := map[string]int{manual.ShopFile: 1 << 20}
	for _, a := range m.Articles {
		lines[a.Path] = a.Start + strings.Count(string(a.Body), "\n")
	}
	check := func(p admit.Place) {
		if n, there := lines[p.Article]; !there || p.Line < 1 || p.Line > n {
			t.Errorf("%s has no line %d", p.Article, p.Line)
		}
	}
	table := Table(m)
	for _, material := range table.Materials {
		for _, soil := range table.Soils {
			for _, bath := range table.Baths() {
				answer, err := table.Answer(admit.Question{Materials: []string{material.Name}, Soil: soil.Name, Bath: bath.Name})
				if err != nil || (answer.Verdict == admit.No) != (answer.Recipe == nil) {
					t.Fatalf("%s, %s, %s: %+v, %v", material.Name, soil.Name, bath.Name, answer, err)
				}
				for _, r := range answer.Reasons {
					check(r.Place)
					if r.Also != nil {
						check(*r.Also)
					}
				}
			}
		}
	}
}

func TestWhoMustNeverMeet(t *testing.T) {
	m := demo(t)
	enemies := func(a, b string) bool {
		one, other := Chemistry(m.Named(manual.Chemistry, a)), Chemistry(m.Named(manual.Chemistry, b))
		why, at, also := admit.Enmity(&one, &other)
		back, _, _ := admit.Enmity(&other, &one)
		if (why.Phrase == "") != (back.Phrase == "") {
			t.Errorf("%s and %s depend on who comes first", a, b)
		}
		if why.Phrase != "" && (at.Line == 0 || also.Line == 0) {
			t.Errorf("%s and %s: %v, %v", a, b, at, also)
		}
		return why.Phrase != ""
	}
	for _, c := range []struct {
		a, b string
		want bool
	}{
		{"citric-descaler", "mild-alkaline", true}, {"heavy-duty-caustic", "ammoniated-soap", true},
		{"mild-alkaline", "neutral-detergent", false}, {"citric-descaler", "deionised-water", false}, {"citric-descaler", "phosphoric-descaler", false},
	} {
		if got := enemies(c.a, c.b); got != c.want {
			t.Errorf("%s and %s: %v", c.a, c.b, got)
		}
	}
}

func TestUsedBy(t *testing.T) {
	m := demo(t)
	used := UsedBy(m)
	has := func(of, by string) bool {
		return slices.ContainsFunc(used[m.At(of)], func(a *manual.Article) bool { return a.Path == by })
	}
	if !has("materials/brass.md", "parts/gland-nut-brass.md") || !has("chemistries/neutral-detergent.md", "parts/gland-nut-brass.md") {
		t.Error("the part's header is not counted")
	}
	for _, a := range m.Articles {
		if has(a.Path, a.Path) {
			t.Errorf("%s is used by itself", a.Path)
		}
		for i, b := range used[a] {
			if slices.Contains(used[a][:i], b) {
				t.Errorf("%s is used twice by %s", a.Path, b.Path)
			}
			if !slices.Contains(Mentions(m, b), a) {
				t.Errorf("%s is not mentioned by %s", a.Path, b.Path)
			}
		}
	}
}
