package rules

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/language"
	"tankside/builder/manual"
)

// weakerTranslation finds what a translation says less strongly than its original: a safety message, a step, a cell or a paragraph that has
// lost a figure, its “never”, its goggles, a sentence or a link, and steps, items, rows, paragraphs and sections that are missing. It prevents that
// somebody does what readers of the original are told not to do, or counts to fewer minutes. The limit is the original, block by block: of a section whose
// translation has as many messages, items, cells or paragraphs, each is laid beside its own. A figure may be written as a word and a prohibition in any
// of the language's words for it: those of tongues. Of other languages figures, links and numbers of blocks are compared; sentences are counted only between
// the languages of measured.
var weakerTranslation = finding.Rule{
	Name: "weaker-translation", Severity: finding.People,
	Finds:  "a message, a step, a cell or a paragraph of a translation that has lost a figure, a prohibition, protective equipment, a sentence or a link of the original, and steps, items, rows and paragraphs that are missing",
	Why:    "Who reads the translation does what readers of the original are told not to do, keeps to no limit where they keep to one, or is not led to what they are led to.",
	Source: "the original; ANSI Z535.6: a message says the hazard, what it does and how it is avoided, from memory, to be confirmed by the safety officer",
}

var (
	anyFigure  = expression.Of(figure)
	anyWord    = expression.Of(`\pL+`)
	spacedZero = expression.Of(`(\d)[ \x{a0}\x{202f}](\d{3})(?:$|\D)`)
	onlyLimits = expression.Of(`(?i)nothing but|not only|no (?:more|less|later|longer|sooner) than|no sólo|no solo|nicht nur|nicht (?:mehr|weniger|länger|später|früher) als`) // which say “only” or set a limit
	sentences  = expression.Of(`[.!?](?:\s+|$)`)
)

func findWeakerTranslations(p *proof, t *manual.Article) []finding.Finding {
	o := t.Original
	if o == nil || o.Partial {
		return nil
	}
	own, theirs := streamsOf(t.ReadBlocks()), streamsOf(o.Blocks)
	if len(own) != len(theirs) {
		return missingSections(p, t, len(own)-1, len(theirs)-1) // of other sections lost-message compares the messages
	}
	var list []finding.Finding
	for i := range theirs {
		pair := sectionPair{proof: p, t: t, o: o, number: i, own: &own[i], theirs: &theirs[i]}
		for s := range streamCount {
			list = append(list, pair.compare(s)...)
		}
	}
	return list
}

// sectionPair is a section of a translation beside that of its original.
type sectionPair struct {
	*proof
	t, o        *manual.Article
	number      int // of the section; 0 is what stands before the first heading
	own, theirs *section
}

// compare lays the blocks of one sort beside each other. Where the translation has more of them, which belongs to which is not known: then all of
// them together have to say what the original's say.
func (c *sectionPair) compare(s stream) []finding.Finding {
	here, there := c.own[s], c.theirs[s]
	if len(here) == len(there) {
		var list []finding.Finding
		for n := range there {
			if strings.HasPrefix(there[n].Text, signsLead) {
				continue // of what a cause is seen with a translation makes a sentence
			}
			if says := c.lost(here[n:n+1], there[n], s); says != "" {
				list = append(list, weakerTranslation.At(placeOf(c.t, here[n].At(0)), says, "Translate what the original says, or correct that.", placeOf(c.o, there[n].At(0))))
			}
		}
		return list
	}
	if s == messages {
		return nil // lost-message names them
	}
	if says, block := c.missing(s); block != nil {
		return []finding.Finding{weakerTranslation.At(placeOfSection(c.t, c.number), says, "Translate each "+streamNames[s].one+", in the original's order.", placeOf(c.o, block.At(0)))}
	}
	var list []finding.Finding
	all := slices.Concat(c.own[:]...)
	for _, b := range there {
		if strings.HasPrefix(b.Text, signsLead) {
			continue
		}
		if says := c.lost(all, b, s); says != "" {
			list = append(list, weakerTranslation.At(placeOfSection(c.t, c.number), says, "Translate what the original says, or correct that.", placeOf(c.o, b.At(0))))
		}
	}
	return list
}

// measured are the languages between which lengths and numbers of sentences were measured: English and Spanish in the demo manual, German in the manual of
// the woodwind shop.
var measured = map[string]bool{"en": true, "es": true, "de": true}

// comparable tells whether lengths and sentences of the two languages can be compared.
func (c *sectionPair) comparable() bool {
	return measured[language.General(c.OwnLanguage())] && measured[language.General(c.t.Language)]
}

// lost says what blocks of the translation have lost of a block of the original, in one or two sentences, or nothing.
func (c *sectionPair) lost(here []*manual.Block, there *manual.Block, s stream) string {
	text := here[0].Text
	for _, b := range here[1:] {
		text += " " + b.Text
	}
	from, to := language.General(c.OwnLanguage()), language.General(c.t.Language)
	said := c.weaker(text, there.Text, to, from, s <= steps && len(here) == 1)
	if said == "" && len(here) == 1 && c.comparable() {
		said = lostSentence(text, there.Text)
	}
	if links := c.lostLinks(here, there, s); links != "" {
		return strings.TrimSpace(said + " " + links)
	}
	return said
}

// signsLead opens the paragraph that says with what a cause is seen.
const signsLead = "Seen with."

// stream is a sort of block of which those of a translation and of its original are laid beside each other.
type stream int

const (
	messages stream = iota
	steps
	items
	cells
	paragraphs
	streamCount
)

// section is the blocks of a section by sort, each in the order of the text.
type section = [streamCount][]*manual.Block

// streamsOf parts blocks by section and by sort, each in the order of the text.
func streamsOf(blocks []manual.Block) []section {
	list := make([]section, 1)
	for i := range blocks {
		b := &blocks[i]
		s := paragraphs
		switch {
		case b.Kind == manual.HeadingBlock:
			list = append(list, section{})
			continue
		case b.Signal != "":
			s = messages
		case b.Steps:
			s = steps
		case b.Kind == manual.ItemBlock:
			s = items
		case b.Kind == manual.CellBlock:
			s = cells
		}
		last := &list[len(list)-1]
		last[s] = append(last[s], b)
	}
	return list
}

// weaker says what a text has lost of its original, or nothing. Of messages and steps prohibitions and amounts written as words count as well:
// elsewhere a translator is free to turn “nothing is left” into “all is gone”.
func (p *proof) weaker(own, original, to, from string, orders bool) string {
	if lost := lostFigures(own, original, to, from, orders); len(lost) > 0 && !p.exchanged(own, original, to, from) {
		return fmt.Sprintf("The original says %s here, and the translation does not.", lost[0])
	}
	if !orders {
		return ""
	}
	lower := strings.ToLower(original)
	for _, p := range protectionsBetween(from, to) {
		if said := p.in(original, lower); said != "" && !p.means.MatchString(own) && !p.said.MatchString(own) {
			return "The original says “" + strings.ToLower(said) + "” here, and the translation names nothing that protects as much."
		}
	}
	denies, says := amountsOf(to).denies, amountsOf(from).denies
	if denies == nil || says == nil || !says.in(original) {
		return ""
	}
	here, there := sentences.Split(own, -1), sentences.Split(original, -1)
	if n := denying(there, says); n <= denying(here, denies) || n <= denying(here, says) { // a sentence left in the original's language forbids as well
		return ""
	}
	lacks := max(0, slices.IndexFunc(there, says.in))
	for n := range there {
		if len(here) == len(there) && says.in(there[n]) && !denies.in(here[n]) && !says.in(here[n]) {
			lacks = n
			break
		}
	}
	return "The original forbids or denies more here than the translation: “" + shorten(strings.TrimSpace(there[lacks])) + "”."
}

// lostFigures gives the figures of a text's original that the text has neither as figures nor as words; of messages and steps amounts written as words count as well.
func lostFigures(own, original, to, from string, orders bool) []string {
	wanted := figuresIn(original)
	if orders {
		for _, q := range amountsOf(from).speltIn(original) {
			if number, _, _ := strings.Cut(q, " "); number != "1" { // “an hour” is no count
				wanted = append(wanted, number)
			}
		}
	}
	figures := figuresIn(own)
	if wanted = slices.DeleteFunc(wanted, func(f string) bool { return slices.Contains(figures, f) }); len(wanted) == 0 {
		return nil
	}
	has := map[string]bool{}
	for _, w := range anyWord.FindAllString(strings.ToLower(own), -1) {
		if n, is := amountsOf(to).numbers[w]; is {
			has[n] = true
		}
	}
	return slices.DeleteFunc(wanted, func(f string) bool { return has[f] })
}

// exchanged reports whether a text has an amount that its original lacks: then number-not-in-original names what was put for what.
func (p *proof) exchanged(own, original, to, from string) bool {
	theirs, _ := amountsOf(from).in(original)
	theirs = append(theirs, amountsOf(from).speltIn(original)...)
	amounts, offsets := amountsOf(to).in(own)
	for i, q := range amounts {
		if !slices.Contains(theirs, q) && !p.endsVesselName(own, offsets[i]) {
			return true
		}
	}
	return false
}

// figuresIn gives the figures of a text in one way of writing, with those that a blank parts into thousands joined.
func figuresIn(text string) []string {
	first := strings.IndexAny(text, digits)
	if first < 0 {
		return nil
	}
	if text = text[first:]; blankInNumber(text) {
		text = spacedZero.ReplaceAllString(text, "$1$2 ")
	}
	list := anyFigure.FindAllString(text, -1)
	for i := range list {
		list[i] = plainNumber(list[i])
	}
	return list
}

// blankInNumber tells quickly of most texts that no blank stands between two figures.
func blankInNumber(text string) bool {
	for at, r := range text {
		if r != ' ' && r != '\u00a0' && r != '\u202f' {
			continue
		}
		after := at + utf8.RuneLen(r)
		if at > 0 && after < len(text) && strings.Contains(digits, text[at-1:at]) && strings.Contains(digits, text[after:after+1]) {
			return true
		}
	}
	return false
}

// denying counts the sentences that deny or forbid.
func denying(list []string, words *denials) int {
	n := 0
	for _, s := range list {
		if words.in(s) && words.in(onlyLimits.ReplaceAllString(s, "")) {
			n++
		}
	}
	return n
}

// placeOfSection is where the section of the given number begins; 0 is what stands before the first heading.
func placeOfSection(a *manual.Article, n int) finding.Place {
	if n > 0 && n-1 < len(a.Sections) {
		for _, s := range a.Sections {
			if s.Level > 0 {
				if n--; n == 0 {
					return s.At
				}
			}
		}
	}
	return at(a, "title")
}
