package rules

import (
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// undescribedPicture finds pictures without a description.
// It prevents that people who cannot see the picture, or whose tablet has not loaded it, miss what it shows.
// The limit is WCAG 2.2, success criterion 1.1.1.
var undescribedPicture = finding.Rule{
	Name: "undescribed-picture", Severity: finding.Result,
	Finds:  "a picture without a description, or with its file name for one",
	Why:    "Whoever cannot see the picture misses what it shows, and the search does not find it.",
	Source: "WCAG 2.2, success criterion 1.1.1",
}

func findUndescribedPictures(_ *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	for _, l := range a.Pictures {
		text := strings.TrimSpace(l.Text)
		if text == "" || strings.HasSuffix(l.Target, text) {
			list = append(list, undescribedPicture.At(l.At, "The picture "+l.Target+" has no description.", "Say between the square brackets what it shows: ![Rings where drops have dried](../pictures/rings.svg)"))
		}
	}
	return list
}
