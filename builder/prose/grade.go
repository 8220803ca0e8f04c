package prose

import "unicode/utf8"

// Enough is the number of words from which a text can be graded: Flesch's samples have a hundred words.
const Enough = 100

// Measure is what is counted in a text.
type Measure struct {
	Words, Sentences, Syllables int

	// Longest is the sentence with the most words. Its Offset counts bytes from the beginning of the source that was measured, to the first word of the block
	// in which it stands.
	Longest Sentence

	counts *Counts
}

// Sentence is one sentence with the number of its words.
type Sentence struct {
	Text   string
	Words  int
	Offset int
}

// Grade is the grade level of Kincaid and others, Research Branch Report 8-75 (1975): 0.39 times the words in a sentence, plus 11.8 times the
// syllables in a word, less 15.59. It is 0 where there is no text.
func (m Measure) Grade() float64 {
	if m.Words == 0 || m.Sentences == 0 {
		return 0
	}
	words, sentences, syllables := float64(m.Words), float64(m.Sentences), float64(m.Syllables)
	return 0.39*words/sentences + 11.8*syllables/words - 15.59
}

// Opening is the beginning of the sentence, of at most so many characters, cut between words.
func (s Sentence) Opening(characters int) string {
	if utf8.RuneCountInString(s.Text) <= characters {
		return s.Text
	}
	cut := string([]rune(s.Text)[:characters])
	for i := len(cut) - 1; i > 0; i-- {
		if cut[i] == ' ' {
			return cut[:i] + " …"
		}
	}
	return cut + "…"
}
