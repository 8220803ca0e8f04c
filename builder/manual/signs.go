package manual

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"tankside/builder/finding"
)

// Observation is something that can be seen, heard or measured, declared in the header of the symptom that it belongs to. Remedies of any
// symptom refer to it by its words.
type Observation struct {
	Seen string // "white spots or rings"
	By   string // how one looks: a word of LookWords
	At   finding.Place
}

// Signs is what a remedy says of how its cause shows: the paragraph that opens with “Seen with.”.
type Signs struct {
	Seen   []Sign
	Common string // how common the cause is: typical, sometimes, rare; "" where the paragraph does not say
	Hurts  bool   // the cause can hurt people, by the paragraph
	At     finding.Place
}

// Sign is an observation that goes with a cause, and how often: typical, sometimes or rare.
type Sign struct {
	Observation Ref
	Often       string
}

// oftenWords are how often something is.
var oftenWords = []string{"typical", "sometimes", "rare"}

// LookWords are the ways to look, quick ones first.
var LookWords = Vocabulary{Name: "way to look", Words: []string{
	"look", "listen", "wipe", "lens", "log", "thermometer", "ph-paper", "meter", "water-break", "jar", "foil", "titration", "trial", "electrician", "laboratory",
}}

// lookMinutes is what each way to look takes (our own estimate).
var lookMinutes = map[string]float64{
	"look": 1, "listen": 1, "wipe": 2, "lens": 3, "log": 3, "thermometer": 3, "ph-paper": 3, "meter": 5, "water-break": 5,
	"jar": 10, "foil": 10, "titration": 15, "trial": 30, "electrician": 240, "laboratory": 2880,
}

// Minutes is how long it takes to look for the observation, by our own estimate for the way to look.
func (o *Observation) Minutes() float64 { return lookMinutes[o.By] }

// SameObservation is the form in which the words of two observations are compared: small letters, single blanks.
func SameObservation(words string) string {
	return strings.ToLower(strings.Join(strings.Fields(words), " "))
}

const (
	seenWith   = "Seen with."
	asACause   = "as a cause"
	hurtPeople = "can hurt people"
)

// observationKeys are the keys of an observation.
var observationKeys = []field[Observation]{
	text("seen", "what is seen, in the words of somebody at the tank", "white spots or rings", 60, func(o *Observation) *string { return &o.Seen }).must(),
	word("by", "how one looks; it says how long that takes", LookWords, func(o *Observation) *string { return &o.By }).must(),
}

// OpensSigns tells whether a block of an article is the paragraph that says how often something is seen with a cause. That is an estimate: common practice, no source.
func OpensSigns(a *Article, b *Block) bool {
	return b.Kind == ParagraphBlock && strings.HasPrefix(b.Text, seenWith) && slices.ContainsFunc(a.Sections, func(s Section) bool { return s.Signs != nil })
}

// signs reads the paragraph that opens with “Seen with.”:
//
//	**Seen with.** Typical: white spots or rings; spots wipe off with a damp cloth. Rare: rough specks. As a cause: sometimes, can hurt people.
func (r *bodyReader) signs(p *ast.Paragraph) *Signs {
	lines := p.Lines()
	at, end := r.afterLead(p, lines.At(0).Start), lines.At(lines.Len()-1).Stop
	s := &Signs{At: r.at(position(p))}
	for at < end {
		stop := sentenceEnd(r.source[at:end]) + at
		r.signSentence(s, at, stop)
		at = stop + 1
	}
	return s
}

// afterLead is the offset behind the bold opening of a paragraph, its asterisks or underscores included.
func (r *bodyReader) afterLead(p *ast.Paragraph, at int) int {
	last := p.FirstChild()
	for last.LastChild() != nil {
		last = last.LastChild()
	}
	if t, ok := last.(*ast.Text); ok {
		at = t.Segment.Stop
	}
	for at < len(r.source) && (r.source[at] == '*' || r.source[at] == '_') {
		at++
	}
	return at
}

// sentenceEnd is the index of the first full stop that a blank or the end follows, or the length.
func sentenceEnd(text []byte) int {
	for i, c := range text {
		if c == '.' && (i+1 == len(text) || text[i+1] == ' ' || text[i+1] == '\n' || text[i+1] == '\r') {
			return i
		}
	}
	return len(text)
}

// signSentence reads one sentence between two offsets: “Typical: one observation; another”.
func (r *bodyReader) signSentence(s *Signs, from, to int) {
	sentence := string(r.source[from:to])
	if strings.TrimSpace(sentence) == "" {
		return
	}
	at := r.at(from + len(sentence) - len(strings.TrimLeft(sentence, " \r\n")))
	label, rest, labelled := strings.Cut(sentence, ":")
	word := SameObservation(label)
	known := word == asACause
	for _, w := range oftenWords {
		known = known || w == word
	}
	if !labelled || !known {
		r.d.report(ruleSigns, at, "“"+clip(strings.TrimSpace(sentence), 40)+"” is no sentence that “"+seenWith+"” takes"+stop(didYouMean(word, append([]string{asACause}, oftenWords...))),
			"Write for example: Typical: white spots or rings; rough specks. Rare: a hard crust. As a cause: sometimes.")
		return
	}
	if word == asACause {
		r.signCause(s, rest, at)
		return
	}
	offset := from + len(label) + 1
	for piece := range strings.SplitSeq(rest, ";") {
		name := strings.Join(strings.Fields(piece), " ")
		if name != "" {
			begin := offset + len(piece) - len(strings.TrimLeft(piece, " \r\n"))
			s.Seen = append(s.Seen, Sign{Ref{Name: name, At: r.at(begin)}, word})
		}
		offset += len(piece) + 1
	}
}

// signCause reads how common the cause is, and whether it can hurt people.
func (r *bodyReader) signCause(s *Signs, text string, at finding.Place) {
	common, more, hasMore := strings.Cut(SameObservation(text), ", ")
	for _, w := range oftenWords {
		if common == w {
			s.Common = w
		}
	}
	s.Hurts = hasMore && more == hurtPeople
	if s.Common == "" || hasMore && !s.Hurts {
		r.d.report(ruleSigns, at, "“As a cause: "+clip(SameObservation(text), 40)+"” cannot be read.",
			"Write As a cause: typical, sometimes or rare; and after a comma “"+hurtPeople+"” if it can.")
	}
}
