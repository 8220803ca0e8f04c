// Package search finds the section of a manual that answers an everyday
// question: "white spots", "wont come clean", "how much soap", "6061 too hot".
//
// # What is indexed
//
// An article is indexed in sections, one [Document] for its head and one for
// each heading or step of a symptom tree. [Index] turns all of them into one
// blob: two of bleve's segments, of texts and of synonyms (see the package
// segment), a table of what hits and snippets show, the texts, the words for
// typing errors. The same documents in any order give the same bytes. [Open]
// checks the blob and gives a [Finder]; the command line, the tests and the
// browser (package wasm) use the same one, so they give the same hits with the
// same scores.
//
// # How texts are read
//
// Words are folded to small letters without accents and apostrophes ("won't"
// is "wont", and all such are "not"), British and American spellings become
// one, "stuck" is a form of "stick", and the Porter2 stemmer takes off endings,
// the y of "rusty" too. Hyphens part a word and leave it whole as well.
// Numbers keep their unit: "60C", "60 °C" and "60 deg C" are one token beside
// the bare 60, "1:40" is a ratio, "50–65 °C" gives both ends with the unit, and
// the points in between: "58 °C" finds it too, weakly (see [within]).
//
// # How a question is answered
//
// Every word of the question becomes a list of [variant]s, each with a weight:
// the word itself; what it may be the beginning of (the last word while typing,
// from three letters, and any word the manual does not know: "alu"); what it
// may be a typing error of (by length, see [allowed]); two words in one and one
// word in two ("hardwater", "ultra sonic"); the same temperature in the other
// scale; the trade's term for an everyday expression and the other way round;
// plain English words that mean the same anywhere (see [everyday]).
//
// bleve's term scorer scores each variant in each field with BM25. From there
// on the sums are our own: within a word the best variant counts, not their
// sum, so a word with many synonyms weighs no more than one with none, and the
// root of the share of the question that a section covers multiplies. bleve's
// boolean queries cannot say that. Title and everyday words count for every section
// of their article; headings and questions of symptom trees count above prose. The words that say how something is asked,
// "why" or "how do I", speak for a kind of article (see [intents]).
//
// Synonyms have a segment of their own, an ordinary one of bleve's: each expression
// that another may stand for is a document, and its fields hold the expressions that
// lead to it, each as one term ("white spot"). bleve's own synonym definitions are not
// used: zap writes them in the order of a Go map at places of no fixed length, so that
// two builds differ, and bleve's queries would split a word's score among synonyms.
//
// The best articles are then looked at word for word: one in which the words of
// the question stand together, or of which it is the title, a heading or an
// everyday name, is lifted. This reads the stored texts and saves the positions in the segment,
// which would more than double it.
//
// A manual in several languages has an index for each. A question is answered in
// the language that knows most of its words, in the reader's where two know the
// same, and in the next where the first has no answer; so a translation changes
// nothing for who asks in the language of the original. Who has chosen a
// translation is led to it by words of another language too, where an article has
// one. Spanish is read with its own stemmer and stop words, other languages with
// folded words alone.
//
// An article gives at most one [Hit]: its best section, linked to directly. A
// question matched by title alone leads to the head of the article. What scores
// less than a tenth of the best is left out. Ties fall to the path, so an answer
// is one list and always the same.
package search

// Document is one findable section of an article. Sections with one page and
// one title are one article: a page of terms, each with a title of its own, is
// as many articles.
type Document struct {
	Path       string   // page within the edition, with anchor for a section: "soils/wax.html#what-it-is"; no two alike in one language
	Title      string   // title of the article
	Section    string   // heading of the section, "" for the article's head
	Kind       string   // what its article is, as a Question may ask for it: soil, tank, glossary …
	Station    string   // receive, wash, rinse, dry, inspect, maintain
	Text       string   // plain text
	AlsoCalled []string // everyday words for the article; one section is enough to carry them
	Question   bool     // the heading is a question of a symptom tree
	Language   string   // of its texts, as a BCP 47 tag; "" for English
}

// Synonym says that people use Words for what the manual calls Term. Each may
// be an expression of several words.
type Synonym struct {
	Term     string
	Words    []string
	Language string // as of a [Document]
}

// Question is what is asked. Kind and Station, where set, narrow the answer.
// Limit is the most hits wanted: 0 means [DefaultLimit], more than [MaxLimit]
// is cut. From is how many of the best are left out before them: asked with the
// same words and a growing From, every article found comes once, in order. The last of the Words counts as unfinished unless a space follows.
// Language is the reader's, a BCP 47 tag: it decides where the words could be of
// several.
type Question struct {
	Words   string `json:"words"`
	Kind    string `json:"kind,omitempty"`
	Station string `json:"station,omitempty"`
	Limit   int    `json:"limit,omitempty"`
	From    int    `json:"from,omitempty"`

	Language string `json:"language,omitempty"`
}

// Limits of a [Question].
const (
	DefaultLimit = 10
	MaxLimit     = 50
)

// Run is a piece of a snippet; Marked are the words that were found.
type Run struct {
	Text   string `json:"text"`
	Marked bool   `json:"marked,omitempty"`
}

// Hit is one article, led to by its best section. Language is set where the
// index holds more than English.
type Hit struct {
	Path    string  `json:"path"`
	Title   string  `json:"title"`
	Section string  `json:"section"`
	Kind    string  `json:"kind"`
	Station string  `json:"station"`
	Score   float64 `json:"score"`
	Snippet []Run   `json:"snippet"`

	Language string `json:"language,omitempty"`
}

// Count says how many articles of the answer have a kind or a station.
type Count struct {
	Name     string `json:"name"`
	Articles int    `json:"articles"`
}

// Answer holds the best hits and counts of all. Kinds counts as if no kind had
// been asked for, Stations as if no station had, so that a reader sees what
// another choice would bring. Nearest offers words of the manual for those of
// the question it does not know; it is set only where nothing was found. Unknown
// are the words and numbers of the question that the manual has in no form, as
// they were typed; not the last one while it may be the beginning of a word.
type Answer struct {
	Hits     []Hit    `json:"hits"`
	Total    int      `json:"total"`
	Kinds    []Count  `json:"kinds"`
	Stations []Count  `json:"stations"`
	Nearest  []string `json:"nearest"`
	Unknown  []string `json:"unknown,omitempty"`
}
