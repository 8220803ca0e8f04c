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

// missing says which blocks of a sort the translation lacks, with the first that has no counterpart, or nothing. Paragraphs may have become items and items
// steps; two paragraphs may have become one, of the length of both. How many answers a step of a symptom has is compared by other-tree.
func (c *sectionPair) missing(s stream) (string, *manual.Block) {
	here, there := c.own[s], c.theirs[s]
	if len(here) >= len(there) || s == items && c.o.Kind == manual.Symptom && answersIn(c.o, c.number) {
		return "", nil
	}
	if s == cells {
		return missingRows(here, there)
	}
	n := unmatched(lengthsOf(here), lengthsOf(there), s == paragraphs)
	if s == steps {
		return fmt.Sprintf("The original has %d steps here, and the translation %d.", len(there), len(here)), there[max(0, n)]
	}
	become := 0 // another sort of block
	for _, other := range []stream{steps, items, paragraphs} {
		if other != s {
			become += max(0, len(c.own[other])-len(c.theirs[other]))
		}
	}
	if n < 0 || len(there)-len(here) <= become || strings.HasPrefix(there[n].Text, signsLead) {
		return "", nil
	}
	return fmt.Sprintf("The original has %d %s here, and the translation %d: “%s” seems to be missing.", len(there), streamNames[s].many, len(here), shorten(there[n].Text)), there[n]
}

// missingSections finds that a translation has fewer sections than its original. The sections of symptoms are compared by other-tree, and a message in one that
// is missing is named by lost-message.
func missingSections(p *proof, t *manual.Article, own, theirs int) []finding.Finding {
	if own >= theirs || t.Kind == manual.Symptom || len(findLostMessages(p, t)) > 0 {
		return nil
	}
	here, there := headed(t), headed(t.Original)
	var lengths [2][]int
	for i, list := range [2][]*manual.Section{here, there} {
		for _, s := range list {
			lengths[i] = append(lengths[i], utf8.RuneCountInString(s.Text))
		}
	}
	n := unmatched(lengths[0], lengths[1], false)
	return []finding.Finding{weakerTranslation.At(at(t, "title"),
		fmt.Sprintf("The original has %d sections, and the translation %d: “%s” seems to be missing.", len(there), len(here), there[n].Heading),
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
	lacks := firsts[max(0, unmatched(own, theirs, false))]
	return fmt.Sprintf("The original's tables have %d rows here, and the translation's %d: “%s” seems to be missing.", len(theirs), len(own), shorten(lacks.Row)), lacks
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

// What it costs, in the logarithm of lengths, to take a block for left out, or for written as one with its neighbour. A translation is about as long as its
// original, block by block: W. A. Gale and K. W. Church, Computational Linguistics 19 (1993) 75; the figures are our own.
const (
	costLeftOut = 0.6
	costJoined  = 0.5
)

// unmatched lays lengths of a translation's blocks beside those of its original, of which there are more, in order and at the least cost, and gives the
// first of the original that has no counterpart; below 0, where each has one because neighbours were joined.
func unmatched(own, theirs []int, joining bool) int {
	total := func(list []int) (n float64) {
		for _, l := range list {
			n += float64(l)
		}
		return n + 1
	}
	const longer = 1.1 // Spanish beside English, of the demo manual
	unlike := func(here, there float64) float64 { return math.Abs(math.Log((here + 1) / (there*longer + 1))) }
	type state struct {
		cost  float64
		first int // of the original without a counterpart
	}
	best := make([][]state, len(theirs)+1)
	for i := range best {
		best[i] = make([]state, len(own)+1)
		for k := range best[i] {
			if i+k == 0 {
				best[0][0] = state{0, -1}
				continue
			}
			least := state{math.Inf(1), -1}
			try := func(from state, cost float64, left int) {
				if from.cost+cost < least.cost {
					least = state{from.cost + cost, from.first}
					if least.first < 0 {
						least.first = left
					}
				}
			}
			if i > 0 {
				try(best[i-1][k], costLeftOut, i-1)
			}
			if i > 0 && k > 0 {
				try(best[i-1][k-1], unlike(float64(own[k-1]), float64(theirs[i-1])), -1)
			}
			if joining && i > 1 && k > 0 {
				try(best[i-2][k-1], costJoined+unlike(float64(own[k-1]), total(theirs[i-2:i])), -1)
			}
			best[i][k] = least
		}
	}
	return best[len(theirs)][len(own)].first
}

// shrunk is how short a text with fewer sentences than its original is for one of them to be lost: of the demo manual's blocks one in a hundred is
// that short, and of those that have fewer sentences none that says the same. Our own.
const shrunk = 0.85

// lostSentence says that a text has fewer sentences than its original and is shorter, or nothing: a translator may join two sentences, but is then not brief.
func lostSentence(own, original string) string {
	here, there := sentencesIn(own), sentencesIn(original)
	if here >= there || float64(utf8.RuneCountInString(own)) > shrunk*float64(utf8.RuneCountInString(original)) {
		return ""
	}
	return fmt.Sprintf("The original says it in %d sentences, and the translation in %d and in fewer words.", there, here)
}

// sentencesIn counts the sentences of a text.
func sentencesIn(text string) int {
	return len(sentences.Split(strings.TrimRight(strings.TrimSpace(text), ".!?"), -1))
}
