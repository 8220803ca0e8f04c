package rules

import (
	"tankside/builder/decide/admit"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/tree"
)

// registry lists the rules of this package: those of the page before those of the process.
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
		inManual(misnamedThemeFile, findMisnamedThemeFiles),
		inManual(brokenThemeFile, findBrokenThemeFiles),
		inManual(outdatedThemeFile, findOutdatedThemeFiles),
		inManual(unusedPicture, findUnusedPictures),
		inManual(overfullSheet, findOverfullSheets),
		inManual(duplicateTitle, findDuplicateTitles),
		inManual(orphan, findOrphans),
		inArticle(emptyArticle, findEmptyArticles),
		inManual(brokenGlossaryLink, findGlossaryLinks),
		inArticle(reviewOverdue, findOverdueReviews),
		{Rule: changedSinceApproval, article: findChangedSinceApproval, translation: findChangedSinceApproval},
		{Rule: notApproved, article: findNotApproved, translation: findNotApproved},
		inBoth(namesADraft, findNamesOfDrafts),
		inManual(passedOn, findDraftsInShop),
		{Rule: datesOutOfOrder, article: findDatesOutOfOrder, translation: findFutureApprovals},
		inManual(readingInFuture, findReadingsInFuture),
		inManual(changedWithoutRevision, nil), // compared with an earlier edition
		inManual(replacesNothing, findReplacements),
		inManual(unsaidReplacement, nil),
		inManual(baseMovedOn, nil),
		inManual(messageLostByReplacing, nil),
		inManual(notOfAShop, findNotOfAShop),
		inArticle(vagueSource, findVagueSources),
		inBoth(unknownSource, findUnknownSources),
		inArticle(restsOnNothing, findRestsOnNothing),
		inText(hardToRead, findHardReading),
		{Rule: acceptanceWithoutEffect, article: findAcceptances, translation: findAcceptances},
		inArticle(concessionWithoutEffect, findConcessions),
		inText(calculatorWithoutResult, findCalculatorsWithoutResult),
		inManual(passedOn, findTanksWithoutResult),
		inText(numberAgainstModel, findNumbersAgainstModel),
		inManual(contradictedValue, nil),
		inArticle(implausibleValue, findImplausibleValues),
		inManual(passedOn, findImplausibleShop),
		inArticle(pastedNumber, findPastedNumbers),
		inManual(passedOn, findPastedInGlossary),
		inManual(volumeAgainstSides, findVolumesAgainstSides),
		inText(heatBeyondLimit, findHeatBeyondLimits),
		inText(textAgainstDecision, findTextAgainstDecision),
		inText(linkNamesAnother, findLinksThatNameAnother),
		inText(unmarkedMessage, findUnmarkedMessages),
		inText(messageWithoutHazard, findMessagesWithoutHazard),
		inText(unequalUnits, findUnequalUnits),
		inText(unsaidGallon, findUnsaidGallons),
		inText(wrongSum, findWrongSums),
		inText(listingAgainstModel, findListingsAgainstModel),
		inText(pastedText, findPastedText),
		inText(lostCell, findLostCells),
		inText(waterIntoConcentrate, findWaterIntoConcentrate),
		inText(handsInSound, findHandsInSound),
		inText(neutralisedOnSkin, findNeutralisedOnSkin),
		inText(harmfulHabit, findHarmfulHabits),
		inText(mixedInText, findMixedInText),
		inArticle(unlistedChemistry, findUnlistedChemistries),
		inArticle(otherTankInText, findOtherTanksInText),
		inText(passedOn, findTreeFaults),
		inManual(unknownObservation, findObservationFaults),
		inManual(observationTwice, nil),
		inManual(observationWithoutCause, nil),
		inArticle(causeWithoutSigns, findCausesWithoutSigns),

		inManual(unknownLanguage, findUnknownLanguages),
		inManual(unknownPhrase, findUnknownPhrases),
		inManual(alteredPhrase, findAlteredPhrases),
		inManual(untranslatedWords, findUntranslatedWords),
		inText(missingTranslation, findMissingTranslations),
		inTranslation(translationOfNothing, findTranslationsOfNothing),
		inTranslation(outdatedTranslation, findOutdatedTranslations),
		inTranslation(incompleteTranslation, findIncompleteTranslations),
		inTranslation(otherTree, findOtherTrees),
		inTranslation(lostMessage, findLostMessages),
		inTranslation(numberNotInOriginal, findNumbersNotInOriginal),
		inTranslation(weakerTranslation, findWeakerTranslations),

		inArticle(hazardWithoutMessage, findHazardsWithoutMessage),
		inArticle(hazardWithoutProtection, findHazardsWithoutProtection),
		inManual(protectionTooLittle, findTooLittleProtection),
		inText(passedOn, findTooLittleTold),
		inManual(missingFirstAid, findMissingFirstAid),
		inArticle(firstAidWithoutMeasure, findFirstAidWithoutMeasure),
		inArticle(undeclaredHazard, findUndeclaredHazards),
		inArticle(undeclaredConstituent, findUndeclaredConstituents),
		inArticle(phWithoutWater, findPHWithoutWater),
		inArticle(flashPointAgainstHazard, findFlashPointsAgainstHazard),
		inArticle(undeclaredSubstance, findUndeclaredSubstances),
		inArticle(unnamedEnemy, findUnnamedEnemies),
		inText(undeclaredContent, findUndeclaredContents),
		inArticle(admit.SoilNeedsClearance, findSoilsWithoutClearance),
		inArticle(admit.NeverMeet, findEnemiesInArticle),
		inManual(passedOn, findEnemiesInTanks),
		inManual(removalDisagrees, findDisagreeingRemovals),
		inArticle(hardLastRinse, findHardLastRinses),
		inArticle(silicateBeforeCoating, findSilicateBeforeCoating),
		inArticle(tankTooCold, findColdWashes),
		inManual(passedOn, findColdTanks),
		inManual(tankWarmsItself, findWarmTanks),
		inArticle(washWithoutTime, findWashesWithoutTime),
		inArticle(washWithoutRinse, findWashesWithoutRinse),
		inArticle(unboundedArticle, findUnboundedArticles),

		inArticle(passedOn, findProcessFaults),
		inArticle(passedOn, findWindowFaults),
		inManual(passedOn, findTankFaults),
	}
}

// passedOn stands for rules that are declared elsewhere: in packages tree and admit, or with another check.
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

// All lists every rule of the proof-reader: those of the reader, those for symptom trees, those of this package, and those of the
// decision.
func All() []finding.Rule {
	list := append(manual.Rules(), tree.Rules()...)
	for _, r := range registry() {
		if r.Name != "" {
			list = append(list, r.Rule)
		}
	}
	return append(list, admit.Rules()...)
}

// findTreeFaults passes on what package tree finds; the rules have their names there.
func findTreeFaults(_ *proof, a *manual.Article) []finding.Finding {
	if a.Kind != manual.Symptom {
		return nil
	}
	_, list := tree.Of(a)
	return list
}
