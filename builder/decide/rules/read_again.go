package rules

import (
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// before is what is known of a text that has been proof-read: what each rule found, and what it asked of other articles for that. Where something changes
// elsewhere, those rules alone look at the text again that asked for it.
type before struct {
	looks []look       // by the rules' places in the list of all
	text  *runningText // once the text was read again: what is read but once, as most texts are, is not worth the room
	again bool
}

// look is what one rule found in one text.
type look struct {
	done  bool
	found []finding.Finding
	asked *manual.Trace // nil: for nothing but the text
}

// read gives what is found in a text, now or before.
func (p *proof) read(a *manual.Article, all []rule) []finding.Finding {
	return p.memo.foundIn().Of(p.Manual, a, func(m *manual.Manual) []finding.Finding {
		p := *p
		p.Manual = m
		if p.memo == nil {
			return p.proofread(a, all)
		}
		return p.proofreadAgain(a, all)
	})
}

// proofread applies the rules that look at one article, or at one translation.
func (p *proof) proofread(a *manual.Article, all []rule) []finding.Finding {
	p.running = nil
	var list []finding.Finding
	for i := range all {
		if look := all[i].at(a); look != nil {
			list = append(list, look(p, a)...)
		}
	}
	return list
}

// proofreadAgain gives the same, by those rules alone for which the manual answers otherwise than before.
func (p *proof) proofreadAgain(a *manual.Article, all []rule) []finding.Finding {
	whole := p.Manual
	known := p.memo.foundBefore().Of(whole, a, func(*manual.Manual) *before { return &before{looks: make([]look, len(all))} })
	p.running = known.text
	var list []finding.Finding
	for i := range all {
		looks, l := all[i].at(a), &known.looks[i]
		if looks == nil {
			continue
		}
		if !l.done || l.asked != nil && !l.asked.Holds(whole) {
			asked := &manual.Trace{}
			p.Manual = whole.Tracing(asked)
			*l = look{true, looks(p, a), asked}
			if asked.Only(a) {
				l.asked = nil
			}
		}
		if l.asked != nil {
			whole.Noted(l.asked)
		}
		list = append(list, l.found...)
	}
	if known.again {
		known.text = p.running
	}
	known.again = true
	return list
}

// at gives what a rule looks at an article with, or nil where it does not look at such a one.
func (r *rule) at(a *manual.Article) func(*proof, *manual.Article) []finding.Finding {
	switch {
	case a.Language != "":
		return r.translation
	case r.text != nil:
		return r.text
	case r.article != nil && !a.Partial:
		return r.article
	}
	return nil
}
