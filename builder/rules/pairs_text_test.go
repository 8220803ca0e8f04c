package rules

// textPairs are the pairs of the rules of running text. Most change the one line of soils/chips.md; testdata/sentences has many more cases.
var textPairs = []pair{
	{"heat-beyond-limit", "soils/chips.md:12:17", chips("Bring Wash 1 to 80 °C."), chips("Never bring Wash 1 above 72 °C; it was at 80 °C once.")},
	{"text-against-decision", "materials/brass.md:19:1",
		[]edit{e("materials/brass.md", "Short and cool.", "[Acid descaler](../chemistries/descaler.md) is too slow.\n\nWash 1 fits brass.")},
		[]edit{e("materials/brass.md", "Short and cool.", "[Acid descaler](../chemistries/descaler.md) is too slow.\n\nWash 1 does not fit brass.")}},
	{"link-names-another", "soils/chips.md:12:6", chips("Take [acid descaler](../chemistries/neutral.md) for it."), chips("Take [the mild one](../chemistries/neutral.md) for it.")},
	{"unmarked-message", "soils/chips.md:12:1", chips("WARNING: chips cut."), chips("The warning stands on the bin: chips cut.")},
	{"message-without-hazard", "soils/chips.md:12:1", chips("> **WARNING** Mind this page."), chips("> **NOTICE** Mind this page.")},
	{"unequal-units", "soils/chips.md:12:16", chips("Blow at 2 bar (50 psi)."), chips("Blow at 2 bar (30 psi).")},
	{"wrong-sum", "soils/chips.md:12:17", chips("4 % of 120 L is 6 L."), chips("4 % of 120 L is 4.8 L.")},
	{"listing-against-model", "soils/chips.md:14:1", chips("```calculator dilution\ntank: wash-1\nvolume: 200 L\nstrength: 4 % v/v\n```"), chips("```calculator dilution\ntank: wash-1\nvolume: 120 L\nstrength: 4 % v/v\n```")},
	{"pasted-text", "soils/chips.md:12:10", chips("Stir for 2,5 min."), chips("Stir for 2.5 min, in lots of 1,200 mL.")},
	{"lost-cell", "soils/chips.md:14:1", chips("| what | how much |\n| --- | --- |\n| oil | 2 mL | skim |"), chips("| what | how much |\n| --- | --- |\n| oil | 2 mL \\| skim |")},
	{"water-into-concentrate", "soils/chips.md:12:1", chips("Pour the water into the acid."), chips("Pour the acid into the water.")},
	{"hands-in-sound", "soils/chips.md:12:1", chips("Reach into the running bath and turn the part."), chips("Never reach into the running bath.")},
	{"neutralised-on-skin", "soils/chips.md:12:1", chips("Wash acid off the skin with baking soda."), chips("Wash acid off the skin with much water.")},
	{"mixed-in-text", "chemistries/descaler.md:24:1",
		[]edit{e("chemistries/descaler.md", "Not for hard steel.", "Add a little bleach.")},
		[]edit{e("chemistries/descaler.md", "Not for hard steel.", "Add no bleach.")}},
	{"unlisted-chemistry", "procedures/fill.md:20:13",
		[]edit{e("procedures/fill.md", "at 4 % v/v.", "at 4 % v/v.\n3. Pour in [neutral detergent](../chemistries/neutral.md).")},
		[]edit{e("procedures/fill.md", "at 4 % v/v.", "at 4 % v/v.\n3. Never pour in [neutral detergent](../chemistries/neutral.md).")}},
	{"other-tank-in-text", "parts/shaft.md:22:33",
		and(material("ph: 9–13.5", "ph: 6–13.5"), []edit{e("parts/shaft.md", "Hang it upright.", "Hang it upright and put it into Wash 2.")}),
		and(material("ph: 9–13.5", "ph: 6–13.5"), []edit{e("parts/shaft.md", "Hang it upright.", "Hang it upright. It never goes into Wash 2.")})},
}

// chips replaces the text of soils/chips.md.
func chips(text string) []edit { return []edit{e("soils/chips.md", "Turn the part over.", text)} }

func init() { pairs = append(pairs, textPairs...) }

// textMistakes are mistakes of running text in the demo manual.
var textMistakes = []mistake{
	{"heat-beyond-limit", lesson, "Bring Wash 1 to 80 °C", []edit{end(lesson, "Bring Wash 1 to 80 °C first.")}},
	{"text-against-decision", "materials/brass.md", "Wash 1 fits brass", []edit{end("materials/brass.md", "Wash 1 fits brass.")}},
	{"link-names-another", lesson, "[citric descaler]", []edit{end(lesson, "See [citric descaler](../chemistries/mild-alkaline.md).")}},
	{"unmarked-message", lesson, "WARNING: acid", []edit{end(lesson, "WARNING: acid burns.")}},
	{"message-without-hazard", lesson, "> **WARNING** Mind", []edit{end(lesson, "> **WARNING** Mind this page.")}},
	{"unequal-units", lesson, "2 bar (50 psi)", []edit{end(lesson, "Blow at 2 bar (50 psi).")}},
	{"wrong-sum", lesson, "4 % of 120 L", []edit{end(lesson, "4 % of 120 L is 6 L.")}},
	{"listing-against-model", lesson, "volume: 200 L", []edit{end(lesson, "```calculator dilution\ntank: wash-1\nvolume: 200 L\nstrength: 4 % v/v\n```")}},
	{"pasted-text", lesson, "2,5 min", []edit{end(lesson, "Stir for 2,5 min.")}},
	{"lost-cell", lesson, "| oil |", []edit{end(lesson, "| what | how much |\n| --- | --- |\n| oil |")}},
	{"water-into-concentrate", lesson, "Pour the water", []edit{end(lesson, "Pour the water into the acid.")}},
	{"hands-in-sound", lesson, "Reach into", []edit{end(lesson, "Reach into the running bath and turn the part.")}},
	{"neutralised-on-skin", lesson, "Wash acid", []edit{end(lesson, "Wash acid off the skin with baking soda.")}},
	{"mixed-in-text", "chemistries/citric-descaler.md", "Add a little bleach", []edit{end("chemistries/citric-descaler.md", "Add a little bleach.")}},
	{"unlisted-chemistry", "procedures/foil-test.md", "Pour in", []edit{end("procedures/foil-test.md", "Pour in [saponifier](../chemistries/saponifier.md).")}},
	{"other-tank-in-text", "parts/valve-body-stainless.md", "Put it in Wash 2", []edit{end("parts/valve-body-stainless.md", "Put it in Wash 2.")}},
}

func init() { mistakes = append(mistakes, textMistakes...) }
