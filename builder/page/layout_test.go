package page

import (
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tankside/builder/decide/admit"
	"tankside/builder/manual"
	"tankside/builder/tree"
)

// lit tells whether the line of a page marks the stop that leads to another page.
func lit(page, to string) bool {
	stop := regexp.MustCompile(`<a href="[./]*` + regexp.QuoteMeta(to) + `" aria-current`)
	line, _, _ := strings.Cut(page, "</nav>")
	return stop.MatchString(line)
}

// The line never marks a tank which the material of the page must not enter, or in which the chemistry of the page does not stand.
func TestNoTankIsMarkedForWhatMustNotEnterIt(t *testing.T) {
	t.Parallel()
	site, files := demo(t)
	barred, marked := 0, 0
	for _, a := range site.Manual.Articles {
		if a.Kind != manual.Material && a.Kind != manual.Chemistry || a.Head.Station != "wash" {
			continue
		}
		for i := range site.Manual.Shop.Tanks {
			tank := &site.Manual.Shop.Tanks[i]
			may := tank.Chemistry.Name == a.Name
			if a.Kind == manual.Material {
				answer, err := site.sheet.Table.Answer(admit.Question{Materials: []string{a.Name}, Bath: tank.ID})
				if err != nil {
					t.Fatal(err)
				}
				may = answer.Verdict != admit.No
			}
			for _, page := range []string{articlePage(a), inLanguage(articlePage(a), "es")} {
				to := tankPage(tank.ID)
				if page != articlePage(a) {
					to = inLanguage(to, "es")
				}
				switch is := lit(files[page], to); {
				case is && !may:
					t.Errorf("%s marks %s, which it must not enter", page, tank.Name)
				case is:
					marked++
				case !may:
					barred++
				}
			}
		}
	}
	if barred < 20 || marked < 20 {
		t.Errorf("%d stops are dark and %d are marked: that tells nothing", barred, marked)
	}
}

// Each rinse and the dryer has a page of its own, to which its stop of the line leads: what it is for, what stands in it, what is looked at first, the sums,
// who uses it, its card. The safety messages of its procedures stand at the top, the gravest first.
func TestRinsesAndDryerHavePagesOfTheirOwn(t *testing.T) {
	t.Parallel()
	_, files := demo(t)
	for page, wants := range map[string][]string{
		"tanks/rinse-1.html": {"Here the film of bath on the parts is thinned.", "680\u00a0µS/cm", "pH, parts running", `href="../tanks/wash-1.html">Wash 1</a>`, `id="sum-rinse"`,
			`href="../tanks/rinse-2.html">Last rinse</a>`, `href="../cards.html#rinse-1"`, `href="../calculators/rinse.html#tank=rinse-1"`, `href="../procedures/rinse.html"`, `href="../parts/gland-nut-brass.html"`},
		"tanks/rinse-2.html": {"It is the last water on the parts", "12\u00a0µS/cm", `id="sum-spotting"`, "Conductivity before the first load", `href="../cards.html#rinse-2"`},
		"tanks/dryer.html":   {"Here the water goes", "recirculated hot air", `id="sum-drying"`, `href="../cards.html#dryer"`, `href="../procedures/dry.html"`, "Filter clean, its floor dry"},
	} {
		own := files[page]
		for _, want := range append(wants, `id="at.first"`) {
			if !strings.Contains(own, want) {
				t.Errorf("%s lacks %s", page, want)
			}
		}
		if !lit(own, page) || !strings.Contains(own, `aria-current="page"`) {
			t.Errorf("%s does not mark its own stop", page)
		}
		if files[inLanguage(page, "es")] == "" {
			t.Errorf("%s is not there in Spanish", page)
		}
		last := -1
		for _, m := range regexp.MustCompile(`<div class="safety (\w+)`).FindAllStringSubmatch(own, -1) {
			if now := slices.Index([]string{"danger", "warning", "caution", "notice"}, m[1]); now < last {
				t.Errorf("%s: %s stands below a lesser one", page, m[1])
			} else {
				last = now
			}
		}
		if last < 0 {
			t.Errorf("%s has no safety message", page)
		}
		if strings.Contains(own, `href="#source-`) {
			t.Errorf("%s leads to a source that it does not have", page)
		}
	}
	if !lit(files["procedures/rinse.html"], "tanks/rinse-1.html") || !lit(files["procedures/rinse.html"], "tanks/rinse-2.html") {
		t.Error("the procedure for both rinses does not mark both")
	}
}

// What has no name of its own, or that of a tank, has no page of its own, and its stop leads to its station.
func TestAVesselWithoutANameHasThePageOfItsStation(t *testing.T) {
	s := &site{Input: Input{Manual: &manual.Manual{}}}
	s.Manual.Shop.Tanks = []manual.Tank{{ID: "one"}}
	s.Manual.Shop.Rinses = []manual.Rinse{{ID: "one"}, {ID: "two"}, {ID: "two"}, {}}
	for id, want := range map[string]string{"": "stations/rinse.html", "one": "stations/rinse.html", "two": "tanks/two.html"} {
		if got := s.vesselPage(id, "rinse"); got != want {
			t.Errorf("%q: %s, want %s", id, got, want)
		}
	}
	if jobs := s.vessels(); len(jobs) != 1 || jobs[0].base != "tanks/two.html" {
		t.Errorf("%d pages", len(jobs))
	}
}

// A long article begins with links to its parts, every one of which is there; a short one has none.
func TestLongArticlesHaveContents(t *testing.T) {
	t.Parallel()
	site, files := demo(t)
	long := 0
	for _, a := range site.Manual.Articles {
		page := files[articlePage(a)]
		_, nav, has := strings.Cut(page, `<nav class="on-this-page"`)
		if has != (a.Kind != manual.Symptom && contentsOf(a) != nil) {
			t.Errorf("%s: contents %v", a.Path, has)
		}
		nav, _, _ = strings.Cut(nav, "</nav>")
		links := regexp.MustCompile(`href="#([^"]+)"`).FindAllStringSubmatch(nav, -1)
		for _, m := range links {
			if !strings.Contains(page, `id="`+m[1]+`"`) {
				t.Errorf("%s: #%s leads nowhere", a.Path, m[1])
			}
		}
		if has {
			long++
		}
		if a.Kind == manual.Lesson && len(links) < longParts {
			t.Errorf("%s is long and has %d links to its parts", a.Path, len(links))
		}
	}
	if long < 20 {
		t.Errorf("%d articles have contents", long)
	}
}

// In the drawn tree every box but the first says which answers lead to it, no more of them than the gap above it takes.
func TestAnswersStandInTheDrawnTree(t *testing.T) {
	t.Parallel()
	site, files := demo(t)
	for _, a := range site.Manual.Articles {
		if a.Kind != manual.Symptom {
			continue
		}
		tr, _ := tree.Of(a)
		d := tr.Draw(overviewMeasure)
		reached := map[int]bool{}
		for _, l := range d.Lines {
			reached[l.To] = true
		}
		said := regexp.MustCompile(`<text class="says"[^>]*>(.*?)</text>`).FindAllStringSubmatch(files[articlePage(a)], -1)
		if len(said) != len(reached) || len(said) == 0 {
			t.Errorf("%s: %d boxes say how they are reached, want %d", a.Path, len(said), len(reached))
		}
		for _, m := range said {
			lines := strings.Count(m[1], "<tspan")
			if lines < 1 || lines > mostAnswers || float64(lines)*answerHeight > overviewMeasure.GapY {
				t.Errorf("%s: %d lines above a box: %s", a.Path, lines, m[1])
			}
		}
	}
}

// No two pages of a language have one title: they would be one in a browser's history and among its tabs.
func TestEveryPageHasATitleOfItsOwn(t *testing.T) {
	t.Parallel()
	_, files := demo(t)
	head := regexp.MustCompile(`<html lang="([^"]*)"[^>]*>[\s\S]*?<title>([^<]*)</title>`)
	seen := map[string]string{}
	for name, page := range files {
		if path.Ext(name) != ".html" {
			continue
		}
		m := head.FindStringSubmatch(page)
		if m == nil {
			t.Fatalf("%s has no title", name)
		}
		key := m[1] + " " + m[2]
		if other, is := seen[key]; is {
			t.Errorf("%s and %s are both called %q", name, other, m[2])
		}
		seen[key] = name
	}
}

// Where a page is there in Spanish, no page in Spanish leads to the English one, but where the language is chosen, and from one list of words to the other.
func TestSpanishPagesLeadToSpanishPages(t *testing.T) {
	t.Parallel()
	_, files := demo(t)
	links := regexp.MustCompile(`<a ([^>]*?)href="([^"#]+\.html)[^"]*"([^>]*)>`)
	checked := 0
	for name, page := range files {
		if !strings.HasSuffix(name, ".es.html") {
			continue
		}
		for _, m := range links.FindAllStringSubmatch(page, -1) {
			to := path.Join(path.Dir(name), m[2])
			if strings.HasSuffix(to, ".es.html") || strings.Contains(m[1]+m[3], `rel="alternate"`) || name == "a-z.es.html" && to == wordsPage {
				continue
			}
			checked++
			if files[inLanguage(to, "es")] != "" {
				t.Errorf("%s leads to %s, which is there in Spanish", name, to)
			}
		}
	}
	if checked == 0 {
		t.Error("no link was looked at")
	}
}

// A word that begins with the sign of the micro stands among those with m, and no letter of the index stands behind z.
func TestTheMicroIsSortedAmongTheM(t *testing.T) {
	t.Parallel()
	_, files := demo(t)
	if fold("µS/cm") != "ms/cm" || fold("\u03bcm") != "mm" || fold("Öl") != "ol" {
		t.Error(fold("µS/cm"), fold("\u03bcm"), fold("Öl"))
	}
	last := ""
	for _, m := range regexp.MustCompile(`<h2 id="letter-([^"]+)"`).FindAllStringSubmatch(files[wordsPage], -1) {
		if m[1] != "digits" && (m[1] <= last || m[1] > "z") {
			t.Errorf("%s stands behind %s", m[1], last)
		}
		last = m[1]
		if last == "digits" {
			last = ""
		}
	}
}
