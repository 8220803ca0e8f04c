package rules

import (
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/language"
	"tankside/builder/manual"
)

// messageWithoutHazard finds safety messages that do not say what can happen: “Be careful”, “Read the sheet first”.
// It prevents that people learn to read past signal words. Limit: ANSI Z535.6 has a message identify the hazard, its consequence and how to
// avoid it; a NOTICE is not about injury and is left alone.
var messageWithoutHazard = finding.Rule{
	Name: "message-without-hazard", Severity: finding.People,
	Finds:  "a DANGER, WARNING or CAUTION that names no hazard",
	Why:    "A signal word with nothing behind it teaches people to read past the next one.",
	Source: "ANSI Z535.6: a message identifies the hazard, its consequence and how to avoid it (from memory, to be confirmed by the safety officer)",
}

// hazardous are beginnings of words that name what can hurt.
var hazardous = strings.Fields(`
	burn scald hot heat boil erupt splash steam shock live current volt electric charge mains cut sharp razor edge blade shard glass crush pinch trap fall slip trip heavy weigh
	loud noise hearing pressure pressur burst explo fire flam ignit spark combust gas fume vapour vapor mist dust smoke acid alkali alkaline caustic bleach chlor cyanid sulfid sulphid
	nitrit ammon amine hydrogen fluor solvent poison toxic cancer allerg sensit asthma irrit sting corros blind eye eyes skin lung breath inhal suffocat oxygen drown asbest lead beryll
	cadm chrom pcb mercur radio radiat infect sewage biolog germ blood disease disinfect needle moving rotat chain magnet laser ozone hurt injur kill dead death die wound bruise running hand hands
	finger crack snap break shatter fragment flying compressed vacuum sealed closed battery lithium carbon hoist drop crane lift swing strike bump hit alight glow concentrate swallow drows dizz faint pinch
	cornea flesh tissue destroy sight
	smell wet slipp floor throw panel lock-out out-gas tingle
	harm unborn pregnan fertil genetic organ tumour tumor
	safety-data licensed first-aid freez cold ice pcb`)

// otherSense takes out words that are not meant as a hazard: “the person in charge”, “keep an eye on it”, “the current rules”.
var otherSense = strings.NewReplacer("in charge", "", "at hand", "", "on hand", "", "to hand", "", "hand over", "", "hand it", "", "handbook", "", "an eye on", "", "own eyes", "", "open eyes", "", "shop floor", "", "the break", "", "a break", "", "lead operator", "", "lead hand", "", "concentrate on", "", "in the light of", "",
	"current version", "", "current rule", "", "current edition", "", "current instruction", "", "current sheet", "", "current procedure", "", "current revision", "", "leading", "", "falls under", "", "fall under", "", "safety-first", "", "at short notice", "", "running order", "", "live up", "", "in the heat of", "", "cut corners", "", "cutting corners", "", "take short cuts", "", "short cut", "",
	"meets the eye", "", "eye for", "", "in the eyes of", "", "eyes of the", "", "eye to eye", "", "turn a blind", "", "blind trust", "", "keep your eyes", "", "sharp look", "", "look sharp", "", "keep sharp", "", "on the other hand", "", "hand in hand", "", "first hand", "", "second hand", "", "in good hands", "", "lend a hand", "",
	"firm hand", "", "helping hand", "", "hands-on", "", "hand on heart", "", "up and running", "", "running late", "", "running costs", "", "in the long run", "", "kill time", "", "dead sure", "", "dead serious", "", "dead certain", "", "hot topic", "", "cold feet", "", "cold light", "", "fall back", "", "fall behind", "", "fall short",
	"", "fall in line", "", "falls to", "", "falls within", "", "hard and fast", "", "from scratch", "", "rule of thumb", "", "strike a", "", "hit and miss", "", "time pressure", "", "free of charge", "", "takes charge", "", "take charge", "", "charged with", "", "chain of command", "", "let off steam", "", "in one breath", "",
	"a breather", "", "deep breath", "", "moving on", "", "move on", "", "throw caution", "", "burning question", "", "playing with fire", "", "takes the lead", "", "take the lead", "", "lead to", "", "leads to", "", "lead time", "", "weigh up", "", "weigh your words", "", "carries weight", "", "slip your mind", "", "slip of the", "", "lose sight",
	"", "in sight", "", "closed chapter", "", "case is closed", "", "closed on", "", "closed shop", "", "closed question", "", "closed door", "", "battery of", "")

// harmless are beginnings of words that begin as one that names a hazard does, and name none: a mistake is no mist, a deadline nobody's death.
var harmless = strings.Fields("mistak mistook deadline breakfast breaktime currently gasket organis organiz explor snapshot handy handed handl handover german blindly electrician triple tripod leader heavily sharpen coldly lively livel fired generally headline trapeze concentrating")

// skills are words before “hands” with which it means people.
var skills = map[string]bool{"experienced": true, "trained": true, "skilled": true, "old": true, "practised": true, "instructed": true, "new": true, "all": true}

// The words are English: messages in a manual of another language are not judged.
func findMessagesWithoutHazard(p *proof, a *manual.Article) []finding.Finding {
	if language.General(p.OwnLanguage()) != language.English {
		return nil
	}
	var list []finding.Finding
	for _, s := range a.Signals {
		if s.Word == "NOTICE" || namesHazard(s.Text) {
			continue
		}
		list = append(list, messageWithoutHazard.At(s.At, "This "+s.Word+" does not say what can happen.", "Name the hazard and what it does (burns, blinds, gives off gas …), and how to avoid it; or make it a NOTICE."))
	}
	return list
}

func namesHazard(text string) bool {
	text = otherSense.Replace(strings.ToLower(text))
	before, weak := "", map[string]bool{}
	list := strings.FieldsFunc(text, func(r rune) bool { return !(r >= 'a' && r <= 'z' || r == '-' || strings.ContainsRune(stops, r)) })
	for i, w := range list {
		if ofEquipment(list, i) {
			continue
		}
		w = strings.Trim(w, stops)
		skilled := skills[before]
		before = w
		if slices.ContainsFunc(harmless, func(begin string) bool { return strings.HasPrefix(w, begin) }) || skilled && strings.HasPrefix(w, "hand") { // to handle something is no hand, and an experienced hand is a person
			continue
		}
		if weakly[w] {
			weak[w] = true
			continue
		}
		if slices.ContainsFunc(hazardous, func(begin string) bool {
			return strings.HasPrefix(w, begin) && (len(begin) > 3 || len(w) <= len(begin)+3)
		}) {
			return true
		}
	}
	return len(weak) > 1 || strings.Contains(text, "°")
}

// ofEquipment tells whether the word at a place only says which equipment is meant: “acid-proof gloves”, “a dust mask”, “the fire extinguisher”.
func ofEquipment(list []string, i int) bool {
	for _, end := range []string{"-proof", "-resistant", "-tight"} {
		if strings.HasSuffix(strings.TrimRight(list[i], stops), end) {
			return true
		}
	}
	return i+1 < len(list) && equipmentNouns[strings.TrimRight(list[i+1], stops)] && !strings.ContainsAny(list[i], stops) && !strings.HasSuffix(list[i], "s")
}

// stops are marks behind a word.
const stops = ".,:;!?"

var (
	equipmentNouns = map[string]bool{"mask": true, "masks": true, "gloves": true, "glove": true, "extinguisher": true, "extinguishers": true, "blanket": true, "drill": true, "protection": true, "shield": true, "goggles": true, "kit": true, "detector": true, "apron": true, "officer": true, "sheet": true}
	// weakly are words of things and places of which one alone names no hazard: “wet floor” does, “the panel” does not.
	weakly = map[string]bool{"panel": true, "floor": true, "closed": true, "lift": true, "weigh": true, "concentrate": true, "throw": true, "wet": true, "mains": true}
)
