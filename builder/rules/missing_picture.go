package rules

import (
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// missingPicture finds pictures that are not in the manual.
// It prevents an empty frame where the reader should see what a good foil, film or basket looks like.
var missingPicture = finding.Rule{
	Name: "missing-picture", Severity: finding.Result,
	Finds:  "a picture that is not in the manual",
	Why:    "The reader sees an empty frame; and nothing is loaded from elsewhere, because the page has to work at the tank.",
	Source: "our own limit: an edition loads nothing from elsewhere",
}

func findMissingPictures(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	for _, l := range a.Pictures {
		to, problem := p.Resolve(a, l.Target)
		switch {
		case problem != nil:
			list = append(list, missingPicture.At(l.At, problem.Message, problem.Remedy))
		case to.Outside != "":
			list = append(list, missingPicture.At(l.At, "The picture would be loaded from "+to.Outside+".", "Put a copy into the folder pictures, if you may, and show that."))
		case to.Article != nil:
			list = append(list, missingPicture.At(l.At, "An article is to be shown as a picture.", "Take the exclamation mark away to make it a link."))
		}
	}
	return list
}
