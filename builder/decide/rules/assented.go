package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// assented finds a question whether a material may go into a bath that is answered with yes, where the decision is no: “What about Wash 1? Go ahead, two minutes do not show”.
func (p *proof) assented(a *manual.Article, said []sentence.Sentence) []finding.Finding {
	var list []finding.Finding
	for i := 1; i < len(said); i++ {
		one, two := &said[i-1], &said[i]
		if one.Block != two.Block || one.Quiet() || one.TakenBack || two.TakenBack || !mayItGo(one) || !grants(two) {
			continue
		}
		for j := range one.Mentions {
			m := &one.Mentions[j]
			if !bathNamed(one, m) || comparesBaths(one) || comparesBaths(two) {
				continue
			}
			if work := p.workOf(a, one, m); len(work.materials) > 0 {
				if f := p.putIntoNamed(a, one, m, &work); f != nil {
					list = append(list, *f)
				}
			}
		}
	}
	return list
}

// mayItGo tells whether a question asks whether something may be done, and speaks of no harm: “May brass go into Wash 1?”, “What about Wash 1?”, “Wash 2 for a bare board?”.
func mayItGo(s *sentence.Sentence) bool {
	if !asks(s) {
		return false
	}
	list := plainWords(s)
	if len(list) > 0 && (list[0] == "q" || list[0] == "and" || list[0] == "so" || list[0] == "but") {
		list = list[1:]
	}
	if len(list) < 2 || slices.ContainsFunc(list, func(w string) bool {
		return blames[w] || ills[w] || suffers[w] || noWords[w] || badLooks[w] || w == "too"
	}) {
		return false
	}
	switch first := list[0]; {
	case leaveVerbs[first]:
		return true
	case first == "what" || first == "how":
		return list[1] == "about"
	}
	if askWords[list[0]] {
		return false
	}
	return s.Clauses[0].Mood == sentence.Fragment || s.Clauses[0].Mood == sentence.Ask && len(list) < 8 && !slices.ContainsFunc(list, func(w string) bool { return askVerbs[w] })
}

// grants tells whether an answer begins with leave, and names no harm.
func grants(s *sentence.Sentence) bool {
	if s.Question {
		return false
	}
	list := plainWords(s)
	if len(list) > 0 && list[0] == "a" {
		list = list[1:]
	}
	if len(list) == 0 || list[0] != "why" && hasWord(list[:min(3, len(list))], noWords) || slices.ContainsFunc(list, func(w string) bool { return suffers[w] || exceptions[w] || badLooks[w] || w == "but" || w == "if" }) {
		return false
	}
	return leaveWords[list[0]] || len(list) > 1 && slices.Contains(leavePhrases, list[0]+" "+strings.TrimRight(list[1], "."))
}

// sentTo finds a bath that stands alone behind a colon, and before it where the work goes: “The brass goes where the steel goes: Wash 1”.
func (p *proof) sentTo(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Block.Kind == sentence.Cell || comparesBaths(s) || denied(s) || illOf(s) || s.Has(ifs) || s.Has(exceptions) || s.Has(causeNouns) || s.Has(notOfWork) {
		return nil
	}
	for i := range s.Mentions {
		m := &s.Mentions[i]
		k := s.ClauseOf(m)
		if !bathNamed(s, m) || k == 0 || s.Before(m) != ":" || s.After(m) != "" && s.After(m) != "." || s.Clauses[k-1].Mood == sentence.Was || !placed(s, k) {
			continue
		}
		work := p.workOf(a, s, m)
		if len(work.materials) == 0 {
			continue
		}
		if bath, one := p.oneBath(s, m); one {
			return p.putInto(a, s, m, &bath, &work)
		}
	}
	return nil
}

// placed tells whether a clause before one says where something goes.
func placed(s *sentence.Sentence, k int) bool {
	for j := range k {
		if s.ClauseHas(j, placings) && s.Clauses[j].Mood != sentence.Was {
			return true
		}
	}
	return false
}

// tabledYes finds a cell that says yes to a material in a bath, or on a chemistry's page gives a material a time, where the decision is no.
func (p *proof) tabledYes(a *manual.Article, said []sentence.Sentence) []finding.Finding {
	var first *sentence.Sentence
	for i := range said {
		s := &said[i]
		if s.Block.Kind != sentence.Cell {
			continue
		}
		if s.Block.First {
			first = s
			continue
		}
		if first == nil || first.Text() != strings.TrimSpace(s.Block.Row) || !cellAdmits(a, s) {
			continue
		}
		bath, work := p.rowAndColumn(a, s, first)
		if bath == nil || len(work.materials) == 0 {
			continue
		}
		why, no := p.refusedAll(bath, work.materials, work.part != nil)
		if no {
			return []finding.Finding{textAgainstDecision.At(placeIn(a, s.Block, s.From+leading(s)), fmt.Sprintf("The table lets %s into %s, and the decision is no. %s", work.name(), bath.name(), why), "Correct the cell, or the headers that decide.")}
		}
	}
	return nil
}

// cellAdmits tells whether a cell says yes, or on a chemistry's page, under a head of time, gives a time.
func cellAdmits(a *manual.Article, s *sentence.Sentence) bool {
	list := plainWords(s)
	if len(list) == 1 && yesCells[strings.TrimRight(list[0], ".")] {
		return true
	}
	head := strings.Fields(strings.ToLower(s.Block.Column))
	return a.Chemistry != nil && len(head) == 1 && timeHeads[head[0]] && len(s.Quantities) == 1 && s.Quantities[0].Kind == quantity.Time && s.Quantities[0].Range.Low > 0 && len(list) < 4
}

// rowAndColumn gives the bath and the work of which a cell speaks: the one is its row and the other its column, or the article's own.
func (p *proof) rowAndColumn(a *manual.Article, s, first *sentence.Sentence) (*spokenOf, spokenOf) {
	row, column := p.inCell(a, first), p.calledByHead(s.Block.Column)
	own := p.ownSubject(a, "")
	switch {
	case len(row.chemistries) == 1 && len(column.materials) > 0:
		return &row, column
	case len(column.chemistries) == 1 && len(row.materials) > 0:
		return &column, row
	case a.Chemistry != nil && !a.Partial && len(row.materials) > 0 && (len(s.Quantities) > 0 || fitHead(s.Block.Column)):
		return &own, row
	}
	return nil, spokenOf{}
}

// fitHead tells whether the head of a column asks whether something may go in: “Fit?”, “allowed”.
func fitHead(head string) bool {
	list := strings.FieldsFunc(strings.ToLower(head), func(r rune) bool { return !(r >= 'a' && r <= 'z') })
	return len(list) > 0 && !slices.ContainsFunc(list, func(w string) bool { return !fitHeads[w] })
}

// inCell gives the one thing that a first cell names.
func (p *proof) inCell(a *manual.Article, first *sentence.Sentence) spokenOf {
	if len(first.Mentions) != 1 || first.Mentions[0].Thing == nil || len(strings.Fields(first.Text())) > len(strings.Fields(first.Mentions[0].Word))+2 {
		return spokenOf{}
	}
	return p.ofMention(a, &first.Mentions[0])
}

// calledByHead gives what the head of a column calls by its name.
func (p *proof) calledByHead(head string) spokenOf {
	for i := range p.Shop.Tanks {
		if t := &p.Shop.Tanks[i]; strings.EqualFold(t.Name, strings.TrimSpace(head)) {
			return p.ofTank(t)
		}
	}
	switch named := p.called(plainName(head)); {
	case named == nil || named.Partial:
	case named.Material != nil:
		return spokenOf{materials: []*manual.Article{named}}
	case named.Chemistry != nil:
		return spokenOf{chemistries: []*manual.Article{named}}
	}
	return spokenOf{}
}

var (
	leaveVerbs   = sentence.Set("may can could should shall")
	askWords     = sentence.Set("what how why when where who which does do did is are was has have")
	askVerbs     = sentence.Set("clean cleans help helps happens fails smells works")
	leaveWords   = sentence.Set("yes sure certainly gladly fine ok okay absolutely definitely")
	leavePhrases = []string{"go ahead", "by all", "of course", "feel free", "no problem", "why not", "no objection", "just do", "they may", "it may", "they can", "it can"}
	placings     = sentence.Set("go goes belong belongs ride rides join joins same follow follows travel travels")
	yesCells     = sentence.Set("yes ok okay fine good allowed suits fits suitable safe")
	fitHeads     = sentence.Set("fit fits suits suitable ok okay allowed may can it go goes in safe welcome here admitted permitted")
	timeHeads    = sentence.Set("time minutes dwell dip soak")
)
