package rules

import (
	"slices"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// reachedInRun tells whether a sentence has somebody at work in a bath that runs where the tool is his hand and no word needs to say so: “Just reach in and fish it out, the
// generator will not mind”, “Fish it out before the timer rings”, “The foreman never stops the tank for a single spring: gloves on, in, out”. In the article of a test that is
// done in a sounding bath, what is held there by hand is held while it sounds: “Keep hold of the tile with two fingers until the grey is gone”.
func (p *proof) reachedInRun(a *manual.Article, s *sentence.Sentence) bool {
	if s.Question || s.TakenBack || s.Block.Signal != "" || s.Has(notTheBath) {
		return false
	}
	text := strings.ToLower(s.Text())
	if !hasSign(text, reachesBegin...) || s.Has(reporters) || illOf(s) || s.Has(penalties) || handsAway(s) {
		return false
	}
	hand, at := reachedBy(s, text)
	if !hand || byTool.MatchString(text) || handsKeptOut.MatchString(text) || stopsItself.MatchString(text) || endsFirst.MatchString(text) {
		return false
	}
	words := s.Tokens()
	if k := clauseAt(words, s.From+at); toldOtherwise(s, k) && !(s.Clauses[k].Opener == "once" && s.Clauses[k].Verb == "" && !s.ClauseHas(k, putWords)) || s.Clauses[k].Mood == sentence.MustNot {
		return false
	}
	if s.Has(negatives) && !runsOn.MatchString(text) && !unminded.MatchString(text) {
		return false
	}
	if runsOn.MatchString(text) || soundGoes.MatchString(text) {
		return true
	}
	on, _ := soundIsOn(words)
	return on && s.Block.Kind != sentence.Cell || p.soundsInTest(a) && heldInTest.MatchString(text) && heldFor.MatchString(text) && !s.Has(beforeIt)
}

// reachedBy tells whether a sentence has a hand in the liquid, named or not, and where in its text.
func reachedBy(s *sentence.Sentence, text string) (bool, int) {
	if at := reachesFor.FindStringIndex(text); at != nil {
		return true, at[0]
	}
	if at := heldInTest.FindStringIndex(text); at != nil && s.Has(handWords) {
		return true, at[0]
	}
	if at := handDoes.FindStringIndex(text); at != nil {
		return true, at[0]
	}
	return false, 0
}

// clauseAt gives the clause of the word at a byte of a block's text.
func clauseAt(words []sentence.Token, from int) int {
	k := 0
	for _, w := range words {
		if w.From > from {
			break
		}
		k = w.Clause
	}
	return k
}

// soundsInTest tells whether an article is a procedure of a test or a demonstration whose own text speaks of the sound.
func (p *proof) soundsInTest(a *manual.Article) bool {
	if a.Procedure == nil || len(a.Procedure.Tanks) == 0 || !slices.ContainsFunc(strings.FieldsFunc(a.Name, func(r rune) bool { return r == '-' }), func(w string) bool { return testWords[w] }) {
		return false
	}
	return soundedStep.Match(a.Body)
}

var (
	// reachesBegin are pieces of which one is in whatever reachesFor, handDoes or heldInTest finds: looking for them is quick, and few sentences have one.
	reachesBegin = []string{"reach", "grope", "delve", "rummage", "dive", "grab", "fish", "pick", "glove", " hand", " arm", "finger", "palm", "thumb", "fist", "knuckle", "sleeve"}
	// reachesFor finds phrases of a hand that goes in after something.
	reachesFor = expression.Of(`\b(?:reach|reaches|grope|delve|rummage|dive|grab)(?: (?:about|around|down|right|straight|quickly|deep))? (?:in|into|under)\b|\bfish(?:es)? (?:it|them|that|one|the \w+) out\b|\bfish(?:es)? out\b|\bpick(?:s)? (?:it|them|the \w+) out\b|\bgloves? on, (?:then )?in,? (?:and )?out\b|\bin with (?:your|the|a) (?:hand|arm)\b`)
	// handDoes finds phrases of work with a part of the body in the liquid.
	handDoes = expression.Of(`\b(?:by|with|through|between|in) (?:(?:your|his|her|the|a|one|two|own|bare|gloved) )*(?:hands?|fingers?|fingertips?|palm|thumb|fist|arm)\b|\b(?:dip|put|hold|keep|stick|lower|slide|lay|press)s? (?:in )?(?:your|his|her|the|a|an|one|two) (?:\w+ )?(?:hand|finger|fingertip|fingers|palm|thumb|fist|arm|knuckle)\b|\b(?:own )?fingers? (?:hold|holds|do|does)\b|\broll(?:ed)? up (?:your|his|her|the|one|a) sleeves?\b`)
	// runsOn finds phrases with which the sound goes on, besides those of soundGoes.
	runsOn = expression.Of(`\bbefore the (?:timer|bell|clock|beep|beeper|buzzer) (?:rings|goes|sounds|beeps|stops|ends)\b|\b(?:at|by) half[- ]time\b|\b(?:humming|buzzing|singing|whistling|fizzing|roaring|sounding|running|live) (?:bath|tank|liquid|water)\b|\b(?:generator|sound|ultrasound|machine|tank|unit) (?:will not|won't|does not|doesn't) (?:mind|care|notice|object)\b` +
		`|\b(?:never|not|don't|needn't|no need to|without|nobody) stop(?:s|ping)? the (?:tank|bath|sound|generator|machine|unit)\b|\b(?:switching|turning) (?:it |the \w+ )?off (?:only |just )?(?:costs|takes|wastes|loses)\b|\bfeels? (?:\w+ )?the (?:sound|ultrasound|beam)\b|\bwhile the (?:clock|timer|cycle|programme) is (?:still )?(?:running|going|on)\b|\b(?:sound|generator|ultrasound) (?:stays|stay|left|may stay|can stay) (?:switched )?on\b|\bwhile (?:it|the (?:\w+ )?(?:bath|tank|transducers|generator)) (?:\w+ )?(?:degasses|buzz|buzzes|hums?|runs?|works?|sings?)\b`)
	stopsItself  = expression.Of(`\b(?:sound|generator|ultrasound|unit|tank) (?:is )?(?:off|stops|stopped)\b|\b(?:stop|switch off|turn off) the (?:sound|generator|tank|unit)\b.*\b(?:then|and)\b|\bsound off\b`)
	handsKeptOut = expression.Of(`\b(?:hands?|fingers?|arms?) (?:\w+ )?(?:stays?|stay|are kept|out|away|off|clear)\b|\b(?:keep|keeps) (?:your|the|all)? ?(?:hands?|fingers?|arms?) (?:out|off|away|clear)\b`)
	// heldInTest finds the thing of a test held by hand.
	heldInTest  = expression.Of(`\b(?:hold|holds|held|keep hold|keeps hold|put|dip|lower|pinch|grip|move|feel)\b[^.;]*\b(?:by|with|between|in) (?:(?:your|the|a|one|two|both) )*(?:hands?|fingers?|fingertips?|thumb)\b|\bfingers? (?:hold|holds) the\b|\b(?:hold|keep|put|dip) (?:your|a|one|the) (?:hand|finger|fingertip|palm) (?:in|into|under)\b`)
	heldFor     = expression.Of(`\b(?:bath|tank|liquid|until|seconds|minute|surface|under)\b`)
	soundedStep = expression.Of(`(?i)\b(?:sound|ultrasound|generator)\b`)
	reporters   = sentence.Set("somebody someone reported report found visitor")
	byTool      = expression.Of(`\b(?:with|by|from|using|on|of) (?:(?:the|a|an|your|its) )?(?:\w+ )?(?:lifter|hoist|hook|hooks|holder|clamp|pegs?|wires?|hanger|crane|strainer)\b|\bhand (?:height|lift)|\b(?:wire|hook|holder|hanger|lifter|hoist) (?:frame|holds)\b`)
	testWords   = sentence.Set("test demonstration degas")
	negatives   = sentence.Set("not never no don't nobody cannot without avoid instead nothing")
	beforeIt    = sentence.Set("off before stopped after weigh log dry afterwards bench table dryer look cut tear mark fold straighten stretch")
)
