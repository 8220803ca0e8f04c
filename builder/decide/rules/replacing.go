package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// The rules in this file are about a shop's manual that lies over a base: see manual.Layer. Of a manual that stands by itself the first alone finds anything.

// replacesNothing finds articles that say they replace one of a base, and there is none at their path.
// It prevents that an article that the base has given another name, or taken out, goes on beside the new one as if it stood in its place.
var replacesNothing = finding.Rule{
	Name: "replaces-nothing", Severity: finding.Result,
	Finds:  "an article that says it replaces one of the base, which has none at that path",
	Why:    "Where the base has moved its article, the shop has both, and the two may contradict each other.",
	Source: "the base; common practice, no source",
}

// unsaidReplacement finds articles of a shop that stand in place of one of the base and do not say of which.
// It prevents that an article of the base is covered by one of the same name by accident, and that nobody notices when the base's is corrected.
var unsaidReplacement = finding.Rule{
	Name: "unsaid-replacement", Severity: finding.Result,
	Finds:  "a shop's article in place of one of the base, which does not say what it replaces",
	Why:    "Nobody knows which text it was compared with, so a correction in the base is never missed here.",
	Source: "control of documented information of external origin, ISO 9001:2015, 7.5.3.2, from memory, to be confirmed by the process engineer",
}

// baseMovedOn finds articles of a shop that replace another revision, or another text, than the base has now.
// It prevents that a shop goes on with a number that the base has corrected. The limit is the digest in the header.
var baseMovedOn = finding.Rule{
	Name: "base-moved-on", Severity: finding.Result,
	Finds:  "a shop's article whose original in the base is not what it was when the shop's was written",
	Why:    "What the base has corrected or warned of since is not in the shop's article.",
	Source: "the digest in the header; ISO 9001:2015, 7.5.3.2, from memory, to be confirmed by the process engineer",
}

// messageLostByReplacing finds safety messages of the base that a shop's article in its place lacks, or has with a weaker signal word.
// It prevents that somebody is hurt because a shop wrote its own text and left the warning out. The limit is the base: each of its messages, word by word, with its
// signal word or a graver one. Further messages may stand beside.
var messageLostByReplacing = finding.Rule{
	Name: "message-lost-by-replacing", Severity: finding.People,
	Finds:  "a safety message, hazard or protective equipment of the base's article that the shop's article in its place lacks",
	Why:    "Readers of this shop are not warned of what readers of every other are warned of.",
	Source: "ANSI Z535.6: one signal word for one degree of harm, from memory, to be confirmed by the safety officer; the base",
}

// notOfAShop finds files in a shop's folder that no shop has over a base, and a language other than the base's.
// It prevents that words of one shop change what all articles mean, and that somebody believes to have changed what was left out.
var notOfAShop = finding.Rule{
	Name: "not-of-a-shop", Severity: finding.Result,
	Finds:  "a file in a shop's folder that a shop cannot have over a base, or another language than the base's",
	Why:    "It is left out, or articles are read in a language in which they are not written.",
	Source: "what a shop is over a base: FORMAT.md, “A shop over a base”",
}

// findReplacements holds the shop's own articles against those of the base.
func findReplacements(p *proof) []finding.Finding {
	var list []finding.Finding
	each := func(_ int, a *manual.Article) bool {
		if a.Language == "" {
			list = append(list, p.replacement(a)...)
		}
		return true
	}
	p.Articles(each)
	p.Drafts(each)
	return list
}

func (p *proof) replacement(a *manual.Article) []finding.Finding {
	var was *manual.Article
	if p.Over != nil && p.Over.Has(a.Path) {
		was = p.Over.Base.At(a.Path)
	}
	_, says := a.Head.At["replaces"]
	switch {
	case was == nil && says:
		return []finding.Finding{replacesNothing.At(at(a, "replaces"), "There is no article of a base at the path "+a.Path+".",
			"Take “replaces” out where the article is the shop's own; where the base has given its article another name, give this one the same.")}
	case was == nil:
		return nil
	}
	return append(p.unlikeBase(a, was), p.lostByReplacing(a, was)...)
}

// unlikeBase compares what an article says it replaces with what the base has.
func (p *proof) unlikeBase(a, was *manual.Article) []finding.Finding {
	now, said := was.Replaceable(), a.Head.Replaces
	_, says := a.Head.At["replaces"]
	switch {
	case was.Partial || a.Partial: // told below, or by the reader
		return nil
	case !says:
		return []finding.Finding{unsaidReplacement.At(at(a, "title"), fmt.Sprintf("This article stands in place of the base's “%s”, revision %s, and does not say so.", was.Head.Title, was.Head.Revision),
			fmt.Sprintf("Compare the two, and add a line: replaces: %s. Or rename it, where it is an article of its own.", now))}
	case said == now || said == (manual.Replaced{}): // what cannot be read has been told
		return nil
	case said.Revision == now.Revision:
		return []finding.Finding{baseMovedOn.At(at(a, "replaces"), fmt.Sprintf("The base's article is another text now, still under revision %s.", now.Revision),
			fmt.Sprintf("Read the base's article again, take over what has changed, and write: replaces: %s", now))}
	}
	return []finding.Finding{baseMovedOn.At(at(a, "replaces"), fmt.Sprintf("This replaces revision %s of the base's article, which has revision %s now.", said.Revision, now.Revision),
		fmt.Sprintf("Read the base's article again, take over what has changed, and write: replaces: %s", now))}
}

// lostByReplacing gives what the base warns of and the shop's article does not. What is found stands at the shop file where the article is a draft that is left out: a draft
// keeps nothing from being published, and here it would take the base's messages away.
func (p *proof) lostByReplacing(a, was *manual.Article) []finding.Finding {
	place := func(key string) finding.Place {
		if p.LeftOut(a) {
			return finding.Place{File: manual.ShopFile, Line: 1, Column: 1}
		}
		return at(a, key)
	}
	if was.Partial {
		return []finding.Finding{messageLostByReplacing.At(place("title"), "The base's article at "+a.Path+" could not be read, so that nobody knows which messages it has.", "Put the base's article right.")}
	}
	if p.LeftOut(a) && len(was.Signals) > 0 {
		return []finding.Finding{messageLostByReplacing.At(place("title"), fmt.Sprintf("The draft %s stands in place of the base's article and is left out, and with it %d of the base's safety messages.", a.Path, len(was.Signals)),
			"Finish the draft, or keep it outside the shop's folder until it is finished.")}
	}
	if a.Partial {
		return nil // what cannot be read stops publication by itself
	}
	var list []finding.Finding
	left := slices.Clone(a.Signals)
	for _, s := range was.Signals {
		n := slices.IndexFunc(left, func(own manual.Signal) bool { return atLeast(own.Word, s.Word) && sameWords(own.Text, s.Text) })
		if n < 0 {
			list = append(list, messageLostByReplacing.At(place("title"), fmt.Sprintf("The base's message %s “%s” is missing here, or is weaker.", s.Word, shorten(s.Text)),
				"Put it into the article word by word, with its signal word, as the base's "+a.Path+" has it; what the shop adds goes into a message beside it."))
			continue
		}
		left = slices.Delete(left, n, n+1)
	}
	for _, key := range []string{"hazards", "protective-equipment", "never-with"} {
		if lost := lostWords(was, a, key); len(lost) > 0 {
			list = append(list, messageLostByReplacing.At(place(key), fmt.Sprintf("The base's “%s” says %s, and this article does not.", key, strings.Join(lost, ", ")), "Add it below “"+key+"”."))
		}
	}
	return list
}

// atLeast tells whether a signal word is another or a graver one.
func atLeast(word, than string) bool {
	own, base := slices.Index(manual.SignalWords, word), slices.Index(manual.SignalWords, than)
	return own >= 0 && own <= base
}

// sameWords compares two messages but for white space.
func sameWords(a, b string) bool { return slices.Equal(strings.Fields(a), strings.Fields(b)) }

// lostWords are the items of a header's list that one article has and another has not.
func lostWords(was, a *manual.Article, key string) []string {
	own := wordsBelow(a, key)
	return slices.DeleteFunc(wordsBelow(was, key), func(w string) bool { return slices.Contains(own, w) })
}

// findNotOfAShop passes on what was left out of a shop's folder.
func findNotOfAShop(p *proof) []finding.Finding {
	if p.Over == nil {
		return nil
	}
	var list []finding.Finding
	for _, path := range p.Over.Apart {
		remedy := "Give the picture another name, and name that in the shop's own articles."
		if path == manual.GlossaryFile || path == manual.MovedFile {
			remedy = "Put what is for every shop into the base, and take the file out of the shop's folder."
		}
		list = append(list, notOfAShop.At(finding.Place{File: manual.ShopFile, Line: 1, Column: 1}, "The shop's folder has "+path+", which is the base's; the shop's was left out.", remedy))
	}
	own, _ := manual.Language(p.OwnLanguage())
	if base, _ := manual.Language(p.Over.Base.OwnLanguage()); own != base {
		place, said := p.Shop.At["language"]
		if !said {
			place = finding.Place{File: manual.ShopFile, Line: 1, Column: 1}
		}
		list = append(list, notOfAShop.At(place, fmt.Sprintf("The shop's language is %s, and the base is written in %s.", own, base),
			fmt.Sprintf("Write language: %s, and below translations: [%s] which language the shop's readers have.", base, own)))
	}
	return list
}

// wordsBelow are the items that a header has below a key, in capitals or not.
func wordsBelow(a *manual.Article, key string) []string {
	var list []string
	for _, said := range a.Header {
		if said.Key != key {
			continue
		}
		for line := range strings.SplitSeq(said.Value, "\n") {
			if word := strings.ToLower(strings.Join(strings.Fields(strings.TrimPrefix(line, "- ")), " ")); word != "" {
				list = append(list, word)
			}
		}
	}
	return list
}
