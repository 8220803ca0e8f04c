package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// hazardWithoutMessage finds hazards to people that the header declares and that no safety message of the text names, or none that is grave
// enough: of chemistries and procedures the hazard codes, what gives off gas with what never-with names, hydrogen from caustic on light metals,
// and of soils what they may contain. It prevents that somebody handles a corrosive or flammable liquid from a page whose only warning is about
// a wet floor.
// Limit: ANSI Z535.6 (signal words by consequence; a message identifies the hazard); UN GHS Annex 3 (hazard statements). Codes of the graver
// sort have to be named in a DANGER or WARNING, those of harm that stays in a message of any grade; of what irritates or is harmful a message is enough.
var hazardWithoutMessage = finding.Rule{
	Name: "hazard-without-message", Severity: finding.People,
	Finds:  "a hazard to people in the header that no safety message of that gravity in the text names",
	Why:    "The codes in the header are read by nobody at the tank; the message with its signal word is.",
	Source: "ANSI Z535.6 for signal words and what a message names, UN GHS Annex 3 for hazard statements (from memory, to be confirmed by the safety officer)",
}

// grave are the hazards that can kill or do lasting harm: they take at least a WARNING.
var grave = strings.Fields(`
	H200 H201 H202 H203 H204 H205 H220 H221 H222 H223 H224 H225 H226 H228 H240 H241 H242 H250 H251 H260 H261 H270 H271 H272
	H300 H301 H304 H310 H311 H314 H318 H330 H331 H334 H340 H341 H350 H351 H360 H361 H370 H372`)

// hurtsPeople tells that a code is not about metals or the environment alone.
func hurtsPeople(code string) bool { return code != "H290" && !strings.HasPrefix(code, "H4") }

// A namedHazard is a hazard with the beginnings of words of which one has to stand in a message that names it.
type namedHazard struct {
	what  string
	words []string
}

var (
	byFire    = namedHazard{"fire", strings.Fields("fire flam ignit lit light lights lighted lighter combust explo spark flash blaze")}
	bySwallow = namedHazard{"what it does when swallowed", strings.Fields("swallow drink drunk mouth poison toxic lung siphon eat ingest harm")}
	bySkin    = namedHazard{"what it does to skin", strings.Fields("skin burn corros irrit sting hand dermat rash allerg")}
	byBreath  = namedHazard{"what it does to those who breathe it", strings.Fields("breath inhal lung airway fume vapour vapor gas mist nose cough asthma chest kill smell dust drows dizz")}
	byEyes    = namedHazard{"the eyes", strings.Fields("eye eyes blind sight vision goggles")}
	byBurns   = namedHazard{"burns of skin and eyes", strings.Fields("burn burns corros eats blind blinds caustic eye eyes")}
	byAllergy = namedHazard{"allergy of the skin", strings.Fields("allerg rash dermat eczema sensit skin")}
	byGenes   = namedHazard{"genetic defects", strings.Fields("genetic heredit mutat gene")}
	byCancer  = namedHazard{"cancer", strings.Fields("cancer carcino tumour tumor")}
	byBirth   = namedHazard{"harm to fertility or to unborn children", strings.Fields("unborn pregnan fertil child")}
	byOrgans  = namedHazard{"lasting harm to the body", strings.Fields("organ kidney liver nerve blood lung brain cancer unborn child gene fertil damage harm poison tox")}
)

// hazardNames are what the codes are about, the words from UN GHS Annex 3 and plain English for them.
var hazardNames = map[string]namedHazard{
	"H300": bySwallow, "H301": bySwallow, "H302": bySwallow, "H304": bySwallow, "H310": bySkin, "H311": bySkin, "H312": bySkin,
	"H314": byBurns, "H318": byEyes, "H319": byEyes, "H330": byBreath, "H331": byBreath, "H332": byBreath, "H334": {"asthma and allergy by breathing it", strings.Fields("asthma allerg breath inhal sensit chest")},
	"H315": bySkin, "H317": byAllergy, "H335": byBreath, "H336": byBreath, "H320": byEyes, "H373": byOrgans,
	"H340": byGenes, "H341": byGenes, "H350": byCancer, "H351": byCancer, "H360": byBirth, "H361": byBirth, "H370": byOrgans, "H372": byOrgans,
}

func hazardName(code string) (namedHazard, bool) {
	if n, ok := hazardNames[code]; ok {
		return n, true
	}
	if strings.HasPrefix(code, "H2") && code != "H290" && code != "H280" && code != "H281" {
		return byFire, true
	}
	return namedHazard{}, false
}

// constituentNames are the words for what a soil may contain.
var constituentNames = map[string][]string{
	"asbestos": {"asbest"}, "lead": {"lead"}, "beryllium": {"beryll"}, "cadmium": {"cadm"}, "chromate": {"chrom"}, "pcb": {"pcb", "biphenyl", "transformer"},
	"radioactive": {"radio", "radiat"}, "biological": {"biolog", "infect", "germ", "blood", "sewage", "bacter", "disease", "sick", "pathogen", "virus"},
	"cyanide": {"cyanid"}, "sulfide": {"sulfid", "sulphid"}, "mercury": {"mercur"}, "nitrite": {"nitrit"},
}

// thatStays are codes of harm that stays, or comes without notice, below the gravest: what starts an allergy, runs into the lungs, makes drowsy, or may harm genes,
// children or organs.
var thatStays = strings.Fields("H304 H317 H336 H341 H351 H361 H373")

// alikeOnly are beginnings of words that begin as one for a hazard does and are about something else: a litre is nothing lit, a mistake no mist, a generator no gene.
var alikeOnly = strings.Fields("litr liter littl lightl mistak mistook gener organis organiz handl handed handover handy explor flashl")

// names tells whether a message of one of the signal words has a word that begins with one of the given.
func names(a *manual.Article, words []string, signals ...string) bool {
	for _, s := range a.Signals {
		if !slices.Contains(signals, s.Word) {
			continue
		}
		for w := range strings.FieldsFuncSeq(strings.ToLower(s.Text), func(r rune) bool { return !(r >= 'a' && r <= 'z') }) {
			if slices.ContainsFunc(words, func(begin string) bool { return strings.HasPrefix(w, begin) && !(begin == "lead" && len(w) > 4) }) && !slices.ContainsFunc(alikeOnly, func(begin string) bool { return strings.HasPrefix(w, begin) }) {
				return true
			}
		}
	}
	return false
}

func findHazardsWithoutMessage(p *proof, a *manual.Article) []finding.Finding {
	codes, from := hazardsOf(a)
	for _, code := range codes {
		is, known := hazardName(code.Name)
		statement := manual.HazardStatements[code.Name]
		switch {
		case slices.Contains(grave, code.Name) && !signalled(a, "DANGER", "WARNING"):
			return []finding.Finding{hazardWithoutMessage.At(code.At, fmt.Sprintf("%s has the hazard %s, “%s”, and the text has no DANGER or WARNING.", from, code.Name, statement),
				"Add a block quote that begins with **WARNING** (or **DANGER**): what can happen, how to avoid it, and “follow the safety data sheet and local codes”.")}
		case hurtsPeople(code.Name) && !signalled(a, "DANGER", "WARNING", "CAUTION"):
			return []finding.Finding{hazardWithoutMessage.At(code.At, fmt.Sprintf("%s has the hazard %s, “%s”, and the text has no safety message.", from, code.Name, statement),
				"Add a block quote that begins with **CAUTION**: what can happen, how to avoid it, and “follow the safety data sheet and local codes”.")}
		case known && slices.Contains(grave, code.Name) && !names(a, is.words, "DANGER", "WARNING"):
			return []finding.Finding{hazardWithoutMessage.At(code.At, fmt.Sprintf("%s has the hazard %s, “%s”, and no DANGER or WARNING of the text names %s.", from, code.Name, statement, is.what),
				"Say in a DANGER or WARNING what can happen, in plain words, and how to avoid it.")}
		case known && slices.Contains(thatStays, code.Name) && !names(a, is.words, "DANGER", "WARNING", "CAUTION"):
			return []finding.Finding{hazardWithoutMessage.At(code.At, fmt.Sprintf("%s has the hazard %s, “%s”, and no safety message of the text names %s.", from, code.Name, statement, is.what),
				"Say in a safety message what can happen, in plain words, and how to avoid it.")}
		}
	}
	switch {
	case a.Soil != nil && signalled(a, "DANGER", "WARNING"): // of one without, soil-needs-clearance speaks
		return p.unnamedConstituents(a)
	case a.Chemistry != nil:
		return unnamedMeetings(a)
	}
	return nil
}

// unnamedConstituents finds what a soil may contain and no message names.
func (p *proof) unnamedConstituents(a *manual.Article) []finding.Finding {
	var list []finding.Finding
	for _, may := range a.Soil.MayContain {
		if !names(a, wordsOf(may), "DANGER", "WARNING") {
			list = append(list, hazardWithoutMessage.At(may.At, fmt.Sprintf("This soil may contain %s, and no DANGER or WARNING of the text names it.", spokenName(may)),
				"Add a block quote that begins with **DANGER** or **WARNING** and names it: what it does, and to stop and call the safety officer."))
		}
	}
	return list
}

// wordsOf are the words by which a text names what a soil may contain.
func wordsOf(constituent manual.Ref) []string {
	if words := constituentNames[constituent.Name]; words != nil {
		return words
	}
	return []string{strings.ToLower(constituent.Name)}
}

func spokenName(constituent manual.Ref) string { return strings.ReplaceAll(constituent.Name, "-", " ") }

// unnamedMeetings finds gas from what a chemistry must never meet, and hydrogen from caustic, where no message names them.
// Gas: the pairs of never-meet. Hydrogen: as strong-alkali-on-light-metal.
func unnamedMeetings(a *manual.Article) []finding.Finding {
	contains := func(word string) bool {
		return slices.ContainsFunc(a.Chemistry.Contains, func(r manual.Ref) bool { return r.Name == word })
	}
	gas := append(slices.Clone(byBreath.words), "bleach", "hypochlor", "chlor", "cyanid", "sulfid", "nitrit")
	for _, never := range a.Chemistry.NeverWith {
		switch never.Name {
		case "hypochlorite", "cyanide", "sulfide", "nitrite":
			if (contains("acid") || contains("ammonia") && never.Name == "hypochlorite") && !names(a, gas, "DANGER", "WARNING") {
				return []finding.Finding{hazardWithoutMessage.At(never.At, fmt.Sprintf("With %s this chemistry gives off gas that kills, and no DANGER or WARNING of the text names it.", never.Name),
					"Say in a DANGER with what it must never meet, and that the gas kills.")}
			}
		}
	}
	if contains("free-caustic") && !names(a, []string{"hydrogen", "aluminium", "aluminum", "zinc"}, "DANGER", "WARNING") {
		return []finding.Finding{hazardWithoutMessage.At(at(a, "contains"), "Free caustic on aluminium or zinc gives off hydrogen, which explodes, and no DANGER or WARNING of the text names it.",
			"Say in a WARNING: no aluminium, no zinc; they give off hydrogen.")}
	}
	return nil
}

// hazardsOf gives the hazards that an article declares, and how to name their owner in a sentence.
func hazardsOf(a *manual.Article) ([]manual.Ref, string) {
	switch {
	case a.Chemistry != nil:
		return a.Chemistry.Hazards, "This chemistry"
	case a.Procedure != nil:
		return a.Procedure.Hazards, "This procedure"
	}
	return nil, ""
}
