package relate

import (
	"strings"

	"tankside/builder/finding"
)

// spoken is how a word of a header is said in a sentence.
func spoken(word string) string {
	switch word {
	case "abs", "pvc", "ptfe", "peek", "epdm", "nbr", "fkm", "mems":
		return strings.ToUpper(word)
	case "coated-optic":
		return "coated optics"
	case "cobalt-carbide":
		return "the cobalt binder of carbide"
	case "anodise":
		return "the anodised skin"
	}
	return strings.ReplaceAll(word, "-", " ")
}

// chemistryPlace is where a chemistry says that it has a constituent, or its pH.
func chemistryPlace(b *Bath, constituent string) finding.Place {
	if c, has := b.Contains(constituent); has {
		return c.At
	}
	return b.Chemistry.Chemistry.PH.At
}

// inSentence writes a title as it stands inside a sentence.
func inSentence(title string) string {
	word, _, _ := strings.Cut(title, " ")
	if len(word) > 1 && strings.ToLower(word[1:]) != word[1:] {
		return title // an abbreviation
	}
	for _, r := range title {
		return strings.ToLower(string(r)) + title[len(string(r)):]
	}
	return title
}
