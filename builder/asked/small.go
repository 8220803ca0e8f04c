package asked

import (
	"strings"
	"unicode"
)

// small are the words that may stand between what is asked about, in English and Spanish, folded. What turns a question round (not, or, without,
// before, after, from one tank) is no such word.
const small = " a an the in into to of at with and for on is are be it its my our this that these can could may must do does will i we you one put go goes going " +
	"allowed ok okay safe wash washed clean cleaned part parts piece pieces made tank bath how much long what make up mix dilute dilution strength concentrate soap cleaner water " +
	"heat heated heating warm up need take takes get " +
	"el la los las un una en al de del y con por para puede pueden entrar entra ir va van meter poner se es son esta pieza piezas tanque bano cuba hasta cuanto cuanta tarda agua calentar "

// turns are the words that belong to a heating alone.
const turns = " from desde to a hasta "

func isSmall(word string) bool { return strings.Contains(small, " "+word+" ") }

// fold writes a text in small letters without accents, its words parted by one blank: what is neither letter nor digit parts them. Apostrophes vanish.
func fold(text string) string {
	var b strings.Builder
	gap := false
	for _, r := range text {
		switch {
		case r == '\'' || r == '’':
			continue
		case !unicode.IsLetter(r) && !unicode.IsDigit(r):
			gap = b.Len() > 0
			continue
		}
		if gap {
			b.WriteByte(' ')
			gap = false
		}
		b.WriteRune(plain(unicode.ToLower(r)))
	}
	return b.String()
}

// accented letters of the languages of western Europe, and what is under them.
const accented, bare = "áàâäãåçéèêëíìîïñóòôöõúùûü", "aaaaaaceeeeiiiinooooouuuu"

func plain(r rune) rune {
	at := 0
	for _, a := range accented {
		if a == r {
			return rune(bare[at])
		}
		at++
	}
	return r
}
