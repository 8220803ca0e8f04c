package search_test

import (
	"reflect"
	"slices"
	"testing"

	"tankside/search"
)

// shelfSpanish is the same manual's translation into Spanish, as far as it goes.
var shelfSpanish = []search.Document{
	{Path: "symptoms/spots.es.html", Title: "Manchas en piezas secas", Kind: "symptom", Station: "dry", Language: "es",
		AlsoCalled: []string{"manchas blancas", "marcas de agua"}, Text: "Cercos y puntos donde se secó una gota. No son óxido."},
	{Path: "symptoms/spots.es.html#sales-de-agua-dura", Title: "Manchas en piezas secas", Section: "Sales de agua dura", Kind: "symptom", Station: "dry",
		Language: "es", Text: "El último enjuague deja sus sales al secarse. Use agua desionizada por debajo de 30 µS/cm."},
	{Path: "procedures/degas.es.html", Title: "Desgasificar el baño", Kind: "procedure", Station: "wash", Language: "es",
		Text: "La desgasificación saca el aire del agua. Encienda el ultrasonido y espere."},
}

func bothLanguages() []search.Document { return slices.Concat(shelfSpanish, shelf) }

func TestQuestionFindsItsLanguage(t *testing.T) {
	f := open(t, bothLanguages(), sayings)
	for _, c := range []struct{ reader, question, path, language string }{
		{"", "manchas blancas", "symptoms/spots.es.html", "es"},
		{"en", "manchas blancas", "symptoms/spots.es.html", "es"}, // on an English page
		{"es", "¿Cómo desgasificar?", "procedures/degas.es.html", "es"},
		{"", "desgasificacion", "procedures/degas.es.html", "es"}, // without the accent, and another form
		{"", "las sales del agua", "symptoms/spots.es.html#sales-de-agua-dura", "es"},
		{"", "mancahs", "symptoms/spots.es.html", "es"},            // a typing error that no English word is near
		{"es", "white spots", "symptoms/spots.es.html", "es"},      // the words are English, the reader has chosen Spanish
		{"es", "hard water salts", "symptoms/spots.es.html", "es"}, // to the head
		{"en", "white spots", "symptoms/spots.html", "en"},
		{"es", "foil test", "procedures/foil-test.html", "en"}, // not translated
		// Both know a number alone: the reader's language decides.
		{"es", "30 µS/cm", "symptoms/spots.es.html#sales-de-agua-dura", "es"},
		{"es-MX", "30 µS/cm", "symptoms/spots.html#hard-water-salts", "en"}, // there is no es-MX
		{"", "30 µS/cm", "symptoms/spots.html#hard-water-salts", "en"},
	} {
		a := ask(t, f, search.Question{Words: c.question, Language: c.reader})
		if len(a.Hits) == 0 || a.Hits[0].Path != c.path || a.Hits[0].Language != c.language {
			t.Errorf("%q of a reader of %q: %+v, wanted %s", c.question, c.reader, a.Hits, c.path)
		}
	}
	if n := f.Articles(); n != 8 {
		t.Errorf("%d articles, wanted those of both languages, 8", n)
	}
}

// German is stemmed by the same library's rules: a question finds other forms of its words, with and without their marks, and everyday words for the same.
func TestGermanQuestions(t *testing.T) {
	f := open(t, slices.Concat([]search.Document{
		{Path: "symptoms/spots.de.html", Title: "Flecken auf trockenen Teilen", Kind: "symptom", Station: "dry", Language: "de", AlsoCalled: []string{"weiße Flecken", "Wasserflecken"}, Text: "Ringe und Punkte, wo ein Tropfen trocknete."},
		{Path: "procedures/degas.de.html", Title: "Das Bad entgasen", Kind: "procedure", Station: "wash", Language: "de", Text: "Die Entgasung treibt die Luft aus dem Wasser. Den Schall einschalten und warten."},
		{Path: "symptoms/grease.de.html", Title: "Fettfilm bleibt", Kind: "symptom", Station: "wash", Language: "de", Text: "Die Schlüssel fühlen sich schmierig an; der Dreck klebt."},
	}, shelf), sayings)
	for question, path := range map[string]string{
		"weisse flecken": "symptoms/spots.de.html", "weiße Fleck": "symptoms/spots.de.html", "getrocknete Tropfen": "symptoms/spots.de.html",
		"Wie entgasen?": "procedures/degas.de.html", "Bäder entgasen": "procedures/degas.de.html", "schlussel schmierig": "symptoms/grease.de.html",
		"Felcken": "symptoms/spots.de.html", // a typing error
	} {
		a := ask(t, f, search.Question{Words: question, Language: "de"})
		if len(a.Hits) == 0 || a.Hits[0].Path != path || a.Hits[0].Language != "de" {
			t.Errorf("%q: %+v, wanted %s", question, a.Hits, path)
		}
	}
}

// Who asks in the language of the original gets what he gets without translations, to the last bit of each score.
func TestTranslationChangesNothingForTheOriginal(t *testing.T) {
	alone, both := open(t, shelf, sayings), open(t, bothLanguages(), sayings)
	for _, words := range []string{"white spots", "wont come clean", "foam suds", "70 °C", "foil", "alumnium", "hardwater", "bubbl"} {
		q := search.Question{Words: words}
		want, got := ask(t, alone, q), ask(t, both, q)
		for i := range got.Hits {
			if got.Hits[i].Language != "en" {
				t.Errorf("%q: the hit %s is in %q", words, got.Hits[i].Path, got.Hits[i].Language)
			}
			got.Hits[i].Language = ""
		}
		if len(want.Hits) == 0 || !reflect.DeepEqual(want, got) {
			t.Errorf("%q:\nalone %+v\nboth  %+v", words, want, got)
		}
	}
}

// A manual in Spanish alone is read as Spanish.
func TestSpanishAlone(t *testing.T) {
	f := open(t, shelfSpanish, []search.Synonym{{Term: "óxido", Words: []string{"herrumbre"}, Language: "es"}})
	for question, path := range map[string]string{"herrumbre": "symptoms/spots.es.html", "desgasifique": "procedures/degas.es.html"} {
		if a := ask(t, f, search.Question{Words: question}); len(a.Hits) == 0 || a.Hits[0].Path != path {
			t.Errorf("%q: %+v, wanted %s", question, a.Hits, path)
		}
	}
	if a := ask(t, f, search.Question{Words: "de la que"}); len(a.Hits) != 0 {
		t.Errorf("words without a meaning find %+v", a.Hits)
	}
}

func TestOpenRefusesDamagedLanguages(t *testing.T) {
	t.Parallel()
	refusesDamage(t, bothLanguages())
}

// The browser's module answers as the native one where there are several languages.
func TestBrowserAnswersTheSameInTwoLanguages(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("building the browser's module takes long")
	}
	blob, err := search.Index(bothLanguages(), sayings)
	if err != nil {
		t.Fatal(err)
	}
	f, err := search.Open(blob)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var questions []search.Question
	for _, words := range []string{"manchas blancas", "como desgasificar", "white spots", "30 µS/cm", "enjuage", "desgasificacion", "nada de nada"} {
		for _, reader := range []string{"", "es", "en"} {
			questions = append(questions, search.Question{Words: words, Language: reader})
		}
	}
	reply := askNode(t, [][]byte{blob}, questions, 1)
	for i, q := range questions {
		if want := asJSON(t, ask(t, f, q)); !reflect.DeepEqual(reply.Answers[i], want) {
			t.Errorf("%q:\nbrowser %+v\nnative  %+v", q.Words, reply.Answers[i], want)
		}
	}
}
