package page

import (
	"html"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tankside/builder/decide/rules"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
	"tankside/calculators"
	"tankside/calculators/safety"
)

// Every key that decides about harm has its line on the page: a key that is declared so and has none would be missing there.
func TestEveryHarmKeyIsWritten(t *testing.T) {
	for _, k := range manual.Kinds {
		for _, key := range manual.HarmKeys(k) {
			if harmRows[key] == nil {
				t.Errorf("“%s” of a %s decides about harm and has no line in harmRows", key, k)
			}
		}
	}
}

// harmlessAmounts are the keys of headers that take an amount by which nobody and nothing is hurt, and why.
var harmlessAmounts = map[manual.Kind]map[string]string{
	manual.Procedure: {"time": "how long the work takes, for whoever plans the shift"},
	manual.Lesson:    {"duration": "how long the lesson takes"},
	manual.Part:      {"strength": "stands on the page wash by wash", "temperature": "the same", "time": "the same", "frequency": "the same"},
}

// Every key of a header, of any kind of article, that takes an amount is declared to decide about harm, or is named here with why it does not: so
// nobody adds a number to headers that the page does not show.
func TestEveryAmountOfAHeaderDecidesOrIsHarmless(t *testing.T) {
	for _, k := range manual.Kinds {
		for _, key := range manual.Keys(k) {
			switch {
			case len(key.Amounts) == 0 || key.Harm:
			case harmlessAmounts[k][key.Name] == "":
				t.Errorf("“%s” of a %s takes an amount, and nothing says whether it decides about harm", key.Name, k)
			}
		}
	}
}

// plain is a page as it is read: without markup, and without the amounts of the other family of units.
func plain(page string) string {
	page = otherFamily.ReplaceAllString(page, "")
	return strings.Join(strings.Fields(html.UnescapeString(tag.ReplaceAllString(page, ""))), " ")
}

var otherFamily = regexp.MustCompile(`<span class="us[^"]*"[^>]*>[^<]*</span>`)

// open is the part of a page that nobody has to unfold.
func open(page string) string {
	return regexp.MustCompile(`(?s)<details.*?</details>`).ReplaceAllString(page, "")
}

// The page of the demo manual has each value of a header and each statement that names a source, with that source.
func TestWhatRestsOnWhat(t *testing.T) {
	t.Parallel()
	site, files := demo(t)
	m := site.Manual
	page := files[restsPage]
	if page == "" {
		t.Fatal("there is no page")
	}
	for _, a := range m.Articles {
		for _, key := range manual.HarmKeys(a.Kind) {
			if _, given := a.Head.At[key]; given && len(a.SourcesOf(key)) == 0 {
				t.Errorf("%s: “%s” rests on nothing", a.Path, key)
			}
		}
		if len(a.Marks) > 0 && !strings.Contains(page, `href="`+articlePage(a)+`"`) {
			t.Errorf("%s names sources and is not on the page", a.Path)
		}
		if !strings.Contains(files[articlePage(a)], `href="`+rootOf(articlePage(a))+restsPage+`"`) {
			t.Errorf("%s does not lead to it", a.Path)
		}
	}
	if strings.Contains(page, `id="standing-0"`) {
		t.Error("of something in the demo manual nobody says what it rests on")
	}
	for _, standing := range []string{"standing-1", "standing-2", "standing-3", "standing-4", "standing-5", "standing-6", "standing-7"} {
		if !strings.Contains(page, `id="`+standing+`"`) {
			t.Errorf("nothing of the demo manual is of %s", standing)
		}
	}
	steel := files["materials/high-strength-steel.html"]
	if !strings.Contains(steel, `<sup class="rests"><a href="#source-`) || strings.Contains(steel, "(source:") || !strings.Contains(steel, `<li id="source-1">`) {
		t.Error("a statement does not lead to its source")
	}
}

// Every sentence of the demo manual that says how far something may go, by the reader of sentences and not by the words that the page looks for, and
// every one with an amount in a safety message, stands on the page.
func TestEveryLimitOfATextIsOnThePage(t *testing.T) {
	t.Parallel()
	site, files := demo(t)
	page := plain(files[restsPage])
	names := sentence.NewNames(site.Manual)
	checked, missing := 0, 0
	for _, a := range site.Manual.Articles {
		for i := range a.Blocks {
			b := &a.Blocks[i]
			limits := map[int]bool{}
			for _, s := range sentence.Of(b, names, nil) {
				for _, q := range s.Quantities {
					switch q.Relation {
					case sentence.AtMost, sentence.AtLeast, sentence.Above, sentence.Below:
						limits[s.From] = true
					}
				}
			}
			for _, st := range sentence.Statements(b) {
				if !(limits[st.From] || b.Signal != "" && sentence.HasAmount(st.Text)) || strings.HasSuffix(strings.TrimRight(st.Text, `)”’"`), "?") {
					continue // a question sets no limit
				}
				checked++
				// The first words before an amount are enough to find it, for amounts are written in both families.
				words := strings.Fields(strings.TrimSpace(strings.TrimPrefix(st.Text, b.Signal)))
				begin := slices.IndexFunc(words, func(w string) bool { return strings.ContainsAny(w, "0123456789") })
				if begin < 2 {
					continue
				}
				if !strings.Contains(page, strings.Join(words[:begin], " ")) {
					missing++
					t.Errorf("%s: the page lacks “%s”", a.Path, st.Text)
				}
			}
		}
	}
	if checked < 200 || missing > checked/2 {
		t.Errorf("%d sentences with a limit were checked, %d are missing", checked, missing)
	}
}

// What the program itself decides by stands on the page: the table of numbers, the rules about people and parts, the limits of the calculators.
func TestNumbersOfTheProgramAreOnThePage(t *testing.T) {
	t.Parallel()
	site, files := demo(t)
	page := plain(files[restsPage])
	has := func(text string) {
		words := strings.Fields(text)
		if begin := slices.IndexFunc(words, func(w string) bool { return strings.ContainsAny(w, "0123456789") }); begin > 3 {
			words = words[:begin]
		}
		if !strings.Contains(page, strings.Join(words, " ")) {
			t.Errorf("the page lacks %q", text)
		}
	}
	for _, n := range safety.Numbers {
		has(n.Source)
		if n.Source != safety.Numbers[1].Source {
			has(n.Says)
		}
	}
	withRules := *site
	withRules.Rules = rules.All()
	list := restList{s: &withRules, at: map[string]int{}, number: map[string]int{}}
	list.program()
	for _, r := range withRules.Rules {
		if (r.Severity == finding.People || r.Severity == finding.Parts) && !strings.HasPrefix(r.Source, "the ") && !strings.HasPrefix(r.Source, "as ") &&
			!slices.ContainsFunc(list.rows, func(row restRow) bool {
				return row.people == (r.Severity == finding.People) && slices.ContainsFunc(row.Statements, func(st statement) bool { return st.Text == r.Finds })
			}) {
			t.Errorf("the page lacks the rule %s", r.Name)
		}
	}
	for _, c := range calculators.All() {
		for _, limit := range c.Limits {
			has(limit)
		}
	}
}

// A rule that rests on memory says who is to confirm it.
func TestRecalledRulesSayWhoConfirms(t *testing.T) {
	for _, r := range rules.All() {
		if strings.Contains(r.Source, "from memory") && !strings.Contains(r.Source, "to be confirmed by the ") {
			t.Errorf("%s rests on %q, and nobody is to confirm it", r.Name, r.Source)
		}
	}
}

// A safety officer goes through what people hang on within the hour, counted by the words that stand open on the page; and everything that is
// recalled, or of which nobody says anything, says who is to confirm it.
func TestSafetyOfficerNeedsNoMoreThanAnHour(t *testing.T) {
	t.Parallel()
	_, files := demo(t)
	body := files[restsPage][strings.Index(files[restsPage], "<main"):]
	body = body[:strings.Index(body, `id="sources-in-full"`)]
	words := len(strings.Fields(plain(open(body))))
	if words > 60*wordsAMinute || words < 1000 {
		t.Errorf("%d words stand open, %d minutes at %d a minute", words, words/wordsAMinute, wordsAMinute)
	}
	for _, section := range strings.Split(body, "<section")[1:] {
		if !strings.Contains(section, `id="standing-0"`) && !strings.Contains(section, `id="standing-1"`) {
			continue
		}
		for _, row := range strings.Split(section, `<p class="rests-place">`)[1:] {
			names := regexp.MustCompile(`#source-(\d+)"`).FindAllStringSubmatch(row, -1)
			confirmed := strings.Contains(row, "to be confirmed by the ")
			for _, n := range names {
				_, source, _ := strings.Cut(files[restsPage], `<li id="source-`+n[1]+`">`)
				source, _, _ = strings.Cut(source, "</li>")
				confirmed = confirmed || strings.Contains(source, "to be confirmed by")
			}
			if !confirmed {
				t.Errorf("nobody is to confirm %q", plain(row[:min(len(row), 300)]))
			}
		}
	}
}

// A cell is told with its row, the washes of a part's sheet stand on the page, and a calculator's limit that has no source is not filed under
// the sources of its sums.
func TestRestsOfCellsPartsAndLimits(t *testing.T) {
	t.Parallel()
	site, files := demo(t)
	page := files[restsPage]
	for _, want := range []string{"hydrogen cyanide, limit, one country&#39;s: 10", "1301–1400, at least: 14"} {
		if !strings.Contains(page, want) {
			from := max(0, strings.Index(page, "in law; 50"))
			t.Errorf("the page lacks %q; near: %q", want, page[max(0, from-200):min(len(page), from+40)])
		}
	}
	for _, a := range site.Manual.Articles {
		if a.Part != nil && !strings.Contains(page, `href="`+articlePage(a)+`"`) {
			t.Errorf("%s has washes and is not on the page", a.Path)
		}
	}
	from, to := strings.Index(page, `id="standing-2"`), strings.Index(page, `id="standing-3"`)
	if at := strings.Index(page, "25 %: call service"); at < from && at >= 0 || at > to {
		t.Error("a limit that is common practice by its own words stands elsewhere")
	}
}
