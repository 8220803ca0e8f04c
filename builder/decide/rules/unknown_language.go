package rules

import (
	"path"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/language"
	"tankside/builder/manual"
	"tankside/themes"
)

// unknownLanguage finds languages for which the interface has no words: the shop's own, those it wants translations into, and those of
// translations; and translations into the language in which the manual is written anyway.
// It prevents that an edition cannot be published, or that a page in one language has its buttons and warnings in another.
// The languages are English and those of the files in words/, of the built-in theme and of the manual's own; for a region the language's own words serve.
var unknownLanguage = finding.Rule{
	Name: "unknown-language", Severity: finding.Result,
	Finds:  "a language for which the interface has no words, or a translation into the manual's own language",
	Why:    "The page's headings, buttons and answers would be in a language that its reader has not chosen.",
	Source: "RFC 5646 (BCP 47) for tags; the theme's files of words",
}

func findUnknownLanguages(p *proof) []finding.Finding {
	var list []finding.Finding
	check := func(tag string, at finding.Place, translation bool) {
		canonical, ok := manual.Language(tag)
		switch {
		case !ok:
			list = append(list, unknownLanguage.At(at, "“"+shorten(tag)+"” is no language tag.", "Write one such as es or es-MX; the interface has words in "+strings.Join(p.withWords(), ", ")+"."))
		case !p.speaks(canonical):
			list = append(list, unknownLanguage.At(at, "The interface has no words in “"+canonical+"”: it has "+strings.Join(p.withWords(), ", ")+".",
				"Choose one of these, or put theme/words/"+language.General(canonical)+".yaml into the manual: tankside words "+language.General(canonical)+" writes it, for you to fill in."))
		case translation && p.isOwn(canonical):
			list = append(list, unknownLanguage.At(at, "“"+canonical+"” is the language in which the manual is written.", "Translations are into other languages; the shop file says under language which the manual's own is."))
		}
	}
	if p.Shop.Language != "" {
		check(p.Shop.Language, p.Shop.At["language"], false)
	}
	for _, wanted := range p.Shop.Translations {
		check(wanted.Name, wanted.At, true)
	}
	for _, t := range p.Translations {
		check(t.Language, finding.Place{File: t.Path, Line: 1, Column: 1}, true)
	}
	return list
}

// wordFiles lists the languages for which there are words.
func (p *proof) wordFiles() []string {
	files, err := themes.New(nil).List("words")
	if err != nil {
		panic(err) // the built-in theme has the folder
	}
	languages := append(slices.Clone(p.Spoken), language.English)
	for _, file := range files {
		languages = append(languages, strings.TrimSuffix(path.Base(file), ".yaml"))
	}
	slices.Sort(languages)
	return slices.Compact(languages)
}

// speaks tells whether there are words in a language, or in the language of a region.
func (p *proof) speaks(tag string) bool {
	return slices.Contains(p.withWords(), tag) || slices.Contains(p.withWords(), language.General(tag))
}

// isOwn tells whether the manual is written in a language.
func (p *proof) isOwn(tag string) bool {
	own, _ := manual.Language(p.OwnLanguage())
	return tag == own
}

// shorten shortens what is quoted in a message.
func shorten(text string) string {
	const most = 40
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}

// translated is the path of an article's translation.
func translated(a *manual.Article, tag string) string {
	return strings.TrimSuffix(a.Path, ".md") + "." + strings.ToLower(tag) + ".md"
}
