package rules

import (
	"regexp"
	"strings"

	"tankside/builder/sentence"
)

// oppositesTold tells whether a sentence sets what is sour against what is alkaline, or a household remedy against the one or the other, where skin or eyes are
// meant: “bicarbonate for acid in the eyes”, “sour on lye, lye on sour, and your skin is fine”, “A dab of milk on the wrist, and the acid has nothing left to
// bite”. That it cooks the skin, or only holds the acid there, says the reverse.
func oppositesTold(s *sentence.Sentence) bool {
	if s.Quiet() || s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || illOf(s) || s.Has(beliefs) || s.Has(onlyHolds) || s.Has(notOnBody) && !s.Has(rhymes) || s.Has(exceptions) {
		return false
	}
	text := strings.ToLower(s.Block.Text[s.From:s.To])
	if left := strings.Contains(text, "nothing left"); denied(s) && !left || strings.Contains(text, "nothing") && !left {
		return false
	}
	if s.Has(bodyWords) && (remedyFor.MatchString(text) || oneOnOther.MatchString(text)) {
		return true
	}
	return dabOn.MatchString(text) && (s.Has(acids) || s.Has(alkalis))
}

// worsened tells whether a sentence says that what is put on a burn makes it worse, or only what somebody believes of it.
func worsened(s *sentence.Sentence) bool {
	return !s.Quiet() && (s.Has(beliefs) || makesWorse.MatchString(strings.ToLower(s.Text())))
}

var (
	makesWorse  = regexp.MustCompile(`\b(?:only|just) (?:holds|keeps|locks|traps|drives|makes|spreads|adds)\b|\bis nothing\b`)
	remedyWords = `(?:vinegar|lemon(?: juice)?|bicarbonate|baking (?:soda|powder)|soda|borax|chalk|(?:butter)?milk|boric (?:acid|water)|magnesia|antacid)`
	remedyFor   = regexp.MustCompile(`\b` + remedyWords + `(?: (?:solution|water|powder|paste))? (?:for|against|takes?|on|over) (?:an? |the |any )?(?:acids?|lye|caustic|alkali|alkaline)\b|\b(?:against|for) (?:acid|lye|caustic|alkali) (?:in|on) (?:the |your |an? )?(?:skin|eyes?|hands?|arms?|face|wrist|fingers?),? ` + remedyWords + `\b`)
	oneOnOther  = regexp.MustCompile(`\b(?:sour|acid|acidic) (?:on|against|over|heals|soothes|cancels|cures) (?:the )?(?:lye|alkali|alkaline|caustic|base)\b|\b(?:lye|alkali|alkaline|caustic|soda) (?:on|against|over|heals|soothes|cancels|cures) (?:the )?(?:sour|acid|acidic)\b`)
	dabOn       = regexp.MustCompile(`\b(?:dab|wipe|drop|dash|bit|touch|splash|pinch|dusting|paste|compress|slice|squeeze) of [^.;:]{0,24}\b` + remedyWords + ` (?:on|over|onto|for) (?:the |your |an? )?(?:skin|wrist|hand|arm|finger|fingers|face|burn|splash|forearm|neck|eye|eyes|spot)\b`)
	onlyHolds   = sentence.Set("only holds keeps cooks traps locks drives worse longer textbook")
	beliefs     = sentence.Set("believe believes belief think thinks hear hears")
	rhymes      = sentence.Set("rhyme rule remember")
)
