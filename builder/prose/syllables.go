package prose

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Syllables counts the syllables of an English word, at least one. The parts of a hyphenated word add up. An abbreviation, of at most five
// letters with at least two capitals, is one syllable, as Flesch counts it.
//
// Each run of vowels is a syllable, y being one unless a vowel follows it at the beginning, with these exceptions:
//
//   - a final e is silent (rinse), other than behind a consonant and l or r (bottle, litre); so it is before -s, -ly, -less, -ful and -ment;
//   - -es and -ed are silent (pipes, rinsed), other than behind the sounds that call for them (rinses, coated);
//   - two vowels that are spoken apart count twice (fluid, ion, creates, radius, drying), other than in -tion, -cial and their like (ablation, crucial);
//   - -ism and -thm have a syllable without a vowel.
//
// What these rules get wrong and a manual of cleaning uses often stands in a list of exceptions.
func Syllables(word string) int {
	if word == "" {
		return 0
	}
	if abbreviation(word) {
		return 1
	}
	n := 0
	for part := range strings.FieldsFuncSeq(strings.ToLower(word), func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' && r != '’' }) {
		n += syllables(part)
	}
	return max(n, 1)
}

// abbreviation tells whether a word is one by its letters: DI, NBR, pH.
func abbreviation(word string) bool {
	capitals := 0
	for _, r := range word {
		switch {
		case unicode.IsUpper(r):
			capitals++
		case !unicode.IsLower(r):
			return false
		}
	}
	return utf8.RuneCountInString(word) <= 5 && (capitals >= 2 || word == "pH")
}

func syllables(w string) int {
	if !plain(w) {
		w = plainLetters.Replace(strings.ReplaceAll(w, "’", "'"))
	}
	w, _, _ = strings.Cut(w, "'") // “won't”, “supplier's”
	if n, ok := exceptions[w]; ok {
		return n
	}
	for _, first := range compounds {
		if rest, ok := strings.CutPrefix(w, first.word); ok && len(rest) > 2 {
			return first.syllables + syllables(rest)
		}
	}
	stem := strings.TrimSuffix(w, "s")
	if n, ok := exceptions[stem]; ok && stem != w {
		return n
	}
	stem, extra := ending(w)
	if n, ok := exceptions[stem]; ok && stem != w {
		return n + extra
	}
	return max(runs(stem)+extra, 1)
}

// plain tells whether a word has plain letters and marks alone, as most have.
func plain(w string) bool {
	return !strings.ContainsFunc(w, func(r rune) bool { return r >= utf8.RuneSelf })
}

// plainLetters writes accented letters as plain ones.
var plainLetters = strings.NewReplacer("é", "ay", "è", "e", "ê", "e", "ü", "u", "ö", "o", "ä", "a", "ï", "i", "ç", "c")

// ending takes off an ending that is silent or a syllable of its own, and tells how many syllables it adds.
func ending(w string) (stem string, extra int) {
	for _, s := range suffixes {
		if base, is := strings.CutSuffix(w, s); is && len(base) > 2 {
			stem, extra = ending(base)
			return stem, extra + 1
		}
	}
	base, is := strings.CutSuffix(w, "ed")
	if is && len(base) > 1 {
		return base, one(endsIn(base, "t", "d") || clustered(base))
	}
	if base, is = strings.CutSuffix(w, "es"); is && len(base) > 1 {
		return base, one(hisses(base) || clustered(base))
	}
	if base, is = strings.CutSuffix(w, "e"); is && len(base) > 1 {
		return base, one(clustered(base))
	}
	return w, one(endsIn(w, "ism", "isms", "thm", "thms"))
}

// suffixes add a syllable to a word that may end in a silent e.
var suffixes = []string{"ness", "less", "ment", "ments", "ful", "ly", "ward", "wards", "some"}

func one(is bool) int {
	if is {
		return 1
	}
	return 0
}

// clustered tells whether a word ends in a consonant and l or r, so that a following e is spoken: bott-, lit-.
func clustered(base string) bool {
	n := len(base)
	if n < 3 || vowel(base[n-2]) || endsIn(base, "ll", "rl") {
		return false
	}
	return base[n-1] == 'l' || endsIn(base, "tr", "br")
}

// hisses tells whether -es is spoken behind a word.
func hisses(base string) bool { return endsIn(base, "s", "x", "z", "c", "g", "sh", "ch") }
