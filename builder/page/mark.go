package page

import (
	"fmt"
	"strings"

	"tankside/builder/edition"
)

// shownOf is what the pages say of an edition: while it is being written nothing that changes with every text.
func shownOf(m edition.Mark) edition.Mark {
	if !m.Draft {
		return m
	}
	return edition.Mark{After: max(m.After, m.Edition), Draft: true}
}

// edition is what stands on every page, card and sheet: number, date and code of the edition, or that it is not entered, or that it is being written.
func (s *site) edition() string { return s.named(shownOf(s.Mark)) }

func (s *site) named(m edition.Mark) string {
	var parts []string
	switch {
	case m.Edition > 0:
		parts = append(parts, fmt.Sprintf("%s %d", s.words.say("Edition"), m.Edition), m.Date)
	case m.Draft && m.After > 0:
		parts = append(parts, fmt.Sprintf(s.words.say("Being written, after edition %s"), fmt.Sprint(m.After)))
	case m.Draft:
		parts = append(parts, s.words.say("Being written"))
	case m.After > 0:
		parts = append(parts, fmt.Sprintf(s.words.say("Not entered, after edition %s"), fmt.Sprint(m.After)))
	default:
		parts = append(parts, s.words.say("Not entered"))
	}
	if m.Code != "" {
		parts = append(parts, m.Code)
	}
	return strings.Join(parts, " · ")
}

// Edition is what stands on every sheet: number, date and code of the edition.
func (p *Parts) Edition() string { return p.s.edition() }
