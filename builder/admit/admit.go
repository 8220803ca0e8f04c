// Package admit answers whether a part may go into a bath: yes, yes with conditions, or no, each with its reasons and, unless it
// is no, with the recipe that suits everything at once.
//
// The knowledge is a [Table], made from a manual by package relate and shipped with an edition as JSON. The decision is [Table.Answer]:
// the same function answers on the command line, makes the manual's tables and, compiled to WASM, answers in the page.
//
// A bath is a tank as it stands today, or a chemistry by itself. A bath, each material and the soil ask for pH, strength,
// temperature, time and frequency; what all of them can live with is the recipe, and where nothing is left the answer is no.
// On top of that come exclusions: what must not be done whatever the numbers say.
//
// An assembly is as weak as its weakest material: ask with all of them.
//
// The answer is a start for a trial, never a release. The order of authority is law and permit, safety data sheet, the supplier's
// technical sheet, the customer's drawing, and only then this.
package admit

import (
	"math"
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
	Text    string  `json:"text"` // a sentence
	Place
	Also *Place `json:"also,omitempty"` // the other place, where two disagree
	Rule string `json:"rule,omitempty"` // the proof-reader's rule that guards the same
}

// What is asked for.
type What string

// What a bath, a material or a soil can ask for, in the order of a recipe.
const (
	PH          What = "ph"
	Strength    What = "strength"
	Temperature What = "temperature"
	Time        What = "time"
	Frequency   What = "frequency"
)

var everything = []What{PH, Strength, Temperature, Time, Frequency}

// Limit is what one of them asks for. A missing end is open.
type Limit struct {
	What What          `json:"what"`
	Kind quantity.Kind `json:"kind"`
	Low  *float64      `json:"low,omitempty"`  // SI unit of Kind
	High *float64      `json:"high,omitempty"` // SI unit of Kind
	Unit string        `json:"unit"`           // symbol of the unit it is written in
	Asks string        `json:"asks"`           // "the window to lift wax is 65–75 °C"
	Place
	Rule string `json:"rule,omitempty"`

	// Silicated tells for which baths the limit counts: "" for all, "yes" for those with silicate, "no" for the others.
	Silicated string `json:"silicated,omitempty"`
}

// Caution is a safety message of an article, with its signal word of ANSI Z535.6.
type Caution struct {
	Signal string `json:"signal"` // DANGER, WARNING, CAUTION, NOTICE
	Text   string `json:"text"`
	Place
}

// Item is a material or a soil.
type Item struct {
	Name     string    `json:"name"`
	Title    string    `json:"title"`
	Path     string    `json:"path"`
	Limits   []Limit   `json:"limits,omitempty"`
	Cautions []Caution `json:"cautions,omitempty"`
}

// Bath is a tank as it stands today, or a chemistry by itself.
type Bath struct {
	Name      string           `json:"name"`  // id of the tank, or name of the chemistry
	Title     string           `json:"title"` // of the tank or chemistry
	Tank      bool             `json:"tank,omitempty"`
	Chemistry string           `json:"chemistry"` // title
	Path      string           `json:"path"`      // of the chemistry's article
	Silicated bool             `json:"silicated,omitempty"`
	Limits    []Limit          `json:"limits,omitempty"`
	Today     map[What]float64 `json:"today,omitempty"` // as it is set, SI
	Reasons   []Reason         `json:"reasons,omitempty"`
	Cautions  []Caution        `json:"cautions,omitempty"`
	Protect   []string         `json:"protect,omitempty"` // protective equipment

	// Materials holds by the name of a material the reasons for and against it in this bath.
	Materials map[string][]Reason `json:"materials,omitempty"`
	// Soils holds by the name of a soil what this bath's chemistry does to it. A soil that is missing is not lifted.
	Soils map[string]Lift `json:"soils,omitempty"`
}

// Lift is what a chemistry needs to lift a soil.
type Lift struct {
	Reasons []Reason `json:"reasons,omitempty"`
	Limits  []Limit  `json:"limits,omitempty"`
}

// Pair is a reason against having two materials in one bath.
type Pair struct {
	A      string `json:"a"`
	B      string `json:"b"`
	Reason Reason `json:"reason"`
}

// Table is all that is needed to answer.
type Table struct {
	System    string `json:"system"` // SI or US: the units in which a recipe is written
	Materials []Item `json:"materials"`
	Soils     []Item `json:"soils"`
	Baths     []Bath `json:"baths"`
	Pairs     []Pair `json:"pairs,omitempty"`

	// SoilReasons holds by the name of a soil what stands against it in any bath.
	SoilReasons map[string][]Reason `json:"soil-reasons,omitempty"`
	// MaterialReasons holds by the name of a material what stands against it in any bath.
	MaterialReasons map[string][]Reason `json:"material-reasons,omitempty"`
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
	Text string        `json:"text"` // "55–60 °C"
}

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

// Bath gives the bath with that name, or nil. Tanks come before chemistries.
func (t *Table) Bath(name string) *Bath {
	for i := range t.Baths {
		if t.Baths[i].Name == name {
			return &t.Baths[i]
		}
	}
	return nil
}

// Answer decides. The error is an *UnknownError.
func (t *Table) Answer(q Question) (Answer, error) {
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
			reasons = append(reasons, Reason{
				Verdict: No, Text: bath.Chemistry + " does not lift " + lower(s.Title) + t.lifters(q.Soil) + ".",
				Place: Place{Article: s.Path, Line: 1}, Rule: "soil-not-removed",
			})
		}
	}
	a := decide(bath, reasons, limits, system(t.System))
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
				a, err := t.Answer(Question{q.Materials, q.Soil, b.Name})
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
	var names []string
	for _, what := range everything {
		for _, l := range m.Limits {
			if l.What == what && (len(names) == 0 || names[len(names)-1] != nameOf(what)) {
				names = append(names, nameOf(what))
			}
		}
	}
	if len(names) == 0 {
		return Reason{}, false
	}
	list := names[len(names)-1]
	if len(names) > 1 {
		list = strings.Join(names[:len(names)-1], ", ") + " and " + list
	}
	return Reason{Verdict: Yes, Text: "The recipe stays within what " + lower(m.Title) + " can stand: " + list + ".", Place: m.Limits[0].Place}, true
}

func nameOf(w What) string {
	if w == PH {
		return "pH"
	}
	return string(w)
}

// lifters names the chemistries that lift a soil, as the end of a sentence.
func (t *Table) lifters(soil string) string {
	var names []string
	for _, b := range t.Baths {
		if _, lifts := b.Soils[soil]; lifts && !b.Tank {
			names = append(names, lower(b.Title))
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "; these do: " + strings.Join(names, ", ")
}

// lower writes a title as it stands inside a sentence, abbreviations kept.
func lower(title string) string {
	word, _, _ := strings.Cut(title, " ")
	if len(word) > 1 && strings.ToLower(word[1:]) != word[1:] {
		return title
	}
	return strings.ToLower(title[:min(1, len(title))]) + title[min(1, len(title)):]
}

// decide finds what all limits can live with, and turns it and the reasons into an answer.
func decide(bath *Bath, reasons []Reason, limits []Limit, in quantity.System) Answer {
	recipe := &Recipe{Bath: bath.Title, Chemistry: bath.Chemistry, Path: bath.Path}
	for _, what := range everything {
		span, found := narrow(bath, what, limits, in)
		reasons = append(reasons, found...)
		if span != nil {
			recipe.Spans = append(recipe.Spans, *span)
		}
	}
	a := Answer{Verdict: Yes}
	for _, v := range []Verdict{No, Conditions, Yes} {
		for _, r := range reasons {
			if r.Verdict == v && !has(a.Reasons, r) {
				a.Reasons = append(a.Reasons, r)
				a.Verdict = worse(a.Verdict, v)
			}
		}
	}
	if a.Verdict == No {
		a.Reasons = only(a.Reasons, No)
	} else {
		a.Recipe = recipe
	}
	return a
}

// only keeps the reasons for a verdict: what would have to be done is beside the point when the answer is no.
func only(reasons []Reason, v Verdict) []Reason {
	var list []Reason
	for _, r := range reasons {
		if r.Verdict == v {
			list = append(list, r)
		}
	}
	return list
}

func has(reasons []Reason, r Reason) bool {
	for _, x := range reasons {
		if x.Text == r.Text && x.Place == r.Place {
			return true
		}
	}
	return false
}

// narrow finds the span that all limits of one sort leave, and what has to be said about it.
func narrow(bath *Bath, what What, limits []Limit, in quantity.System) (*Span, []Reason) {
	lowest, highest := math.Inf(-1), math.Inf(1)
	var low, high, own *Limit // whose ends they are, and the bath's own limit
	var kind quantity.Kind
	any := false
	for i := range limits {
		l := &limits[i]
		if l.What != what || l.Silicated == "yes" && !bath.Silicated || l.Silicated == "no" && bath.Silicated {
			continue
		}
		if any && l.Kind != kind {
			continue // strengths by volume and by mass cannot be compared without the density
		}
		any, kind = true, l.Kind
		if own == nil {
			own = l
		}
		if l.Low != nil && *l.Low > lowest {
			lowest, low = *l.Low, l
		}
		if l.High != nil && *l.High < highest {
			highest, high = *l.High, l
		}
	}
	if !any {
		return nil, nil
	}
	unit, _ := quantity.UnitNamed(own.Unit, kind)
	common := quantity.Range{Low: lowest, High: highest, Kind: kind, Unit: unit}
	if low != nil && high != nil && (lowest > highest+1e-9*(1+math.Abs(highest)) || what == PH && slipsOut(own, lowest, highest)) {
		at, other := high, low
		if at == own { // the reason stands with the material or soil
			at, other = low, high
		}
		return nil, []Reason{{
			Verdict: No, Text: capital(low.Asks) + ", but " + high.Asks + ".",
			Place: at.Place, Also: &other.Place, Rule: at.Rule,
		}}
	}
	span := &Span{What: what, Kind: kind, Text: common.In(in)}
	if low != nil {
		span.Low = &lowest
	}
	if high != nil {
		span.High = &highest
	}
	return span, conditions(bath, what, common, low, high, own, in)
}

// slipsOut tells whether less than half of a bath's own pH range is left. Nobody sets the pH of a bath: it comes with the cleaner, its
// strength and its age, so a bath that is out of bounds most of the time is out of bounds. That it is half is our own limit.
func slipsOut(own *Limit, lowest, highest float64) bool {
	return own.Low != nil && own.High != nil && highest-lowest < (*own.High-*own.Low)/2-1e-9
}

// conditions says what has to be done so that a bath stays in the span that is left.
func conditions(bath *Bath, what What, common quantity.Range, low, high, own *Limit, in quantity.System) []Reason {
	tighter := high
	switch {
	case what == PH:
		// The pH of a bath is not set but kept: it may be anywhere in its own range.
		if own.High != nil && common.High < *own.High-1e-9 {
			tighter = high
		} else if own.Low != nil && common.Low > *own.Low+1e-9 {
			tighter = low
		} else {
			return nil
		}
		return []Reason{{Verdict: Conditions, Text: "Keep the pH at " + common.In(in) + ": " + tighter.Asks + ".", Place: tighter.Place, Rule: tighter.Rule}}
	case what == Temperature || what == Strength:
		today, is := bath.Today[what]
		if !is || common.Contains(today) {
			return nil
		}
		if today < common.Low {
			tighter = low
		}
		unit := quantity.Preferred(today, common.Kind, in)
		if common.Unit.Symbol != "" && what == Strength {
			unit = common.Unit
		}
		verb := "Set " + bath.Title + " to "
		if what == Strength {
			verb = "Bring " + bath.Title + " to "
		}
		return []Reason{{
			Verdict: Conditions, Text: verb + common.In(in) + " for this load; today it has " + quantity.ShowIn(today, unit) + ". " + capital(tighter.Asks) + ".",
			Place: tighter.Place, Rule: tighter.Rule,
		}}
	}
	return nil
}

func capital(s string) string {
	if s == "" || strings.HasPrefix(s, "pH") {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
