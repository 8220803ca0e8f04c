package ledger

import (
	"cmp"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// Entry is what the ledger says of one edition.
type Entry struct {
	Number   int    // from 1
	Date     string // of the entry, year-month-day
	Digest   string // of the content, 64 hexadecimal digits
	By       string // who entered it, or ""
	Changed  string // what has changed, in short
	Renamed  []Renamed
	Revision string // of version control, where the content can be had, or ""

	Line int // in the ledger, from 1; 0 where it is not there yet
}

// Renamed is a file of the manual that has another name since the edition before.
type Renamed struct{ From, To string }

// Code is the short code of the edition.
func (e Entry) Code() string { return Code(e.Digest) }

// The columns of a line.
const (
	columnNumber = iota
	columnDate
	columnCode
	columnBy
	columnChanged
	columnRenamed
	columnRevision
	columnDigest
	columns
)

const (
	between = " | "
	empty   = "-"
	turns   = " > "
)

// String is the entry as a line of the ledger, without its end.
func (e Entry) String() string {
	cells := make([]string, columns)
	cells[columnNumber], cells[columnDate], cells[columnCode] = strconv.Itoa(e.Number), e.Date, e.Code()
	cells[columnBy], cells[columnChanged] = inCell(e.By), inCell(e.Changed)
	var renamed []string
	for _, r := range e.Renamed {
		renamed = append(renamed, r.From+turns+r.To)
	}
	cells[columnRenamed] = cmp.Or(strings.Join(renamed, ", "), empty)
	cells[columnRevision], cells[columnDigest] = cmp.Or(e.Revision, empty), e.Digest
	return strings.Join(cells, between)
}

// mostNumber is the greatest number that an edition may have.
const mostNumber = 99_999

// longestCell is how many characters of a text an entry has.
const longestCell = 300

// inCell makes a text fit for a cell: one line, without the mark between cells.
func inCell(text string) string {
	text = strings.Map(func(r rune) rune {
		switch {
		case r == '|':
			return '/'
		case unicode.IsControl(r) || r == utf8.RuneError:
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, " "))
	text = strings.Join(strings.Fields(text), " ")
	if runes := []rune(text); len(runes) > longestCell {
		text = string(runes[:longestCell-1]) + "…"
	}
	return cmp.Or(text, empty)
}

var (
	isDigest   = regexp.MustCompile(`^[0-9a-f]{64}$`)
	isRevision = regexp.MustCompile(`^[0-9a-f]{40,64}$`)
)

// parseEntry reads a line. The error is a sentence.
func parseEntry(line string) (Entry, error) {
	cells := strings.Split(line, strings.TrimSpace(between))
	if len(cells) != columns {
		return Entry{}, sentence("The line has %d cells between upright strokes; an entry has %d.", len(cells), columns)
	}
	for i := range cells {
		if cells[i] = strings.TrimSpace(cells[i]); cells[i] == empty {
			cells[i] = ""
		}
	}
	e := Entry{Date: cells[columnDate], Digest: cells[columnDigest], By: cells[columnBy], Changed: cells[columnChanged], Revision: cells[columnRevision]}
	var err error
	if e.Number, err = strconv.Atoi(cells[columnNumber]); err != nil || e.Number < 1 || e.Number > mostNumber || strconv.Itoa(e.Number) != cells[columnNumber] {
		return e, sentence("“%s” is no number of an edition.", cells[columnNumber])
	}
	if _, err := time.Parse(time.DateOnly, e.Date); err != nil {
		return e, sentence("“%s” is no date of the form 2026-12-01.", e.Date)
	}
	if !isDigest.MatchString(e.Digest) {
		return e, sentence("The last cell is no digest of 64 hexadecimal digits.")
	}
	if code, err := ParseCode(cells[columnCode]); err != nil || code != e.Code() {
		return e, sentence("The code “%s” is not that of the digest at the end of the line, which is %s.", cells[columnCode], e.Code())
	}
	if e.Revision != "" && !isRevision.MatchString(e.Revision) {
		return e, sentence("“%s” is no revision of version control in full.", e.Revision)
	}
	for _, pair := range strings.Split(cells[columnRenamed], ",") {
		if strings.TrimSpace(pair) == "" {
			continue
		}
		from, to, ok := strings.Cut(pair, strings.TrimSpace(turns))
		if !ok {
			return e, sentence("“%s” does not say which file has which new name: write old.md > new.md.", strings.TrimSpace(pair))
		}
		e.Renamed = append(e.Renamed, Renamed{strings.TrimSpace(from), strings.TrimSpace(to)})
	}
	return e, nil
}

// problem is a sentence about a line.
type problem string

func (p problem) Error() string { return string(p) }

func sentence(form string, args ...any) error { return problem(fmt.Sprintf(form, args...)) }
