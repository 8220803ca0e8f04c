package admit

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"tankside/calculators/language"
	"tankside/calculators/quantity"
)

func at(x float64) *float64 { return &x }

func today(text string, kind quantity.Kind) quantity.Range {
	r, err := quantity.ParseRange(text, kind)
	if err != nil {
		panic(err)
	}
	return r
}

// table is a bath, three materials and two soils, made up so that each question has its own answer.
func table() *Table {
	limit := func(what What, kind quantity.Kind, unit string, low, high *float64, asks, article string) Limit {
		return Limit{What: what, Kind: kind, Unit: unit, Low: low, High: high, Asks: Say(asks), Place: Place{article, 1}, Rule: "rule-" + string(what)}
	}
	return &Table{
		System: "SI",
		Baths: []Bath{{
			Name: "wash-1", Title: "Wash 1", Tank: true, Chemistry: "Alkaline cleaner", Path: "c.md", Today: map[What]quantity.Range{Temperature: today("62 °C", quantity.Temperature), Strength: today("4 % v/v", quantity.VolumeFraction)},
			Limits: []Limit{
				limit(PH, quantity.PH, "", at(9), at(11), "the bath is pH 9–11", "c.md"),
				limit(Temperature, quantity.Temperature, "°C", at(50), at(70), "the window of the cleaner is 50–70 °C", "c.md"),
				limit(Strength, quantity.VolumeFraction, "% v/v", at(0.02), at(0.10), "the window of the cleaner is 2–10 % v/v", "c.md"),
				limit(Frequency, quantity.Frequency, "kHz", at(40e3), at(40e3), "the frequency of Wash 1 is 40 kHz", "shop.yaml"),
			},
			Materials: map[string][]Reason{"zinc": {{Verdict: No, Says: Say("Dissolves zinc.")}}},
			Soils: map[string]Lift{
				"oil": {Limits: []Limit{limit(Temperature, quantity.Temperature, "°C", at(55), at(65), "the window to lift oil is 55–65 °C", "oil.md")}},
				"wax": {Limits: []Limit{
					limit(Temperature, quantity.Temperature, "°C", at(65), nil, "the window to lift wax is ≥ 65 °C", "wax.md"),
					limit(Strength, quantity.VolumeFraction, "% v/v", at(0.06), at(0.08), "the window to lift wax is 6–8 % v/v", "wax.md"),
				}},
			},
		}, {Name: "acid", Title: "Acid", Chemistry: "Acid", Soils: map[string]Lift{"rust": {}}, Materials: map[string][]Reason{}}},
		Materials: []Item{
			{Name: "steel", Title: "Steel", Limits: []Limit{limit(PH, quantity.PH, "", at(9), at(13.5), "the limit of steel is pH 9–13.5", "steel.md")}},
			{Name: "bronze", Title: "Bronze", Limits: []Limit{
				limit(PH, quantity.PH, "", at(6), at(10), "the limit of bronze is pH 6–10", "bronze.md"),
				limit(Temperature, quantity.Temperature, "°C", nil, at(55), "the limit of bronze is ≤ 55 °C", "bronze.md"),
			}},
			{Name: "brass", Title: "Brass", Limits: []Limit{limit(PH, quantity.PH, "", at(6), at(9.5), "the limit of brass is pH 6–9.5", "brass.md")}},
			{Name: "lens", Title: "Lens", Limits: []Limit{limit(Frequency, quantity.Frequency, "kHz", at(120e3), at(170e3), "the limit of a lens is 120–170 kHz", "lens.md")}},
			{Name: "zinc", Title: "Zinc"},
		},
		Soils:       []Item{{Name: "oil", Title: "Oil"}, {Name: "wax", Title: "Wax"}, {Name: "rust", Title: "Rust", Path: "rust.md"}, {Name: "flux", Title: "Flux", Path: "flux.md"}},
		Pairs:       []Pair{{A: "zinc", B: "steel", Reason: Reason{Verdict: No, Says: Say("Not together.")}}},
		SoilReasons: map[string][]Reason{"flux": {{Verdict: No, Says: Say("May hold lead.")}}},
	}
}

func TestAnswers(t *testing.T) {
	for name, c := range map[string]struct {
		q       Question
		verdict Verdict
		says    []string
		recipe  string
	}{
		"all well":              {Question{[]string{"steel"}, "oil", "wash-1"}, Yes, []string{"stays within what steel can stand: pH"}, "pH 9–11, 2–10 % v/v, 55–65 °C, 40 kHz"},
		"cooler":                {Question{[]string{"bronze"}, "", "wash-1"}, Conditions, []string{"Keep the pH at 9–10: the limit of bronze", "Set Wash 1 to 50–55 °C for this load; today it has 62 °C, but the limit of bronze is ≤ 55 °C."}, "pH 9–10, 2–10 % v/v, 50–55 °C, 40 kHz"},
		"hotter and stronger":   {Question{[]string{"steel"}, "wax", "wash-1"}, Conditions, []string{"Set Wash 1 to 65–70 °C", "Bring Wash 1 to 6–8 % v/v for this load; today it has 4 % v/v, but the window to lift wax is 6–8 % v/v."}, "pH 9–11, 6–8 % v/v, 65–70 °C, 40 kHz"},
		"weakest of two":        {Question{[]string{"steel", "bronze"}, "oil", "wash-1"}, Conditions, []string{"Set Wash 1 to 55 °C"}, "pH 9–10, 2–10 % v/v, 55 °C, 40 kHz"},
		"no temperature left":   {Question{[]string{"bronze"}, "wax", "wash-1"}, No, []string{"The window to lift wax is ≥ 65 °C, but the limit of bronze is ≤ 55 °C."}, ""},
		"mostly out of pH":      {Question{[]string{"brass"}, "", "wash-1"}, No, []string{"The bath is pH 9–11, but the limit of brass is pH 6–9.5."}, ""},
		"frequency is fixed":    {Question{[]string{"lens"}, "", "wash-1"}, No, []string{"The limit of a lens is 120–170 kHz, but the frequency of Wash 1 is 40 kHz."}, ""},
		"excluded":              {Question{[]string{"zinc"}, "", "wash-1"}, No, []string{"Dissolves zinc."}, ""},
		"not beside each other": {Question{[]string{"steel", "zinc"}, "", "acid"}, No, []string{"Not together."}, ""},
		"not lifted":            {Question{[]string{"steel"}, "rust", "wash-1"}, No, []string{"Alkaline cleaner does not lift rust; these do: acid."}, ""},
		"needs clearance":       {Question{[]string{"steel"}, "flux", "wash-1"}, No, []string{"May hold lead.", "does not lift flux."}, ""},
	} {
		a, err := table().Answer(c.q)
		if err != nil || a.Verdict != c.verdict {
			t.Errorf("%s: %v, %v, want %v: %+v", name, a.Verdict, err, c.verdict, a.Reasons)
			continue
		}
		for _, want := range c.says {
			found := false
			for _, r := range a.Reasons {
				found = found || strings.Contains(strings.ReplaceAll(r.Text, "\u00a0", " "), want)
				if a.Verdict == No && r.Verdict != No {
					t.Errorf("%s: a reason for %s in a no: %s", name, r.Verdict, r.Text)
				}
			}
			if !found {
				t.Errorf("%s: nothing says %q: %+v", name, want, a.Reasons)
			}
		}
		var recipe []string
		if a.Recipe != nil {
			for _, s := range a.Recipe.Spans {
				text := strings.ReplaceAll(s.Text, "\u00a0", " ")
				if s.What == PH {
					text = "pH " + text
				}
				recipe = append(recipe, text)
			}
		}
		if got := strings.Join(recipe, ", "); got != c.recipe {
			t.Errorf("%s: recipe %q, want %q", name, got, c.recipe)
		}
	}
}

func TestUnknownNames(t *testing.T) {
	for _, q := range []Question{{[]string{"wood"}, "", "wash-1"}, {[]string{"steel"}, "mud", "wash-1"}, {[]string{"steel"}, "", "wash-9"}} {
		var unknown *UnknownError
		if _, err := table().Answer(q); !errors.As(err, &unknown) {
			t.Errorf("%+v: %v", q, err)
		}
	}
}

// The table reaches the page packed: what comes out must answer as what went in, in every language and both families of units.
func TestAnswersAreTheSameThroughPacking(t *testing.T) {
	packed := table().Pack()
	back, err := Unpack(packed)
	if err != nil || string(back.Pack()) != string(packed) {
		t.Fatal("packed again it is not the same", err)
	}
	es := language.Words{"{one asks}, but {another asks}.": "{one asks}, pero {another asks}.", "and": "y"}
	for _, m := range table().Materials {
		for _, s := range []string{"", "oil", "wax", "rust"} {
			for _, b := range []string{"wash-1", "acid"} {
				q := Question{[]string{m.Name, "steel"}, s, b}
				x, err1 := table().Answer(q)
				y, err2 := back.Answer(q)
				one, err3 := json.Marshal(x)
				two, err4 := json.Marshal(y)
				if errors.Join(err1, err2, err3, err4) != nil || string(one) != string(two) {
					t.Errorf("%+v: %s and %s", q, one, two)
				}
				for i := range x.Reasons {
					if a, b := x.Reasons[i].Says.In(es, quantity.US), y.Reasons[i].Says.In(es, quantity.US); a != b {
						t.Errorf("%+v: %s and %s", q, a, b)
					}
				}
			}
		}
	}
}

// A sentence is said in the reader's language and units; what somebody wrote stays as it is.
func TestSentence(t *testing.T) {
	s := Say("the limit of {material} is {limit}, for {what}.", Title("brass"), Amount(today("50–60 °C", quantity.Temperature)), List(Word("time"), Word("heat"), Title("US")))
	es := language.Words{s.Phrase: "el límite de {material} es {limit}, para {what}.", "time": "tiempo", "heat": "calor", "and": "y"}
	for _, c := range []struct {
		w     language.Words
		units quantity.System
		want  string
	}{
		{nil, quantity.SI, "The limit of brass is 50–60 °C, for time, heat and US."},
		{nil, quantity.US, "The limit of brass is 122–140 °F, for time, heat and US."},
		{es, quantity.SI, "El límite de brass es 50–60 °C, para tiempo, calor y US."},
	} {
		if got := strings.ReplaceAll(s.In(c.w, c.units), "\u00a0", " "); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	if got := Say("“{a}”, but {b}.", Clause(Say("óxido")), Clause(Say("x"))).In(nil, quantity.SI); got != "“óxido”, but x." {
		t.Error(got)
	}
	if got := Say("{a}.", Clause(Say("óxido"))).In(nil, quantity.SI); got != "Óxido." {
		t.Error(got)
	}
}

// A stronger limit can only make an answer graver: nothing that is added to a load makes the verdict milder.
func TestMoreMaterialsNeverMakeItMilder(t *testing.T) {
	rank := map[Verdict]int{Yes: 0, Conditions: 1, No: 2}
	tab := table()
	for _, a := range tab.Materials {
		for _, b := range tab.Materials {
			for _, s := range []string{"", "oil", "wax"} {
				one, err1 := tab.Answer(Question{[]string{a.Name}, s, "wash-1"})
				both, err2 := tab.Answer(Question{[]string{a.Name, b.Name}, s, "wash-1"})
				if errors.Join(err1, err2) != nil || rank[both.Verdict] < rank[one.Verdict] {
					t.Errorf("%s: %s; with %s: %s", a.Name, one.Verdict, b.Name, both.Verdict)
				}
			}
		}
	}
}

func TestCautionsComeGravestFirstAndOnce(t *testing.T) {
	tab := table()
	tab.Baths[0].Cautions = []Caution{{Signal: "CAUTION", Text: "Hot."}, {Signal: "DANGER", Text: "Gas."}}
	tab.Baths[0].Protect = []string{"goggles"}
	tab.Materials[0].Cautions = []Caution{{Signal: "WARNING", Text: "Sharp."}, {Signal: "CAUTION", Text: "Hot."}}
	a, err := tab.Answer(Question{[]string{"steel"}, "oil", "wash-1"})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, c := range a.Cautions {
		got = append(got, c.Signal+" "+c.Text)
	}
	if s := strings.Join(got, " "); s != "DANGER Gas. WARNING Sharp. CAUTION Hot." || len(a.Protect) != 1 {
		t.Errorf("%s, %v", s, a.Protect)
	}
}

func TestOtherBathsThatWouldDo(t *testing.T) {
	tab := table()
	list, err := tab.Instead(Question{[]string{"steel"}, "rust", "wash-1"})
	if err != nil || len(list) != 1 || list[0].Bath != "acid" || list[0].Verdict != Yes || list[0].Tank {
		t.Errorf("%+v, %v", list, err)
	}
	if list, err := tab.Instead(Question{[]string{"lens"}, "wax", "acid"}); err != nil || len(list) != 0 {
		t.Errorf("%+v, %v", list, err)
	}
}
