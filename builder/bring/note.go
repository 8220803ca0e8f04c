package bring

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// What was done to a piece.
type What string

// The sorts of notes, in the order in which they are told.
const (
	Left    What = "left to be decided"
	Guessed What = "taken for something"
	Dropped What = "dropped"
	Changed What = "changed"
)

// Note is one thing that was done, and how often. Of what is done to everything alike, such as no-break blanks, there is one note.
type Note struct {
	What  What
	Text  string // a sentence
	Times int
}

// notes are gathered in their order, each once.
type notes struct {
	list []Note
	at   map[string]int
}

// most is how many notes there are at most; what is more is counted in the last.
const most = 2000

func (n *notes) add(what What, format string, args ...any) {
	text := fmt.Sprintf(format, args...)
	if n.at == nil {
		n.at = map[string]int{}
	}
	key := string(what) + text
	if i, had := n.at[key]; had {
		n.list[i].Times++
		return
	}
	if len(n.list) >= most {
		n.list[most-1].Times++
		return
	}
	n.at[key] = len(n.list)
	n.list = append(n.list, Note{what, text, 1})
}

// short is a text for a note: one line of at most 60 characters.
func short(text string) string {
	text = strings.Join(strings.Fields(strings.ToValidUTF8(text, "")), " ")
	if utf8.RuneCountInString(text) > 60 {
		text = string([]rune(text)[:59]) + "…"
	}
	return text
}
