package rules

import (
	"slices"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// ofWash tells whether a time on a part's page is that of its wash without a word of washing: the part itself needs it, “The body needs twelve
// minutes at 62 °C”, it stands beside the temperature of the wash, as on a card, “Twelve minutes, 62 °C, then both rinses”, or behind its label,
// “Time for the spool: 12 min”.
func (p *proof) ofWash(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause
	c := &s.Clauses[k]
	if c.Opener != "" || q.Kind != quantity.Time || s.Block.Kind == sentence.Cell || s.Has(noWords) || illOf(s) || s.Harmful() || placedElsewhere(s, q) {
		return false
	}
	if k > 0 && labels(s, k) {
		return timeLabel(a, s, k-1)
	}
	beside := p.besideHeat(a, s, q)
	switch c.Mood {
	case sentence.Fragment:
		return beside && len(s.Mentions) == 0 || beside && namesOwn(a, s, k) || ownGets(a, s, q)
	case sentence.If, sentence.MustNot, sentence.Was, sentence.Ask, sentence.Example:
		return false
	}
	if staysForIt(a, s, q) {
		return true
	}
	switch c.Mood {
	case sentence.Do, sentence.Is, sentence.Able:
		if !namesOwn(a, s, k) || !(itNeeds[c.Verb] && ownBefore(a, s, q) || c.Verb == "give") {
			return false
		}
		switch q.Near {
		case "", ".", ",", ";":
			return true
		case "at":
			return beside
		case "in":
			return inBath(s, q)
		}
	}
	return false
}

// ownGets tells whether a clause is no more than the part, what it gets, and a time: “Impellers get eight minutes”.
func ownGets(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	list := words(s, s.From, q.From)
	return len(list) == 2 && calledSo(a, list[0]) && itNeeds[list[1]] && endsPart(s, q)
}

// ownBefore tells whether the part of a page is named before a quantity, in its clause.
func ownBefore(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	return slices.ContainsFunc(s.Tokens(), func(w sentence.Token) bool {
		return w.Clause == q.Clause && w.From < q.From && (calledSo(a, w.Text) || w.Text == "it" || w.Text == "they")
	})
}

// staysForIt tells whether a clause says that the part stays in for a while: “The casing stays in for half an hour”.
func staysForIt(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	list := words(s, s.From, q.From)
	n := len(list)
	return n > 3 && list[n-1] == "for" && list[n-2] == "in" && staying[list[n-3]] && calledSo(a, list[n-4])
}

var itNeeds = sentence.Set("needs need wants want takes take gets get has have needed is")

// besideHeat tells whether the clause of a time has the temperature of one of the part's washes as well.
func (p *proof) besideHeat(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	for i := range s.Quantities {
		o := &s.Quantities[i]
		if o.Kind != quantity.Temperature || o.Clause != q.Clause || o.Attribute != "" && !isOwnName(a, o.Attribute) {
			continue
		}
		for _, w := range washes(p, a) {
			if w.Temperature.Set && !contradicts(o, known{limit: w.Temperature, exact: true}) {
				return true
			}
		}
	}
	return false
}

// inBath tells whether “in the bath”, “in the tank” or “in the wash” stands right behind a quantity.
func inBath(s *sentence.Sentence, q *sentence.Quantity) bool {
	list := words(s, q.To, s.To)
	return len(list) >= 3 && list[0] == "in" && (list[1] == "the" || list[1] == "its") && isBathWord(strings.Trim(list[2], ".,;"))
}

// placedElsewhere tells whether a quantity is said of another place or work than the wash: words of a rinse, a rack or a dryer stand in its part of
// the sentence, between the commas and “and” around it.
func placedElsewhere(s *sentence.Sentence, q *sentence.Quantity) bool {
	text := strings.ToLower(s.Block.Text[s.From:s.To])
	from, to := 0, len(text)
	at := q.From - s.From
	for _, mark := range []string{", ", " and ", "; ", ": ", " then "} {
		if i := strings.LastIndex(text[:at], mark); i >= 0 {
			from = max(from, i+len(mark))
		}
		if i := strings.Index(text[q.To-s.From:], mark); i >= 0 {
			to = min(to, q.To-s.From+i)
		}
	}
	list := strings.Fields(text[from:to])
	if from == 0 && len(list) > 0 && list[0] == "each" {
		list = list[1:] // “Each window has two minutes” is said of the window
	}
	return slices.ContainsFunc(list, func(w string) bool { return otherStations[strings.Trim(w, ".,;:()")] })
}

var otherStations = sentence.Set("rinse rinses rinsed rinsing dryer dry dried drying rack store stored storage shelf bench stand cool cools cooling drain drains draining air blow blown strip wait waits oil oiled bake baked soak test tested check checked lift between after before within each turn another")

// timeLabel tells whether a clause is a label such as “Time”, “Wash time”, “Time in the bath”, “Time for the spool”.
func timeLabel(a *manual.Article, s *sentence.Sentence, k int) bool {
	list := s.Words(k)
	if len(list) == 0 || len(list) > 6 || !slices.Contains(list, "time") && !slices.Equal(list, []string{"wash"}) {
		return false
	}
	for _, w := range list {
		if !labelWords[w] && !calledSo(a, w) && !(w == "1" || w == "2") {
			return false
		}
	}
	return true
}

// headedFor tells whether a clause is a label such as “Temperature for the spool”.
func headedFor(a *manual.Article, s *sentence.Sentence, k int, what string) bool {
	list := s.Words(k)
	return len(list) > 1 && list[0] == what && calledSo(a, list[len(list)-1])
}

var labelWords = sentence.Set("time wash for the in of a bath tank this part its washing")

// namesOwn tells whether the part of a page is named in a clause, by its name or a word that stands for it, and no other thing is.
func namesOwn(a *manual.Article, s *sentence.Sentence, k int) bool {
	if otherPart(a, s, k) || otherMatter(a, s) {
		return false
	}
	return slices.ContainsFunc(s.Words(k), func(w string) bool { return calledSo(a, w) || w == "it" || w == "they" })
}

// calledSo tells whether a word is the noun of one of a part's names: “casing” of “pump casing”.
func calledSo(a *manual.Article, w string) bool {
	nouns := partNouns(a)
	return slices.ContainsFunc(formsOf(w), func(form string) bool { return slices.Contains(nouns, form) })
}

// partsCalled are the parts of which a word is the noun of a name.
func (p *proof) partsCalled(w string) (list []*manual.Article) {
	for _, form := range formsOf(w) {
		list = append(list, p.By(partsByNoun, form)...)
	}
	return list
}

var partsByNoun = manual.NewIndex(func(a *manual.Article) []string {
	if a.Part == nil {
		return nil
	}
	return partNouns(a)
})

// partNouns are the nouns of an article's names, lower case: the last word before a comma of its title, and of such other names as have no more than two
// words.
func partNouns(a *manual.Article) []string {
	noun := func(name string) string {
		name, _, _ = strings.Cut(strings.ToLower(name), ",")
		return name[strings.LastIndexByte(name, ' ')+1:]
	}
	list := []string{noun(a.Head.Title)}
	for _, name := range a.Head.AlsoCalled {
		if strings.Count(name, " ") < 2 {
			list = append(list, noun(name))
		}
	}
	return list
}

// formsOf are the ways in which a name may have a noun that a text has, in the singular and in the plural; none for one of two letters.
func formsOf(w string) []string {
	one := strings.TrimSuffix(w, "s")
	if stem, is := strings.CutSuffix(w, "ies"); is {
		one = stem + "y"
	}
	if len(one) < 3 {
		return nil
	}
	return []string{one, one + "s", w}
}

// lessRinsed finds a sentence that leaves out a rinse of the part's process, or its dryer: “gets the mains rinse only”, “No last rinse for it”, “is
// left to dry in the air”.
func (p *proof) lessRinsed(a *manual.Article, s *sentence.Sentence) (from int, says, key string) {
	if s.Quiet() || s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || illOf(s) || s.Harmful() || elsewhere(s) || otherMatter(a, s) {
		return 0, "", ""
	}
	list := s.Tokens()
	whole, only := " "+strings.ToLower(s.Text()), len(s.Clauses) == 1 && s.Clauses[0].Mood != sentence.MustNot && s.Clauses[0].Mood != sentence.Was
	if len(a.Part.Rinse) > 0 && (unrinsed(whole) && (!denied(s) || only) || !denied(s) && (passedOver(whole) || rinsingWasted.MatchString(whole)) && !asked(s) || !denied(s) && fromWashToDryer(s)) {
		return s.From + leading(s), "The text sends it from the wash to the dryer; its process has a rinse between.", "rinse"
	}
	for k := range s.Clauses {
		c := &s.Clauses[k]
		if c.Opener != "" || c.Mood == sentence.Was || c.Mood == sentence.MustNot && !startsNo(s, k) && !needsNoRinse(s, k) && !needsNoneOf(s, k) || c.Mood == sentence.Example || c.Mood == sentence.Ask || otherPart(a, s, k) || s.ClauseHas(k, notAll) || s.ClauseHas(k, longAgo) || s.ClauseHas(k, olderWays) {
			continue
		}
		if len(a.Part.Rinse) > 0 && (noneOf(s, k) || needsNoneOf(s, k) && namesOwn(a, s, k)) || len(a.Part.Rinse) == 2 && onlyMains(s, k) {
			return s.From + leading(s), "The text leaves out a rinse of its process.", "rinse"
		}
		if a.Part.Dry.Name != "" && skipsDryer(s, k) {
			return s.From + leading(s), "The text leaves out the dryer of its process.", "dry"
		}
		if a.Part.Dry.Name != "" && labelsDrying(s, k) && len(s.Words(k)) < 3 && s.ClauseHas(k, openAir) {
			return s.From + leading(s), "The text dries it in the air; its process names a dryer.", "dry"
		}
		text := " " + strings.Join(s.Words(k), " ") + " "
		at := slices.IndexFunc(list, func(w sentence.Token) bool { return w.Clause == k })
		if len(a.Part.Rinse) == 2 && at >= 0 && !s.ClauseHas(k, rinseOf) && leavesRinseOut(text) {
			return list[at].From, "The text leaves out a rinse of its process.", "rinse"
		}
		if len(a.Part.Rinse) > 0 && at >= 0 && !s.ClauseHas(k, rinseOf) && fewerRinses(a, s, k) {
			return list[at].From, "The text leaves out a rinse of its process.", "rinse"
		}
		if a.Part.Dry.Name != "" && at >= 0 && !s.ClauseHas(k, rinseOf) && airDried(text) && (namesOwn(a, s, k) || c.Mood == sentence.Do) || a.Part.Dry.Name != "" && at >= 0 && driedElsewhere(s, k) {
			return list[at].From, "The text dries it in the air; its process names a dryer.", "dry"
		}
	}
	return 0, "", ""
}

// noneOf tells whether a label of rinsing is answered with none: “Rinse: none.”
func noneOf(s *sentence.Sentence, k int) bool {
	if k == 0 || !labels(s, k) {
		return false
	}
	label, list := s.Words(k-1), s.Words(k)
	return len(label) == 1 && rinseNouns[label[0]] && len(list) == 1 && (list[0] == "none" || list[0] == "skip" || list[0] == "skipped" || list[0] == "no")
}

// skipsDryer tells whether a clause leaves the dryer out: “leave out the dryer”, “Skip the dryer”.
func skipsDryer(s *sentence.Sentence, k int) bool {
	list := s.Words(k)
	for i, w := range list {
		if w == "dryer" && i > 1 && list[i-1] == "the" && (leftOut[list[i-2]] || list[i-2] == "out" && i > 2 && leavesWord[list[i-3]]) {
			return !s.ClauseHas(k, noWords)
		}
	}
	return false
}

// needsNoneOf tells whether a clause says that something needs no rinse.
func needsNoneOf(s *sentence.Sentence, k int) bool {
	list := s.Words(k)
	for i := 0; i+2 < len(list); i++ {
		if (list[i] == "need" || list[i] == "needs") && list[i+1] == "no" && rinseNouns[list[i+2]] && (i+3 == len(list) || s.ClauseHas(k, afterWord) || list[i+3] == "at") {
			return true
		}
	}
	return false
}

// onlyMains tells whether a label of rinsing is answered with the mains rinse alone: “Rinse: mains only.”
func onlyMains(s *sentence.Sentence, k int) bool {
	return k > 0 && labels(s, k) && len(s.Words(k-1)) == 1 && rinseNouns[s.Words(k - 1)[0]] && s.ClauseHas(k, mainsWord) && s.ClauseHas(k, aloneWords)
}

// fromWashToDryer tells whether a clause has something go from a tank into the dryer, and no rinse is named.
func fromWashToDryer(s *sentence.Sentence) bool {
	if s.Has(rinseOrWater) || s.Has(ifs) || s.Has(longAgo) {
		return false
	}
	from, to := -1, -1
	after := false // “After Wash 1 the body goes into the dryer”
	for i := range s.Mentions {
		switch m := &s.Mentions[i]; {
		case m.Thing == nil:
		case m.Thing.Tank != nil && s.Before(m) == "after" && i == 0:
			after = true
		case m.Thing.Tank != nil && (s.Before(m) == "from" || s.Before(m) == "of") && s.Clauses[s.ClauseOf(m)].Opener == "":
			from = s.ClauseOf(m)
		case m.Thing.Dryer != nil && (s.Ruler(m) == "into" || s.Ruler(m) == "to"):
			to = s.ClauseOf(m)
		}
	}
	return (from >= 0 && from == to || after && to >= 0) && (s.Clauses[to].Mood == sentence.Do || s.Clauses[to].Mood == sentence.Is || s.Clauses[to].Mood == sentence.Fragment)
}

var (
	rinseOrWater = sentence.Set("rinse rinses rinsed rinsing water hose before until other")
	openAir      = sentence.Set("air rack cloth towel shelf")
)

var (
	rinseNouns = sentence.Set("rinse rinses rinsing")
	afterWord  = sentence.Set("after")
)

var (
	// olderWays are words of a case or a time that is not the part's own process.
	olderWays = sentence.Set("old test trial that first-article takes take drops drop off other others gauge ones today")
	// rinseOf are words with which a rinse is another thing's.
	rinseOf = sentence.Set("tray trays basket baskets rack fixture fixtures plug plugs tongs gloves lid")
)

// unrinsed tells whether a sentence sends something straight from the wash to the dryer.
func unrinsed(whole string) bool {
	text := withoutRinse.Replace(whole)
	has := func(list ...string) bool {
		return slices.ContainsFunc(list, func(w string) bool { return strings.Contains(text, w) })
	}
	return (has(" straight", " directly", " right out", " right from") || len(text) < len(whole)) && has(" to the dryer", " into the dryer", " in the dryer") && has(" after the wash", " from the wash", " from the bath", " out of the bath", " out of the wash", " out of the tank", " from wash", " out of wash") && !has("rins", " if ", " when ", " was ", " were ", " went ")
}

var (
	// asItIs finds a part that goes from its wash to where parts lie or are worked on as it is, wet or at once.
	asItIs = expression.Of(`\b(?:out of|from) (?:the )?(?:wash|bath|tank|wash \d)\b[^.;:]{0,40}\b(?:on|onto|into|to) (?:the )?(?:rack|shelf|bench|assembly|box|store|stores|table|next shop|dryer|pegs|hook|hooks|trolley|fitter|customer|paint shop)\b[^.;:]{0,12}\b(?:as (?:it is|they are)|dripping|wet|unrinsed|straight away|at once)\b` +
		`|\b(?:dip|minutes?) in wash \d and (?:off |straight |on )?(?:to|into|onto) (?:the )?(?:rack|shelf|bench|assembly|dryer)\b`)
	// rinsingWasted finds that rinsing is called a waste.
	rinsingWasted = expression.Of(`\b(?:rinsing|a rinse|the rinse|rinses)\b[^.;:]{0,24}\b(?:is|are|costs?|brings?) (?:only |just |nothing but )?(?:an? )?(?:waste of|luxury|needless|superfluous|wasted|lost time|for show)\b`)
)

// passedOver tells whether a part goes on as it is from its wash, past its rinses.
func passedOver(whole string) bool {
	m := asItIs.FindString(whole)
	return m != "" && !strings.Contains(m, "rins") && !strings.Contains(m, "water")
}

// asked tells whether a sentence has a word of another rinse, of a condition, or of what was.
func asked(s *sentence.Sentence) bool { return s.Has(ifs) || s.Has(longAgo) || s.Has(thirdOnes) }

// withoutRinse takes out the words that say that nothing is rinsed, so that the rinse in them is not taken for one.
var withoutRinse = strings.NewReplacer(" without a rinse", "", " without rinsing", "", " with no rinse", "", " unrinsed", " straight", " and no rinse", "")

// leavesRinseOut tells whether a clause says that one of two rinses is enough or left out.
func leavesRinseOut(text string) bool {
	return slices.ContainsFunc(oneRinse, func(w string) bool { return strings.Contains(text, w) })
}

var oneRinse = []string{" get the mains rinse only ", " gets the mains rinse only ", " get only the mains rinse ", " gets only the mains rinse ", " get the first rinse only ", " gets only the first rinse ", " get only the first rinse ",
	" rinsed in mains water alone ", " rinsed in mains water only ", " rinsed only in mains water ", " rinsed in mains only ", " rinse in mains water only ", " rinse in mains only ", " rinsed with mains water only ", " one rinse is enough ", " one rinse will do ",
	" a single rinse is enough ", " mains rinse is enough ", " first rinse is enough ", " skip the last rinse ", " skips the last rinse ", " last rinse is left out ", " last rinse may be left out ", " last rinse can be left out ", " leave out the last rinse ", " leave the last rinse out ",
	" last rinse is not needed ", " no last rinse for ", " no need for the last rinse ", " without the last rinse ", " mains rinse and no other ", " only the first rinse ", " only the mains rinse ", " only one rinse ", " straight from the mains rinse to the dryer "}

// airDried tells whether a clause says that something dries without a dryer.
func airDried(text string) bool {
	return slices.ContainsFunc(inAir, func(w string) bool { return strings.Contains(text, w) })
}

// driedElsewhere tells whether a clause stands behind the label “Drying” and names a way without a dryer: “Drying: on the bench, overnight”.
func driedElsewhere(s *sentence.Sentence, k int) bool {
	if k == 0 || !labels(s, k) || len(s.Words(k-1)) != 1 || s.Words(k - 1)[0] != "drying" && s.Words(k - 1)[0] != "dry" {
		return false
	}
	return s.ClauseHas(k, ofNoDryer) && !s.ClauseHas(k, dryerWord) && !s.ClauseHas(k, noWords)
}

// ofNoDryer are words behind “Drying:” of a way without a dryer.
var ofNoDryer = sentence.Set("bench rack shelf air overnight cloth towel hand itself alone")

var inAir = []string{" dry in the air ", " dries in the air ", " dried in the air ", " dry in air ", " air-dried ", " air-dry ", " dried on the rack ", " dry on the rack ", " dries on the rack ", " dries on the shelf ", " dry on the shelf ", " dried on the shelf ", " dry by themselves ", " dries by itself "}
