package rules

import (
	"regexp"
	"strings"
	"sync"
)

// protection is something that people wear or need at hand, and what passes for it in another language.
type protection struct {
	said, means *regexp.Regexp
	begins      string // what every match of said begins with, lower case; "" where matches begin in several ways
}

// in gives the words that name the protection in a text, which is also given in lower case: most texts name none, and looking for letters is quick.
func (p *protection) in(text, lower string) string {
	if !strings.Contains(lower, p.begins) {
		return ""
	}
	return p.said.FindString(text)
}

// protectionWords are told apart where a looser word protects less: “gafas”, “Schutzbrille” or “lunettes” alone are spectacles, and lye runs behind them.
// They are the words of catalogues and safety data sheets, by language: common practice, no source.
var protectionWords = []map[string]string{
	{"en": `\bgoggles\b`, "es": `gafas (?:herméticas|panorámicas|estancas|cerradas|químicas|antisalpicaduras|de protección química)`,
		"de": `korbbrille|vollsichtbrille|chemikalien\pL*brille|(?:dicht ?schließende|geschlossene)n? (?:schutz)?brille`,
		"fr": `lunettes[- ]masques?|masques? oculaires?|lunettes (?:étanches|fermées|de protection chimique)`, "it": `occhiali (?:a maschera|a mascherina|a tenuta|ermetici)`,
		"pt": `óculos (?:herméticos|panorâmicos|estanques|de ampla visão|químicos)`, "nl": `ruimzichtbril|zuurbril|gesloten (?:veiligheids)?bril`, "pl": `gogle|goglach|gogli`},
	{"en": `\bface shields?\b`, "es": `careta|visera|(?:pantalla|protector) facial`, "de": `gesichtsschutz|schutzschild|visier`, "fr": `écrans? facia|visière`,
		"it": `visiera|scherm[oi] faccial`, "pt": `viseira|(?:protetor|escudo) facial`, "nl": `gelaats(?:scherm|bescherm)`, "pl": `osłon\pL+ twarzy|przyłbic`},
	{"en": `\bgloves\b`, "es": `guantes`, "de": `handschuh`, "fr": `gants`, "it": `guanti`, "pt": `luvas`, "nl": `handschoen`, "pl": `rękawic`},
	{"en": `\baprons?\b`, "es": `delantal|mandil`, "de": `schürze`, "fr": `tablier`, "it": `grembiul`, "pt": `avental`, "nl": `schort`, "pl": `fartuch`},
	{"en": `\bboots\b`, "es": `botas`, "de": `stiefel`, "fr": `bottes`, "it": `stivali`, "pt": `botas`, "nl": `laarzen`, "pl": `obuwi|buty|kalosz`},
	{"en": `\beyewash\b`, "es": `duchas? de ojos|lavaojos`, "de": `augendusche|augenspül`, "fr": `rince-(?:œil|oeil)|lave-(?:œil|oeil)|douche oculaire`, "it": `lavaocchi|doccia oculare`,
		"pt": `lava-olhos`, "nl": `oogdouche`, "pl": `płuka\pL+ ocz|oczomyj`},
}

// protectionsBetween gives what is told apart between two languages. The pairs are made when they are first asked for, and kept.
func protectionsBetween(from, to string) []protection {
	pair := [2]string{from, to}
	if made, known := protectionPairs.Load(pair); known {
		return made.([]protection)
	}
	var list []protection
	for _, words := range protectionWords {
		if said, means := words[from], words[to]; said != "" && means != "" && from != to {
			begins, _ := regexp.MustCompile(strings.TrimPrefix(said, `\b`)).LiteralPrefix()
			list = append(list, protection{regexp.MustCompile(`(?i)` + said), regexp.MustCompile(`(?i)` + means), begins})
		}
	}
	protectionPairs.Store(pair, list)
	return list
}

var protectionPairs sync.Map // of [2]string, to []protection
