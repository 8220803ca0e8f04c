package rules

import (
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// translationOfNothing finds translations beside which there is no original.
// It prevents that a text is kept up, or believed to be published, whose facts nobody can look up: a translation has none of its own.
// The limit is the manual's format: the original has the same name without the language tag.
var translationOfNothing = finding.Rule{
	Name: "translation-of-nothing", Severity: finding.Result,
	Finds:  "a translation of an article that is not there",
	Why:    "It is not published: all facts of a translation are the original's, and there are none.",
	Source: "the manual's format",
}

func findTranslationsOfNothing(p *proof, t *manual.Article) []finding.Finding {
	if t.Original != nil {
		return nil
	}
	folder := t.Path[:strings.LastIndexByte(t.Path, '/')+1]
	original := folder + t.Name + ".md"
	if p.Refused(original) {
		return nil // what is wrong with the original has been said
	}
	var names []string
	for _, a := range p.Articles {
		if strings.HasPrefix(a.Path, folder) {
			names = append(names, a.Name)
		}
	}
	remedy := "Write the original, or take the translation away."
	if near := manual.Nearest(t.Name, names); near != "" {
		remedy = "Is it the translation of " + near + ".md? Then rename it to " + near + strings.TrimPrefix(t.Path, folder+t.Name) + ". Otherwise: w" + strings.TrimPrefix(remedy, "W")
	}
	return []finding.Finding{translationOfNothing.At(finding.Place{File: t.Path, Line: 1, Column: 1}, "There is no "+original+" that this could be a translation of.", remedy)}
}
