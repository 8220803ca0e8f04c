package rules

import (
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
)

// edit is one change of a file of testdata/mistakes/manual: old becomes new. Without old, the file is new, or replaced.
type edit struct{ file, old, new string }

// pair is for each rule one mistake that it has to catch, alone, and one near miss that nothing may be said about.
type pair struct {
	rule   string
	place  string
	caught []edit
	near   []edit
}

func e(file, old, new string) edit { return edit{file, old, new} }

// head is the beginning of a new article of station wash; more is the rest of its header.
func head(title, more string) string {
	return "---\ntitle: " + title + "\nsummary: Made up for a test.\nstation: wash\nrevision: A\napproved: 2026-09-14, process engineer\nreview-by: 2027-09-14\nsources: [common practice, no source]\n" + more + "---\n"
}

// signs declares observations of spots, rings among them, and gives its two remedies a paragraph that says with what they are seen: the one
// on trial begins line 27 where no other observation is declared.
func signs(trial string, observations ...string) []edit {
	header := "affects: [brass]\nobservations:\n  - {seen: rings, by: look}\n"
	for _, o := range observations {
		header += "  - " + o + "\n"
	}
	return []edit{
		e("symptoms/spots.md", "affects: [brass]\n", header),
		e("symptoms/spots.md", "Change the last rinse.\n", "Change the last rinse.\n\n"+trial+"\n"),
		e("symptoms/spots.md", "Rinse longer.\n", "Rinse longer.\n\n**Seen with.** Sometimes: rings. As a cause: typical.\n"),
	}
}

// link makes a new article known to another, so that it is no orphan.
func link(to string) edit {
	return e("lessons/sound.md", "Bubbles collapse on the part.", "Bubbles collapse on the [part]("+to+").")
}

// chemistry is a new chemistry in Wash 1 for the shaft, with so much of its header changed from a harmless one.
func chemistry(more string) []edit {
	text := head("Other cleaner", "ph: 9–11\nstrength: 2–10 % v/v\ntemperature: 50–70 °C\ntime: 3–20 min\nfrequency: 25–170 kHz\nremoves: [cutting-oil]\nhazards: [H318]\nprotective-equipment: [goggles]\n") +
		"> **DANGER** Burns eyes; on zinc it gives off hydrogen. Goggles. Follow the safety data sheet and local codes.\n\nFor a test.\n"
	for line := range strings.SplitSeq(strings.TrimSpace(more), "\n") {
		key, _, _ := strings.Cut(line, ":")
		from := strings.Index(text, "\n"+key+":")
		if from < 0 {
			text = strings.Replace(text, "\nremoves:", "\n"+line+"\nremoves:", 1)
			continue
		}
		to := from + 1 + strings.IndexByte(text[from+1:], '\n')
		text = text[:from+1] + line + text[to:]
	}
	return []edit{
		e("chemistries/other.md", "", text),
		e("soils/cutting-oil.md", "removed-by:\n", "removed-by:\n  - other\n"),
		e("shop.yaml", "    chemistry: alkaline\n", "    chemistry: other\n"),
		e("parts/shaft.md", "chemistry: alkaline", "chemistry: other"),
	}
}

// and joins edits.
func and(lists ...[]edit) []edit {
	var all []edit
	for _, l := range lists {
		all = append(all, l...)
	}
	return all
}

// material changes the shaft's material.
func material(old, new string) []edit { return []edit{e("materials/steel.md", old, new)} }

// longWinded is one sentence of some 60 words that reads at grade 23; parted at its commas it reads at a child's grade.
const longWinded = "The bath lifts the oil from the part, and the oil floats to the top of the bath, and the pump moves the water to the weir, which takes the oil away, and the part comes up through a clean bath, and the next part goes in, and the sound starts again, and so the work goes on all day until the bath is full of soil. "

var pairs = []pair{
	// What the reader finds.
	{"unreadable-file", "soils/chips.md:12:6",
		[]edit{e("soils/chips.md", "Turn the part over.", "Turn \xe4 part over.")},
		[]edit{e("soils/chips.md", "Turn the part over.", "Turn the pärt over.")}},
	{"too-large", "soils/chips.md",
		[]edit{e("soils/chips.md", "Turn the part over.", strings.Repeat("Turn the part over.\n", 60_000))},
		[]edit{e("soils/chips.md", "Turn the part over.", strings.Repeat("Turn the part over.\n\n", 5_000))}},
	{"not-a-file", "soils/pipe.md",
		[]edit{e("soils/pipe.md", "", pipe)},
		[]edit{e("soils/.pipe.md", "", pipe)}},
	{"stray-file", "soils/notes.txt",
		[]edit{e("soils/notes.txt", "", "x")},
		[]edit{e("soils/.notes.txt", "", "x")}},
	{"unusable-file-name", "soils/con.md",
		[]edit{e("soils/con.md", "", head("Con", "nature: oil\n")+"x\n")},
		[]edit{e("soils/contact-oil.md", "", head("Contact oil", "nature: oil\n")+"x\n"), link("../soils/contact-oil.md")}},
	{"untidy-file-name", "soils/Wax.md",
		[]edit{e("soils/Wax.md", "", head("Wax", "nature: wax\n")+"x\n"), link("../soils/Wax.md")},
		[]edit{e("soils/wax-2.md", "", head("Wax", "nature: wax\n")+"x\n"), link("../soils/wax-2.md")}},
	{"same-address", "soils/more/chips.md",
		[]edit{e("soils/more/chips.md", "", head("More chips", "nature: particles\n")+"x\n"), link("../soils/more/chips.md")},
		[]edit{e("lessons/chips.md", "", head("Chips, a lesson", "")+"x\n")}},
	{"no-header", "lessons/two.md:1:1",
		[]edit{e("lessons/two.md", "", "Only text.\n")},
		[]edit{e("lessons/two.md", "", head("Two", "")+"Only text.\n\n---\n\nMore.\n")}},
	{"unreadable-yaml", "soils/chips.md:2:1",
		[]edit{e("soils/chips.md", "title: Chips", "title: Chips: loose")},
		[]edit{e("soils/chips.md", "title: Chips", `title: "Chips: loose"`)}},
	{"unknown-key", "soils/chips.md:10:1",
		[]edit{e("soils/chips.md", "removed-by:", "may-contains: [lead]\nremoved-by:")},
		[]edit{e("soils/chips.md", "removed-by:", "also-called: [lead shavings]\nremoved-by:")}},
	{"duplicate-key", "soils/chips.md:10:1",
		[]edit{e("soils/chips.md", "removed-by:", "nature: particles\nremoved-by:")},
		[]edit{e("soils/chips.md", "removed-by:", "also-called: [nature]\nremoved-by:")}},
	{"missing-key", "soils/chips.md:2:1",
		[]edit{e("soils/chips.md", "revision: A\n", "")},
		[]edit{e("soils/chips.md", "revision: A\n", "revision: 12\n")}},
	{"wrong-value", "soils/chips.md:7:12",
		[]edit{e("soils/chips.md", "review-by: 2027-09-14", "review-by: 2027-13-14")},
		[]edit{e("soils/chips.md", "review-by: 2027-09-14", "review-by: \"2027-12-14\"")}},
	{"wrong-quantity", "materials/brass.md:11:18",
		[]edit{e("materials/brass.md", "≤ 50 °C", "≤ 50")},
		[]edit{e("materials/brass.md", "≤ 50 °C", "≤ 122°F")}},
	{"unknown-word", "materials/brass.md:9:11",
		[]edit{e("materials/brass.md", "made-of: [brass]", "made-of: [bras]")},
		[]edit{e("materials/brass.md", "made-of: [brass]", "made-of: brass")}},
	{"unknown-name", "lessons/sound.md:12:9",
		[]edit{e("lessons/sound.md", "needs: [fill]", "needs: [file]")},
		[]edit{e("lessons/sound.md", "needs: [fill]", "needs: fill")}},
	{"raw-html", "soils/chips.md:12:6",
		[]edit{e("soils/chips.md", "Turn the part over.", "Turn <b>the part over.")},
		[]edit{e("soils/chips.md", "Turn the part over.", "Turn `<b>` the part over if < 5 mm.")}},
	{"top-heading", "soils/chips.md:12:1",
		[]edit{e("soils/chips.md", "Turn the part over.", "# Turn the part over")},
		[]edit{e("soils/chips.md", "Turn the part over.", "#1 is turned over first.")}},
	{"unclear-signal", "soils/chips.md:12:3",
		[]edit{e("soils/chips.md", "Turn the part over.", "> **Warning** Sharp.")},
		[]edit{e("soils/chips.md", "Turn the part over.", "> Warning: this is a quotation.")}},
	{"unreadable-calculator", "soils/chips.md:12:1",
		[]edit{e("soils/chips.md", "Turn the part over.", "```calculator\n```")},
		[]edit{e("soils/chips.md", "Turn the part over.", "```text\ncalculator\n```")}},
	{"unsafe-picture", "pictures/drops.svg:1",
		[]edit{e("pictures/drops.svg", "<circle", `<circle onclick="x()"`)},
		[]edit{e("pictures/drops.svg", "<circle", `<circle class="on"`)}},

	// What is wrong with trees.
	{"no-first-step", "symptoms/spots.md:12:1",
		[]edit{e("symptoms/spots.md", spotsTree, "")},
		[]edit{e("symptoms/spots.md", "White spots once the part is dry.\n\n", "")}},
	{"answer-to-nothing", "symptoms/spots.md:20:12",
		[]edit{e("symptoms/spots.md", "- No: [Film](#film)", "- No: [Film](#film)\n- Perhaps: [Dust](#dust)")},
		[]edit{e("symptoms/spots.md", "- No: [Film](#film)", "- No: [Film](#film)\n- Perhaps: [Brass](../materials/brass.md)")}},
	{"dead-end", "symptoms/spots.md:20:1",
		[]edit{e("symptoms/spots.md", "- No: [Film](#film)", "- No: [Film](#film)\n- Perhaps: ask")},
		[]edit{e("symptoms/spots.md", "Rinse longer.", "- Rinse longer: [Nut](../parts/nut.md)\n- ask")}},
	{"unreachable-step", "symptoms/spots.md:33:1",
		[]edit{e("symptoms/spots.md", "no film.\n", "no film.\n\n## Dust\n\n**Recheck.** Look.\n")},
		[]edit{e("symptoms/spots.md", "no film.\n", "no film.\n\n### Dust\n\nLook.\n")}},
	{"circle", "symptoms/spots.md:37:7",
		[]edit{e("symptoms/spots.md", "Rinse longer.\n\n**Recheck.** Five parts, no film.\n", "Look again.\n\n- Yes: [Salts](#salts)\n- No: [Film](#film)\n"), e("symptoms/spots.md", "title: Spots\n", "title: Spots\nalso-called:\n  - x\n  - y\n  - z\n  - u\n")},
		[]edit{e("symptoms/spots.md", "Rinse longer.", "Rinse longer, then look again: [wipe](#does-it-wipe-off-dry).")}},
	{"one-answer", "symptoms/spots.md:29:1",
		[]edit{e("symptoms/spots.md", "- No: [Film](#film)", "- No: [Thick?](#thick)"), e("symptoms/spots.md", "## Film", "## Thick?\n\n- Yes: [Film](#film)\n\n## Film"), e("symptoms/spots.md", "title: Spots\n", "title: Spots\nalso-called:\n  - x\n")},
		[]edit{e("symptoms/spots.md", "Rinse longer.", "Rinse longer:\n\n- see [Nut](../parts/nut.md)")}},
	{"remedy-without-recheck", "symptoms/spots.md:27:1",
		[]edit{e("symptoms/spots.md", "**Recheck.** Five parts, no film.", "Recheck five parts.")},
		[]edit{e("symptoms/spots.md", "**Recheck.** Five parts, no film.", "### Then\n\n**Recheck:** five parts.")}},
	{"duplicate-heading", "symptoms/spots.md:34:1",
		[]edit{e("symptoms/spots.md", "- No: [Film](#film)", "- No: [Film](#film)\n- Both: [Film, thick](#film-2)"), e("symptoms/spots.md", "no film.\n", "no film.\n\n## Film\n\n**Recheck.** Look.\n")},
		[]edit{e("symptoms/spots.md", "- No: [Film](#film)", "- No: [Film](#film)\n- Both: [Film, thick](#film-thick)"), e("symptoms/spots.md", "no film.\n", "no film.\n\n## Film, thick\n\n**Recheck.** Look.\n")}},

	// What is seen with a cause.
	{"unreadable-signs", "symptoms/spots.md:27:16",
		signs("**Seen with.** Often: rings. Rare: rings. As a cause: rare."), signs("**Seen with:** Often: rings.\n\n**Seen with.** Typical: rings. As a cause: rare.")},
	{"unknown-observation", "symptoms/spots.md:27:25",
		signs("**Seen with.** Typical: ring. Rare: rings. As a cause: rare."), signs("**Seen with.** Typical:\nRings;\n dull\n rings. As a cause: rare.", "{seen: dull rings, by: wipe}")},
	{"observation-twice", "symptoms/spots.md:13:5",
		signs("**Seen with.** Rare: rings. As a cause: rare.", "{seen: Rings, by: wipe}"), signs("**Seen with.** Rare: rings; two rings. As a cause: rare.", "{seen: two rings, by: wipe}")},
	{"observation-without-cause", "symptoms/spots.md:13:5",
		signs("**Seen with.** Rare: rings. As a cause: rare.", "{seen: dots, by: wipe}"), signs("**Seen with.** Rare: rings; dots. As a cause: rare.", "{seen: dots, by: wipe}")},
	{"cause-without-signs", "symptoms/spots.md:27:1",
		signs("**Seen with.** Typical: rings."), signs("**Seen with.** Typical: rings. As a cause: rare, can hurt people.")},

	// The page.
	{"broken-link", "soils/chips.md:12:10",
		[]edit{e("soils/chips.md", "Turn the part over.", "Turn the [nut](../parts/nuts.md) over.")},
		[]edit{e("soils/chips.md", "Turn the part over.", "Turn the [nut](../parts/nut.md) over.")}},
	{"link-out-of-manual", "soils/chips.md:12:10",
		[]edit{e("soils/chips.md", "Turn the part over.", "Turn the [nut](../../nut.md) over.")},
		[]edit{e("soils/chips.md", "Turn the part over.", "Turn the [nut](../soils/../parts/nut.md) over.")}},
	{"unsafe-link", "soils/chips.md:12:10",
		[]edit{e("soils/chips.md", "Turn the part over.", "Turn the [nut](javascript:x) over.")},
		[]edit{e("soils/chips.md", "Turn the part over.", "Turn the [nut](https://example.org/javascript:x) over.")}},
	{"missing-picture", "soils/chips.md:12:1",
		[]edit{e("soils/chips.md", "Turn the part over.", "![A chip](../pictures/chip.svg)")},
		[]edit{e("soils/chips.md", "Turn the part over.", "![A chip](../pictures/drops.svg)")}},
	{"undescribed-picture", "soils/chips.md:12:1",
		[]edit{e("soils/chips.md", "Turn the part over.", "![](../pictures/drops.svg)")},
		[]edit{e("soils/chips.md", "Turn the part over.", "![drops](../pictures/drops.svg)")}},
	{"unshowable-picture", "pictures/drops.svg:1:59",
		[]edit{e("pictures/drops.svg", "<circle", `<g id="a"><use href="#a"/></g><circle`)},
		[]edit{e("pictures/drops.svg", "<circle", `<g id="a"/><use href="#a"/><circle`)}},
	{"faint-accent", "shop.yaml:3:9",
		[]edit{e("shop.yaml", "name: Invented shop\n", "name: Invented shop\naccent: \"#bbd0d8\"\n")},
		[]edit{e("shop.yaml", "name: Invented shop\n", "name: Invented shop\naccent: \"#0b5c7a\"\n")}},
	{"missing-mark", "shop.yaml:3:7",
		[]edit{e("shop.yaml", "name: Invented shop\n", "name: Invented shop\nmark: pictures/mark.svg\n")},
		[]edit{e("shop.yaml", "name: Invented shop\n", "name: Invented shop\nmark: pictures/drops.svg\n")}},
	{"unused-picture", "pictures/more.svg",
		[]edit{e("pictures/more.svg", "", `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><circle r="3"/></svg>`)},
		[]edit{e("pictures/more.svg", "", `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><circle r="3"/></svg>`), e("soils/chips.md", "Turn the part over.", "[A drawing](../pictures/more.svg)")}},
	{"duplicate-title", "soils/rust.md:2:1",
		[]edit{e("soils/rust.md", "title: Rust", "title: chips")},
		[]edit{e("soils/rust.md", "title: Rust", "title: Chips of rust")}},
	{"orphan", "soils/wax.md:2:1",
		[]edit{e("soils/wax.md", "", head("Wax", "nature: wax\n")+"x\n")},
		[]edit{e("soils/wax.md", "", head("Wax", "nature: wax\n")+"x\n"), e("soils/chips.md", "nature: particles\n", "nature: particles\nsee-also: [wax]\n")}},
	{"empty-article", "soils/chips.md:2:1",
		[]edit{e("soils/chips.md", "Turn the part over.\n", " \n")},
		[]edit{e("soils/chips.md", "Turn the part over.\n", "x\n")}},
	{"broken-glossary-link", "glossary.yaml:1:1",
		[]edit{e("glossary.yaml", "lessons/sound.md", "lessons/noise.md")},
		[]edit{e("glossary.yaml", ", article: lessons/sound.md", "")}},
	{"review-overdue", "soils/chips.md:7:1",
		[]edit{e("soils/chips.md", "review-by: 2027-09-14", "review-by: 2026-10-18")},
		[]edit{e("soils/chips.md", "review-by: 2027-09-14", "review-by: 2026-10-20")}},
	{"dates-out-of-order", "soils/chips.md:7:1",
		[]edit{e("soils/chips.md", "approved: 2026-09-14", "approved: 2027-09-14")},
		[]edit{e("soils/chips.md", "approved: 2026-09-14", "approved: 2027-09-13")}},
	{"vague-source", "soils/chips.md:8:1",
		[]edit{e("soils/chips.md", "[common practice, no source]", "[internet]")},
		[]edit{e("soils/chips.md", "[common practice, no source]", "[from memory]")}},
	{"hard-to-read", "lessons/sound.md:16:1",
		[]edit{e("shop.yaml", "name: Invented shop\n", "name: Invented shop\nreading-grade: 9\n"), end("lessons/sound.md", strings.Repeat(longWinded, 3))},
		[]edit{e("shop.yaml", "name: Invented shop\n", "name: Invented shop\nreading-grade: 9\n"), end("lessons/sound.md", strings.Repeat(strings.NewReplacer(", and ", ". ", ", which ", ". It ").Replace(longWinded), 3))}},
	{"acceptance-without-effect", "soils/chips.md:10:10",
		[]edit{e("soils/chips.md", "removed-by:", "accept: [{rule: too-hot-for-material, reason: It is fine.}]\nremoved-by:")},
		[]edit{e("soils/chips.md", "removed-by:", "accept: [{rule: vague-source, reason: Heard from the supplier.}]\nremoved-by:"), e("soils/chips.md", "[common practice, no source]", "[hearsay]")}},
	{"calculator-without-result", "chemistries/alkaline.md:35:1",
		[]edit{e("chemistries/alkaline.md", "target: 60 °C", "target: 60 L")},
		[]edit{e("chemistries/alkaline.md", "target: 60 °C", "target: 140 °F")}},
	{"number-against-model", "procedures/fill.md:19:62",
		[]edit{e("procedures/fill.md", "at 4 % v/v.", "at 12 % v/v.")},
		[]edit{e("procedures/fill.md", "at 4 % v/v.", "at 4 % v/v. Never at 12 % v/v.")}},

	// People.
	{"hazard-without-message", "chemistries/neutral.md:17:11",
		[]edit{e("chemistries/neutral.md", "hazards: [H319]", "hazards: [H318]")},
		[]edit{e("chemistries/neutral.md", "hazards: [H319]", "hazards: [H319, H412]")}},
	{"hazard-without-protection", "procedures/fill.md:13:11",
		[]edit{e("procedures/fill.md", "protective-equipment: [goggles, chemical gloves]\n", "")},
		[]edit{e("procedures/fill.md", "hazards: [H318]\n", "")}},
	{"undeclared-hazard", "chemistries/alkaline.md:9:5",
		[]edit{e("chemistries/alkaline.md", "hazards: [H315, H318]", "hazards: [H335]"), e("chemistries/alkaline.md", "ph: 9–11", "ph: 9–11.5")},
		[]edit{e("chemistries/alkaline.md", "hazards: [H315, H318]", "hazards: [H335]")}},
	{"soil-needs-clearance", "soils/chips.md:10:15",
		[]edit{e("soils/chips.md", "removed-by:", "may-contain: [lead]\nremoved-by:"), e("parts/nut.md", "![Drops", "> **WARNING** May hold lead: stop and ask.\n\n![Drops")},
		[]edit{e("soils/chips.md", "removed-by:", "may-contain: [lead]\nremoved-by:"), e("parts/nut.md", "![Drops", "> **WARNING** May hold lead: stop and ask.\n\n![Drops"), e("soils/chips.md", "Turn the part over.", "> **DANGER** May hold lead: stop and ask.")}},
	{"never-meet", "procedures/fill.md:12:1",
		[]edit{e("procedures/fill.md", "chemistry: [alkaline]", "chemistry: [alkaline, descaler]")},
		[]edit{e("procedures/fill.md", "chemistry: [alkaline]", "chemistry: [alkaline, neutral]")}},
	{"sealed-part", "parts/shaft.md:13:12",
		[]edit{e("parts/shaft.md", "soil: [cutting-oil]", "features: [sealed]\nsoil: [cutting-oil]")},
		[]edit{e("parts/shaft.md", "soil: [cutting-oil]", "features: [blind-holes]\nsoil: [cutting-oil]")}},
	{"flammable-in-ordinary-tank", "shop.yaml:11:5",
		chemistry("flash-point: 90 °C"),
		chemistry("flash-point: 95 °C")},
	{"near-flash-point", "chemistries/other.md:11:14",
		[]edit{e("chemistries/other.md", "", other("flash-point: 80 °C")), link("../chemistries/other.md"), e("soils/chips.md", "[alkaline, neutral]", "[alkaline, neutral, other]")},
		[]edit{e("chemistries/other.md", "", other("flash-point: 85 °C")), link("../chemistries/other.md"), e("soils/chips.md", "[alkaline, neutral]", "[alkaline, neutral, other]")}},
	{"above-ceiling", "chemistries/neutral.md:11:14",
		[]edit{e("chemistries/neutral.md", "ceiling: 65 °C", "ceiling: 50 °C")},
		[]edit{e("chemistries/neutral.md", "ceiling: 65 °C", "ceiling: 131 °F")}},

	// Parts.
	{"strong-alkali-on-light-metal", "parts/shaft.md:12:12",
		and(chemistry("ph: 12–14\ncontains: [free-caustic]"), material("[carbon-steel]", "[zinc]")),
		chemistry("ph: 12–13.5\ncontains: [free-caustic]")},
	{"acid-on-hard-steel", "parts/shaft.md:12:12",
		and(chemistry("ph: 2–4\ncontains: [acid]"), material("[carbon-steel]", "[high-strength-steel]")),
		and(chemistry("ph: 9–11\ncontains: [chelant]"), material("[carbon-steel]", "[high-strength-steel]"))},
	{"acid-on-reactive-material", "parts/shaft.md:12:12",
		and(chemistry("ph: 2–4\ncontains: [acid]"), material("[carbon-steel]", "[cast-iron]"), material("ph: 9–13.5", "ph: 1–13.5")),
		and(chemistry("ph: 2–4\ncontains: [acid]"), material("[carbon-steel]", "[stainless-steel]"), material("ph: 9–13.5", "ph: 1–13.5"), material("attacked-by: [chloride]\n", ""))},
	{"ammonia-on-copper-alloy", "parts/shaft.md:12:12",
		and(chemistry("contains: [amine]"), material("[carbon-steel]", "[brass]")),
		and(chemistry("contains: [amine]"), material("[carbon-steel]", "[bronze]"))},
	{"chloride-on-stainless", "parts/shaft.md:12:12",
		and(chemistry("contains: [chloride]"), material("[carbon-steel]", "[titanium]"), material("attacked-by: [chloride]\n", "")),
		and(chemistry("contains: [phosphate]"), material("[carbon-steel]", "[titanium]"))},
	{"solvent-on-plastic", "parts/shaft.md:12:12",
		and(chemistry("contains: [glycol-ether]"), material("[carbon-steel]", "[acrylic]"), []edit{e("parts/shaft.md", "dry: dryer\n", "")}),
		and(chemistry("contains: [glycol-ether]"), material("[carbon-steel]", "[peek]"))},
	{"emulsion-in-pores", "parts/shaft.md:13:12",
		and(chemistry("contains: [solvent-emulsion]"), []edit{e("parts/shaft.md", "soil: [cutting-oil]", "features: [porous]\nsoil: [cutting-oil]")}),
		and(chemistry("contains: [solvent-emulsion]"), []edit{e("parts/shaft.md", "soil: [cutting-oil]", "features: [thin]\nsoil: [cutting-oil]")})},
	{"constituent-attacks-material", "parts/shaft.md:12:12",
		and(chemistry("contains: [peroxide]"), material("attacked-by: [chloride]", "attacked-by: [peroxide]")),
		chemistry("contains: [peroxide]")},
	{"low-frequency-on-soft-surface", "parts/shaft.md:13:12",
		[]edit{e("parts/shaft.md", "soil: [cutting-oil]", "features: [polished]\nsoil: [cutting-oil]"), e("parts/shaft.md", "frequency: 40 kHz", "frequency: 28 kHz"), e("shop.yaml", "frequency: 40 kHz", "frequency: 28 kHz"), e("chemistries/alkaline.md", "60 °C, 40 kHz", "60 °C")},
		[]edit{e("parts/shaft.md", "frequency: 40 kHz", "frequency: 28 kHz"), e("shop.yaml", "frequency: 40 kHz", "frequency: 28 kHz"), e("chemistries/alkaline.md", "60 °C, 40 kHz", "60 °C")}},
	{"sound-on-sensitive-device", "parts/shaft.md:12:12",
		material("frequency: 25–170 kHz", "frequency: none"),
		[]edit{e("parts/shaft.md", "soil: [cutting-oil]", "features: [electronic]\nsoil: [cutting-oil]")}}, // the material gives a window
	{"ph-outside-material", "parts/shaft.md:12:12",
		material("ph: 9–13.5", "ph: 10.5–13.5"),
		material("ph: 9–13.5", "ph: 10–13.5")},
	{"attack-on-purpose", "parts/shaft.md:12:12",
		[]edit{e("parts/shaft.md", "soil: [cutting-oil]", "soil: [rust]"), e("parts/shaft.md", "chemistry: alkaline", "chemistry: descaler"), e("parts/shaft.md", "strength: 4 % v/v\ntemperature: 60 °C", "strength: 5 % w/v\ntemperature: 60 °C"), e("shop.yaml", "chemistry: alkaline\n    strength: 4 % v/v", "chemistry: descaler\n    strength: 5 % w/v"), e("materials/steel.md", "attacked-by: [chloride]", "attacked-by: [chloride]"), e("chemistries/alkaline.md", "4 % v/v, 60 °C", "60 °C"), e("chemistries/alkaline.md", "| Wash 1 | 4 % v/v |", "| x | y |")},
		[]edit{e("parts/shaft.md", "soil: [cutting-oil]", "soil: [rust]"), e("parts/shaft.md", "chemistry: alkaline", "chemistry: descaler"), e("parts/shaft.md", "strength: 4 % v/v\ntemperature: 60 °C", "strength: 5 % w/v\ntemperature: 60 °C"), e("shop.yaml", "chemistry: alkaline\n    strength: 4 % v/v", "chemistry: descaler\n    strength: 5 % w/v"), e("parts/shaft.md", "next: assembly\n", "next: assembly\naccept: [{rule: attack-on-purpose, reason: Timed instruction T-1 approved.}]\n"), e("chemistries/alkaline.md", "4 % v/v, 60 °C", "60 °C"), e("chemistries/alkaline.md", "| Wash 1 | 4 % v/v |", "| x | y |")}},
	{"too-hot-for-material", "parts/shaft.md:14:14",
		material("≤ 80 °C", "≤ 59 °C"), material("≤ 80 °C", "≤ 60 °C")},
	{"too-long-for-material", "parts/shaft.md:15:7",
		material("≤ 15 min", "≤ 9 min"), material("≤ 15 min", "≤ 600 s")},
	{"frequency-outside-material", "parts/shaft.md:16:12",
		material("25–170 kHz", "68–170 kHz"), material("25–170 kHz", "40–170 kHz")},
	{"dissimilar-metals", "parts/nut.md:9:1",
		[]edit{e("parts/nut.md", "material: [brass]", "material: [brass, aluminium]")},
		[]edit{e("parts/nut.md", "material: [brass]", "material: [brass, window]"), e("parts/nut.md", "dry: dryer\n", ""), e("parts/nut.md", "time: 3–5 min", "time: 3–4 min")}},
	{"other-chemistry", "parts/nut.md:12:12",
		[]edit{e("parts/nut.md", "tank: wash-2", "tank: wash-1"), e("parts/nut.md", "frequency: 80 kHz", "frequency: 40 kHz")},
		[]edit{e("parts/nut.md", "strength: 2 % v/v\ntemperature: 45 °C\n", "")}},
	{"dryer-too-hot", "parts/window-pane.md:17:6",
		[]edit{e("parts/window-pane.md", "", pane)},
		[]edit{e("parts/window-pane.md", "", strings.Replace(pane, "dry: dryer\n", "", 1))}},

	// Translations.
	{"repeated-fact", "procedures/fill.es.md:6:1",
		inSpanish("time: 20–30 min\nequipment: [jarra]", "equipment: [jarra]"), inSpanish("", "")},
	{"unknown-language", "shop.yaml:4:1",
		[]edit{e("shop.yaml", "units: SI\n", "language: cy\nunits: SI\n")},
		[]edit{e("shop.yaml", "units: SI\n", "language: es-MX\nunits: SI\n")}},
	{"missing-translation", "soils/rust.md:2:1",
		allInSpanish(small, "soils/rust.md"), allInSpanish(small, "")},
	{"translation-of-nothing", "procedures/full.es.md:1:1",
		[]edit{e("procedures/full.es.md", "", fillSpanish)}, []edit{e("procedures/fill.es.md", "", fillSpanish)}},
	{"outdated-translation", "procedures/fill.es.md:4:1",
		[]edit{e("procedures/fill.es.md", "", fillSpanish), e("procedures/fill.md", "revision: A", "revision: B")},
		and(inSpanish("translates: B", "translates: A"), []edit{e("procedures/fill.md", "revision: A", "revision: B")})},
	{"incomplete-translation", "procedures/fill.es.md:7:1",
		inSpanish("[gafas]", "[gafas, guantes químicos]"), inSpanish("[gafas, guantes]", "[gafas, guantes químicos]")},
	{"other-tree", "symptoms/spots.es.md:14:7",
		[]edit{e("symptoms/spots.es.md", "", spotsSpanish), e("symptoms/spots.es.md", "- No: [Película](#película)", "- No: [Sales](#sales)")},
		[]edit{e("symptoms/spots.es.md", "", spotsSpanish)}},
	{"lost-message", "procedures/fill.es.md:9:1",
		inSpanish("**PRECAUCIÓN**", "**ADVERTENCIA**"), inSpanish("**AVISO** Un aviso más.\n\n> **ADVERTENCIA**", "**ADVERTENCIA**")},
	{"number-not-in-original", "procedures/fill.es.md:12:67",
		inSpanish("al 14 % v/v", "al 4 % v/v"), inSpanish("al 4,0 % v/v", "al 4 % v/v")},

	// The result.
	{"enzyme-killed", "chemistries/other.md:11:14",
		[]edit{e("chemistries/other.md", "", other("contains: [enzyme]\nph: 7–8")), link("../chemistries/other.md"), e("soils/chips.md", "[alkaline, neutral]", "[alkaline, neutral, other]")},
		[]edit{e("chemistries/other.md", "", other("contains: [enzyme]\nph: 7–8\ntemperature: 40–50 °C")), link("../chemistries/other.md"), e("soils/chips.md", "[alkaline, neutral]", "[alkaline, neutral, other]")}},
	{"outside-chemistry-window", "parts/shaft.md:13:11",
		[]edit{e("parts/shaft.md", "strength: 4 % v/v", "strength: 12 % v/v"), e("soils/cutting-oil.md", "{chemistry: alkaline, strength: 3–8 % v/v,", "{chemistry: alkaline,")},
		[]edit{e("parts/shaft.md", "strength: 4 % v/v", "strength: 1:24")}},
	{"above-cloud-point", "chemistries/alkaline.md:11:14",
		[]edit{e("chemistries/alkaline.md", "cloud-point: 72 °C", "cloud-point: 68 °C")},
		[]edit{e("chemistries/alkaline.md", "cloud-point: 72 °C", "cloud-point: 70 °C")}},
	{"outside-soil-window", "parts/shaft.md:14:14",
		[]edit{e("parts/shaft.md", "temperature: 60 °C", "temperature: 52 °C")},
		[]edit{e("parts/shaft.md", "temperature: 60 °C", "temperature: 55 °C")}},
	{"other-frequency", "parts/shaft.md:16:12",
		[]edit{e("parts/shaft.md", "frequency: 40 kHz", "frequency: 28 kHz")},
		[]edit{e("parts/shaft.md", "frequency: 40 kHz\n", "")}},
	{"soil-not-removed", "parts/shaft.md:10:8",
		[]edit{e("parts/shaft.md", "soil: [cutting-oil]", "soil: [rust, cutting-oil]")},
		[]edit{e("parts/shaft.md", "soil: [cutting-oil]", "soil: [chips, cutting-oil]")}},
	{"removal-disagrees", "soils/rust.md:11:17",
		[]edit{e("chemistries/descaler.md", "removes: [rust]\n", "")},
		[]edit{e("soils/chips.md", "removed-by: [alkaline, neutral]", "removed-by: [neutral, {chemistry: alkaline}]")}},
	{"hard-last-rinse", "parts/nut.md:17:9",
		[]edit{e("parts/nut.md", "rinse: [rinse-1, rinse-2]", "rinse: [rinse-1]")},
		[]edit{e("shop.yaml", "conductivity: 12 µS/cm", "conductivity: 30 µS/cm")}},
	{"silicate-before-coating", "parts/shaft.md:12:12",
		and(chemistry("contains: [silicate]"), []edit{e("parts/shaft.md", "next: assembly", "next: painting")}),
		chemistry("contains: [silicate]")},
	{"tank-too-cold", "parts/shaft.md:14:14",
		[]edit{e("shop.yaml", "heater: 6 kW", "heater: 100 W"), e("shop.yaml", "temperature: 60 °C\n    flammables: no\n  - id: wash-2", "flammables: no\n  - id: wash-2")},
		[]edit{e("shop.yaml", "heater: 6 kW", "heater: 2 kW")}},
	{"unbounded-article", "materials/brass.md:2:1",
		[]edit{e("materials/brass.md", "ph: 6–9.5\n", "")},
		[]edit{e("materials/brass.md", "ph: 6–9.5\n", ""), e("materials/brass.md", "frequency: 37–170 kHz", "frequency: none"), e("parts/nut.md", "material: [brass]", "material: [aluminium]")}},
}

const (
	fillSpanish = "---\ntitle: Llenar el tanque\nsummary: Llenar, dosificar y mezclar.\ntranslates: A\napproved: 2026-09-15, operator\nequipment: [jarra]\nprotective-equipment: [gafas, guantes químicos]\n---\n" +
		"> **ADVERTENCIA** El concentrado puede dejar ciego. Gafas y guantes. Siga la ficha de datos de seguridad y las normas locales.\n\n1. Llene hasta la marca.\n2. Agregue el [limpiador alcalino](../chemistries/alkaline.md) al 4 % v/v.\n"
	spotsSpanish = "---\ntitle: Manchas\nsummary: Manchas blancas al secar.\ntranslates: A\napproved: 2026-09-15, operator\n---\nManchas blancas cuando la pieza está seca.\n\n" +
		"## ¿Se quita en seco?\n\n**Cómo mirar.** Una pasada con un paño seco.\n\n- Sí: [Sales](#sales)\n- No: [Película](#película)\n\n## Sales\n\nCambie el último enjuague.\n\n**Compruebe.** Cinco piezas, ninguna mancha.\n\n## Película\n\nEnjuague más tiempo.\n\n**Compruebe.** Cinco piezas, ninguna película.\n"

	spotsTree = "\n## Does it wipe off dry?\n\n**How to look.** One stroke with a dry cloth.\n\n- Yes: [Salts](#salts)\n- No: [Film](#film)\n\n## Salts\n\nChange the last rinse.\n\n**Recheck.** Five parts, no spot.\n\n## Film\n\nRinse longer.\n\n**Recheck.** Five parts, no film.\n"
	pane      = "---\ntitle: Pane\nsummary: Made up for a test.\nstation: wash\nrevision: A\napproved: 2026-09-14, process engineer\nreview-by: 2027-09-14\nsources: [common practice, no source]\nmaterial: [window]\nsoil: [cutting-oil]\ntank: wash-2\nchemistry: neutral\nstrength: 2 % v/v\ntemperature: 45 °C\ntime: 3 min\nrinse: [rinse-1]\ndry: dryer\nnext: storage\n---\nWipe.\n"
	pipe      = "\x00pipe"
)

// other is the text of the chemistry that chemistry makes.
func other(more string) string {
	return strings.Replace(chemistry(more)[0].new, "removes: [cutting-oil]", "removes: [chips]", 1)
}

// inSpanish is the translation of filling, with one thing changed.
func inSpanish(new, old string) []edit {
	return []edit{e("procedures/fill.es.md", "", strings.Replace(fillSpanish, old, new, 1))}
}

var withInputs = regexp.MustCompile("```calculator (\\S+)\n[^`]*```")

// allInSpanish declares that a manual is translated and gives each article but one a translation, in which only the header is.
func allInSpanish(manual, except string) []edit {
	edits := []edit{e("shop.yaml", "units: SI\n", "translations: [es]\nunits: SI\n")}
	files, err := filepath.Glob(manual + "/*/*.md")
	if err != nil || len(files) == 0 {
		panic("there is no " + manual)
	}
	for _, file := range files {
		name := path.Join(filepath.Base(filepath.Dir(file)), filepath.Base(file))
		if name == except || strings.HasSuffix(name, ".es.md") {
			continue
		}
		data, err := os.ReadFile(file)
		if err != nil {
			panic(err)
		}
		header, body, _ := strings.Cut(strings.TrimPrefix(string(data), "---\n"), "\n---\n")
		_, revision, _ := strings.Cut(header, "\nrevision: ")
		revision, _, _ = strings.Cut(revision, "\n")
		text := "---\ntitle: T\nsummary: R.\ntranslates: " + revision + "\napproved: 2026-09-15, operator\n"
		for line := range strings.SplitSeq(header, "\n") {
			key, _, _ := strings.Cut(line, ":")
			switch {
			case key == "equipment" || key == "protective-equipment" || key == "damage" || key == "observations":
				text += line + "\n"
			case strings.HasPrefix(line, "  - {seen:"):
				text += "  - " + strings.TrimSuffix(strings.TrimPrefix(line[:strings.LastIndex(line, ", by:")], "  - {seen: "), "}") + "\n"
			}
		}
		body = withInputs.ReplaceAllString(body, "```calculator $1\n```")
		edits = append(edits, e(strings.TrimSuffix(name, ".md")+".es.md", "", text+"---\n"+body))
	}
	return edits
}
