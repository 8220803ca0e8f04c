package page

import (
	"context"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"tankside/builder/edition"
	"tankside/builder/manual"
	"tankside/themes"
)

// Every link of the pages in another language leads to a page and a place that are there, and those to pages in the manual's own say so.
func TestTranslatedPagesLeadSomewhere(t *testing.T) {
	_, files := demo(t)
	n := 0
	for page, html := range files {
		if !strings.HasSuffix(page, ".es.html") {
			continue
		}
		n++
		_, body, _ := strings.Cut(html, "<body")
		for _, tag := range anchors.FindAllString(body, -1) {
			href := hrefs.FindStringSubmatch(tag)
			if href == nil || strings.Contains(href[1], ":") {
				continue
			}
			if href[1] == "notices.txt" {
				continue // which package builder adds
			}
			if strings.Contains(tag, BookPage) {
				files := map[string]string{BookPage: ""} // which package book makes
				leads(t, files, page, cut.ReplaceAllString(tag, `"`))
			} else if !strings.Contains(tag, asksSum) && !strings.HasPrefix(strings.TrimLeft(href[1], "./"), "may-it-go-in.html#") {
				if plain, err := url.PathUnescape(href[1]); err != nil {
					t.Errorf("%s: %v", tag, err)
				} else {
					leads(t, files, page, `href="`+plain+`"`)
				}
			}
			file, _, _ := strings.Cut(href[1], "#")
			if file != "" && !strings.HasSuffix(file, ".es.html") && strings.HasSuffix(file, ".html") && !strings.Contains(tag, `hreflang="en"`) {
				t.Errorf("%s: %s leads to a page in English and does not say so", page, tag)
			}
		}
	}
	if n < 20 {
		t.Fatalf("only %d pages in Spanish", n)
	}
}

var cut = regexp.MustCompile(`#[^"]*"`)

const asksSum = "#at.suits"

var anchors = regexp.MustCompile(`<a [^>]*>`)

// A page and its translation name each other, in their own words, and links stay in the language where they can.
func TestTranslationsNameEachOther(t *testing.T) {
	folder := t.TempDir()
	if err := os.CopyFS(folder, os.DirFS("../../content")); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"materials/titanium.es.md", "procedures/glass-bead-demonstration.es.md"} { // as if nobody had translated these yet
		if err := os.Remove(filepath.Join(folder, filepath.FromSlash(name))); err != nil {
			t.Fatal(err)
		}
	}
	made, files := rendered(t, os.DirFS(folder))
	approved := ""
	for _, a := range made.Manual.Translations {
		if a.Path == "procedures/degas.es.md" {
			approved = fmt.Sprintf(`>Revisión %s · aprobado %s, <span lang="en">%s, %s</span>`, made.Manual.At("procedures/degas.md").Head.Revision,
				a.Head.Approval.Day.Format(time.DateOnly), a.Head.Approval.Name, a.Head.Approval.Role)
		}
	}
	for page, want := range map[string][]string{
		"procedures/degas.html": {`<html lang="en"`,
			`<a href="../procedures/degas.es.html" hreflang="es" lang="es" rel="alternate">Español</a>`, `<span aria-current="true">English</span>`},
		"procedures/degas.es.html": {`<html lang="es"`, `<a href="../procedures/degas.html" hreflang="en" lang="en" rel="alternate">English</a>`, `<h1>Desgasificar el baño</h1>`,
			"<dt>Hace falta</dt><dd>lámpara, cronómetro", `<p class="signal">ADVERTENCIA</p>`, `<div class="safety caution" role="note"><p class="signal">PRECAUCIÓN</p>`,
			`<ol lang="en">`,
			`aria-label="La línea de limpieza"`, approved},
		"symptoms/spotty-parts.es.html":      {`</span> ¿Tiene demasiada sal el último enjuague?</h2>`, `<a href="../chemistries/deionised-water.es.html">agua desionizada</a>`, `data-report="../visit.es.html"`},
		"procedures/fill-and-dilute.es.html": {`<a href="../procedures/degas.es.html">desgasifique</a>`},
		"index.es.html":                      {`<a href="symptoms/spotty-parts.es.html">`, "Manchas al secar", `<a href="glossary.html" hreflang="en">`, `<a href="tanks/wash-1.es.html">`, `href="a-z.es.html"`},
		"a-z.es.html":                        {`manchas blancas: <a href="symptoms/spotty-parts.es.html">`, `<a href="a-z.html" hreflang="en" lang="en">English</a>`},
		"procedures/index.es.html":           {`<a href="../procedures/degas.es.html"><span class="entry">Desgasificar el baño</span>`, `<a href="../procedures/glass-bead-demonstration.html" hreflang="en" lang="en">`},
		"materials/titanium.html":            {`<html lang="en"`},
	} {
		for _, w := range want {
			if !strings.Contains(files[page], w) {
				t.Errorf("%s lacks %s", page, w)
			}
		}
	}
	if strings.Contains(files["materials/titanium.html"], `class="languages"`) || strings.Contains(files["materials/titanium.html"], "alternate") {
		t.Error("a page without translation offers languages")
	}
	if strings.Contains(files["a-z.es.html"], "Foam") {
		t.Error("the Spanish index has English words")
	}
}

// The manual may be written in Spanish and translated into English; a link by heading leads to the section in the same place.
func TestTranslationIntoEnglish(t *testing.T) {
	head := func(title, more string) string {
		return "---\ntitle: " + title + "\nsummary: Para una prueba.\n" + more + "---\n"
	}
	own := "station: wash\nrevision: A\napproved: 2026-09-14, operador\nreview-by: 2027-09-14\nsources: [common practice, no source]\n"
	files := map[string]string{
		"shop.yaml":               "name: Taller\nlanguage: es\nroles: [operador]\ntanks:\n- {id: wash-1, name: Lavado 1, volume: 50 L}\n",
		"procedures/llenar.md":    head("Llenar", own) + "> **AVISO** Hasta la marca.\n\n## Cuánto\n\n50 L.\n\n## Después\n\n[Probar](probar.md#cómo).\n",
		"procedures/probar.md":    head("Probar", own) + "## Cómo\n\nVéase [cuánto](llenar.md#cuánto).\n",
		"procedures/llenar.en.md": head("Fill", "translates: A\napproved: 2026-09-15, operador\n") + "> **NOTICE** To the line.\n\n## How much\n\n50 L.\n\n## Then\n\n[Test](probar.md#cómo).\n",
		"procedures/probar.en.md": head("Test", "translates: A\napproved: 2026-09-15, operador\n") + "## How\n\nSee [how much](llenar.md#cuánto).\n",
	}
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	m, findings, err := manual.Read(context.Background(), fsys)
	if err != nil || len(findings) > 0 {
		t.Fatal(err, findings)
	}
	pages := map[string]string{}
	s, err := newSite(Input{Manual: m, Theme: themes.New(nil), Mark: edition.Mark{Edition: 1, Date: "2026-09-14", Code: "234-567-89A"}, Day: "2026-09-14"}, func(string, []byte) error { return nil })
	if err != nil {
		t.Fatal(err)
	}
	for _, j := range s.pages() {
		if err := j.render(func(path string, data []byte) error { pages[path] = string(data); return nil }); err != nil {
			t.Fatal(err)
		}
	}
	for page, want := range map[string][]string{
		"procedures/llenar.html":    {`<html lang="es"`, `<a href="../procedures/llenar.en.html" hreflang="en" lang="en" rel="alternate">English</a>`, `<p class="signal">AVISO</p>`, `href="../procedures/probar.html#c%C3%B3mo"`},
		"procedures/llenar.en.html": {`<html lang="en"`, `>Español</a>`, `<p class="signal">NOTICE</p>`, `href="../procedures/probar.en.html#how"`},
		"procedures/probar.en.html": {`href="../procedures/llenar.en.html#how-much"`},
	} {
		for _, w := range want {
			if !strings.Contains(pages[page], w) {
				t.Errorf("%s lacks %s", page, w)
			}
		}
	}
}

// “Several things at once” is there in a language in which every symptom is, with the translations' words and ways; the anchors of what can be ticked
// are those of the original. Where one symptom is not translated the page is in the manual's own language alone.
func TestSeveralThingsAtOnceInAnotherLanguage(t *testing.T) {
	symptom := func(title, more, body string) string {
		return "---\ntitle: " + title + "\nsummary: For a test.\n" + more + "---\n" + body
	}
	own := func(seen string) string {
		return "station: wash\nseen-on: part\nobservations: [{seen: " + seen + ", by: wipe}]\nrevision: A\napproved: 2026-09-14, operator\nreview-by: 2027-09-14\nsources: [common practice, no source]\n"
	}
	other := func(seen string) string {
		return "translates: A\napproved: 2026-09-15, operator\nobservations: [" + seen + "]\n"
	}
	fsys := fstest.MapFS{}
	for name, text := range map[string]string{
		"shop.yaml":        "name: Shop\nroles: [operator]\ntanks:\n- {id: wash-1, name: Wash 1, volume: 50 L}\n",
		"symptoms/a.md":    symptom("Spots", own("white spots"), "## Wet?\n\n- Yes: [Salt](#salt)\n- No: [Other](b.md)\n\n## Salt\n\n**Seen with.** Typical: white spots.\n\n**Recheck.** Look.\n"),
		"symptoms/b.md":    symptom("Film", own("a film"), "## Oily?\n\n- Yes: [Oil](#oil)\n- No: [Other](a.md)\n\n## Oil\n\n**Seen with.** Typical: a film.\n\n**Recheck.** Look.\n"),
		"symptoms/a.es.md": symptom("Manchas", other("manchas blancas"), "## ¿Húmedo?\n\n- Sí: [Sales](#sales)\n- No: [Otra](b.md)\n\n## Sales\n\n**Comprobación.** Mire.\n"),
		"symptoms/b.es.md": symptom("Película", other("una película"), "## ¿Aceitosa?\n\n- Sí: [Aceite](#aceite)\n- No: [Otra](a.md)\n\n## Aceite\n\n**Comprobación.** Mire.\n"),
	} {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	page := func() (string, string) {
		m, findings, err := manual.Read(t.Context(), fsys)
		if err != nil || len(findings) > 0 {
			t.Fatal(err, findings)
		}
		files := map[string]string{}
		var guard sync.Mutex
		if _, err := Render(t.Context(), Input{Manual: m, Theme: themes.New(nil), Mark: edition.Mark{Edition: 1, Date: "2026-09-14", Code: "234-567-89A"}, Day: "2026-09-14"}, func(path string, data []byte) error {
			guard.Lock()
			defer guard.Unlock()
			files[path] = string(data)
			return nil
		}); err != nil {
			t.Fatal(err)
		}
		return files["what-is-seen.es.html"], files["index.es.html"]
	}
	seen, home := page()
	for _, want := range []string{`<li id="white-spots" data-observation="0"><p class="seen-what"><span class="seen-words">manchas blancas</span>`, `<a href="symptoms/a.es.html#sales"`, ">Sales</a>",
		`<a href="symptoms/b.es.html#aceite" data-symptom="Película">Aceite</a>`, "Varias cosas a la vez"} {
		if !strings.Contains(seen, want) {
			t.Errorf("the Spanish page lacks %s", want)
		}
	}
	if !strings.Contains(home, `<a href="what-is-seen.es.html">`) {
		t.Error("the Spanish home page does not lead to the Spanish page")
	}
	delete(fsys, "symptoms/b.es.md")
	if seen, home := page(); seen != "" || !strings.Contains(home, `<a href="what-is-seen.html" hreflang="en">`) {
		t.Error("with one symptom in English alone the page is there in Spanish, or the home page does not say where it leads")
	}
}
