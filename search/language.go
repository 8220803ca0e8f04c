package search

import (
	"strings"

	"github.com/blevesearch/snowballstem"
	"github.com/blevesearch/snowballstem/english"
	"github.com/blevesearch/snowballstem/german"
	"github.com/blevesearch/snowballstem/spanish"
)

// englishTag is the language of documents that name none.
const englishTag = "en"

// A language is how words are read: which carry no meaning, and what those of
// one family share. A language that is not known has its words folded, no more.
type language struct {
	stop      map[string]bool
	irregular map[string]string   // forms that no ending gives away, to the word they are a form of
	spelling  func(string) string // one spelling for a word that has several
	stem      func(*snowballstem.Env) bool
	after     func(stem string) string
	intents   []intent
}

var languages = map[string]*language{
	englishTag: {stop: stop, irregular: irregular, spelling: oneSpelling, stem: english.Stem, after: withoutY, intents: intents},
	"de":       {stop: stopGerman, stem: german.Stem, intents: intentsGerman},
	"es":       {stop: stopSpanish, spelling: accented, stem: spanish.Stem, after: oneConsonant, intents: intentsSpanish},
}

var unknownLanguage = &language{}

// languageOf is the language of a BCP 47 tag: of es-MX what is known of es.
func languageOf(tag string) *language {
	general, _, _ := strings.Cut(strings.ToLower(tag), "-")
	if general == "" {
		general = englishTag
	}
	if l := languages[general]; l != nil {
		return l
	}
	return unknownLanguage
}

// stemOf cuts a folded word down.
func (l *language) stemOf(word string, env *snowballstem.Env) string {
	base, ok := l.irregular[word]
	if !ok && l.spelling != nil {
		base = l.spelling(word)
	} else if !ok {
		base = word
	}
	if l.stem == nil {
		return base
	}
	env.SetCurrent(base)
	l.stem(env)
	stem := strings.Clone(env.Current())
	if l.after != nil {
		stem = l.after(stem)
	}
	return stem
}

// accented gives Spanish words that folding took the accent from the one by
// which the stemmer knows the ending: it takes -ación off, and not -acion.
func accented(word string) string {
	if len(word) > 5 && (strings.HasSuffix(word, "cion") || strings.HasSuffix(word, "sion")) {
		return word[:len(word)-2] + "ón"
	}
	return word
}

// oneConsonant writes the last sound of a stem in one way: "desgasifique" is a
// form of "desgasificar", "enjuague" of "enjuagar", "alcance" of "alcanzar".
func oneConsonant(stem string) string {
	for _, pair := range [...][2]string{{"qu", "c"}, {"gu", "g"}, {"z", "c"}} {
		if before, is := strings.CutSuffix(stem, pair[0]); is && len(before) > 2 {
			return before + pair[1]
		}
	}
	return stem
}

// stopSpanish are the words of Spanish that carry no meaning in a question of
// the trade, folded. "no", "sin", "sobre", "bajo" and "muy" do and stay.
var stopSpanish = func() map[string]bool {
	m := map[string]bool{}
	for _, word := range strings.Fields(`el la los las un una unos unas lo al del de y e o u a en con por para que
		se me te le les nos mi mis tu tus su sus este esta estos estas ese esa esos esas esto eso
		es son era eran fue ser esta estan estaba estar ha han he hay haber hago hace hacer hacen hecho
		yo usted ustedes ellos ellas el ella como cuando donde cual cuales quien cuanto cuanta cuantos cuantas
		si pero mas tan tanto ya aun tambien solo asi entonces porque pues debo debe deben puedo puede pueden quiero necesito tengo tiene tienen
		uso usar usa usan hacemos cosa cosas algo todo toda todos todas otro otra otros otras cada`) {
		m[word] = true
	}
	return m
}()

// stopGerman are the words of German that carry no meaning in a question of the
// trade, folded. "nicht", "kein", "ohne", "uber", "unter" and "zu" do and stay.
var stopGerman = func() map[string]bool {
	m := map[string]bool{}
	for _, word := range strings.Fields(`der die das den dem des ein eine einen einem einer eines und oder aber auch als an am auf aus bei beim
		bis da damit dann dass denn dies diese dieser dieses diesen diesem doch dort du durch er es fur gegen gibt hat habe haben hier ich ihr ihre ihren im in ins
		ist ja je jede jeder jedes jetzt kann konnen man mein meine meinen mir mich mit mussen muss nach noch nur ob sein seine sich sie sind so soll sollen sollte
		uns unser unsere vom von vor war warum was weil welche welcher welches wenn wer werden wie wieder wird wir wo wohl zum zur euer
		mache machen macht tun tut gemacht bitte alle alles etwas ganz sehr schon immer mal dabei davon daran darauf dazu`) {
		m[word] = true
	}
	return m
}()
