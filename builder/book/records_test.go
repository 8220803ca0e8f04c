package book

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/manual"
	"tankside/builder/page"
)

// bathShop is a manual of the demo's shop file, two chemistries and a record of Wash 1.
func bathShop(t *testing.T, record string) *manual.Manual {
	t.Helper()
	files := fstest.MapFS{"records/wash-1.csv": {Data: []byte(record)}}
	for _, name := range []string{"shop.yaml", "chemistries/mild-alkaline.md", "chemistries/neutral-detergent.md"} {
		data, err := os.ReadFile("../../content/" + name)
		if err != nil {
			t.Fatal(err)
		}
		files[name] = &fstest.MapFile{Data: data}
	}
	m, _, err := manual.Read(t.Context(), files)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

const twoReadings = "when,strength (% v/v),note\n2026-10-01T06:10,4.1,\n2026-10-02T06:12,3.9,<b>&\n"

// The code of a card says whether what hangs at the tank still holds: a new reading is no reason to print it again.
func TestCodeOfACardDoesNotFollowReadings(t *testing.T) {
	before := cards(edition(t, bathShop(t, twoReadings))[page.CardsPage])["wash-1"]
	after := cards(edition(t, bathShop(t, twoReadings+"2026-10-03T06:15,3.8,\n"))[page.CardsPage])["wash-1"]
	if a, b := cardCode.FindStringSubmatch(before), cardCode.FindStringSubmatch(after); a == nil || b == nil || a[1] != b[1] {
		t.Errorf("the code was %v and is %v", a, b)
	}
	for when, text := range map[string]string{"2026-10-02 06:12": before, "2026-10-03 06:15": after} {
		if !strings.Contains(said(text), "Last checked by the record: "+when) {
			t.Errorf("the card does not say that it was last checked %s", when)
		}
	}
}

// What somebody typed into a record is text on a page, and a page without limits says why.
func TestPageOfFewReadings(t *testing.T) {
	text := edition(t, bathShop(t, twoReadings))["records/wash-1.html"]
	for _, want := range []string{"&lt;b&gt;&amp;", "No control limits: of this bath there are 2 readings, and 10 are needed.", "A drift cannot be told from 2 readings", "2026-10-01"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	if strings.Contains(text, "<b>&") || strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
		t.Error("the page has what was typed as it is, or a number that is none")
	}
}

// The pages of the demo's readings: each chart in words, as a drawing and in the table; small enough; in both languages; a month on two sheets at most.
func TestDemoReadings(t *testing.T) {
	_, files := demoEdition(t)
	for name, words := range map[string][]string{
		"records/wash-1.html":    {"Readings of Wash 1", "No readings for 9 days", "Control limits", "Allowed: 2", "Where to look", "Falls by", "It leaves what is allowed about", "strength-readings-disagree.html", "titration.html"},
		"records/wash-2.html":    {"Readings of Wash 2", "No drift that could not be chance", "Topped up"},
		"records/rinse-2.html":   {"Readings of Last rinse", "Conductivity"},
		"records/wash-1.es.html": {"Lecturas de Wash 1", "Sin lecturas durante 9 días", "Límites de control", "Sale de lo permitido"},
	} {
		text := files[name]
		for _, w := range words {
			if !strings.Contains(text, w) {
				t.Errorf("%s lacks %q", name, w)
			}
		}
		charts := strings.Count(text, `<section class="chart`)
		if charts < 2 || strings.Count(text, `<svg class="control-chart"`) != charts || strings.Count(text, `class="newest"`) != charts || strings.Count(text, `class="drift"`) < charts {
			t.Errorf("%s has %d charts, and not each with drawing, newest reading and words on drift", name, charts)
		}
		if rows := strings.Count(text, `<tr><th scope="row">`); rows != 30 {
			t.Errorf("%s: %d rows in the table", name, rows)
		}
		if strings.Contains(text, "NaN") || strings.Contains(text, "%!") {
			t.Errorf("%s has a number that is none", name)
		}
	}
	for name, text := range files {
		if !strings.HasPrefix(name, "records/") && !strings.HasPrefix(name, "tanks/") || !strings.HasSuffix(name, ".html") {
			continue
		}
		var wire bytes.Buffer
		z := gzip.NewWriter(&wire)
		fmt.Fprint(z, text)
		if err := z.Close(); err != nil || wire.Len() > 40_000 {
			t.Errorf("%s has %d bytes over the wire (%v)", name, wire.Len(), err)
		}
	}
	for _, id := range []string{"wash-1", "wash-2"} {
		if text := files["tanks/"+id+".html"]; !strings.Contains(text, "Last checked 2026-11-27") || !strings.Contains(text, "records/"+id+".html") {
			t.Errorf("the page of %s does not lead to its readings", id)
		}
	}
	if !strings.Contains(files["stations/rinse.html"], "records/rinse-2.html") {
		t.Error("the page of the rinses does not lead to their readings")
	}
	day := regexp.MustCompile(`<th scope="row">\d\d</th>`)
	if n := len(day.FindAllString(files["records/wash-1-month.html"], -1)); n != 30+31 {
		t.Errorf("%d days of November and December", n)
	}
}
