package rules

import (
	"cmp"
	"iter"
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode"

	"tankside/builder/language"
)

// tongue is what a language has for amounts in running text and for forbidding: words between the ends of a range, units, numbers, denials.
type tongue struct {
	ranges  string // words between two ends, parted by strokes
	units   string // words for units: name: words, parted by semicolons
	numbers string // words for numbers: number: words
	denies  string // words that forbid or deny, parted by strokes; see denials
}

// tongues are the languages whose amounts are compared in running text. The words are those of any grammar, in the forms that stand behind a number.
var tongues = map[string]tongue{
	"en": {"to|and|or", "min: minutes minute; s: seconds second; h: hours hour; day: days day; week: weeks week; month: months month; L: litres litre liters liter; mL: millilitres millilitre; g: grams gram; kg: kilograms kilogram kilos; %: percent per_cent; m: metres metre meters meter; cm: centimetres centimetre; mm: millimetres millimetre; °C: degrees_celsius; kHz: kilohertz",
		"1: a an one; 2: two both; 3: three; 4: four; 5: five; 6: six; 7: seven; 8: eight; 9: nine; 10: ten; 11: eleven; 12: twelve; 14: fourteen; 15: fifteen; 20: twenty; 30: thirty; 40: forty; 45: forty-five; 50: fifty; 60: sixty; 100: hundred; 0.5: half",
		`never|not|no|nobody|nothing|none|nor|neither|cannot|without|\pL+n['’]t`},
	"es": {"a|y|o|u|hasta", "min: minutos minuto; s: segundos segundo; h: horas hora; day: días día; week: semanas semana; month: meses mes; L: litros litro; mL: mililitros; g: gramos gramo; kg: kilogramos kilos kilo; %: por_ciento; m: metros metro; cm: centímetros centímetro; mm: milímetros milímetro; °C: grados_celsius",
		"1: un una uno; 2: dos ambos ambas; 3: tres; 4: cuatro; 5: cinco; 6: seis; 7: siete; 8: ocho; 9: nueve; 10: diez; 11: once; 12: doce; 14: catorce; 15: quince; 20: veinte; 30: treinta; 40: cuarenta; 50: cincuenta; 60: sesenta; 100: cien; 1000: mil; 0.5: media medio",
		`nunca|jamás|no|nadie|nada|ningún|ninguno|ninguna|ningunos|ningunas|ni|tampoco|sin|prohibido|prohibida|prohibidos|prohibidas|prohíbase|prohíbese`},
	"de": {"bis|und|oder|bis zu", "min: minuten minute; s: sekunden sekunde; h: stunden stunde; day: tage tagen tag; week: wochen woche; month: monate monaten monat; L: liter litern; mL: milliliter millilitern; g: gramm; kg: kilogramm kilo; mg: milligramm; %: prozent; m: meter metern; cm: zentimeter zentimetern; mm: millimeter millimetern; °C: grad_celsius; kHz: kilohertz; W: watt; kW: kilowatt",
		"1: ein eine einen einem einer eines; 2: zwei beide beiden; 3: drei; 4: vier; 5: fünf; 6: sechs; 7: sieben; 8: acht; 9: neun; 10: zehn; 11: elf; 12: zwölf; 14: vierzehn; 15: fünfzehn; 20: zwanzig; 30: dreißig; 40: vierzig; 45: fünfundvierzig; 50: fünfzig; 60: sechzig; 100: hundert; 1000: tausend; 0.5: halb halbe halben halber halbes hälfte; 1.5: anderthalb",
		`nie|niemals|nicht|nichts|kein\pL*|niemand\pL*|weder|ohne|nirgend\pL*|verboten\pL*|untersagt`},
	"fr": {"à|et|ou|jusqu['’]à", "min: minutes minute; s: secondes seconde; h: heures heure; day: jours jour; week: semaines semaine; month: mois; L: litres litre; mL: millilitres millilitre; g: grammes gramme; kg: kilogrammes kilogramme kilos; %: pour_cent; m: mètres mètre; cm: centimètres centimètre; mm: millimètres millimètre; °C: degrés_celsius",
		"1: un une; 2: deux; 3: trois; 4: quatre; 5: cinq; 6: six; 7: sept; 8: huit; 9: neuf; 10: dix; 11: onze; 12: douze; 14: quatorze; 15: quinze; 20: vingt; 30: trente; 40: quarante; 50: cinquante; 60: soixante; 100: cent; 1000: mille; 0.5: demi demie moitié",
		`ne|n['’]\pL+|jamais|pas|aucun|aucune|rien|personne|ni|sans|interdit|interdite|interdits|interdites|défense`},
	"it": {"a|e|ed|o|fino a", "min: minuti minuto; s: secondi secondo; h: ore ora; day: giorni giorno; week: settimane settimana; month: mesi mese; L: litri litro; mL: millilitri; g: grammi grammo; kg: chilogrammi chili chilo; %: per_cento; m: metri metro; cm: centimetri; mm: millimetri; °C: gradi_celsius",
		"1: un uno una; 2: due entrambi entrambe; 3: tre; 4: quattro; 5: cinque; 6: sei; 7: sette; 8: otto; 9: nove; 10: dieci; 11: undici; 12: dodici; 14: quattordici; 15: quindici; 20: venti; 30: trenta; 40: quaranta; 50: cinquanta; 60: sessanta; 100: cento; 1000: mille; 0.5: mezzo mezza metà",
		`non|mai|nessun\pL*|niente|nulla|né|senza|viet\pL+`},
	"pt": {"a|e|ou|até", "min: minutos minuto; s: segundos segundo; h: horas hora; day: dias dia; week: semanas semana; month: meses mês; L: litros litro; mL: mililitros; g: gramas grama; kg: quilogramas quilos quilo; %: por_cento; m: metros metro; cm: centímetros; mm: milímetros; °C: graus_celsius",
		"1: um uma; 2: dois duas ambos ambas; 3: três; 4: quatro; 5: cinco; 6: seis; 7: sete; 8: oito; 9: nove; 10: dez; 11: onze; 12: doze; 14: catorze; 15: quinze; 20: vinte; 30: trinta; 40: quarenta; 50: cinquenta; 60: sessenta; 100: cem; 1000: mil; 0.5: meio meia metade",
		`não|nunca|jamais|nenhum\pL*|ninguém|nada|nem|sem|proibid\pL+`},
	"nl": {"tot|en|of|à", "min: minuten minuut; s: seconden seconde; h: uur uren; day: dagen dag; week: weken week; month: maanden maand; L: liter liters; mL: milliliter; g: gram; kg: kilogram kilo; %: procent; m: meter; cm: centimeter; mm: millimeter; °C: graden_celsius",
		"1: een één; 2: twee beide; 3: drie; 4: vier; 5: vijf; 6: zes; 7: zeven; 8: acht; 9: negen; 10: tien; 11: elf; 12: twaalf; 14: veertien; 15: vijftien; 20: twintig; 30: dertig; 40: veertig; 50: vijftig; 60: zestig; 100: honderd; 1000: duizend; 0.5: half halve helft; 1.5: anderhalf anderhalve",
		`niet|nooit|geen|niemand|niets|noch|zonder|verboden`},
	"pl": {"do|i|lub|albo|oraz", "min: minut minuty minuta minutę; s: sekund sekundy sekunda sekundę; h: godzin godziny godzina godzinę; day: dni dzień; week: tygodni tygodnie tydzień; month: miesięcy miesiące miesiąc; L: litrów litry litr litra; mL: mililitrów mililitry; g: gramów gramy gram; kg: kilogramów kilogramy kilogram; %: procent procenta; m: metrów metry metr metra; cm: centymetrów centymetry; mm: milimetrów milimetry; °C: stopni_celsjusza",
		"1: jeden jedna jedno jedną; 2: dwa dwie dwóch oba obie; 3: trzy trzech; 4: cztery czterech; 5: pięć pięciu; 6: sześć; 7: siedem; 8: osiem; 9: dziewięć; 10: dziesięć; 11: jedenaście; 12: dwanaście; 14: czternaście; 15: piętnaście; 20: dwadzieścia; 30: trzydzieści; 40: czterdzieści; 50: pięćdziesiąt; 60: sześćdziesiąt; 100: sto; 1000: tysiąc; 0.5: pół połowa połowę",
		`nie|nigdy|nikt|nikogo|nic|niczego|żad\pL+|bez|ani|zabroni\pL+|zakaz\pL*`},
	"sv": {"till|och|eller", "min: minuter minut; s: sekunder sekund; h: timmar timme; day: dagar dag dygn; week: veckor vecka; month: månader månad; L: liter; mL: milliliter; g: gram; kg: kilogram kilo; %: procent; m: meter; cm: centimeter; mm: millimeter; °C: grader_celsius",
		"1: en ett; 2: två båda; 3: tre; 4: fyra; 5: fem; 6: sex; 7: sju; 8: åtta; 9: nio; 10: tio; 11: elva; 12: tolv; 14: fjorton; 15: femton; 20: tjugo; 30: trettio; 40: fyrtio; 50: femtio; 60: sextio; 100: hundra; 1000: tusen; 0.5: halv halva hälften",
		`inte|aldrig|ingen|inget|inga|ej|utan|varken|förbjud\pL+`},
	"da": {"til|og|eller", "min: minutter minut; s: sekunder sekund; h: timer time; day: dage dag døgn; week: uger uge; month: måneder måned; L: liter; mL: milliliter; g: gram; kg: kilogram kilo; %: procent; m: meter; cm: centimeter; mm: millimeter; °C: grader_celsius",
		"1: en et; 2: to begge; 3: tre; 4: fire; 5: fem; 6: seks; 7: syv; 8: otte; 9: ni; 10: ti; 11: elleve; 12: tolv; 14: fjorten; 15: femten; 20: tyve; 30: tredive; 40: fyrre; 50: halvtreds; 60: tres; 100: hundrede; 1000: tusind; 0.5: halv halve halvdelen; 1.5: halvanden",
		`ikke|aldrig|ingen|intet|uden|hverken|forbudt`},
	"cs": {"až|do|a|nebo", "min: minut minuty minuta minutu; s: sekund sekundy sekunda sekundu; h: hodin hodiny hodina hodinu; day: dní dny den; week: týdnů týdny týden; month: měsíců měsíce měsíc; L: litrů litry litr litru; mL: mililitrů; g: gramů gramy gram; kg: kilogramů kilogramy; %: procent procenta; m: metrů metry metr; cm: centimetrů; mm: milimetrů; °C: stupňů_celsia",
		"1: jeden jedna jedno jednu; 2: dva dvě oba obě; 3: tři; 4: čtyři; 5: pět; 6: šest; 7: sedm; 8: osm; 9: devět; 10: deset; 11: jedenáct; 12: dvanáct; 14: čtrnáct; 15: patnáct; 20: dvacet; 30: třicet; 40: čtyřicet; 50: padesát; 60: šedesát; 100: sto; 1000: tisíc; 0.5: půl polovina polovinu",
		`ne\pL+|nikdy|nikdo|nic|žádn\pL+|bez|ani|zákaz\pL*|zakáz\pL+`},
}

// symbols are units that are written alike in every language, each its own name.
const symbols = "% °C °F kHz MHz Hz min s h L mL kg g mg mm cm m µm µS/cm W kW W/L bar kPa psi gal mg/L g/L g/kg V A dB L/min"

// amountWords reads the amounts of texts in one language. English words are known in every language, since names and quotations stay.
type amountWords struct {
	units      map[string]string // to one name
	unitsBegin map[string]bool   // the first word of each unit, lower case
	numbers    map[string]string
	endsNumber map[string]bool // the last word of each number that is written with a hyphen
	quantities *regexp.Regexp  // first end, second end, unit, at the beginning of a text
	spelt      *regexp.Regexp  // number, second number, unit
	denies     *denials        // nil where nobody has written down how the language forbids
}

// figure is a number as texts write it; each begins with one of the digits.
const (
	figure = `\d+(?:[.,]\d+)*`
	digits = "0123456789"
)

// readers are those of the languages that are known, and under "" one of all of them together, for every other language. Each is made when it is first asked for:
// few manuals have more than two languages.
var readers = func() map[string]func() *amountWords {
	m := map[string]func() *amountWords{}
	all := make([]tongue, 0, len(tongues))
	for tag, t := range tongues {
		m[tag] = sync.OnceValue(func() *amountWords {
			a := newAmountWords(t, tongues["en"])
			a.denies = newDenials(t.denies)
			return a
		})
		all = append(all, t)
	}
	m[""] = sync.OnceValue(func() *amountWords { return newAmountWords(all...) })
	return m
}()

// amountsOf is the reader of a language.
func amountsOf(tag string) *amountWords {
	if r := readers[language.General(tag)]; r != nil {
		return r()
	}
	return readers[""]()
}

func newAmountWords(of ...tongue) *amountWords {
	a := &amountWords{units: map[string]string{}, unitsBegin: map[string]bool{}, numbers: map[string]string{}, endsNumber: map[string]bool{}}
	ranges := []string{"–", "‑", "-", "…"}
	for _, t := range of {
		for word := range strings.SplitSeq(t.ranges, "|") {
			ranges = append(ranges, word+`\b`)
		}
		wordsTo(a.units, t.units)
		wordsTo(a.numbers, t.numbers)
	}
	var two []string // units of two words
	for word := range a.units {
		if strings.Contains(word, " ") {
			two = append(two, regexp.QuoteMeta(word))
		}
	}
	for unit := range strings.FieldsSeq(symbols) {
		a.units[unit] = unit
	}
	for word := range a.numbers {
		if i := strings.LastIndexByte(word, '-'); i >= 0 {
			a.endsNumber[word[i+1:]] = true
		}
	}
	for unit := range a.units {
		a.unitsBegin[strings.ToLower(anyWord.FindString(unit))] = true
	}
	unit := `(?i:` + strings.Join(append(two, "per cent"), "|") + `)|%|°C|°F|µS/cm|W/L|L/min|mg/L|g/L|g/kg|[\pLµ]+`
	between := `[\s\x{a0}\x{202f}]*(?:` + strings.ReplaceAll(strings.Join(ranges, "|"), `\b`, `[\s\x{a0}\x{202f}]`) + `)[\s\x{a0}\x{202f}]*`
	a.quantities = regexp.MustCompile(`^(` + figure + `)(?:` + between + `(` + figure + `))?[\s\x{a0}\x{202f}]*(?:more |further |weitere |weiteren )?(` + unit + `)`)
	a.spelt = regexp.MustCompile(`([\pL-]+)(?: (?:a|an|or two)|` + between + `([\pL-]+))? ((?i:` + a.unitWords() + `))(?:$|[^\pL])`)
	return a
}

// unitWords are the words for units as alternatives of a regular expression, the longest first.
func (a *amountWords) unitWords() string {
	var list []string
	for word := range a.units {
		list = append(list, regexp.QuoteMeta(word))
	}
	slices.SortFunc(list, func(a, b string) int { return cmp.Or(cmp.Compare(len(b), len(a)), cmp.Compare(a, b)) })
	return strings.Join(list, "|")
}

// wordsTo reads a list “name: word word; name: word”.
func wordsTo(m map[string]string, list string) {
	for entry := range strings.SplitSeq(list, ";") {
		name, words, _ := strings.Cut(entry, ":")
		for word := range strings.FieldsSeq(words) {
			m[strings.ReplaceAll(word, "_", " ")] = strings.TrimSpace(name)
		}
	}
}

// unit gives the one name of a unit, and whether the word is one. Symbols are as they are written; words may begin in capitals.
func (a *amountWords) unit(word string) (string, bool) {
	if name, is := a.units[word]; is {
		return name, true
	}
	if len(word) < 3 {
		return "", false
	}
	name, is := a.units[strings.ToLower(word)]
	return name, is
}

// in gives the quantities of a text, each as number and unit, with their offsets.
func (a *amountWords) in(text string) (found []string, offsets []int) {
	for at := 0; ; {
		next := strings.IndexAny(text[at:], digits)
		if next < 0 {
			return found, offsets
		}
		at += next
		piece := text[at:min(at+longestQuantity, len(text))] // the expression keeps a mark for each of its places in what it looks through
		m := a.quantities.FindStringSubmatchIndex(piece)
		if m == nil {
			at++
			continue
		}
		if unit, known := a.unit(piece[m[6]:m[7]]); known {
			for _, group := range [][2]int{{m[2], m[3]}, {m[4], m[5]}} {
				if group[0] >= 0 {
					found, offsets = append(found, plainNumber(piece[group[0]:group[1]])+" "+unit), append(offsets, at+group[0])
				}
			}
		}
		at += m[1]
	}
}

// longestQuantity is more than two numbers with what stands between them and a unit take, in bytes.
const longestQuantity = 120

// farthest is how many words a unit may stand behind the number word: “fünf bis zu zehn Minuten”.
const farthest = 5

// spans gives the pieces of a text in which an amount may be spelt out, with the words before it that may belong to it. It is there for its speed: a regular
// expression with every unit of a language took most of the time that translations take, and hardly a sentence has such an amount.
func (a *amountWords) spans(text string) (list []string) {
	from, since, unit := -1, 0, false
	var before [3]int // where the last words begin: “two”, “or”, “so”
	for start, end := range letterRuns(text) {
		word := strings.ToLower(text[start:end])
		if from >= 0 {
			since++
			unit = unit || since <= farthest && a.unitsBegin[word] || since <= farthest+1 && hasSign(text[before[2]:start], "%", "°")
			if since > farthest+2 {
				if unit {
					list = append(list, text[from:start])
				}
				from, unit = -1, false
			}
		}
		if a.number(word) {
			if since = 0; from < 0 {
				from = 1 + strings.LastIndexFunc(text[:before[0]], func(r rune) bool { return r != '-' && !unicode.IsLetter(r) })
			}
		}
		before = [3]int{before[1], before[2], start}
	}
	if from >= 0 && (unit || hasSign(text[before[2]:], "%", "°")) {
		list = append(list, text[from:])
	}
	return list
}

// letterRuns gives where each run of letters begins and ends.
func letterRuns(text string) iter.Seq2[int, int] {
	return func(yield func(start, end int) bool) {
		for i := 0; i < len(text); {
			start := strings.IndexFunc(text[i:], unicode.IsLetter)
			if start < 0 {
				return
			}
			start += i
			end := strings.IndexFunc(text[start:], func(r rune) bool { return !unicode.IsLetter(r) })
			if end < 0 {
				end = len(text) - start
			}
			if i = start + end; !yield(start, i) {
				return
			}
		}
	}
}

// number tells whether a word, lower case, is a number or the end of one that is written with a hyphen.
func (a *amountWords) number(word string) bool {
	if _, is := a.numbers[word]; is {
		return true
	}
	return a.endsNumber[word]
}

// speltIn gives the quantities of a text whose number is a word.
func (a *amountWords) speltIn(text string) (found []string) {
	for _, span := range a.spans(text) {
		found = append(found, a.allSpelt(span)...)
	}
	return found
}

// allSpelt gives the same of a short text.
func (a *amountWords) allSpelt(text string) (found []string) {
	for _, m := range a.spelt.FindAllStringSubmatch(text, -1) {
		unit, is := a.unit(m[3])
		if !is {
			continue
		}
		for _, word := range m[1:3] {
			number, known := a.numbers[strings.ToLower(word)]
			if known && number != "100" && number != "1000" { // “a few hundred millilitres” is no count
				found = append(found, number+" "+unit)
			}
		}
	}
	return found
}
