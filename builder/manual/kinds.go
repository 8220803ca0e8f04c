package manual

import (
	"slices"

	"tankside/builder/finding"
	"tankside/builder/quantity"
)

// Kind is the kind of an article. The first folder of its path says it.
type Kind string

const (
	Soil      Kind = "soil"
	Chemistry Kind = "chemistry"
	Material  Kind = "material"
	Symptom   Kind = "symptom"
	Procedure Kind = "procedure"
	Lesson    Kind = "lesson"
	Part      Kind = "part"
)

// Declaration is all that there is to say of a kind of article. The reader, the pages and their lists, the book, the search with its filter,
// “where it is used” and FORMAT.md follow it; what a kind has besides, such as the order of the lessons, stands where it is done and
// says why.
type Declaration struct {
	Kind    Kind   // the word for one: in sentences, beside links, in the search's filter
	Folder  string // of the manual and of the edition
	Heading string // of the list of its articles, of its chapter in the book, and where a station's articles are listed
	Chapter int    // its place among the chapters of the book, from 1; none is that of the line, LineChapter

	// Alone tells that readers come to its articles without being led there by another: to symptoms from the home page, to lessons from
	// the course, to parts from their list.
	Alone bool

	// Thing tells that a title of one word names a thing, so that whatever it is also called is another word for that thing: "Wax".
	Thing bool

	// Text tells an author how the text of such an article is built, one sentence a line. An article that tankside begins shows it.
	Text []string

	facts      facts
	keys       []field[Article] // beside those of all kinds
	all        []field[Article] // keys with those of all kinds, which stand first
	translated []wording        // keys of a translation
}

// LineChapter is the place of the shop's line among the chapters of the book.
const LineChapter = 2

// kindTable declares every kind, in the order in which people meet them: from what they see to what they make.
var kindTable = complete([]*Declaration{
	{
		Kind: Symptom, Folder: "symptoms", Heading: "What went wrong", Chapter: 4, Alone: true,
		Text: []string{
			"Each heading of level 2 is a question or a remedy. The article begins with the first question.",
			"Below a question stands how to look, then a list: one item an answer, each ending in a link to the next heading: - Yes, it wipes off: [Wrong water](#wrong-water)",
			"A remedy says what to do, and how to see that it helped.",
		},
		facts: factsAt(func(a *Article) **SymptomFacts { return &a.Symptom }),
		keys: []field[Article]{
			word("swatch", "drawing of what is seen", SwatchWords, func(a *Article) *string { return &a.Symptom.Swatch }),
			text("label", "two to four words under its drawing", "Spots after drying", 28, func(a *Article) *string { return &a.Symptom.Label }),
			word("seen-on", "where it is noticed", seenOnWords, func(a *Article) *string { return &a.Symptom.SeenOn }).must(),
			names("affects", "materials that it is seen on", "[brass, bronze-and-copper]", aMaterial, func(a *Article) *[]Ref { return &a.Symptom.Affects }),
			firstAid(),
			each("observations", "what can be seen with it; remedies refer to them", observationKeys,
				func(a *Article) *[]Observation { return &a.Symptom.Observations }, func(o *Observation, at finding.Place) { o.At = at }),
		},
		translated: []wording{translatedLabel(), translatedObservations()},
	},
	{
		Kind: Soil, Folder: "soils", Heading: "Soils", Chapter: 6, Thing: true,
		Text: []string{
			"What it is made of, how to tell it from what looks like it, what lifts it and in which order, what must not be done with it.",
			"What it may contain that hurts people has a safety message that names it: > **WARNING** …",
		},
		facts: factsAt(func(a *Article) **SoilFacts { return &a.Soil }),
		keys: []field[Article]{
			word("nature", "what sort of soil it is", NatureWords, func(a *Article) *string { return &a.Soil.Nature }).must(),
			words("may-contain", "what it may contain that hurts people", PeopleHazardWords, func(a *Article) *[]Ref { return &a.Soil.MayContain }).harm(),
			removedBy().harm(),
		},
	},
	{
		Kind: Chemistry, Folder: "chemistries", Heading: "Chemistries", Chapter: 7, Thing: true,
		Text: []string{
			"What it does and to what, how the bath is made up, how its strength is measured, when it is spent, how it rinses.",
			"Each hazard of the safety data sheet has a safety message that names it: > **WARNING** …",
		},
		facts: factsAt(func(a *Article) **ChemistryFacts { return &a.Chemistry }),
		keys: []field[Article]{
			limitOrNone(Key{Name: "ph", Form: "value or range, or none", Example: "9–11", Means: "pH of the bath; none where there is no water in it"}, quantity.PH,
				func(a *Article) (*Limit, *bool) { return &a.Chemistry.PH, &a.Chemistry.NoWater }).harm(),
			value("alkalinity", "total alkalinity of the bath at the upper end of its strength, by titration to pH 4.5, as calcium carbonate or in meq/L", "350 meq/L",
				func(a *Article) *Limit { return &a.Chemistry.Alkalinity }, quantity.Alkalinity).harm(),
			value("acidity", "acidity of the bath at the upper end of its strength, by titration to pH 8.3, as calcium carbonate or in meq/L", "600 meq/L",
				func(a *Article) *Limit { return &a.Chemistry.Acidity }, quantity.Alkalinity).harm(),
			limit("strength", "strength of the bath", "2–8 % v/v", func(a *Article) *Limit { return &a.Chemistry.Strength }, strengthKinds...).harm(),
			limit("temperature", "working temperature of the bath", "45–65 °C", func(a *Article) *Limit { return &a.Chemistry.Temperature }, quantity.Temperature).harm(),
			value("ceiling", "temperature that it must never pass", "70 °C", func(a *Article) *Limit { return &a.Chemistry.Ceiling }, quantity.Temperature).harm(),
			value("cloud-point", "temperature at which its surfactant drops out", "68 °C", func(a *Article) *Limit { return &a.Chemistry.CloudPoint }, quantity.Temperature).harm(),
			value("flash-point", "flash point of the working mix", "62 °C", func(a *Article) *Limit { return &a.Chemistry.FlashPoint }, quantity.Temperature).harm(),
			limit("time", "time under ultrasonics; of what is used only in a jar, time in the jar", "3–10 min", func(a *Article) *Limit { return &a.Chemistry.Time }, quantity.Time).harm(),
			limit("frequency", "frequencies it is used at", "25–80 kHz", func(a *Article) *Limit { return &a.Chemistry.Frequency }, quantity.Frequency).harm(),
			value("density", "density of the concentrate", "1.08 kg/L", func(a *Article) *Limit { return &a.Chemistry.Density }, quantity.Density).harm(),
			words("contains", "what it is made of, as far as others must not meet it", ContainsWords, func(a *Article) *[]Ref { return &a.Chemistry.Contains }).harm(),
			names("removes", "soils that it lifts", "[straight-cutting-oil, fingerprints]", aSoil, func(a *Article) *[]Ref { return &a.Chemistry.Removes }),
			hazards(func(a *Article) *[]Ref { return &a.Chemistry.Hazards }).harm(),
			texts("protective-equipment", "what people wear", "[chemical goggles, long nitrile gloves]", func(a *Article) *[]string { return &a.Chemistry.ProtectiveEquipment }).harm(),
			names("never-with", "what it must never meet", "[acid, hypochlorite]", aNeverMeets, func(a *Article) *[]Ref { return &a.Chemistry.NeverWith }).harm(),
			name("control-test", "how its strength is measured", "titration", aProcedure, func(a *Article) *Ref { return &a.Chemistry.ControlTest }),
			word("rinses", "how well it rinses off; stays-on where it is meant to stay on the part, dries-off where it has no water and nothing of it stays", rinsesWords, func(a *Article) *string { return &a.Chemistry.Rinses }),
		},
		translated: []wording{
			wordList("protective-equipment", "what people wear, in the original's order", "[gafas químicas, guantes largos de nitrilo]", func(a *Article) *[]string { return &a.Chemistry.ProtectiveEquipment }),
		},
	},
	{
		Kind: Material, Folder: "materials", Heading: "Materials at risk", Chapter: 8, Thing: true,
		Text: []string{
			"What harms it, what the harm looks like, how far a bath may go, and how to try it on a piece that nobody needs.",
			"What is ruined at once has a safety message: > **NOTICE** …",
		},
		facts: factsAt(func(a *Article) **MaterialFacts { return &a.Material }),
		keys: []field[Article]{
			words("made-of", "its substances", MadeOfWords, func(a *Article) *[]Ref { return &a.Material.MadeOf }).must(),
			words("features", "what makes it delicate", FeatureWords, func(a *Article) *[]Ref { return &a.Material.Features }),
			limit("ph", "pH that it stands", "5–9", func(a *Article) *Limit { return &a.Material.PH }, quantity.PH).harm(),
			limit("ph-silicated", "pH that it stands where the chemistry contains silicate", "5–11", func(a *Article) *Limit { return &a.Material.PHSilicated }, quantity.PH).harm(),
			limit("temperature", "temperature that it stands in a bath; of plastics, rubber, paint and what is bonded in the dryer too", "≤ 60 °C", func(a *Article) *Limit { return &a.Material.Temperature }, quantity.Temperature).harm(),
			limitOrNone(Key{Name: "frequency", Form: "value or range, or none", Example: "≥ 40 kHz", Means: "frequencies that it stands; none where no sound may reach it. With features electronic or mems the window that the makers of the devices allow in writing"}, quantity.Frequency,
				func(a *Article) (*Limit, *bool) { return &a.Material.Frequency, &a.Material.NoSound }).harm(),
			limit("time", "total time under ultrasonics in one visit", "≤ 8 min", func(a *Article) *Limit { return &a.Material.Time }, quantity.Time).harm(),
			words("attacked-by", "constituents of a chemistry that attack it", ContainsWords, func(a *Article) *[]Ref { return &a.Material.AttackedBy }).harm(),
			texts("damage", "what is seen when it is damaged", "[white etch, black smut]", func(a *Article) *[]string { return &a.Material.Damage }),
			concessions(func(a *Article) *[]Concession { return &a.Material.Concessions }),
		},
		translated: []wording{
			wordList("damage", "what is seen when it is damaged, in the original's order", "[velo blanco, hollín negro]", func(a *Article) *[]string { return &a.Material.Damage }),
		},
	},
	{
		Kind: Procedure, Folder: "procedures", Heading: "Procedures", Chapter: 3,
		Text: []string{
			"What is needed, then the steps as a numbered list, one thing to do a step, then how to see that it is done.",
			"What can hurt somebody stands before the steps, as a safety message that names it: > **WARNING** …",
		},
		facts: factsAt(func(a *Article) **ProcedureFacts { return &a.Procedure }),
		keys: []field[Article]{
			limit("time", "how long it takes", "20–30 min", func(a *Article) *Limit { return &a.Procedure.Time }, quantity.Time),
			texts("equipment", "what is needed", "[measuring jug, pH paper]", func(a *Article) *[]string { return &a.Procedure.Equipment }),
			names("tank", "tanks, rinses or dryer that it is for, if only for some", "[wash-1]", aPlace, func(a *Article) *[]Ref { return &a.Procedure.Tanks }),
			names("chemistry", "chemistries that are used in it", "[mild-alkaline]", aChemistry, func(a *Article) *[]Ref { return &a.Procedure.Chemistries }),
			hazards(func(a *Article) *[]Ref { return &a.Procedure.Hazards }).harm(),
			texts("protective-equipment", "what people wear", "[chemical goggles, long nitrile gloves]", func(a *Article) *[]string { return &a.Procedure.ProtectiveEquipment }).harm(),
			firstAid(),
		},
		translated: []wording{
			wordList("equipment", "what is needed, in the original's order", "[jarra medidora, papel de pH]", func(a *Article) *[]string { return &a.Procedure.Equipment }),
			wordList("protective-equipment", "what people wear, in the original's order", "[gafas químicas, guantes largos de nitrilo]", func(a *Article) *[]string { return &a.Procedure.ProtectiveEquipment }),
		},
	},
	{
		Kind: Lesson, Folder: "lessons", Heading: "Lessons", Chapter: 1, Alone: true,
		Text: []string{
			"What people can do after it, then the lesson in sections of some minutes each, then what to try at the tank, then a few questions.",
		},
		facts: factsAt(func(a *Article) **LessonFacts { return &a.Lesson }),
		keys: []field[Article]{
			whole("order", "its place in the course", "3", func(a *Article) *int { return &a.Lesson.Order }),
			limit("duration", "how long it takes", "45 min", func(a *Article) *Limit { return &a.Lesson.Duration }, quantity.Time),
			lessonRoles(),
			names("needs", "what comes first", "[how-cavitation-cleans]", aLearnable, func(a *Article) *[]Ref { return &a.Lesson.Needs }),
		},
	},
	{
		Kind: Part, Folder: "parts", Heading: "Parts", Chapter: 5, Alone: true,
		Text: []string{
			"What is special about the part: how it lies in the basket, where soil stays, how to see that it is clean.",
			"What the header says (bath, time, rinse, dryer) is on the page by itself and is not said again.",
		},
		facts: factsAt(func(a *Article) **PartFacts { return &a.Part }),
		keys: append([]field[Article]{
			names("material", "its materials", "[bronze-and-copper]", aMaterial, func(a *Article) *[]Ref { return &a.Part.Materials }).must(),
			words("features", "what makes it delicate", FeatureWords, func(a *Article) *[]Ref { return &a.Part.Features }),
			names("soil", "what is on it", "[straight-cutting-oil]", aSoil, func(a *Article) *[]Ref { return &a.Part.Soils }).must(),
			each("steps", "its washes in order, where there are several", stepKeys, func(a *Article) *[]Step { return &a.Part.Steps }, func(s *Step, at finding.Place) { s.At = at }),
			names("rinse", "rinses in order", "[rinse-1, rinse-2]", aRinse, func(a *Article) *[]Ref { return &a.Part.Rinse }),
			name("dry", "dryer", "dryer", aDryer, func(a *Article) *Ref { return &a.Part.Dry }),
			yesNo("must-not-spot", "whether dried drops would spoil it", func(a *Article) *bool { return &a.Part.MustNotSpot }),
			word("next", "where it goes", nextWords, func(a *Article) *string { return &a.Part.Next }),
			concessions(func(a *Article) *[]Concession { return &a.Part.Concessions }),
		}, singleStep()...),
	},
})

// Kinds lists every kind in the order of the table.
var Kinds = kindsOf(kindTable)

func kindsOf(table []*Declaration) []Kind {
	kinds := make([]Kind, len(table))
	for i, d := range table {
		kinds[i] = d.Kind
	}
	return kinds
}

// complete puts the keys of all kinds before those of each.
func complete(table []*Declaration) []*Declaration {
	for _, d := range table {
		d.all = slices.Concat(headKeys, d.keys)
	}
	return table
}

// declared is the declaration of a kind. One of a word that is no kind says nothing.
func (k Kind) declared() *Declaration {
	for _, d := range kindTable {
		if d.Kind == k {
			return d
		}
	}
	return &Declaration{Kind: k}
}

// Declared is what there is to say of a kind.
func (k Kind) Declared() Declaration { return *k.declared() }

// Folder is the folder of the manual that holds the articles of a kind.
func (k Kind) Folder() string { return k.declared().Folder }

// Heading is the heading over the articles of a kind, in English.
func (k Kind) Heading() string { return k.declared().Heading }

// Chapters lists the kinds in the order of the book.
func Chapters() []Kind {
	return slices.SortedStableFunc(slices.Values(Kinds), func(a, b Kind) int { return a.declared().Chapter - b.declared().Chapter })
}

// What can be found beside articles.
const (
	TankFound       = "tank"       // the page of a tank
	TermFound       = "glossary"   // a word of the glossary
	PageFound       = "page"       // a page of the program itself
	CalculatorFound = "calculator" // a sum, where it can be done
)

// Findable lists what can be found: each kind of article, a tank, a word of the glossary, a page of the program, a calculator.
func Findable() []string {
	var list []string
	for _, k := range Kinds {
		list = append(list, string(k))
	}
	return append(list, TankFound, TermFound, PageFound, CalculatorFound)
}

// HeadKeys are the keys that the header of every kind of article has.
func HeadKeys() []Key { return keysOf(headKeys) }

// Keys are the keys that the header of a kind has beside HeadKeys.
func Keys(kind Kind) []Key { return keysOf(kind.declared().keys) }

// kindOf gives the kind of the articles in a folder.
func kindOf(folder string) (Kind, bool) {
	for _, d := range kindTable {
		if d.Folder == folder {
			return d.Kind, true
		}
	}
	return "", false
}

func folders() []string {
	names := make([]string, len(kindTable))
	for i, d := range kindTable {
		names[i] = d.Folder
	}
	return names
}

// Try puts one more kind at the end of the table, until it is taken out again: for tests, which show with a kind that is nowhere else what
// follows from the table alone. Each key takes a list of names of articles of the kinds to which it refers; the facts of such a kind are its
// references. No manual may be read or published while the table changes.
func Try(d Declaration, keys ...Key) (takeOut func()) {
	for _, k := range keys {
		of := whose{kinds: k.Refers}
		d.keys = append(d.keys, names(k.Name, k.Means, k.Example, of, func(*Article) *[]Ref { return new([]Ref) }))
	}
	d.facts = facts{make: func(*Article) {}, share: func(_, _ *Article) {}, clone: func(_, _ *Article) {}}
	before := kindTable
	set := func(table []*Declaration) { kindTable, Kinds = table, kindsOf(table) }
	set(complete(append(slices.Clone(before), &d)))
	return func() { set(before) }
}

// facts is how an article has the facts of its kind.
type facts struct {
	make  func(*Article)          // gives it empty ones
	share func(to, from *Article) // gives it those of another
	clone func(to, from *Article) // gives it a copy of those of another
}

// factsAt are facts that stand in a field of the article.
func factsAt[T any](at func(*Article) **T) facts {
	return facts{
		make:  func(a *Article) { *at(a) = new(T) },
		share: func(to, from *Article) { *at(to) = *at(from) },
		clone: func(to, from *Article) {
			copied := **at(from)
			*at(to) = &copied
		},
	}
}

// References goes through the articles that the header names, in its order: each name with a kind of which it can be the name.
//
//	for kind, ref := range a.References {
func (a *Article) References(yield func(Kind, Ref) bool) {
	for i := range a.names {
		for _, k := range a.names[i].kinds {
			if !yield(k, a.names[i].ref) {
				return
			}
		}
	}
}

// Vessels are the ids of the shop's tanks, and of what else may stand in the place of one, that the header names.
func (a *Article) Vessels() []string {
	var ids []string
	for i := range a.names {
		if slices.Contains(a.names[i].shop, tankIDs) {
			ids = append(ids, a.names[i].ref.Name)
		}
	}
	return ids
}

// FromShop goes through the names of the shop file's tanks, rinses, dryers and roles that the header uses, each with a list ("tank", "rinse",
// "dryer", "role") of which it can be a name.
func (a *Article) FromShop(yield func(string, Ref) bool) {
	for i := range a.names {
		for _, l := range a.names[i].shop {
			if !yield(string(l), a.names[i].ref) {
				return
			}
		}
	}
}
