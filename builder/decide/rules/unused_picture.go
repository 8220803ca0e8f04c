package rules

import (
	"slices"
	"strings"

	"tankside/builder/finding"
)

// unusedPicture finds pictures that no article shows.
// It keeps the edition small, and shows where a picture was forgotten.
var unusedPicture = finding.Rule{
	Name: "unused-picture", Severity: finding.Untidy,
	Finds:  "a picture that no article shows",
	Why:    "It is carried along in every edition for nobody, or an article has lost it.",
	Source: "the manual itself",
}

func findUnusedPictures(p *proof) []finding.Finding {
	if len(p.Pictures) == 0 {
		return nil
	}
	used := make(map[string]bool, len(p.Pictures))
	used[p.Shop.Look.Mark] = true
	articles := slices.AppendSeq(slices.Collect(second(p.Articles)), second(p.Translations))
	for _, a := range articles {
		for _, l := range a.Pictures {
			if to, problem := p.Resolve(a, l.Target); problem == nil && to.Picture != nil {
				used[to.Picture.Path] = true
			}
		}
		for _, l := range a.Links {
			if strings.HasSuffix(l.Target, ".md") {
				continue
			}
			if to, problem := p.Resolve(a, l.Target); problem == nil && to.Picture != nil {
				used[to.Picture.Path] = true
			}
		}
	}
	var list []finding.Finding
	for _, picture := range p.Pictures {
		if !used[picture.Path] {
			list = append(list, unusedPicture.At(finding.Place{File: picture.Path}, "No article shows this picture.", "Show it, or take the file away."))
		}
	}
	return list
}
