package rules

import (
	"fmt"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// findTooLittleTold finds text on a chemistry's page that calls protective equipment enough which leaves out what its hazards ask for, or calls what they
// ask for not needed: “Safety glasses will do when you open the lid”, “No gloves are needed for a quick look”. The limit is that of
// protection-too-little.
func findTooLittleTold(p *proof, a *manual.Article) []finding.Finding {
	if a.Chemistry == nil || a.Partial || a.Language != "" || len(a.Chemistry.Hazards) == 0 {
		return nil
	}
	var list []finding.Finding
	said := p.reading(a)
	for i := range said.sentences {
		s := &said.sentences[i]
		if s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || !s.Has(wornWords) || illOf(s) || s.Has(exceptions) && !s.Has(onlyWord) || s.Has(notThisOne) {
			continue
		}
		missing, asked := p.unmetBy(a.Chemistry.Hazards, nil, []string{s.Text()})
		needless := calledNeedless(s)
		if needless {
			missing, asked = p.unmetBy(a.Chemistry.Hazards, nil, nil)
			for j := 0; j < len(missing); j++ {
				if !missing[j].meets.MatchString(s.Text()) {
					missing = append(missing[:j:j], missing[j+1:]...)
					j--
				}
			}
		} else if !calledEnough(s) {
			continue
		}
		if len(missing) == 0 {
			continue
		}
		var what []string
		for _, n := range missing {
			what = append(what, n.what)
		}
		list = append(list, protectionTooLittle.At(placeIn(a, s.Block, s.From+leading(s)), fmt.Sprintf("%s for %s; the text calls less enough.", askFor(asked), strings.Join(what, " and ")),
			"Name what the hazards ask for and section 8 of the safety data sheet says.", asked[0].At))
	}
	return list
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
		if c.Opener != "" || c.Mood == sentence.Was || c.Mood == sentence.MustNot || denies(s, k) || !s.ClauseHas(k, wornWords) {
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

var (
	wornWords  = sentence.Set("glove gloves goggles glasses spectacles apron boots mask respirator visor shield gauntlets overall overalls")
	needsWords = sentence.Set("need needs needed required necessary wear wears")
	notThisOne = sentence.Set("empty rinsed dry cold-water label photograph outside office")
)
