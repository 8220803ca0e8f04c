package rules

import (
	"bytes"
	"slices"
	"strings"
	"unicode/utf8"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// runningText is what the running text of one article says, read once for all rules that ask.
type runningText struct {
	blocks    []sentence.Block
	sentences []sentence.Sentence
	summary   int // the first so many sentences are of the summary

	// answers are sentences that say what they say only together with the one before: an answer with its question, or “That is 0.28 L.”
	answers []sentence.Sentence
	replies []sentence.Sentence // questions with the sentence behind each, as one

	// results are sentences that give the result of the one before in other words, read with it: for sums alone.
	results []sentence.Sentence
}

// reading gives what an article says, in its summary and its text. Translations are not read: they are compared with their originals.
func (p *proof) reading(a *manual.Article) *runningText {
	if p.running == nil {
		p.running = p.readText(a)
	}
	return p.running
}

func (p *proof) readText(a *manual.Article) *runningText {
	s := &runningText{}
	if a.Language != "" {
		return s
	}
	names := p.names()
	resolve := func(target string) string { return manual.PathOf(a, target) }
	summary := &sentence.Block{Text: a.Head.Summary}
	s.sentences = append(s.sentences, sentence.Of(summary, names, resolve)...)
	s.summary = len(s.sentences)
	s.blocks = a.Blocks
	s.sentences = slices.Grow(s.sentences, 2*len(s.blocks))
	for i := range s.blocks {
		s.sentences = append(s.sentences, sentence.Of(&s.blocks[i], names, resolve)...)
	}
	s.answer(names, resolve)
	s.reply(names, resolve)
	return s
}

// answer reads each question with its answer as one sentence, and each sentence with “That is …” behind it.
func (s *runningText) answer(names *sentence.Names, resolve sentence.Resolve) {
	for i := 1; i < len(s.sentences); i++ {
		one, two := &s.sentences[i-1], &s.sentences[i]
		if one.Block != two.Block || len(two.Quantities) == 0 || two.Question || two.Block.Kind == sentence.Cell || one.To == 0 {
			continue
		}
		answer := asks(one) || len(one.Quantities) > 0 && pointsBack(two.Text(), pointingBack)
		if !answer && (len(one.Quantities) == 0 || !pointsBack(two.Text(), resultsBack) && !tellsBack(two.Text())) {
			continue
		}
		mark := ","
		if asks(one) {
			mark = ":"
		}
		switch joined, ok := joinedTo(one, two, mark, !answer, names, resolve); {
		case !ok:
		case answer:
			settle(&joined)
			s.answers = append(s.answers, joined)
		default:
			s.results = append(s.results, joined)
		}
	}
}

// asks tells whether a sentence is a question, also one that names nothing: “How long?”
func asks(s *sentence.Sentence) bool { return s.Question || strings.HasSuffix(s.Text(), "?") }

// reply reads each question with the sentence behind it as one sentence, the question as its label: “Brown fittings? Wash 1 does away with that.”
func (s *runningText) reply(names *sentence.Names, resolve sentence.Resolve) {
	for i := 1; i < len(s.sentences); i++ {
		one, two := &s.sentences[i-1], &s.sentences[i]
		if one.Block != two.Block || one.To == 0 || two.Question || two.Block.Kind == sentence.Cell || !asks(one) || one.Quiet() && two.Quiet() {
			continue
		}
		if joined, ok := joinedTo(one, two, ":", false, names, resolve); ok {
			joined.TakenBack = joined.TakenBack || two.TakenBack
			s.replies = append(s.replies, joined)
		}
	}
}

// joinedTo reads two sentences as one, with another mark between them than that of the first, and with small the second without its capital.
func joinedTo(one, two *sentence.Sentence, mark string, small bool, names *sentence.Names, resolve sentence.Resolve) (sentence.Sentence, bool) {
	b := *one.Block
	end := len(strings.TrimRight(b.Text[:one.To], " \n"))
	b.Text = b.Text[:end-1] + mark + b.Text[end:two.To]
	if at := two.From + leading(two); small {
		b.Text = b.Text[:at] + strings.ToLower(b.Text[at:at+1]) + b.Text[at+1:]
	}
	b.Links = slices.DeleteFunc(slices.Clone(b.Links), func(l manual.BlockLink) bool { return l.To > two.To })
	list := sentence.Of(&b, names, resolve)
	if n := len(list); n > 0 && list[n-1].From == one.From {
		return list[n-1], true
	}
	return sentence.Sentence{}, false
}

// pointsBack tells whether a sentence gives the result of the one before.
func pointsBack(text string, words []string) bool {
	text = strings.ToLower(text)
	return slices.ContainsFunc(words, func(w string) bool { return strings.HasPrefix(text, w) })
}

// tellsBack tells whether a sentence gives its result behind words of its own: “At 2.7 L a centimetre, that is 5.4 L.”
func tellsBack(text string) bool {
	_, rest, ok := strings.Cut(strings.ToLower(text), ", ")
	return ok && pointsBack(rest, []string{"that is ", "that makes ", "that gives ", "that means ", "that comes to ", "so you need ", "you need "})
}

var pointingBack = []string{"that is ", "that makes ", "that gives ", "that comes to ", "this is ", "this makes ", "this gives ", "so you need ", "you need ", "you weigh ", "you get ", "makes ", "= ", "gives ", "together "}

// resultsBack are further words at the head of a sentence that gives a result; what else is said there is not the sentence before.
var resultsBack = []string{"so ", "that's ", "in all ", "in all, ", "altogether ", "in total ", "total: ", "sum: ", "solution: ", "result: ", "which is ", "which makes ", "they weigh ", "they make ", "they hold ", "that means ", "that will be ", "that would be "}

// placeIn is the place of a byte of a block's text; for the summary it is that key's.
func placeIn(a *manual.Article, b *sentence.Block, offset int) finding.Place {
	source := b.At(offset)
	if b.Summary() {
		return at(a, "summary")
	}
	return placeOf(a, source)
}

// placeOf is the place of a byte of the body.
func placeOf(a *manual.Article, source int) finding.Place {
	source = max(0, min(source, len(a.Body)))
	from := bytes.LastIndexByte(a.Body[:source], '\n') + 1
	return finding.Place{File: a.Path, Line: a.Start + bytes.Count(a.Body[:source], []byte{'\n'}), Column: 1 + utf8.RuneCount(a.Body[from:source])}
}
