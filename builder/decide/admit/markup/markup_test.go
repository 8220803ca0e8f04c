package markup_test

import (
	"errors"
	"math"
	"os"
	"strings"
	"testing"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/admit/markup"
	"tankside/builder/decide/fact"
	"tankside/builder/decide/relate"
	"tankside/builder/language"
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// demo is the sheet of the demo manual.
func demo(t *testing.T) *markup.Sheet {
	t.Helper()
	m, _, err := manual.Read(t.Context(), os.DirFS("../../../../content"))
	if err != nil {
		t.Fatal(err)
	}
	return &markup.Sheet{Table: relate.Table(m)}
}

// Aluminium must not go into the alkaline bath, for the reason that its article gives; what else would do is offered as questions.
func TestNo(t *testing.T) {
	html := demo(t).Answer(admit.Question{Materials: []string{"aluminium-wrought"}, Bath: "wash-1"})
	for _, want := range []string{
		`<p class="verdict no"><span class="verdict-mark" aria-hidden="true">✕</span> No</p>`,
		`<a href="materials/aluminium-wrought.html#at.header">The bath of mild alkaline cleaner is pH 9–11, but the limit of aluminium, wrought and machined is pH 5–9.</a>`,
		`<a href="chemistries/mild-alkaline.html#at.header">Mild alkaline cleaner</a>`,
		`<a href="may-it-go-in.html#material=aluminium-wrought&amp;bath=wash-2">`,
		`<div class="safety warning" role="note"><p class="signal">WARNING</p>`,
	} {
		if !strings.Contains(html, want) {
			t.Errorf("the answer lacks %s:\n%s", want, html)
		}
	}
	if strings.Contains(html, "recipe") {
		t.Error("a refusal comes with a recipe")
	}
}

// Oil on steel is what the bath is for: yes, with the recipe that both articles can live with.
func TestYes(t *testing.T) {
	s := demo(t)
	q := admit.Question{Materials: []string{"carbon-steel"}, Soil: "straight-cutting-oil", Bath: "wash-1"}
	html := strings.ReplaceAll(s.Answer(q), "\u00a0", " ")
	for _, want := range []string{
		`<p class="verdict yes">`, `<div><dt>Temperature</dt><dd><span class="si">55–70 °C</span><span class="us">131–158 °F</span></dd></div>`, `<div><dt>Strength</dt><dd>3–8 % v/v</dd></div>`,
		`<p class="wear"><b>Wear</b>: goggles, chemical gloves, apron.</p>`, `Law and permits, the safety data sheet`,
	} {
		if !strings.Contains(html, want) {
			t.Errorf("the answer lacks %s:\n%s", want, html)
		}
	}
	if spoken := s.Spoken(q, quantity.SI); !strings.HasPrefix(spoken, "Yes. Carbon and low-alloy steel, with Straight cutting oil, into Wash 1") {
		t.Errorf("read out is %q", spoken)
	}
}

// Whoever names no tank is told which would do; whoever names no material is asked for one; a name that is not there is no crash.
func TestOpenQuestions(t *testing.T) {
	s := demo(t)
	if html := s.Answer(admit.Question{Materials: []string{"brass"}}); !strings.Contains(html, "Baths that would take it") || !strings.Contains(html, "<b>Wash 2</b>") || strings.Contains(html, "<b>Wash 1</b>") {
		t.Errorf("without a tank: %s", html)
	}
	if html := s.Answer(admit.Question{Materials: []string{"assembled-bearings"}}); !strings.Contains(html, "No bath of this manual takes it.") {
		t.Errorf("what never goes into a bath: %s", html)
	}
	if html := s.Answer(admit.Question{Bath: "wash-1"}); html != `<p class="admit-wanting">Pick at least one material.</p>` {
		t.Errorf("without a material: %s", html)
	}
	for _, q := range []admit.Question{{Materials: []string{"<b>"}, Bath: "wash-1"}, {Materials: []string{"brass"}, Soil: "<b>"}, {Materials: []string{"brass"}, Bath: "<b>"}} {
		html := s.Answer(q)
		if !strings.Contains(html, "This manual does not have that name") || strings.Contains(html, "<b>") {
			t.Errorf("%+v: %s", q, html)
		}
	}
}

// Nothing that an article says becomes markup.
func TestEscapes(t *testing.T) {
	const evil = `<script>"'&`
	at := admit.Place{Article: "materials/x.md", Line: 1}
	s := markup.Sheet{Table: &admit.Table{
		System: "SI",
		Materials: []admit.Material{{Item: admit.Item{Name: "x", Title: evil, Path: "materials/x.md", Cautions: []admit.Caution{{Signal: "DANGER", Text: evil, Place: at}}},
			Material: fact.Material{MadeOf: []fact.Ref{{Name: evil, Unchecked: true, At: at.Finding()}}}}},
		Chemistries: []admit.Chemistry{
			{Item: admit.Item{Name: "b", Title: evil, Path: "chemistries/b.md"}, Chemistry: fact.Chemistry{ProtectiveEquipment: []string{evil}}},
			{Item: admit.Item{Name: "c", Title: evil, Path: "chemistries/c.md"}},
		},
	}, Words: language.Words{"Why not": evil, "What it takes": evil}}
	html := s.Answer(admit.Question{Materials: []string{"x"}, Bath: "b"})
	if strings.Contains(html, "<script") || strings.Contains(html, `"'&`) {
		t.Errorf("markup out of a text: %s", html)
	}
	if !strings.Contains(html, "&lt;script&gt;&#34;&#39;&amp;") {
		t.Errorf("the text is lost: %s", html)
	}
}

// What travels to the browser answers every question as what it was packed from.
func TestPackedSheetAnswersTheSame(t *testing.T) {
	s := demo(t)
	s.Words = language.Words{"Why not": "Warum nicht"}
	packed := s.Pack()
	again, err := markup.Unpack(packed)
	if err != nil {
		t.Fatal(err)
	}
	if string(again.Pack()) != string(packed) {
		t.Error("packed again it is not the same")
	}
	soils := []string{"", "wax", "straight-cutting-oil", "light-rust"}
	for i, m := range s.Table.Materials {
		for _, b := range s.Table.Baths() {
			request := "US" + markup.Separator + soils[i%len(soils)] + markup.Separator + b.Name + markup.Separator + m.Name + markup.Separator + s.Table.Materials[(i+7)%len(s.Table.Materials)].Name
			if got, want := again.Reply(request), s.Reply(request); got != want {
				t.Fatalf("%q: %s\nwant %s", request, got, want)
			}
		}
	}
	t.Logf("%d bytes", len(packed))
}

// A shop may say of a tank that it has no ultrasonics, and of its walls that they have no insulation: amounts without a unit.
func TestNoneTravelsToo(t *testing.T) {
	s := demo(t)
	s.Table.Tanks[0].Power = fact.Limit{Range: quantity.Range{Kind: quantity.Power}, Set: true}
	s.Table.Tanks[0].Frequency = fact.Limit{}
	again, err := markup.Unpack(s.Pack())
	if err != nil {
		t.Fatal(err)
	}
	if got := again.Table.Tanks[0]; got.Sounds() || got.Power != s.Table.Tanks[0].Power {
		t.Errorf("in the browser the tank has %+v", got.Power)
	}
}

// What is damaged is refused, whatever is wrong with it.
func TestDamagedSheet(t *testing.T) {
	packed := demo(t).Pack()
	for n := 0; n < len(packed); n += 1 + n/500 {
		if _, err := markup.Unpack(packed[:n]); !errors.Is(err, admit.ErrDamaged) {
			t.Fatalf("the first %d bytes are taken for a sheet: %v", n, err)
		}
	}
	if _, err := markup.Unpack(append(packed, 0)); !errors.Is(err, admit.ErrDamaged) {
		t.Error("a byte too many is not noticed")
	}
}

// anything is a limit that every value meets.
var anything = fact.Limit{Range: quantity.Range{Low: math.Inf(-1), High: math.Inf(1)}, Set: true}

func FuzzUnpack(f *testing.F) {
	s := markup.Sheet{Table: &admit.Table{
		System:      "SI",
		Materials:   []admit.Material{{Item: admit.Item{Name: "x"}, Material: fact.Material{PH: anything, Temperature: anything}}},
		Chemistries: []admit.Chemistry{{Item: admit.Item{Name: "b"}, Chemistry: fact.Chemistry{PH: anything, Window: fact.Window{Temperature: anything}}}},
	}}
	f.Add(s.Pack(), "\x1f\x1fb\x1fx")
	f.Fuzz(func(t *testing.T, data []byte, request string) {
		if s, err := markup.Unpack(data); err == nil {
			s.Reply(request)
		}
	})
}
