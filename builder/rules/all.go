package rules

import (
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/tree"
)

// registry lists the rules of this package, those of the page before those of the process.
func registry() []rule {
	return []rule{
		{brokenLink, findBrokenLinks, nil},
		{linkOutOfManual, findLinksOut, nil},
		{unsafeLink, findUnsafeLinks, nil},
		{missingPicture, findMissingPictures, nil},
		{undescribedPicture, findUndescribedPictures, nil},
		{unusedPicture, nil, findUnusedPictures},
		{duplicateTitle, nil, findDuplicateTitles},
		{orphan, nil, findOrphans},
		{reviewOverdue, findOverdueReviews, nil},
		{datesOutOfOrder, findDatesOutOfOrder, nil},
		{vagueSource, findVagueSources, nil},
		{emptyArticle, findEmptyArticles, nil},
		{brokenGlossaryLink, nil, findGlossaryLinks},
		{finding.Rule{}, findTreeFaults, nil},
		{acceptanceWithoutEffect, findAcceptances, nil},
	}
}

// All lists every rule of the proof-reader: those of the reader, those for symptom trees and those of this package.
func All() []finding.Rule {
	list := append(manual.Rules(), tree.Rules()...)
	for _, r := range registry() {
		if r.Name != "" {
			list = append(list, r.Rule)
		}
	}
	return list
}

// findTreeFaults passes on what package tree finds; the rules have their names there.
func findTreeFaults(_ *proof, a *manual.Article) []finding.Finding {
	if a.Kind != manual.Symptom {
		return nil
	}
	_, list := tree.Of(a)
	return list
}
