package wording

import (
	"slices"
	"strings"
	"testing"

	"go.yaml.in/yaml/v3"
)

func wordsIn(t *testing.T, text []byte) map[string]string {
	t.Helper()
	m := map[string]string{}
	if err := yaml.Unmarshal(text, &m); err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	return m
}

// A template for a language of which there is nothing has every phrase of the program once, each without a translation and under where it is said.
func TestTemplateForFrenchHasEveryPhrase(t *testing.T) {
	for _, l := range Lists {
		text, told, err := Template(l, "fr", nil, nil, false)
		if err != nil {
			t.Fatal(err)
		}
		words := wordsIn(t, text)
		all := l.Phrases()
		if len(all) < 800 || len(words) != len(all) || told.Phrases != len(all) || told.Shown != 0 || len(told.Missing) != len(all) || len(told.New) != len(all) {
			t.Fatalf("%s: %d phrases, %d in the file; told %d shown", l, len(all), len(words), told.Shown)
		}
		for _, p := range all {
			if shown, there := words[p.English]; !there || shown != "" || p.For == "" {
				t.Errorf("%s: %q: %v, %q, for %q", l, p.English, there, shown, p.For)
			}
			if first, _, _ := strings.Cut(p.For, "; "); !strings.Contains(string(text), sectionMark+first+"\n") {
				t.Errorf("%s: nothing says that %q is for %s", l, p.English, first)
			}
		}
		again, told, err := Template(l, "fr", nil, text, false)
		if err != nil || string(again) != string(text) || len(told.New)+len(told.Changed)+len(told.Gone) != 0 {
			t.Errorf("%s: written again it is another file: %v, %+v", l, err, told)
		}
		if none, told, err := Template(l, "fr", allShown(l), nil, false); err != nil || len(wordsIn(t, none)) != 0 || len(told.Missing) != 0 {
			t.Errorf("%s: what the program has words for is asked for again: %v", l, err)
		}
	}
}

func allShown(l List) map[string]string {
	m := map[string]string{}
	for _, p := range l.Phrases() {
		m[p.English] = "x"
	}
	return m
}

// Run again, a file keeps what is translated and a translator's remarks, adds what is new, sets what was translated before beside a phrase that changed, keeps it
// there until that is translated, and keeps at its end what is said no longer.
func TestTemplateIsKeptCurrent(t *testing.T) {
	old := `# mine, at the top
"Fresh water": "Eau neuve"
# checked with the shop
"Yes": "Oui" # of course
"Level at the upper mark": "Niveau au repère"
"Press the green button": "Appuyez"
"No": ""
`
	first, told, err := Template(Pages, "fr", nil, []byte(old), false)
	if err != nil {
		t.Fatal(err)
	}
	words := wordsIn(t, first)
	if words["Fresh water"] != "Eau neuve" || words["Yes"] != "Oui" || words["No"] != "" || told.Shown != 2 {
		t.Errorf("what was translated is lost: %q, %q; %d shown", words["Fresh water"], words["Yes"], told.Shown)
	}
	for _, remark := range []string{"# mine, at the top\n", "# checked with the shop\n", "# of course\n"} {
		if strings.Count(string(first), remark) != 1 {
			t.Errorf("the remark %q is there %d times", remark, strings.Count(string(first), remark))
		}
	}
	was := "# was: \"Level at the upper mark\": \"Niveau au repère\"\n\"Level at the mark\": \"\"\n"
	if len(told.Changed) != 1 || told.Changed[0].Now != "Level at the mark" || !strings.Contains(string(first), was) {
		t.Errorf("the changed phrase: %+v", told.Changed)
	}
	slices.Sort(told.Gone)
	if !slices.Equal(told.Gone, []string{"Level at the upper mark", "Press the green button"}) || !strings.Contains(string(first), "# \"Press the green button\": \"Appuyez\"\n") {
		t.Errorf("what is said no longer: %q", told.Gone)
	}
	second, told, err := Template(Pages, "fr", nil, first, false)
	if err != nil || string(second) != string(first) || len(told.Gone) != 0 || len(told.New) != 0 {
		t.Errorf("written again it is another file: %v, %+v", err, told.Gone)
	}
	done := strings.Replace(string(second), "\"Level at the mark\": \"\"", "\"Level at the mark\": \"Niveau au repère\"", 1)
	third, told, err := Template(Pages, "fr", nil, []byte(done), false)
	if err != nil || strings.Contains(string(third), "# was: ") || told.Shown != 3 {
		t.Errorf("translated anew, it still says what it was: %v, %d shown", err, told.Shown)
	}
	for _, bad := range []string{"- a\n", "\"a\": [b]\n", "\"a\": b\n\"a\": c\n", "\"a: b\n"} {
		if _, _, err := Template(Pages, "fr", nil, []byte(bad), false); err == nil {
			t.Errorf("%q was read", bad)
		}
	}
}

// What can be wrong with a phrase is told apart; a slip on the English side finds the phrase that is meant.
func TestFaultsOfPhrases(t *testing.T) {
	pages, sums := NewChecker(Pages), NewChecker(Calculators)
	for _, c := range []struct {
		of            *Checker
		phrase, shown string
		want          Fault
	}{
		{pages, "Fresh water", "Eau neuve", 0}, {pages, "Fresh water", "", 0}, {pages, "Fresh watter", "Eau", Unknown}, {sums, "Fresh water", "Eau", Unknown},
		{pages, "{a} to {b}", "de {a} à {b}", 0}, {pages, "{a} to {b}", "de {b} à {a}", OtherHoles}, {pages, "{a} to {b}", "de {a}", OtherHoles},
		{pages, "From edition %s of %s, code %s.", "Depuis %s du %s, code %d.", OtherHoles},
		{pages, "Write the time as 6:10.", "Écrire l'heure 6:10.", 0}, {pages, "Write the time as 6:10.", "Écrire l'heure 10:6.", 0}, {pages, "Write the time as 6:10.", "Écrire l'heure 6:11.", OtherFigures},
		{sums, "A bath of more than 30 % concentrate is unusual. Check that the strength is what the data sheet means.", "Plus de 3 % est rare.", OtherFigures},
	} {
		if got := c.of.Fault(c.phrase, c.shown); got != c.want {
			t.Errorf("%q: %q: %v, want %v", c.phrase, c.shown, got, c.want)
		}
	}
	if got := pages.Near("Fresh watter"); got != "Fresh water" {
		t.Errorf("near “Fresh watter” is %q", got)
	}
	if got := pages.Near("something else altogether, said nowhere"); got != "" {
		t.Errorf("near nothing is %q", got)
	}
	if m := pages.Missing(map[string]string{"Fresh water": "Eau"}, map[string]string{"Yes": ""}); len(m) != pages.Count()-1 || slices.Contains(m, "Fresh water") || !slices.Contains(m, "Yes") {
		t.Errorf("%d missing", len(m))
	}
}

// What is quoted is read back the same.
func FuzzQuote(f *testing.F) {
	for _, s := range []string{"a", `"\`, "tab\tline\n", "„ä“ – {x}", "#: '", "\x00\x7f\u2028\ufeff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if !strings.Contains(strings.ToValidUTF8(s, "\x00"), "\x00") {
			var back string
			if err := yaml.Unmarshal([]byte(Quote(s)), &back); err != nil || back != s {
				t.Errorf("%q is read back as %q (%v)", s, back, err)
			}
		}
	})
}
