package page

import (
	"html/template"

	"tankside/builder/manual"
)

// step is a question or a remedy of a symptom's tree.
type step struct {
	Anchor, Heading string
	Number          int
	Remedy          bool
	Body            template.HTML
	Answers         []answer
}

// answer is one of the ways on from a step. Number is the step it goes to, zero when it leads to another page.
type answer struct {
	Text, Href, Target string
	Hreflang           string // of the page it leads to, where that is in another language
	Number             int
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
		st := step{Anchor: b.s.anchor(p.section.Anchor), Heading: p.section.Heading, Number: i + 1, Body: p.html, Remedy: len(p.section.Answers) == 0}
		for _, a := range p.section.Answers {
			way, ok := b.leads(a.Link.Target)
			if !ok {
				continue // reported by the rules; a way that leads nowhere is not offered
			}
			st.Answers = append(st.Answers, answer{Text: a.Text, Href: way.href, Hreflang: way.language, Target: b.target(a, titles), Number: numbers[a.Link.Target], Section: way.number})
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
