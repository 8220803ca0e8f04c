package browser

import (
	"os"
	"strings"
	"testing"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/admit/markup"
	"tankside/builder/decide/relate"
	"tankside/builder/inboth"
	"tankside/builder/manual"
)

// sheet is what the published page answers from, made natively.
func sheet(t *testing.T) *markup.Sheet {
	t.Helper()
	m, _, err := manual.Read(t.Context(), os.DirFS("../../content"))
	if err != nil {
		t.Fatal(err)
	}
	return &markup.Sheet{Table: relate.Table(m)}
}

// choose picks an entry of a list as a person does.
func (b *tab) choose(field, value string) {
	b.t.Helper()
	ask[bool](b, `(() => { const s = document.querySelector(`+quote(field)+`); s.focus(); s.value = `+quote(value)+`; s.dispatchEvent(new Event("change", {bubbles: true})); return true; })()`)
}

// same compares the answer that stands in the page with the native one, as the browser writes both.
func (b *tab) same(native string) {
	b.t.Helper()
	native = string(inboth.HTML([]byte(native))) // as a page is finished
	if !ask[bool](b, `(() => { const d = document.createElement("div"); d.innerHTML = `+quote(native)+`; return d.innerHTML === document.querySelector(".admit-answer").innerHTML; })()`) {
		b.t.Errorf("the page says\n%s\nnatively it is\n%s", ask[string](b, `document.querySelector(".admit-answer").innerHTML`), native)
	}
}

// Somebody picks aluminium and the alkaline tank and is told no and why; then steel with cutting oil, and is told yes and how.
// What the page answers is what the same code answers natively.
func TestMayItGoIn(t *testing.T) {
	t.Parallel()
	s := sheet(t)
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "may-it-go-in.html")
		b.keys("#admit-filter", "alum wrought")
		b.until(`[...document.querySelectorAll(".admit-materials li")].filter(l => l.checkVisibility()).length === 1`)
		b.press(`.admit-materials li:not([hidden]) label`)
		b.choose("#admit-bath", "wash-1")
		b.until(`document.querySelector(".verdict.no")`)
		text := b.text(".admit-answer")
		for _, want := range []string{"No", "pH 5–9", "Wash 2", "WARNING"} {
			if !strings.Contains(text, want) {
				t.Errorf("the answer lacks %q:\n%s", want, text)
			}
		}
		b.same(s.Answer(admit.Question{Materials: []string{"aluminium-wrought"}, Bath: "wash-1"}))
		b.until(`document.querySelector(".admit-say").textContent.startsWith("No.")`)
		if hash := ask[string](b, `location.hash`); hash != "#material=aluminium-wrought&bath=wash-1" {
			t.Errorf("the address carries %s", hash)
		}

		b.press(`.admit-reset`)
		b.until(`document.querySelector(".admit-result").hidden && document.activeElement.id === "admit-filter"`)
		b.keys("#admit-filter", "carbon")
		b.press(`.admit-materials li:not([hidden]) label`)
		b.choose("#admit-soil", "straight-cutting-oil")
		b.choose("#admit-bath", "wash-1")
		b.until(`document.querySelector(".verdict.yes")`)
		if text := b.text(".recipe"); !strings.Contains(text, "55–70 °C") || !strings.Contains(text, "3–8 % v/v") {
			t.Errorf("the recipe is %s", text)
		}
		b.same(s.Answer(admit.Question{Materials: []string{"carbon-steel"}, Soil: "straight-cutting-oil", Bath: "wash-1"}))
		b.press(`.admit-ask`)
		b.until(`document.activeElement.id === "admit-answer-title"`)

		// A reason leads to its article.
		b.press(`.why a`)
		b.until(`document.querySelector("h1").textContent === "Carbon and low-alloy steel"`)
	})
}

// A link carries the question, and the cells of a table are such links.
func TestALinkCarriesTheQuestion(t *testing.T) {
	t.Parallel()
	s := sheet(t)
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "may-it-go-in.html#material=glass&material=nylon-and-acetal&soil=dust-and-lint&bath=wash-2")
		b.until(`document.querySelector(".verdict")`)
		b.same(s.Answer(admit.Question{Materials: []string{"glass", "nylon-and-acetal"}, Soil: "dust-and-lint", Bath: "wash-2"}))
		if n := ask[int](b, `document.querySelectorAll(".admit-materials :checked").length`); n != 2 {
			t.Errorf("%d materials are picked, 2 were asked about", n)
		}
		b = open(t, base, "tables/materials-tanks.html")
		b.press(`.matrix td.no a`)
		b.until(`document.querySelector(".verdict.no")`)
	})
}

// Without scripts the page lists each material's verdict in each tank, and a link to a question leads to its answer.
func TestMayItGoInWithoutScripts(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "may-it-go-in.html#material=aluminium-wrought&bath=wash-1", withoutScripts())
		if !ask[bool](b, `document.querySelector(".admit-form").checkVisibility() === false && document.querySelector(".admit-all").checkVisibility()`) {
			t.Error("the fields show although they do nothing, or the list does not")
		}
		if text := b.text(":target"); !strings.Contains(text, "Wash 1") || !strings.Contains(text, "pH 5–9") {
			t.Errorf("the link leads to %q", text)
		}
		rows, tanks := ask[int](b, `document.querySelectorAll(".admit-all .suit-row").length`), ask[int](b, `document.querySelectorAll(".admit-all .suit-list > li").length`)
		if materials := len(sheet(t).Table.Materials); rows != materials || tanks != 2*materials {
			t.Errorf("%d rows with %d verdicts for %d materials in 2 tanks", rows, tanks, materials)
		}
	})
}

// Everything can be done with keys alone, and what is done is read out.
func TestMayItGoInWithKeys(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := open(t, base, "may-it-go-in.html")
	b.keys("#admit-filter", "brass\t ")
	b.until(`document.querySelector("input[value=brass]").checked`)
	b.until(`document.querySelector(".admit-say").textContent.includes("Wash 2")`)
}

// Where the module cannot be had, the list stands instead and says so.
func TestMayItGoInWithoutItsModule(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := open(t, base, "may-it-go-in.html")
	b.forgive = func(string) bool { return true }
	ask[bool](b, `(document.body.dataset.answers = "nowhere.js", true)`)
	b.press(`.admit-materials label[for], .admit-materials li label`)
	b.until(`document.querySelector(".admit-failed")`)
	if !ask[bool](b, `document.querySelector(".admit-all").checkVisibility() && document.querySelector(".admit-form").hidden`) {
		t.Error("neither the fields nor the list can be used")
	}
}
