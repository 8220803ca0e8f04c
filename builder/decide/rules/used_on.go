package rules

import (
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// usedOn looks for a statement that a bath is used on a material, or does it good, without a command: “White rust is taken off in citric acid”,
// “ten minutes in terpene, then weigh”, “the colour comes back with five minutes in the saponifier”, “For billets Wash 1 is all right”.
// On a material's or part's own page that is what is meant where no other is named.
func (p *proof) usedOn(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if !bathNamed(s, m) {
			continue
		}
		k := s.ClauseOf(m)
		if takesItself(a, s, m, k) || hasBeenIn(s, m) || plurals[m.Word] || aspectOf(s, m) || inRelative(s, m) || blamed(s, k) || causeTold(s, m) {
			continue
		}
		if !affirmed(s, k) && !afterwards(s, m, k) || usedOtherwise(s, m) || !p.does(a, s, m, k) {
			continue
		}
		work := p.workOf(a, s, m)
		if len(work.materials) == 0 {
			continue
		}
		if work.part != nil && isSame(work.part, a) && inProcess(a, m.Thing) {
			continue // the process is judged in the header
		}
		if f := p.putIntoNamed(a, s, m, &work); f != nil {
			return f
		}
	}
	return nil
}

// causeTold tells whether a bath is what a fault comes from: “The cause is often a quick turn in ammoniated soap”.
func causeTold(s *sentence.Sentence, m *sentence.Mention) bool {
	return slices.ContainsFunc(s.Tokens(), func(w sentence.Token) bool { return w.From < m.From && causeNouns[w.Text] })
}

var causeNouns = sentence.Set("cause causes culprit culprits blame")

// hasBeenIn tells whether a bath is one in which something has been: “brackets that have been in phosphoric acid have lost their zinc”.
func hasBeenIn(s *sentence.Sentence, m *sentence.Mention) bool {
	words := s.Tokens()
	for i, w := range words {
		if w.Text == "been" && w.From < m.From && i+1 < len(words) && (words[i+1].Text == "in" || words[i+1].Text == "through") && m.From-words[i+1].From < 12 {
			return true
		}
	}
	return false
}

// inProcess tells whether a part's own process names a bath.
func inProcess(a *manual.Article, t *sentence.Thing) bool {
	return slices.ContainsFunc(a.Part.Steps, func(s manual.Step) bool {
		return t.Tank != nil && s.Tank.Name == t.Tank.ID || t.Kind() == manual.Chemistry && t.Called(s.Chemistry.Name)
	})
}

// affirmed tells whether a clause says something for itself that nothing in the sentence takes back.
func affirmed(s *sentence.Sentence, k int) bool {
	c := &s.Clauses[k]
	if c.Opener != "" && c.Opener != "(" || exceptsIn(s, k) || tooMuch(s, k) || against(s, k) {
		return false
	}
	switch c.Mood {
	case sentence.Do, sentence.Able, sentence.Is, sentence.Fragment, sentence.If:
		return true
	}
	return false
}

// exceptions are words with which somebody has decided on a case, or of another's ways.
var exceptions = sentence.Set("trial written signed instruction approval approved engineer engineer's coupon except exception only unless others elsewhere instead trials makers suppliers supplier practice barred timed")

// tooMuch tells whether something is said to be too much: not “too” for also, at the end of a clause.
func tooMuch(s *sentence.Sentence, k int) bool {
	words := s.Tokens()
	for i, w := range words {
		if w.Clause == k && w.Text == "too" && !otherBathBefore(s, i) && i+1 < len(words) && words[i+1].Text != "," && words[i+1].Text != "." && words[i+1].Text != ";" && words[i+1].Text != "for" {
			return true
		}
	}
	return false
}

// otherBathBefore tells whether what is too much is a second bath of its sentence: “Wash 1 fits, Wash 2 is too weak”.
func otherBathBefore(s *sentence.Sentence, i int) bool {
	words := s.Tokens()
	n := 0
	for j := range s.Mentions {
		if m := &s.Mentions[j]; m.Thing.Bath() && m.From < words[i].From {
			n++
		}
	}
	return n > 1
}

// exceptsIn tells whether a clause has a word of an exception; “two minutes only” is none.
func exceptsIn(s *sentence.Sentence, k int) bool {
	words := s.Tokens()
	for i, w := range words {
		if w.Clause == k && exceptions[w.Text] && !(w.Text == "only" && (i > 0 && words[i-1].Amount || i+1 < len(words) && words[i+1].Amount || i > 1 && words[i-2].Amount)) {
			return true
		}
	}
	return false
}

// does tells whether a clause says that a bath is used, or is good.
func (p *proof) does(a *manual.Article, s *sentence.Sentence, m *sentence.Mention, k int) bool {
	if tipped(a, s, m, k) || dabbed(s, m, k) {
		return true
	}
	switch s.Ruler(m) {
	case "in", "into", "through", "with", "by":
		return !stemsFrom(s, k) && (s.ClauseHas(k, goodUses) || treated(s, k) || comesOff(s, m) || spellIn(s, m, k) || hasTime(s, k) && (s.Clauses[k].Mood == sentence.Fragment || afterwards(s, m, k)))
	case "of":
		if s.ClauseHas(k, comeOut) && s.ClauseHas(k, looksGood) && hasAny(s.Tokens()[max(0, tokenOf(s, m)-3):max(0, tokenOf(s, m))], outWord) {
			return true // “Pistons come out of caustic like new”
		}
		return hasTime(s, k) && (s.ClauseHas(k, getsTime) || s.Clauses[k].Mood == sentence.Fragment && s.Before(m) == "of") // “Green bushes get one minute of chelated derust”
	case "from":
		return s.ClauseHas(k, comeOut) && s.ClauseHas(k, looksGood)
	case "to":
		return s.ClauseHas(k, yields) && !s.Has(noWords)
	case "like", "likes", "pick", "trust", "favours", "take", "takes", "uses", "recommend", "recommends", "advise", "advises", "prefer", "prefers", "suggest", "suggests", "choose", "favour":
		return s.Clauses[k].Mood != sentence.Was
	case "want", "wants", "need", "needs", "deserve", "deserves", "love", "loves", "enjoy", "enjoys", "see", "sees", "visit", "share", "shares":
		return s.Clauses[k].Mood != sentence.Was && !p.soilWants(s, m)
	case "is":
		if s.ClauseHas(k, firstChoice) && (s.ClauseHas(k, goodFor) || s.ClauseHas(k, forWord)) && !s.Has(noWords) {
			return true // “The best bath for painted covers is Wash 1”
		}
	}
	if b := s.Before(m); (a.Material != nil || a.Part != nil || labelledWork(s, k)) && (b == ":" || b == "?" || b == "") && behindRemedy[s.After(m)] && s.Clauses[k].Mood == sentence.Fragment && (hasTime(s, k) || s.After(m) == "first" || s.After(m) == "on" && s.ClauseHas(k, ragWords)) {
		return true // “Rusty bolt: phosphoric, two minutes”
	}
	if stoodBy[s.Before(m)] && s.Clauses[k].Mood != sentence.Was {
		return true // “It takes caustic well”
	}
	if getsOff[s.After(m)] && s.ClauseHas(k, offWord) && !s.Has(noWords) {
		return true // “Glycol ether gets tape marks off”
	}
	return (s.ClauseHas(k, goodFor) || doesWork[s.After(m)] || choiceFor(s, m) && !losesBy(s, k)) && says[s.After(m)] && !s.Has(noWords) && !s.Has(notOfWork)
}

// labelledWork tells whether the label before a clause names a material or a part: “Galvanised pipes with scale: citric acid, ten minutes”.
func labelledWork(s *sentence.Sentence, k int) bool {
	if k == 0 || !labels(s, k) {
		return false
	}
	named, others := false, 0
	for i := range s.Mentions {
		if m := &s.Mentions[i]; s.ClauseOf(m) == k-1 && (m.Thing.Kind() == manual.Material || m.Thing.Kind() == manual.Part) {
			named = true
			others -= len(slices.DeleteFunc(strings.Fields(m.Word), func(w string) bool { return !matters[w] }))
		}
	}
	for _, w := range s.Words(k - 1) {
		if matters[w] {
			others++ // “zinc soap on steel” is on steel
		}
	}
	return named && others <= 0
}

// soilWants tells whether what wants a bath is a soil, of which the material's page says elsewhere what it stands: “Carbon wants caustic”.
func (p *proof) soilWants(s *sentence.Sentence, m *sentence.Mention) bool {
	words := s.Tokens()
	for i := 1; i < len(words) && words[i].From < m.From; i++ {
		if wantsTank[words[i].Text] {
			a := p.called(plainName(words[i-1].Text))
			return a != nil && a.Soil != nil
		}
	}
	return false
}

// afterwards tells whether something is good after a time in a bath: “Tarnished wheels look new after two minutes in the saponifier”.
func afterwards(s *sentence.Sentence, m *sentence.Mention, k int) bool {
	if s.Clauses[k].Opener != "after" || k == 0 || !hasTime(s, k) && !s.ClauseHas(k, spells) || s.Ruler(m) != "in" || against(s, k-1) || s.Has(exceptions) {
		return false
	}
	return s.ClauseHas(k-1, looksGood) && s.Clauses[k-1].Mood != sentence.Was
}

// treated tells whether a clause says that work is treated: “is loosened”, “may be refreshed”, “should be pickled”. What is done to it in the
// passive is done for its good, unless the word says that it is hurt or only kept somewhere.
func treated(s *sentence.Sentence, k int) bool {
	words := s.Words(k)
	for i := 1; i < len(words); i++ {
		if w := words[i]; strings.HasSuffix(w, "ed") && words[i-1] != "the" && words[i-1] != "a" && words[i-1] != "an" && len(w) > 4 && !hurtOrKept[w] {
			for j := i - 1; j >= max(0, i-2); j-- {
				if b := words[j]; b == "is" || b == "are" || b == "be" {
					return true
				}
			}
		}
	}
	return false
}

var (
	looksGood   = sentence.Set("new bright clean fine good shine gloss perfect shines shiny gleam gleams well gone away clear off")
	comeOut     = sentence.Set("come comes")
	firstChoice = sentence.Set("bath tank cleaner choice remedy method answer way wash solution detergent")
	hurtOrKept  = sentence.Set(`attacked stained pitted etched darkened ruined dulled dissolved corroded blackened cracked crazed tarnished softened damaged spoiled spoilt destroyed clouded hazed discoloured discolored bleached embrittled weakened
		roughened killed leached thinned covered coated stored used mixed filled heated stirred tested titrated named listed described mentioned called needed allowed refused forbidden barred dosed added poured topped excluded
		warned related compared supplied delivered labelled labeled locked marked measured turned followed filtered diluted swollen harmed affected limited shared pickled-off banned asked tried confused linked explained swelled frosted hardened changed required designed intended bonded loaded carried dragged neutralised neutralized released washed-off left lost soaked-up absorbed`)
)

func hasTime(s *sentence.Sentence, k int) bool {
	for i := range s.Quantities {
		if q := &s.Quantities[i]; q.Clause == k && q.Kind == quantity.Time && q.Relation != sentence.Difference {
			return true
		}
	}
	return false
}

// choiceFor tells whether a bath is called the one for something: “is the bath for it”, “is what lifts flux”.
func choiceFor(s *sentence.Sentence, m *sentence.Mention) bool {
	words := s.Tokens()
	for i, t := range words {
		if t.From < m.To || i+2 >= len(words) {
			continue
		}
		for j := i; j+1 < min(i+5, len(words)); j++ {
			switch words[j].Text {
			case "bath", "tank", "one", "cleaner", "choice", "answer", "way", "remedy", "cure":
				return words[j+1].Text == "for" || words[j+1].Text == "to"
			case "what", "that":
				return doesWork[words[j+1].Text] || doesWork[words[j+1].Text+"s"]
			}
		}
		break
	}
	return false
}

var (
	stoodBy      = sentence.Set("takes stands bears tolerates likes loves survives withstands")
	yields       = sentence.Set("give gives yield yields surrender surrenders respond responds")
	behindRemedy = sentence.Set(", for and then first on")
	ragWords     = sentence.Set("rag cloth swab brush pad sponge")
	doesWork     = sentence.Set("shifts takes lifts removes brings works cleans clears brightens loosens restores washes helps")
)

// says are verbs behind a bath of which something is said.
var says = sentence.Set("shift shifts get go is are fits fit suits suit leaves leave works work takes take does helps will may can removes lifts brings cleans clears strips brightens dissolves loosens restores washes")

var (
	goodUses = sentence.Set(`brighten disinfected come comes vanish vanishes taken take takes removed lifted cleared dissolved dissolves soaked brightened get gets go goes washed cleaned treated descaled derusted degreased
		brings bring lifts removes clears cleans restores does helps share shares works wins strips brightens belongs belong pass passes shrinks shrink fades fade dipped stripped loosened loosens disappears disappear lose loses bathed sits spend spends have visit ride turn cured restored recovers recover revived whitened
		done dunked swims swum handled ride rides along deserve deserves refreshed sent clear run soak soaks rest rests lie`)
	goodFor = sentence.Set("along standard strongest usual right fine suits suit fits fit gentle kind safe ok okay harmless ideal suitable alone perfect welcome works helps good best")
)

// workOf gives the material or part on which a bath is used: the one that the sentence names, or the article's own.
func (p *proof) workOf(a *manual.Article, s *sentence.Sentence, bath *sentence.Mention) spokenOf {
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m == bath || m.Thing == nil || bath != nil && ofOtherThan(s, s.ClauseOf(m), s.ClauseOf(bath)) || s.Before(m) == "like" || s.Before(m) == "as" || s.Before(m) == "than" || ofOtherBath(s, bath, m) {
			continue
		}
		if of := p.ofMention(a, m); len(of.materials) > 0 && of.tanks == nil {
			return of
		}
	}
	if (a.Material != nil || a.Part != nil) && !otherMatter(a, s) && !inOtherBath(a, s, bath) {
		return p.ownSubject(a, "")
	}
	if bath == nil || reads[s.Clauses[s.ClauseOf(bath)].Verb] {
		return spokenOf{} // “See citric acid for the dip”
	}
	if of := p.workCalled(a, s, bath); len(of.materials) > 0 {
		return of
	}
	return p.workOfTitle(a, s, bath)
}

// workOfTitle gives the materials of which the title of a symptom speaks, where the sentence names no other: on the page “Brass or copper darkened” brown nuts
// are of one of the two. A remedy may be stronger than what is washed every day; so only those count that what is in the bath attacks.
func (p *proof) workOfTitle(a *manual.Article, s *sentence.Sentence, bath *sentence.Mention) spokenOf {
	if a.Kind != manual.Symptom || s.Has(matters) {
		return spokenOf{}
	}
	in := p.ofMention(a, bath).chemistries
	var of spokenOf
	for w := range strings.FieldsSeq(strings.ToLower(a.Head.Title)) {
		w = strings.Trim(w, ",:;.")
		if named := p.called(plainName(w)); matters[w] && named != nil && named.Material != nil && !named.Partial && !slices.Contains(of.materials, named) && slices.ContainsFunc(in, func(c *manual.Article) bool { return attackedIn(named, c) }) {
			of.materials = append(of.materials, named)
		}
	}
	return of
}

// attackedIn tells whether a chemistry contains what attacks a material.
func attackedIn(material, chemistry *manual.Article) bool {
	return slices.ContainsFunc(chemistry.Chemistry.Contains, func(in manual.Ref) bool {
		return slices.ContainsFunc(material.Material.AttackedBy, func(by manual.Ref) bool { return by.Name == in.Name })
	})
}

// tipped tells whether a bath stands alone behind a label that gives it as advice, on the page of a material or part: “My tip for caps with old oil: Wash 1,
// quick in, quick out”. A label of a cause or of damage gives none.
func tipped(a *manual.Article, s *sentence.Sentence, m *sentence.Mention, k int) bool {
	if a.Material == nil && a.Part == nil || k == 0 || s.Before(m) != ":" && s.Before(m) != "?" || s.Clauses[k].Mood != sentence.Fragment || !tipEnds[s.After(m)] {
		return false
	}
	label := s.Words(k - 1)
	if slices.ContainsFunc(label, func(w string) bool {
		return badLooks[w] || causes[w] || notOfWork[w] || holders[w] || suffers[w] || noWords[w]
	}) || valence(s, k-1) < 0 {
		return false
	}
	return slices.ContainsFunc(label, func(w string) bool {
		return tips[w] || pieceWords[w] || isOwnName(a, w) || calledAlso(a, w) || a.Part != nil && calledSo(a, w)
	})
}

// calledAlso tells whether a word, of one or several, is among the other names of an article: “billets” of wrought aluminium.
func calledAlso(a *manual.Article, w string) bool {
	return len(w) > 3 && slices.ContainsFunc(a.Head.AlsoCalled, func(name string) bool { return strings.EqualFold(name, w) || strings.EqualFold(name+"s", w) })
}

// dabbed tells whether a little of something is said to have a soil come off: “A dab of terpene and it slides off the paint”.
func dabbed(s *sentence.Sentence, m *sentence.Mention, k int) bool {
	if s.Ruler(m) != "of" || !s.ClauseHas(k, portions) {
		return false
	}
	for j := k; j < min(k+3, len(s.Clauses)); j++ {
		if list := s.Words(j); len(list) > 2 && (list[0] == "it" || list[0] == "they" || soilNames[list[0]]) && s.ClauseHas(j, comesLoose) && s.ClauseHas(j, looseWay) {
			return true
		}
	}
	return false
}

// losesBy tells whether a clause says that something is lost by what it calls a way: “is the quickest way to lose the zinc”.
func losesBy(s *sentence.Sentence, k int) bool {
	words := s.Tokens()
	for i := 2; i < len(words); i++ {
		if w := words[i]; w.Clause == k && words[i-1].Text == "to" && choiceNouns[words[i-2].Text] && blames[w.Text] {
			return true
		}
	}
	return false
}

var (
	tips        = sentence.Set("tip advice trick answer cure remedy recipe favourite standby shortcut suggestion recommendation routine custom way treatment")
	tipEnds     = sentence.Set(", . and for then like with ! ;")
	causes      = sentence.Set("cause causes reason reasons because why suspect source from after guilty culprit found")
	comesLoose  = sentence.Set("slides slide comes come lifts lift peels peel rolls roll falls fall floats float drops drop is are")
	looseWay    = sentence.Set("off away loose gone")
	choiceNouns = sentence.Set("way means road")
)

// inOtherBath tells whether a sentence names the material of its page beside another bath, in a clause of their own: “Wash 1 is fine again; brass still goes
// into Wash 2”.
func inOtherBath(a *manual.Article, s *sentence.Sentence, bath *sentence.Mention) bool {
	if bath == nil || a.Material == nil {
		return false
	}
	k := s.ClauseOf(bath)
	for i := range s.Mentions {
		m := &s.Mentions[i]
		j := s.ClauseOf(m)
		if j != k && m.Thing.Kind() == manual.Material && m.Thing.Includes(a) && ofOtherThan(s, j, k) {
			return true
		}
	}
	return false
}

// ofOtherBath tells whether a material belongs to another bath than the one at hand: “Steel goes into Wash 1, brass into Wash 2”, where another matter
// stands beside the bath.
func ofOtherBath(s *sentence.Sentence, bath, work *sentence.Mention) bool {
	if bath == nil || bath.From < 0 || work.From < 0 {
		return false
	}
	other := func(from, to int) bool {
		for i, w := range s.Tokens() {
			if w.From >= from && w.From < to && matters[w.Text] && (w.From < work.From || w.From >= work.To) && !(i > 1 && s.Tokens()[i-1].Text == "the" && s.Tokens()[i-2].Text == "with") {
				return true
			}
		}
		return false
	}
	if work.From > bath.From {
		return other(s.From, bath.From)
	}
	for i := range s.Mentions {
		if m := &s.Mentions[i]; m != bath && m.From > work.From && m.To <= bath.From && m.Thing.Bath() {
			return other(m.To, bath.From)
		}
	}
	return false
}

// takesItself tells whether what a bath is said to take off is the material itself, or its coat: “Wash 1 takes the paint off”, “The finish is removed in
// chelated derust”. That tells of harm.
func takesItself(a *manual.Article, s *sentence.Sentence, m *sentence.Mention, k int) bool {
	if a.Material == nil {
		return false
	}
	title := strings.ToLower(a.Head.Title + " " + a.Name + " " + strings.Join(a.Head.AlsoCalled, " "))
	own := func(w string) bool { return coats[w] || len(w) > 3 && strings.Contains(title, w) }
	words := s.Tokens()
	for i, w := range words {
		if w.Clause != k || i+1 >= len(words) {
			continue
		}
		j := i + 1
		for j < len(words)-1 && (words[j].Text == "the" || words[j].Text == "its") {
			j++
		}
		if w.From >= m.To && i > 0 && takes[w.Text] && own(words[j].Text) {
			return true
		}
		if own(w.Text) && !soiledOn(words, i) && (words[i+1].Text == "is" || words[i+1].Text == "are") && i+2 < len(words) && takenOff[words[i+2].Text] {
			return true
		}
	}
	return false
}

// soiledOn tells whether the word at a place is what a soil is on, and so not what is taken off: “Rust on hard bolts is taken off”.
func soiledOn(words []sentence.Token, i int) bool {
	return slices.ContainsFunc(words[max(0, i-3):i], func(w sentence.Token) bool { return w.Text == "on" || w.Text == "from" || w.Text == "in" })
}

var (
	coats    = sentence.Set("finish coating layer plating paint lacquer anodise")
	takes    = sentence.Set("takes take lifts removes strips stripped dissolves dissolved")
	takenOff = sentence.Set("removed taken stripped dissolved lifted")
)

// otherMatter tells whether a sentence speaks of a matter that is not the article's own.
func otherMatter(a *manual.Article, s *sentence.Sentence) bool {
	all := s.AllWords()
	for i, w := range all {
		if i > 1 && all[i-1] == "the" && all[i-2] == "with" {
			continue // “through Wash 1 with the steel”
		}
		if matters[w] && !strings.Contains(strings.ToLower(a.Head.Title+" "+a.Name+" "+strings.Join(a.Head.AlsoCalled, " ")), w) {
			return true
		}
	}
	return false
}

var matters = sentence.Set("steel iron copper brass bronze plastic plastics rubber glass stainless titanium aluminium zinc silver nickel ceramic carbide magnesium gold metal metals")
