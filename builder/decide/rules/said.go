package rules

import (
	"bytes"
	"slices"
	"unicode/utf8"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// said is what the running text of one article says, read once for all rules that ask.
type said struct {
	blocks    []sentence.Block
	sentences []sentence.Sentence
	summary   int // the first so many sentences are of the summary
}

// reading gives what an article says, in its summary and its text. Translations are not read: they are compared with their originals.
func (p *proof) reading(a *manual.Article) *said {
	if p.said != nil {
		return p.said
	}
	s := &said{}
	p.said = s
	if a.Language != "" {
		return s
	}
	names := p.names()
	resolve := func(target string) *manual.Article {
		to, problem := p.Resolve(a, target)
		if problem != nil {
			return nil
		}
		return to.Article
	}
	summary := &sentence.Block{Text: a.Head.Summary}
	s.sentences = append(s.sentences, sentence.Of(summary, names, resolve)...)
	s.summary = len(s.sentences)
	s.blocks = a.Blocks
	s.sentences = slices.Grow(s.sentences, 2*len(s.blocks))
	for i := range s.blocks {
		s.sentences = append(s.sentences, sentence.Of(&s.blocks[i], names, resolve)...)
	}
	for i := range s.sentences {
		for j := range s.sentences[i].Mentions {
			if t := s.sentences[i].Mentions[j].Thing; t != nil {
				for _, b := range t.Articles {
					p.At(b.Path) // so that a trace knows
				}
			}
		}
	}
	return s
}

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
