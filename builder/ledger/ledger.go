package ledger

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// File is the name of the ledger in the manual's folder.
const File = "ledger.txt"

// heading is what a new ledger begins with.
const heading = `# The ledger of this manual's editions, one line an edition. tankside publish --enter writes them; lines are added and never changed or taken out.
# For version control: put the line “` + File + ` merge=union” into .gitattributes, and two ledgers are joined with all their entries.
# number | date | code | entered by | what has changed | renamed | revision of version control | SHA-256 of the content
`

// Ledger is a manual's ledger as read. The zero value is an empty one.
type Ledger struct {
	entries []Entry // by number, date and digest
	text    []byte  // the file
}

// Fault is a line that cannot be read, or that version control has left. All lines that can be read count all the same.
type Fault struct {
	Line     int    // from 1
	Problem  string // a sentence
	Conflict bool   // it is a mark of version control
}

// Parse reads a ledger, with any line ends. Lines that begin with # and empty ones say nothing; a line that is there twice counts once.
func Parse(text []byte) (Ledger, []Fault) {
	l := Ledger{text: text}
	var faults []Fault
	number := 0
	for line := range strings.Lines(lineEnds.Replace(strings.TrimPrefix(string(text), "\uFEFF"))) {
		number++
		line = strings.TrimSpace(line)
		switch {
		case line == "" || line[0] == '#':
			continue
		case IsConflictMark(line):
			faults = append(faults, Fault{number, "Version control has left two versions of the ledger here. All entries of both count.", true})
			continue
		}
		e, err := parseEntry(line)
		if err != nil {
			faults = append(faults, Fault{Line: number, Problem: err.Error()})
			continue
		}
		e.Line = number
		if !slices.ContainsFunc(l.entries, func(o Entry) bool { return o.String() == e.String() }) {
			l.entries = append(l.entries, e)
		}
	}
	slices.SortStableFunc(l.entries, compare)
	return l, faults
}

// lineEnds turns the line ends of every system into line feeds.
var lineEnds = strings.NewReplacer("\r\n", "\n", "\r", "\n")

// IsConflictMark knows the marks that version control leaves in a file that it could not join.
func IsConflictMark(line string) bool {
	for _, mark := range []string{"<<<<<<<", "|||||||", "=======", ">>>>>>>"} {
		if rest, is := strings.CutPrefix(line, mark); is && (rest == "" || rest[0] == ' ') {
			return true
		}
	}
	return false
}

// compare orders entries. What is left of their order in the file says nothing.
func compare(a, b Entry) int {
	return cmp.Or(cmp.Compare(a.Number, b.Number), strings.Compare(a.Date, b.Date), strings.Compare(a.Digest, b.Digest), strings.Compare(a.String(), b.String()))
}

// Entries are all entries, the oldest first.
func (l Ledger) Entries() []Entry { return slices.Clone(l.entries) }

// Newest is the edition that is in force: the last of the Entries.
func (l Ledger) Newest() (Entry, bool) {
	if len(l.entries) == 0 {
		return Entry{}, false
	}
	return l.entries[len(l.entries)-1], true
}

// Of is the newest entry of a content. A content has several where a manual has gone back to an older text.
func (l Ledger) Of(digest string) (Entry, bool) {
	for _, e := range slices.Backward(l.entries) {
		if e.Digest == digest {
			return e, true
		}
	}
	return Entry{}, false
}

// Before is the entry with which an edition is compared: of one that is entered the one before it that has another content; of one that is not, the newest.
func (l Ledger) Before(digest string) (Entry, bool) {
	until := len(l.entries)
	if own, entered := l.Of(digest); entered {
		until = slices.IndexFunc(l.entries, func(e Entry) bool { return compare(e, own) == 0 })
	}
	for _, e := range slices.Backward(l.entries[:until]) {
		if e.Digest != digest {
			return e, true
		}
	}
	return Entry{}, false
}

// Called gives the newest entry of a number or a code, as people write it.
func (l Ledger) Called(name string) (Entry, bool) {
	code, err := ParseCode(name)
	for _, e := range slices.Backward(l.entries) {
		if fmt.Sprint(e.Number) == name || err == nil && e.Code() == code {
			return e, true
		}
	}
	return Entry{}, false
}

// Next is the number that no entry has yet.
func (l Ledger) Next() int {
	if e, some := l.Newest(); some {
		return e.Number + 1
	}
	return 1
}

// Rivals are the entries with the newest number where several contents have it, as after a merge; nil otherwise. With a later entry they are history.
func (l Ledger) Rivals() []Entry {
	newest, some := l.Newest()
	if !some {
		return nil
	}
	var list []Entry
	for _, e := range l.entries {
		if e.Number == newest.Number && !slices.ContainsFunc(list, func(o Entry) bool { return o.Digest == e.Digest }) {
			list = append(list, e)
		}
	}
	if len(list) < 2 {
		return nil
	}
	return list
}

// Missing are the numbers below the newest that no entry has: a ledger from which nothing was taken out has all.
func (l Ledger) Missing() []int {
	var list []int
	for n := 1; n < l.Next(); n++ {
		if !slices.ContainsFunc(l.entries, func(e Entry) bool { return e.Number == n }) {
			list = append(list, n)
		}
	}
	return list
}

// With gives the ledger with one more entry at its end, and what has to be added to the file for it.
func (l Ledger) With(e Entry) (Ledger, []byte) {
	var add bytes.Buffer
	switch {
	case len(l.text) == 0:
		add.WriteString(heading)
	case !bytes.HasSuffix(l.text, []byte("\n")):
		add.WriteByte('\n')
	}
	add.WriteString(e.String() + "\n")
	more, _ := Parse(slices.Concat(l.text, add.Bytes()))
	return more, add.Bytes()
}

// Text is the file as it was read.
func (l Ledger) Text() []byte { return l.text }

// Forwards says where the files of older editions are now, by their old names: every name that a file has had leads to the one that it has. there tells
// whether a file is in the manual. latest are renamings that are not entered yet.
func (l Ledger) Forwards(latest []Renamed, there func(path string) bool) map[string]string {
	var all []Renamed
	for _, e := range l.entries {
		all = append(all, e.Renamed...)
	}
	all = append(all, latest...)
	forwards := map[string]string{}
	for i, r := range all {
		to := r.To
		for _, later := range all[i+1:] { // the later ones, in their order
			if later.From == to {
				to = later.To
			}
		}
		if !there(r.From) && there(to) {
			forwards[r.From] = to
		}
	}
	return forwards
}
