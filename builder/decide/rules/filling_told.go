package rules

import (
	"fmt"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// wrongFilling finds a sentence that says of a tank what is in it, and the shop file says something else: “Wash 2 contains mild alkaline cleaner”. Nothing but
// the verb and articles may stand between the two: “Wash 1 takes parts from the descaler” says nothing of the kind.
func (p *proof) wrongFilling(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Question || s.TakenBack || s.Block.Kind == sentence.Cell || s.Block.Signal != "" || len(s.Mentions) != 2 || illOf(s) || s.Harmful() || s.Has(exceptions) || s.Has(noWords) || s.Has(ofOneDay) || elsewhere(s) || ofAnother(s) {
		return nil
	}
	tank, chemistry := &s.Mentions[0], &s.Mentions[1]
	if tank.Thing == nil || tank.Thing.Tank == nil || tank.Where || !chemistry.Thing.Single(manual.Chemistry) {
		return nil
	}
	k := s.ClauseOf(tank)
	if c := &s.Clauses[k]; c.Opener != "" || c.Mood != sentence.Is && c.Mood != sentence.Do && c.Mood != sentence.Fragment || s.ClauseOf(chemistry) != k || s.ClauseHas(k, longAgo) {
		return nil
	}
	filled := false
	for _, w := range s.Tokens() {
		if w.From < tank.To || w.From >= chemistry.From {
			continue
		}
		if !fillsWith[w.Text] && !eachWords[w.Text] {
			return nil
		}
		filled = filled || containsIt[w.Text]
	}
	t := tank.Thing.Tank
	if !filled || t.Chemistry.Name == "" || chemistry.Thing.Called(t.Chemistry.Name) {
		return nil
	}
	said, in := chemistry.Thing.One(p.Manual, manual.Chemistry), p.Named(manual.Chemistry, t.Chemistry.Name)
	if said == nil || in == nil {
		return nil
	}
	f := numberAgainstModel.At(placeIn(a, s.Block, chemistry.From), fmt.Sprintf("The text says that %s has %s in it; the shop file says %s.", t.Name, said.Head.Title, in.Head.Title), "Correct the cleaner here, or in the shop file.")
	return &f
}

var (
	containsIt = sentence.Set("contains holds filled charged run runs has")
	fillsWith  = sentence.Set("contains holds filled charged run runs has is with on always our")
)
