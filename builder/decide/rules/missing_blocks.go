package rules

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// streamNames are what the blocks of a sort are called.
var streamNames = [streamCount]struct{ one, many string }{
	messages: {"message", "messages"}, steps: {"step", "steps"}, items: {"item", "items"}, cells: {"row", "rows"}, paragraphs: {"paragraph", "paragraphs"},
}

// missing says which blocks of a sort the translation lacks, with the first that seems to have no counterpart, or nothing. Paragraphs may have become items and
// items steps; paragraphs may have been joined, which loses no sentence. How many answers a step of a symptom has is compared by other-tree.
func (c *sectionPair) missing(s stream) (string, *manual.Block) {
	here, there := c.own[s], c.theirs[s]
	if len(here) >= len(there) || s == items && c.o.Kind == manual.Symptom && answersIn(c.o, c.number) {
		return "", nil
	}
	if s == cells {
		return missingRows(here, there)
	}
	lacks := there[unmatched(lengthsOf(here), lengthsOf(there))]
	if s == steps {
		return fmt.Sprintf("The original has %d steps here, and the translation %d.", len(there), len(here)), lacks
	}
	become := 0 // another sort of block
	for _, other := range []stream{steps, items, paragraphs} {
		if other != s {
			become += max(0, len(c.own[other])-len(c.theirs[other]))
		}
	}
	if len(there)-len(here) <= become || s == paragraphs && (!c.comparable() || joinedTexts(here, there)) {
		return "", nil
	}
	return fmt.Sprintf("The original has %d %s here, and the translation %d: perhaps “%s” is missing.", len(there), streamNames[s].many, len(here), shorten(lacks.Text)), lacks
}

// joinedTexts tells whether paragraphs, of which there are fewer than in the original, have as many sentences. It is not asked of what a cause is seen with, of
// which a translation makes one sentence. In the demo manual no joining of two paragraphs is taken for a loss, and one loss in 1439 for a joining.
func joinedTexts(here, there []*manual.Block) bool {
	surplus := 0
	for _, b := range there {
		if strings.HasPrefix(b.Text, signsLead) {
			return false
		}
		surplus -= sentencesIn(b.Text)
	}
	for _, b := range here {
		surplus += sentencesIn(b.Text)
	}
	return surplus >= 0
}

// missingSections finds that a translation has fewer sections than its original. The sections of symptoms are compared by other-tree, and a message in one that
// is missing is named by lost-message.
func missingSections(p *proof, t *manual.Article, own, theirs int) []finding.Finding {
	if own >= theirs || t.Kind == manual.Symptom || len(findLostMessages(p, t)) > 0 {
		return nil
	}
	here, there := headed(t), headed(t.Original)
	if len(here) >= len(there) {
		return nil // headings in quotations are none of the article's
	}
	var lengths [2][]int
	for i, list := range [2][]*manual.Section{here, there} {
		for _, s := range list {
			lengths[i] = append(lengths[i], utf8.RuneCountInString(s.Text))
		}
	}
	n := unmatched(lengths[0], lengths[1])
	return []finding.Finding{weakerTranslation.At(at(t, "title"),
		fmt.Sprintf("The original has %d sections, and the translation %d: perhaps “%s” is missing.", len(there), len(here), there[n].Heading),
		"Translate section by section, in the original's order.", there[n].At)}
}

// headed gives the sections of an article that have a heading.
func headed(a *manual.Article) []*manual.Section {
	var list []*manual.Section
	for i := range a.Sections {
		if a.Sections[i].Level > 0 {
			list = append(list, &a.Sections[i])
		}
	}
	return list
}

// answersIn tells whether the section of the given number closes with answers.
func answersIn(a *manual.Article, number int) bool {
	list := headed(a)
	return number > 0 && number <= len(list) && len(list[number-1].Answers) > 0
}

// missingRows says that tables have fewer rows or columns than the original's, with a row that seems to have no counterpart.
func missingRows(here, there []*manual.Block) (string, *manual.Block) {
	own, _ := rowsOf(here)
	theirs, firsts := rowsOf(there)
	if len(own) >= len(theirs) {
		return fmt.Sprintf("The original's tables have %d cells here, and the translation's %d.", len(there), len(here)), there[0]
	}
	lacks := firsts[unmatched(own, theirs)]
	return fmt.Sprintf("The original's tables have %d rows here, and the translation's %d: perhaps “%s” is missing.", len(theirs), len(own), shorten(lacks.Row)), lacks
}

// rowsOf gives the length of each row, and its first cell.
func rowsOf(cells []*manual.Block) (lengths []int, firsts []*manual.Block) {
	for _, c := range cells {
		if c.First {
			lengths, firsts = append(lengths, 0), append(firsts, c)
		}
		lengths[len(lengths)-1] += utf8.RuneCountInString(c.Text)
	}
	return lengths, firsts
}

func lengthsOf(blocks []*manual.Block) []int {
	list := make([]int, len(blocks))
	for i, b := range blocks {
		list[i] = utf8.RuneCountInString(b.Text)
	}
	return list
}

// unmatched lays lengths of a translation's blocks beside those of its original, of which there are more, in their order and so that they are most alike, and
// gives the first of the original that is left. A translation is about as long as its original, block by block: W. A. Gale and K. W. Church, Computational
// Linguistics 19 (1993) 75; how much longer is taken from the demo manual. It is a guess, and right in four cases of five.
func unmatched(own, theirs []int) int {
	const longer = 1.1
	unlike := func(here, there int) float64 {
		return math.Abs(math.Log(float64(here+1) / (float64(there)*longer + 1)))
	}
	first, best := 0, math.Inf(1)
	for left := range len(own) + 1 { // the first that is left, with as many behind it as there are too many
		cost := 0.0
		for k, here := range own {
			if k < left {
				cost += unlike(here, theirs[k])
			} else {
				cost += unlike(here, theirs[k+len(theirs)-len(own)])
			}
		}
		if cost < best {
			first, best = left, cost
		}
	}
	return first
}

// shrunk is how short a text with fewer sentences than its original is for one of them to be lost: of the demo manual's blocks one in a hundred is
// that short, and of those that have fewer sentences none that says the same. Our own.
const shrunk = 0.85

// lostSentence says that a text has fewer sentences than its original and is shorter, or nothing: a translator may join two sentences, but is then not brief.
func lostSentence(own, original string) string {
	if float64(utf8.RuneCountInString(own)) > shrunk*float64(utf8.RuneCountInString(original)) {
		return ""
	}
	here, there := sentencesIn(own), sentencesIn(original)
	if here >= there {
		return ""
	}
	return fmt.Sprintf("The original says it in %d sentences, and the translation in %d and in fewer words.", there, here)
}

// sentencesIn counts the sentences of a text.
func sentencesIn(text string) int {
	return len(sentences.Split(strings.TrimRight(strings.TrimSpace(text), ".!?"), -1))
}
