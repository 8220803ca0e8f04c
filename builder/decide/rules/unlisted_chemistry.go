package rules

import (
	"fmt"
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// unlistedChemistry finds steps of a procedure that use a chemistry which its header does not name. It prevents that hazards, protective
// equipment and what must never meet are checked for the chemistries of the header, and somebody handles another.
// The limit is the procedure's own header: chemistry, and what is in its tanks.
var unlistedChemistry = finding.Rule{
	Name: "unlisted-chemistry", Severity: finding.People,
	Finds:  "a step of a procedure that uses a chemistry which the header does not name",
	Why:    "Protective equipment and what must never meet are checked by the header; for this chemistry nobody has checked them.",
	Source: "the procedure's header",
}

var handles = sentence.Set("dab daub mop polish moisten drench loosen soften remove lift dissolve add pour use dose fill dip rinse wash put clean mix dilute soak spray wipe charge apply immerse measure take top brush descale derust degrease stir tip swill sponge flush scrub swab paint brush-on empty splash sprinkle tumble finish treat neutralise neutralize top-up etch pickle strip brighten run let pump circulate spread rub squirt")

func findUnlistedChemistries(p *proof, a *manual.Article) []finding.Finding {
	if a.Procedure == nil {
		return nil
	}
	listed := named(p, manual.Chemistry, a.Procedure.Chemistries)
	for _, t := range a.Procedure.Tanks {
		if tank := p.Shop.Tank(t.Name); tank != nil {
			if c := p.Named(manual.Chemistry, tank.Chemistry.Name); c != nil {
				listed = append(listed, c)
			}
		}
	}
	var list []finding.Finding
	said := p.reading(a)
	for i := said.summary; i < len(said.sentences); i++ {
		s := &said.sentences[i]
		if c, from := p.bareInStep(s, listed); c != nil {
			list = append(list, unlistedChemistry.At(placeIn(a, s.Block, from), fmt.Sprintf("The step uses %s, which the header's chemistry does not name.", c.Head.Title), "Add it to chemistry in the header, with its hazards and protective equipment, or take it out here.", at(a, "chemistry")))
			continue
		}
		if len(s.Mentions) == 0 || s.Block.Signal != "" || s.Block.Kind == sentence.Heading || s.Block.Kind == sentence.Cell {
			continue
		}
		for j := range s.Mentions {
			m := &s.Mentions[j]
			c := &s.Clauses[s.ClauseOf(m)]
			if m.Thing.Kind() != manual.Chemistry || m.Where || c.Opener != "" || against(s, s.ClauseOf(m)) || s.Has(conditional) || elsewhere(s) {
				continue
			}
			if s.Has(speakers) && !s.Block.Steps {
				continue // what the shop uses elsewhere is no step
			}
			if !(c.Mood == sentence.Do && handles[c.Verb]) && !usedIn(s, m, c) {
				continue
			}
			chemistry := m.Thing.One(p.Manual, manual.Chemistry)
			if chemistry == nil || slices.Contains(listed, chemistry) || !slices.ContainsFunc(chemistry.Chemistry.Hazards, func(h manual.Ref) bool { return hurtsPeople(h.Name) }) {
				continue
			}
			list = append(list, unlistedChemistry.At(placeIn(a, s.Block, m.From), fmt.Sprintf("The step uses %s, which the header's chemistry does not name.", chemistry.Head.Title), "Add it to chemistry in the header, with its hazards and protective equipment, or take it out here.", at(a, "chemistry")))
		}
	}
	return list
}

// bareInStep gives the chemistry that a numbered step puts something into, or uses, by a name of its header alone, where the procedure does not list it: “give the part half a
// minute in caustic”. One word is a name where it is one of acid or alkali, for “soap” may be any.
func (p *proof) bareInStep(s *sentence.Sentence, listed []*manual.Article) (*manual.Article, int) {
	if !s.Block.Steps || s.Quiet() || s.Question || s.TakenBack || s.Block.Signal != "" || s.Has(conditional) || s.Has(waste) || denied(s) || illOf(s) {
		return nil, 0
	}
	words := s.Tokens()
	for i, w := range words {
		c := &s.Clauses[w.Clause]
		if c.Mood != sentence.Do || c.Opener != "" || !ruled(words, i) || s.ClauseHas(w.Clause, looks) || tankWords[wordAt(words, i+1)] || jugs[wordAt(words, i+1)] {
			continue
		}
		called := p.chemistryCalled(words, i)
		if called == nil && alkalis[w.Text] {
			if b := p.called(w.Text); b != nil && b.Chemistry != nil && !b.Partial {
				called = b
			}
		}
		if called != nil && !slices.Contains(listed, called) && slices.ContainsFunc(called.Chemistry.Hazards, func(h manual.Ref) bool { return hurtsPeople(h.Name) }) {
			return called, w.From
		}
	}
	return nil, 0
}

// ruled tells whether “in”, “into”, “with” or “through” stands right before the name at a place.
func ruled(words []sentence.Token, i int) bool {
	before := textAt(words, i-1)
	if articleOrHeat[before] {
		before = textAt(words, i-2)
	}
	return before == "in" || before == "into" || before == "with" || before == "through"
}

var conditional = sentence.Set("unless instead")

// usedIn tells whether a clause without a command says that a chemistry is used: “steel goes into phosphoric acid for a minute”, “a capful of it
// goes into Wash 1”, “the rim is wiped with it”.
func usedIn(s *sentence.Sentence, m *sentence.Mention, c *sentence.Clause) bool {
	if c.Mood != sentence.Is && c.Mood != sentence.Do && c.Mood != sentence.Fragment && !(c.Mood == sentence.If && c.Opener == "") {
		return false
	}
	k := s.ClauseOf(m)
	if s.ClauseHas(k, waste) {
		return false
	}
	if s.Block.Steps && dosedOut(s, m) && !denied(s) && !illOf(s) && !s.ClauseHas(k, equated) {
		return true // “Two drops of emulsion on the surface and the bubbles are gone”
	}
	if b := s.Before(m); c.Mood == sentence.Do && (c.Verb == "reach" || c.Verb == "resort" || c.Verb == "switch" || c.Verb == "go") && (b == "for" || b == "to") && !s.ClauseHas(k, looks) && !denied(s) {
		return true // “reach for the caustic”
	}
	if b := s.Before(m); s.Block.Steps && c.Mood == sentence.Do && (b == "into" || b == "through" || b == "of" && s.ClauseHas(k, portions) && s.ClauseHas(k, withWord)) && !s.ClauseHas(k, looks) {
		return true // “Swing it through citric acid”, “Speed it up with half a litre of terpene”
	}
	if s.Before(m) == "in" && (c.Mood == sentence.Do && dipsOrHolds[c.Verb] || (c.Mood == sentence.Fragment || c.Mood == sentence.Do) && s.ClauseHas(k, shortDip)) && !s.ClauseHas(k, looks) {
		return true // “Give it a short dip in sulfamic acid”, “A minute in caustic, then the last rinse”
	}
	switch s.Before(m) {
	case "into", "in", "through", "with":
		return s.ClauseHas(k, wentIn) || s.ClauseHas(k, helpsOff) && !s.ClauseHas(k, looks) && !s.ClauseHas(k, equated) && !denied(s) && !illOf(s)
	case "of":
		return s.ClauseHas(k, portions) && s.ClauseHas(k, wentIn)
	}
	return false
}

var (
	dipsOrHolds = sentence.Set("hold dip hang keep leave let put place swirl swing steep lay soak immerse")
	shortDip    = sentence.Set("dip minute minutes seconds second soak")
	speakers    = sentence.Set("we shops people others")
	waste       = sentence.Set("waste sample bottle shelf store stored kept sheet page lesson article drum label sold delivered table")
	wentIn      = sentence.Set("stay stays hang hangs lie lies goes go comes put poured added dipped soaked wiped washed rinsed swilled scrubbed cleaned brushed dosed given gets get tipped immersed sprayed flushed descaled treated finished takes")
	helpsOff    = sentence.Set("come comes off does helps help disappear disappears vanish vanishes")
	withWord    = sentence.Set("with by")
	looks       = sentence.Set("look read see go work compare leaf change")
	portions    = sentence.Set("dab touch trace film wipe cap glug squirt pinch capful cup cupful litre litres splash dash bit drop drops jug bucket scoop handful little shot some spoonful spoon teaspoon ml mL half")
)
