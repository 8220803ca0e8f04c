package asked

import "strings"

// small are the words that may stand between what is asked about, in English and Spanish, folded. What turns a question round (not, or, without,
// before, after) is no such word.
const small = "a an the in into to of at with and for from on is are be it its my our this that these can could may must do does will i we you one put go goes going " +
	"allowed ok okay safe wash washed clean cleaned part parts piece pieces made tank bath how much long what make up mix dilute dilution strength concentrate soap cleaner water " +
	"heat heated heating warm need take takes get " +
	"el la los las un una en al de del y con por para puede pueden entrar entra ir va van meter poner se es son esta pieza piezas tanque bano cuba desde hasta cuanto cuanta tarda agua calentar"

// fold writes a text in small letters without accents, its words parted by one blank: what is neither letter nor digit parts them. Apostrophes vanish.
// The letters are those of ASCII and of the languages of western Europe, and all others beyond Latin, as they are. (Package unicode would add to what a
// page loads.)
func fold(text string) string {
	var b strings.Builder
	gap := false
	for _, r := range text {
		r = plain(r)
		switch {
		case r == '\'' || r == '’':
			continue
		case !('a' <= r && r <= 'z' || '0' <= r && r <= '9' || r >= 0x100 && (r < 0x2000 || r >= 0x2100)):
			gap = b.Len() > 0
			continue
		}
		if gap {
			b.WriteByte(' ')
			gap = false
		}
		b.WriteRune(r)
	}
	return b.String()
}

// accented letters of the languages of western Europe, and what is under them.
const accented, bare = "áàâäãåçéèêëíìîïñóòôöõúùûüÁÀÂÄÃÅÇÉÈÊËÍÌÎÏÑÓÒÔÖÕÚÙÛÜ", "aaaaaaceeeeiiiinooooouuuuaaaaaaceeeeiiiinooooouuuu"

// plain is a letter in small and without accent.
func plain(r rune) rune {
	if 'A' <= r && r <= 'Z' {
		return r | 0x20
	}
	at := 0
	for _, a := range accented {
		if a == r {
			return rune(bare[at])
		}
		at++
	}
	return r
}
