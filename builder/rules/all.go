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
		inBoth(brokenLink, findBrokenLinks),
		inBoth(linkOutOfManual, findLinksOut),
		inBoth(unsafeLink, findUnsafeLinks),
		inBoth(missingPicture, findMissingPictures),
		inBoth(undescribedPicture, findUndescribedPictures),
		inManual(unshowablePicture, findUnshowablePictures),
		inManual(faintAccent, findFaintAccent),
		inManual(missingMark, findMissingMark),
		inManual(unusedPicture, findUnusedPictures),
		inManual(duplicateTitle, findDuplicateTitles),
		inManual(orphan, findOrphans),
		inArticle(emptyArticle, findEmptyArticles),
		inManual(brokenGlossaryLink, findGlossaryLinks),
		inArticle(reviewOverdue, findOverdueReviews),
		inArticle(datesOutOfOrder, findDatesOutOfOrder),
		inArticle(vagueSource, findVagueSources),
		inText(hardToRead, findHardReading),
		{Rule: acceptanceWithoutEffect, article: findAcceptances, translation: findAcceptances},
		inText(calculatorWithoutResult, findCalculatorsWithoutResult),
		inText(numberAgainstModel, findNumbersAgainstModel),
		inText(heatBeyondLimit, findHeatBeyondLimits),
		inText(textAgainstDecision, findTextAgainstDecision),
		inText(linkNamesAnother, findLinksThatNameAnother),
		inText(unmarkedMessage, findUnmarkedMessages),
		inText(messageWithoutHazard, findMessagesWithoutHazard),
		inText(unequalUnits, findUnequalUnits),
		inText(wrongSum, findWrongSums),
		inText(listingAgainstModel, findListingsAgainstModel),
		inText(pastedText, findPastedText),
		inText(lostCell, findLostCells),
		inText(waterIntoConcentrate, findWaterIntoConcentrate),
		inText(handsInSound, findHandsInSound),
		inText(neutralisedOnSkin, findNeutralisedOnSkin),
		inText(mixedInText, findMixedInText),
		inArticle(unlistedChemistry, findUnlistedChemistries),
		inArticle(otherTankInText, findOtherTanksInText),
		inText(passedOn, findTreeFaults),
		inManual(unknownObservation, findObservationFaults),
		inManual(observationTwice, nil),
		inManual(observationWithoutCause, nil),
		inArticle(causeWithoutSigns, findCausesWithoutSigns),

		inManual(unknownLanguage, findUnknownLanguages),
		inText(missingTranslation, findMissingTranslations),
		inTranslation(translationOfNothing, findTranslationsOfNothing),
		inTranslation(outdatedTranslation, findOutdatedTranslations),
		inTranslation(incompleteTranslation, findIncompleteTranslations),
		inTranslation(otherTree, findOtherTrees),
		inTranslation(lostMessage, findLostMessages),
		inTranslation(numberNotInOriginal, findNumbersNotInOriginal),

		inArticle(hazardWithoutMessage, findHazardsWithoutMessage),
		inArticle(hazardWithoutProtection, findHazardsWithoutProtection),
		inArticle(undeclaredHazard, findUndeclaredHazards),
		inArticle(relate.SoilNeedsClearance, findSoilsWithoutClearance),
		inArticle(relate.NeverMeet, findEnemiesInArticle),
		inManual(passedOn, findEnemiesInTanks),
		inArticle(relate.DissimilarMetals, findDissimilarMetals),
		inArticle(otherChemistry, findOtherChemistries),
		inArticle(soilNotRemoved, findSoilsNotRemoved),
		inArticle(removalDisagrees, findDisagreeingRemovals),
		inArticle(hardLastRinse, findHardLastRinses),
		inArticle(dryerTooHot, findHotDryers),
		inArticle(silicateBeforeCoating, findSilicateBeforeCoating),
		inArticle(tankTooCold, findColdWashes),
		inManual(passedOn, findColdTanks),
		inArticle(unboundedArticle, findUnboundedArticles),

		inArticle(passedOn, findExcludedMeetings),
		inArticle(passedOn, findExcludedBaths),
		inArticle(passedOn, findMaterialLimits),
		inArticle(passedOn, findChemistryLimits),
		inArticle(passedOn, findSoilWindows),
		inManual(passedOn, findTankFaults),
	}
}

// passedOn stands for rules that are declared elsewhere: in packages tree and relate, or with another check.
var passedOn finding.Rule

type articleCheck = func(*proof, *manual.Article) []finding.Finding

func inText(r finding.Rule, check articleCheck) rule    { return rule{Rule: r, text: check} }
func inArticle(r finding.Rule, check articleCheck) rule { return rule{Rule: r, article: check} }
func inTranslation(r finding.Rule, check articleCheck) rule {
	return rule{Rule: r, translation: check}
}
func inBoth(r finding.Rule, check articleCheck) rule {
	return rule{Rule: r, text: check, translation: check}
}
func inManual(r finding.Rule, check func(*proof) []finding.Finding) rule {
	return rule{Rule: r, whole: check}
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
