package search_test

import (
	"bytes"
	"context"
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"sync"
	"testing"

	"tankside/search"
)

// shelf is a small invented manual.
var shelf = []search.Document{
	{Path: "soils/wax.html", Title: "Wax", Kind: "soil", Station: "wash", AlsoCalled: []string{"polishing paste", "wont come clean"},
		Text: "A film that smears when wiped. It melts between 50–65 °C."},
	{Path: "soils/wax.html#melting-it-off", Title: "Wax", Section: "Melting it off", Kind: "soil", Station: "wash",
		Text: "Heat the bath to 70 °C, above the melting point, then wash for 8 minutes at 40 kHz. Dilute 1:40."},
	{Path: "symptoms/spots.html", Title: "Spots on dried parts", Kind: "symptom", Station: "dry", AlsoCalled: []string{"white spots"},
		Text: "Rings and dots where a drop dried. Not the same as rust."},
	{Path: "symptoms/spots.html#does-a-wet-cloth-take-them-off", Title: "Spots on dried parts", Section: "Does a wet cloth take them off?",
		Kind: "symptom", Station: "dry", Question: true, Text: "Yes: hard-water salts. No: etching."},
	{Path: "symptoms/spots.html#hard-water-salts", Title: "Spots on dried parts", Section: "Hard-water salts", Kind: "symptom", Station: "dry",
		Text: "The last rinse leaves its salts behind when it dries. Use deionised water under 30 µS/cm."},
	{Path: "symptoms/foam.html", Title: "Foam on the bath", Kind: "symptom", Station: "wash",
		Text: "Too cold, too much detergent, or air drawn in. Most foam falls when the bath is hot."},
	{Path: "materials/aluminium.html", Title: "Wrought aluminium", Kind: "material", Station: "wash",
		Text: "6061-T6, 5083 and 7075. Strong alkali turns it black and dissolves it: pH 9.5 at most, 140 °F at most."},
	{Path: "procedures/foil-test.html", Title: "Foil test", Kind: "procedure", Station: "maintain",
		Text: "Hang kitchen foil in the ultrasonic tank for a minute; even pitting shows even cavitation. Anodised parts stay out."},
	{Path: "glossary.html#cavitation", Title: "Glossary", Section: "cavitation", Kind: "glossary", Text: "Bubbles that form and collapse in the sound."},
}

var sayings = []search.Synonym{
	{Term: "foam", Words: []string{"suds", "soapsuds", "bubbles on top"}},
	{Term: "detergent", Words: []string{"soap"}},
	{Term: "dissolve", Words: []string{"eaten away"}},
}

func open(t testing.TB, docs []search.Document, synonyms []search.Synonym) *search.Finder {
	t.Helper()
	blob, err := search.Index(docs, synonyms)
	if err != nil {
		t.Fatal(err)
	}
	f, err := search.Open(blob)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := f.Close(); err != nil {
			t.Error(err)
		}
	})
	return f
}

func ask(t testing.TB, f *search.Finder, q search.Question) search.Answer {
	t.Helper()
	a, err := f.Ask(context.Background(), q)
	if err != nil {
		t.Fatalf("%q: %v", q.Words, err)
	}
	return a
}

func TestIndexIsTheSameToTheByte(t *testing.T) {
	t.Parallel()
	first, err := search.Index(shelf, sayings)
	if err != nil {
		t.Fatal(err)
	}
	var all sync.WaitGroup
	for n := range 10 {
		all.Go(func() {
			docs, synonyms := slices.Clone(shelf), slices.Clone(sayings)
			r := rand.New(rand.NewPCG(1, uint64(n)))
			r.Shuffle(len(docs), func(i, j int) { docs[i], docs[j] = docs[j], docs[i] })
			r.Shuffle(len(synonyms), func(i, j int) { synonyms[i], synonyms[j] = synonyms[j], synonyms[i] })
			again, err := search.Index(docs, synonyms)
			if err != nil {
				t.Error(err)
			} else if !bytes.Equal(first, again) {
				t.Error("the same documents in another order give other bytes")
			}
		})
	}
	all.Wait()
}

func TestIndexNamesWhatIsWrong(t *testing.T) {
	for _, c := range []struct {
		say  string
		docs []search.Document
	}{
		{"is there twice", []search.Document{{Path: "a.html", Title: "A"}, {Path: "a.html", Title: "B"}}},
		{"no title", []search.Document{{Path: "a.html", Title: " \n"}}},
		{"no path", []search.Document{{Title: "A"}}},
	} {
		if _, err := search.Index(c.docs, nil); err == nil || !strings.Contains(err.Error(), c.say) {
			t.Errorf("error %v does not say %q", err, c.say)
		}
	}
}

func TestEmptyManual(t *testing.T) {
	f := open(t, nil, nil)
	if a := ask(t, f, search.Question{Words: "anything"}); a.Total != 0 || len(a.Hits) != 0 {
		t.Errorf("found %+v in nothing", a)
	}
}

// Each question leads to one section by one means of the search.
func TestAsk(t *testing.T) {
	f := open(t, shelf, sayings)
	for _, c := range []struct{ means, question, path string }{
		{"everyday name", "white spots", "symptoms/spots.html"},
		{"apostrophe", "won’t come clean", "soils/wax.html"},
		{"no apostrophe", "wont come clean", "soils/wax.html"},
		{"stem", "melts ", "soils/wax.html#melting-it-off"},
		{"section of a title", "wax melting off ", "soils/wax.html#melting-it-off"},
		{"question of a tree", "wet cloth ", "symptoms/spots.html#does-a-wet-cloth-take-them-off"},
		{"hyphen written together", "hardwater ", "symptoms/spots.html#hard-water-salts"},
		{"hyphen written apart", "hard water ", "symptoms/spots.html#hard-water-salts"},
		{"one word written apart", "ultra sonic ", "procedures/foil-test.html"},
		{"number with unit, no space", "70C ", "soils/wax.html#melting-it-off"},
		{"number with unit", "70 °C ", "soils/wax.html#melting-it-off"},
		{"unit in words", "70 degrees celsius ", "soils/wax.html#melting-it-off"},
		{"both ends of a range", "50 °C ", "soils/wax.html"},
		{"the other scale", "60 °C aluminium ", "materials/aluminium.html"},
		{"ratio", "1:40 ", "soils/wax.html#melting-it-off"},
		{"alloy", "6061 ", "materials/aluminium.html"},
		{"alloy with temper", "6061T6 ", "materials/aluminium.html"},
		{"unit of sound", "40kHz ", "soils/wax.html#melting-it-off"},
		{"American spelling", "aluminum ", "materials/aluminium.html"},
		{"American ending", "anodized ", "procedures/foil-test.html"},
		{"beginning of a word", "alu turned black", "materials/aluminium.html"},
		{"word while typing", "cavit", "glossary.html#cavitation"},
		{"letter wrong", "cavetation ", "glossary.html#cavitation"},
		{"letter missing", "detergnt ", "symptoms/foam.html"},
		{"letters exchanged", "deteregnt ", "symptoms/foam.html"},
		{"trade's term for everyday word", "suds ", "symptoms/foam.html"},
		{"expression", "bubbles on top ", "symptoms/foam.html"},
		{"expression in another form", "bubble on the top ", "symptoms/foam.html"},
		{"everyday word for another of the same term", "soapsuds bath ", "symptoms/foam.html"},
		{"expression inside a question", "aluminium eaten away ", "materials/aluminium.html"},
		{"synonym with question words", "how much soap ", "symptoms/foam.html"},
		{"accents and direction marks", "\u202ewáx\u202c ", "soils/wax.html"},
	} {
		a := ask(t, f, search.Question{Words: c.question})
		if len(a.Hits) == 0 {
			t.Errorf("%s: %q finds nothing", c.means, c.question)
		} else if a.Hits[0].Path != c.path {
			t.Errorf("%s: %q leads to %s, not %s", c.means, c.question, a.Hits[0].Path, c.path)
		}
	}
}

// A value finds the ranges that hold it, and no others; what says the value
// itself comes first.
func TestValueInsideARange(t *testing.T) {
	docs := []search.Document{
		{Path: "a.html", Title: "Mild wash", Text: "Run it at 50–65 °C and 2–5 % v/v, pH 9.5–10.5, 25–40 kHz."},
		{Path: "b.html", Title: "Hot wash", Text: "Run it at 70–85 °C and 10–20 % v/v, pH 12–13, 80–130 kHz."},
		{Path: "c.html", Title: "Strip heater", Text: "It holds 58 °C."},
	}
	f := open(t, docs, nil)
	for _, c := range []struct{ question, paths string }{
		{"60 °C ", "a.html"}, {"58 °C ", "c.html a.html"}, {"63c ", "a.html"}, {"140 °F ", "a.html"}, {"66 °C ", ""}, {"49 °C ", ""}, {"72 °C ", "b.html"},
		{"3 % ", "a.html"}, {"15 % ", "b.html"}, {"7 % ", ""}, {"pH 10 ", "a.html b.html"}, {"pH 12.4 ", "b.html a.html"},
		{"30 kHz ", "a.html"}, {"100 kHz ", "b.html"}, {"60 kHz ", ""}, {"51–64 °C ", "a.html"},
	} {
		var paths []string
		for _, h := range ask(t, f, search.Question{Words: c.question}).Hits {
			paths = append(paths, h.Path)
		}
		if got := strings.Join(paths, " "); got != c.paths {
			t.Errorf("%q leads to %q, not %q", c.question, got, c.paths)
		}
	}
}

func TestOneHitForAnArticle(t *testing.T) {
	f := open(t, shelf, sayings)
	a := ask(t, f, search.Question{Words: "hard water salts wet cloth spots drop rinse "})
	seen := map[string]bool{}
	for _, h := range a.Hits {
		if seen[h.Title] {
			t.Errorf("%s is there twice", h.Title)
		}
		seen[h.Title] = true
	}
	if a.Total != len(a.Hits) {
		t.Errorf("%d in total, %d shown", a.Total, len(a.Hits))
	}
}

func TestFiltersAndCounts(t *testing.T) {
	f := open(t, shelf, sayings)
	all := ask(t, f, search.Question{Words: "bath "})
	if all.Total < 2 {
		t.Fatalf("only %d articles", all.Total)
	}
	soils := ask(t, f, search.Question{Words: "bath ", Kind: "soil"})
	if soils.Total != 1 || soils.Hits[0].Kind != "soil" {
		t.Errorf("soils: %+v", soils)
	}
	if !slices.Equal(soils.Kinds, all.Kinds) {
		t.Errorf("kinds %v with a kind chosen, %v without", soils.Kinds, all.Kinds)
	}
	sum := 0
	for _, k := range all.Kinds {
		sum += k.Articles
	}
	if sum != all.Total {
		t.Errorf("kinds add up to %d, total is %d", sum, all.Total)
	}
	dry := ask(t, f, search.Question{Words: "bath ", Station: "dry"})
	if dry.Total != 0 {
		t.Errorf("%+v at station dry", dry)
	}
}

func TestNothingFoundOffersNearWords(t *testing.T) {
	f := open(t, shelf, sayings)
	a := ask(t, f, search.Question{Words: "cuvutetion "})
	if a.Total != 0 || !slices.Contains(a.Nearest, "cavitation") {
		t.Errorf("total %d, nearest %v", a.Total, a.Nearest)
	}
	for _, words := range []string{"", "   ", "the of a", "?!", "\x00\x1b[31m"} {
		if a := ask(t, f, search.Question{Words: words}); a.Total != 0 || len(a.Hits) != 0 {
			t.Errorf("%q found %+v", words, a)
		}
	}
}

func TestSnippetIsThePieceThatAnswers(t *testing.T) {
	f := open(t, shelf, sayings)
	a := ask(t, f, search.Question{Words: "deionised 30 µS "})
	var text, marked string
	for _, run := range a.Hits[0].Snippet {
		text += run.Text
		if run.Marked {
			marked += run.Text + "|"
		}
	}
	if want := "Use deionised water under 30 µS/cm."; !strings.Contains(text, want) {
		t.Errorf("snippet %q lacks %q", text, want)
	}
	if want := "deionised|30 µS|"; marked != want {
		t.Errorf("marked %q, want %q", marked, want)
	}
}

func TestLimit(t *testing.T) {
	f := open(t, shelf, sayings)
	a := ask(t, f, search.Question{Words: "bath ", Limit: 1})
	if len(a.Hits) != 1 || a.Total < 2 {
		t.Errorf("%d hits of %d with limit 1", len(a.Hits), a.Total)
	}
	b := ask(t, f, search.Question{Words: "bath ", Limit: 1 << 30})
	if len(b.Hits) != b.Total {
		t.Errorf("%d hits of %d with a huge limit", len(b.Hits), b.Total)
	}
}

func TestAskStopsWithItsContext(t *testing.T) {
	f := open(t, shelf, sayings)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := f.Ask(ctx, search.Question{Words: "wax"}); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v", err)
	}
}

func TestManyAskAtOnce(t *testing.T) {
	f := open(t, shelf, sayings)
	want := ask(t, f, search.Question{Words: "hard water spots"})
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for range 50 {
				got, err := f.Ask(context.Background(), search.Question{Words: "hard water spots"})
				if err != nil || len(got.Hits) != len(want.Hits) || got.Hits[0].Score != want.Hits[0].Score {
					t.Errorf("%+v, %v; want %+v", got, err, want)
					return
				}
			}
		})
	}
	all.Wait()
}

func TestOpenRefusesDamage(t *testing.T) {
	t.Parallel()
	blob := refusesDamage(t, shelf)
	newer := bytes.Clone(blob)
	newer[len("tankside find\n")+3]++
	if _, err := search.Open(newer); !errors.Is(err, search.ErrVersion) {
		t.Errorf("newer version: %v", err)
	}
}

// refusesDamage sees to it that an index of which any byte is another, or which ends too early, is not opened. It gives the whole index.
func refusesDamage(t *testing.T, docs []search.Document) []byte {
	t.Helper()
	blob, err := search.Index(docs, sayings)
	if err != nil {
		t.Fatal(err)
	}
	for at := range blob {
		damaged := bytes.Clone(blob)
		damaged[at] ^= 1
		if _, err := search.Open(damaged); !errors.Is(err, search.ErrDamaged) && !errors.Is(err, search.ErrVersion) {
			t.Fatalf("byte %d of %d flipped: %v", at, len(blob), err)
		}
	}
	for cut := 0; cut < len(blob); cut += 13 {
		if _, err := search.Open(blob[:cut]); !errors.Is(err, search.ErrDamaged) {
			t.Fatalf("cut to %d of %d: %v", cut, len(blob), err)
		}
	}
	return blob
}
