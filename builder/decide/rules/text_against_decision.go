package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// textAgainstDecision finds text that recommends what the decision refuses: “Wash 1 fits brass”, a remedy that puts aluminium into caustic, a
// material's page that says to use a bath that attacks it. It prevents that somebody follows the sentence and not the table.
// The limit is the decision of “May it go in?”: it speaks up only where that is a plain no, for every material that the word can mean.
var textAgainstDecision = finding.Rule{
	Name: "text-against-decision", Severity: finding.Parts,
	Finds:  "a text that puts a material into a bath, or calls it fit for one, that the decision refuses, or a soil into one that does not take it off; and one that forbids what the decision allows",
	Why:    "Whoever follows the wrong one ruins the part; whoever sees both trusts neither.",
	Source: "the exclusions and limits of package relate, with their sources",
}

var (
	// What is said of a bath that may be used.
	approves = sentence.Set("fits fit suits suit safe fine harmless suitable right good ideal works work cleans clean recommended best perfect gentle kind ok okay allowed welcome belongs belong copes accepts washes come comes removed dissolved stripped brightened rubbed wiped recommend recommends goes")
	// What is done with a part and a bath.
	puts = sentence.Set("wash clean use take put soak dip place load lower immerse degrease derust descale strip brighten treat send run try choose move give hang drop leave process sonicate submerge bathe steep pick finish start follow dissolve remove washed cleaned soaked dipped placed lowered immersed degreased derusted descaled stripped treated removed dissolved brightened processed wipe wiped rub rubbed used taken finished is are may can")
	// What takes the part out again, or is said of another use of the bath.
	notUsed = sentence.Set("rinse flush neutralise titrate label add pour top mix dose fill keep store drain cool let check measure test dry blow away out apart separate instead except unless without than quarantine stop scrap discard dismantle warning suspect ask discarded scrapped exposed")
)

func findTextAgainstDecision(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	said := p.reading(a)
	for i := range said.sentences {
		if f := p.againstDecision(a, &said.sentences[i]); f != nil {
			list = append(list, *f)
		}
	}
	for i := range said.replies {
		if f := p.againstDecision(a, &said.replies[i]); f != nil && !slices.ContainsFunc(list, func(o finding.Finding) bool { return o.Line == f.Line }) {
			list = append(list, *f)
		}
	}
	list = append(list, p.assented(a, said.sentences)...)
	return append(list, p.tabledYes(a, said.sentences)...)
}

// againstDecision gives what is wrong with one sentence.
func (p *proof) againstDecision(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if f := p.intoNoTank(a, s); f != nil {
		return f
	}
	if s.Quiet() || s.Block.Kind == sentence.Heading || s.Question {
		return nil
	}
	if s.Block.Signal != "" {
		return p.forbiddenOrHarmed(a, s)
	}
	spoilt := turnsBad(s) || holderFor(s)
	tell := []func(*manual.Article, *sentence.Sentence) *finding.Finding{p.attackedBySubstance, p.wetIntoDryer, p.fireInText, p.softIntoDryer, p.noEndTold, p.rinseUnneeded}
	if !spoilt {
		tell = []func(*manual.Article, *sentence.Sentence) *finding.Finding{p.usedOn, p.praised, p.attackedBySubstance, p.onOwnPage, p.wetIntoDryer, p.fireInText, p.softIntoDryer, p.noEndTold, p.rinseUnneeded, p.notTakenOff, p.tabled, p.sentTo}
	}
	if !s.Harmful() && !otherWiseIn(s) && !spoilt {
		if f := p.recommended(a, s); f != nil {
			return f
		}
	}
	for _, find := range tell {
		if f := find(a, s); f != nil {
			return f
		}
	}
	return p.forbiddenOrHarmed(a, s)
}

// forbiddenOrHarmed gives what a sentence forbids, or calls harmful, and the decision allows.
func (p *proof) forbiddenOrHarmed(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if f := p.forbiddenInText(a, s); f != nil {
		return f
	}
	return p.attackTold(a, s)
}

// otherWise are words with which a sentence speaks of an exception that somebody has decided on.
var otherWise = sentence.Set("trial written instruction approval engineer's coupon except exception only unless never not no neither nor nobody cannot don't without too")

// otherWiseIn tells whether a sentence has one of those; “boards without relays may be washed” only says which boards.
func otherWiseIn(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i, w := range words {
		if otherWise[w.Text] && !saysWhich(words, i) {
			return true
		}
	}
	return false
}

// saysWhich tells whether “without” or “no” only says which things are spoken of: “boards without relays may …”, “boards that carry no coil”.
func saysWhich(words []sentence.Token, i int) bool {
	switch next := textAt(words, i+1); words[i].Text {
	case "without":
		return manners[next] || i > 0 && i < 4 && next != "their" && next != "its" && next != "the" && leaves[textAt(words, i+2)]
	case "no":
		return textAt(words, i-1) == "with" && i < 4 || relatives[textAt(words, i-2)]
	}
	return false
}

var leaves = sentence.Set("may can is are go goes")

// turnsBad tells whether a sentence says what becomes of the work: “Brass goes dark in it”.
func turnsBad(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i, w := range words {
		if suffers[w.Text] && i > 0 && matters[words[i-1].Text] {
			return true // “In caustic aluminium dissolves”
		}
		if (w.Text == "it" || w.Text == "they") && beWords[textAt(words, i+1)] && spoiltLooks[textAt(words, i+2)] {
			return true // “two minutes of Wash 1 and it is crazed for good”
		}
		if w.Text == "with" && (textAt(words, i+1) == "it" || textAt(words, i+1) == "them") && textAt(words, i-2) == "the" && textAt(words, i-3) == "and" {
			return true // “It takes the tape off, and the paint with it”
		}
		if w.Text == "so" && (textAt(words, i+1) == "do" || textAt(words, i+1) == "does") && (textAt(words, i+2) == "the" || textAt(words, i+2) == "its") {
			return true // “White bloom disappears in it, and so does the zinc”
		}
		if becomes[w.Text] && i+1 < len(words) && (badLooks[words[i+1].Text] || w.Text == "comes" && i+2 < len(words) && words[i+1].Text == "out" && badLooks[words[i+2].Text]) {
			return true
		}
	}
	return false
}

// holderFor tells whether what goes into a bath is what holds the work: “The trays for boards may be washed in Wash 2”.
func holderFor(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i := 0; i+1 < min(len(words), 4); i++ {
		if holders[words[i].Text] && words[i+1].Text == "for" {
			return true
		}
	}
	return false
}

var (
	suffers     = sentence.Set("dissolves dissolve corrodes corrode swells swell cracks pits etches darkens stains suffers tarnishes crazes reacts")
	becomes     = sentence.Set("goes go turns turn becomes become comes gets get looks")
	badLooks    = sentence.Set("dark black brown dull grey matt green red white rough soft brittle milky cloudy sticky spotty pitted patchy blotchy bad rusty")
	spoiltLooks = sentence.Set("crazed cracked pitted etched dissolved ruined darkened stained swollen scrapped spoilt spoiled scrap clouded corroded eaten")
	holders     = sentence.Set("tray trays basket baskets rack racks frame frames box boxes carrier carriers fixture fixtures lid lids tongs hook hooks")
)

// recommended looks for a bath and a material that one clause joins.
func (p *proof) recommended(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if !bathNamed(s, m) {
			continue
		}
		c := &s.Clauses[s.ClauseOf(m)]
		work, named := p.workIn(a, s, m)
		if len(work.materials) == 0 || inRelative(s, m) || takesItself(a, s, m, s.ClauseOf(m)) {
			continue
		}
		switch c.Mood {
		case sentence.Do:
			if !puts[c.Verb] && !(into(s, m) && !reads[c.Verb]) || usedOtherwise(s, m) {
				continue
			}
			if !named && (c.Verb == "wipe" || c.Verb == "rub") {
				continue // what is wiped may be another thing
			}
			if !named && !into(s, m) && !dosedWith(s, m) && c.Verb != "use" && c.Verb != "choose" && c.Verb != "take" && c.Verb != "try" {
				continue
			}
		case sentence.Able, sentence.Is:
			if s.Has(ifs) || blamed(s, s.ClauseOf(m)) || stemsFrom(s, s.ClauseOf(m)) || aspectOf(s, m) || !s.ClauseHas(s.ClauseOf(m), approves) || !named && !standsForWork(s) && !into(s, m) || usedOtherwise(s, m) {
				continue
			}
		default:
			continue
		}
		if f := p.putIntoNamed(a, s, m, &work); f != nil {
			return f
		}
	}
	return nil
}

var ifs = sentence.Set("if")

// usedOtherwise tells whether the clause of a bath takes the part out of it, or is about another use. What is done before “then” and behind the
// name, such as a quick rinse, is no other use.
func usedOtherwise(s *sentence.Sentence, m *sentence.Mention) bool {
	k := s.ClauseOf(m)
	words := s.Tokens()
	for i, w := range words {
		if w.Text == "label" && (s.Clauses[k].Verb != "label" || treated(s, k) || s.ClauseHas(k, takenOff)) || saysWhich(words, i) || w.Text == "top" && textAt(words, i-1) == "on" || w.Text == "out" && (treatedOut(words, i) || textAt(words, i-1) == "quick") {
			continue // “Label glue is taken off with it”
		}
		if w.Clause == k && notUsed[w.Text] && (w.From < m.From || takesOut[w.Text]) {
			return true
		}
	}
	return false
}

// treatedOut tells whether “out” belongs to what is done in a bath, or to how the work looks then: “boiled out in”, “comes out bright from”.
func treatedOut(words []sentence.Token, i int) bool {
	before, next := textAt(words, i-1), textAt(words, i+1)
	return strings.HasSuffix(before, "ed") && (next == "in" || next == "with") || comeOut[before] && (looksGood[next] || next == "of")
}

var (
	takesOut = sentence.Set("away out apart separate separately instead except unless without than quarantine scrap discard discarded scrapped exposed dismantle suspect ask neutralise titrate label stop store")
	// reads are commands that do nothing with the work.
	reads = sentence.Set("read see compare check ask look note record keep store fill charge mix label test measure watch wait drain stir titrate rinse flush go write wipe wrap")
)

// dosedWith tells whether a little of a bath is what something is done with: “with a drop of terpene”.
func dosedWith(s *sentence.Sentence, m *sentence.Mention) bool {
	at := tokenOf(s, m)
	words := s.Tokens()
	return dosedOut(s, m) && slices.ContainsFunc(words[max(0, at-5):max(0, at)], func(w sentence.Token) bool { return w.Text == "with" })
}

// oneBath gives the one tank or chemistry for which a mention stands.
func (p *proof) oneBath(s *sentence.Sentence, m *sentence.Mention) (bath spokenOf, is bool) {
	if !bathNamed(s, m) {
		return bath, false
	}
	bath = p.ofThing(m.Thing)
	return bath, len(bath.tanks) == 1 || len(bath.chemistries) == 1
}

// bathNamed tells whether a sentence names a tank or one chemistry, and not only to say where something is.
func bathNamed(s *sentence.Sentence, m *sentence.Mention) bool {
	return m.Thing != nil && (m.Thing.Tank != nil || m.Thing.Single(manual.Chemistry)) && !(m.Where && s.Before(m) != "by" && !isLiked(s, m))
}

// putInto is the finding for work that the text puts into a bath; nil where the decision is not no.
func (p *proof) putInto(a *manual.Article, s *sentence.Sentence, m *sentence.Mention, bath, work *spokenOf) *finding.Finding {
	why, no := p.refusedAll(bath, work.materials, work.part != nil)
	if !no {
		return nil
	}
	f := textAgainstDecision.At(placeIn(a, s.Block, max(0, m.From)), fmt.Sprintf("The text puts %s into %s, and the decision is no. %s", work.name(), bath.name(), why),
		"Name a bath that suits it, or correct the headers that decide.")
	return &f
}

// putIntoNamed is the same for the bath that is mentioned. It is asked for here, last: what asks for a chemistry is looked at again when that changes.
func (p *proof) putIntoNamed(a *manual.Article, s *sentence.Sentence, m *sentence.Mention, work *spokenOf) *finding.Finding {
	bath, one := p.oneBath(s, m)
	if !one {
		return nil
	}
	return p.putInto(a, s, m, &bath, work)
}

func standsForWork(s *sentence.Sentence) bool {
	for i := range s.Mentions {
		if m := &s.Mentions[i]; m.Stands && !isBathWord(m.Word) {
			return true
		}
	}
	return false
}

// into tells whether a bath is where something goes, or what it is done with.
func into(s *sentence.Sentence, m *sentence.Mention) bool {
	switch s.Ruler(m) {
	case "in", "into", "with", "through", "to", "by":
		return true
	}
	return false
}

// workIn gives the material or part that the sentence joins with a bath: named in its clause, or the article's own.
func (p *proof) workIn(a *manual.Article, s *sentence.Sentence, bath *sentence.Mention) (spokenOf, bool) {
	others := false
	for i := range s.Mentions {
		m := &s.Mentions[i]
		others = others || m != bath && m.Thing.Kind() == manual.Material && ofOtherBath(s, bath, m)
		if m == bath || m.Where && s.Before(m) != "off" && s.Before(m) != "from" || m.Thing.Kind() != manual.Material && m.Thing.Kind() != manual.Part || ofOtherBath(s, bath, m) || s.ClauseOf(m) != s.ClauseOf(bath) && !(s.ClauseOf(m) == s.ClauseOf(bath)-1) {
			continue
		}
		if of := p.ofMention(a, m); len(of.materials) > 0 {
			return of, true
		}
	}
	if a.Material != nil && !others || a.Part != nil && !otherPart(a, s, s.ClauseOf(bath)) && !otherMatter(a, s) {
		return p.ownSubject(a, ""), false
	}
	if others {
		return spokenOf{}, false
	}
	of := p.workCalled(a, s, bath)
	return of, len(of.materials) > 0
}

// refusedAll tells whether a bath is refused for each of the materials, or for any of them where they make one part.
func (p *proof) refusedAll(bath *spokenOf, materials []*manual.Article, onePart bool) (why string, no bool) {
	for _, m := range materials {
		var reason string
		if len(bath.tanks) == 1 {
			reason, no = p.refusesTank(bath.tanks[0], m)
		} else {
			reason, no = p.refuses(bath.chemistries[0], m)
		}
		if no && why == "" {
			why = reason
		}
		if no == onePart {
			return why, no
		}
	}
	return why, no
}
