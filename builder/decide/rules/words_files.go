package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/language"
	"tankside/builder/manual"
	"tankside/builder/wording"
)

// unknownPhrase finds phrases in the shop's own files of words that the program does not say. It prevents that a translation stands there and is shown
// nowhere, for a slip in its English side or because the program says it otherwise now. The phrases are those that tankside words writes.
var unknownPhrase = finding.Rule{
	Name: "unknown-phrase", Severity: finding.Untidy,
	Finds:  "a phrase in a file of words that the program does not say",
	Why:    "What stands on its right is shown nowhere; the page has the English phrase.",
	Source: "the program's own phrases",
}

// alteredPhrase finds translated phrases that have lost what is filled into them, or a number, and signal words that cannot be told apart. It prevents that
// a page shows an amount in the place of another, or a limit that has slipped. The limit is the English phrase: the same holes in the same order, the same
// figures.
var alteredPhrase = finding.Rule{
	Name: "altered-phrase", Severity: finding.Result,
	Finds:  "a translated phrase without the holes or the figures of the English one, a signal word that is not in capitals or stands for two",
	Why:    "The page would show one amount in the place of another, a limit that nobody has set, or a warning of another gravity.",
	Source: "the program's own phrases; ISO 3864-2 for signal words",
}

// untranslatedWords counts the phrases of a language of the manual that stay English. It prevents that somebody believes a language to be complete.
var untranslatedWords = finding.Rule{
	Name: "untranslated-words", Severity: finding.Untidy,
	Finds:  "a language of the manual in which the program has phrases that are not translated, with how many they are",
	Why:    "These stand in English on pages in another language, safety messages of the calculators among them.",
	Source: "the program's own phrases",
}

func findUnknownPhrases(p *proof) []finding.Finding {
	var list []finding.Finding
	p.eachPhrase(func(c *wording.Checker, phrase manual.ShownPhrase) {
		if c.Fault(phrase.English, phrase.Shown) != wording.Unknown {
			return
		}
		remedy := "Take the line out, or write the phrase as the program has it; tankside words LANGUAGE keeps such a file current."
		if near := c.Near(phrase.English); near != "" {
			remedy = "Write " + wording.Quote(near) + " on the left, if that is meant; otherwise take the line out."
		}
		list = append(list, unknownPhrase.At(phrase.At, "The program does not say “"+shorten(phrase.English)+"”.", remedy))
	})
	return list
}

func findAlteredPhrases(p *proof) []finding.Finding {
	var list []finding.Finding
	report := func(at finding.Place, message, remedy string) {
		list = append(list, alteredPhrase.At(at, message, remedy))
	}
	p.eachPhrase(func(c *wording.Checker, phrase manual.ShownPhrase) {
		switch c.Fault(phrase.English, phrase.Shown) {
		case wording.OtherHoles:
			report(phrase.At, fmt.Sprintf("What is filled in is %s in the English phrase, and %s in “%s”.", inList(wording.Holes(phrase.English)), inList(wording.Holes(phrase.Shown)), shorten(phrase.Shown)),
				"Write the same ones in the same order; turn the sentence round them.")
		case wording.OtherFigures:
			report(phrase.At, fmt.Sprintf("The English phrase has the numbers %s, and “%s” has %s.", inList(wording.Figures(phrase.English)), shorten(phrase.Shown), inList(wording.Figures(phrase.Shown))),
				"Write the same numbers in digits, with a decimal point.")
		}
		if slices.Contains(manual.SignalWords, phrase.English) && phrase.Shown != strings.ToUpper(phrase.Shown) {
			report(phrase.At, "The signal word “"+shorten(phrase.Shown)+"” is not in capitals.", "Write "+wording.Quote(strings.ToUpper(phrase.Shown))+".")
		}
	})
	for _, f := range p.Words {
		seen := map[string]manual.ShownPhrase{}
		for _, phrase := range f.Phrases {
			if !slices.Contains(manual.SignalWords, phrase.English) || phrase.Shown == "" {
				continue
			}
			if before, twice := seen[phrase.Shown]; twice {
				list = append(list, alteredPhrase.At(phrase.At, "“"+shorten(phrase.Shown)+"” stands for "+before.English+" and for "+phrase.English+".",
					"Give each its own word, by your country's edition of ISO 3864-2.", before.At))
			}
			seen[phrase.Shown] = phrase
		}
	}
	return list
}

// inList lists texts, or says that there are none.
func inList(list []string) string {
	if len(list) == 0 {
		return "nothing"
	}
	return strings.Join(list, ", ")
}

// eachPhrase gives each phrase of the shop's own files of words, with the list that it is of. Words for English itself are other English words.
func (p *proof) eachPhrase(show func(*wording.Checker, manual.ShownPhrase)) {
	checkers := map[wording.List]*wording.Checker{}
	for i := range p.Words {
		l, _, is := wording.ListOf(p.Words[i].InTheme())
		if !is {
			continue
		}
		if checkers[l] == nil {
			checkers[l] = wording.NewChecker(l)
		}
		for _, phrase := range p.Words[i].Phrases {
			show(checkers[l], phrase)
		}
	}
}

func findUntranslatedWords(p *proof) []finding.Finding {
	var list []finding.Finding
	for _, tag := range p.pageLanguages() {
		if language.General(tag) == language.English || !p.speaks(tag) {
			continue // English needs none; of a language without words unknown-language speaks
		}
		var counts []string
		first, place := "", finding.Place{}
		for _, l := range wording.Lists {
			c := wording.NewChecker(l)
			missing := c.Missing(p.wordsIn(l, tag)...)
			if len(missing) == 0 {
				continue
			}
			counts = append(counts, fmt.Sprintf("%d of the %d phrases of %s", len(missing), c.Count(), l))
			if first == "" {
				first, place = missing[0], p.wordsPlace(l, tag)
			}
		}
		if len(counts) > 0 {
			list = append(list, untranslatedWords.At(place, fmt.Sprintf("In “%s” %s are not translated, and are shown in English; “%s” is the first.", tag, strings.Join(counts, " and "), shorten(first)),
				"tankside words "+strings.ToLower(language.General(tag))+" writes them into the files, for you to fill in."))
		}
	}
	return list
}

// pageLanguages are the languages of the manual's pages, as their tags are written: its own and those of its translations.
func (p *proof) pageLanguages() []string {
	own, _ := manual.Language(p.OwnLanguage())
	list := append([]string{own}, p.Languages()...)
	slices.Sort(list)
	return slices.Compact(list)
}

// wordsIn gives what there is of a list in a language: the shop's own and the program's, of the region and of the language.
func (p *proof) wordsIn(l wording.List, tag string) []map[string]string {
	var all []map[string]string
	for _, t := range []string{strings.ToLower(tag), language.General(tag)} {
		for i := range p.Words {
			if of, its, is := wording.ListOf(p.Words[i].InTheme()); is && of == l && strings.EqualFold(its, t) {
				words := map[string]string{}
				for _, phrase := range p.Words[i].Phrases {
					words[phrase.English] = phrase.Shown
				}
				all = append(all, words)
			}
		}
		if words := builtIn(l.File(t)); words != nil {
			all = append(all, words)
		}
	}
	return all
}

// wordsPlace is the shop's own file of a list in a language, or, where there is none, what asks for the language.
func (p *proof) wordsPlace(l wording.List, tag string) finding.Place {
	for i := range p.Words {
		if of, its, is := wording.ListOf(p.Words[i].InTheme()); is && of == l && (strings.EqualFold(its, tag) || its == language.General(tag)) {
			return finding.Place{File: p.Words[i].Path, Line: 1, Column: 1}
		}
	}
	if at, given := p.Shop.At["language"]; given {
		return at
	}
	return finding.Place{File: manual.ShopFile}
}
