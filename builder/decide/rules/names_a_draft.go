package rules

import (
	"fmt"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// namesADraft finds articles that speak of a draft which nobody gets.
// It prevents that an author counts on a page that is not there: a link to it leads to a page that says so, and nothing else is held up by it.
var namesADraft = finding.Rule{
	Name: "names-a-draft", Severity: finding.Untidy,
	Finds:  "a link to a draft that is left out, or a header that names one",
	Why:    "Readers do not get the draft. A link to it leads to a page that says so; a page that was worked out with it says that it rests on a draft.",
	Source: "the draft's own header and the shop file's drafts",
}

func findNamesOfDrafts(p *proof, a *manual.Article) []finding.Finding {
	if p.LeftOut(a) {
		return nil
	}
	var list []finding.Finding
	tell := func(to *manual.Article, at finding.Place, how string) {
		if to != nil && p.LeftOut(to) {
			list = append(list, namesADraft.At(at, fmt.Sprintf("%s “%s”, which is a draft that nobody gets.", how, to.Head.Title), "Finish the draft and take “draft” out of its header, or name something else.", finding.Place{File: to.Path}))
		}
	}
	for _, l := range a.Links {
		if to, problem := p.Resolve(a, l.Target); problem == nil {
			tell(to.Article, l.At, "The text links to")
		}
	}
	if a.Language != "" {
		return list // its header is the original's
	}
	for _, entry := range a.Head.SeeAlso {
		if to, problem := p.Reference(a, entry.Name); problem == nil {
			tell(to, entry.At, "The header points to")
		}
	}
	for kind, ref := range a.References {
		tell(p.Manual.Named(kind, ref.Name), ref.At, "The header names")
	}
	return list
}

// findDraftsInShop does the same for the tanks of the shop file.
func findDraftsInShop(p *proof) []finding.Finding {
	var list []finding.Finding
	for _, t := range p.Shop.Tanks {
		if to := p.Manual.Named(manual.Chemistry, t.Chemistry.Name); to != nil && p.LeftOut(to) {
			list = append(list, namesADraft.At(t.Chemistry.At, fmt.Sprintf("The tank %s holds “%s”, which is a draft that nobody gets.", t.ID, to.Head.Title),
				"Finish the draft before the tank is filled with it, and take “draft” out of its header.", finding.Place{File: to.Path}))
		}
	}
	return list
}
