package rules

import (
	"slices"
	"strings"

	"tankside/builder/sentence"
)

// dips tells whether a time on a chemistry's page is how long parts are in it: “Leave the parts in it for ten minutes”, “Dip for ten minutes”,
// “Parts are dipped for five minutes”, “Dip time: 10 min”, “Ten minutes in it are enough”.
func dips(s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause
	c := &s.Clauses[k]
	if c.Opener != "" || q.Relation == sentence.Difference || s.Block.Kind == sentence.Cell || s.Has(noWords) || s.Has(notParts) || illOf(s) || s.Harmful() || placedElsewhere(s, q) && !dipsIn[c.Verb] || consequence(s, k) {
		return false
	}
	if k > 0 && labels(s, k) {
		return slices.Contains(dipLabels, strings.Join(s.Words(k-1), " "))
	}
	before, behind := words(s, s.From, q.From), words(s, q.To, s.To)
	for n := len(before); n > 0 && (before[n-1] == "a" || before[n-1] == "an" || before[n-1] == "about"); n-- {
		before = before[:n-1] // “for a quarter of an hour”
	}
	lasts := len(before) > 0 && before[len(before)-1] == "for"
	if len(before) == 0 && len(behind) > 2 && behind[0] == "in" && behind[1] == "it" && giveIt[behind[2]] {
		return true
	}
	switch c.Mood {
	case sentence.Do:
		if lasts && leavesIn[c.Verb] && s.ClauseHas(k, pieceWords) && inIt(before) {
			return true
		}
		if lasts && dipsIn[c.Verb] && (len(before) == 2 || s.ClauseHas(k, pieceWords)) {
			return true
		}
		return lasts && len(before) > 3 && isDipped[before[len(before)-2]] && (before[len(before)-3] == "are" || before[len(before)-3] == "is") && pieceWords[before[len(before)-4]]
	case sentence.Is, sentence.Fragment:
		if lasts && inIt(before) && s.ClauseHas(k, pieceWords) && s.ClauseHas(k, hangs) {
			return true
		}
	}
	return false
}

// consequence tells whether a clause that another joins with “and” tells what comes of it: “Leave it in for an hour and the steel is pitted”.
func consequence(s *sentence.Sentence, k int) bool {
	for j := k + 1; j < len(s.Clauses); j++ {
		if m := s.Clauses[j].Mood; s.Clauses[j].Opener == "" && (m == sentence.Is || m == sentence.If || m == sentence.Fragment) {
			return true
		}
	}
	return false
}

// inIt tells whether words say that something is in the bath: “in it”, “in the bath”, “in”.
func inIt(list []string) bool {
	at := slices.Index(list, "in")
	if at < 0 || at+1 >= len(list) {
		return false
	}
	switch next := list[at+1]; next {
	case "it", "for":
		return true
	case "the", "this":
		return at+2 < len(list) && (isBathWord(list[at+2]) || list[at+2] == "dip" || list[at+2] == "acid")
	}
	return false
}

var (
	dipLabels  = []string{"dip time", "dip", "soak", "soak time", "time of the dip", "time in the bath", "time in it", "dipping time", "dwell", "dwell time", "contact time"}
	leavesIn   = sentence.Set("leave hold keep let hang put place lay immerse dip soak steep sink")
	dipsIn     = sentence.Set("dip soak immerse steep")
	isDipped   = sentence.Set("dipped soaked immersed left steeped")
	hangs      = sentence.Set("hang hangs stay stays lie remain sit left")
	pieceWords = sentence.Set("part parts piece pieces them work load castings fittings housing housings basket")
	giveIt     = sentence.Set("give gives are is do does suffice")
	// notParts are words of what is not the work.
	notParts = sentence.Set("strip sample coupon paper electrode probe indicator cloth swab")
)
