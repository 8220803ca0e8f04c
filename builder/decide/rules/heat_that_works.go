package rules

import (
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// heatThatWorks is beyond for a chemistry, a material or a part that a sentence praises at more heat than it stands, however it puts it: the bath takes a soil
// off at it (“At 75 °C the scale is gone in ten minutes”, “Glycol ether at 70 °C softens aged rosin”), or the piece is in a bath that is so hot (“A hazy tube
// clears again in a bath at 60 °C”). Nothing in the sentence speaks of harm, of a fault, of another time or of a case. What a tool other than a bath does is
// left alone.
func (p *proof) heatThatWorks(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) *excess {
	if q.Kind != quantity.Temperature || q.Unit.Symbol != "°C" || q.Attribute != "" && !soilWords[q.Attribute] && !(q.Attribute == "water" && bathOf(s, q)) || s.Block.Kind == sentence.Cell || s.Clauses[q.Clause].Mood == sentence.Was {
		return nil
	}
	asked, ok := askedFor(q)
	if !ok || asked > 110 || q.Relation == sentence.Above || !cleansUnblamed(s) || s.Has(otherTools) || othersWork(s, q.Clause) || ofOthers(s, q) || ofNextNoun(s, q) {
		return nil
	}
	if a.Chemistry == nil && (a.Material != nil || a.Part != nil) && bathOf(s, q) && (q.About == nil || q.About.Stands && q.About.Thing == nil || q.About.Thing.Kind() == manual.Material) && !otherMatter(a, s) {
		of := p.ownSubject(a, "")
		if len(of.materials) > 0 {
			return p.beyondMaterial(q, &of, asked)
		}
		return nil
	}
	if of := p.bathedIn(a, s, q); len(of.materials) > 0 {
		return p.beyondMaterial(q, &of, asked)
	}
	if !s.ClauseHas(q.Clause, cleansOff) || s.ClauseHas(q.Clause, nothings) {
		return nil
	}
	of := p.of(a, q)
	switch m := q.About; {
	case m == nil, m.Stands && m.Thing == nil:
		if a.Chemistry == nil || !ofOwnBath(s, q) {
			return nil
		}
		of = p.ownSubject(a, "bath")
	case m.Thing.Kind() != manual.Chemistry || m.From > q.From || s.Distance(m, q) > 2:
		return nil
	}
	if len(of.chemistries) == 0 {
		return nil
	}
	return p.beyondBath(q, &of, asked)
}

// ofOwnBath tells whether a temperature on a chemistry's page is that of its bath: nothing stands before it in its clause, or the bath, or a soil that is taken
// off. What softens by itself is no bath's work.
func ofOwnBath(s *sentence.Sentence, q *sentence.Quantity) bool {
	alone := true
	for _, w := range s.Tokens() {
		if w.Clause != q.Clause || w.From >= q.From {
			continue
		}
		if theySets[w.Text] || soakedIn[w.Text] || w.Text == "boil" || w.Text == "warmed" || w.Text == "heated" {
			return true
		}
		if soilNames[w.Text] {
			return !s.ClauseHas(q.Clause, byItself)
		}
		alone = alone && leadsIn[w.Text]
	}
	return alone
}

// bathedIn gives the material that a sentence of another page puts into a bath: “Anodised parts go through a bath of 65 °C”.
func (p *proof) bathedIn(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) spokenOf {
	if a.Chemistry != nil || !bathOf(s, q) || s.Clauses[q.Clause].Opener != "" {
		return spokenOf{}
	}
	for i := range s.Mentions {
		if m := &s.Mentions[i]; m.Thing.Kind() == manual.Material && !m.Where && m.From < q.From && s.ClauseOf(m) == q.Clause && s.Before(m) != "for" && s.Before(m) != "with" {
			return p.ofMention(a, m)
		}
	}
	return spokenOf{}
}

// cleansUnblamed is unblamed for a bath that takes something off: that it dissolves or softens a soil, and that the soil is gone, is no harm.
func cleansUnblamed(s *sentence.Sentence) bool {
	if s.Question || s.TakenBack || illOf(s) || s.Has(spoilt) || s.Has(hurtWords) {
		return false
	}
	for k := range s.Clauses {
		c := &s.Clauses[k]
		if c.Mood == sentence.Ask || c.Mood == sentence.Example || c.Mood == sentence.If && c.Opener != "" && c.Opener != "before" && c.Opener != "after" || (c.Mood == sentence.MustNot || denies(s, k)) && valence(s, k) <= 0 || badLabel(s, k) || s.ClauseHas(k, longAgo) {
			return false
		}
	}
	for _, set := range []map[string]bool{exceptions, foundSo, ailing, contrasts, otherOnes, befalls, badLabels, faultWords, faultNouns, otherHeats} {
		if s.Has(set) {
			return false
		}
	}
	words := s.Tokens()
	for i, w := range words {
		if w.Text == "so" && (textAt(words, i+1) == "is" || textAt(words, i+1) == "are" || textAt(words, i+1) == "does") {
			return false // “and so is the edge of the part”
		}
	}
	return !onceOnly(s)
}

// bathOf tells whether a temperature is that of a bath in which something is, or of its water: “in a bath at 60 °C”, “warm water of 65 °C loosens the oil”.
func bathOf(s *sentence.Sentence, q *sentence.Quantity) bool {
	list := s.PhraseBefore(q, 2)
	if len(list) < 2 || list[1] != "of" && list[1] != "at" {
		return false
	}
	return soakedIn[list[0]] || list[0] == "water" && s.ClauseHas(q.Clause, cleansOff)
}

var (
	leadsIn  = sentence.Set("at and then but so , with")
	byItself = sentence.Set("softens peels frees melts runs flows")
	soakedIn = sentence.Set("bath wash dip soak cleaner")
	// cleansOff are words of a cleaner that does its work.
	cleansOff = sentence.Set("dissolves dissolve strips strip lifts lift shifts shift removes remove cleans clean brightens brighten loosens loosen softens clears clear degreases gone vanishes disappears budges yields gives peels frees descales derusts works takes")
	// otherHeats are words of a heat that is not the one of a bath at work.
	otherHeats = sentence.Set("room ambient surface store storage flash critical split inlet dryer drying rinse melts melting boiling boils outside freezing skin motor bearing delivery sample difference machine pump engine furnace")
	// hurtWords are words of what a bath does to the work, to itself or to the shop.
	hurtWords = sentence.Set("attacks attack etches etch corrodes corrode darkens dulls cracks crazes swells warps surfactant inhibitor technician fill scum cloudy milky separates vapour vapours why how would could costs cost wastes expensive fire burns burn edge finish zinc cobalt")
	// otherTools are things besides a bath with which soil is taken off.
	otherTools = sentence.Set("washer jet lance gun steam oven kettle brush scraper torch blaster laser autoclave solvent vapour degreaser air margin flash service summer sun")
)
