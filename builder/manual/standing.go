package manual

import (
	"regexp"
	"strings"
	"unicode"

	"tankside/builder/expression"
	"tankside/builder/workers"
)

// Standing is what a value rests on, as far as the words of its source tell.
type Standing int

// The standings, those first that most want somebody to look.
const (
	NotSaid    Standing = iota
	FromMemory          // or a source that nobody can look up
	CommonPractice
	DataSheet // of a supplier: check your own
	Calculated
	MeasuredHere
	Handbook // or another publication, with title, year or number, and the place in it
	StandardOrLaw
)

// weaker are the words by which a source tells that it is less than a publication, in the order in which they are asked: what weakens a source
// counts before what makes it strong.
var weaker = []struct {
	of    Standing
	words *regexp.Regexp
}{
	{FromMemory, regexp.MustCompile(`(?i)\bfrom memory\b`)},
	{CommonPractice, regexp.MustCompile(`(?i)\bcommon practice\b|\bno source\b|\b(?:our|shop's) own\b|\binterview\b|\baccepted by\b`)},
	{FromMemory, regexp.MustCompile(`(?i)\bto be confirmed\b|\bto confirm\b`)},
	{DataSheet, regexp.MustCompile(`(?i)\bdata sheets?\b`)},
	{MeasuredHere, regexp.MustCompile(`(?i)\bmeasured\b|\btrials? (?:here|of this shop)\b|\bmaker's plate\b`)},
	{Calculated, regexp.MustCompile(`(?i)\b(?:calculated|computed)\b`)},
}

// designation finds a standard or law by its number: “ASTM B850”, “29 CFR 1910.106”, “Regulation (EC) No 1272/2008”, “EU CLP, Annex VI, table 3”.
var designation = expression.Of(`\b(?:ISO|EN|DIN|BS|IEC|ASTM|ANSI|ISEA|NFPA|SAE|AMS|IPC|J-STD|MIL|IEST|VDI|VDA|CFR|TRGS|WCAG|IAPWS)\b[ /:-]{0,2}(?:(?:[A-Z]+|Part)[ /-]?){0,3}[A-Z]{0,4}\d` +
	`|\b(?:CLP|GHS)\b.*\d|\b(?:Annex|annex|[Cc]hapter) [IVX\d]+.*\b(?:CLP|GHS)\b|\bACGIH\b.*\b(?:19|20)\d\d\b|\b(?:Regulations?|Directive)\b.*\d|\bStandard Methods\b.*\b\d{4}\b`)

// secondHand finds that a standard or law was not read itself, but what another text says of it: “as quoted by a handbook”, “table as published
// by a plater”, “published explanations”. Whoever answers for the manual has to open the document before the value counts as the document's.
var secondHand = expression.Of(`(?i)\bas (?:\w+ )?(?:quoted|explained|tabled|told|described|published|listed)\b|\bquoted (?:with|by|in)\b|\bpublished explanations\b|\bseen in a copy\b|\bcatalogue\b|, on (?:ISO|EN|ASTM|NFPA)\b`)

// leaflet finds what an authority has published without making it a rule: advice, warnings, criteria. The U.S. NIOSH makes no rules at all, it
// recommends (Occupational Safety and Health Act of 1970, sections 20 and 22).
var leaflet = expression.Of(`\bNIOSH(?:TIC)?\b|(?i:\bfact sheet\b|\bguidance\b|\bleaflet\b|\binformation sheet\b|\bcomments\b|\binterpretation\b)`)

// A publication can be looked up by its year or by the number that it bears: “(1994)”, “PMC5600122”, “Card 0360”, “INDG248”. Grades of steel and
// scales of hardness look like the latter and are none.
var (
	year   = expression.Of(`\b(?:1[89]|20)\d\d(?:\b|[–-])`)
	number = expression.Of(`\b(?:[A-Z]{2,}(?:-?[A-Z\d]+)*[- ]?\d[\d.,-]*\d|(?:publication|[Cc]ard|[Ss]heet|[Nn]o\.?|[Pp]atent|[Rr]eport|[Cc]ode|vol\.) \d+)`)
	grade  = expression.Of(`\b(?:AISI|UNS|HRC|HRB|HB|HV|DN|PN|IP|MPA|K|AA) ?\d+`)
)

// StandingOf tells the standing of a source by its words. A publication names its title, its year or number, and the place in it or what it says
// there; what does not is one that nobody can look up, and counts as recalled.
func StandingOf(source string) Standing { return standings(source) }

// standings remembers the sources of a large manual: each is asked for by many pages, and by every edition.
var standings = workers.Remember(20_000, standingOf)

func standingOf(source string) Standing {
	for _, s := range weaker {
		if s.words.MatchString(source) {
			return s.of
		}
	}
	switch standard := designation.MatchString(source); {
	case standard && !secondHand.MatchString(source) && !leaflet.MatchString(source):
		return StandardOrLaw
	case standard || traceable(source):
		return Handbook
	}
	return FromMemory
}

// traceable tells whether a publication can be found, and the place in it: beside what finds it there are two things said, such as who published it and
// which chapter, or a title and what it says. A surname alone says neither.
func traceable(source string) bool {
	if !year.MatchString(source) && !number.MatchString(grade.ReplaceAllString(source, "")) {
		return false
	}
	said := 0
	for _, part := range strings.FieldsFunc(source, func(r rune) bool { return strings.ContainsRune(",;:()[]", r) }) {
		letters := 0
		for _, r := range part {
			if unicode.IsLetter(r) {
				letters++
			}
		}
		if letters >= 5 && len(strings.Fields(part)) >= 2 {
			said++
		}
	}
	return said >= 2
}
