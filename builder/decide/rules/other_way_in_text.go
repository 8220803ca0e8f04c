package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// otherWay finds, in a sentence of a part, a rinse, a dryer, a material or an order of tanks that its process does not have.
func (p *proof) otherWay(a *manual.Article, s *sentence.Sentence) []finding.Finding {
	var list []finding.Finding
	tell := func(from int, says, key string) {
		list = append(list, otherTankInText.At(placeIn(a, s.Block, from), says, "Correct it here, or the process in the header.", at(a, key)))
	}
	if from, to := p.sentOn(a, s); to != "" {
		tell(from, fmt.Sprintf("The text sends it on to %s, the header to %s.", to, a.Part.Next), "next")
	}
	if from, says, key := p.lessRinsed(a, s); says != "" {
		tell(from, says, key)
	}
	if from, water := p.otherWater(a, s); water != "" {
		tell(from, fmt.Sprintf("The text rinses it in %s water, which no rinse of its process has.", water), "rinse")
	}
	words := s.Tokens()
	for i := 1; i < len(words); i++ {
		if words[i].Text == "rinses" && (words[i-1].Text == "both" || words[i-1].Text == "two") && len(a.Part.Rinse) == 1 && affirmed(s, words[i].Clause) {
			tell(words[i-1].From, "The text speaks of two rinses, the process of one.", "rinse")
		}
	}
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Thing == nil || m.Where || !affirmed(s, s.ClauseOf(m)) {
			continue
		}
		k := s.ClauseOf(m)
		switch {
		case m.Thing.Dryer != nil:
			if a.Part.Dry.Name != m.Thing.Dryer.ID && (a.Part.Dry.Name != "" || len(a.Part.Rinse) > 0) && !otherPart(a, s, k) && !otherMatter(a, s) && (s.Before(m) == "in" && (hasTime(s, k) || s.ClauseHas(k, goesInto)) && s.Clauses[k].Mood != sentence.Is || s.Before(m) == "into" || s.Before(m) == "in" && s.ClauseHas(k, endsDry) || s.Before(m) == "of" && hasTime(s, k) || labelsDrying(s, k)) {
				tell(m.From, "The text dries it in the dryer, which its process does not name.", "dry")
			}
		case m.Thing.Rinse != nil:
			if len(a.Part.Rinse) > 0 && !slices.ContainsFunc(a.Part.Rinse, func(r manual.Ref) bool { return r.Name == m.Thing.Rinse.ID }) && (into(s, m) || s.Clauses[k].Mood == sentence.Fragment && nextStep[s.After(m)] || wantsTank[s.Before(m)] && namesOwn(a, s, k)) && (s.ClauseHas(k, goesInto) || s.ClauseHas(k, rinsesIn)) {
				tell(m.From, fmt.Sprintf("The text rinses it in %s, which its process does not name.", m.Word), "rinse")
			}
		case m.Thing.Single(manual.Chemistry):
			if !otherPart(a, s, k) && !otherMatter(a, s) && !inProcess(a, m.Thing) && !s.Has(byHandOnly) && p.washesWith(a, s, m, k) && len(whole(m.Thing.Articles(p.Manual))) == 1 {
				tell(m.From, fmt.Sprintf("The text washes it in %s, which its process does not name.", p.titleOf(m.Thing)), "chemistry")
			}
		case m.Thing.Kind() == manual.Material:
			if (s.ClauseHas(k, madeOf) || shapedFrom(a, s, m)) && madeBefore(s, m) && m.Thing.Single(manual.Material) && !slices.ContainsFunc(a.Part.Materials, func(r manual.Ref) bool { return m.Thing.Called(r.Name) }) {
				tell(m.From, fmt.Sprintf("The text says that it is of %s, which is not its material.", m.Word), "material")
			}
		case m.Thing.Tank != nil && len(a.Part.Steps) > 1:
			if place := stepNamed(s, words, m); place >= -1 && !otherPart(a, s, s.ClauseOf(m)) && (namesOwn(a, s, k) || place >= 0 && !s.Has(shiftWords)) && a.Part.Steps[(place+len(a.Part.Steps))%len(a.Part.Steps)].Tank.Name != m.Thing.Tank.ID {
				tell(m.From, fmt.Sprintf("The text gives %s another place in the order than the process.", m.Thing.Tank.Name), "steps")
			}
		}
	}
	return list
}

// otherWater finds a clause that rinses the part in a water that no rinse of its process has: “then in deionised water”.
func (p *proof) otherWater(a *manual.Article, s *sentence.Sentence) (from int, water string) {
	if len(a.Part.Rinse) == 0 || s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || s.Has(notAll) || otherMatter(a, s) || !s.Has(rinsing) {
		return 0, ""
	}
	has := map[string]bool{}
	for _, r := range a.Part.Rinse {
		rinse := p.Shop.RinseTank(r.Name)
		if rinse == nil || waterKinds[strings.ToLower(rinse.Water)] == "" {
			return 0, ""
		}
		has[waterKinds[strings.ToLower(rinse.Water)]] = true
	}
	words := s.Tokens()
	for i := 1; i+1 < len(words); i++ {
		kind, k := waterKinds[words[i].Text], words[i].Clause
		if kind == "" || has[kind] || words[i+1].Text != "water" || words[i-1].Text != "in" && words[i-1].Text != "with" && words[i-1].Text != "under" {
			continue
		}
		if affirmed(s, k) && !against(s, k) && !otherPart(a, s, k) && !s.ClauseHas(k, rinseOf) && !s.Has(dirtFirst) {
			return words[i].From, kind
		}
	}
	return 0, ""
}

var (
	shiftWords = sentence.Set("shift day morning")
	rinsing    = sentence.Set("rinse rinsed rinses rinsing")
	dirtFirst  = sentence.Set("hose before mud sand receipt pre-rinse hands mixed topped fill filled dropped drops")
)

var (
	nextStep = sentence.Set("next first then second")
	rinsesIn = sentence.Set("rinse rinsed ends goes comes gets next first then second swill")
)

// washesWith tells whether a clause says that the part is washed in a chemistry, or that this is used for it.
func (p *proof) washesWith(a *manual.Article, s *sentence.Sentence, m *sentence.Mention, k int) bool {
	c := &s.Clauses[k]
	switch r := s.Ruler(m); {
	case r == "in" || r == "with":
		words := s.Tokens()
		for i := 1; i < len(words); i++ {
			if w := words[i]; w.Clause == k && w.From < m.From && m.From-w.From < 22 && isWashed[w.Text] && (words[i-1].Text == "is" || words[i-1].Text == "are" || words[i-1].Text == "be") {
				return true
			}
		}
		return c.Mood == sentence.Do && (c.Verb == "wash" || c.Verb == "sonicate" || c.Verb == "degrease")
	case r == "use":
		return c.Mood == sentence.Do && s.ClauseHas(k, forWord) && m.From < len(s.Block.Text)
	}
	return false
}

var (
	isWashed   = sentence.Set("washed cleaned degreased sonicated")
	byHandOnly = sentence.Set("wipe wiped swab cloth brush brushed hand spot first before pre-clean rust rusty stains scale residue glue label bolts rack pegs comb tray trays fixture screws seals ring's earlier if only after")
)

// sentOn finds a sentence that sends the part on to another work than the header's next.
func (p *proof) sentOn(a *manual.Article, s *sentence.Sentence) (int, string) {
	if a.Part.Next == "" || s.Has(notAll) {
		return 0, ""
	}
	words := s.Tokens()
	for i := 1; i+1 < len(words); i++ {
		to := nextWork[words[i].Text]
		if to == "" || to == a.Part.Next || to == "assembly" && !coating[a.Part.Next] || !affirmed(s, words[i].Clause) || otherPart(a, s, words[i].Clause) {
			continue
		}
		if words[i-1].Text != "to" && words[i-1].Text != "for" || i+1 < len(words) && words[i+1].Text == "shop" && to != a.Part.Next && !s.Has(sentWords) {
			continue
		}
		for j := i - 2; j >= max(0, i-4); j-- {
			if sentWords[words[j].Text] && j > 0 && isOwnName(a, words[j-1].Text) {
				return words[i].From, to
			}
		}
	}
	return 0, ""
}

// isOwnName tells whether a word is one for the part of a page.
func isOwnName(a *manual.Article, w string) bool {
	if w == "it" || w == "they" || w == "parts" || w == "part" || w == "is" || w == "are" {
		return true
	}
	one := strings.TrimSuffix(w, "s")
	if stem, is := strings.CutSuffix(w, "ies"); is {
		one = stem + "y"
	}
	return len(one) > 3 && strings.Contains(strings.ToLower(a.Head.Title), one)
}

var (
	nextWork  = map[string]string{"plating": "plating", "painting": "painting", "paint": "painting", "bonding": "bonding", "gluing": "bonding", "assembly": "assembly"}
	coating   = sentence.Set("plating painting bonding")
	sentWords = sentence.Set("go goes sent pass passes move moves leave leaves handed")
	notAll    = sentence.Set("if some rejected rejects reject bad batch-card when unless until scrap order drawing customer customers worn")
)

var madeOf = sentence.Set("material made")

// shapedFrom tells whether the part is turned, cast or cut from a material: “They are turned from grey iron”.
func shapedFrom(a *manual.Article, s *sentence.Sentence, m *sentence.Mention) bool {
	words := s.Tokens()
	for i := 1; i+1 < len(words); i++ {
		if (words[i].Text == "is" || words[i].Text == "are") && words[i+1].Text == "of" && words[i+1].From < m.From && m.From-words[i+1].From < 5 && calledSo(a, words[i-1].Text) && !slices.ContainsFunc(words[max(0, i-4):i], func(w sentence.Token) bool { return w.Text == "for" || w.Text == "of" }) {
			return true // “The carrier is of EPDM”
		}
		if shaped[words[i].Text] && (words[i+1].Text == "from" || words[i+1].Text == "of" || words[i+1].Text == "in") && (words[i-1].Text == "is" || words[i-1].Text == "are") && words[i].From < m.From {
			return true
		}
	}
	return false
}

var shaped = sentence.Set("turned cast cut milled machined moulded molded forged pressed drawn stamped wound ground bent formed made")

// madeBefore tells whether “is” or “made of” stands right before a material, but for an adjective.
func madeBefore(s *sentence.Sentence, m *sentence.Mention) bool {
	words := s.Tokens()
	at := slices.IndexFunc(words, func(t sentence.Token) bool { return t.From >= m.From })
	for i := at - 1; i >= max(0, at-3); i-- {
		switch words[i].Text {
		case "is", "of", "from":
			return true
		}
	}
	return false
}

// stepNamed gives the place in the order that a sentence gives to a tank: 0 where it comes first, -1 where it comes last, -2 where nothing is said of it.
func stepNamed(s *sentence.Sentence, words []sentence.Token, m *sentence.Mention) int {
	if s.Before(m) == "first" {
		return 0
	}
	if k := s.ClauseOf(m); s.Ruler(m) == "in" && s.Clauses[k].Mood != sentence.MustNot {
		for _, w := range words {
			switch {
			case w.Clause != k || w.From > m.From:
			case w.Text == "start" || w.Text == "starts" || w.Text == "begin" || w.Text == "begins":
				return 0
			case w.Text == "finish" || w.Text == "finishes" || w.Text == "end" || w.Text == "ends":
				return -1
			}
		}
	}
	for i, t := range words {
		if t.From < m.To {
			continue
		}
		if t.Text == "first" {
			return 0
		}
		if t.Text != "comes" && t.Text != "is" && t.Text != "goes" && t.Text != "runs" || i+1 >= len(words) {
			return -2
		}
	}
	return -2
}
