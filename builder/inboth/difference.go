package inboth

import (
	"strings"

	"tankside/builder/language"
	"tankside/builder/quantity"
)

// What degrees mean.
const (
	temperature = iota
	difference
	unsure
)

// few is the number of degrees Celsius below which nothing but words beside it tell that a temperature is meant.
const few = 15

// most is the number of degrees Celsius above which only a temperature is meant: no bath, oven or dryer of a shop differs by more.
const most = 120

// meaning tells a difference of temperatures from a temperature, by the words beside it.
func meaning(text string, a *amount) int {
	n := a.numbers[0]
	if n.signed || perTime(text[a.to:]) {
		return difference
	}
	celsius := a.numbers[len(a.numbers)-1].value
	if a.unit.Symbol == "°F" {
		celsius = a.unit.ToSI(celsius)
	}
	if celsius > most {
		return temperature
	}
	before, behind := wordsBefore(text[:a.from]), wordsBehind(text[a.to:])
	if says(differenceBehind, behind, true) && !moment(behind) && !(celsius >= few && says(weakBehind, behind, true) && says(sets, before, false)) {
		return difference
	}
	if celsius <= mostStep && len(behind) > 0 && stepWords.has(behind[0]) {
		return difference // “a 28 °C step”
	}
	if len(behind) == 1 && (behind[0] == "below" || behind[0] == "above" || behind[0] == "darunter" || behind[0] == "darüber") || celsius <= mostStep && mentions(before, stepWords) {
		return difference
	}
	for len(before) > 0 && fillers.has(before[len(before)-1]) {
		before = before[:len(before)-1]
	}
	if len(a.numbers) == 1 || a.numbers[1].spread {
		if says(differenceBefore, before, false) {
			return difference
		}
	} else if says(differenceBefore, before, false) && before[len(before)-1] != "within" { // “within 190–220 °C”
		return difference
	}
	if a.unit.Symbol == "°F" {
		if a.numbers[0].value >= 50 {
			return temperature
		}
	} else if celsius >= few || a.numbers[0].value < 0 {
		return temperature
	}
	switch {
	case says(comparisons, before, false):
		return difference // “more than 3 °C” of a bath is no temperature
	case len(a.numbers) > 1 || says(temperatureBefore, before, false) || speaksOf(before) || rangeBehind(behind):
		return temperature
	}
	return unsure
}

// mostStep is the number of degrees up to which a clause about a step of temperature means the step, and not where it leads.
const mostStep = 40

const stepWords = phraseList(",step,steps,jump,jumps,salto,saltos,sprung,temperatursprung,")

func mentions(words []string, any phraseList) bool {
	for _, w := range words {
		if any.has(w) {
			return true
		}
	}
	return false
}

// speaksOf tells whether the clause has spoken of a temperature.
func speaksOf(before []string) bool {
	for _, w := range before {
		if strings.HasPrefix(w, "temperatur") {
			return true
		}
	}
	return false
}

const rangeWords = phraseList(",to,a,hasta,bis,à,até,tot,do,–,")

// rangeBehind tells whether degrees are the lower end of a range whose ends have a unit each: “0 °C to 100 °C”.
func rangeBehind(behind []string) bool {
	return len(behind) > 1 && (rangeWords.has(behind[0])) && digitByte(behind[1][0])
}

func asDifference(u quantity.Unit) quantity.Unit {
	symbol := "K"
	if u.Symbol == "°F" {
		symbol = "°F"
	}
	d, _ := quantity.UnitNamed(symbol, quantity.TemperatureDifference)
	return d
}

// moment tells whether “an hour” behind degrees says when: “to 60 °C an hour before the shift”.
func moment(behind []string) bool {
	if len(behind) < 3 || behind[1] != "hour" && behind[1] != "minute" {
		return false
	}
	switch behind[2] {
	case "before", "after", "earlier", "later", "ago", "ahead":
		return true
	}
	return false
}

// says tells whether one of the phrases stands at the head of some words, or at their end.
func says(phrases phraseList, words []string, head bool) bool {
	for n := min(longestPhrase, len(words)); n > 0; n-- {
		part := words[:n]
		if !head {
			part = words[len(words)-n:]
		}
		if phrases.has(strings.Join(part, " ")) {
			return true
		}
	}
	return false
}

const longestPhrase = 4

// phraseList is a list of phrases with a comma before and behind each.
type phraseList string

func (l phraseList) has(phrase string) bool { return strings.Contains(string(l), ","+phrase+",") }

// Words beside a number of degrees. Those of package sentence are in quantity, the same for both; the others are Spanish, German, French, Italian,
// Portuguese, Dutch or Polish, or stand only here because a page is also made of words of the interface.
const (
	fillers           = phraseList(",about,roughly,around,some,just,only,an,the,full,nearly,almost,approximately,circa,ca,well,~,≈,even,exactly,precisely,etwa,rund,ungefähr,genau,fast,environ,circa,cerca di,cerca,ongeveer,około,unos,unas,casi,cerca de,apenas,aproximadamente,")
	differenceBefore  = phraseList("," + quantity.DifferenceBefore + ",less,round that to,redondeamos a,reading to,changes of,step,cool by,cools by,cools only,cools,cooled by,warms by,differ,gains,lost,rises,falls,drops,heats,adds,add,up,climbs,no more than ±,cada,por cada,otros,más o menos,regla de,salto de,subida de,subida,caída de,caída,cambio de,cambios de,diferencia de,diferencia,margen de,enfriarse,sube,suben,baja,bajan,gana,agrega,agregar,pierde,dentro de,suba otros,subido,haya subido,plus,point plus,más,menos,desviación de,a lo sumo ±,um,unterschied von,spanne von,abstand von,schritt von,je,pro,je weitere,écart de,différence de,baisse de,hausse de,differenza di,calo di,diferença de,queda de,verschil van,różnica,różnicy,")
	differenceBehind  = phraseList("," + quantity.DifferenceBehind + ",or more above,or more below,or more under,or less of,above it,below it,over what,below room,or better,o mejor,of change,low,high,out,of headroom,of difference,of the setting,or so above,or so below,too hot,too cold,por debajo,por encima,o más por debajo,o más por encima,por hora,por minuto,cada hora,de diferencia,de cambio,de margen,de más,de menos,más,menos,más fría,más frío,más caliente,más calientes,demasiado,uno de otro,uno del otro,entre sí,del valor,de la consigna,del ajuste,al día,debajo del,debajo de su,encima del,encima de su,sobre el,sobre la,bajo el,bajo su,de salto,a la hora,en una hora,en un cuarto,unter der,unter dem,unter seinem,unter ihrem,über der,über dem,darunter,darüber,wärmer,kälter,heißer,kühler,höher,tiefer,niedriger,mehr,weniger,zu heiß,zu kalt,zu warm,abstand,unterschied,je minute,je stunde,pro minute,pro stunde,in der minute,in der stunde,am tag,auseinander,de plus,de moins,plus chaud,plus chaude,plus froid,plus froide,au-dessous,au-dessus,en dessous,d'écart,par heure,par minute,in più,in meno,più caldo,più calda,più freddo,più fredda,di differenza,sotto il,sopra il,sotto la,sopra la,mais quente,mais frio,mais fria,a mais,a menos,de diferença,abaixo do,acima do,warmer,hoger,lager,verschil,per uur,per minuut,boven de,boven het,onder de,onder het,cieplej,zimniej,wyżej,niżej,różnicy,poniżej,powyżej,na godzinę,na minutę,in a quarter,in an hour,in a minute,")
	weakBehind        = phraseList(",from the,from its,off,out,inside,more,less,each,every,per,over the,under the,high,low,away,change,extra,más,menos,de más,sobre el,sobre la,bajo el,bajo su,cada,")
	sets              = phraseList(",at,to,from,until,reaches,hits,between,a,desde,hasta,entre,at about,to about,a unos,auf,bei,bis,von,zwischen,")
	comparisons       = phraseList(",more than,less than,más de,menos de,at least,at most,no more than,al menos,por lo menos,to within,mehr als,weniger als,mindestens,höchstens,plus de,moins de,più di,meno di,mais de,meer dan,minder dan,więcej niż,mniej niż,")
	temperatureBefore = phraseList(",at,to,from,above,between,is,are,≥,below freezing,a,de,desde,hasta,sobre,temperature,temperatura,entre,bei,auf,von,bis,ab,über,unter,zwischen,gegen,vers,entre,tra,fra,fino a,até,bij,op,tot,tussen,do,od,przy,")
)

// nearby is how many bytes beside a number are read for its words.
const nearby = 48

// wordsBefore gives the words right before a number, of its own clause.
func wordsBefore(text string) []string {
	if len(text) > nearby {
		text = text[len(text)-nearby:]
	}
	if cut := lastOf(text, ".;:?!()|,\x01"); cut >= 0 {
		text = text[cut+1:]
	}
	return words(strings.ReplaceAll(text, "±", " ± "))
}

// wordsBehind gives the words right behind a number and its unit, of its own clause.
func wordsBehind(text string) []string {
	if len(text) > nearby {
		text = text[:nearby]
	}
	if cut := firstOf(text, ".;:?!()|,[]\x01"); cut >= 0 {
		text = text[:cut]
	}
	if at := skipBlanks(text, 0); at < len(text) && text[at] >= 'A' && text[at] <= 'Z' {
		return nil // what begins there is another sentence, such as where an answer leads
	}
	return words(text)
}

// words parts a text at blanks, in lower case.
func words(text string) []string {
	text = language.Lower(text)
	var list []string
	for at := skipBlanks(text, 0); at < len(text); {
		end := at
		for end < len(text) && blankWidth(text[end:]) == 0 {
			end++
		}
		list = append(list, text[at:end])
		at = skipBlanks(text, end)
	}
	return list
}

// lastOf and firstOf give where the last and the first of some ASCII marks stand, or -1.
func lastOf(text, marks string) int {
	for i := len(text) - 1; i >= 0; i-- {
		if strings.IndexByte(marks, text[i]) >= 0 {
			return i
		}
	}
	return -1
}

func firstOf(text, marks string) int {
	for i := range len(text) {
		if strings.IndexByte(marks, text[i]) >= 0 {
			return i
		}
	}
	return -1
}
