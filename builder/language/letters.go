package language

import "strings"

// Lower writes a text in small letters, Upper in capital ones: those of the Latin, Greek and Cyrillic alphabets, of which each has as many letters as it
// had before. The tables of package unicode, which know every script, would add 2 kB to what a page loads.
func Lower(text string) string { return cased(text, false) }

// Upper is explained with Lower.
func Upper(text string) string { return cased(text, true) }

func cased(text string, upper bool) string {
	var b strings.Builder
	for _, r := range text {
		small, capital := pair(r)
		if upper {
			small = capital
		}
		b.WriteRune(small)
	}
	return b.String()
}

// pair gives a letter in small and as a capital: Unicode 15, the blocks Basic Latin to Latin Extended-A, Greek and Cyrillic. What has no such pair there is
// both.
func pair(r rune) (small, capital rune) {
	within := func(low, high rune) bool { return r >= low && r <= high }
	switch {
	case within('A', 'Z') || within('À', 'Þ') && r != '×' || within('Α', 'Ϋ') && r != 0x3a2 || within('А', 'Я'):
		return r + 0x20, r
	case within('a', 'z') || within('à', 'þ') && r != '÷' || within('α', 'ϋ') && r != 'ς' || within('а', 'я'):
		return r, r - 0x20
	case within('Ѐ', 'Џ'):
		return r + 0x50, r
	case within('ѐ', 'џ'):
		return r, r - 0x50
	case within('Ĺ', 'ň') || within('Ź', 'ž'): // capitals are odd here
		return r + r&1, r - 1 + r&1
	case within('Ā', 'ķ') && r != 'İ' && r != 'ı' || within('Ŋ', 'ŷ'):
		return r | 1, r &^ 1
	}
	return r, r
}
