package rules

import (
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// restsOnNothing finds values and safety messages that decide whether somebody or something is hurt, in an article with several sources, where
// none of these is named for them.
// It prevents that a number from memory stands under the name of a standard. With a single source everything rests on that one.
var restsOnNothing = finding.Rule{
	Name: "rests-on-nothing", Severity: finding.Untidy,
	Finds:  "a value or safety message that decides about harm, and no source of its own for it among several",
	Why:    "Several sources below an article do not say which of its numbers a standard gives and which somebody recalled.",
	Source: "ISO 690:2021, from memory, to be confirmed by the process engineer: a citation connects a statement with its source",
}

func findRestsOnNothing(_ *proof, a *manual.Article) []finding.Finding {
	if len(a.Head.Sources) < 2 {
		return nil
	}
	var list []finding.Finding
	var keys []string
	for _, key := range manual.HarmKeys(a.Kind) {
		if _, given := a.Head.At[key]; given && len(a.SourcesOf(key)) == 0 {
			keys = append(keys, key)
		}
	}
	if len(keys) > 0 {
		list = append(list, restsOnNothing.At(at(a, "sources"), "The header does not say on which of its sources these rest: "+strings.Join(keys, ", ")+".",
			"Write below the sources, for each by its first words, what rests on it: rests-on: {"+namingWords(a.Head.Sources[0])+": ["+keys[0]+"]}. “common practice, no source” and “from memory” are sources too."))
	}
	for i := range a.Blocks {
		list = append(list, unsourcedMessage(a, &a.Blocks[i])...)
	}
	return list
}

// unsourcedMessage finds a paragraph of a safety message that rests on nothing, or sentences in it that have a number and no source. A NOTICE is
// about no harm to people; its numbers count.
func unsourcedMessage(a *manual.Article, b *manual.Block) []finding.Finding {
	if b.Signal == "" {
		return nil
	}
	var list []finding.Finding
	sourced := false
	for _, s := range sentence.Statements(b) {
		sourced = sourced || len(s.Names) > 0
		if len(s.Names) == 0 && sentence.HasAmount(s.Text) {
			list = append(list, restsOnNothing.At(placeIn(a, b, s.From), "This sentence of a "+b.Signal+" has a number and no source: “"+shorten(s.Text)+"”.", markRemedy(a)))
		}
	}
	if len(list) == 0 && !sourced && b.Signal != "NOTICE" {
		list = append(list, restsOnNothing.At(placeIn(a, b, 0), "This "+b.Signal+" does not say on which of the article's sources it rests.", markRemedy(a)))
	}
	return list
}

func markRemedy(a *manual.Article) string {
	return "Write behind it, before the full stop, the first words of the source: (source: " + namingWords(a.Head.Sources[0]) + ")."
}

// namingWords are so many words of a source as usually name it: without a mark at which YAML would part them.
func namingWords(source string) string {
	words := strings.Fields(source)
	if mark := strings.IndexAny(source, ",:;(["); mark > 0 {
		words = strings.Fields(source[:mark])
	}
	return strings.Join(words[:min(len(words), 3)], " ")
}
