package page

import (
	"cmp"
	"slices"
	"strings"

	"tankside/builder/decide/admit/markup"
	"tankside/builder/language"
	"tankside/builder/manual"
	"tankside/calculators"
	"tankside/themes"
)

// Tool is a page of the program itself, of a tank, or a calculator, as the search finds it: what an article is to the manual.
type Tool struct {
	Path     string // within the edition
	Kind     string // manual.PageFound, manual.TankFound or manual.CalculatorFound
	Station  string // of a tank
	Title    string
	Text     string
	Also     []string // everyday words
	Language string   // a BCP 47 tag
}

// ownPages are the pages that nobody writes and that are found by name; English. also are what people say for them, parted by semicolons: one phrase, so
// that a language may have other ones, and more. has tells whether an edition of the manual has the page; nil is always.
var ownPages = []struct {
	path, title, text, also string
	has                     func(*manual.Manual) bool
	spoken                  bool // the page is there in every language of the edition
}{
	{path: homePage, title: "Home page", text: "What is wrong with the part? The tanks of the line, all kinds of articles, what has changed.", spoken: true,
		also: "start page; main page; front page; begin; back to the start; overview; contents"},
	{path: CardsPage, title: "Cards for the tanks", text: "A card for each tank, to print and to hang at the tank: what is in it, how much for a fill, what must never go in, checks.", spoken: true,
		also: "tank card; card of the tank; laminated card; print card; wall card; hang at the tank; card to hang; quick sheet; one page for the tank; poster for the wash; cards; sheet for the tank; notice at the tank; put up at the tank; sign for the tank; instructions at the tank; printed card; print the cards"},
	{path: sheetsPage, title: "Sheets to print", text: "Cards, process sheets, pocket sheets, first aid, logs and forms, each to be printed by itself.", spoken: true,
		also: "sheets; forms; form; print a form; blank form; all forms; templates to fill in; things to print; printouts; paperwork; checklists to print; what can be printed"},
	{path: "process-sheets.html", title: "Process sheets", text: "A sheet for each part: how it is run, every condition, what can hurt, what is worn.", spoken: true,
		also: "process sheet; process card; part card; recipe card; route card; job card; traveller; print the recipe; sheet for a part; work instruction for a part"},
	{path: "pocket-sheet.html", title: "Pocket sheets", text: "A sheet folded to eight leaves for who services the tanks: what each tank is and does.", spoken: true,
		also: "pocket card; pocket guide; folded card; fold; leaflet; mini book; booklet for the technician; for the pocket; cheat sheet; tank data for the technician"},
	{path: "first-aid-card.html", title: "First-aid card", text: "What to do in the first minutes, to hang at the telephone and at the eyewash.", has: aids, spoken: true,
		also: "print the first aid card; first aid poster; emergency poster; emergency card; poster for the eyewash; what to hang at the telephone; first aid notice"},
	{path: "log-sheets.html", title: "Log sheets", text: "Empty sheets to write readings on, each column with what it has to keep to.", has: asksForSheets, spoken: true,
		also: "log sheet; log; bath log; blank log; record sheet; write down readings; daily log; readings on paper; table to fill in; titration log; temperature log"},
	{path: "whiteboards.html", title: "Whiteboards of the day", text: "A sheet for each tank and day: what it is set to, what was found, what was poured.", has: asksForSheets, spoken: true,
		also: "whiteboard; white board; board; what do I write on the whiteboard; daily board; board of the day; shift sheet; handover of the shift; today's sheet"},
	{path: "trial-form.html", title: "Form for a first-article trial", text: "To be filled in while a new part, soil or cleaner is tried.", has: asksForSheets, spoken: true,
		also: "trial form; first article form; trial sheet; test clean form; sample form; new part form; validation form; form for a trial"},
	{path: "bath-change-forms.html", title: "Bath change forms", text: "A form for each tank that holds a cleaner, with what a fill takes.", has: asksForSheets, spoken: true,
		also: "bath change form; form for changing the bath; dump form; change-over sheet; new fill form; drain and refill form; checklist bath change"},
	{path: "waste-forms.html", title: "Waste hand-over forms", text: "What the bath was, what it is, who took it, with its hazards.", has: asksForSheets, spoken: true,
		also: "waste form; waste hand-over form; waste manifest; disposal form; form for the waste carrier; waste paper to sign; spent bath form; waste papers to print"},
	{path: "visit-form.html", title: "Blank visit report", text: "For a service visit without a device: every set-point, room for what was found and left.", has: asksForSheets, spoken: true,
		also: "blank visit report; service form; empty service report; paper visit report; field service form; report form; blank report; service sheet"},
	{path: visitPage, title: "Visit report", text: "Steps that were walked, sums and readings are kept on this device and printed or saved.", spoken: true,
		also: "service report; report; visit; job sheet; write down what I did; note; notes; field report; maintenance report; customer report; save my readings; print the report; log the visit; visit report; my visit; customer visit; write a report; write up the job; job report; proof of work; record what was done; save what I did"},
	{path: markup.Page, title: "May it go in?", text: "Pick what the part is made of, what is on it and which tank, and read whether it may go in, and how.", has: asksOf,
		also: "may it go in; can I put this in; can it go in the tank; is it safe to wash; which tank takes it; compatibility; compatible; allowed in the bath; what can I clean; material check; will it be damaged; may this part go in; can this part go in; can my part be washed; which materials may go in; is my material safe; what happens to my part; will it hurt my part; check a part; check a material; can I wash this"},
	{path: seenPage, title: "Several things at once", text: "Tick what is seen and read the causes.", has: seesOf, spoken: true,
		also: "more than one problem; several symptoms; many faults; likely cause; most likely cause; troubleshooting; find the cause; diagnosis; what is wrong; tick what you see; two things wrong; two faults together; faults at the same time; several problems; several problems together; many problems; more than one fault; combination of faults; which cause fits"},
	{path: calculatorsPage, title: "Calculators", text: "Every sum of the manual on a page of its own, for any tank of the shop.", spoken: true,
		also: "calculator; calculators; all calculators; sums; all sums; work it out; reckon; calculations; list of calculators; formulas; do the sum; maths"},
	{path: editionPage, title: "This edition", text: "Number, date and code of the edition, the ledger of editions, checksums.", spoken: true,
		also: "edition; version; which edition; code; ledger; what has changed; changed since last time; what is new; release; revision; which version is this; newest; is this up to date; date of this manual; history; checksum; edition number; issue; update"},
	{path: changesPage, title: "What changed", text: "Old text beside new, what to replace on the floor, who has to read it again.",
		also: "changes; what changed; what is different; differences; changes in the manual; changes since last edition; manual changed; old text; compare with before; difference; new words marked; which cards to replace; which sheets to replace; who has to read again; retrain; renamed"},
	{path: BookPage, title: "The manual on paper", text: "Chapter by chapter, for the printer: with index, sources and sign-off sheet.",
		also: "book; the book; print the manual; whole manual; paper manual; printed; printer; PDF; hard copy; binder; chapters; download the manual; print everything; print it all; everything on paper; printout; paper copy"},
	{path: restsPage, title: "What rests on what", text: "Every value and statement that decides about harm, with what it rests on, the weakest first.",
		also: "sources; source of a value; evidence; references; where does this number come from; who says so; proof of a limit; standards; not confirmed; from memory; safety officer; audit; where do the limits come from; where do the values come from; origin of the limits; how do you know; basis of a limit; who decided the limit; reason for a limit; references for values"},
	{path: reviewsPage, title: "Reviews", text: "What has to be looked at again, and by when.",
		also: "review; reviews; review dates; overdue; due for review; what expires; calendar; audit dates; document control; who approved; approvals"},
	{path: glossaryPage, title: "Glossary", text: "The words of the trade and what they mean.", has: func(m *manual.Manual) bool { return len(m.Glossary) > 0 },
		also: "glossary; words; meaning; what does it mean; definitions; dictionary; terms; jargon; explain a word; abbreviations; what does this word mean; meaning of a word; unknown word; trade words; technical terms"},
	{path: wordsPage, title: "All words, A–Z", text: "Every title and everyday word in the order of the alphabet.", spoken: true,
		also: "index; all words; alphabetical; A to Z; AZ; list of words; keyword list; everything in a list; table of contents; alphabet; alphabetical list; from A to Z; find by letter"},
	{path: "tables/materials-tanks.html", title: "Which material in which tank", text: "By what this edition says of the tanks.", has: func(m *manual.Manual) bool { return asksOf(m) && tanksOf(m) },
		also: "table of materials and tanks; material chart; compatibility table; which metal in which tank; overview of materials; which part in which tank; which tank for steel; which tank for aluminium; metals and tanks"},
	{path: "tables/chemistries-materials.html", title: "What a chemistry does to a material", text: "Each no with its reason.", has: func(m *manual.Manual) bool { return has(m, manual.Chemistry) && has(m, manual.Material) },
		also: "chemical compatibility; compatibility chart; what attacks what; table of chemistries and materials; which cleaner for which metal; chart of cleaners and metals; metals and cleaners; what harms which metal; cleaner against metal; effect of cleaners on metals"},
	{path: "tables/soils-chemistries.html", title: "What lifts which soil", text: "How strong, how hot, how long.", has: func(m *manual.Manual) bool { return has(m, manual.Chemistry) && has(m, manual.Soil) },
		also: "table of soils and chemistries; which cleaner for which dirt; dirt chart; soil table; what takes off what; cleaner selection; which chemical for which soil; what removes what; what takes off which dirt; which soap for which dirt; what cleans what; choose a cleaner; pick a cleaner"},
}

func has(m *manual.Manual, kind manual.Kind) bool {
	for _, a := range m.Articles {
		if a.Kind == kind {
			return true
		}
	}
	return false
}

func tanksOf(m *manual.Manual) bool {
	for i := range m.Shop.Tanks {
		if m.Named(manual.Chemistry, m.Shop.Tanks[i].Chemistry.Name) != nil {
			return true
		}
	}
	return false
}

// asksOf and seesOf tell of a manual what asks and known tell of a site.
func asksOf(m *manual.Manual) bool { return has(m, manual.Material) && has(m, manual.Chemistry) }

// aids tells whether a procedure gives first aid.
func aids(m *manual.Manual) bool {
	for _, a := range m.Articles {
		if a.Kind == manual.Procedure && len(a.FirstAid()) > 0 {
			return true
		}
	}
	return false
}

func seesOf(m *manual.Manual) bool {
	for _, a := range m.Articles {
		if a.Symptom != nil && len(a.Symptom.Observations) > 0 {
			return true
		}
	}
	return false
}

// sumsAlso is what people say for a calculator's sum, as in ownPages.
var sumsAlso = map[string]string{
	"dilution":  "how much soap; how much concentrate; mix the bath; mixing ratio; fill a tank; make up a bath; percent; ratio; how many litres of cleaner; dose; dosing; how much cleaner; cleaner for a tank; litres of concentrate; grams per litre; amount of cleaner; soap for so many litres",
	"top-up":    "too weak; too strong; how much to add; add cleaner; refill; after evaporation; level is low; bring back to strength; replenish; weak bath how much to add; correct the strength; add concentrate",
	"titration": "drops; burette; titrant; strength from titration; free alkalinity; acid number; how many mL used; test result; factor; strength from drops; result of the titration; work out the strength",
	"heat-up":   "how long to heat; when is it hot; warm up time; switch on early; ready for the shift; preheat; time to temperature; heating time; how long until hot; hours to heat; how long until warm; is the heater big enough",
	"holding":   "cost over night; energy cost; electricity; price of keeping hot; evaporation; what a weekend costs; standby; water lost; heat loss; cost of keeping hot; leave it on overnight; switch off or leave on; running cost; money for heating; what does it cost to leave on",
	"degas":     "how long to degas; air in the bath; fresh fill; bubbles out; degas minutes; degassing time; time to get the air out",
	"power":     "watts in the liquid; calorimeter; how strong is the sound; real power; power check; generator power; output of the transducers; power density; watts per litre; watts per gallon; power from temperature rise",
	"load":      "cold parts; how much can I load; heavy basket; temperature drop; how many kilos; load weight; bath gets cold; cold parts cool the bath; bath cools down with parts; how far the temperature falls; recovery time",
	"rinse":     "rinse water flow; how much rinse water; drag-out; carry-over; counterflow; how many rinses; dilution of the rinse; litres of rinse water; water needed for rinsing; how clean the rinse stays; litres per hour",
	"spotting":  "spots; water quality for the last rinse; microsiemens; conductivity; dissolved solids; residue of water; drying spots; how pure must the water be; will it leave spots; how much is left when it dries",
	"hardness":  "german degrees; dH; grains; ppm; convert hardness; hard water; test strip; french degrees; lime in water; degrees of hardness; convert degrees; hardness units; English degrees; mg per litre calcium",
	"scale":     "limescale; furring; saturation; Langelier; Ryznar; water eats pipes; corrosive water; will it scale; will the water make scale; lime falls out; scale when hot; water makes lime; scaling tendency",
	"sound":     "kilohertz; frequency; bubble size; stripes; wavelength; standing wave; spacing; 40 kHz or 80 kHz; distance of the bands; distance between stripes; half wavelength; size of bubbles",
	"drying":    "how long to dry; dryer minutes; hot air; wet parts; time in the dryer; drying time; minutes to dry",
	"residue":   "gravimetric; weigh the dirt; milligrams per area; filter weight; how clean; cleanliness by mass; balance; weight of dirt left; dirt per area; result of weighing",
	"particles": "particle count; filter count; ISO 16232; cleanliness code; microns; particle size; count on a filter; cleanliness code from a count; work out the code; particles per class",
	"bath-life": "how long does the bath last; when to change the bath; bath worn out; oil load; how often to dump; service life; renew the bath; how many loads; loads until the bath is used up; loads until it is full; days until change; when is the bath full of oil",
}

// SumPage is where a calculator is done, within the edition: on a page of its own, where it can be set to any tank. It is empty for what is no calculator. The search
// and what is worked out in its field lead there; nothing else says where.
func SumPage(calculator string) string {
	if _, known := calculators.Named(calculator); !known {
		return ""
	}
	return calculatorPage(calculator) + "#sum-" + calculator
}

// What people say for the smallest and the largest of several tanks, as in ownPages; a name such as “Wash 2” is for who knows the line.
const (
	smallestTank = "small tank; smallest tank; small bath; small wash; small machine; the little tank; smaller tank"
	largestTank  = "big tank; biggest tank; large tank; largest tank; big bath; big wash; large wash; big machine; main tank; bigger tank"
	anyTank      = "tank; volume of the tank; size of the tank; dimensions; how many litres; what is in it; what is in the tank; settings of the tank; data of the tank; what if; what drops out; another temperature; another set point; compare two chemistries; two cleaners compared; control chart; run chart; drift of the strength; readings of the bath"
)

// tankTools gives the pages of the tanks in a language.
func tankTools(m *manual.Manual, said words, tag string) (list []Tool) {
	tanks := m.Shop.Tanks
	bySize := func(a, b manual.Tank) int { return cmp.Compare(a.Volume.Low, b.Volume.Low) }
	for i := range tanks {
		t := &tanks[i]
		holds, path := strings.ReplaceAll(t.Chemistry.Name, "-", " "), tankPage(t.ID)
		if tag != m.OwnLanguage() {
			path = inLanguage(path, tag)
			if c := m.Named(manual.Chemistry, t.Chemistry.Name); c != nil && m.In(c, tag) != nil {
				holds = m.In(c, tag).Head.Title
			}
		}
		also := append(phrasesOf(said.say(anyTank)), t.Frequency.String(), t.Volume.String())
		smallest, largest := slices.MinFunc(tanks, bySize).Volume.Low, slices.MaxFunc(tanks, bySize).Volume.Low
		if t.Volume.Low == smallest && smallest != largest {
			also = append(also, phrasesOf(said.say(smallestTank))...)
		}
		if t.Volume.Low == largest && smallest != largest {
			also = append(also, phrasesOf(said.say(largestTank))...)
		}
		list = append(list, Tool{
			Path: path, Title: t.Name, Kind: manual.TankFound, Station: "wash", Language: tag, Also: also,
			Text: strings.Join([]string{t.Name, t.Volume.String(), holds, t.Strength.String(), t.Temperature.String(), t.Frequency.String(), t.Heater.String()}, " "),
		})
	}
	return list
}

// Tools gives the pages of the program itself, of the tanks and the calculators that an edition of the manual has, in each of its languages.
func Tools(m *manual.Manual, theme themes.Theme) ([]Tool, error) {
	own := m.OwnLanguage()
	var list []Tool
	for _, tag := range append([]string{own}, m.Languages()...) {
		said, err := interfaceWords(theme, tag)
		if err != nil {
			return nil, err
		}
		sums, err := sumWords(theme, tag)
		if err != nil {
			return nil, err
		}
		list = append(list, tankTools(m, said, tag)...)
		for i := range ownPages {
			p := &ownPages[i]
			if p.has != nil && !p.has(m) {
				continue
			}
			t := Tool{Path: p.path, Kind: manual.PageFound, Title: said.say(p.title), Text: said.say(p.text), Also: phrasesOf(said.say(p.also)), Language: tag}
			if p.spoken && tag != own {
				t.Path = inLanguage(p.path, tag)
			}
			list = append(list, t)
		}
		for _, c := range calculators.All() {
			t := sumTool(c, said, sums)
			if t.Language = tag; tag != own {
				page, anchor, _ := strings.Cut(t.Path, "#")
				t.Path = inLanguage(page, tag) + "#" + anchor
			}
			list = append(list, t)
		}
	}
	return list, nil
}

func sumTool(c *calculators.Calculator, said words, sums language.Words) Tool {
	title := said.say("Calculator") + ": " + sums.Say(c.Title)
	text := sums.Say(c.Summary)
	for _, r := range c.Readings {
		text += " " + sums.Say(r.Label) + "."
	}
	return Tool{Path: SumPage(c.Name), Kind: manual.CalculatorFound, Title: title, Text: text, Also: append([]string{sums.Say(c.Title)}, phrasesOf(said.say(sumsAlso[c.Name]))...)}
}
