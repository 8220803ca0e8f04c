package prose

import (
	"strings"
	"testing"

	"tankside/builder/manual"
)

// What is counted, and what is left out: Flesch, How to Write Plain English (1979), chapter 2, and our own additions in the package's guide.
func TestWhatIsCounted(t *testing.T) {
	for _, c := range []struct {
		name, text       string
		words, sentences int
	}{
		{"a sentence", "Lift the part slowly.", 4, 1},
		{"three kinds of ending", "Stop. Is it hot? Off!", 5, 3},
		{"an ending in quotation marks or brackets", "He said \"stop.\" Then (at last.) it stopped.", 8, 3},
		{"colon, semicolon and dash do not end a sentence", "Steel: rinse it; dry it – at once.", 7, 1},
		{"no full stop", "Lift the part", 3, 1},
		{"paragraphs end a sentence", "Lift the part\n\nRinse it", 5, 2},
		{"so do list items", "- Lift it\n- Rinse it\n\n1. Dry it\n2. Oil it\n", 8, 4},
		{"hyphens join, apostrophes do not part", "A well-drained part won't spot.", 5, 1},
		{"numbers and units", "Hold it at 50–65 °C for 5 min in 4 % v/v of cleaner.", 7, 1},
		{"a decimal point ends nothing", "Add 0.75 L of cleaner.", 3, 1},
		{"a unit without a number is a word", "A bar of soap.", 4, 1},
		{"headings", "## Lift the part\n\nRinse it.", 2, 1},
		{"tables", "| a | b |\n| --- | --- |\n| lift the part | rinse it |\n\nDry it.", 2, 1},
		{"listings", "```text\nLift the part.\n```\n\n    Rinse it.\n\nDry it.", 2, 1},
		{"code", "Read `flammables: no` there.", 2, 1},
		{"links without their targets", "See [the rinse](../procedures/rinse.md).", 3, 1},
		{"pictures", "![A part in a bath](../pictures/part.svg)\n\nDry it.", 2, 1},
		{"a safety message without its signal word", "> **WARNING** Hot bath. Gloves.", 3, 2},
		{"signs of a cause", "Dry it.\n\n**Seen with.** Typical: white spots or rings. As a cause: rare.", 2, 1},
		{"bold openings", "**Recheck.** Dry it.", 3, 2},
		{"nothing", "", 0, 0},
		{"numbers alone", "12. 13.", 0, 0},
	} {
		m := Of(manual.Blocks([]byte(c.text)), nil)
		if m.Words != c.words || m.Sentences != c.sentences {
			t.Errorf("%s: %d words in %d sentences, want %d in %d: %q", c.name, m.Words, m.Sentences, c.words, c.sentences, c.text)
		}
	}
}

func TestLongestSentence(t *testing.T) {
	text := "## A\n\nLift it.\n\n> **WARNING** Hot. Let the part *cool*\n> in air before you touch it. Ask.\n\nDry it.\n"
	m := Of(manual.Blocks([]byte(text)), nil)
	if m.Longest.Text != "Let the part cool in air before you touch it." || m.Longest.Words != 10 {
		t.Errorf("%+v", m.Longest)
	}
	if got := text[m.Longest.Offset:]; !strings.HasPrefix(got, "WARNING** Hot") {
		t.Errorf("it is said to stand at %q", got)
	}
}

// No text makes it fail, and the counts keep their order.
func FuzzText(f *testing.F) {
	f.Add("Lift the part, 5 min. “Then?” pH 9–11 – aïe!")
	f.Add("é 5 % v/v ... ? !")
	f.Fuzz(func(t *testing.T, text string) {
		m := Of(manual.Blocks([]byte(text)), nil)
		if m.Sentences > m.Words || m.Words > m.Syllables || m.Longest.Words > m.Words || m.Longest.Offset > len(text) {
			t.Errorf("%+v", m)
		}
	})
}
