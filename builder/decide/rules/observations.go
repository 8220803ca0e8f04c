package rules

import (
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// unknownObservation finds remedies that speak of an observation that no symptom declares.
// It prevents that a sign does not count because it is worded in two ways.
var unknownObservation = finding.Rule{
	Name: "unknown-observation", Severity: finding.Result,
	Finds:  "an observation in “Seen with.” that no symptom's header declares, or one that is named twice there",
	Why:    "Nobody can tick it, so it does not count when causes are ranked by what is seen.",
	Source: "the manual's format",
}

// observationTwice finds two declarations of one observation.
var observationTwice = finding.Rule{
	Name: "observation-twice", Severity: finding.Result,
	Finds:  "an observation that is declared twice",
	Why:    "The reader would tick one of the two, and remedies would speak of the other.",
	Source: "the manual's format",
}

// observationWithoutCause finds observations that no remedy names.
// It prevents a question whose answer changes nothing.
var observationWithoutCause = finding.Rule{
	Name: "observation-without-cause", Severity: finding.Untidy,
	Finds:  "an observation that no remedy names in its “Seen with.” paragraph",
	Why:    "People would look for it, and what they see would speak for no cause.",
	Source: "the manual itself",
}

// causeWithoutSigns finds remedies, of symptoms that declare observations, that do not say how their cause shows and how common it is.
// It prevents that a cause is ranked as if nothing were known of it. A weight before anything is seen is what Bayes' theorem needs.
var causeWithoutSigns = finding.Rule{
	Name: "cause-without-signs", Severity: finding.Result,
	Finds:  "a remedy that does not say with what its cause is seen and how common it is, in a symptom that declares observations",
	Why:    "Its cause could not be ranked beside the others, and would be overlooked where several things are seen at once.",
	Source: "Bayes' theorem: without prior and likelihoods there is no posterior",
}

// declared gives every observation of the manual by its words, the first declaration of each.
func (p *proof) declared() map[string]*manual.Observation {
	all := map[string]*manual.Observation{}
	for _, a := range p.Articles {
		if a.Symptom == nil {
			continue
		}
		for i := range a.Symptom.Observations {
			o := &a.Symptom.Observations[i]
			if key := manual.SameObservation(o.Seen); key != "" && all[key] == nil {
				all[key] = o
			}
		}
	}
	return all
}

// findObservationFaults compares what remedies name with what headers declare. Where a header could not be read nobody knows what it
// declares, and nothing is said.
func findObservationFaults(p *proof) []finding.Finding {
	all := p.declared()
	words := make([]string, 0, len(all))
	for _, a := range p.Articles {
		if a.Kind == manual.Symptom && a.Partial {
			return nil
		}
	}
	for _, o := range all {
		words = append(words, o.Seen)
	}
	slices.Sort(words)

	var list []finding.Finding
	named := map[string]bool{}
	for _, a := range p.Articles {
		for i := range a.Sections {
			signs := a.Sections[i].Signs
			if signs == nil {
				continue
			}
			here := map[string]finding.Place{}
			for _, s := range signs.Seen {
				key := manual.SameObservation(s.Observation.Name)
				if before, twice := here[key]; twice {
					list = append(list, unknownObservation.At(s.Observation.At, "The observation “"+s.Observation.Name+"” is named twice here.", "Keep one of the two.", before))
					continue
				}
				here[key] = s.Observation.At
				if all[key] == nil {
					list = append(list, unknownObservation.At(s.Observation.At, "No symptom declares the observation “"+s.Observation.Name+"”.", meant(s.Observation.Name, words)))
				}
				named[key] = true
			}
		}
	}
	for _, a := range p.Articles {
		if a.Symptom == nil {
			continue
		}
		for i := range a.Symptom.Observations {
			o := &a.Symptom.Observations[i]
			switch key := manual.SameObservation(o.Seen); {
			case key == "": // reported as missing
			case all[key] != o:
				list = append(list, observationTwice.At(o.At, "The observation “"+o.Seen+"” is declared before.", "Take one of the two out; remedies of any symptom may name it.", all[key].At))
			case !named[key]:
				list = append(list, observationWithoutCause.At(o.At, "No remedy names the observation “"+o.Seen+"”.", "Name it in the “Seen with.” paragraph of the remedies whose cause it goes with, or take it out."))
			}
		}
	}
	return list
}

func findCausesWithoutSigns(_ *proof, a *manual.Article) []finding.Finding {
	if a.Symptom == nil || len(a.Symptom.Observations) == 0 {
		return nil
	}
	var list []finding.Finding
	const remedy = "Add a paragraph: **Seen with.** Typical: …; …. As a cause: sometimes."
	signs := map[int]*manual.Signs{} // by the remedy's section, sub-sections included
	remedyAt := -1
	for i := range a.Sections {
		s := &a.Sections[i]
		if s.Level == 2 {
			remedyAt = -1
			if len(s.Answers) == 0 && len(s.Unlinked) == 0 {
				remedyAt = i
				signs[i] = nil
			}
		}
		if remedyAt >= 0 && s.Signs != nil {
			signs[remedyAt] = s.Signs
		}
	}
	for i := range a.Sections {
		found, isRemedy := signs[i]
		switch s := &a.Sections[i]; {
		case !isRemedy:
		case found == nil:
			list = append(list, causeWithoutSigns.At(s.At, "The remedy “"+s.Heading+"” does not say with what its cause is seen.", remedy))
		case found.Common == "":
			list = append(list, causeWithoutSigns.At(found.At, "The paragraph does not say how common the cause is.", "Add the sentence: As a cause: sometimes."))
		case len(found.Seen) == 0:
			list = append(list, causeWithoutSigns.At(found.At, "The paragraph names no observation.", remedy))
		}
	}
	return list
}
