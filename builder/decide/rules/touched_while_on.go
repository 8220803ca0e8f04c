package rules

import (
	"strings"

	"tankside/builder/expression"
	"tankside/builder/sentence"
)

// touchedWhileOn tells whether a sentence has a hand in a bath that sounds where neither the one nor the other is called so: the sound is on because a timer
// counts, a cycle goes on, a thing is held from start to stop, nobody is to mind the generator, or the hand is what tells how strong it is; the hand is in
// because a sleeve is up, somebody is wrist-deep, or fingers steady, free or hold something. What the sentence before asks, “Why stop the cycle?”, says
// that it goes on. It may be nil.
func touchedWhileOn(one, s *sentence.Sentence) bool {
	if s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || !s.Has(handWords) && !s.Has(deepWords) && !s.Has(sleeves) && !s.Has(helpers) || s.Has(notTheBath) || handsAway(s) || saidOut(s.Tokens()) || s.Has(penalties) {
		return false
	}
	text := strings.ToLower(s.Block.Text[s.From:s.To])
	harmless := reassured.FindStringIndex(text)
	if harmless == nil && (illOf(s) || s.Has(toldOf)) {
		return false
	}
	words := s.Tokens()
	k := touchClause(s, words, text)
	if k < 0 || harmless == nil && toldOtherwise(s, k) {
		return false
	}
	on, said := soundIsOn(words)
	spans := append(soundGoes.FindAllStringIndex(text, -1), unminded.FindAllStringIndex(text, -1)...)
	on = on || len(spans) > 0 || one != nil && leftOnBefore(one, s, text)
	if !on && !soundSensed(s, words) || endsFirst.MatchString(text) {
		return false
	}
	spans = append(spans, nothingBetter.FindAllStringIndex(text, -1)...)
	if harmless != nil {
		spans = append(spans, harmless)
	}
	return !keptFromIt(s, words, said, spans)
}

// leftOnBefore tells whether the sentence before leaves the sound on: it asks why one should stop it, or is the item of a list that switches it on.
func leftOnBefore(one, s *sentence.Sentence, text string) bool {
	before := strings.ToLower(one.Text())
	if one.Block == s.Block {
		return whyStop.MatchString(before) && !strings.HasPrefix(strings.TrimSpace(text), "because")
	}
	return one.Block.Kind == sentence.Item && s.Block.Kind == sentence.Item && switchedOn.MatchString(before)
}

// toldOtherwise tells whether the clause of the hand tells of another time, or is a condition.
func toldOtherwise(s *sentence.Sentence, k int) bool {
	c := &s.Clauses[k]
	switch c.Opener {
	case "", "(", "while", "until", "as", "so", "who", "which":
	default:
		return true
	}
	return c.Mood == sentence.Was || c.Mood == sentence.Example || s.ClauseHas(k, longAgo)
}

// saidOut tells whether hands are said to be out of the liquid. What they have out in a second is something else.
func saidOut(words []sentence.Token) bool {
	for i, w := range words {
		if handWords[w.Text] && handsIn[wordAt(words, i+1)] && wordAt(words, i+3) == "out" {
			return false
		}
	}
	return handsOut(words)
}

// touchClause gives the clause in which a hand is in the liquid or works there, or -1.
func touchClause(s *sentence.Sentence, words []sentence.Token, text string) int {
	if k := bodyClause(words); k >= 0 {
		return k
	}
	for i, w := range words {
		switch next := wordAt(words, i+1); {
		case deepWords[w.Text]:
			return w.Clause
		case sleeves[w.Text] && (next == "up" || next == "rolled"):
			return w.Clause
		case handWords[w.Text] && (handsIn[next] || next == "in" || next == "is" && wordAt(words, i+2) == "under" || next == "are" && wordAt(words, i+2) == "under"):
			return w.Clause
		case handWords[w.Text] && s.ClauseHas(w.Clause, workedByHand):
			return w.Clause
		}
	}
	return -1
}

// soundSensed tells whether what a hand feels is said to tell of the sound: the sting of it, a prickle, a tune that changes, a lazy transducer.
func soundSensed(s *sentence.Sentence, words []sentence.Token) bool {
	if s.Has(onSkin) {
		return false
	}
	if s.Has(sensations) && (s.Has(learns) || s.Has(soundThings) || s.Has(teaches)) {
		return true
	}
	return s.Has(learns) && s.Has(soundThings) && (s.Has(bathWords) || hasAny(words, underIt))
}

// keptFromIt tells whether something in a sentence stops the sound or forbids the hand, besides what says that neither is needed.
func keptFromIt(s *sentence.Sentence, words []sentence.Token, said map[int]bool, spans [][]int) bool {
	for i, w := range words {
		if !offWords[w.Text] && !forbiddingIt[w.Text] || said[i] || within(spans, w.From-s.From) {
			continue
		}
		switch {
		case w.Text == "no" && (sensations[wordAt(words, i+1)] || holdersOf[wordAt(words, i+1)] || wordAt(words, i+1) == "longer"):
		case w.Text == "no" && soundThings[wordAt(words, i+1)] && s.Has(sensations): // “no prickle, no power”
		case offWords[w.Text] && (offOfPlace(words, i) || oneByOne(words, i) || w.Text == "before"):
		case w.Text == "thermometer": // which a hand may hold there
		case w.Text == "stay" && goesOn[wordAt(words, i+1)]:
		default:
			return true
		}
	}
	return false
}

func within(spans [][]int, at int) bool {
	for _, span := range spans {
		if at >= span[0] && at < span[1] {
			return true
		}
	}
	return false
}

var (
	// soundGoes finds phrases with which the sound is on, or goes on, without a word that it does.
	soundGoes = expression.Of(`\b(?:while|as|when|whilst) (?:it|the (?:bath|tank|unit|machine|generator|sound|timer|clock|cycle|programme|program)) (?:still )?(?:sings?|hums?|buzz(?:es)?|runs?|works?|ticks?|counts?|goes|sounds|is (?:on|running|going|at work|humming|singing|live)|(?:ought to|should) (?:be working|work))\b` +
		`|\b(?:timer|clock|cycle|sound|generator|machine|programme) (?:may |can |just |simply )?(?:goes?|keeps?|runs?|counts?|ticks?|hums?|carry|carries|stays?) (?:on|going|down|along|running)\b` +
		`|\bfrom start to (?:stop|finish|end)\b|\bfor the (?:whole|entire|full|length of the) (?:minute|run|cycle)\b|\bthe (?:whole|entire|full) (?:run|cycle)\b` +
		`|\buntil the (?:\w+ )?(?:minutes?|seconds|cycle|run|timer|sound)(?: of sound)? (?:is|are|has|stops|ends|rings) ?(?:over|up|done|out)?\b` +
		`|\b(?:generator|sound|ultrasound|ultrasonics) (?:to|at|on|up to) (?:full|max|maximum|high|half)\b|\bsound (?:does not|doesn't) (?:bite|hurt|mind|harm)\b|\bin full (?:song|swing)\b|\bmid-(?:cycle|run)\b|\b(?:halfway|midway|half way) through the (?:test|run|cycle|minute)\b|(?:^|[-–:,] )sound on\b` +
		`|\bbefore the (?:sound|generator|cycle|run) (?:has (?:stopped|ended)|is (?:off|over|stopped)|stops|ends)\b|\b(?:sound|generator|ultrasound|ultrasonics) (?:is )?on first\b|\bunder (?:full )?(?:sound|ultrasound)\b|\bduring (?:the|each) (?:demonstration|pulse|sonication)\b`)
	// unminded finds phrases that nobody is to mind the sound.
	unminded = expression.Of(`\b(?:no (?:fuss|bother|need|reason|call|point|worry)|never mind|forget|don't bother|without (?:touching|bothering|minding|a thought for))\b[^.,;]{0,24}\b(?:sound|generator|ultrasound|ultrasonics|cycle|timer|switch)\b`)
	// reassured finds phrases that nobody has come to harm by it.
	reassured  = expression.Of(`\b(?:nobody|no one|none of us|no finger|no hand|never|hasn't|not one of us)\b[^.;:]{0,32}\b(?:lost|hurt|harmed|died|injured|bitten|stung|burnt|burned|suffered|complained)\b[^.;:]{0,14}`)
	switchedOn = expression.Of(`^\W*(?:\d+\. )?(?:switch |turn )?(?:the )?(?:sound|generator|ultrasound|ultrasonics) on\W*$`)
	// endsFirst finds phrases with which the sound has come to its end before the hand goes in.
	endsFirst = expression.Of(`\b(?:wait|until|till|counts|runs|when|once|after)\b.*[,;] (?:and )?then\b`)
	// whyStop finds a question that wants no answer: the sound may stay on.
	whyStop       = expression.Of(`^\W*(?:\d+\. )?(?:and )?why (?:stop|halt|pause|interrupt|switch off|turn off|shut down|wait for)\b.*\b(?:cycle|sound|ultrasound|ultrasonics|generator|run|machine|tank|timer|programme|beep)\b`)
	nothingBetter = expression.Of(`\bnothing (?:beats|teaches|compares|tells|is (?:better|quicker|simpler|easier|surer)|better|quicker|simpler)\b`)

	toldOf       = sentence.Set("somebody someone reported report found trainee visitor")
	deepWords    = sentence.Set("forefinger forefingers wrist-deep elbow-deep knuckle-deep finger-deep hand-deep arm-deep")
	handsIn      = sentence.Set("do does have has know knows tell tells serve serves suffice")
	workedByHand = sentence.Set(`steady steadying steadied steadies hold holds holding held herd herding guide guiding turn turns turning sort sorting shake shaking free freed frees freeing keep keeps keeping press pressing push pushing nudge nudging
		stir stirring swirl swirling swish straighten straightening move moving shift shifting rearrange clamp laying lay lean pinch pinching slip slide trail trailing wiggle rub rubbing untangle roll clip fish fishing pick picks picking scoop clamps holder holders`)
	sensations  = sentence.Set("tingle tingles tingling prickle prickles prickling tickle tickles tickling sting stings stinging buzz buzzing throb throbs throbbing tune tunes pulse pulses vibration vibrations")
	soundThings = sentence.Set("sound ultrasound ultrasonics transducer transducers power beam cavitation activity tank generator beads")
	teaches     = sentence.Set("teach teaches teaching learn learns lesson everybody pupils trainees class whether listen listens changes")
	// onSkin are words of what a hand feels of acid and alkali.
	onSkin = sentence.Set("splash splashes acid alkali lye caustic rash doctor burn burns itch itches itching cream eyewash solvent")
	// notTheBath are things that a hand holds or touches where no bath is, beside those of outside.
	notTheBath = sentence.Set("panel lid lids cover log card knob button door screen display form tongs magnet pliers tweezers net gauge valve handle rail plug label headset cloth rag outside casing hose table bench desk stick rod ruler pole grabber unplugged air lamp light pocket pockets eyewash shower dryer oven hood write writes written writing reading note notes form weigh weighed sketch draw file")
)
