package rules

import (
	"slices"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// acidFirst tells whether a sentence puts acid or concentrate into a vessel before the water, in whatever way the order is told: “Order of filling: acid,
// then water”, “The acid goes in before the water”, “5 L of acid into the tank, then 45 L of water”, “Once the acid is in, let the water run”.
func acidFirst(s *sentence.Sentence) bool {
	if s.Quiet() || s.Question || s.TakenBack || s.Block.Signal != "" || illOf(s) || s.Has(notFilling) || s.Has(exceptions) {
		return false
	}
	text := strings.ToLower(s.Text())
	if orderAllTheSame(s, text) {
		return true
	}
	if strings.Contains(text, "water") && turnedRound.MatchString(text) {
		return true
	}
	if strings.Contains(text, "water") && reversePraised.MatchString(text) {
		return true
	}
	if denied(s) {
		return false
	}
	ordered := strings.Contains(text, "before") || s.Has(wetWords) // the three that follow have one or the other
	return ordered && (acidBefore.MatchString(text) || waterAfterAcid.MatchString(text) || onceIn.MatchString(text)) || orderTold(s) || followsInto(s)
}

var (
	turnedRound = expression.Of(`\bwater (?:is |goes |gets |comes |must be |has to be )?(?:added |poured |put |run )?(?:to|on|onto|into) (?:the |this )?(?:acid|concentrate|lye|descaler|caustic)\b,? (?:(?:and )?(?:never|not) (?:the other way|the reverse|vice versa|(?:the )?(?:acid|concentrate|lye|descaler|caustic)))`)
	// reversePraised finds the right order called worse than its reverse: “acid into water, but the other way about mixes better”.
	reversePraised = expression.Of(`\b(?:acid|concentrate|lye|caustic|descaler) (?:in|on)?to (?:the )?water\b[^.]*\b(?:the other way (?:about|round|around)|the reverse)\b,? (?:\w+ )?(?:mixes|works|goes|is|does|saves|suits) (?:\w+ )?(?:better|best|faster|quicker|easier|fine|right|well|good|just as|time)\b`)
	acidBefore     = expression.Of(`\b(?:acid|concentrate|lye) (?:always )?(?:goes|go|comes|is put|is poured|is filled) in(?:to the (?:tank|bucket|tub|vat))? before (?:(?:the |any )?water|(?:the (?:tank|bucket|tub|vat)|it) is filled)\b`)
	waterAfterAcid = expression.Of(`^(?:\d+\. )?before the water,? the (?:acid|concentrate) (?:goes|comes|is put|is poured) in\b|\bwater (?:goes|comes|is put|is poured|is added) (?:in )?after the (?:acid|concentrate)\b`)
	onceIn         = expression.Of(`\b(?:once|when|after|as soon as) (?:all )?the (?:acid|concentrate|lye|cleaner|soap|detergent|descaler|powder) is in(?: the (?:tank|bucket|tub|vat|can))?,? (?:then )?(?:let|run|add|pour|fill|open|top|turn)\b[^.]*\b(?:water|hose|tap)\b`)
	// notFilling are words of another work than filling, or of a bath that has its water.
	notFilling = sentence.Set("waste spilt spill spills skin eye eyes rinse rinses rinsed flush flushed drained drains empty-drum burned face accident titrant sample samples burette floor cup neutralise")
	tub        = sentence.Set("tank bucket tub vat can drum pot beaker jug vessel container flask bottle barrel")
	runsIn     = sentence.Set("add fill top run pour let bring make hose follows follow open dilute then")
)

// orderAllTheSame tells whether a sentence says of acid and water that it does not matter which comes first.
func orderAllTheSame(s *sentence.Sentence, text string) bool {
	if !s.Has(strongStuff) || !s.Has(waterWord) || !s.Has(orderWords) && !eitherFirst(s.Tokens()) {
		return false
	}
	return slices.ContainsFunc(allTheSame, func(w string) bool {
		i := strings.Index(text, w)
		return i >= 0 && !strings.HasSuffix(strings.TrimRight(text[:i], " "), "not")
	})
}

// eitherFirst tells whether acid and water stand as the two of a choice: “acid or water first”.
func eitherFirst(words []sentence.Token) bool {
	for i := 1; i+1 < len(words); i++ {
		if words[i].Text != "or" {
			continue
		}
		one, other := words[max(0, i-2):i], words[i+1:min(len(words), i+3)]
		if hasAny(one, strongStuff) && hasAny(other, waterWord) || hasAny(one, waterWord) && hasAny(other, strongStuff) {
			return true
		}
	}
	return false
}

var (
	orderWords = sentence.Set("order sequence")
	allTheSame = []string{"all the same", "all one", "never mind the order", "does not matter", "doesn't matter", "no difference", "makes no odds", "either way round", "whichever you like", "as you like"}
)

// answersFirst tells whether a question about what goes in first is answered with acid or concentrate: “What goes in first? The acid.”
func answersFirst(one, two *sentence.Sentence) bool {
	if !one.Question || one.Block != two.Block || two.Question || two.TakenBack || two.Quiet() {
		return false
	}
	list := strings.FieldsFunc(strings.ToLower(one.Text()), func(r rune) bool { return r == ' ' || r == '?' || r == ',' })
	asks := slices.ContainsFunc(list, func(w string) bool { return firstWords[w] }) && (slices.Contains(list, "in") || slices.Contains(list, "into")) && !slices.Contains(list, "out")
	answer := two.AllWords()
	return asks && len(answer) < 6 && slices.ContainsFunc(answer, func(w string) bool { return strongStuff[w] }) && !two.Has(noWords) && !two.Has(waterWord) && !one.Has(noWords)
}

// orderTold tells whether a label of filling has the acid before the water: “Order of filling: acid, then water”, “Fill: 5 L acid, 45 L water”.
func orderTold(s *sentence.Sentence) bool {
	words := s.Tokens()
	colon := slices.IndexFunc(words, func(w sentence.Token) bool { return w.Text == ":" })
	if colon < 1 || colon > 7 || !slices.ContainsFunc(words[:colon], func(w sentence.Token) bool { return fillLabels[w.Text] }) {
		return false
	}
	acid, parted := -1, false
	for i := colon + 1; i < len(words); i++ {
		switch t := words[i].Text; {
		case t == "water":
			return acid >= 0 && parted
		case (strongStuff[t] || t == "crystals" || t == "powder") && acid < 0:
			acid = i
		case acid >= 0 && (t == "into" || t == "to") && nextOf(words, i, waterWord):
			return false
		case acid >= 0 && (t == "," || t == "then" || t == "second" || t == ";"):
			parted = true
		}
	}
	return false
}

var fillLabels = sentence.Set("order fill filling make-up mixing mix sequence recipe makeup")

// followsInto tells whether acid is poured into a vessel and water follows: “Measure the acid into the bucket, then run in the water”.
func followsInto(s *sentence.Sentence) bool {
	words := s.Tokens()
	at := poursAcid(words)
	if at < 0 || s.Clauses[words[at].Clause].Opener != "" || s.Clauses[words[at].Clause].Mood == sentence.Was {
		return false
	}
	verb := false
	for i := at + 1; i < len(words); i++ {
		switch t := words[i].Text; {
		case t == "water":
			if i > 2 && words[i-2].Text == "in" && words[i-3].Text == "run" {
				return true // “run in the water”
			}
			return verb && words[i-1].Text != "into" && !(i > 1 && (words[i-2].Text == "into" || words[i-2].Text == "to" || words[i-2].Text == "in") && words[i-1].Text != "in")
		case runsIn[t]:
			verb = true
		case strongStuff[t]:
			return false
		}
	}
	return false
}

// poursAcid gives the place of the vessel into which acid or concentrate is poured without a word of water before, or -1.
func poursAcid(words []sentence.Token) int {
	acid := -1
	for i, w := range words {
		switch {
		case w.Text == "water":
			return -1
		case strongStuff[w.Text] && acid < 0:
			acid = i
			if i+1 < len(words) && (words[i+1].Text == "bath" || words[i+1].Text == "tank" || words[i+1].Text == "drum") {
				return -1
			}
		case acid >= 0 && tub[w.Text] && i-acid < 8 && (words[i-1].Text == "the" || words[i-1].Text == "a" || dryVessel[words[i-1].Text]):
			for j := max(acid, i-4); j < i; j++ {
				if words[j].Text == "into" || words[j].Text == "in" && words[j].Clause == w.Clause && (acid < 4 || pourVerbs[words[max(0, acid-4)].Text] || pourVerbs[words[0].Text]) {
					return i
				}
			}
			return -1
		}
	}
	return -1
}

// acidFirstInSteps finds a list whose one item pours acid or concentrate into a tank and whose next adds water, with no water before.
func (p *proof) acidFirstInSteps(a *manual.Article, said []sentence.Sentence) []finding.Finding {
	var list []finding.Finding
	wet := false
	for i := range said {
		s := &said[i]
		if s.Block.Kind != sentence.Item && !s.Block.Steps {
			wet = false
			continue
		}
		words := s.Tokens()
		if i+1 < len(said) && !wet && said[i+1].Block != s.Block && (said[i+1].Block.Kind == sentence.Item || said[i+1].Block.Steps) && !s.Quiet() && !denied(s) && !illOf(s) && !s.Has(notFilling) && poursAcid(words) >= 0 && poursWater(said[i+1].Text()) {
			list = append(list, waterIntoConcentrate.At(placeIn(a, s.Block, s.From+leading(s)), "The steps put the concentrate in first and water on it.", waterFirst))
		}
		wet = wet || strings.Contains(strings.ToLower(s.Text()), "water")
	}
	return list
}

// acidFirstInTable finds a table of steps whose one row measures out concentrate and whose next the water, with no water before: “1 | 4.8 L concentrate”,
// “2 | 115 L water”.
func acidFirstInTable(a *manual.Article, said []sentence.Sentence) []finding.Finding {
	var before *sentence.Sentence
	for i := range said {
		s := &said[i]
		if s.Block.Kind != sentence.Cell || s.Block.First || !ordinals[strings.Trim(strings.ToLower(s.Block.Row), " .)")] {
			continue
		}
		list := strings.FieldsFunc(strings.ToLower(s.Text()), func(r rune) bool { return r == ' ' || r == ',' || r == '.' })
		has := func(words map[string]bool) bool {
			return slices.ContainsFunc(list, func(w string) bool { return words[w] })
		}
		filled := !has(notFilling) && !has(noFill) && (!has(notNear) || has(waterWord) && (has(inByWord) || hasVolume(s))) && (hasVolume(s) || has(pourVerbs) || has(inByWord) && len(list) < 6)
		switch {
		case has(waterWord):
			if before != nil && filled && !has(strongStuff) && s.Block.Column == before.Block.Column {
				return []finding.Finding{waterIntoConcentrate.At(placeIn(a, before.Block, before.From+leading(before)), "The table puts the concentrate in first and water on it.", waterFirst)}
			}
			return nil
		case filled && before == nil && has(strongStuff):
			before = s
		}
	}
	return nil
}

// hasVolume tells whether a sentence has an amount of liquid.
func hasVolume(s *sentence.Sentence) bool {
	return slices.ContainsFunc(s.Quantities, func(q sentence.Quantity) bool { return q.Kind == quantity.Volume })
}

// inByWord are words of a cell by which something goes in without a verb: “concentrate in”, “water to the line”.
var inByWord = sentence.Set("in line mark first")

var ordinals = sentence.Set("1 2 3 4 5 6 1st 2nd 3rd 4th first second third one two three a b c d")

// poursWater tells whether a step adds water to what is in the tank.
func poursWater(text string) bool {
	list := strings.Fields(strings.ToLower(strings.Trim(text, " .")))
	return len(list) > 1 && (list[0] == "add" || list[0] == "fill" || list[0] == "top" || list[0] == "run" || list[0] == "pour") && slices.Contains(list, "water") && !slices.Contains(list, "rinse")
}
