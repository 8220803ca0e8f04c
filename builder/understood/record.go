package understood

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"tankside/builder/ledger"
)

// File is the name of the record in the manual's folder.
const File = "understood.txt"

const heading = `# Who has read and understood which edition, one line a signature. tankside understood --by writes them; lines are added and never changed or taken out.
# For version control: put the line “` + File + ` merge=union” into .gitattributes, and two records are joined with all their signatures.
# date | edition | code | role | who
`

// Entry is one signature: somebody says that they have read and understood an edition, as far as it concerns a role.
type Entry struct {
	Date    string `json:"date"`    // year-month-day
	Edition int    `json:"edition"` // number in the ledger
	Code    string `json:"code"`
	Role    string `json:"role"`
	Who     string `json:"who"`
}

const (
	between = " | "
	columns = 5
)

// String is the entry as a line, without its end.
func (e Entry) String() string {
	return strings.Join([]string{e.Date, strconv.Itoa(e.Edition), e.Code, e.Role, e.Who}, between)
}

// longest is how many characters a name or a role has at most.
const longest = 80

// NewEntry makes a signature of what was given for it. The error is a sentence.
func NewEntry(day time.Time, of ledger.Entry, role, who string) (Entry, error) {
	for what, text := range map[string]string{"name": who, "role": role} {
		switch {
		case strings.TrimSpace(text) == "":
			return Entry{}, fmt.Errorf("the %s is missing", what)
		case strings.Contains(text, "|") || strings.ContainsFunc(text, unicode.IsControl) || !utf8.ValidString(text):
			return Entry{}, fmt.Errorf("the %s %q has an upright stroke or a line end in it", what, text)
		case utf8.RuneCountInString(text) > longest:
			return Entry{}, fmt.Errorf("the %s has more than %d characters", what, longest)
		}
	}
	e := Entry{day.Format(time.DateOnly), of.Number, of.Code(), strings.Join(strings.Fields(role), " "), strings.Join(strings.Fields(who), " ")}
	if e.Date < of.Date {
		return Entry{}, fmt.Errorf("edition %d is of %s, and nobody can have read it on %s", of.Number, of.Date, e.Date)
	}
	return e, nil
}

// Record is the record as read. The zero value is an empty one.
type Record struct {
	entries []Entry
	text    []byte
}

// Fault is a line that cannot be read. All others count all the same.
type Fault struct {
	Line    int    // from 1
	Problem string // a sentence
}

// Parse reads a record, with any line ends. Lines that begin with # say nothing, and neither do the marks that version control leaves: the entries of both sides count.
func Parse(text []byte) (Record, []Fault) {
	r := Record{text: text}
	var faults []Fault
	number := 0
	for line := range strings.Lines(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(strings.TrimPrefix(string(text), "\uFEFF"))) {
		number++
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' || ledger.IsConflictMark(line) {
			continue
		}
		e, err := parseEntry(line)
		if err != nil {
			faults = append(faults, Fault{number, err.Error()})
			continue
		}
		if !slices.Contains(r.entries, e) {
			r.entries = append(r.entries, e)
		}
	}
	slices.SortFunc(r.entries, compare)
	return r, faults
}

func parseEntry(line string) (Entry, error) {
	cells := strings.Split(line, strings.TrimSpace(between))
	if len(cells) != columns {
		return Entry{}, sentence("The line has %d cells between upright strokes; a signature has %d.", len(cells), columns)
	}
	for i := range cells {
		cells[i] = strings.TrimSpace(cells[i])
	}
	e := Entry{Date: cells[0], Role: cells[3], Who: cells[4]}
	if _, err := time.Parse(time.DateOnly, e.Date); err != nil {
		return e, sentence("“%s” is no date of the form 2026-12-01.", e.Date)
	}
	n, err := strconv.Atoi(cells[1])
	if err != nil || n < 1 || strconv.Itoa(n) != cells[1] {
		return e, sentence("“%s” is no number of an edition.", cells[1])
	}
	code, err := ledger.ParseCode(cells[2])
	if err != nil {
		return e, sentence("“%s” is no code of an edition.", cells[2])
	}
	if e.Role == "" || e.Who == "" {
		return e, sentence("The line does not say who has signed, and as what.")
	}
	e.Edition, e.Code = n, code
	return e, nil
}

// problem is a sentence about a line.
type problem string

func (p problem) Error() string { return string(p) }

func sentence(form string, args ...any) error { return problem(fmt.Sprintf(form, args...)) }

// compare orders signatures: what somebody signed last counts.
func compare(a, b Entry) int {
	return cmp.Or(cmp.Compare(a.Edition, b.Edition), strings.Compare(a.Date, b.Date), strings.Compare(a.Code, b.Code), strings.Compare(a.Role, b.Role), strings.Compare(a.Who, b.Who))
}

// Entries are all signatures, those of the oldest editions first.
func (r Record) Entries() []Entry { return slices.Clone(r.entries) }

// Latest is what everybody has signed last in a role, by name.
func (r Record) Latest(role string) []Entry {
	last := map[string]Entry{}
	for _, e := range r.entries {
		if e.Role == role {
			last[e.Who] = e
		}
	}
	var list []Entry
	for _, e := range last {
		list = append(list, e)
	}
	slices.SortFunc(list, func(a, b Entry) int { return strings.Compare(a.Who, b.Who) })
	return list
}

// With gives what has to be added to the file for one more signature.
func (r Record) With(e Entry) []byte {
	var add bytes.Buffer
	switch {
	case len(r.text) == 0:
		add.WriteString(heading)
	case !bytes.HasSuffix(r.text, []byte("\n")):
		add.WriteByte('\n')
	}
	add.WriteString(e.String() + "\n")
	return add.Bytes()
}

// Text is the file as it was read.
func (r Record) Text() []byte { return r.text }
