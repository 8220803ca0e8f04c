package search

import "strings"

// intents are the ways in which a question says what kind of answer it wants,
// in plain English, Spanish and German, folded: the words that it holds, and the kinds
// that they speak for. Most of these words carry no meaning as words to look
// for. The weight is one for all: a hint, which decides between articles that
// answer nearly as well.
var intents = []intent{
	{"symptom", "why|came out|comes out|come out|coming out|turned|turns|went|goes|keeps|stopped|stops|still|wont|doesnt|after washing|after wash|after the wash|looks|look"},
	{"procedure", "how do i|how do you|how do we|how to|how can i|how should|steps|what do i do|what now|how often|when do|when must|when should"},
	{"calculator", "how much|how many|how long|calculate|convert|work out|worked out|cost of|reckon"},
	{"lesson", "explain|teach|learn|difference|how does|understand|what happens|trainee|apprentice|beginner"},
	{"glossary", "what is|what are|what does|whats|mean|means|meaning"},
	{"material", "can i|may|is it safe|is it ok|allowed|can it|will it"},
}

// intentsSpanish are those of Spanish.
var intentsSpanish = []intent{
	{"symptom", "por que|salio|salen|sale|quedo|quedan|quedaron|queda|se puso|se pone|sigue|siguen|no calienta|despues de lavar"},
	{"procedure", "como|pasos|que hago|cada cuanto|cuando"},
	{"calculator", "cuanto|cuanta|cuantos|cuantas|calcular|convertir"},
	{"lesson", "explicar|ensenar|aprender|diferencia|entender"},
	{"glossary", "que es|que significa|significa"},
	{"material", "puedo|puede|se puede|es seguro|permitido"},
}

// intentsGerman are those of German.
var intentsGerman = []intent{
	{"symptom", "warum|wieso|weshalb|wird nicht|werden nicht|bleibt|bleiben|ist geworden|sind geworden|kommt heraus|kommen heraus|nach dem waschen|nach dem reinigen|geht nicht|heizt nicht"},
	{"procedure", "wie mache ich|wie macht man|wie geht|schritte|was tun|was mache ich|wie oft|wann muss"},
	{"calculator", "wie viel|wieviel|wie viele|wie lange|berechnen|ausrechnen|umrechnen|was kostet"},
	{"lesson", "erklaren|lernen|unterschied|verstehen|was passiert|lehrling|anfanger"},
	{"glossary", "was ist|was sind|was bedeutet|was heisst|bedeutung"},
	{"material", "darf ich|darf man|darf|kann ich|ist es sicher|erlaubt"},
}

type intent struct{ kind, said string }

// wanted gives the kinds that a question's words speak for.
func (l *language) wanted(asked string) (kinds map[string]bool) {
	var folded strings.Builder
	folded.WriteByte(' ')
	gap := false
	for _, c := range asked {
		f := fold(c)
		switch {
		case isApostrophe(c):
		case 'a' <= f && f <= 'z' || '0' <= f && f <= '9':
			folded.WriteRune(f)
			gap = false
		case !gap:
			folded.WriteByte(' ')
			gap = true
		}
	}
	folded.WriteByte(' ')
	words := folded.String()
	for _, i := range l.intents {
		for said := range strings.SplitSeq(i.said, "|") {
			if strings.Contains(words, " "+said+" ") {
				if kinds == nil {
					kinds = map[string]bool{}
				}
				kinds[i.kind] = true
			}
		}
	}
	return kinds
}
