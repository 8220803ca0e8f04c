package rules

import (
	"fmt"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// missingTranslation finds articles without a translation into a language that the shop wants its manual in.
// It prevents that a reader of that language meets a page in another in the middle of the work, unnoticed by who writes.
// The limit is the shop's own list of languages.
var missingTranslation = finding.Rule{
	Name: "missing-translation", Severity: finding.Untidy,
	Finds:  "an article that is not translated into a language that the shop file names",
	Why:    "Who reads the manual in that language is led to a page in another.",
	Source: "the shop file's translations",
}

func findMissingTranslations(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	for _, wanted := range p.Shop.Translations {
		tag, ok := manual.Language(wanted.Name)
		if ok && !p.isOwn(tag) && p.speaks(tag) && p.In(a, tag) == nil {
			list = append(list, missingTranslation.At(at(a, "title"), fmt.Sprintf("The article has no translation into “%s”.", tag),
				"Write "+translated(a, tag)+", or take the language out of shop.yaml.", wanted.At))
		}
	}
	return list
}
