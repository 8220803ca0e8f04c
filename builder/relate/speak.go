package relate

import (
	"strings"

	"tankside/builder/admit"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// spoken is how a word of a header is said in a sentence.
func spoken(word string) admit.Part {
	switch word {
	case "abs", "pvc", "ptfe", "peek", "epdm", "nbr", "fkm", "mems", "pcb":
		return admit.Title(strings.ToUpper(word))
	case "coated-optic":
		return admit.Word("coated optics")
	case "cobalt-carbide":
		return admit.Word("the cobalt binder of carbide")
	case "anodise":
		return admit.Word("the anodised skin")
	}
	return admit.Word(strings.ReplaceAll(word, "-", " "))
}

// titled is an article in a sentence.
func titled(a *manual.Article) admit.Part { return admit.Title(a.Head.Title) }

// within is an article within a sentence, its title without a capital letter.
func within(a *manual.Article) admit.Part { return admit.Title(inSentence(a.Head.Title)) }

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
