package rules

import (
	"fmt"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// wrongWater finds a sentence that gives a rinse of the shop another water than the shop file: “The last rinse is fed with mains water”.
func (p *proof) wrongWater(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Thing == nil || m.Thing.Rinse == nil || m.Where || m.Thing.Rinse.Water == "" || s.TakenBack || s.Question || s.Block.Signal != "" || s.Block.Kind == sentence.Cell {
			continue
		}
		k := s.ClauseOf(m)
		c := &s.Clauses[k]
		if c.Opener != "" || c.Mood != sentence.Is && c.Mood != sentence.Do && c.Mood != sentence.Fragment || denies(s, k) || illOf(s) || unsteadyWater(s) || elsewhere(s) || !givenWater[s.After(m)] && s.After(m) != ":" {
			continue
		}
		if s.After(m) == ":" { // “Last rinse: mains water”
			if k++; k >= len(s.Clauses) || denies(s, k) {
				continue
			}
		}
		n := 0
		words := s.Tokens()
		for i, w := range words {
			if w.From < m.To || w.Clause != k && !(s.After(m) == ":" && w.Clause == k+1) {
				continue
			}
			if n++; n > 5 {
				break
			}
			water := waterKinds[w.Text]
			if water == "" || i+1 < len(words) && words[i+1].Text == "rinse" {
				continue
			}
			if water == waterKinds[strings.ToLower(m.Thing.Rinse.Water)] || waterKinds[strings.ToLower(m.Thing.Rinse.Water)] == "" {
				break
			}
			f := numberAgainstModel.At(placeIn(a, s.Block, w.From), fmt.Sprintf("The text says %s water of %s, which has %s water.", water, m.Thing.Rinse.Name, m.Thing.Rinse.Water),
				"Correct the water here, or in the shop file.")
			return &f
		}
	}
	return nil
}

// unsteadyWater tells whether a sentence is about another water than the one that always feeds the rinse. “Filled from the tap” is about that one.
func unsteadyWater(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i, w := range words {
		if noSteadyWater[w.Text] && !(w.Text == "from" && (waterKinds[wordAt(words, i+1)] != "" || waterKinds[wordAt(words, i+2)] != "")) {
			return true
		}
	}
	return false
}

var (
	waterKinds    = map[string]string{"mains": "mains", "tap": "mains", "deionised": "deionised", "deionized": "deionised", "demineralised": "deionised"}
	givenWater    = sentence.Set("is has gets uses takes runs holds : , =")
	noSteadyWater = sentence.Set("if than before after behind until while when drag-out carry carries from beside between like compared test tests meter reads first-fill once today during trial made")
)
