package rules

import (
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// strongVessel finds water that comes into a vessel of which an earlier sentence, or the same, says that acid or concentrate is in it: “Measure the concentrate into the
// jug. Then top the jug up from the tap”, “Two litres of acid stand in the bucket. Fill it to the brim with water”, “Put the neat stuff in while the tank
// is still empty. The hose does the stirring”. What the vessel holds is kept from sentence to sentence of a block, until it is poured out.
func strongVessel(a *manual.Article, block []sentence.Sentence) *finding.Finding {
	if text := strings.ToLower(block[0].Block.Text); !hasSign(text, "jug", "bucket", "beaker", " can", "bottle", "flask", " pot", "tub", "cup", "pail", "empty", "dry", "drum", "barrel", " vat", "container", "vessel") ||
		!hasSign(text, "concentrat", "acid", "caustic", "lye", "potash", "flakes", "pellets", "granules", "neat", "drum", "dose", "cleaner", "soap", "descaler", "stuff", "detergent", "thin", "dilute", "weaken") {
		return nil // as of most blocks: no vessel, or nothing that it could hold
	}
	held := "" // the vessel that has acid or concentrate, and no water
	for i := range block {
		s := &block[i]
		list := plainWords(s)
		if s.Block.Signal != "" || s.Block.Kind == sentence.Cell || s.Question && held == "" && !strings.Contains(s.Text(), ",") || s.TakenBack || hasWord(list, noWords) || hasWord(list, ills) || hasWord(list, exceptions) || hasWord(list, notStirred) || toldOfPast(s) {
			held = ""
			continue
		}
		for j := range list {
			switch {
			case held == "":
				if wetWords[list[j]] && !hasWord(list[j:], alreadyWord) {
					return nil // there is water, and nobody knows in which vessel
				}
				held = strongHeld(list, j)
			case pouredOut(list, j, held):
				held = ""
			case wetted(list, j, held):
				f := waterIntoConcentrate.At(placeIn(a, s.Block, s.From+leading(s)), "The text lets water into the "+held+" that holds the concentrate.", waterFirst)
				return &f
			}
		}
	}
	return nil
}

// plainWords are the words of a sentence, lower case, without marks: also of a sentence that says nothing to other rules.
func plainWords(s *sentence.Sentence) []string {
	return strings.FieldsFunc(strings.ToLower(s.Text()), func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-' || r == '\'' || r == '.')
	})
}

func hasWord(list []string, of map[string]bool) bool {
	for _, w := range list {
		if of[strings.TrimRight(w, ".")] {
			return true
		}
	}
	return false
}

// toldOfPast tells whether a clause of a sentence tells of another time, or of what is only thought of.
func toldOfPast(s *sentence.Sentence) bool {
	for i := range s.Clauses {
		if m := s.Clauses[i].Mood; m == sentence.MustNot || m == sentence.Example || m == sentence.Was && s.Clauses[i].Opener != "if" {
			return true
		}
	}
	return false
}

// strongHeld gives the vessel into which the strong stuff at a place goes, or in which it is, or "". A tank counts where it is called dry or empty, or has the
// stuff already.
func strongHeld(list []string, i int) string {
	if thins[list[i]] {
		return storageIn(list[i+1:])
	}
	if !strongStuff[list[i]] && !heldStuff[list[i]] || i+1 < len(list) && (tankWords[list[i+1]] || jugs[list[i+1]]) {
		return ""
	}
	in := false
	for j := i + 1; j < min(i+10, len(list)); j++ {
		w := strings.TrimRight(list[j], ".")
		switch {
		case w == "into" || w == "in" || w == "bottom":
			in = true
		case in && wetWords[w]:
			return ""
		case in && smallVessels[w]:
			if wetWords[nextWord(list, j, 2)] {
				return "" // “a bucket of water”
			}
			return w
		case in && tub[w] && (hasWord(list[i:j], dryTank) || hasWord(list[j:min(len(list), j+5)], dryTank) || hasWord(list[j:min(len(list), j+2)], alreadyWord)):
			return w
		}
	}
	return ""
}

// storageIn gives the drum or canister in which something is thinned: what is in there is as strong as it is sold.
func storageIn(list []string) string {
	for j := range min(8, len(list)) {
		w := strings.TrimRight(list[j], ".")
		if storage[w] && hasWord(list[:j], intoWords) {
			return w
		}
		if tankWords[w] {
			return ""
		}
	}
	return ""
}

// pouredOut tells whether what a vessel holds goes into another at a place.
func pouredOut(list []string, i int, held string) bool {
	if list[i] != "into" && list[i] != "in" && list[i] != "to" && list[i] != "back" {
		return false
	}
	for j := i + 1; j < min(i+4, len(list)); j++ {
		if w := strings.TrimRight(list[j], "."); w == "water" || (tub[w] || tankWords[w]) && w != held {
			return true
		}
	}
	return list[i] == "back"
}

// wetted tells whether the word at a place is water, a tap or a hose that is let into the vessel which a text speaks of.
func wetted(list []string, i int, held string) bool {
	w := strings.TrimRight(list[i], ".")
	if !wetWords[w] || w == "water" && i > 0 && (list[i-1] == "into" || i > 1 && (list[i-2] == "into" || list[i-2] == "in")) {
		return false
	}
	from := max(0, i-12)
	for j := from; j < min(len(list), i+6); j++ {
		if v := strings.TrimRight(list[j], "."); (smallVessels[v] || tankWords[v] && !hasWord(list, alreadyWord)) && v != held {
			return false // another vessel's
		}
	}
	if i < 2 {
		return i+1 < len(list) && hasWord(list[i:min(len(list), i+6)], doesTheRest)
	}
	if !hasWord(list[from:i], letsWater) {
		return false
	}
	return hasWord(list[from:i], map[string]bool{held: true, "it": true}) || i+1 < len(list) && (list[i+1] == "in" || list[i+1] == "in." || list[i+1] == "on") || hasWord(list[:i], alreadyWord) && w == "tap"
}

// nextWord is the word so many places behind one, or "".
func nextWord(list []string, i, n int) string {
	if i+n < len(list) {
		return strings.TrimRight(list[i+n], ".")
	}
	return ""
}

// firstThen finds a short order of what comes first, in which the strong stuff, or its drum, stands before the water: “First the drum, then the tap”.
func firstThen(s *sentence.Sentence) bool {
	if s.Question || s.TakenBack || s.Block.Signal != "" || s.Block.Kind == sentence.Cell || illOf(s) || s.Has(otherOrders) || s.Has(notFilling) || s.Has(noFill) {
		return false
	}
	list := plainWords(s)
	if len(list) < 4 || list[0] != "first" || hasWord(list, noWords) {
		return false
	}
	for i := 1; i < min(4, len(list)); i++ {
		if !strongStuff[list[i]] && !neatThings[list[i]] {
			continue
		}
		j := i + 1
		if j < len(list) && (list[j] == "in" || list[j] == "goes" || list[j] == "comes") {
			j++
		}
		if j < len(list) && (list[j] == "then" || list[j] == "second") {
			return hasWord(list[j+1:min(len(list), j+4)], wetWords)
		}
	}
	return false
}

// strongItem and waterItem tell whether a short item of a checklist has the strong stuff, or the water, come in.
func strongItem(list []string) bool {
	return len(list) < 8 && (hasWord(list, strongStuff) || hasWord(list, powders)) && hasWord(list, cameIn) && !hasWord(list, wetWords) && !hasWord(list, noFill) && !hasWord(list, noWords)
}

func waterItem(list []string) bool {
	return len(list) < 8 && hasWord(list, wetWords) && (hasWord(list, cameIn) || hasWord(list, openWords)) && !hasWord(list, noFill) && !hasWord(list, noWords) && !hasWord(list, strongStuff)
}

// checklistOrder finds a checklist whose one item has the concentrate in and a later one the water, with none before.
func checklistOrder(a *manual.Article, said []sentence.Sentence) []finding.Finding {
	var strong *sentence.Sentence
	for i := range said {
		s := &said[i]
		if s.Block.Kind != sentence.Item {
			strong = nil
			continue
		}
		switch list := plainWords(s); {
		case strong == nil && hasWord(list, wetWords):
			for i+1 < len(said) && said[i+1].Block.Kind == sentence.Item {
				i++ // the list begins with the water
			}
			return nil
		case strong != nil && waterItem(list):
			return []finding.Finding{waterIntoConcentrate.At(placeIn(a, strong.Block, strong.From+leading(strong)), "The list puts the concentrate in first and water on it.", waterFirst)}
		case strong == nil && strongItem(list) && !s.TakenBack:
			strong = s
		}
	}
	return nil
}

var (
	thins        = sentence.Set("thin thinned dilute diluted weaken weakened")
	storage      = sentence.Set("drum canister can")
	heldStuff    = sentence.Set("drum dose cleaner soap descaler stuff detergent")
	smallVessels = sentence.Set("jug bucket beaker can canister bottle flask pot tub cup pail")
	alreadyWord  = sentence.Set("already")
	notStirred   = sentence.Set("rinse rinsed swill swilled spilt spill waste sample skin eye eyes spent wipe part parts basket")
	letsWater    = sentence.Set("incoming goes top fill make run add let hold put thin squirt stretch dilute pour give dribble open turn when takes gets")
	doesTheRest  = sentence.Set("does stirs mixes follows top over stirring mixing rest")
	cameIn       = sentence.Set("in poured added dosed measured line mark filled tipped")
	openWords    = sentence.Set("open on")
)
