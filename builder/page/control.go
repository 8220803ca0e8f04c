package page

import (
	"fmt"
	"strings"
	"time"

	"tankside/builder/manual"
)

// Control is who answers for an article: what its page, its sheet and its card print.
type Control struct {
	Revision       string
	Approved       string // day of the approval; "" where it is not approved
	Name, Role     string // of whoever approved
	ReviewBy       string
	Stamps         []Stamp // what a reader has to know before the first line
	Lang           string  // of name and role, where it is not the page's
	StateOfRelease string  // “approved” or “not approved”, in the page's language
}

// Stamp is a remark on every page and sheet of an article: why it is not to be worked by as it stands.
type Stamp struct{ Head, Text string }

// control gives who answers for an article.
func (s *site) control(a *manual.Article) Control {
	p := a.Head.Approval
	c := Control{Revision: a.Head.Revision, Lang: s.written(), StateOfRelease: s.words.say("not approved")}
	if !a.Head.ReviewBy.IsZero() {
		c.ReviewBy = a.Head.ReviewBy.Format(time.DateOnly)
	}
	why := ""
	switch a.ApprovalState() {
	case manual.Approved:
		c.Approved, c.Name, c.Role, c.StateOfRelease = p.Day.Format(time.DateOnly), p.Name, p.Role, s.words.say("approved")
	case manual.NotApproved, manual.ApprovalUnread:
		why = s.words.say("Nobody has approved this text.")
	case manual.ApprovalUnbound:
		why = fmt.Sprintf(s.words.say("The approval of %s does not say by whom it is, or of which text."), p.Day.Format(time.DateOnly))
	case manual.ApprovalBroken:
		why = fmt.Sprintf(s.words.say("This is not the text that was approved on %s."), p.Day.Format(time.DateOnly))
	}
	if a.Head.Draft || a.Original != nil && a.Original.Head.Draft {
		c.Stamps = append(c.Stamps, Stamp{s.words.say("Draft"), s.words.say("It is not finished. Do not work by it.")})
	}
	if drafts := s.restsOnDrafts(a); len(drafts) > 0 {
		c.Stamps = append(c.Stamps, Stamp{s.words.say("Rests on a draft"), fmt.Sprintf(s.words.say("Not finished, and not in this edition: %s."), strings.Join(drafts, ", "))})
	}
	if why != "" {
		c.Stamps = append(c.Stamps, Stamp{s.words.say("Not approved"), why})
	}
	if a.Overdue(s.today()) {
		c.Stamps = append(c.Stamps, Stamp{s.words.say("Review overdue"), fmt.Sprintf(s.words.say("It was to be looked at again by %s. Ask whether it still holds."), c.ReviewBy)})
	}
	return c
}

// today is the day of publication.
func (s *site) today() time.Time {
	day, err := time.Parse(time.DateOnly, s.Day)
	if err != nil {
		return time.Time{} // without a day there are no overdue reviews
	}
	return day
}

// Control gives who answers for an article, in the language of the paper.
func (p *Parts) Control(a *manual.Article) Control { return p.s.control(a) }
