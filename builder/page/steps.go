package page

import (
	"html/template"

	"tankside/builder/manual"
	"tankside/builder/tree"
)

// step is a question or a remedy of a symptom's tree.
type step struct {
	Anchor, Heading string
	Before          []string // anchors by which it was found before
	Number          int
	Remedy          bool
	Body            template.HTML // all of it
	Screen          screen        // the same, taken apart
	Reading         *reading      // what it wants measured
	Answers         []answer
}

// reading asks for the number that picks an answer.
type reading struct {
	Name  string // what is measured, for those who hear it
	Of    string // what stands behind the unit
	Asks  string // the quantity of a record that it is, or ""
	Units []readingUnit
}

// readingUnit is a unit in which the number may be given: times and plus make of it one in the unit of the limits.
type readingUnit struct {
	Symbol string  `json:"symbol"`
	Times  float64 `json:"times"`
	Plus   float64 `json:"plus"`
	First  bool    `json:"first"` // for readers of the system that stands first
	System string  `json:"system"`
}

// answer is one of the ways on from a step. Number is the step it goes to, zero when it leads to another page.
type answer struct {
	Text, Href, Target string
	Hreflang           string // of the page it leads to, where that is in another language
	Number             int
	Pick               *pick  // the numbers that pick it
	Section            string // on paper, the number of the section that it leads to
}

// steps turns the sections of a symptom into the steps of its walk, numbered as on paper.
func (b *body) steps(parts []part) []step {
	numbers := map[string]int{}
	titles := map[string]string{}
	for i, p := range parts {
		numbers["#"+p.section.Anchor] = i + 1
		titles["#"+p.section.Anchor] = p.section.Heading
	}
	var steps []step
	for i, p := range parts {
		st := step{Anchor: b.s.anchor(p.section.Anchor), Before: b.s.aliases(b.a, p.section.Anchor), Heading: p.section.Heading, Number: i + 1, Body: p.html, Screen: p.screen, Remedy: len(p.section.Answers) == 0}
		asked := tree.ReadingOf(b.inOriginal(p.section))
		st.Reading = b.reading(asked, p.section)
		for place, a := range p.section.Answers {
			way, ok := b.leads(a.Link.Target)
			if !ok {
				continue // reported by the rules; a way that leads nowhere is not offered
			}
			st.Answers = append(st.Answers, answer{Text: a.Text, Href: way.href, Hreflang: way.language, Target: b.target(a, titles), Number: numbers[a.Link.Target], Section: way.number, Pick: pickOf(asked, place)})
		}
		steps = append(steps, st)
	}
	return steps
}

// target says where an answer leads.
func (b *body) target(a manual.Answer, titles map[string]string) string {
	if t, ok := titles[a.Link.Target]; ok {
		return t
	}
	return a.Link.Text
}
