package sentence

import (
	"strings"
	"unicode/utf8"
)

// Statement is a sentence of a block, with the marks of the sources on which it rests.
type Statement struct {
	Text     string
	From, To int      // bytes of the block's text
	Names    []string // of sources, as the text writes them
}

// Statements gives the sentences of a block. A mark belongs to the sentence that it stands in, or right behind.
func Statements(b *Block) []Statement {
	var list []Statement
	for _, part := range sentences(b.Text) {
		list = append(list, Statement{Text: strings.TrimSpace(b.Text[part[0]:part[1]]), From: part[0], To: part[1]})
	}
	for _, r := range b.Rests {
		for i := range list {
			if s := &list[i]; s.From < r.At && r.At <= s.To || i == len(list)-1 && r.At > s.To {
				s.Names = append(s.Names, r.Names...)
				break
			}
		}
	}
	return list
}

// First gives where the first sentence of a text ends, or −1 where none ends. What follows a question belongs to it: “A sharp smell? Stop the line.”
func First(text string) int {
	end := -1
	for _, part := range sentences(text) {
		last := lastRune(text[:part[1]])
		if !strings.ContainsRune(".!?)\"'*”’", last) {
			return -1
		}
		if end = part[1]; last != '?' {
			break
		}
	}
	return end
}

func lastRune(text string) rune {
	r, _ := utf8.DecodeLastRuneInString(text)
	return r
}
