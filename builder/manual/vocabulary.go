package manual

import (
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
)

// VocabularyFile is the name of the file in which a shop declares words of headers that the program does not know.
const VocabularyFile = "vocabulary.yaml"

// NotChecked is what a word of the shop's own counts as where nothing is known of it.
const NotChecked = "not checked"

// ownWord is a word of the shop's own vocabulary.
type ownWord struct {
	Word, As, Means string
	At, AsAt        finding.Place
}

// ownWords are the shop's own words, list by list.
type ownWords struct {
	constituents, substances, contents, hazards []ownWord
}

// vocabularyLists says which list of the file adds to which vocabulary of headers.
var vocabularyLists = []struct {
	key, means, example string
	words               Vocabulary
	of                  func(*ownWords) *[]ownWord
}{
	{"constituents", "of chemistries: words for contains, attacked-by and never-with", "ethanolamine", ContainsWords, func(o *ownWords) *[]ownWord { return &o.constituents }},
	{"substances", "of materials: words for made-of", "duplex-steel", MadeOfWords, func(o *ownWords) *[]ownWord { return &o.substances }},
	{"contents", "of soils: words for may-contain", "thallium", PeopleHazardWords, func(o *ownWords) *[]ownWord { return &o.contents }},
	{"hazards", "hazard statements", "EUH066", Vocabulary{Name: "GHS hazard statement code", Words: hazardCodes()}, func(o *ownWords) *[]ownWord { return &o.hazards }},
}

var ownWordKeys = []field[ownWord]{
	text("word", "the word, as headers have it", "ethanolamine", 40, func(w *ownWord) *string { return &w.Word }).must(),
	{Key{Name: "as", Form: "a word that the program knows, or “not checked”", Example: "amine", Means: "what it counts as", Required: true}, func(d *decoder, w *ownWord, n *yaml.Node) {
		if value, ok := d.scalar(n, Key{Name: "as", Example: "amine"}); ok {
			w.As, w.AsAt = value, d.at(n)
		}
	}},
	text("means", "what it is, in a few words", "an amine that brightens brass and cracks it", 200, func(w *ownWord) *string { return &w.Means }),
}

var vocabularyKeys = func() []field[ownWords] {
	var keys []field[ownWords]
	for _, l := range vocabularyLists {
		f := each(l.key, l.means, ownWordKeys, l.of, func(w *ownWord, at finding.Place) { w.At = at })
		f.Example = "[{word: " + l.example + ", as: " + l.words.Words[0] + "}]"
		keys = append(keys, f)
	}
	return keys
}()

// VocabularyKeys are the keys of the file: lists, each of words.
func VocabularyKeys() []Key { return keysOf(vocabularyKeys) }

// CountsAs are the words that a word of a list of the file may count as.
func CountsAs(list string) []string {
	for _, l := range vocabularyLists {
		if l.key == list {
			return append([]string{NotChecked}, l.words.Words...)
		}
	}
	return nil
}

// OwnWord is a word that a shop declares, with what it counts as.
type OwnWord struct{ Word, As, Means string }

// OwnWords gives of a vocabulary file the words that may stand where a key of a header has the program's, whatever else is wrong with the file.
func OwnWords(file []byte, key Key) []OwnWord {
	read := readVocabulary(&decoder{file: VocabularyFile}, file)
	if read == nil {
		return nil
	}
	var list []OwnWord
	for _, l := range vocabularyLists {
		if !slices.Contains(key.Words, l.words.Words[0]) {
			continue
		}
		for _, w := range *l.of(read) {
			list = append(list, OwnWord{w.Word, w.As, w.Means})
		}
	}
	return list
}

// readVocabulary reads the shop's own words. One that counts as a word which the program does not know is left out, so that headers which use
// it are not read either.
func readVocabulary(d *decoder, data []byte) *ownWords {
	mapping := d.mapping(data, "vocabulary")
	if mapping == nil {
		return nil
	}
	read, own := new(ownWords), new(ownWords)
	decode(d, read, mapping, vocabularyKeys, "vocabulary", nil)
	for _, l := range vocabularyLists {
		seen := map[string]finding.Place{}
		for _, w := range *l.of(read) {
			first, twice := seen[w.Word]
			switch {
			case w.Word == "" || w.As == "":
				continue // reported as missing
			case l.words.Has(w.Word):
				d.report(ruleWrongValue, w.At, fmt.Sprintf("“%s” is a %s that the program knows itself.", clip(w.Word, 40), l.words.Name), "Take the entry out.")
				continue
			case w.Word == "acid" || w.Word == "alkali":
				d.report(ruleWrongValue, w.At, fmt.Sprintf("“%s” is what never-with calls every chemistry of such a pH.", w.Word), "Take another word for it.")
				continue
			case twice:
				d.report(ruleDuplicateKey, w.At, "“"+clip(w.Word, 40)+"” is declared twice.", "Make one entry of the two.", first)
				continue
			case w.As != NotChecked && !l.words.Has(w.As):
				d.report(ruleUnknownWord, w.AsAt, fmt.Sprintf("“%s” is no %s that the program knows%s", clip(w.As, 40), l.words.Name, stop(didYouMean(w.As, l.words.Words))),
					"Write the word that it counts as, one of "+strings.Join(l.words.Words, ", ")+"; or as: "+NotChecked+".")
				continue
			}
			seen[w.Word] = w.At
			*l.of(own) = append(*l.of(own), w)
		}
	}
	return own
}

// own gives a word of the shop's own vocabulary as the model has it.
func (d *decoder) own(list Vocabulary, ref Ref) (Ref, bool) {
	if d.words == nil {
		return ref, false
	}
	for _, l := range vocabularyLists {
		if l.words.Name != list.Name {
			continue
		}
		for _, w := range *l.of(d.words) {
			if w.Word == ref.Name {
				return ownRef(w, ref), true
			}
		}
	}
	return ref, false
}

func ownRef(w ownWord, ref Ref) fact.Ref {
	ref.Means = w.Means
	if ref.Unchecked = w.As == NotChecked; !ref.Unchecked {
		ref.As = w.As
	}
	return ref
}

// declare is the half of a remedy that tells how a shop has words of its own.
func declare(list Vocabulary) string {
	for _, l := range vocabularyLists {
		if l.words.Name == list.Name {
			return " A word that the program does not know is declared in " + VocabularyFile + ", below " + l.key + ", with the word that it counts as or as: " + NotChecked + "."
		}
	}
	return ""
}
