package rules

// textMistakes are mistakes of running text in the demo manual.
var textMistakes = []mistake{
	{"heat-beyond-limit", lesson, "Bring Wash 1 to 80 °C", []edit{end(lesson, "Bring Wash 1 to 80 °C first.")}},
	{"text-against-decision", "materials/brass.md", "Wash 1 fits brass", []edit{end("materials/brass.md", "Wash 1 fits brass.")}},
	{"link-names-another", lesson, "[citric descaler]", []edit{end(lesson, "See [citric descaler](../chemistries/mild-alkaline.md).")}},
	{"unmarked-message", lesson, "WARNING: acid", []edit{end(lesson, "WARNING: acid burns.")}},
	{"message-without-hazard", lesson, "> **WARNING** Mind", []edit{end(lesson, "> **WARNING** Mind this page (source: common practice).")}},
	{"unequal-units", lesson, "2 bar (50 psi)", []edit{end(lesson, "Blow at 2 bar (50 psi).")}},
	{"unsaid-gallon", lesson, "30 gal", []edit{end(lesson, "Pour 30 gal in.")}},
	{"wrong-sum", lesson, "4 % of 120 L", []edit{end(lesson, "4 % of 120 L is 6 L.")}},
	{"listing-against-model", lesson, "volume: 100 L", []edit{end(lesson, "```calculator dilution\ntank: wash-1\nvolume: 100 L\nstrength: 4 % v/v\n```")}},
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
