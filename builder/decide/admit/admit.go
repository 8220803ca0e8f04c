// Package admit answers whether a part may go into a bath: yes, yes with conditions, or no, each with its reasons and, unless it
// is no, with the recipe that suits everything at once.
//
// The knowledge is a [Table], made from a manual by package relate and shipped with an edition, packed. The decision is [Table.Answer]:
// the same function answers on the command line, makes the manual's tables and, compiled to WASM, answers in the page.
//
// A bath is a tank as this edition has it, or a chemistry by itself. A bath, each material and the soil ask for pH, strength,
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

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/language"
	"tankside/builder/quantity"
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

// Question is what somebody wants to put into which bath.
type Question struct {
	Materials []string `json:"materials"` // names, at least one
	Soil      string   `json:"soil"`      // name, or ""
	Bath      string   `json:"bath"`      // id of a tank or name of a chemistry
	As        *As      `json:"-"`         // what that bath would have in place of what it has today; nil where nothing is otherwise
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
	Silent    bool   `json:"silent,omitempty"` // no ultrasonics, so neither frequency nor time under them
	Method    string `json:"method,omitempty"` // how, where that is not under ultrasonics; an answer has it
}

// Answer is the verdict with its reasons, the gravest first.
type Answer struct {
	Verdict  Verdict   `json:"verdict"`
	Reasons  []Reason  `json:"reasons"`
	Recipe   *Recipe   `json:"recipe,omitempty"`   // nil when the verdict is no, and of a sheet
	Steps    []Recipe  `json:"steps,omitempty"`    // of a sheet that is not no: its washes as they are run
	Cautions []Caution `json:"cautions,omitempty"` // the gravest first
	Protect  []string  `json:"protect,omitempty"`  // protective equipment for the bath

	System quantity.System `json:"-"` // the shop's own units
}

// UnknownError is the error for a name that the table does not have.
type UnknownError struct{ What, Name string }

// Error says which name.
func (e *UnknownError) Error() string { return "there is no " + e.What + " “" + e.Name + "”" }

// Answer decides. The error is an *UnknownError.
func (t *Table) Answer(q Question) (Answer, error) {
	a, err := t.answer(q)
	t.say(&a)
	return a, err
}

// Sheet decides about a part by its process sheet: every wash as it is run, the rinses and the dryer. The error is an *UnknownError.
func (t *Table) Sheet(part string) (Answer, error) {
	p := named(t.Parts, part)
	if p == nil {
		return Answer{}, &UnknownError{"part", part}
	}
	a := t.SheetOf(p)
	t.say(&a)
	return a, nil
}

// say puts reasons and recipes into words, in English and the shop's units.
func (t *Table) say(a *Answer) {
	own := system(t.System)
	a.System = own
	for i := range a.Reasons {
		a.Reasons[i].Text = a.Reasons[i].Says.In(nil, own)
	}
	for _, r := range a.recipes() {
		for i := range r.Spans {
			r.Spans[i].Text = r.Spans[i].In(own)
		}
		if r.Silent {
			r.Method = bySoaking
		}
	}
}

// recipes gives the recipe of a single bath, or those of a sheet's washes.
func (a *Answer) recipes() []*Recipe {
	var list []*Recipe
	if a.Recipe != nil {
		list = append(list, a.Recipe)
	}
	for i := range a.Steps {
		list = append(list, &a.Steps[i])
	}
	return list
}

// bySoaking is how parts are cleaned that no sound may reach, or where there is none.
const bySoaking = "by hand or soak, no sound"

// answer decides, and leaves reasons and recipe to be put into words.
func (t *Table) answer(q Question) (Answer, error) {
	bath, err := t.asked(q)
	if err != nil {
		return Answer{}, err
	}
	l, err := t.load(q)
	if err != nil {
		return Answer{}, err
	}
	return t.decide(l, []Bath{*bath}, t.afterAs(bath, q.As)), nil
}

// load is what a question is about.
func (t *Table) load(q Question) (load, error) {
	var l load
	for _, name := range q.Materials {
		m := named(t.Materials, name)
		if m == nil {
			return l, &UnknownError{"material", name}
		}
		l.materials = append(l.materials, m)
	}
	if q.Soil != "" {
		s := named(t.Soils, q.Soil)
		if s == nil {
			return l, &UnknownError{"soil", q.Soil}
		}
		l.soils = append(l.soils, s)
	}
	return l, nil
}

// after is what comes after a tank on the line.
func (t *Table) after(b *Bath) line {
	if b.Tank == nil {
		return line{}
	}
	return line{rinses: t.rinsesOf(b.Tank.Rinses)}
}

// SheetOf decides about a part that need not be one of the table's.
func (t *Table) SheetOf(p *PartSheet) Answer {
	l := load{features: p.Features, conceded: p.Concessions, said: map[string]finding.Place{}}
	strange := func(r fact.Ref) {
		l.unknown = append(l.unknown, unknown(Say("The sheet of {part} names {name}, which this manual does not know: not checked.", titled(p), Title(r.Name))).by(r.At))
	}
	for _, r := range p.Materials {
		if m := named(t.Materials, r.Name); m != nil {
			l.materials = append(l.materials, m)
		} else {
			strange(r)
		}
	}
	for _, r := range p.Soils {
		if s := named(t.Soils, r.Name); s != nil {
			l.soils = append(l.soils, s)
			l.said[s.Name] = r.At
		} else {
			strange(r)
		}
	}
	if len(p.Materials) > 0 {
		l.said[""] = p.Materials[0].At
	}
	var baths []Bath
	for i := range p.Steps {
		step := &p.Steps[i]
		b, known := t.InStep(step)
		if known {
			baths = append(baths, b)
		} else {
			strange(step.Chemistry)
		}
		if known && step.Tank.Name != "" && b.Tank == nil {
			strange(step.Tank)
		}
	}
	if len(baths) == 0 {
		l.unknown = append(l.unknown, unknown(Say("The sheet of {part} names no wash that this manual knows: not checked.", titled(p))).by(p.first()))
	}
	after := line{sheet: true}
	for _, r := range p.Rinse {
		rinses := t.rinsesOf([]string{r.Name})
		for _, rinse := range rinses {
			after.rinses, after.rinsesAt = append(after.rinses, rinse), append(after.rinsesAt, r.At)
		}
		if len(rinses) == 0 {
			strange(r)
		}
	}
	switch {
	case p.Dry.Name == "":
	case p.Dry.Name == t.Dryer.ID:
		after.dryer, after.dryerAt = &t.Dryer, p.Dry.At
	default:
		strange(p.Dry)
	}
	return t.decide(l, baths, after)
}

func (t *Table) rinsesOf(ids []string) []*Rinse {
	var list []*Rinse
	for _, id := range ids {
		for i := range t.Rinses {
			if t.Rinses[i].ID == id {
				list = append(list, &t.Rinses[i])
			}
		}
	}
	return list
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

	// Signal is the gravest signal word of its chemistry's safety messages, which are told where the bath is asked about; "" where it has none.
	Signal string `json:"signal,omitempty"`
}

// Instead lists the other baths that would take the same load: tanks first, and of each those without conditions first.
// The error is an *UnknownError.
func (t *Table) Instead(q Question) ([]Alternative, error) {
	l, err := t.load(q)
	if err != nil {
		return nil, err
	}
	var list []Alternative
	baths := t.Baths()
	verdicts := make([]Verdict, len(baths))
	for i := range baths {
		if baths[i].Name != q.Bath {
			verdicts[i] = t.verdict(l, baths[i:i+1], t.after(&baths[i]))
		}
	}
	for _, tank := range []bool{true, false} {
		for _, v := range []Verdict{Yes, Conditions} {
			for i := range baths {
				if b := &baths[i]; verdicts[i] == v && (b.Tank != nil) == tank {
					list = append(list, Alternative{b.Name, b.Title, tank, v, b.Chemistry.gravest()})
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

func nameOf(w What) string {
	if w == PH {
		return "pH"
	}
	return string(w)
}

// first is the beginning of an article, where something is missing that has no place.
func (i *Item) first() finding.Place { return finding.Place{File: i.Path, Line: 1, Column: 1} }

// Brief is what to keep to, in a few words, for a cell, a list or a card: every condition, and every limit within a yes. It is empty where
// the answer is no, or where nothing is to be kept to beyond what the bath has anyway.
func (a *Answer) Brief(w language.Words, units quantity.System) string {
	if a.Verdict == No {
		return ""
	}
	var said []string
	for _, what := range append([]What{""}, everything...) {
		for _, r := range a.Reasons {
			if r.sort != what || !r.Keeps() {
				continue
			}
			if text := r.Brief.Within(w, units); !slices.Contains(said, text) {
				said = append(said, text)
			}
		}
	}
	return strings.Join(said, "; ")
}

// Keeps tells whether a reason is something to keep to.
func (r Reason) Keeps() bool { return r.Brief.Phrase != "" }
