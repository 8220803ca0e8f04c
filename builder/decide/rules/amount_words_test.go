package rules

import (
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// Quantities of running text are read in every language of the table: ranges with the language's own words between their ends, units as words in the forms that
// stand behind a number, numbers as words, and symbols.
func TestAmountsAreReadInEveryLanguage(t *testing.T) {
	for _, c := range []struct{ language, text, want string }{
		{"en", "Wash for 5 to 10 minutes, between 60 and 65 °C.", "5 min|10 min|60 °C|65 °C"},
		{"es", "De 5 a 10 minutos, 60 o 65 °C, 4,5 litros.", "5 min|10 min|60 °C|65 °C|4.5 L"},
		{"de", "5 bis 10 Minuten, zwischen 60 und 65 °C, höchstens 4,5 Liter, 20 bis 30 Sekunden, 3 Prozent.", "5 min|10 min|60 °C|65 °C|4.5 L|20 s|30 s|3 %"},
		{"de", "5–10 Min. sind zu viel, 5 Minuten nicht; 62 Grad Celsius.", "5 min|10 min|5 min|62 °C"},
		{"de-AT", "90 bis zu 100 Stunden.", "90 h|100 h"},
		{"fr", "5 à 10 minutes, 60 ou 65 °C, 4,5 litres, jusqu’à 3 heures, 2 semaines, 3 pour cent.", "5 min|10 min|60 °C|65 °C|4.5 L|3 h|2 week|3 %"},
		{"it", "Da 5 a 10 minuti, 60 o 65 °C, 4,5 litri, 2 ore, 3 per cento.", "5 min|10 min|60 °C|65 °C|4.5 L|2 h|3 %"},
		{"pt", "De 5 a 10 minutos, 60 até 65 °C, 4,5 litros, 2 horas.", "5 min|10 min|60 °C|65 °C|4.5 L|2 h"},
		{"nl", "5 tot 10 minuten, 60 of 65 °C, 4,5 liter, 2 uur.", "5 min|10 min|60 °C|65 °C|4.5 L|2 h"},
		{"pl", "Od 5 do 10 minut, 60 lub 65 °C, 4,5 litra, 2 godziny.", "5 min|10 min|60 °C|65 °C|4.5 L|2 h"},
		{"sv", "5 till 10 minuter, 2 timmar.", "5 min|10 min|2 h"},
		{"da", "5 til 10 minutter, 2 timer.", "5 min|10 min|2 h"},
		{"cs", "5 až 10 minut, 2 hodiny.", "5 min|10 min|2 h"},
		{"fi", "5 – 10 min, 60 °C, 4,5 L.", "5 min|10 min|60 °C|4.5 L"}, // not in the table: symbols, and the words of the others
	} {
		found, offsets := amountsOf(c.language).in(c.text)
		if got := strings.Join(found, "|"); got != c.want || len(offsets) != len(found) {
			t.Errorf("%s: %q: %s, want %s", c.language, c.text, got, c.want)
		}
	}
	for _, c := range []struct{ language, text, want string }{
		{"de", "Fünf bis zehn Minuten, eine halbe Stunde.", "5 min|10 min|0.5 h"},
		{"fr", "Cinq à dix minutes.", "5 min|10 min"},
		{"it", "Cinque minuti.", "5 min"}, {"pt", "Cinco minutos.", "5 min"}, {"nl", "Vijf minuten.", "5 min"}, {"pl", "Pięć minut.", "5 min"},
		{"en", "five to ten minutes, half an hour", "5 min|10 min|0.5 h"},
	} {
		if got := strings.Join(amountsOf(c.language).speltIn(c.text), "|"); got != c.want {
			t.Errorf("%s: %q: %s, want %s", c.language, c.text, got, c.want)
		}
	}
}

// Each language of the table has words for what every shop measures, numbers to ten, and forbids in its own words.
func TestTonguesAreComplete(t *testing.T) {
	forbidden := map[string]string{"en": "Never lift it.", "es": "No levantarla nunca.", "de": "Keinesfalls anheben, niemals.", "fr": "Ne jamais le soulever.", "it": "Non sollevarlo mai.", "pt": "Nunca o levante.",
		"nl": "Nooit optillen.", "pl": "Nigdy nie podnosić.", "sv": "Lyft den aldrig.", "da": "Løft den aldrig.", "cs": "Nikdy nezvedat."}
	allowed := map[string]string{"en": "Lift it now.", "es": "Levantarla con cuidado.", "de": "Jetzt noch anheben.", "fr": "Le soulever doucement.", "it": "Sollevarlo piano.", "pt": "Levante devagar.",
		"nl": "Nu optillen.", "pl": "Teraz podnieść.", "sv": "Lyft den nu.", "da": "Løft den nu.", "cs": "Zvedat pomalu."}
	for tag := range tongues {
		a := amountsOf(tag)
		var units, numbers []string
		for _, u := range a.units {
			units = append(units, u)
		}
		for _, n := range a.numbers {
			numbers = append(numbers, n)
		}
		for _, want := range strings.Fields("min s h day week month L g kg % m") {
			if !slices.Contains(units, want) {
				t.Errorf("%s has no word for %s", tag, want)
			}
		}
		for _, want := range strings.Fields("1 2 3 4 5 6 7 8 9 10 12 15 20 30 0.5") {
			if !slices.Contains(numbers, want) {
				t.Errorf("%s has no word for %s", tag, want)
			}
		}
		if !a.denies.in(forbidden[tag]) || a.denies.in(allowed[tag]) || forbidden[tag] == "" {
			t.Errorf("%s: “%s” forbids: %v, “%s”: %v", tag, forbidden[tag], a.denies.in(forbidden[tag]), allowed[tag], a.denies.in(allowed[tag]))
		}
	}
	for _, words := range protectionWords {
		for _, tag := range strings.Fields("en es de fr it pt nl pl") {
			if words[tag] == "" {
				t.Errorf("no word in %s for %s", tag, words["en"])
			}
		}
	}
}

// What is left unread for speed has no amount: sentences in every language with numbers, units and what may stand between, some of it left out.
func TestNoSpeltAmountIsPassedOver(t *testing.T) {
	t.Parallel()
	random := rand.New(rand.NewPCG(3, 5))
	one := func(list []string) string { return list[random.IntN(len(list))] }
	amounts := 0
	for tag := range tongues {
		a := amountsOf(tag)
		numbers, units := slices.Sorted(maps.Keys(a.numbers)), slices.Sorted(maps.Keys(a.units))
		between := append(strings.Split(tongues[tag].ranges, "|"), "", "", "", "a", "or two", "–", "the")
		others := []string{"the", "Fill", "ÉTÉ", "pour-off", "“Wash", "1”,", "Lid."}
		for range 4000 {
			var text []string
			for range 1 + random.IntN(4) {
				text = append(text, one(others), one(others), one(numbers), one(between), one(numbers), one(units)+one([]string{"", ".", ","}))
				if i := len(text) - 1 - random.IntN(4); random.IntN(2) == 0 {
					text = slices.Delete(text, i, i+1)
				}
			}
			line := strings.Join(slices.DeleteFunc(text, func(s string) bool { return s == "" }), " ")
			want := a.allSpelt(line)
			amounts += len(want)
			if got := a.speltIn(line); !slices.Equal(got, want) {
				t.Fatalf("%s: in “%s” there is %q, and %q was found", tag, line, want, got)
			}
		}
	}
	if amounts < 10_000 {
		t.Errorf("only %d amounts were spelt out", amounts)
	}
}
