package search_test

import (
	"testing"

	"tankside/search"
)

// A name of little words is found by them; beside two others they mean nothing, and alone they do not stand for a word that nobody knows.
func TestLittleWords(t *testing.T) {
	f := open(t, []search.Document{
		{Path: "may-it-go-in.html", Title: "May it go in?", Kind: "page", Text: "Pick a material and a tank."},
		{Path: "a-z.html", Title: "All words, A–Z", Kind: "page", AlsoCalled: []string{"a to z"}, Text: "Every title."},
		{Path: "soils/wax.html", Title: "Wax", Kind: "soil", Text: "It melts in the tank at 60 °C and may go into the rinse."},
	}, nil)
	for question, path := range map[string]string{
		"may it go in": "may-it-go-in.html", "May it go in?": "may-it-go-in.html", "can it go in": "may-it-go-in.html", "a to z": "a-z.html",
		"may wax go in the rinse": "soils/wax.html",
	} {
		if a := ask(t, f, search.Question{Words: question}); len(a.Hits) == 0 || a.Hits[0].Path != path {
			t.Errorf("%q: %+v, wanted %s", question, a.Hits, path)
		}
	}
	if a := ask(t, f, search.Question{Words: "may it go xylophone "}); len(a.Hits) != 0 || len(a.Unknown) != 1 {
		t.Errorf("an unknown word with little ones: %+v, unknown %q", a.Hits, a.Unknown)
	}
}

// How something is asked decides between articles that say the same of it, in each language.
func TestHowItIsAsked(t *testing.T) {
	f := open(t, []search.Document{
		{Path: "calculators/foam.html", Title: "Calculator: foam", Kind: "calculator", Text: "Foam."},
		{Path: "procedures/foam.html", Title: "Procedure: foam", Kind: "procedure", Text: "Foam."},
		{Path: "symptoms/foam.html", Title: "Symptom: foam", Kind: "symptom", Text: "Foam."},
		{Path: "calculators/foam.es.html", Title: "Cálculo: espuma", Kind: "calculator", Text: "Espuma.", Language: "es"},
		{Path: "procedures/foam.es.html", Title: "Procedimiento: espuma", Kind: "procedure", Text: "Espuma.", Language: "es"},
		{Path: "symptoms/foam.es.html", Title: "Síntoma: espuma", Kind: "symptom", Text: "Espuma.", Language: "es"},
	}, nil)
	for question, path := range map[string]string{
		"why foam": "symptoms/foam.html", "How do I foam?": "procedures/foam.html", "how much foam": "calculators/foam.html",
		"¿Por qué espuma?": "symptoms/foam.es.html", "cómo espuma": "procedures/foam.es.html", "cuánta espuma": "calculators/foam.es.html",
	} {
		if a := ask(t, f, search.Question{Words: question}); len(a.Hits) == 0 || a.Hits[0].Path != path {
			t.Errorf("%q: %+v, wanted %s", question, a.Hits, path)
		}
	}
}
