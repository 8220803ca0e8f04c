// Package admit answers whether a part may go into a bath: yes, yes with conditions, or no, each with its reasons and, unless it
// is no, with the recipe that suits everything at once.
//
// The knowledge is a [Table], made from a manual by package relate and shipped with an edition, packed. The decision is [Table.Answer]:
// the same function answers on the command line, makes the manual's tables and, compiled to WASM, answers in the page.
//
// A bath is a tank as it stands today, or a chemistry by itself. A bath, each material and the soil ask for pH, strength,
// temperature, time and frequency; what all of them can live with is the recipe, and where nothing is left the answer is no.
// On top of that come exclusions: what must not be done whatever the numbers say.
//
// Reasons are [Sentence]s, which can be said in every language and in both families of units; their Text is English, in the shop's units.
//
// An assembly is as weak as its weakest material: ask with all of them.
//
// The answer is a start for a trial, never a release. The order of authority is law and permit, safety data sheet, the supplier's
// technical sheet, the customer's drawing, and only then this.
package admit

import (
	"slices"
	"strings"

	"tankside/calculators/quantity"
)

// Verdict is the answer in one word.
type Verdict string

// The verdicts.
const (
	Yes        Verdict = "yes"
	Conditions Verdict = "conditions"
	No         Verdict = "no"
)

// worse gives the graver of two verdicts.
func worse(a, b Verdict) Verdict {
	if a == No || b == No {
		return No
	}
	if a == Conditions || b == Conditions {
		return Conditions
	}
	return Yes
}

// Place is where in the manual a reason stands.
type Place struct {
	Article string `json:"article"`
	Line    int    `json:"line"`
}

// Reason is one reason for a verdict.
type Reason struct {
	Verdict Verdict `json:"verdict"`
	Text    string  `json:"text"` // a sentence, in English and the shop's units; an answer has it
	Place
	Also *Place `json:"also,omitempty"` // the other place, where two disagree
	Rule string `json:"rule,omitempty"` // the proof-reader's rule that guards the same

	Says Sentence `json:"-"` // the same for every language and both families of units
}

// Question is what somebody wants to put into which bath.
type Question struct {
	Materials []string `json:"materials"` // names, at least one
	Soil      string   `json:"soil"`      // name, or ""
	Bath      string   `json:"bath"`      // id of a tank or name of a chemistry
}

// Span is one line of a recipe.
type Span struct {
	What What          `json:"what"`
	Kind quantity.Kind `json:"kind"`
	Low  *float64      `json:"low,omitempty"`
	High *float64      `json:"high,omitempty"`
	Text string        `json:"text"` // "55–60 °C", in the shop's units

	amount quantity.Range
}

// In writes the span in a family of units.
func (s Span) In(units quantity.System) string { return s.amount.In(units) }

// Recipe is what suits everything at once.
type Recipe struct {
	Bath      string `json:"bath"`
	Chemistry string `json:"chemistry"`
	Path      string `json:"path"`
	Spans     []Span `json:"spans"`
}

// Answer is the verdict with its reasons, the gravest first.
type Answer struct {
	Verdict  Verdict   `json:"verdict"`
	Reasons  []Reason  `json:"reasons"`
	Recipe   *Recipe   `json:"recipe,omitempty"`   // nil when the verdict is no
	Cautions []Caution `json:"cautions,omitempty"` // the gravest first
	Protect  []string  `json:"protect,omitempty"`  // protective equipment for the bath
}

// UnknownError is the error for a name that the table does not have.
type UnknownError struct{ What, Name string }

// Error says which name.
func (e *UnknownError) Error() string { return "there is no " + e.What + " “" + e.Name + "”" }

func named(items []Item, name string) *Item {
	for i := range items {
		if items[i].Name == name {
			return &items[i]
		}
	}
	return nil
}

// Answer decides. The error is an *UnknownError.
func (t *Table) Answer(q Question) (Answer, error) {
	a, err := t.answer(q)
	own := system(t.System)
	for i := range a.Reasons {
		a.Reasons[i].Text = a.Reasons[i].Says.In(nil, own)
	}
	if a.Recipe != nil {
		for i := range a.Recipe.Spans {
			a.Recipe.Spans[i].Text = a.Recipe.Spans[i].In(own)
		}
	}
	return a, err
}

// answer decides, and leaves reasons and recipe to be put into words.
func (t *Table) answer(q Question) (Answer, error) {
	bath := t.Bath(q.Bath)
	if bath == nil {
		return Answer{}, &UnknownError{"tank or chemistry", q.Bath}
	}
	reasons := append([]Reason(nil), bath.Reasons...)
	limits := append([]Limit(nil), bath.Limits...)
	cautions := append([]Caution(nil), bath.Cautions...)
	for i, name := range q.Materials {
		m := named(t.Materials, name)
		if m == nil {
			return Answer{}, &UnknownError{"material", name}
		}
		reasons = append(reasons, t.MaterialReasons[name]...)
		reasons = append(reasons, bath.Materials[name]...)
		limits = append(limits, m.Limits...)
		cautions = append(cautions, m.Cautions...)
		if r, has := m.within(); has {
			reasons = append(reasons, r)
		}
		for _, other := range q.Materials[:i] {
			for _, p := range t.Pairs {
				if p.A == name && p.B == other || p.A == other && p.B == name {
					reasons = append(reasons, p.Reason)
				}
			}
		}
	}
	if q.Soil != "" {
		s := named(t.Soils, q.Soil)
		if s == nil {
			return Answer{}, &UnknownError{"soil", q.Soil}
		}
		reasons = append(reasons, t.SoilReasons[q.Soil]...)
		cautions = append(cautions, s.Cautions...)
		if lift, lifts := bath.Soils[q.Soil]; lifts {
			reasons = append(reasons, lift.Reasons...)
			limits = append(limits, lift.Limits...)
		} else {
			reasons = append(reasons, t.notLifted(bath, s))
		}
	}
	a := decide(bath, reasons, limits)
	a.Cautions, a.Protect = gravestFirst(cautions), bath.Protect
	return a, nil
}

// gravestFirst orders safety messages by their signal words, each once.
func gravestFirst(cautions []Caution) []Caution {
	var list []Caution
	for _, word := range []string{"DANGER", "WARNING", "CAUTION", "NOTICE"} {
	next:
		for _, c := range cautions {
			if c.Signal != word {
				continue
			}
			for _, before := range list {
				if before.Text == c.Text {
					continue next
				}
			}
			list = append(list, c)
		}
	}
	return list
}

// Alternative is another bath that would take the same load.
type Alternative struct {
	Bath    string  `json:"bath"`
	Title   string  `json:"title"`
	Tank    bool    `json:"tank,omitempty"`
	Verdict Verdict `json:"verdict"` // yes or conditions
}

// Instead lists the other baths that would take the same load: tanks first, and of each those without conditions first.
// The error is an *UnknownError.
func (t *Table) Instead(q Question) ([]Alternative, error) {
	var list []Alternative
	for _, tank := range []bool{true, false} {
		for _, v := range []Verdict{Yes, Conditions} {
			for i := range t.Baths {
				b := &t.Baths[i]
				if b.Tank != tank || b.Name == q.Bath {
					continue
				}
				a, err := t.answer(Question{q.Materials, q.Soil, b.Name})
				if err != nil {
					return nil, err
				}
				if a.Verdict == v {
					list = append(list, Alternative{b.Name, b.Title, b.Tank, v})
				}
			}
		}
	}
	return list, nil
}

func system(name string) quantity.System {
	s, _ := quantity.SystemNamed(name)
	return s
}

// within is the reason for a material, to be read when nothing stands against it.
func (m *Item) within() (Reason, bool) {
	var names []Part
	for _, what := range everything {
		if slices.ContainsFunc(m.Limits, func(l Limit) bool { return l.What == what }) {
			names = append(names, Word(nameOf(what)))
		}
	}
	if len(names) == 0 {
		return Reason{}, false
	}
	return Reason{Verdict: Yes, Says: Say(staysWithin, Title(lower(m.Title)), List(names...)), Place: m.Limits[0].Place}, true
}

func nameOf(w What) string {
	if w == PH {
		return "pH"
	}
	return string(w)
}

// notLifted is the reason against a bath that does not lift a soil; it names the chemistries that do.
func (t *Table) notLifted(bath *Bath, soil *Item) Reason {
	var names []string
	for _, b := range t.Baths {
		if _, lifts := b.Soils[soil.Name]; lifts && !b.Tank {
			names = append(names, lower(b.Title))
		}
	}
	says := Say(doesNotLift, Title(bath.Chemistry), Title(lower(soil.Title)))
	if len(names) > 0 {
		says = Say(doesNotLiftTheseDo, Title(bath.Chemistry), Title(lower(soil.Title)), Title(strings.Join(names, ", ")))
	}
	return Reason{Verdict: No, Says: says, Place: Place{Article: soil.Path, Line: 1}, Rule: "soil-not-removed"}
}

// lower writes a title as it stands inside a sentence, abbreviations kept.
func lower(title string) string {
	word, _, _ := strings.Cut(title, " ")
	if len(word) > 1 && strings.ToLower(word[1:]) != word[1:] {
		return title
	}
	for _, first := range title {
		return strings.ToLower(string(first)) + title[len(string(first)):]
	}
	return title
}
