package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// findTooLittleTold finds text on the page of a chemistry, or of a procedure, that calls protective equipment enough which leaves out what its hazards and those
// of a procedure's chemistries ask for, or calls what they ask for not needed: “Safety glasses will do when you open the lid”, “No gloves are needed for a quick look”. The limit is that of
// protection-too-little.
func findTooLittleTold(p *proof, a *manual.Article) []finding.Finding {
	if a.Partial || a.Language != "" || a.Chemistry == nil && a.Procedure == nil {
		return nil
	}
	if _, asked := p.unmet(a, nil); len(asked) == 0 {
		return nil
	}
	var list []finding.Finding
	said := p.reading(a)
	for _, s := range slices.Concat(said.sentences, said.replies) {
		if f := p.tooLittleTold(a, &s); f != nil {
			list = append(list, *f)
		}
	}
	return list
}

// tooLittleTold gives what is wrong with one sentence.
func (p *proof) tooLittleTold(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || !s.Has(wornWords) && !bareHands(s) || illOf(s) || s.Has(exceptions) && !s.Has(onlyWord) || s.Has(notThisOne) || a.Procedure != nil && (s.Has(ifs) || s.Has(notHandled)) {
		return nil
	}
	missing, asked := p.unmet(a, []string{s.Text()})
	switch {
	case calledNeedless(s), noNeedToFetch.MatchString(strings.ToLower(s.Text())):
		missing, asked = p.unmet(a, nil)
		missing = slices.DeleteFunc(missing, func(n need) bool { return !n.meets.MatchString(s.Text()) })
	case bareHands(s):
		missing, asked = p.unmet(a, nil)
		missing = slices.DeleteFunc(missing, func(n need) bool { return !strings.HasSuffix(n.what, "gloves") })
	case calledEnough(s), kitListed(s):
	case a.Chemistry != nil && s.Has(wornWords) && valence(s, 0) > 0 && !blamed(s, 0), keepsOut(s):
		missing = slices.DeleteFunc(missing, func(n need) bool { return !weakerThan(n, s) })
	case wears(s):
		missing = slices.DeleteFunc(missing, func(n need) bool { return !weakerThan(n, s) })
	default:
		return nil
	}
	if len(missing) == 0 {
		return nil
	}
	var what []string
	for _, n := range missing {
		what = append(what, n.what)
	}
	f := protectionTooLittle.At(placeIn(a, s.Block, s.From+leading(s)), fmt.Sprintf("%s for %s; the text calls less enough.", askFor(asked), strings.Join(what, " and ")),
		"Name what the hazards ask for and section 8 of the safety data sheet says.", asked[0].At)
	return &f
}

// bareHands tells whether a sentence allows bare hands: “You can pour it with bare hands”.
func bareHands(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i, w := range words {
		if w.Text == "barehanded" || w.Text == "bare" && strings.HasPrefix(textAt(words, i+1), "hand") {
			c := &s.Clauses[w.Clause]
			return c.Opener == "" && c.Mood != sentence.MustNot && c.Mood != sentence.Was && !denies(s, w.Clause) && !s.ClauseHas(w.Clause, deniers) && (s.ClauseHas(w.Clause, canWords) || c.Mood == sentence.Do || valence(s, w.Clause) > 0)
		}
	}
	return false
}

// wears tells whether a sentence commands what is to be worn, or lists it behind such a label: “Wear safety glasses”, “Wear: safety glasses, apron”.
func wears(s *sentence.Sentence) bool {
	words := s.Words(0)
	if len(words) == 0 || denied(s) || s.Has(ifs) {
		return false
	}
	if len(words) < 6 && len(s.Clauses) > 1 && labels(s, 1) && (kitLabels[words[0]] || wearing[words[0]]) {
		return true // “Kit for the pour: boots and apron”
	}
	return wearing[words[0]] && (s.Clauses[0].Mood == sentence.Do || s.Clauses[0].Mood == sentence.Fragment)
}

// kitListed tells whether a sentence is a list behind a label of what is put on, which is all that is put on.
func kitListed(s *sentence.Sentence) bool {
	words := s.Words(0)
	return len(words) > 0 && len(words) < 6 && len(s.Clauses) == 2 && labels(s, 1) && kitLabels[words[0]] && !denied(s)
}

// keepsOut tells whether something that is worn is said to keep drops out: “A pair of reading glasses keeps the drops out”.
func keepsOut(s *sentence.Sentence) bool {
	words := s.Tokens()
	for i, w := range words {
		if (w.Text == "keep" || w.Text == "keeps" || w.Text == "stop" || w.Text == "stops") && s.ClauseHas(w.Clause, wornWords) && nextOf(words, i, dropWords) && s.Clauses[w.Clause].Opener == "" && !denied(s) {
			return true
		}
	}
	return false
}

// weakerThan tells whether a sentence names, for the part of the body that is to be protected, something that does not protect it: safety glasses against what
// blinds, gloves of cotton against what burns. What it does not speak of may be said elsewhere.
func weakerThan(n need, s *sentence.Sentence) bool {
	text := s.Text()
	if n.except != nil {
		return n.except.MatchString(text) && n.meets.MatchString(text)
	}
	return n.what == "goggles or a face shield" && s.Has(weakEyes)
}

func askFor(asked []manual.Ref) string {
	codes := codesOf(asked)
	if len(codes) > 1 {
		return strings.Join(codes, ", ") + " ask"
	}
	return codes[0] + " asks"
}

// calledEnough tells whether a clause calls what is worn enough.
func calledEnough(s *sentence.Sentence) bool {
	for k := range s.Clauses {
		c := &s.Clauses[k]
		if c.Opener != "" || c.Mood == sentence.Was || c.Mood == sentence.MustNot || denies(s, k) || !s.ClauseHas(k, wornWords) && !(k > 0 && s.ClauseHas(k, thatWord) && s.ClauseHas(k-1, wornWords)) {
			continue
		}
		list := s.Words(k)
		for i, w := range list {
			switch {
			case w == "enough" || w == "sufficient" || w == "suffice" || w == "suffices" || w == "plenty":
				return true
			case w == "do" && i > 0 && (list[i-1] == "will" || list[i-1] == "would") && i+1 <= len(list):
				return true
			case w == "all" && i > 0 && (list[i-1] == "is" || list[i-1] == "are") && s.ClauseHas(k, needsWords):
				return true
			}
		}
	}
	return false
}

// calledNeedless tells whether a clause says that what protects is not needed: “No gloves are needed”, “Goggles can stay off”.
func calledNeedless(s *sentence.Sentence) bool {
	for k := range s.Clauses {
		c := &s.Clauses[k]
		if c.Opener != "" || c.Mood == sentence.Was || !s.ClauseHas(k, wornWords) {
			continue
		}
		list := s.Words(k)
		if leftToTaste(s, k, list) || c.Mood == sentence.Fragment && k+1 < len(s.Clauses) && labels(s, k+1) && answersNo(s.Words(k+1)) {
			return true
		}
		for i, w := range list {
			if (w == "no" || w == "without") && i+1 < len(list) && (wornWords[list[i+1]] || i+2 < len(list) && wornWords[list[i+2]]) && (s.ClauseHas(k, needsWords) || w == "without" && (s.ClauseHas(k, mays) || s.ClauseHas(k, fitWords))) {
				return !s.ClauseHas(k, mustWords)
			}
			if (w == "not" || w == "needn't" || w == "aren't" || w == "isn't") && s.ClauseHas(k, needsWords) && i > 0 && wornWords[list[0]] {
				return true
			}
			if (w == "superfluous" || w == "unnecessary" || w == "optional") && i > 0 {
				return true
			}
		}
	}
	return false
}

// leftToTaste tells whether a clause says that people do without what protects, or that it is left to them.
func leftToTaste(s *sentence.Sentence, k int, list []string) bool {
	if s.ClauseHas(k, deniers) || slices.Contains(list, "no") || slices.Contains(list, "not") {
		return false
	}
	text := " " + strings.Join(list, " ") + " "
	return slices.ContainsFunc(toTaste, func(w string) bool { return strings.Contains(text, w) })
}

// answersNo tells whether an answer to a word for what protects says that it is not needed: “Goggles? Not for such a small dose.”
func answersNo(answer []string) bool {
	return len(answer) > 0 && (answer[0] == "no" || answer[0] == "not" || answer[0] == "never" || answer[0] == "hardly" || answer[0] == "unnecessary") && !slices.ContainsFunc(answer, func(w string) bool { return w == "without" || w == "enough" || w == "only" })
}

// noNeedToFetch finds that nobody need go for what protects: “no reason to go and fetch the goggles”.
var noNeedToFetch = expression.Of(`\b(?:no (?:reason|need|call|point)|needn't|need not|not worth) (?:to |in )?(?:go(?:ing)? and |walk(?:ing)? and |run(?:ning)? and )?(?:fetch|fetching|get|getting|put on|putting on|wear|wearing|look for|dig out)\b`)

var (
	kitLabels = sentence.Set("kit gear outfit dress clothing wear ppe protection")
	dropWords = sentence.Set("drop drops splash splashes acid lye caustic spray")
	// notHandled are words of work at which a procedure's chemistries are not handled.
	notHandled = sentence.Set("dryer office photograph log read reading rinsed clean dry meeting visitors test foil noise hearing assembly inspect inspection forklift bench")
	thatWord   = sentence.Set("that this")
	toTaste    = []string{" do without ", " does without ", " get by without ", " gets by without ", " manage without ", " manages without ", " matter of taste ", " matter of choice ", " up to you ", " are optional ", " is optional ", " as you like ", " can stay off ", " may stay off ", " can stay on the hook ", " may stay on the hook ", " leave off ", " leave the gloves off ", " leave the goggles off ", " leave your gloves off ", " leave your goggles off ", " leave gloves off ", " leave goggles off ", " leave the apron off ", " leave the shield off ", " leave them off ", " can go without ", " may go without ", " can skip ", " may skip ", " can spare yourself ", " can forget ", " can be left off ", " may be left off "}
	canWords   = sentence.Set("can may could safely happily")
	wearing    = sentence.Set("wear wears wearing ppe protection equipment")
	weakEyes   = sentence.Set("glasses spectacles")
	wornWords  = sentence.Set("glove gloves goggles glasses spectacles apron boots mask respirator visor shield gauntlets overall overalls protection eyewear")
	needsWords = sentence.Set("need needs needed required necessary wear wears")
	notThisOne = sentence.Set("empty rinsed dry cold-water label photograph outside office")
)
