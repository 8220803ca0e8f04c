package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// noEndTold finds a sentence that lets work stay in a bath without an end, or over a break or a night, where its material has a longest time: “The nuts may lie
// in Wash 2 as long as it takes”, “Brass can stay in the bath over the lunch break”. The limit is that of wash-without-time.
func (p *proof) noEndTold(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Quiet() || s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || illOf(s) || s.Harmful() || s.Has(exceptions) || s.Has(heatOff) || s.Has(refusals) || hasTimes(s) || elsewhere(s) {
		return nil
	}
	text := strings.ToLower(s.Block.Text[s.From:s.To])
	if !slices.ContainsFunc(endlessBegins, func(piece string) bool { return strings.Contains(text, piece) }) {
		return nil
	}
	at := endless.FindStringIndex(text)
	if at == nil {
		return nil
	}
	k := 0
	for _, w := range s.Tokens() {
		if w.From-s.From <= at[0] {
			k = w.Clause
		}
	}
	for k > 0 && s.Clauses[k].Opener != "" {
		k--
	}
	if strings.HasPrefix(text[at[0]:], "while you") && !s.ClauseHas(k, liesIn) {
		return nil // “Switch Wash 2 on while you have your coffee”
	}
	c := &s.Clauses[k]
	if c.Opener != "" || c.Mood == sentence.Was || c.Mood == sentence.MustNot || c.Mood == sentence.Example || denies(s, k) || s.ClauseHas(k, longAgo) || !s.ClauseHas(k, restsIn) || blamed(s, k) || valence(s, k) < 0 {
		return nil
	}
	work := p.workOf(a, s, bathMention(s, k))
	if !inItsBath(s, k, bathMention(s, k) != nil) {
		return nil
	}
	for _, b := range work.materials {
		if l := b.Material.Time; l.Set {
			f := textAgainstDecision.At(placeIn(a, s.Block, s.From+at[0]), fmt.Sprintf("The text lets it stay in without an end; the limit of %s is %s in one visit.", b.Head.Title, l.In(p.Shop.System())), "Give the time, within the limit.", l.At)
			return &f
		}
	}
	return nil
}

// bathMention gives the tank or chemistry that a clause names, or nil.
func bathMention(s *sentence.Sentence, k int) *sentence.Mention {
	for i := range s.Mentions {
		if m := &s.Mentions[i]; m.Thing.Bath() && s.ClauseOf(m) == k {
			return m
		}
	}
	return nil
}

var (
	// endlessBegins are pieces of which endless has one: looking for them is quick, and most sentences have none.
	endlessBegins = []string{"long", "any length", "over ", "overnight", "through ", "all ", "whole ", "hours", "until ", "indefinitely", "without a ", "matter how", "while you"}
	endless       = expression.Of(`\b(?:as long as (?:it takes|you like|you want|you please|needed|necessary)|(?:for )?as long as (?:it|they) (?:takes?|needs?)|any length of time|over ?night|over the (?:\w+ )?(?:break|weekend|night|shift)|over (?:lunch|breakfast|the weekend|night)|through (?:lunch|the break|the night)|(?:all|the whole) (?:day|night|shift|morning)|for hours|until (?:it|they) (?:looks?|is|are|comes? out) (?:\w+ )?clean|until (?:morning|tomorrow|monday|somebody has time|you are back)|until you (?:come|are|get) back|until after (?:lunch|the break|breakfast)|while you (?:have|drink|get|eat|take|fetch|are (?:away|at|having|on)) ?(?:\w+ ){0,2}(?:coffee|tea|lunch|break|breakfast|away|dinner|phone)|indefinitely|without a (?:clock|timer|time limit|limit)|no matter how long|however long)\b`)
	refusals      = sentence.Set("never not nobody cannot don't nothing")
	restsIn       = sentence.Set("stay stays lie lies hang hangs leave left soak soaks remain remains sit sits rest rests be bathe keep kept wash washed sonicate sonicated may can")
	liesIn        = sentence.Set("stay stays lie lies hang hangs leave left soak soaks remain remains sit sits rest rests")
	heatOff       = sentence.Set("rinse last-rinse rack shelf drain drained lid cover water dryer oven hook line however-long heater heat")
)
