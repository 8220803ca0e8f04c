package rules

import (
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// tabled looks for a row of a table that gives a material a bath which the decision refuses: the bath stands alone in a cell under a head such as “bath”, the
// material in the first cell of its row, by any of its names.
func (p *proof) tabled(a *manual.Article, s *sentence.Sentence) *finding.Finding {
	if s.Block.Kind != sentence.Cell || s.Block.First || !bathColumn(s.Block.Column) {
		return nil
	}
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if !bathNamed(s, m) || m.From < 0 || m.From > s.From || len(s.AllWords()) > len(strings.Fields(m.Word))+1 {
			continue
		}
		work := p.workOfRow(a, s.Block.Row)
		if len(work.materials) == 0 {
			continue
		}
		if f := p.putIntoNamed(a, s, m, &work); f != nil {
			return f
		}
	}
	return nil
}

// bathColumn tells whether a column of a table names the bath that is used.
func bathColumn(head string) bool {
	words := strings.FieldsFunc(strings.ToLower(head), func(r rune) bool { return r == ' ' || r == ',' || r == '/' || r == ':' })
	return len(words) > 0 && len(words) < 4 && slices.ContainsFunc(words, func(w string) bool { return bathHeads[w] }) && !slices.ContainsFunc(words, func(w string) bool { return noWords[w] || ills[w] || exceptHeads[w] })
}

// workOfRow gives the material that the first cell of a row calls by one of its names.
func (p *proof) workOfRow(a *manual.Article, row string) spokenOf {
	named := p.called(plainName(row))
	if named == nil || named.Material == nil || named.Partial {
		return spokenOf{}
	}
	return spokenOf{materials: []*manual.Article{named}}
}

var (
	bathHeads   = sentence.Set("bath tank cleaner chemistry wash in use with")
	exceptHeads = sentence.Set("out off test trial after before cause")
)
