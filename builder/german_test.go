package builder

import (
	"fmt"
	"html"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"go.yaml.in/yaml/v3"

	"tankside/builder/language/marked"
	"tankside/builder/wording"
)

// Pages in German have no English left: those of a manual's translation, and those of a manual that is German itself, with every calculator, the cards and the
// book. Looked for are the program's English phrases, and words that no English sentence does without.
func TestGermanPagesHaveNoEnglish(t *testing.T) {
	t.Parallel()
	look := newEnglish(t)
	own := strings.NewReplacer( // the shop's own words are not translated
		"An invented workshop and an invented manual. No figure in it is meant for your bath.", "", "a dense dark wood of which clarinets are turned", "",
		"an alloy of copper, nickel and zinc without any silver, of which keys are made", "")
	to := filepath.Join(t.TempDir(), "edition")
	if _, err := publish(t, woodwinds, to, day); err != nil {
		t.Fatal(err)
	}
	n := 0
	for path, page := range files(t, to) {
		if strings.HasSuffix(path, ".de.html") {
			n++
			for _, text := range look.in(own.Replace(page)) {
				t.Errorf("%s: %s", path, text)
			}
		}
	}
	if n < 60 {
		t.Errorf("only %d pages of the translation", n)
	}
	n = 0
	german := filepath.Join(t.TempDir(), "edition")
	if r, err := publish(t, germanManual(t), german, day); err != nil {
		for _, f := range r.Findings {
			if f.Stops() {
				t.Log(f.Place, f.Rule, f.Message)
			}
		}
		t.Fatal(err)
	}
	for path, page := range files(t, german) {
		if strings.HasSuffix(path, ".html") {
			n++
			for _, text := range look.in(page) {
				t.Errorf("%s: %s", path, text)
			}
		}
	}
	if n < 60 {
		t.Errorf("only %d pages of the German manual", n)
	}
	if found := look.in(files(t, to)["index.html"]); len(found) < 10 { // the same page in English
		t.Errorf("of the English home page only this is taken for English: %q", found)
	}
}

// english looks for English in pages of another language.
type english struct {
	phrases []string // of the program, with what is shown for them otherwise in the other language; parts between holes of those that have some
	german  *strings.Replacer
}

// little are words of English that are no words of German, and letters of no formula.
var little = regexp.MustCompile(`(?i)(?:^|[^\pL.-])(the|and|of|with|is|are|this|which|not|what|from|for|by|be|it|on|that|there|has|have|or|if)(?:$|[^\pL.-])`)

func newEnglish(t *testing.T) *english {
	t.Helper()
	e := &english{}
	var titles []string // German phrases that name English books
	for _, l := range wording.Lists {
		for phrase, shown := range marked.Read(t, l.File("de")) {
			if little.MatchString(marked.Holes.ReplaceAllString(shown, " ")) {
				for _, part := range marked.Holes.Split(shown, -1) {
					titles = append(titles, part, "")
				}
			}
			if phrase == shown {
				continue
			}
			parts := regexp.MustCompile(`%[sd]|`+marked.Holes.String()).Split(phrase, -1)
			for _, part := range parts {
				if part = strings.TrimSpace(part); len(parts) == 1 || strings.Count(part, " ") >= 2 && little.MatchString(part) {
					e.phrases = append(e.phrases, part)
				}
			}
		}
	}
	e.german = strings.NewReplacer(titles...)
	return e
}

var (
	quiet     = regexp.MustCompile(`(?s)<(script|style|code|noscript)\b.*?</(?:script|style|code|noscript)>|<!--.*?-->`)
	tags      = regexp.MustCompile(`<[^>]*>`)
	attribute = regexp.MustCompile(`\b(?:alt|title|aria-label|placeholder|data-say-[a-z-]+)="([^"]*)"`)
	otherTag  = regexp.MustCompile(`<([a-z]+)\b[^>]*\blang="en[^"]*"[^>]*>`)
	pageName  = regexp.MustCompile(`[\w./-]+\.(?:html|json|txt|md)`)
)

// in gives what is English in a page, but for elements that say that they are.
func (e *english) in(page string) []string {
	_, page, _ = strings.Cut(quiet.ReplaceAllString(page, " "), "<body")
	for {
		at := otherTag.FindStringSubmatchIndex(page)
		if at == nil {
			break
		}
		end := strings.Index(page[at[1]:], "</"+page[at[2]:at[3]]+">")
		if end < 0 {
			end = 0
		}
		page = page[:at[0]] + page[at[1]+end:]
	}
	texts := strings.Split(tags.ReplaceAllString(page, "\x00"), "\x00")
	for _, m := range attribute.FindAllStringSubmatch(page, -1) {
		texts = append(texts, m[1])
	}
	var found []string
	for _, text := range texts {
		text = strings.Join(strings.Fields(html.UnescapeString(text)), " ")
		text = strings.TrimSpace(pageName.ReplaceAllString(e.german.Replace(marked.Holes.ReplaceAllString(text, " ")), " ")) // a hole in what scripts say has an English name
		if text == "Seen with" || text == "Recheck" || text == "How to look" {
			continue // lead-ins of the format, which are the same in a manual of every language
		}
		if word := little.FindString(text); word != "" && !bookTitle.MatchString(text) {
			found = append(found, fmt.Sprintf("“%s” in “%s”", strings.TrimSpace(word), text))
			continue
		}
		for _, p := range e.phrases {
			if text == p || strings.Count(p, " ") >= 2 && strings.Contains(text, p) {
				found = append(found, fmt.Sprintf("“%s” in “%s”", p, text))
				break
			}
		}
	}
	return found
}

// bookTitle is a part of a source that names English books, as it stands between marks of emphasis.
var bookTitle = regexp.MustCompile(`Fundamentals of Heat|Steam Tip Sheet|Physical Principles|Office of Water Quality|Standard Methods|Principles and Practice|Acoustic Bubble`)

// germanManual makes of the woodwind manual one that is German itself: header and text of each article are those of its translation. The lead-ins of symptoms are the
// format's, which are English in a manual of every language.
func germanManual(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS(woodwinds)); err != nil {
		t.Fatal(err)
	}
	put := func(path, text string) {
		if err := os.WriteFile(filepath.Join(dir, filepath.FromSlash(path)), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	all := files(t, dir)
	for path, text := range all {
		translation, is := all[strings.TrimSuffix(path, ".md")+".de.md"]
		if !is {
			continue
		}
		put(path, inGerman(t, text, translation))
		if err := os.Remove(filepath.Join(dir, strings.TrimSuffix(path, ".md")+".de.md")); err != nil {
			t.Fatal(err)
		}
	}
	put("shop.yaml", strings.NewReplacer("language: en\ntranslations: [de]", "language: de", "[bench hand, master, safety officer]", "[Geselle, Meister, Sicherheitsfachkraft]",
		"An invented workshop and an invented manual. No figure in it is meant for your bath.", "Ein erfundener Betrieb; keine Zahl ist für ein echtes Bad.",
		"Bench bath", "Werkbankbad", "Descaling pot", "Entkalkungstopf", "Tap rinse", "Leitungsspüle", "Last rinse", "Letzte Spüle", "Drying cabinet", "Trockenschrank", "warm air", "Warmluft").Replace(all["shop.yaml"]))
	put("glossary.yaml", "S-Bogen: {means: das gebogene Rohr eines Saxophons, also-called: [Bogen]}\n")
	put("vocabulary.yaml", strings.NewReplacer("an alloy of copper, nickel and zinc without any silver, of which keys are made", "Legierung für Klappen", "a dense dark wood of which clarinets are turned", "dichtes dunkles Holz").Replace(all["vocabulary.yaml"]))
	put("records/bench.csv", strings.NewReplacer("fresh bath", "", "new bath", "", "topped up", "", "skimmed", "").Replace(all["records/bench.csv"]))
	return dir
}

// inGerman puts the words of a translation into its original.
func inGerman(t *testing.T, original, translation string) string {
	t.Helper()
	head, body, _ := strings.Cut(strings.TrimPrefix(original, "---\n"), "\n---\n")
	words, text, _ := strings.Cut(strings.TrimPrefix(translation, "---\n"), "\n---\n")
	var facts, own map[string]any
	if err := yaml.Unmarshal([]byte(head), &facts); err != nil {
		t.Fatal(err)
	}
	if err := yaml.Unmarshal([]byte(words), &own); err != nil {
		t.Fatal(err)
	}
	var observed []string // English, German, English …
	for _, key := range slices.Sorted(maps.Keys(own)) {
		switch key {
		case "translates", "approved":
		case "observations":
			for i, o := range facts[key].([]any) {
				was := o.(map[string]any)
				seen := own[key].([]any)[i].(string)
				observed = append(observed, was["seen"].(string), seen)
				was["seen"] = seen
			}
		default:
			facts[key] = own[key]
		}
	}
	facts["approved"], facts["sources"] = "not yet", []string{"common practice, no source"}
	delete(facts, "rests-on")
	if facts["for"] != nil {
		facts["for"] = []string{"Geselle"}
	}
	if day, is := facts["review-by"].(time.Time); is {
		facts["review-by"] = day.Format(time.DateOnly)
	}
	data, err := yaml.Marshal(facts)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range strings.Split(body, "\n\n") {
		if strings.HasPrefix(p, "**Seen with.**") {
			at := strings.Index(text, "**Zu sehen mit.**")
			end := strings.Index(text[at:], "\n\n")
			text = text[:at] + strings.NewReplacer(observed...).Replace(p) + text[at+end:]
		}
	}
	text = strings.NewReplacer("**Nachprüfen.**", "**Recheck.**", "**Hinsehen.**", "**How to look.**", "(source: from the supplier)", "", "```calculator heat-up\n", "```calculator heat-up\ntank: bench\ntarget: 42 °C\n").Replace(text)
	return "---\n" + string(data) + "---\n" + text
}
