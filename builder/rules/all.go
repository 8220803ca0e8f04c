package rules

import (
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/relate"
	"tankside/builder/tree"
)

// registry lists the rules of this package and of package relate: those of the page before those of the process.
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
		{emptyArticle, findEmptyArticles, nil},
		{brokenGlossaryLink, nil, findGlossaryLinks},
		{reviewOverdue, findOverdueReviews, nil},
		{datesOutOfOrder, findDatesOutOfOrder, nil},
		{vagueSource, findVagueSources, nil},
		{acceptanceWithoutEffect, findAcceptances, nil},
		{calculatorWithoutResult, findCalculatorsWithoutResult, nil},
		{numberAgainstModel, findNumbersAgainstModel, nil},
		{finding.Rule{}, findTreeFaults, nil},

		{hazardWithoutMessage, findHazardsWithoutMessage, nil},
		{hazardWithoutProtection, findHazardsWithoutProtection, nil},
		{undeclaredHazard, findUndeclaredHazards, nil},
		{relate.SoilNeedsClearance, findSoilsWithoutClearance, nil},
		{relate.NeverMeet, findEnemiesInArticle, nil},
		{finding.Rule{}, nil, findEnemiesInTanks},
		{relate.DissimilarMetals, findDissimilarMetals, nil},
		{otherChemistry, findOtherChemistries, nil},
		{soilNotRemoved, findSoilsNotRemoved, nil},
		{removalDisagrees, findDisagreeingRemovals, nil},
		{hardLastRinse, findHardLastRinses, nil},
		{dryerTooHot, findHotDryers, nil},
		{silicateBeforeCoating, findSilicateBeforeCoating, nil},
		{tankTooCold, findColdWashes, nil},
		{finding.Rule{}, nil, findColdTanks},
		{unboundedArticle, findUnboundedArticles, nil},

		{finding.Rule{}, findExcludedMeetings, nil},
		{finding.Rule{}, findExcludedBaths, nil},
		{finding.Rule{}, findMaterialLimits, nil},
		{finding.Rule{}, findChemistryLimits, nil},
		{finding.Rule{}, findSoilWindows, nil},
		{finding.Rule{}, nil, findTankFaults},
	}
}

// All lists every rule of the proof-reader: those of the reader, those for symptom trees, those of this package, and the exclusions and
// limits of package relate.
func All() []finding.Rule {
	list := append(manual.Rules(), tree.Rules()...)
	for _, r := range registry() {
		if r.Name != "" {
			list = append(list, r.Rule)
		}
	}
	for _, e := range relate.Exclusions() {
		list = append(list, e.Rule)
	}
	return append(list, relate.LimitRules()...)
}

// findTreeFaults passes on what package tree finds; the rules have their names there.
func findTreeFaults(_ *proof, a *manual.Article) []finding.Finding {
	if a.Kind != manual.Symptom {
		return nil
	}
	_, list := tree.Of(a)
	return list
}
