package rules

import (
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// aloneIn is what was found in a text by the rules that asked for no other article: a change elsewhere leaves it as it is, so that only the others
// look at the text again. The proof-reader spends most of its time on rules about how a text is written.
type aloneIn struct {
	held  map[int]bool // the rules, by their place in the list of all
	found []finding.Finding
}

// running is the running text of the article that is read, with what reading it has asked.
type running struct {
	text  *runningText
	asked manual.Trace
	used  bool // by the rule that looks just now
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

// proofreadAgain gives the same, and has a rule that asked for no other article look at each text once.
func (p *proof) proofreadAgain(a *manual.Article, all []rule) []finding.Finding {
	p.running = nil
	whole, first := p.Manual, false
	alone := p.memo.foundAlone().Of(whole, a, func(*manual.Manual) *aloneIn {
		first = true
		return &aloneIn{held: map[int]bool{}}
	})
	var list []finding.Finding
	for i := range all {
		look := all[i].at(a)
		if look == nil || alone.held[i] {
			continue
		}
		asked := &manual.Trace{}
		p.Manual = whole.Tracing(asked)
		found := look(p, a)
		if p.running != nil && p.running.used {
			p.Manual.Noted(&p.running.asked)
			p.running.used = false
		}
		if first && asked.Only(a) {
			alone.held[i], alone.found = true, append(alone.found, found...)
			continue
		}
		whole.Noted(asked)
		list = append(list, found...)
	}
	return append(list, alone.found...)
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
