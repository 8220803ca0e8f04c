package prose

import (
	"math"
	"testing"
)

// The formula against published values.
func TestGrade(t *testing.T) {
	for _, c := range []struct {
		source string
		m      Measure
		want   float64
	}{
		{"Wikipedia, Flesch–Kincaid readability tests: “The Australian platypus is seemingly a hybrid of a mammal and reptilian creature”", Measure{Words: 13, Sentences: 1, Syllables: 24}, 11.3},
		{"the same: the lowest grade there is, of one-syllable sentences of one word", Measure{Words: 1, Sentences: 1, Syllables: 1}, -3.4},
		{"worked by hand from the formula of Kincaid 1975, 10 words a sentence and 1.5 syllables a word: 3.9 + 17.7 − 15.59", Measure{Words: 100, Sentences: 10, Syllables: 150}, 6.0},
		{"no text", Measure{}, 0},
	} {
		if got := c.m.Grade(); math.Abs(got-c.want) > 0.05 {
			t.Errorf("%s: %.2f, want %.1f", c.source, got, c.want)
		}
	}
}

// The same sentence counted in the text. The page that gives 11.3 counts 24 syllables.
func TestGradeOfASentence(t *testing.T) {
	m := measured("The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.")
	if m.Words != 13 || m.Sentences != 1 || m.Syllables < 24 || m.Syllables > 26 {
		t.Errorf("%+v", m)
	}
}

// Easier by definition: cutting a text at its commas leaves its words and lowers the grade by 0.39 for each word that a sentence has less.
func TestShorterSentencesReadAtALowerGrade(t *testing.T) {
	long := measured("The bath lifts the oil from the part, the oil floats to the top, and the pump moves the water to the weir.")
	short := measured("The bath lifts the oil from the part. The oil floats to the top. And the pump moves the water to the weir.")
	if long.Words != short.Words || long.Syllables != short.Syllables || long.Sentences != 1 || short.Sentences != 3 {
		t.Fatalf("%+v %+v", long, short)
	}
	want := 0.39 * float64(long.Words) * (1 - 1.0/3)
	if got := long.Grade() - short.Grade(); math.Abs(got-want) > 1e-9 {
		t.Errorf("%.3f, want %.3f", got, want)
	}
}

func TestOpening(t *testing.T) {
	for text, want := range map[string]string{
		"Short.":                     "Short.",
		"A sentence of seven words.": "A sentence of …",
		"Unbreakableunbreakable":     "Unbreakableunbre…",
		"µµ µµ µµ µµ µµ µµ µµ":       "µµ µµ µµ µµ µµ …",
	} {
		if got := (Sentence{Text: text}).Opening(16); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// measured measures a text without markup.
func measured(text string) Measure {
	m := Measure{counts: &Counts{}}
	m.text(text, 0)
	return m
}
