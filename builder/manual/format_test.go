package manual

import (
	"os"
	"strings"
	"testing"
)

// FORMAT.md shows the declared keys, table by table, between a heading and the next.
func TestFormatIsInStepWithTheDeclaration(t *testing.T) {
	data, err := os.ReadFile("FORMAT.md")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.ReplaceAll(string(data), "\r\n", "\n")
	want := map[string][]Key{"Header, all kinds": HeadKeys(), "shop.yaml": ShopKeys(), "glossary.yaml": GlossaryKeys(), "vocabulary.yaml": VocabularyKeys(), "Translations": TranslationKeys()}
	for _, k := range Kinds {
		want[string(k)] = Keys(k)
		if keys := TranslationKindKeys(k); len(keys) > 0 {
			want[string(k)+", translated"] = keys
		}
	}
	if table := KindReference(); !strings.Contains(text, "\n## Kinds of article\n") || !strings.Contains(text, "\n\n"+table+"\n") {
		t.Errorf("FORMAT.md has no section “Kinds of article” with this table:\n%s", table)
	}
	for heading, keys := range want {
		_, section, found := strings.Cut(text, "## "+heading+"\n")
		if !found {
			t.Errorf("FORMAT.md has no section “%s”", heading)
			continue
		}
		if table := Reference(keys); !strings.Contains(section, table) {
			t.Errorf("the table under “%s” is out of step; it should be:\n%s", heading, table)
		}
	}
	for _, v := range []Vocabulary{stationWords} {
		for _, w := range v.Words {
			if !strings.Contains(text, w) {
				t.Errorf("FORMAT.md does not know the %s “%s”", v.Name, w)
			}
		}
	}
}

func TestAnchors(t *testing.T) {
	for heading, want := range map[string]string{
		"Does it wipe off dry?":        "does-it-wipe-off-dry",
		"  60 °C — too hot!  ":         "60-c-too-hot",
		"Größe & Maß":                  "größe-maß",
		"I can't measure it":           "i-can-t-measure-it",
		"???":                          "section",
		"":                             "section",
		"Top-up: what `tankside` says": "top-up-what-tankside-says",
	} {
		if got := Anchor(heading); got != want {
			t.Errorf("%q: %q, want %q", heading, got, want)
		}
	}
	doc := Parse([]byte("## A\n\n## A\n\n## A 2\n\n> ## A\n\n## *A* [b](c.md)\n"))
	var got []string
	visitHeadings(doc, func(id string) { got = append(got, id) })
	if s := strings.Join(got, " "); s != "a a-2 a-2-2 a-3 a-b" {
		t.Errorf("anchors of one text: %s", s)
	}
}

// A name that is nearly right leads to the right one.
func TestNearest(t *testing.T) {
	words := []string{"wash-1", "wash-2", "heavy-duty-caustic", "temperature", "time", "ph"}
	for word, want := range map[string]string{
		"wash1": "wash-1", "Wash 1": "wash-1", "heavy caustic": "heavy-duty-caustic", "temprature": "temperature", "tiem": "time", "colour": "", "x": "", "pH": "ph",
	} {
		if got := Nearest(word, words); got != want {
			t.Errorf("%s: %q, want %q", word, got, want)
		}
	}
}
