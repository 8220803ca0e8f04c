package manual

import (
	"context"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/finding"
)

// Recommended letters of tags: RFC 5646 (BCP 47), section 2.1.1.
func TestLanguageTags(t *testing.T) {
	for written, want := range map[string]string{
		"es": "es", "ES": "es", "es-mx": "es-MX", "pt-BR": "pt-BR", "zh-hans": "zh-Hans", "zh-hant-tw": "zh-Hant-TW", "es-419": "es-419", "fil": "fil",
		"": "", "v2": "", "e": "", "english": "", "es_MX": "", "es-": "", "../es": "", "es-419x": "",
	} {
		if got, ok := Language(written); got != want || ok != (want != "") {
			t.Errorf("%q: %q, %v", written, got, ok)
		}
	}
}

const (
	degas = "---\ntitle: Degas\nsummary: Air out of the water.\nstation: wash\nrevision: B\napproved: 2026-01-02, trainer\nreview-by: 2027-01-02\nsources: [common practice, no source]\n" +
		"time: 10 min\nequipment: [clock, lamp]\nprotective-equipment: [gloves]\nhazards: [H319]\n---\nWords.\n\n> **CAUTION** Hot.\n\n## Fill\n\n```calculator heat-up\ntank: wash-1\n```\n\n## Wait\n\nTen minutes.\n"
	desgasificar = "---\ntitle: Desgasificar\nsummary: Fuera el aire.\ntranslates: B\napproved: 2026-02-03, operator\nalso-called: [quitar el aire]\nequipment: [reloj, lámpara]\nprotective-equipment: [guantes]\n---\n" +
		"Palabras.\n\n> **PRECAUCIÓN** Caliente.\n\n## Llenar\n\n```calculator heat-up\n```\n\n## Esperar\n\nDiez minutos, véase [arriba](#llenar) y [la prueba](foil-test.md).\n"
	smallShopFile = "name: Shop\nroles: [trainer, operator]\ntanks:\n- {id: wash-1, name: Wash 1, volume: 50 L}\n"
)

func readFiles(t *testing.T, files map[string]string) (*Manual, []finding.Finding) {
	t.Helper()
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	m, findings, err := Read(context.Background(), fsys)
	if err != nil {
		t.Fatal(err)
	}
	return m, findings
}

func TestTranslationHasWordsAndTheOriginalTheFacts(t *testing.T) {
	m, findings := readFiles(t, map[string]string{"shop.yaml": smallShopFile, "procedures/degas.md": degas, "procedures/degas.es.md": desgasificar, "theme/words/cy.yaml": "x: y"})
	for _, f := range findings {
		if f.Rule != "stray-file" {
			t.Error(f)
		}
	}
	if len(m.articles) != 1 || len(m.translations) != 1 || m.Named(Procedure, "degas") != m.articles[0] {
		t.Fatalf("%d articles, %d translations", len(m.articles), len(m.translations))
	}
	o, es := m.articles[0], m.translations[0]
	if es.Original != o || es.Language != "es" || es.Name != "degas" || m.In(o, "es") != es || m.In(es, "") != o || m.In(o, "fr") != nil || m.At("procedures/degas.es.md") != es {
		t.Errorf("the two do not belong together: %+v", es)
	}
	if es.Head.Title != "Desgasificar" || es.Head.Revision != "B" || es.Head.Approval.Role != "operator" || es.Head.Approval.Day.Format(dateForm) != "2026-02-03" || !slices.Equal(es.Head.AlsoCalled, []string{"quitar el aire"}) {
		t.Errorf("its own words are not its own: %+v", es.Head)
	}
	if es.Head.Station != "wash" || es.Head.ReviewBy != o.Head.ReviewBy || len(es.Head.Sources) != len(o.Head.Sources) || es.Procedure.Time != o.Procedure.Time || len(es.Procedure.Hazards) != 1 {
		t.Errorf("the original's facts are not its: %+v %+v", es.Head, es.Procedure)
	}
	if !slices.Equal(es.Procedure.Equipment, []string{"reloj", "lámpara"}) || !slices.Equal(o.Procedure.Equipment, []string{"clock", "lamp"}) {
		t.Errorf("equipment: %v, the original's %v", es.Procedure.Equipment, o.Procedure.Equipment)
	}
	if len(es.Sums) != 1 || len(es.Sums[0].Inputs) != 1 || es.Sums[0].Inputs[0].Value != "wash-1" {
		t.Errorf("the calculator has not the original's inputs: %+v", es.Sums)
	}
	if len(es.Signals) != 1 || es.Signals[0].Word != "CAUTION" || es.Signals[0].Shown != "PRECAUCIÓN" {
		t.Errorf("signals: %+v", es.Signals)
	}
	if s := o.Same(&o.Sections[2], es); s == nil || s.Heading != "Esperar" {
		t.Errorf("“%s” stands in the place of “%s”", s.Heading, o.Sections[2].Heading)
	}
	if !slices.Equal(m.Languages(), []string{"es"}) || !slices.Equal(m.Spoken, []string{"cy"}) {
		t.Errorf("languages %v, words of the manual's own %v", m.Languages(), m.Spoken)
	}
}

func TestTranslationRepeatsNoFact(t *testing.T) {
	for what, text := range map[string]string{
		"procedures/degas.es.md:6: repeated-fact “time”":      strings.Replace(desgasificar, "also-called", "time: 12 min\nalso-called", 1),
		"procedures/degas.es.md:6: repeated-fact “review-by”": strings.Replace(desgasificar, "also-called", "review-by: 2028-01-01\nalso-called", 1),
		"procedures/degas.es.md:6: unknown-key “colour”":      strings.Replace(desgasificar, "also-called", "colour: red\nalso-called", 1),
		"procedures/degas.es.md:16: repeated-fact inputs":     strings.Replace(desgasificar, "heat-up\n", "heat-up\ntarget: 62 °C\n", 1),
		"procedures/degas.es.md:2: missing-key “translates”":  strings.Replace(desgasificar, "translates: B\n", "", 1),
		"procedures/degas.es.md:5: unknown-name “manager”":    strings.Replace(desgasificar, ", operator", ", manager", 1),
	} {
		_, findings := readFiles(t, map[string]string{"shop.yaml": smallShopFile, "procedures/degas.md": degas, "procedures/degas.es.md": text})
		place, words, _ := strings.Cut(what, ": ")
		rule, part, _ := strings.Cut(words, " ")
		if len(findings) != 1 || string(findings[0].Rule) != rule || !strings.HasPrefix(findings[0].Place.String(), place) || !strings.Contains(findings[0].Message, part) {
			t.Errorf("wanted %s, found %v", what, findings)
		}
	}
}

// A name with a full stop that no tag follows is an article with an untidy name, as before; a tag in capitals is untidy.
func TestNamesOfTranslations(t *testing.T) {
	for name, remedy := range map[string]string{"degas.v2.md": "degas-v2.md", "degas.pt-BR.md": "degas.pt-br.md"} {
		_, findings := readFiles(t, map[string]string{"shop.yaml": smallShopFile, "procedures/degas.md": degas, "procedures/" + name: desgasificar})
		if !slices.ContainsFunc(findings, func(f finding.Finding) bool {
			return f.Rule == "untidy-file-name" && strings.Contains(strings.ToLower(f.Remedy), strings.ToLower(remedy))
		}) {
			t.Errorf("%s: %v", name, findings)
		}
	}
	if _, findings := readFiles(t, map[string]string{"shop.yaml": smallShopFile, "procedures/index.es.md": desgasificar}); len(findings) == 0 || findings[0].Rule != "unusable-file-name" {
		t.Errorf("index.es.md: %v", findings)
	}
}

// A signal word in Spanish makes a safety message of the same severity, in an article of any language; written small it is called unclear.
func TestSpanishSignalWords(t *testing.T) {
	for word, means := range map[string]string{"PELIGRO": "DANGER", "ADVERTENCIA": "WARNING", "PRECAUCIÓN": "CAUTION", "ATENCIÓN": "CAUTION", "AVISO": "NOTICE", "NOTICE": "NOTICE"} {
		m, findings := readFiles(t, map[string]string{"shop.yaml": smallShopFile, "procedures/degas.md": strings.Replace(degas, "CAUTION", word, 1)})
		if s := m.articles[0].Signals; len(findings) > 0 || len(s) != 1 || s[0].Word != means || s[0].Shown != word {
			t.Errorf("%s: %+v %v", word, s, findings)
		}
	}
	if _, findings := readFiles(t, map[string]string{"shop.yaml": smallShopFile, "procedures/degas.md": strings.Replace(degas, "CAUTION", "Precaución", 1)}); len(findings) != 1 || findings[0].Rule != "unclear-signal" {
		t.Errorf("Precaución: %v", findings)
	}
	if m := new(Manual); len(m.SignalWordsIn("es-MX")) != 5 || m.SignalWordsIn("es-MX")[0] != "PELIGRO" || len(m.SignalWordsIn("en-GB")) != 4 || m.SignalWordsIn("fi") != nil {
		t.Errorf("words of es-MX: %v", m.SignalWordsIn("es-MX"))
	}
}

// A reader that reads again gives the same translation where neither it nor its original has changed, and another where one of them has; the
// manual before stays as it was.
func TestReaderJoinsTranslationsAnew(t *testing.T) {
	fsys := fstest.MapFS{}
	write := func(name, text string) { fsys[name] = &fstest.MapFile{Data: []byte(text)} }
	write("shop.yaml", smallShopFile)
	write("procedures/degas.md", degas)
	write("procedures/degas.es.md", desgasificar)
	var r Reader
	read := func(changed ...string) *Article {
		t.Helper()
		m, _, err := r.Read(context.Background(), fsys, changed)
		if err != nil || len(m.translations) != 1 {
			t.Fatal(err, len(m.translations))
		}
		return m.translations[0]
	}
	first := read()
	if again := read("shop.yaml"); again != first {
		t.Error("the translation is another one though nothing of it has changed")
	}
	write("procedures/degas.md", strings.Replace(degas, "time: 10 min", "time: 12 min", 1))
	second := read("procedures/degas.md")
	if second == first || second.Procedure.Time.Low != 720 || first.Procedure.Time.Low != 600 {
		t.Errorf("the translation has not the new fact, or the old one has it: %s, %s", second.Procedure.Time, first.Procedure.Time)
	}
	write("procedures/degas.es.md", strings.Replace(desgasificar, "title: Desgasificar", "title: Sacar el aire", 1))
	if third := read("procedures/degas.es.md"); third.Head.Title != "Sacar el aire" || third.Original != second.Original || second.Head.Title != "Desgasificar" {
		t.Errorf("the translation has not its new title: %s", third.Head.Title)
	}
	delete(fsys, "procedures/degas.md")
	if alone := read("procedures/degas.md"); alone.Original != nil || !alone.Head.ReviewBy.IsZero() {
		t.Error("a translation of nothing has an original")
	}
}
