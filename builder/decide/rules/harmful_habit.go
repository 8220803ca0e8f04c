package rules

import (
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
	"tankside/calculators/safety"
)

// harmfulHabit finds sentences that have somebody do what kills or blinds in any workshop: vomiting after a swallow, an eye that is rinsed too short, a hand on
// somebody who hangs on the current, a siphon that is started by mouth, a switch that guards and is bridged, a brush that is licked. It prevents that the manual
// teaches what a tired hand has always done. What is denied, forbidden, asked or over is no such sentence.
var harmfulHabit = finding.Rule{
	Name: "harmful-habit", Severity: finding.People,
	Finds:  "a text that brings on vomiting, rinses an eye for less than 15 min, pulls somebody off who hangs on the current, sucks a liquid up by mouth, bridges a switch that guards, or licks a tool",
	Why:    "Who does what he reads is hurt, or hurts the one whom he helps.",
	Source: "UN GHS, annex 3, P331 (do not induce vomiting); ANSI/ISEA Z358.1, 15 min for an eye (as quoted in a safety journal); the others: common practice, no source",
}

func findHarmfulHabits(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	said := p.reading(a)
	for i := range said.sentences {
		s := &said.sentences[i]
		if s.Quiet() || s.Question || s.TakenBack || s.Block.Kind == sentence.Heading {
			continue
		}
		for k := range s.Clauses {
			c := &s.Clauses[k]
			if c.Mood == sentence.Was || c.Mood == sentence.MustNot || c.Mood == sentence.Ask || c.Mood == sentence.Example || c.Opener == "if" || c.Opener == "when" || c.Negated || denies(s, k) || s.ClauseHas(k, longAgo) {
				continue
			}
			if says, remedy := habitIn(s, k); says != "" {
				list = append(list, harmfulHabit.At(placeIn(a, s.Block, s.From+leading(s)), says, remedy))
				break
			}
		}
	}
	return list
}

// habitIn gives what is harmful in a clause, and what to write instead.
func habitIn(s *sentence.Sentence, k int) (says, remedy string) {
	switch {
	case broughtUp(s, k):
		return "The text brings on vomiting.", "Nobody is made to vomit: what burnt on the way down burns again, and solvents run into the lungs. Call the poison centre."
	case rinsedShort(s, k):
		return "The text rinses an eye for less than 15 min.", "Rinse with much water at once, for 15 minutes by the clock and more, and call for help."
	case s.ClauseHas(k, pulls) && s.ClauseHas(k, persons) && s.Has(currents) && !s.Has(madeDead):
		return "The text lays hands on somebody who may hang on the current.", "Switch off or pull the plug first; where that cannot be, push him off with something dry that does not conduct."
	case s.ClauseHas(k, sucks) && s.ClauseHas(k, hoses) && (s.ClauseHas(k, startsIt) || s.Clauses[k].Mood == sentence.Do) || s.Has(hoses) && byMouth(s, k):
		return "The text has a liquid sucked up by mouth.", "Use a hand pump or a siphon with a valve."
	case guardBridged(s, k):
		return "The text puts a switch that guards out of action.", "It stays in force; what trips too often is repaired by a service technician."
	case s.ClauseHas(k, licks) && s.ClauseHas(k, licked) && (s.Clauses[k].Mood != sentence.Is || s.ClauseHas(k, doesGood) || s.ClauseHas(k, helpsBy)):
		return "The text has somebody lick a tool or a finger.", "Nothing that has been at the bench or in a bath goes to the mouth."
	}
	return "", ""
}

// byMouth tells whether something is done by mouth.
func byMouth(s *sentence.Sentence, k int) bool {
	words := s.Words(k)
	for i := range words {
		if words[i] == "by" && i+1 < len(words) && words[i+1] == "mouth" {
			return true
		}
	}
	return false
}

// broughtUp tells whether a clause has somebody brought to vomit.
func broughtUp(s *sentence.Sentence, k int) bool {
	if !s.ClauseHas(k, vomits) {
		return false
	}
	words := s.Words(k)
	for i, w := range words {
		for j := i - 1; vomits[w] && j >= max(0, i-3); j-- {
			if w == "vomiting" && bringsOn[words[j]] || w != "vomiting" && makesDo[words[j]] {
				return true
			}
		}
	}
	return false
}

// rinsedShort tells whether a clause rinses an eye, and for a time that is too short; “within 10 s” and “after 2 min” are no such time.
func rinsedShort(s *sentence.Sentence, k int) bool {
	if !s.Has(eyeWords) || !s.ClauseHas(k, rinsesEye) || s.Has(eyewashes) {
		return false
	}
	for i, words := 1, s.Tokens(); i < len(words); i++ {
		if words[i].Text == "wash" && words[i-1].Text == "eye" {
			return false // which is what is tried each week
		}
	}
	for i := range s.Quantities {
		q := &s.Quantities[i]
		if q.Kind == quantity.Time && q.Clause == k && q.Range.High < safety.EyeRinse*60 && !slices.ContainsFunc(notSoLong, func(w string) bool { return precededBy(s, q, w) }) {
			return true
		}
	}
	return false
}

// guardBridged tells whether a clause bridges, bypasses or overrides an interlock or a switch.
func guardBridged(s *sentence.Sentence, k int) bool {
	if !s.ClauseHas(k, bridges) || !s.ClauseHas(k, guards) {
		return false
	}
	words := s.Words(k)
	for i, w := range words {
		switch {
		case bridges[w] && s.Clauses[k].Mood == sentence.Do:
			for j := i + 1; j < min(len(words), i+5); j++ {
				if guards[words[j]] && !(w == "bypass" && words[i+1] == "valve") {
					return true
				}
			}
		case bridgedBy[w] && i > 0 && (beWords[words[i-1]] || words[i-1] == "be"):
			for j := max(0, i-5); j < i; j++ {
				if guards[words[j]] {
					return true
				}
			}
		}
	}
	return false
}

// notSoLong are words before a time that something does not last.
var notSoLong = []string{"within", "after", "in", "every", "each"}

var (
	vomits    = sentence.Set("vomit vomiting sick")
	bringsOn  = sentence.Set("induce cause provoke bring start")
	makesDo   = sentence.Set("make makes have let get")
	eyeWords  = sentence.Set("eye eyes")
	rinsesEye = sentence.Set("rinse rinsed flush flushed wash washed bathe bathed irrigate")
	eyewashes = sentence.Set("eyewash eyewashes station bottle weekly")
	pulls     = sentence.Set("pull drag grab snatch tear")
	persons   = sentence.Set("him her them somebody someone casualty victim colleague person")
	currents  = sentence.Set("shock current electrocuted electricity live")
	madeDead  = sentence.Set("switch switched plug unplug unplugged isolate isolated broom wood wooden dry dead cut")
	sucks     = sentence.Set("suck sucking sucks sucked")
	startsIt  = sentence.Set("start starts started begin draw draws drawn fill")
	hoses     = sentence.Set("hose tube pipe siphon siphoned pipette straw drawn draw")
	bridges   = sentence.Set("bridge bypass override overridden bridged bypassed defeat defeated jumper")
	bridgedBy = sentence.Set("bridged bypassed overridden defeated")
	guards    = sentence.Set("interlock interlocks switch guard cut-out cutout thermostat limiter float")
	licks     = sentence.Set("lick licks licking licked")
	licked    = sentence.Set("brush finger fingers tip point tool")
	helpsBy   = sentence.Set("helps gives makes is best")
)
