package page

import (
	"path"
	"strings"
	"testing"

	"tankside/builder/language/marked"
)

// The list of phrases that translators are given is what the program says, with where it says it. TANKSIDE_PHRASES=write writes it anew.
func TestPhrasesForTranslatorsAreThoseThatAreSaid(t *testing.T) {
	all := sayings(t)
	for phrase, note := range notes {
		if all[phrase] == "" {
			t.Errorf("there is a note about %q, which nothing says", phrase)
		}
		all[phrase] = marked.Also(all[phrase], marked.Note+note)
	}
	marked.List(t, "pages", all, placeOf)
}

// notes are for phrases that mean nothing certain by themselves. The first translator into German took some of them for something else.
var notes = map[string]string{
	"English": "put the name of your own language here, as it calls itself",
	"at":      "before a time of day",
	"from":    "before the temperature from which it is heated",
	"marks":   "a sign “marks” a tank's value: ▾ marks Wash 1",
	"Ask":     "before a role and a line to write a name on: whom to ask",
	"By":      "before or above a name: who did it",
	"From":    "before a date", "To": "before a date",
	"For":               "before the roles whom a lesson is for",
	"Care":              "the last station of the line, where tank and bath are looked after",
	"maintain":          "what is done at the last station of the line, where tank and bath are looked after",
	"Mind":              "before what makes a part delicate",
	"Takes":             "before a time: how long it takes",
	"Holds":             "before a volume",
	"stop":              "in the place of a yes: not before it has been asked about",
	"Spots":             "before “must not spot”: whether drops that dry would spoil the part",
	"Nature":            "what sort of soil it is: oil, wax, scale",
	"with":              "before a soil: brass, with wax, into Wash 1",
	"into":              "before a tank: brass, with wax, into Wash 1",
	"if":                "in the place of yes: with conditions, in a narrow cell; must not look like yes or no",
	"h":                 "hours, behind a number",
	"min":               "minutes, behind a number",
	"Reading":           "what an instrument shows, or the result of a sum",
	"Level at the mark": "of the liquid in a tank",
	"Lifted by":         "before chemistries that lift the soil", "Lifts": "before soils that the chemistry lifts",
	"Chemistry": "what a bath is made of: a cleaner, a descaler, a rinse aid",
}

// placeOf says to a translator where something is said, by the file or table that says it; "" where nobody has written that down yet.
func placeOf(where string) string {
	if strings.HasPrefix(where, "../decide/admit/") {
		return "reasons and recipes of “May it go in?”"
	}
	return places[path.Base(where)]
}

var places = map[string]string{
	"a header":                      "words of headers: constituents, substances, features, what a soil may contain, hazard statements",
	"what can be found":             "what the search finds: kinds of articles, in small letters",
	"the declaration of a kind":     "headings of the lists of articles",
	"the washes of a process sheet": "what is said of one wash of a process sheet with several: “First wash: …”",
	"stationTitles":                 "stations of the line",
	"lookTitles":                    "ways to look, on the page “Several things at once”",
	"sumGroups":                     "groups of calculators",
	"verdictWords":                  "verdicts of “May it go in?”",
	"standingWords":                 "page “What rests on what”: how good a source is",
	"briefly":                       "table of materials and chemistries: why not, in two or three words",
	"causes":                        "page “Several things at once”: how often, how many causes",
	"an answer":                     "answers of “May it go in?”",
	"what is asked":                 "search: what has to be said for a sum",
	"record.Quantities":             "readings of a bath: what is read",
	"ownPages":                      "titles of pages, what stands below them, and other words by which the search finds them",
	"sumsAlso":                      "other words to search for a calculator",
	"tanks":                         "tanks: which one is named",
	"a recipe":                      "reasons and recipes of “May it go in?”",
	"a_z.go":                        "list of all words",
	"ask.go":                        "page “May it go in?”",
	"bench.go":                      "page of a tank",
	"article.go":                    "page of an article",
	"a-z.html":                      "list of all words",
	"article.html":                  "page of an article",
	"book-chapter.html":             "printed manual",
	"book.html":                     "printed manual",
	"book.go":                       "printed manual",
	"outline.go":                    "printed manual",
	"paper-parts.html":              "printed manual",
	"paper-symptom.html":            "printed manual",
	"paper-table.html":              "printed manual",
	"paper-tank.html":               "printed manual",
	"paper-article.html":            "printed manual",
	"running-head.html":             "printed manual",
	"kit.go":                        "sheets to print",
	"handoutPages":                  "sheets to print",
	"handouts.html":                 "sheets to print",
	"handouts.go":                   "sheets to print",
	"forms.go":                      "sheets to print: forms and whiteboards",
	"pocket.go":                     "sheets to print: pocket sheet for the technician",
	"process.go":                    "sheets to print: process sheet of a part",
	"log.go":                        "sheets to print: log sheet of a tank",
	"aid.go":                        "sheets to print: first aid",
	"pour.go":                       "how much to let out and to add, and with which measure",
	"card.go":                       "cards for the tanks",
	"card-current.html":             "whether a card is current, on the page of its tank",
	"write.html":                    "readings written down at the tank",
	"together.html":                 "readings shared between devices",
	"understood.go":                 "page “Read and understood”",
	"first.go":                      "first page of an edition in one file: how to unpack it",
	"render.go":                     "frame of every page",
	"book-parts.html":               "printed manual",
	"book-whole.html":               "printed manual",
	"whole.go":                      "printed manual",
	"cards.html":                    "cards for the tanks",
	"cards.go":                      "cards for the tanks",
	"calculator.html":               "page of a calculator",
	"calculators.go":                "page of a calculator",
	"sums.go":                       "page of a calculator",
	"changes.html":                  "page “What changed”",
	"since.go":                      "page “What changed”",
	"find.html":                     "search",
	"forward.html":                  "page at the old address of an article",
	"glossary.html":                 "glossary",
	"home.html":                     "home page",
	"home.go":                       "home page",
	"list.html":                     "lists of articles",
	"lists.go":                      "lists of articles",
	"overview.go":                   "lists of articles",
	"may-it-go-in.html":             "page “May it go in?”",
	"suits.html":                    "what suits a material or soil, on its page",
	"suits.go":                      "what suits a material or soil, on its page",
	"page.html":                     "frame of every page",
	"frame.go":                      "frame of every page",
	"beside.go":                     "frame of every page",
	"languages.go":                  "frame of every page",
	"mark.go":                       "number and code of the edition, on every page",
	"parts.html":                    "parts of a long page",
	"record.html":                   "readings of a bath",
	"record-chart.html":             "readings of a bath",
	"record-month.html":             "readings of a bath: sheet to write a month's readings on",
	"record.go":                     "readings of a bath",
	"record_table.go":               "readings of a bath",
	"record_say.go":                 "readings of a bath",
	"rests-on.html":                 "page “What rests on what”",
	"rests.go":                      "page “What rests on what”",
	"symptom.html":                  "page of a symptom",
	"symptom.go":                    "page of a symptom",
	"table.html":                    "tables of what goes with what",
	"table.go":                      "tables of what goes with what",
	"table_soils.go":                "tables of what goes with what",
	"derived.go":                    "tables of what goes with what",
	"tank.html":                     "page of a tank",
	"tank.go":                       "page of a tank",
	"tank-card.html":                "page of a tank",
	"vessel.html":                   "page of a rinse or of the dryer",
	"vessel.go":                     "page of a rinse or of the dryer",
	"this-edition.html":             "page “This edition”",
	"visit.html":                    "visit report",
	"visit.go":                      "visit report",
	"what-is-seen.html":             "page “Several things at once”",
	"seen.go":                       "page “Several things at once”",
	"reviews.go":                    "page “Reviews”",
	"control.go":                    "approval, revision and review of an article",
	"draft.go":                      "drafts",
	"preview.go":                    "preview while somebody writes",
	"facts.go":                      "facts of a header on an article's page",
	"gauge.go":                      "drawing of a process window",
	"body.go":                       "text of an article",
}
