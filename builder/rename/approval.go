package rename

import (
	"bytes"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// approvals carries the approvals that hold over to the texts in which something has another name: they say what they said. What of an article itself is said in other
// words, or is not there any more, nobody has approved: without lists the files of which that is so. m is the manual as it would be.
//
// The digest of an approval is of names and addresses too, so it is written anew here, where nothing but names has changed, and nowhere else: an old address alone
// that somebody writes into the file of old addresses makes no other text approved.
func (p *Plan) approvals(m *manual.Manual, without map[string]bool) error {
	for a := range everyArticle(p.m) {
		b := m.At(p.after(a.Path))
		if a.ApprovalState() != manual.Approved || without[a.Path] || b == nil || b.ApprovalState() != manual.ApprovalBroken {
			continue
		}
		if err := p.digest(a, b.DigestFor(a.Head.Approval)); err != nil {
			return err
		}
	}
	return nil
}

// digest writes another digest into the approval of an article.
func (p *Plan) digest(a *manual.Article, now string) error {
	t, err := p.text(a.Path)
	if err != nil {
		return err
	}
	head := t.read[:t.starts[min(a.Start, len(t.starts))-1]]
	was := []byte(a.Head.Approval.Digest)
	if bytes.Count(head, was) != 1 {
		p.refuse(finding.Place{File: a.Path}, "The approval of this article is written in a way that cannot be carried over safely.", "Write it in one line, as tankside approve does.")
		return nil
	}
	at := bytes.Index(head, was)
	p.edit(t, at, at+len(was), now)
	return nil
}
