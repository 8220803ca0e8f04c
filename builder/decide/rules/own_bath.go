package rules

import (
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// onOwnPage looks, on a chemistry's page, for a statement that a material goes into that chemistry or suits it. There “it”, “here”, “this bath” or
// nothing at all names the bath: “Polycarbonate windows are soaked here”, “It suits steel and aluminium alike”, “Safe on zinc up to five minutes”.
func (p *proof) onOwnPage(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if a.Chemistry == nil || a.Partial || len(s.Mentions) == 0 || s.Block.Kind == sentence.Cell || s.Block.Summary() || otherBathIn(a, s) || s.Has(elsewhereWords) || spoils(s) {
		return nil
	}
	ill := illOf(s) || insteadOf(s)
	own := spokenOf{chemistries: []*manual.Article{a}}
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if kind := m.Thing.Kind(); kind != manual.Material && kind != manual.Part || m.Where || comparedWith[s.Before(m)] {
			continue
		}
		k := s.ClauseOf(m)
		if (ill || !affirmed(s, k) || !pointsHere(s, k) || !suits(s, m, k)) && !welcomes(s, saidOf(s, k)) {
			continue
		}
		if work := p.ofMention(a, m); len(work.materials) > 0 {
			if f := p.putInto(a, s, m, &own, &work); f != nil {
				return f
			}
		}
	}
	return nil
}

// welcomes tells whether a clause on a chemistry's page, or the label before it, thinks well of having something in its bath: “Aluminium loves this bath”,
// “This bath does not mind zinc”, “Approved for: steel, brass”.
func welcomes(s *sentence.Sentence, k int) bool {
	if s.Question || s.TakenBack || !tellsNow(s, k) || blamed(s, k) || s.Has(ifs) || s.Has(notOfWork) {
		return false
	}
	if slices.ContainsFunc(s.AllWords(), func(w string) bool { return exceptions[w] && !admits[w] }) {
		return false
	}
	if k > 0 && labels(s, k) && valence(s, k-1) > 0 && s.ClauseHas(k-1, admits) {
		return valence(s, k) >= 0
	}
	return valence(s, k) > 0 && (s.ClauseHas(k, admits) || pointsHere(s, k) || k > 0 && labels(s, k))
}

// saidOf gives the clause that says something of what stands in a clause: of a label or a list the one behind it, as in “Gearboxes of magnesium? Yes, they
// may come in here.” and “Cast iron, brass and steel are all welcome”.
func saidOf(s *sentence.Sentence, k int) int {
	for k+1 < len(s.Clauses) && s.Clauses[k].Mood == sentence.Fragment && s.Clauses[k].Opener == "" && s.Clauses[k+1].Opener == "" && valence(s, k) == 0 && !(k > 0 && labels(s, k)) {
		k++
	}
	return k
}

// admits are words that say of a thing on a chemistry's page that it may come into that bath, without naming it.
var admits = sentence.Set("profit profits benefit benefits welcome allowed permitted approved accepted yes released suitable safe")

// otherBathIn tells whether a sentence names a bath that is not the one of its page.
func otherBathIn(a *manual.Article, s *sentence.Sentence) bool {
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Thing.Bath() && !m.Thing.Includes(a) || m.Link && m.Thing == nil {
			return true
		}
	}
	return false
}

// pointsHere tells whether a sentence points to the bath of its page, or a clause begins with what it suits: “Safe on aluminium”.
func pointsHere(s *sentence.Sentence, k int) bool {
	words := s.Words(k)
	if len(words) > 1 && fitWords[words[0]] {
		return true
	}
	if s.Has(hereWords) || goesIn(words) || len(words) > 2 && words[0] == "nothing" && words[1] == "else" {
		return true
	}
	for i := range s.Mentions {
		if m := &s.Mentions[i]; m.Stands && (isBathWord(m.Word) || m.Word == "it" || m.Word == "its") {
			return true
		}
	}
	return s.Has(bathNames) && !ofAnother(s)
}

// goesIn tells whether something goes in, with no word for what it goes into: “Silver and brass go in together”.
func goesIn(words []string) bool {
	for i := 1; i < len(words); i++ {
		if words[i] == "in" && wentIn[words[i-1]] && (i+1 == len(words) || inWith[words[i+1]]) {
			return true
		}
	}
	return false
}

// spoils tells whether a sentence speaks of spoilt work; what is pickled here is meant to be.
func spoils(s *sentence.Sentence) bool {
	here := s.Has(hereWords)
	return slices.ContainsFunc(s.AllWords(), func(w string) bool { return spoilt[w] && !(w == "pickled" && here) })
}

var inWith = sentence.Set("together too also first last as for with side")

// suits tells whether a clause says that something is treated, put or left somewhere, gets a time there, or stands it.
func suits(s *sentence.Sentence, m *sentence.Mention, k int) bool {
	list := s.Words(k)
	for i, w := range list {
		switch {
		case i > 0 && relatives[list[i-1]]: // “moulds that soaked in it” only says which
		case putInWords[w], fitWords[w] && !(i > 0 && (list[i-1] == "less" || list[i-1] == "hardly")):
			return true
		case (w == "is" || w == "are" || w == "be") && i+1 < len(list) && (list[i+1] == "left" || list[i+1] == "kept"):
			return true
		case w == "made" && i > 0 && i+1 < len(list) && list[i+1] == "for":
			return true
		case getsTime[w] && hasTime(s, k):
			return true
		}
	}
	return treated(s, k) && !strings.HasPrefix(s.After(m), "-")
}

// insteadOf tells whether a sentence speaks of what is done in the place of something, or of it in the past.
func insteadOf(s *sentence.Sentence) bool {
	for k := range s.Clauses {
		if s.Clauses[k].Mood == sentence.Was {
			return true
		}
	}
	return false
}

var (
	hereWords      = sentence.Set("here herein")
	bathNames      = sentence.Set("bath acid caustic cleaner detergent emulsion soap descaler dip saponifier")
	comparedWith   = sentence.Set("like than unlike except but without no from-the as")
	elsewhereWords = sentence.Set("away elsewhere instead but however separate other another rather first-rinsed out trial test tested hardly rarely")
	fitWords       = sentence.Set("safe fine ok okay harmless suitable good gentle kind suits suit fits fit welcome ideal right perfect allowed permitted approved recommended")
	putInWords     = sentence.Set(`wash washed washes clean cleaned cleans soak soaked soaks dip dipped dips degrease degreased derust derusted descale descaled brighten brightened brightens treat treated immerse immersed put place placed lay laid hang hung
		lower lowered load loaded process processed sonicate sonicated bathe bathed pickle pickled belongs belong go goes send sent soften done loosened freed rides ride shine shines gleam gleams trust`)
	getsTime = sentence.Set("have has get gets need needs take takes stay stays may can spend spends give want wants")
)
