package rules

import (
	"slices"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// othersWork tells whether a clause tells what other people than the shop's do in their own plants: “The anodiser seals at 96 °C”, “The foundry pours
// it at 1000 °C”. What they recommend or allow is said to the shop, and so is what a tank of the shop is named in.
func othersWork(s *sentence.Sentence, k int) bool {
	if namesTank(s, k) {
		return false
	}
	if k > 0 && s.Clauses[k].Mood != sentence.Do && !otherIn(s, k) {
		k-- // “The castings of the supplier are washed at 80 °C and 28 kHz before they come”
	}
	return otherIn(s, k) && !s.ClauseHas(k, counsels) && !namesTank(s, k)
}

// namesTank tells whether a clause names a tank of the shop.
func namesTank(s *sentence.Sentence, k int) bool {
	return slices.ContainsFunc(s.Mentions, func(m sentence.Mention) bool {
		return m.Thing != nil && m.Thing.Tank != nil && s.ClauseOf(&m) == k
	})
}

// otherIn tells whether a clause has a word for other people that does not only say of what sort something is, as in “mill scale”.
func otherIn(s *sentence.Sentence, k int) bool {
	words := s.Tokens()
	for i, w := range words {
		if w.Clause != k || !otherHands[w.Text] {
			continue
		}
		if strings.HasSuffix(w.Text, "s") || i+1 == len(words) {
			return true
		}
		if next := words[i+1].Text; strings.HasSuffix(next, "s") || strings.HasSuffix(next, "ed") || len(next) < 4 || next == "were" {
			return true
		}
	}
	return false
}

// ofOthers tells whether a quantity is said of what belongs to others: “The dryer of the paint shop is set to 95 °C”, and “…, ours to 80 °C”.
func ofOthers(s *sentence.Sentence, q *sentence.Quantity) bool {
	for _, w := range s.Tokens() {
		if w.Text == "ours" && w.From > q.To {
			return true
		}
	}
	m := q.About
	if m == nil || m.Thing == nil || m.From < s.From || m.To > q.From || s.After(m) != "of" {
		return false
	}
	rest, _, _ := strings.Cut(strings.ToLower(s.Block.Text[max(0, m.To):q.From]), ",")
	return slices.ContainsFunc(strings.Fields(rest), func(w string) bool { return otherHands[w] || otherRooms[w] })
}

// otherPart tells whether the clause of a quantity on a part's page names another part: “The shaft sleeve may have eight minutes”.
func otherPart(a *manual.Article, s *sentence.Sentence, k int) bool {
	return a.Part != nil && slices.ContainsFunc(s.Mentions, func(m sentence.Mention) bool {
		return m.Thing.Kind() == manual.Part && !m.Thing.Includes(a) && s.ClauseOf(&m) == k
	})
}

var (
	otherHands = sentence.Set(`anodiser anodisers foundry foundries mill mills moulder moulders supplier suppliers maker makers manufacturer manufacturers plater platers electroplater electroplaters galvaniser galvanisers customer customers customer's
		supplier's maker's hardener hardeners treaters caster smith dealer contractor laundry refinery jeweller jewellers canteen`)
	otherRooms = sentence.Set("paint plating line lab laboratory electroplaters next other canteen")
	counsels   = sentence.Set("recommends recommend allows allow says say said advises advise asks ask wants want promises promise permits permit prescribes specifies specify suggests calls gives names demands tells for")
)
