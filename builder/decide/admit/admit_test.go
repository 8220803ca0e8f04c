package admit

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/language"
	"tankside/builder/quantity"
)

func limit(text string, kinds ...quantity.Kind) fact.Limit {
	r, err := quantity.ParseRange(text, kinds...)
	if err != nil {
		panic(err)
	}
	return fact.Limit{Range: r, Set: true, At: finding.Place{File: "x.md", Line: 1}}
}

var (
	ph     = func(text string) fact.Limit { return limit(text, quantity.PH) }
	hot    = func(text string) fact.Limit { return limit(text, quantity.Temperature) }
	strong = func(text string) fact.Limit {
		return limit(text, quantity.VolumeFraction, quantity.MassFraction, quantity.MassConcentration)
	}
	long  = func(text string) fact.Limit { return limit(text, quantity.Time) }
	hertz = func(text string) fact.Limit { return limit(text, quantity.Frequency) }
	words = func(list ...string) (refs []fact.Ref) {
		for _, w := range list {
			refs = append(refs, fact.Ref{Name: w, At: finding.Place{File: "x.md", Line: 2}})
		}
		return refs
	}
	a     = func(name, title string) Item { return Item{Name: name, Title: title, Path: name + ".md"} }
	thing = func(name, title string, m fact.Material) Material { return Material{a(name, title), m} }
	by    = func(chemistry string, w fact.Window) []fact.Removal {
		return []fact.Removal{{Chemistry: fact.Ref{Name: chemistry}, Window: w}}
	}
	sounding = fact.Tank{ID: "wash-1", Name: "Wash 1", Chemistry: fact.Ref{Name: "alkali"}, Temperature: hot("62 °C"), Strength: strong("4 % v/v"), Frequency: hertz("40 kHz")}
)

// table is a tank, two chemistries, materials and soils, made up so that each question has its own answer.
func table() *Table {
	stands := func(m fact.Material) fact.Material {
		if !m.PH.Set {
			m.PH = ph("1–14")
		}
		if !m.Temperature.Set {
			m.Temperature = hot("≤ 90 °C")
		}
		return m
	}
	return &Table{
		System: "SI",
		Tanks:  []Tank{{Tank: sounding}},
		Chemistries: []Chemistry{
			{a("alkali", "Alkaline cleaner"), fact.Chemistry{PH: ph("9–11"), Window: fact.Window{Temperature: hot("50–70 °C"), Strength: strong("2–10 % v/v"), Time: long("3–10 min")}, Contains: words("free-caustic")}},
			{a("acid", "Acid"), fact.Chemistry{PH: ph("2–4"), Window: fact.Window{Temperature: hot("20–60 °C"), Time: long("3–10 min")}, Contains: words("acid")}},
		},
		Materials: []Material{
			thing("steel", "Steel", stands(fact.Material{MadeOf: words("carbon-steel"), PH: ph("2–13.5")})),
			thing("bronze", "Bronze", stands(fact.Material{MadeOf: words("bronze"), PH: ph("6–10"), Temperature: hot("≤ 55 °C"), Time: long("≤ 5 min")})),
			thing("brass", "Brown metal", stands(fact.Material{MadeOf: words("bronze"), PH: ph("6–9.5")})),
			thing("lens", "Lens", stands(fact.Material{MadeOf: words("glass"), Frequency: hertz("120–170 kHz")})),
			thing("zinc", "Zinc", stands(fact.Material{MadeOf: words("zinc")})),
			thing("crystal", "Crystal", stands(fact.Material{MadeOf: words("ceramic"), NoSound: true})),
			thing("cadmium", "Cadmium", stands(fact.Material{MadeOf: words("cadmium")})),
			thing("blank", "Blank", fact.Material{MadeOf: words("titanium")}),
		},
		Soils: []Soil{
			{a("oil", "Oil"), fact.Soil{RemovedBy: by("alkali", fact.Window{Temperature: hot("55–65 °C")})}},
			{a("wax", "Wax"), fact.Soil{RemovedBy: by("alkali", fact.Window{Temperature: hot("≥ 65 °C"), Strength: strong("6–8 % v/v")})}},
			{a("rust", "Rust"), fact.Soil{RemovedBy: by("acid", fact.Window{})}},
			{a("flux", "Flux"), fact.Soil{MayContain: words("lead")}},
			{a("salts", "Salts"), fact.Soil{MayContain: words("cyanide"), RemovedBy: by("acid", fact.Window{})}},
		},
	}
}

func TestAnswers(t *testing.T) {
	for name, c := range map[string]struct {
		q       Question
		verdict Verdict
		says    []string
		recipe  string
	}{
		"all well":              {Question{Materials: []string{"steel"}, Soil: "oil", Bath: "wash-1"}, Yes, []string{"stays within what steel can stand: pH"}, "pH 9–11, 2–10 % v/v, 55–65 °C, 3–10 min, 40 kHz"},
		"cooler and shorter":    {Question{Materials: []string{"bronze"}, Soil: "", Bath: "wash-1"}, Conditions, []string{"Keep the pH at 9–10: the limit of bronze", "Set Wash 1 to 50–55 °C for this load; today it has 62 °C, but the limit of bronze is ≤ 55 °C.", "Give it 3–5 min under ultrasonics"}, "pH 9–10, 2–10 % v/v, 50–55 °C, 3–5 min, 40 kHz"},
		"hotter and stronger":   {Question{Materials: []string{"steel"}, Soil: "wax", Bath: "wash-1"}, Conditions, []string{"Set Wash 1 to 65–70 °C", "Bring Wash 1 to 6–8 % v/v for this load; today it has 4 % v/v, but the window to lift wax is 6–8 % v/v."}, "pH 9–11, 6–8 % v/v, 65–70 °C, 3–10 min, 40 kHz"},
		"weakest of two":        {Question{Materials: []string{"steel", "bronze"}, Soil: "oil", Bath: "wash-1"}, Conditions, []string{"Set Wash 1 to 55 °C"}, "pH 9–10, 2–10 % v/v, 55 °C, 3–5 min, 40 kHz"},
		"no temperature left":   {Question{Materials: []string{"bronze"}, Soil: "wax", Bath: "wash-1"}, No, []string{"The window to lift wax is ≥ 65 °C, but the limit of bronze is ≤ 55 °C."}, ""},
		"mostly out of pH":      {Question{Materials: []string{"brass"}, Soil: "", Bath: "wash-1"}, No, []string{"The bath of alkaline cleaner is pH 9–11, but the limit of brown metal is pH 6–9.5."}, ""},
		"frequency is fixed":    {Question{Materials: []string{"lens"}, Soil: "", Bath: "wash-1"}, No, []string{"The limit of lens is 120–170 kHz, but the frequency of Wash 1 is 40 kHz."}, ""},
		"excluded":              {Question{Materials: []string{"zinc"}, Soil: "", Bath: "wash-1"}, No, []string{"has free caustic, which dissolves zinc."}, ""},
		"not beside each other": {Question{Materials: []string{"steel", "zinc"}, Soil: "", Bath: "acid"}, No, []string{"must not share a bath"}, ""},
		"not lifted":            {Question{Materials: []string{"steel"}, Soil: "rust", Bath: "wash-1"}, No, []string{"Alkaline cleaner does not lift rust; these do: acid."}, ""},
		"needs clearance":       {Question{Materials: []string{"steel"}, Soil: "flux", Bath: "wash-1"}, No, []string{"may contain lead", "does not lift flux."}, ""},
		"cyanide and acid":      {Question{Materials: []string{"steel"}, Soil: "salts", Bath: "acid"}, No, []string{"may contain cyanide, and acid must never meet it: acid sets hydrogen cyanide free"}, ""},
		"no sound in a tank":    {Question{Materials: []string{"crystal"}, Soil: "", Bath: "wash-1"}, No, []string{"no sound may reach it, and Wash 1 has ultrasonics"}, ""},
		"no sound by hand":      {Question{Materials: []string{"crystal"}, Soil: "", Bath: "alkali"}, Conditions, []string{"by hand or soak it, without ultrasonics"}, "pH 9–11, 2–10 % v/v, 50–70 °C"},
		"cadmium":               {Question{Materials: []string{"cadmium"}, Soil: "", Bath: "alkali"}, No, []string{"has cadmium, which is toxic"}, ""},
		"nothing known":         {Question{Materials: []string{"blank"}, Soil: "", Bath: "wash-1"}, Conditions, []string{"Blank has no limit of pH in its article: not checked.", "Blank has no limit of temperature in its article: not checked."}, "pH 9–11, 2–10 % v/v, 50–70 °C, 3–10 min, 40 kHz"},
		"soil alone":            {Question{Materials: nil, Soil: "oil", Bath: "alkali"}, Yes, []string{"Keep the temperature at 55–65 °C"}, "pH 9–11, 2–10 % v/v, 55–65 °C, 3–10 min"},
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
	for _, q := range []Question{{Materials: []string{"wood"}, Soil: "", Bath: "wash-1"}, {Materials: []string{"steel"}, Soil: "mud", Bath: "wash-1"}, {Materials: []string{"steel"}, Soil: "", Bath: "wash-9"}} {
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
			for _, b := range []string{"wash-1", "acid", "alkali"} {
				q := Question{Materials: []string{m.Name, "steel"}, Soil: s, Bath: b}
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
	s := Say("the limit of {material} is {limit}, for {what}.", Title("brass"), Amount(hot("50–60 °C").Range), List(Word("time"), Word("heat"), Title("US")))
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
				one, err1 := tab.Answer(Question{Materials: []string{a.Name}, Soil: s, Bath: "wash-1"})
				both, err2 := tab.Answer(Question{Materials: []string{a.Name, b.Name}, Soil: s, Bath: "wash-1"})
				if errors.Join(err1, err2) != nil || rank[both.Verdict] < rank[one.Verdict] {
					t.Errorf("%s: %s; with %s: %s", a.Name, one.Verdict, b.Name, both.Verdict)
				}
			}
		}
	}
}

func TestCautionsComeGravestFirstAndOnce(t *testing.T) {
	tab := table()
	tab.Chemistries[0].Cautions = []Caution{{Signal: "CAUTION", Text: "Hot."}, {Signal: "DANGER", Text: "Gas."}}
	tab.Chemistries[0].ProtectiveEquipment = []string{"goggles"}
	tab.Materials[0].Cautions = []Caution{{Signal: "WARNING", Text: "Sharp."}, {Signal: "CAUTION", Text: "Hot."}}
	a, err := tab.Answer(Question{Materials: []string{"steel"}, Soil: "oil", Bath: "wash-1"})
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
	list, err := tab.Instead(Question{Materials: []string{"steel"}, Soil: "rust", Bath: "wash-1"})
	if err != nil || len(list) != 1 || list[0].Bath != "acid" || list[0].Verdict != Yes || list[0].Tank {
		t.Errorf("%+v, %v", list, err)
	}
	if list, err := tab.Instead(Question{Materials: []string{"zinc"}, Soil: "wax", Bath: "acid"}); err != nil || len(list) != 0 {
		t.Errorf("%+v, %v", list, err)
	}
}

// What is packed stays as it was, places far to the right included: the table is used on, and packed again for another language.
func TestPackingChangesNothing(t *testing.T) {
	far := table()
	far.Materials[0].MadeOf = []fact.Ref{{Name: "brass", At: finding.Place{File: far.Materials[0].Path, Line: 4000, Column: 300}}}
	once := string(far.Pack())
	if at := far.Materials[0].MadeOf[0].At; at.Line != 4000 || at.Column != 300 {
		t.Errorf("packing moved a place to %+v", at)
	}
	if string(far.Pack()) != once {
		t.Error("packed twice it is not the same")
	}
}

// What tables of resistance agree on (from memory, as the rule says): a plastic, rubber or paint in a solvent neat and cold, in a jar that is fit for it.
func TestSolventsOnWhatTheyHarm(t *testing.T) {
	for _, c := range []struct {
		solvent, substance string
		verdict            Verdict
	}{
		{"alcohol", "acrylic", No}, {"alcohol", "polycarbonate", Conditions}, {"alcohol", "epdm", Yes}, {"alcohol", "brass", Yes}, {"alcohol", "polyolefin", Yes},
		{"hydrocarbon", "epdm", No}, {"hydrocarbon", "silicone-rubber", No}, {"hydrocarbon", "polystyrene", No}, {"hydrocarbon", "nbr", Conditions}, {"hydrocarbon", "fkm", Yes}, {"hydrocarbon", "acetal", Yes},
		{"ketone", "abs", No}, {"ketone", "fkm", No}, {"ketone", "paint", No}, {"ketone", "epdm", Conditions}, {"ketone", "epoxy", Conditions}, {"ketone", "ptfe", Yes}, {"ketone", "carbon-steel", Yes},
		{"terpene", "paint", Conditions}, {"terpene", "silicone-rubber", Conditions}, {"terpene", "acrylic", No}, {"terpene", "polyolefin", Yes}, {"glycol-ether", "pvc", Conditions}, {"solvent-emulsion", "epdm", Conditions},
		{"ester", "pvc", No}, {"ester", "acrylic", No}, {"ester", "silicone-rubber", Conditions}, {"ester", "peek", Yes},
	} {
		made := table()
		made.Chemistries[0].Chemistry = fact.Chemistry{NoWater: true, Contains: words(c.solvent), Window: fact.Window{Temperature: hot("20–25 °C"), Time: long("3–10 min")}}
		for i := range made.Materials {
			m := &made.Materials[i]
			if m.Name == "steel" {
				m.MadeOf, m.Features = words(c.substance), nil
			}
		}
		a, err := made.Answer(Question{Materials: []string{"steel"}, Bath: made.Chemistries[0].Name})
		if err != nil {
			t.Fatal(err)
		}
		if a.Verdict != c.verdict {
			t.Errorf("%s on %s: %s: %+v", c.solvent, c.substance, a.Verdict, a.Reasons)
		}
	}
}
