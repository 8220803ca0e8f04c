// Package prose measures how hard the running text of an article is to read.
//
//	m := prose.Of(a.Blocks, nil)
//	if m.Words >= prose.Enough && m.Grade() > 9 { … }
//
// The measure is the grade level of Kincaid, Fishburne, Rogers and Chissom (Derivation of New Readability Formulas for Navy Enlisted
// Personnel, Research Branch Report 8-75, Naval Technical Training Command, 1975): the years of schooling in the United States after which
// most readers understand the text. It knows nothing of meaning: short words and short sentences are easy, long ones are hard. It holds for
// English alone.
//
// # What is counted
//
// Flesch's way of counting (How to Write Plain English, 1979, chapter 2), on which the formula rests: running text alone, without headings
// and captions; a hyphenated word is one word; an abbreviation is a word of one syllable. Three things are our own. Numbers and their units
// are left out, since a manual is full of them and they are not what makes it hard. So are tables, listings, code, pictures and where links
// lead, but not their text. And a sentence ends only at a full stop, question mark or exclamation mark, or with its paragraph or list item:
// at a colon or semicolon the reader has not yet arrived.
//
// Syllables are counted by rules of spelling: see [Syllables].
package prose
