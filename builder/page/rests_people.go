package page

import (
	"tankside/builder/expression"
	"tankside/builder/manual"
	"tankside/builder/sentence"
	"tankside/builder/workers"
)

// limiting are words by which a sentence with a number says how far something may go, or when something is no longer so.
var limiting = expression.Of(`(?i)\b(?:never|not|no|nobody|only|at most|at least|more than|less than|above|below|over|under|beyond|within|until|up to|or more|or less|and more|limits?|stop|must|ends?|stands?|too|higher|lower|colder|cooler|warmer|hotter|weaker|stronger|shorter|longer|slower|faster|start value|pass)\b|[≤≥<>]`)

// harming are words of what hurts people, or of what keeps them from it.
var harming = expression.Of(`(?i)\b(?:skin|eyes?|hands?|fingers?|forearms?|breath\w*|lungs?|kidneys?|nerves?|blood|burns?|burnt skin|scald\w*|vapours?|gas|gases|fumes?|flames?|flammable|flash|ignit\w*|sparks?|explo\w+|poison\w*|toxic|doctor|hospital|ambulance|first aid|gloves?|goggles|face shield|hearing|ears|ear muffs|muffs|exposures?|swallow\w*|shocks?|lock-out|volts?|legionella|cancer|allerg\w*|asthma|sensitis\w*|asbestos|cyanide|sulfide|sulphide|chlorine|hydrogen|nitrite|mercury|lead dust|beryllium|cadmium|chromate|radioactiv\w*|ventilat\w*|exhaust|inhal\w*|irritat\w*|rescue\w*|bursts?|spits?|sprays?|splash\w*|boils? (?:up|over)|runs? over|overfill\w*|caustic|corrosive|cut-out|collapse[sd]?|confined space|attendant|subharmonics|dose-rate)\b|\bdB\b|\bppm\b|[mµ]g/m³|\bH[23]\d\d\b`)

// withoutHarm are words with those of harming in them that have nothing to do with it.
var withoutHarm = expression.Of(`(?i)\bhand(?:-held|-warm|[- ]thermometer| over\b)|\b(?:in|by) hand\b|\bcotton gloves\b|\bdry glove\b|\bmanganese sulph?ide\b|\blooks at the hands\b|\bshort bursts\b|\ba good splash\b`)

func harms(text string) bool { return harmful(text) }

// harmful remembers the sentences of a large manual, which every edition asks for.
var harmful = workers.Remember(20_000, func(text string) bool { return harming.MatchString(withoutHarm.ReplaceAllString(text, " ")) })

// decides tells whether a sentence with a number says a limit, or is about what hurts; in a safety message each does. In another language than
// English, of which these words are, each counts.
func decides(text, signal string, english bool) bool {
	return sentence.HasAmount(text) && (signal != "" || !english || limiting.MatchString(text) || harms(text))
}

// hurtsPeople tells whether people hang on a sentence: it stands in a message of a degree of harm to people, or its words say so.
func hurtsPeople(text, signal string, english bool) bool {
	switch signal {
	case "":
		return !english || harms(text)
	case "NOTICE":
		return harms(text) && english
	}
	return true
}

// peopleKeys are the keys of a header whose values people hang on; the others are about parts and baths.
var peopleKeys = map[manual.Kind][]string{
	manual.Soil:      {"may-contain"},
	manual.Chemistry: {"ph", "ceiling", "flash-point", "contains", "hazards", "protective-equipment", "never-with"},
	manual.Procedure: {"hazards", "protective-equipment"},
}

// ofPeople tells whether people hang on the value of a key.
func ofPeople(kind manual.Kind, key string) bool {
	for _, k := range peopleKeys[kind] {
		if k == key {
			return true
		}
	}
	return false
}
