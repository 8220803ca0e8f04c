package manual

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"go.yaml.in/yaml/v3"

	"tankside/builder/expression"
)

// An approval is one line of the header: the day, who, in which role, and a digest of all that was approved. The line lies in the article itself,
// so it goes wherever the file goes, needs no record beside it and shows in version control. Nobody can give another text, revision, day, name or
// role to it by hand and have it hold: the digest is of all of them. Whoever writes the digest anew with tankside approve has approved, and says so
// under a name; that it was that person, a signature says.

// Approval is what a header says of its approval.
type Approval struct {
	Day    time.Time // date alone, UTC; zero where it is not approved
	Name   string    // name or initials of whoever approved
	Role   string    // a role of the shop file
	Digest string    // of what was approved, as the header has it; "" where it names none
}

// notYet stands for an approval that there is not.
const notYet = "not yet"

// String is the approval as a header has it.
func (p Approval) String() string {
	if p.Day.IsZero() {
		return notYet
	}
	var parts []string
	for _, part := range []string{p.Day.Format(dateForm), p.Name, p.Role, p.Digest} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	return strings.Join(parts, ", ")
}

// ApprovalState is how an approval stands to the text that it is printed with.
type ApprovalState string

// The states. In the first alone the article is approved.
const (
	Approved        ApprovalState = "approved"
	NotApproved     ApprovalState = "not approved"      // “not yet”, or the key is missing or cannot be read
	ApprovalUnbound ApprovalState = "unbound"           // it does not say by whom, or not of which text
	ApprovalBroken  ApprovalState = "changed"           // it is of another text, revision, day, name or role
	ApprovalUnread  ApprovalState = "cannot be checked" // header or text could not be read
)

// ApprovalState says whether the article's approval holds for its text.
func (a *Article) ApprovalState() ApprovalState {
	p := a.Head.Approval
	switch {
	case p.Day.IsZero():
		return NotApproved
	case p.Name == "" || p.Role == "" || p.Digest == "":
		return ApprovalUnbound
	case a.Partial || a.Content == "":
		return ApprovalUnread
	case p.Digest != a.DigestFor(p):
		return ApprovalBroken
	}
	return Approved
}

// digestLength is how many hexadecimal digits of the digest a header has: 64 bits, so that no second text for an approval is found by trying.
const digestLength = 16

// DigestFor is the digest that binds an approval of this article as it is now: of its text and facts, its revision, the day, the name and the
// role. Line ends, comments, the order of keys and their quotation marks do not change it; see [Article.Content].
func (a *Article) DigestFor(p Approval) string {
	sum := sha256.Sum256(a.Approvable(p))
	return hex.EncodeToString(sum[:])[:digestLength]
}

// Approvable is all that an approval says yes to, in a form of its own for each: what is signed, and what the digest is of.
func (a *Article) Approvable(p Approval) []byte {
	var b []byte
	for _, part := range []string{"tankside approval 1", a.Content, a.Head.Revision, a.Language, p.Day.Format(dateForm), p.Name, p.Role} {
		b = binary.AppendUvarint(b, uint64(len(part)))
		b = append(b, part...)
	}
	return b
}

var (
	digestForm = expression.Of(`^[0-9a-f]{16}$`)
	nameForm   = expression.Of(`^\p{L}[\p{L}\p{M}\p{N} .,'’\-]*$`)
)

// longestName is the number of characters that the name of whoever approves may have.
const longestName = 60

// UsableName tells whether a name or initials can stand in an approval: letters, digits, blanks, full stops, commas, hyphens and apostrophes, a
// letter first, and no part that a header would read as something else.
func UsableName(name string) bool {
	return nameForm.MatchString(name) && !tooLong(name, longestName) && name == strings.Join(strings.Fields(name), " ") && !strings.HasSuffix(name, ",")
}

// approvedKey is the approval.
func approvedKey(means string) field[Article] {
	key := Key{Name: "approved", Form: "date, name or initials, role and digest, parted by commas, as tankside approve writes it; or not yet", Example: notYet, Means: means}
	return field[Article]{key, func(d *decoder, a *Article, n *yaml.Node) {
		value, ok := d.scalar(n, key)
		if !ok || value == notYet {
			return
		}
		date, rest, found := strings.Cut(value, ",")
		if _, err := time.Parse(dateForm, strings.TrimSpace(date)); !found && err == nil {
			d.report(ruleWrongValue, d.at(n), fmt.Sprintf("“approved: %s” does not say by whom and in which role.", clip(value, 40)), "Write approved: "+notYet+", and have it approved with tankside approve, which says so.")
		}
		day, ok := d.date(strings.TrimSpace(date), d.at(n), key)
		if !ok {
			return
		}
		a.Head.Approval = approvalOf(day, rest)
		if role := a.Head.Approval.Role; role != "" {
			d.named(Ref{Name: role, At: d.at(n)}, "approved", aRole)
		}
	}}
}

// approvalOf reads what stands behind the day: a name, a role, a digest. A name alone is taken for the role, which it is in most manuals that
// name nobody.
func approvalOf(day time.Time, rest string) Approval {
	p := Approval{Day: day}
	var parts []string
	for part := range strings.SplitSeq(rest, ",") {
		if part = strings.TrimSpace(part); part != "" {
			parts = append(parts, part)
		}
	}
	if n := len(parts); n > 0 && digestForm.MatchString(parts[n-1]) {
		p.Digest, parts = parts[n-1], parts[:n-1]
	}
	if n := len(parts); n > 0 {
		p.Name, p.Role = strings.Join(parts[:n-1], ", "), parts[n-1]
	}
	return p
}

// NextRevision gives the revision after one that is a number or letters: 9 → 10, C → D, Z → AA.
func NextRevision(revision string) (string, bool) {
	if n, err := strconv.ParseUint(revision, 10, 32); err == nil && !strings.HasPrefix(revision, "+") {
		return fmt.Sprintf("%0*d", len(revision), n+1), true
	}
	letters := []byte(revision)
	if !lettersForm.MatchString(revision) {
		return "", false
	}
	first, last := byte('A'), byte('Z')
	if letters[0] >= 'a' {
		first, last = 'a', 'z'
	}
	for i := len(letters) - 1; i >= 0; i-- {
		if letters[i] != last {
			letters[i]++
			return string(letters), true
		}
		letters[i] = first
	}
	return string(first) + string(letters), true
}

// lettersForm is a revision in letters of one case.
var lettersForm = expression.Of(`^(?:[A-Z]{1,3}|[a-z]{1,3})$`)

// Overdue tells whether the review of an article is overdue on a day: from the day after it was due.
func (a *Article) Overdue(today time.Time) bool {
	return a.DueIn(today) < 0
}

// DueIn is the number of days from today to the day on which an article has to be looked at again: below zero where that has passed. Without such a
// date, or without today's, it is years from now.
func (a *Article) DueIn(today time.Time) int {
	if a.Head.ReviewBy.IsZero() || today.IsZero() {
		return math.MaxInt
	}
	year, month, day := today.Date()
	return int(a.Head.ReviewBy.Sub(time.Date(year, month, day, 0, 0, 0, 0, time.UTC)).Hours() / 24)
}
