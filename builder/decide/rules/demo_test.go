package rules

import (
	"context"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

const demo = "../../../content"

// atEnd as what an edit changes puts the new text at the end of the file.
const atEnd = "\x00end"

func TestDemoManualIsWithoutFault(t *testing.T) {
	if list := proofread(t, folder(t, demo)); len(list) > 0 {
		t.Errorf("the demo manual has findings:%s", show(list))
	}
}

// mistake is one mistake made in a copy of the demo manual: the rule that has to find it, and the line where.
type mistake struct {
	rule  string
	file  string
	line  string // a piece of the line, as it reads after the mistake; "" for the file as a whole
	edits []edit
}

const (
	lesson      = "lessons/working-safely.md"
	spots       = "symptoms/spotty-parts.md"
	wash1Record = "records/wash-1.csv"
	rinseRecord = "records/rinse-2.csv"
	steel       = "materials/carbon-steel.md"
	house       = "parts/bearing-housing-steel.md"

	degasSpanish     = "procedures/degas.es.md"
	spotsSpanishFile = "symptoms/spotty-parts.es.md"

	seenWith = "**Seen with.** Typical: white spots or rings. As a cause: rare."
)

func end(file, text string) edit { return e(file, atEnd, "\n"+text+"\n") }

func extraLesson(title, text string) edit { return e("lessons/extra.md", "", head(title, "")+text) }

// newPart is a part that is washed as the header says.
func newPart(more string) edit {
	return e("parts/extra.md", "", head("Part made up for a test", more)+"> **WARNING** Made up for a test: it burns.\n\nHang it.\n")
}

// spareTank puts another tank at the end of the line.
func spareTank(chemistry, strength, temperature, frequency, flammables string) edit {
	return e("shop.yaml", "\nrinses:\n", "\n  - id: spare\n    name: Spare tank\n    volume: 50 L\n    frequency: "+frequency+"\n    chemistry: "+chemistry+"\n    strength: "+strength+"\n    temperature: "+temperature+"\n    flammables: "+flammables+"\nrinses:\n")
}

func inSpare(material, soil, chemistry, time string) edit {
	return newPart("material: [" + material + "]\nsoil: [" + soil + "]\ntank: spare\nchemistry: " + chemistry + "\ntime: " + time + "\nrinse: [rinse-1, rinse-2]\nnext: storage\n")
}

var mistakes = []mistake{
	{"unreadable-file", "soils/fingerprints.md", "summary: S\xe4lt,", []edit{e("soils/fingerprints.md", "summary: Salt,", "summary: S\xe4lt,")}},
	{"too-large", lesson, "", []edit{end(lesson, strings.Repeat("Wash your hands. ", 70_000))}},
	{"not-a-file", "soils/pipe.md", "", []edit{e("soils/pipe.md", "", pipe)}},
	{"unreadable-ledger", "ledger.txt", "edition 1", []edit{e("ledger.txt", "", "edition 1\n")}},
	{"one-number-twice", "ledger.txt", "1 | 2026-09-16", []edit{e("ledger.txt", "", "1 | 2026-09-14 | FA5-HC7-WN3 | - | first entry | - | - | aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa\n1 | 2026-09-16 | 6EY-CF8-3FC | - | first entry | - | - | cccccccccccccccccccccccccccccccccccccccccccccccccccccccccccccccc\n")}},
	{"missing-from-ledger", "ledger.txt", "", []edit{e("ledger.txt", "", "2 | 2026-09-15 | TWH-YX7-YJR | - | first entry | - | - | bbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbb\n")}},
	{"stray-file", "soils/notes.txt", "", []edit{e("soils/notes.txt", "", "x")}},
	{"broken-forwarding", "moved.yaml", "soils/old.md", []edit{e("moved.yaml", "", "soils/old.md: soils/nowhere.md\n")}},
	{"unusable-file-name", "lessons/aux.md", "", []edit{e("lessons/aux.md", "", head("Extra", "")+"x\n")}},
	{"untidy-file-name", "lessons/Extra.md", "", []edit{e("lessons/Extra.md", "", head("Extra", "")+"x\n")}},
	{"same-address", lesson, "", []edit{e("lessons/more/working-safely.md", "", head("Extra", "")+"x\n")}},
	{"no-header", "lessons/extra.md", "Only text.", []edit{e("lessons/extra.md", "", "Only text.\n")}},
	{"unreadable-yaml", lesson, "title: New: ", []edit{e(lesson, "\ntitle: ", "\ntitle: New: ")}},
	{"unknown-key", steel, "damages:", []edit{e(steel, "\ndamage:", "\ndamages:")}},
	{"duplicate-key", steel, "damage: [rust", []edit{e(steel, "\ndamage:", "\ndamage: [x]\ndamage: [rust, x]\nsee-also: [titration]\nfeatures:"), e(steel, "[orange bloom", "[thin] # [orange bloom"), e(steel, "\nsee-also: [flash-rust", "\n# [flash-rust")}},
	{"missing-key", steel, "title: ", []edit{e(steel, "\nrevision: {revision}\n", "\n")}},
	{"wrong-value", steel, "approved: 27.8.2026", []edit{e(steel, "approved: {day}", "approved: 27.8.2026")}},
	{"wrong-quantity", steel, "temperature: ≤ 80", []edit{e(steel, "temperature: ≤ 80 °C", "temperature: ≤ 80")}},
	{"unknown-word", steel, "made-of: [carbon-steal]", []edit{e(steel, "made-of: [carbon-steel]", "made-of: [carbon-steal]")}},
	{"unknown-name", "parts/gland-nut-brass.md", "material: [bras]", []edit{e("parts/gland-nut-brass.md", "material: [brass]", "material: [bras]")}},
	{"raw-html", lesson, "<script>", []edit{end(lesson, "Mind <script>alert(1) the step.")}},
	{"top-heading", lesson, "# More", []edit{end(lesson, "# More")}},
	{"unclear-signal", lesson, "> **Warning** Hot.", []edit{end(lesson, "> **Warning** Hot.")}},
	{"unreadable-calculator", lesson, "```calculator", []edit{end(lesson, "```calculator\n```")}},
	{"unreadable-signs", spots, "Often: white", []edit{e(spots, "**Seen with.** Typical: rough", "**Seen with.** Often: white spots or rings. Typical: rough")}},
	{"unknown-observation", spots, "Typical: rough spekcs", []edit{e(spots, "Typical: rough specks", "Typical: rough spekcs on upper faces; rough specks")}},
	{"observation-twice", spots, "{seen: rough specks on upper faces, by: lens}", []edit{e(spots, "{seen: rough specks on upper faces, by: look}", "{seen: rough specks on upper faces, by: look}\n  - {seen: rough specks on upper faces, by: lens}")}},
	{"observation-without-cause", spots, "{seen: a part that sings, by: listen}", []edit{e(spots, "{seen: rough specks on upper faces, by: look}", "{seen: rough specks on upper faces, by: look}\n  - {seen: a part that sings, by: listen}")}},
	{"cause-without-signs", spots, "Typical: rough specks", []edit{e(spots, "Rare: spots wipe off with a damp cloth. As a cause: sometimes.", "Rare: spots wipe off with a damp cloth.")}},
	{"unreadable-record", wash1Record, "day,", []edit{e(wash1Record, "when,", "day,")}},
	{"unclear-head", wash1Record, "when,", []edit{e(wash1Record, "strength (% v/v)", "strength (%)")}},
	{"two-decimal-signs", wash1Record, "2026-09-07", []edit{e(wash1Record, ",4.01,9.80,", ",\"4,01\",9.80,")}},
	{"broken-row", wash1Record, "7.9.2026", []edit{e(wash1Record, "2026-09-07T06:09", "7.9.2026")}},
	{"unreadable-reading", wash1Record, ",about 4,", []edit{e(wash1Record, ",4.01,9.80,", ",about 4,9.80,")}},
	{"impossible-reading", wash1Record, ",15.8,", []edit{e(wash1Record, ",4.01,9.80,", ",4.01,15.8,")}},
	{"out-of-order", wash1Record, "w1-002", []edit{e(wash1Record, "2026-09-07T", "2026-09-27T")}},
	{"reading-twice", wash1Record, "2026-09-08", []edit{e(wash1Record, ",w1-002", ",w1-001")}},
	{"unclear-correction", rinseRecord, "2026-09-07", []edit{e(rinseRecord, ",note,id", ",replaces,id")}},
	{"reading-in-future", wash1Record, "2027-11-27", []edit{e(wash1Record, "2026-11-27T", "2027-11-27T")}},
	{"unsafe-picture", "pictures/two-plates.svg", "onload", []edit{e("pictures/two-plates.svg", "<svg", `<svg onload="x()"`)}},

	{"no-first-step", "symptoms/extra.md", "Only text.", []edit{e("symptoms/extra.md", "", head("Extra", "seen-on: part\n")+"Only text.\n")}},
	{"answer-to-nothing", spots, "(#salty)", []edit{e(spots, ringAnswer, "- Both drops leave a ring: [Salty](#salty)")}},
	{"dead-end", spots, "- Both drops leave a ring", []edit{e(spots, ringAnswer, "- Both drops leave a ring")}},
	{"unreachable-step", spots, "## Dust at last", []edit{end(spots, "## Dust at last\n\n"+seenWith+"\n\n**Recheck.** Look.")}},
	{"circle", spots, "- Both drops leave a ring", []edit{e(spots, ringAnswer, "- Both drops leave a ring: [Again](#is-the-last-rinse-too-salty)")}},
	{"one-answer", spots, "## Is it grey?", []edit{e(spots, ringAnswer, "- Both drops leave a ring: [Is it grey?](#is-it-grey)"), end(spots, "## Is it grey?\n\n- Yes: [Cleaner carried over](#cleaner-carried-into-the-last-rinse)")}},
	{"remedy-without-recheck", spots, "## Grey water", []edit{e(spots, ringAnswer, "- Both drops leave a ring: [Grey water](#grey-water)"), end(spots, "## Grey water\n\n"+seenWith)}},
	{"duplicate-heading", spots, "## Cleaner carried into the last rinse ", []edit{e(spots, ringAnswer, "- Both drops leave a ring: [Cleaner](#cleaner-carried-into-the-last-rinse-2)"), end(spots, "## Cleaner carried into the last rinse \n\n"+seenWith+"\n\n**Recheck.** Look.")}},

	{"broken-link", lesson, "nuts.md", []edit{end(lesson, "See [nuts](../parts/nuts.md).")}},
	{"link-out-of-manual", lesson, "nuts.md", []edit{end(lesson, "See [nuts](../../nuts.md).")}},
	{"unsafe-link", lesson, "javascript:", []edit{end(lesson, "See [nuts](javascript:alert(1)).")}},
	{"missing-picture", lesson, "chip.svg", []edit{end(lesson, "![A chip](../pictures/chip.svg)")}},
	{"undescribed-picture", lesson, "two-plates.svg", []edit{end(lesson, "![](../pictures/two-plates.svg)")}},
	{"unshowable-picture", "pictures/two-plates.svg", "<use", []edit{e("pictures/two-plates.svg", "</svg>", `<g id="itself"><use href="#itself"/></g></svg>`)}},
	{"faint-accent", "shop.yaml", "accent:", []edit{e("shop.yaml", "\nunits: SI\n", "\nunits: SI\naccent: \"#ffd9a0\"\n")}},
	{"missing-mark", "shop.yaml", "mark:", []edit{e("shop.yaml", "\nunits: SI\n", "\nunits: SI\nmark: pictures/none.svg\n")}},
	{"unused-picture", "pictures/extra.svg", "", []edit{e("pictures/extra.svg", "", `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><circle r="3"/></svg>`)}},
	{"duplicate-title", "soils/fingerprints.md", "title: Fingerprints", []edit{extraLesson("Fingerprints", "x\n")}},
	{"orphan", "procedures/extra.md", "title: Extra", []edit{e("procedures/extra.md", "", head("Extra", "")+"x\n")}},
	{"empty-article", "lessons/extra.md", "title: Extra", []edit{extraLesson("Extra", "\n")}},
	{"broken-glossary-link", "glossary.yaml", "extra word:", []edit{end("glossary.yaml", "extra word: {means: made up, article: lessons/none.md}")}},
	{"review-overdue", house, "review-by: 2026-09-27", []edit{e(house, "approved: {day}", "approved: 2026-08-27"), e(house, "review-by: 2027-08-27", "review-by: 2026-09-27")}},
	{"changed-since-approval", house, "approved: ", []edit{e(house, "\nrevision: ", "\nrevision: A")}},
	{"not-approved", house, "approved: not yet", []edit{e(house, "approved: {day}", "approved: not yet # {day}")}},
	{"names-a-draft", lesson, "See [extra]", []edit{extraDraft, end(lesson, "See [extra](extra.md).")}},
	{"dates-out-of-order", house, "review-by: 2027-08-27", []edit{e(house, "approved: {day}", "approved: 2027-08-28")}},
	{"vague-source", house, "sources:", []edit{e(house, "- common practice, no source", "- common practice, no source\n  - internet")}},
	{"unknown-source", "lessons/extra.md", "(source: ASTM B850)", []edit{extraLesson("Extra", "Bake within 4 h (source: ASTM B850).\n")}},
	{"rests-on-nothing", "lessons/extra.md", "**CAUTION**", []edit{e("lessons/extra.md", "", strings.Replace(head("Extra", ""), "sources: [", "sources: [from memory, ", 1)+"> **CAUTION** Hot parts burn: gloves.\n")}},
	{"hard-to-read", "lessons/extra.md", "The bath lifts", []edit{extraLesson("Extra", "Look.\n\n"+strings.Repeat(longWinded, 3)+"\n")}},
	{"acceptance-without-effect", house, "accept:", []edit{e(house, "\nnext: assembly", "\nnext: assembly\naccept: [{rule: too-hot-for-material, reason: It is fine.}]")}},
	{"calculator-without-result", lesson, "target: 60 L", []edit{end(lesson, "```calculator heat-up\ntank: wash-1\ntarget: 60 L\n```")}},
	{"contradicted-value", "chemistries/mild-alkaline.md", "temperature: 50–70 °F", []edit{e("chemistries/mild-alkaline.md", "temperature: 50–70 °C", "temperature: 50–70 °F")}},
	{"implausible-value", "materials/brass.md", "ph: 6–95", []edit{e("materials/brass.md", "\nph: 6–9.5\n", "\nph: 6–95\n")}},
	{"volume-against-sides", "shop.yaml", "volume: 38 L", []edit{e("shop.yaml", "volume: 28 L", "volume: 38 L")}},
	{"unsaid-gallon", lesson, "30 gal", []edit{end(lesson, "Pour 30 gal in.")}},
	{"pasted-number", "chemistries/mild-alkaline.md", "summary:", []edit{e("chemistries/mild-alkaline.md", "\nsummary: ", "\nsummary: At pH 9,5. ")}},
	{"number-against-model", lesson, "at 9 % v/v", []edit{end(lesson, "Add the [neutral detergent](../chemistries/neutral-detergent.md) at 9 % v/v.")}},

	{"hazard-without-message", "chemistries/neutral-detergent.md", "hazards: [H315, H318]", []edit{e("chemistries/neutral-detergent.md", "hazards: [H315, H319]", "hazards: [H315, H318]")}},
	{"hazard-without-protection", "chemistries/neutral-detergent.md", "hazards:", []edit{e("chemistries/neutral-detergent.md", "\nprotective-equipment: [goggles, gloves]", ""), e("chemistries/neutral-detergent.md", "frequency, protective-equipment]", "frequency]")}},
	{"protection-too-little", "chemistries/heavy-duty-caustic.md", "protective-equipment:", []edit{e("chemistries/heavy-duty-caustic.md", "protective-equipment: [goggles, face shield,", "protective-equipment: [safety glasses,")}},
	{"missing-first-aid", "chemistries/heavy-duty-caustic.md", "contains:", []edit{e("chemistries/heavy-duty-caustic.md", "contains: [", "contains: [fluoride, "), e("procedures/first-aid.md", "first-aid: [fluoride, ", "first-aid: [")}},
	{"first-aid-without-measure", "procedures/first-aid.md", "first-aid: [", []edit{e("procedures/first-aid.md", "**Calcium gluconate gel, 2.5 %**", "**Gel**"), e("procedures/first-aid.md", "calcium gluconate gel 2.5 %, clean", "clean")}},
	{"wash-without-time", "parts/gland-nut-brass.md", "chemistry:", []edit{e("parts/gland-nut-brass.md", "\ntime: ", "\n# time: "), e("parts/gland-nut-brass.md", "temperature, time, frequency]", "temperature, frequency]")}},
	{"wash-without-rinse", house, "chemistry:", []edit{e(house, "\nrinse: ", "\n# rinse: ")}},
	{"undeclared-content", "soils/wax.md", "Old drums", []edit{end("soils/wax.md", "> **WARNING** Old drums may hold lead (source: melting ranges of). Wear gloves (source: melting ranges of)."), end("soils/wax.es.md", "> **ADVERTENCIA** Los bidones viejos pueden contener plomo (fuente: melting ranges of). Use guantes (fuente: melting ranges of).")}},
	{"unnamed-enemy", "chemistries/acid-detergent.md", "never-with:", []edit{e("chemistries/acid-detergent.md", "never-with: [hypochlorite, sulfide, cyanide, nitrite, alkali]", "never-with: [hypochlorite, nitrite, alkali]")}},
	{"undeclared-constituent", "chemistries/solvent-emulsion.md", "also-called:", []edit{e("chemistries/solvent-emulsion.md", "also-called: [emulsion cleaner", "also-called: [acetone bath, emulsion cleaner")}},
	{"undeclared-substance", "materials/conversion-coated.md", "title:", []edit{e("materials/conversion-coated.md", "made-of: [conversion-coat, aluminium, zinc]", "made-of: [conversion-coat, aluminium]")}},
	{"harmful-habit", lesson, "Bridge the", []edit{end(lesson, "Bridge the lid switch for a short look.")}},
	{"flash-point-against-hazard", "chemistries/solvent-emulsion.md", "flash-point:", []edit{e("chemistries/solvent-emulsion.md", "flash-point: 77 °C", "flash-point: 97 °C"), e("chemistries/solvent-emulsion.md", "The flash point here is 77 °C, so 60 °C is", "60 °C is"), e("chemistries/solvent-emulsion.es.md", "El punto de inflamación es aquí 77 °C, y 60 °C es", "60 °C es")}},
	{"ph-without-water", "chemistries/terpene-semi-aqueous.md", "ph:", []edit{e("chemistries/terpene-semi-aqueous.md", "ph: 6–9", "ph: none")}},
	{"undeclared-hazard", "chemistries/acid-detergent.md", "contains:", []edit{e("chemistries/acid-detergent.md", "hazards: [H315, H319]", "hazards: [H335]")}},
	{"soil-needs-clearance", "soils/drawing-oil.md", "may-contain:", []edit{e("soils/drawing-oil.md", "\nremoved-by:", "\nmay-contain: [pcb]\nremoved-by:"), e("soils/drawing-oil.md", "common practice: [removed-by]", "common practice: [removed-by, may-contain]")}},
	{"never-meet", "procedures/fill-and-dilute.md", "chemistry: [", []edit{e("procedures/fill-and-dilute.md", "chemistry: [mild-alkaline, neutral-detergent]", "chemistry: [mild-alkaline, neutral-detergent, citric-descaler]")}},
	{"sealed-part", house, "chemistry:", []edit{e(house, "features: [blind-holes]", "features: [blind-holes, sealed]")}},
	{"flammable-in-ordinary-tank", "shop.yaml", "id: wash-2", []edit{e("chemistries/neutral-detergent.md", "\nfrequency: 25–170 kHz", "\nflash-point: 90 °C\nfrequency: 25–170 kHz"), e("chemistries/neutral-detergent.md", "practice: [temperature,", "practice: [flash-point, temperature,")}},
	{"near-flash-point", "chemistries/terpene-semi-aqueous.md", "temperature:", []edit{e("chemistries/terpene-semi-aqueous.md", "flash-point: 60 °C", "flash-point: 55 °C")}},
	{"above-ceiling", "chemistries/mild-alkaline.md", "temperature:", []edit{e("chemistries/mild-alkaline.md", "\nceiling: 75 °C", "\nceiling: 68 °C")}},

	{"strong-alkali-on-light-metal", "parts/extra.md", "chemistry:", []edit{
		e("chemistries/mild-alkaline.md", "contains: [", "contains: [free-caustic, "), e("shop.yaml", "drag-out: 1.2 L/h", "drag-out: 0 L/h"),
		e("chemistries/mild-alkaline.md", "> **WARNING** Bath and parts", "> **WARNING** On zinc it gives off hydrogen. Bath and parts"),
		newPart("material: [zinc-and-galvanised]\nsoil: [chips-and-swarf]\ntank: wash-1\nchemistry: mild-alkaline\nstrength: 4 % v/v\ntemperature: 52 °C\ntime: 3 min\nrinse: [rinse-1]\nnext: storage\n")}},
	{"acid-on-hard-steel", "parts/extra.md", "chemistry:", []edit{spareTank("citric-descaler", "5 % w/v", "50 °C", "40 kHz", "no"), inSpare("high-strength-steel", "light-rust", "citric-descaler", "5 min")}},
	{"acid-on-reactive-material", "parts/extra.md", "chemistry:", []edit{spareTank("citric-descaler", "5 % w/v", "50 °C", "40 kHz", "no"), inSpare("tungsten-carbide", "light-rust", "citric-descaler", "5 min")}},
	{"ammonia-on-copper-alloy", "parts/extra.md", "chemistry: inhibitor-rinse", []edit{spareTank("inhibitor-rinse", "1 % v/v", "45 °C", "40 kHz", "no"),
		newPart("material: [brass]\nsoil: [fingerprints]\nsteps:\n  - {tank: wash-2, chemistry: neutral-detergent, time: 2 min}\n  - {tank: spare, chemistry: inhibitor-rinse, time: 1 min}\nrinse: [rinse-1]\nnext: storage\n")}},
	{"chloride-on-stainless", "parts/extra.md", "chemistry:", []edit{e("chemistries/citric-descaler.md", "contains: [", "contains: [chloride, "), spareTank("citric-descaler", "5 % w/v", "50 °C", "40 kHz", "no"), inSpare("stainless-300", "light-rust", "citric-descaler", "5 min")}},
	{"solvent-on-plastic", "parts/extra.md", "chemistry: glycol-ether", []edit{spareTank("glycol-ether-semi-aqueous", "15 % v/v", "45 °C", "40 kHz", "yes"),
		newPart("material: [pvc-abs-polystyrene]\nsoil: [fingerprints]\nsteps:\n  - {tank: wash-2, chemistry: neutral-detergent, temperature: 45 °C, time: 2 min}\n  - {tank: spare, chemistry: glycol-ether-semi-aqueous, time: 3 min}\nrinse: [rinse-1]\nnext: storage\n")}},
	{"emulsion-in-pores", "parts/extra.md", "chemistry:", []edit{spareTank("solvent-emulsion", "10 % v/v", "45 °C", "40 kHz", "yes"), inSpare("cast-iron", "petroleum-grease", "solvent-emulsion", "10 min")}},
	{"constituent-attacks-material", house, "chemistry:", []edit{e(steel, "attacked-by: [chloride,", "attacked-by: [phosphate, chloride,")}},
	{"low-frequency-on-soft-surface", "parts/extra.md", "chemistry:", []edit{spareTank("neutral-detergent", "2 % v/v", "45 °C", "28 kHz", "no"),
		newPart("material: [stainless-300]\nfeatures: [polished]\nsoil: [chips-and-swarf]\ntank: spare\nchemistry: neutral-detergent\ntime: 3 min\nrinse: [rinse-1]\nnext: storage\n")}},
	{"sound-on-sensitive-device", house, "chemistry:", []edit{e(steel, "frequency: 25–170 kHz", "frequency: none")}},
	{"ph-outside-material", house, "chemistry:", []edit{e(steel, "ph: 9–13.5", "ph: 10.5–13.5")}},
	{"attack-on-purpose", "parts/extra.md", "chemistry:", []edit{spareTank("citric-descaler", "5 % w/v", "50 °C", "40 kHz", "no"), inSpare("carbon-steel", "light-rust", "citric-descaler", "5 min")}},
	{"too-hot-for-material", house, "temperature:", []edit{e(steel, "temperature: ≤ 80 °C", "temperature: ≤ 60 °C")}},
	{"too-long-for-material", house, "time:", []edit{e(steel, "time: ≤ 15 min", "time: ≤ 14 min")}},
	{"frequency-outside-material", house, "frequency:", []edit{e(steel, "frequency: 25–170 kHz", "frequency: 68–170 kHz")}},
	{"dissimilar-metals", "parts/gland-nut-brass.md", "material:", []edit{e("parts/gland-nut-brass.md", "material: [brass]", "material: [brass, aluminium-wrought]")}},
	{"other-chemistry", "parts/relief-spring.md", "chemistry:", []edit{e("parts/relief-spring.md", "chemistry: mild-alkaline", "chemistry: silicated-alkaline")}},
	{"dryer-too-hot", "parts/gauge-window-polycarbonate.md", "dry: dryer", []edit{e("parts/gauge-window-polycarbonate.md", "\nmust-not-spot:", "\ndry: dryer\nmust-not-spot:")}},

	{"repeated-fact", degasSpanish, "time: 15", []edit{e(degasSpanish, "\nequipment:", "\ntime: 15–60 min\nequipment:")}},
	{"unknown-language", "shop.yaml", "language: cy", []edit{e("shop.yaml", "\nlanguage: en\n", "\nlanguage: cy\n")}},
	{"unknown-phrase", "theme/words/es.yaml", `"Fresh watter"`, []edit{e("theme/words/es.yaml", "", "\"Fresh water\": \"Agua nueva\"\n\"Fresh watter\": \"Agua nueva\"\n")}},
	{"altered-phrase", "theme/words/es.yaml", `"Write the time`, []edit{e("theme/words/es.yaml", "", "\"Write the time as 6:10.\": \"Escriba la hora como 6.\"\n")}},
	{"untranslated-words", "theme/words/cy.yaml", `"Yes"`, []edit{extraLesson("Extra", "Text.\n"), e("lessons/extra.cy.md", "", "---\ntitle: Ychwanegol\nsummary: Gwers.\ntranslates: A\napproved: not yet\n---\nTestun.\n"), e("theme/words/cy.yaml", "", "\"Yes\": \"Ydw\"\n")}},
	{"missing-translation", "soils/wax.md", "title:", []edit{e("shop.yaml", "units: SI\n", "translations: [es]\nunits: SI\n"), e("soils/wax.es.md", "", gone)}},
	{"translation-of-nothing", "soils/waxes.es.md", "---", []edit{e("soils/waxes.es.md", "", fillSpanish[:strings.Index(fillSpanish, "equipment")]+"---\nCeras.\n")}},
	{"outdated-translation", degasSpanish, "translates: B", []edit{e(degasSpanish, "translates: {translates}", "translates: B")}},
	{"incomplete-translation", degasSpanish, "protective-equipment:", []edit{e(degasSpanish, ", guantes químicos, protección auditiva]", ", guantes químicos]")}},
	{"other-tree", spotsSpanishFile, "- Las dos gotas", []edit{e(spotsSpanishFile, "- Las dos gotas dejan un cerco: [Agua de entrada con sal: renovar el desionizador](#agua-de-entrada-con-sal-renovar-el-desionizador)", "- Las dos gotas dejan un cerco: [Limpiador](#limpiador-arrastrado-al-último-enjuague)")}},
	{"lost-message", degasSpanish, "> **AVISO** Desgasificar", []edit{e(degasSpanish, "**PRECAUCIÓN** Desgasificar", "**AVISO** Desgasificar")}},
	{"weaker-translation", degasSpanish, "alzar la voz", []edit{e(degasSpanish, "alzar la voz a 1 m", "alzar la voz")}},
	{"number-not-in-original", degasSpanish, "una salpicadura", []edit{e(degasSpanish, "una salpicadura a 60 °C", "una salpicadura a 80 °C")}},

	{"enzyme-killed", "chemistries/enzymatic-detergent.md", "ph: 6.5–9.5", []edit{e("chemistries/enzymatic-detergent.md", "\nph: 6.5–8.5", "\nph: 6.5–9.5")}},
	{"outside-chemistry-window", "soils/petroleum-grease.md", "chemistry: mild-alkaline", []edit{e("soils/petroleum-grease.md", "chemistry: mild-alkaline, strength: 4–10 % v/v", "chemistry: mild-alkaline, strength: 4–12 % v/v")}},
	{"above-cloud-point", "chemistries/mild-alkaline.md", "temperature:", []edit{e("chemistries/mild-alkaline.md", "\ncloud-point: 75 °C", "\ncloud-point: 68 °C")}},
	{"outside-soil-window", house, "temperature:", []edit{e(house, "temperature: 62 °C", "temperature: 58 °C")}},
	{"other-frequency", house, "frequency:", []edit{e(house, "frequency: 40 kHz", "frequency: 28 kHz")}},
	{"soil-not-removed", house, "soil:", []edit{e(house, "soil: [petroleum-grease]", "soil: [petroleum-grease, light-rust]")}},
	{"removal-disagrees", "soils/fingerprints.md", "chemistry: neutral-detergent", []edit{e("chemistries/neutral-detergent.md", "fingerprints, chips-and-swarf", "chips-and-swarf")}},
	{"hard-last-rinse", "parts/gland-nut-brass.md", "rinse:", []edit{e("parts/gland-nut-brass.md", "rinse: [rinse-1, rinse-2]", "rinse: [rinse-1]")}},
	{"silicate-before-coating", house, "chemistry:", []edit{e("chemistries/mild-alkaline.md", "contains: [", "contains: [silicate, "), e("shop.yaml", "drag-out: 1.2 L/h", "drag-out: 0 L/h"), e(house, "next: assembly", "next: painting")}},
	{"tank-too-cold", "shop.yaml", "temperature: 62 °C", []edit{e("shop.yaml", "heater: 6 kW", "heater: 100 W")}},
	{"tank-warms-itself", "shop.yaml", "ultrasonic-power: 1.2 kW", []edit{e("shop.yaml", "    duty: 20 %\n", "")}},
	{"concession-without-effect", "materials/brass.md", "  - chemistry: ammoniated-soap", []edit{e("materials/brass.md", "\ndamage:", "\nconcessions:\n  - chemistry: ammoniated-soap\n    rules: [ammonia-on-copper-alloy]\n    by: process engineer\n    reason: Made up for a test.\ndamage:")}},
	{"outside-concession", "parts/extra.md", "1 min}", []edit{
		e("materials/brass.md", "\ndamage:", "\nconcessions:\n  - chemistry: inhibitor-rinse\n    rules: [ammonia-on-copper-alloy, constituent-attacks-material]\n    by: process engineer\n    reason: Made up for a test.\n    time: ≤ 30 s\ndamage:"),
		spareTank("inhibitor-rinse", "1 % v/v", "45 °C", "40 kHz", "no"),
		newPart("material: [brass]\nsoil: [fingerprints]\nsteps:\n  - {tank: wash-2, chemistry: neutral-detergent, time: 2 min}\n  - {tank: spare, chemistry: inhibitor-rinse, time: 1 min}\nrinse: [rinse-1]\nnext: storage\n")}},
	{"flammable-into-dryer", "parts/extra.md", "dry:", []edit{spareTank("terpene-semi-aqueous", "20 % v/v", "35 °C", "40 kHz", "yes"),
		newPart("material: [stainless-300]\nsoil: [wax]\ntank: spare\nchemistry: terpene-semi-aqueous\ntime: 15 min\nrinse: [rinse-1]\ndry: dryer\nnext: storage\n")}},
	{"cadmium-in-a-bath", "parts/extra.md", "chemistry:", []edit{newPart("material: [cadmium-plate]\nsoil: [fingerprints]\ntank: wash-2\nchemistry: neutral-detergent\ntime: 2 min\nrinse: [rinse-1]\nnext: storage\n")}},
	{"misnamed-theme-file", "theme/templates/artikle.html", "", []edit{e("theme/templates/artikle.html", "", "x")}},
	{"broken-theme-file", "theme/styles/99-own.css", "a {", []edit{e("theme/styles/99-own.css", "", "a { color: #333;\n")}},
	{"outdated-theme-file", "theme/styles/30-find.css", "", []edit{e("theme/styles/30-find.css", "", "a { color: #333; }\n"), e("theme/taken/styles/30-find.css", "", "a { color: #444; }\n")}},
	{"overfull-sheet", "shop.yaml", "- id: wash-2", []edit{e("shop.yaml", "    name: Wash 2\n", "    name: The second wash of them all, for whatever is brass\n")}},
	{"jar-with-heat-or-sound", "shop.yaml", "- id: wash-2", []edit{e("shop.yaml", "    name: Wash 2\n", "    name: Wash 2\n    vessel: jar\n")}},
	{"strength-not-comparable", "parts/gland-nut-brass.md", "strength:", []edit{e("chemistries/neutral-detergent.md", "\ndensity: 1.03 kg/L\ncontains", "\ncontains"), e("chemistries/neutral-detergent.md", "strength, density,", "strength,"), e("parts/gland-nut-brass.md", "strength: 2 % v/v", "strength: 20 g/L")}},
	{"rinse-outside-material", "parts/sensor-bracket-anodised.md", "rinse:", []edit{e("parts/sensor-bracket-anodised.md", "rinse: [rinse-2]", "rinse: [rinse-1, rinse-2]")}},
	{"replaces-nothing", "lessons/extra.md", "replaces:", []edit{{"lessons/extra.md", "", strings.Replace(extraLesson("Extra", "x\n").new, "\nstation: ", "\nreplaces: C, 0123456789abcdef\nstation: ", 1)}}},
	{"unsaid-replacement", "soils/wax.md", "title:", []edit{e("soils/wax.md", "\nnature: ", "\n# of this shop\nnature: ")}},
	{"base-moved-on", "soils/wax.md", "replaces:", []edit{e("soils/wax.md", "\nnature: ", "\nreplaces: A, 0123456789abcdef\nnature: ")}},
	{"message-lost-by-replacing", "procedures/degas.md", "title:", []edit{e("procedures/degas.md", "\napproved: ", "\nreplaces: {replaceable}\napproved: "), e("procedures/degas.md", "if you must raise your voice at 1 m", "if it hurts")}},
	{"not-of-a-shop", "shop.yaml", "# The shop behind", []edit{e("glossary.yaml", "", "\n# of this shop\n")}},
	{"unbounded-article", "materials/titanium.md", "title:", []edit{e("materials/titanium.md", "\nph: 4–12", ""), e("materials/titanium.md", "practice: [ph, ", "practice: [")}},
}

// extraDraft is a lesson that is not finished.
var extraDraft = edit{"lessons/extra.md", "", strings.Replace(extraLesson("Extra", "x\n").new, "\nstation: ", "\ndraft: yes\nstation: ", 1)}

const ringAnswer = "- Both drops leave a ring: [Salty feed water: renew the deioniser](#salty-feed-water-renew-the-deioniser)"

// Each mistake is found, where it is, and nothing else is said.
func TestEachMistakeInTheDemoManualIsFoundAlone(t *testing.T) {
	base := folder(t, demo)
	if list := proofread(t, base); len(list) > 0 {
		t.Fatal("the demo manual itself has findings")
	}
	alone := untranslated(base)
	var again proofAgain
	for _, m := range mistakes {
		t.Run(m.rule, func(t *testing.T) {
			// A mistake in an original often makes its translation wrong as well; it is made where there is none.
			base, whole := base, true
			if !slices.ContainsFunc(m.edits, func(e edit) bool { return strings.HasSuffix(e.file, ".es.md") }) {
				base, whole = alone, false
			}
			files := edited(t, base, m.edits)
			var list []finding.Finding
			if slices.Contains(ofText, finding.RuleName(m.rule)) {
				list = withoutApprovals(proofreadAll(t, files), func(file string) bool { return file == m.file })
			} else if slices.Contains(overBase, finding.RuleName(m.rule)) {
				list = proofreadOver(t, files, base)
			} else if whole {
				list = proofread(t, files)
			} else {
				list = again.read(t, files, m.edits)
			}
			if len(list) != 1 || string(list[0].Rule) != m.rule || list[0].File != m.file || list[0].Line != lineOf(t, files, m.file, m.line) {
				t.Errorf("want %s at “%s” of %s alone, got%s", m.rule, m.line, m.file, show(list))
			}
		})
	}
}

// proofAgain proof-reads a manual with one change after another, and works only what the change touches.
type proofAgain struct {
	reader  manual.Reader
	memo    Memo
	uses    relate.Memo
	changed []string // by the edits before
}

// read does the same as proofread does.
func (p *proofAgain) read(t *testing.T, files fstest.MapFS, edits []edit) []finding.Finding {
	t.Helper()
	var now []string
	for _, e := range edits {
		now = append(now, e.file)
	}
	m, list, err := p.reader.Read(context.Background(), files, append(now, p.changed...))
	if err != nil {
		t.Fatal(err)
	}
	p.changed = now
	list = append(slices.Clone(list), ProofAgain(m, relate.UsedByAgain(m, &p.uses), dayOf(m), &p.memo)...)
	m.MarkDrafts(list)
	finding.Sort(list)
	return withoutApprovals(list, ofNoFile)
}

// untranslated leaves translations out.
func untranslated(files fstest.MapFS) fstest.MapFS {
	left := fstest.MapFS{}
	for name, f := range files {
		if !strings.HasSuffix(name, ".es.md") {
			left[name] = f
		}
	}
	return left
}

// lineOf is the first line of a file that has the piece of text, or 0 for the file as a whole.
func lineOf(t *testing.T, files fstest.MapFS, name, piece string) int {
	t.Helper()
	if piece == "" {
		return 0
	}
	before, _, found := strings.Cut(string(files[name].Data), piece)
	if !found {
		t.Fatalf("%s has no “%s”", name, piece)
	}
	return 1 + strings.Count(before, "\n")
}

func TestEveryRuleHasItsMistakeInTheDemoManual(t *testing.T) {
	have := map[string]bool{}
	for _, m := range mistakes {
		have[m.rule] = true
	}
	for _, r := range All() {
		if !have[string(r.Name)] && r.Name != changedWithoutRevision.Name && r.Name != manual.UnusableTheme.Name { // which take two editions, and pages
			t.Errorf("no mistake is made for %s", r.Name)
		}
	}
}

// All mistakes that can stand side by side are found together.
func TestManyMistakesAtOnceAreAllFound(t *testing.T) {
	files := untranslated(folder(t, demo))
	var want []string
	for _, m := range mistakes {
		if m.rule == "unclear-signal" || m.rule == "broken-link" || m.rule == "review-overdue" || m.rule == "dead-end" || m.rule == "too-hot-for-material" || m.rule == "hard-last-rinse" || m.rule == "above-cloud-point" {
			files = edited(t, files, m.edits)
			want = append(want, m.rule)
		}
	}
	list := proofread(t, files)
	for _, rule := range want {
		found := false
		for _, f := range list {
			found = found || string(f.Rule) == rule
		}
		if !found {
			t.Errorf("%s is lost among others", rule)
		}
	}
	const overdue = 1 // which stops nothing
	if len(list) != len(want) || finding.Stopping(list) != len(want)-overdue {
		t.Errorf("%d mistakes, %d findings:%s", len(want), len(list), show(list))
	}
}
