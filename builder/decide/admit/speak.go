package admit

import (
	"strings"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/language"
)

// spoken is how a word of a header is said in a sentence. A word of the shop's own stands as it is written.
func spoken(r fact.Ref) Part {
	if r.As != "" || r.Unchecked {
		return Title(strings.ReplaceAll(r.Name, "-", " "))
	}
	switch r.Name {
	case "abs", "pvc", "ptfe", "peek", "epdm", "nbr", "fkm", "mems", "pcb":
		return Title(language.Upper(r.Name))
	case "coated-optic":
		return Word("coated optics")
	case "cobalt-carbide":
		return Word("the cobalt binder of carbide")
	case "anodise":
		return Word("the anodised skin")
	}
	return Word(strings.ReplaceAll(r.Name, "-", " "))
}

// titled is an article in a sentence.
func titled[T interface{ title() string }](a T) Part { return Title(a.title()) }

// within is an article within a sentence, its title without a capital letter.
func within[T interface{ title() string }](a T) Part { return Title(lower(a.title())) }

// chemistryPlace is where a chemistry says that it has a constituent, or its pH.
func chemistryPlace(b *Bath, constituent string) finding.Place {
	if c, has := b.Contains(constituent); has {
		return c.At
	}
	return b.Chemistry.PH.At
}

// lower writes a title as it stands inside a sentence, abbreviations kept.
func lower(title string) string {
	word, _, _ := strings.Cut(title, " ")
	if len(word) > 1 && language.Lower(word[1:]) != word[1:] {
		return title
	}
	for _, first := range title {
		return language.Lower(string(first)) + title[len(string(first)):]
	}
	return title
}
