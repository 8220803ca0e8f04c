package calculators

import (
	"go/ast"
	"go/parser"
	"go/token"
	gotypes "go/types"
	"maps"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"tankside/builder/language/marked"
	"tankside/builder/quantity"
	"tankside/calculators/water"
	"tankside/themes"
)

// spanish is a file that has every phrase, as every language has.
const spanish = "words/calculators/es.yaml"

// sayings are the functions that say a phrase, with the place of the phrase among their arguments.
var sayings = map[string]int{
	"say": 0, "Say": 0, "Fill": 0, "text": 0, "step": 0, "verdict": 0, "caution": 1, "fail": 1, "note": 1, "tell": 1, "fault": 1,
}

// saidFrom are the phrases that are not written out where they are said. They are those of declarations, of kinds of quantities and of
// signal words, which are gathered by name; those that are handed on by a function of sayings; and those of a table within a function.
var saidFrom = []string{
	"in.Label", "in.Help", "c.Label", "c.Title", "c.Summary", "d.Label", "a.Calculator.Title", "in.label(shown)", `materialInput.label(s.at("load-material").choice)`, "label(titrants, titrant.choice)",
	"s.calculator.Inputs[s.calculator.index(name)].Label", "l", "given", "none",
	"k.String()", "in.Measures[0].Kind.String()", "limit.Kind.String()", "word", "c.Signal.String()",
	"sentence", "phrase", "e.problem", "problem", "water.Class(h)", "text", "seen",
	"residueLevels[i].Label", "label", "classLabels[i]", // as the choices of residue and the inputs of particles
}

// said gathers every phrase that the calculators can say, with where it is said.
func said(t *testing.T) map[string]string {
	t.Helper()
	phrases := map[string]string{}
	for _, folder := range []string{".", "../builder/quantity", "markup"} {
		files, err := filepath.Glob(folder + "/*.go")
		if err != nil || len(files) == 0 {
			t.Fatal(folder, err)
		}
		for _, name := range files {
			if !strings.HasSuffix(name, "_test.go") {
				saidIn(t, name, phrases)
			}
		}
	}
	add := func(where string, texts ...string) {
		for _, text := range texts {
			if text != "" {
				phrases[text] = marked.Also(phrases[text], where)
			}
		}
	}
	for _, c := range All() {
		add(c.Name, c.Title, c.Summary)
		add(c.Name, c.Limits...)
		add(c.Name, c.Sources...)
		for _, in := range c.Inputs {
			add(c.Name, in.Label, in.Help)
			for _, choice := range in.Choices {
				add(c.Name, choice.Label)
			}
			if in.None {
				add(c.Name, "none")
			}
		}
		for _, r := range c.Readings {
			add(c.Name, r.Label)
		}
	}
	for k := quantity.Number; k.Example() != ""; k++ {
		add("a kind of quantity", k.String())
	}
	for s := Danger; s <= Notice; s++ {
		add("a signal word", s.String())
	}
	for _, h := range []float64{0, 0.1, 0.15, 1} {
		add("a class of water", water.Class(h))
	}
	return phrases
}

// saidIn gathers the phrases that a file of Go says, and the texts that it puts into a variable of saidFrom.
func saidIn(t *testing.T, name string, phrases map[string]string) {
	file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			call(t, name, n, phrases)
		case *ast.AssignStmt: // text := "…", in which a phrase waits to be said
			for i, v := range n.Lhs {
				if id, is := v.(*ast.Ident); is && slices.Contains([]string{"text", "seen", "phrase"}, id.Name) && i < len(n.Rhs) {
					if phrase, is := literal(n.Rhs[i]); is {
						phrases[phrase] = marked.Also(phrases[phrase], name)
					}
				}
			}
		case *ast.KeyValueExpr:
			if id, is := n.Key.(*ast.Ident); is && id.Name == "problem" {
				if phrase, is := literal(n.Value); is {
					phrases[phrase] = marked.Also(phrases[phrase], name)
				}
			}
		}
		return true
	})
}

func call(t *testing.T, where string, c *ast.CallExpr, phrases map[string]string) {
	function := ""
	switch f := c.Fun.(type) {
	case *ast.SelectorExpr:
		function = f.Sel.Name
	case *ast.Ident:
		function = f.Name
	}
	at, says := sayings[function]
	if _, alone := c.Fun.(*ast.Ident); !says || len(c.Args) <= at || alone && function == "Fill" { // Fill alone takes a shop's tank
		return
	}
	phrase, is := literal(c.Args[at])
	if !is {
		if from := gotypes.ExprString(c.Args[at]); !slices.Contains(saidFrom, from) {
			t.Errorf("%s says %s: tell saidFrom where its words come from", where, from)
		}
		return
	}
	phrases[phrase] = marked.Also(phrases[phrase], where+" "+function)
	if given := len(c.Args) - at - 1; slices.Contains(numbered, function) {
		wanted := 0
		for _, hole := range marked.Holes.FindAllString(phrase, -1) {
			if word := strings.Trim(hole, "{}"); len(word) == 1 || formOf(word) >= 0 {
				wanted++
			}
		}
		if given != wanted {
			t.Errorf("%s gives %d numbers to %q", where, given, phrase)
		}
	}
}

// numbered are the functions that fill numbers into the phrase.
var numbered = []string{"text", "step", "verdict", "caution", "fail"}

func literal(e ast.Expr) (string, bool) {
	l, is := e.(*ast.BasicLit)
	if !is || l.Kind != token.STRING {
		return "", false
	}
	text, err := strconv.Unquote(l.Value)
	return text, err == nil
}

// Every language has every phrase that the calculators can say and no other, and a sentence stays one.
func TestEveryLanguageIsComplete(t *testing.T) {
	phrases := said(t)
	files, err := themes.New(nil).List("words/calculators")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		other := marked.Read(t, file)
		marked.Complete(t, file, phrases, other)
		for p, shown := range other {
			if strings.HasSuffix(p, ".") && !strings.HasSuffix(shown, ".") {
				t.Errorf("%s: %q is no sentence, as %q is", file, shown, p)
			}
		}
	}
}

// texts are all the texts of an answer.
func texts(a Answer) []string {
	list := append([]string{a.Verdict}, a.Working...)
	for _, g := range a.Given {
		list = append(list, g.Label, g.Text)
	}
	for _, r := range a.Readings {
		list = append(list, r.Label, r.String(), r.Bounds(), r.Note)
	}
	for _, c := range a.Cautions {
		list = append(list, c.Text)
	}
	if c := a.Curve; c != nil {
		list = append(list, c.Title, c.Description, c.X.Label, c.Y.Label)
		for _, l := range c.Levels {
			list = append(list, l.Label)
		}
	}
	return list
}

// mistyped are wrong inputs without a word in them.
var mistyped = []string{"", " ", "5", "#", "1,5 L", "5 %", "9 L", "3 kHz", "1:2", "1:40", "0:5", "1 L 2", "7 ##", "−400 °C", "99999999999999 L", "\xff", strings.Repeat("1", 200), "2000 g/L", "0 L"}

// seldom are inputs that chance does not come to.
var seldom = map[string][]map[string]string{
	"drying": {{"carry-off": "16 µm", "area": "1 m²", "air": "20 °C", "humidity": "100 %", "flow": "100 m³/h"}},
	"dilution": {{"volume": "10 L", "strength": "1:20"}, {"volume": "10 imp gal", "strength": "6 fl oz/gal"}, {"volume": "10 L", "strength": "6 imp fl oz/gal"},
		{"volume": "10 gal", "strength": "1:20"}, {"volume": "10 gal", "strength": "1:20"}, {"volume": "10 gal", "strength": "1:20"}, {"volume": "10 gal", "strength": "1:20"}},
	"titration": {{"sample": "10 mL", "titrant-used": "10 mL", "titrant-normality": "0.1 N", "factor": "0.4", "volume": "100 L", "strength": "4 % v/v"},
		{"sample": "10 mL", "titrant-used": "10 mL", "titrant-normality": "0.05 mol/L", "titrant": "sulfuric-acid", "factor": "0.4", "total-used": "16 mL", "fresh-ratio": "1.05"},
		{"sample": "10 mL", "titrant-used": "10 mL", "titrant-normality": "0.05 mol/L", "factor": "0.4"},
		{"sample": "10 mL", "titrant-used": "0 mL", "titrant-normality": "0.1 N", "total-used": "0 mL"},
		{"sample": "10 mL", "titrant-used": "0 mL", "titrant-normality": "0.1 N", "total-used": "8 mL", "fresh-ratio": "1.4"},
		{"sample": "10 mL", "titrant-used": "5 mL", "titrant-normality": "0.1 N", "total-used": "6 mL", "fresh-ratio": "1.4"},
		{"sample": "10 mL", "titrant-used": "5 mL", "titrant-normality": "0.1 N", "total-used": "10 mL", "fresh-ratio": "1.4"},
		{"sample": "10 mL", "titrant-used": "5 mL", "titrant-normality": "0.1 N", "factor": "0.4", "fresh-ratio": "1.4"},
		{"sample": "10 mL", "titrant-used": "5 mL", "titrant-normality": "0.1 N", "factor": "0.4", "fresh-ratio": "1.4", "titrant": "sodium-hydroxide"},
		{"sample": "10 mL", "titrant-used": "5 mL", "titrant-normality": "1 N", "titrant": "sodium-carbonate", "factor": "0.4", "total-used": "6 mL"},
		{"sample": "10 mL", "titrant-used": "0 mL", "titrant-normality": "1 N", "titrant": "sodium-hydroxide", "total-used": "0 mL"},
		{"sample": "10 mL", "titrant-used": "0 mL", "titrant-normality": "1 N", "titrant": "sodium-hydroxide", "total-used": "6 mL", "fresh-ratio": "1.4"},
		{"sample": "10 mL", "titrant-used": "3 mL", "titrant-normality": "1 N", "titrant": "sodium-hydroxide", "total-used": "6 mL", "fresh-ratio": "1.4"}},
	"scale": {{"temperature": "60 °C", "ph": "7.6", "calcium": "200 mg/L", "hardness": "100 mg/L", "alkalinity": "220 mg/L", "dissolved-solids": "400 mg/L"},
		{"temperature": "60 °C", "ph": "9", "calcium": "30 mg/L", "alkalinity": "30 mg/L", "dissolved-solids": "100 mg/L"},
		{"temperature": "60 °C", "ph": "7.6", "hardness": "100 mg/L", "hardness-as-calcium": "yes", "alkalinity": "220 mg/L", "dissolved-solids": "400 mg/L"}},
	"top-up": {{"volume": "10 L", "strength-now": "1 % v/v", "strength": "990 g/L", "density": "0.99 kg/L"},
		{"below-mark": "18 mm", "strength-now": "3 % v/v", "strength": "4 % v/v", "tank-capacity": "120 L", "length": "600 mm", "width": "450 mm"},
		{"below-mark": "9 m", "strength-now": "3 % v/v", "strength": "4 % v/v", "tank-capacity": "120 L", "length": "600 mm", "width": "450 mm"}},
	"rinse": {{"drag-out": "1.2 L/h", "flow": "4 L/min", "stages": "1", "second-flow": "1 L/min", "second-alkalinity": "0 mg/L", "bath-ph": "11", "bath-alkalinity": "200 meq/L",
		"water-ph": "7.6", "water-alkalinity": "220 mg/L", "temperature": "40 °C", "volume": "90 L"},
		{"drag-out": "1.2 L/h", "flow": "4 L/min", "stages": "1", "second-flow": "1 L/min", "second-alkalinity": "0 mg/L", "third-flow": "0.1 L/min", "third-alkalinity": "0 mg/L", "bath-ph": "13", "bath-alkalinity": "2000 meq/L",
			"water-ph": "7.6", "water-alkalinity": "220 mg/L", "limit": "0.00001 %", "other-ways": "yes"},
		{"drag-out": "1.2 L/h", "flow": "0 L/min", "stages": "1", "second-flow": "1 L/min", "second-runs-on": "yes"},
		{"drag-out": "1.2 L/h", "flow": "1 L/min", "stages": "2", "second-flow": "1 L/min", "second-runs-on": "yes", "feed": "separate"},
		{"drag-out": "1.2 L/h", "flow": "1 L/min", "stages": "2", "third-flow": "1 L/min"}},
	"particles": {{"area": "1 m²"}, {"area": "1 m²", "b": "3", "blank-b": "3"}, {"basis": "volume", "k": "3"}, {"basis": "volume", "k": "3", "part-volume": "5 mL"}, {"basis": "part", "k": "3"}, {"k": "3"},
		{"area": "1000 cm²", "k": "3000"}, {"area": "1000 cm²", "k": "3", "blank-k": "99"}, {"area": "1 m²", "blank-k": "1"}, {"area": "1000 cm²", "k": "120"}},
	"bath-life": {{"volume": "120 L", "soil-load": "40 g", "loads": "9", "limit": "30 g/L", "skimmed": "40 %", "drag-out": "1.2 L/h"},
		{"volume": "120 L", "soil-load": "40 g", "loads": "9", "limit": "20 g/L", "skimmed": "40 %", "drag-out": "1.2 L/h"},
		{"volume": "120 L", "soil-load": "40 g", "loads": "9", "limit": "5 g/L", "skimmed": "40 %", "drag-out": "1.2 L/h"},
		{"volume": "120 L", "soil-load": "40 g", "loads": "9", "limit": "50 g/L", "skimmed": "400 g"}},
	"residue": {{"gained": "0.8 mg", "blank": "0.8 mg", "area": "1 cm²"}, {"gained": "7.7 mg", "blank": "0.8 mg", "parts": "10", "area": "140 cm²"}, {"gained": "1 mg", "level-allowed": "A"}, {"gained": "1 mg", "limit": "1 mg/m²"},
		{"gained": "35.7 mg", "blank": "0.8 mg", "parts": "10", "area": "140 cm²"}, {"gained": "1 mg", "area": "1 m²"}, {"gained": "-2 mg"}, {"gained": "0.9 mg", "balance": "0.1 mg"}, {"gained": "1 mg", "blank": "3 mg"}},
	"heat-up": {{"length": "400 mm", "width": "300 mm", "depth": "300 mm", "start": "20 °C", "target": "60 °C", "heater": "1 kW"}},
}

// lastGuard is what check says; no inputs are known that come to it.
const lastGuard = "with these inputs together there is no value of “{reading}” that makes sense."

// Nothing is said but with the words of the language: answers and errors over many inputs, usual, at the ends of their ranges and wrong.
// And the numbers in them are those of English.
func TestNothingIsSaidWithoutWords(t *testing.T) {
	marks := marked.New(marked.Phrases(t, spanish))
	r := rand.New(rand.NewPCG(7, 8))
	for _, c := range All() {
		reported := map[string]bool{}
		check := func(text string, values map[string]string) {
			if left := marks.Unsaid(text); left != "" && !reported[left] {
				reported[left] = true
				t.Errorf("%s says %q without words in %q, for %v", c.Name, left, text, values)
			}
		}
		for n := range 900 {
			values := map[string]string{}
			if n%3 == 0 {
				maps.Copy(values, asked(c))
			}
			for _, in := range c.Inputs {
				switch r.IntN(4) {
				case 0:
					values[in.Name] = plausible(r, in)
				case 1:
					if n%3 != 0 && in.Required {
						values[in.Name] = plausible(r, in)
					}
				}
			}
			if n%10 == 0 {
				values[c.Inputs[r.IntN(len(c.Inputs))].Name] = mistyped[r.IntN(len(mistyped))]
			}
			if n < len(seldom[c.Name]) {
				values = seldom[c.Name][n]
			}
			system := quantity.System(r.IntN(2))
			a, err := c.RunIn(marks.Words, values, system)
			english, errEnglish := c.Run(values, system)
			if (err == nil) != (errEnglish == nil) {
				t.Fatalf("%s %v: %v in one language, %v in the other", c.Name, values, err, errEnglish)
			}
			if wrong, is := err.(Errors); is {
				for _, e := range wrong {
					if in, has := c.Input(e.Input); has && len(in.Choices) > 0 {
						continue // the error lists what the command line takes
					}
					check(e.Problem, values)
					check(e.Label, values)
					check(e.Accepted, values)
				}
				continue
			}
			for i, reading := range a.Readings {
				if reading.SI != english.Readings[i].SI || reading.Low != english.Readings[i].Low || reading.High != english.Readings[i].High {
					t.Fatalf("%s %v: %s is %v in one language, %v in the other", c.Name, values, reading.Name, reading, english.Readings[i])
				}
			}
			for _, text := range texts(a) {
				check(text, values)
			}
		}
	}
	all := said(t)
	for i, p := range marks.Phrases {
		if _, by, _ := strings.Cut(all[p], " "); !marks.Said[i] && slices.Contains(numbered, by) && p != lastGuard {
			t.Errorf("these runs never come to %q, so nobody has looked what is said there", p)
		}
	}
}

// Plain “gafas de seguridad” leave a gap round the eye: who pours caustic by them is splashed. Goggles are told as goggles.
func TestGogglesAreGoggles(t *testing.T) {
	told := 0
	for phrase, spoken := range marked.Read(t, spanish) {
		if !strings.Contains(strings.ToLower(phrase), "goggles") {
			continue
		}
		told++
		if !strings.Contains(spoken, "panorámicas") && !strings.Contains(spoken, "herméticas") {
			t.Errorf("%q is told as %q", phrase, spoken)
		}
	}
	if told == 0 {
		t.Error("no phrase says goggles")
	}
}
