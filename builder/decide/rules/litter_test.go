package rules_test

import (
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"tankside/builder/decide/rules"
	"tankside/builder/manual"
)

// What tankside bring mends is a finding in an article, sort by sort; what stands beside it in the way of a manual is none.
func TestLitterIsFound(t *testing.T) {
	t.Parallel()
	for text, wrong := range map[string]bool{
		"Dry at 60 ± 5 °C.":                           true,
		"Dry at 60 °C +/- 5 °C.":                      true,
		"Dry at 55–65 °C, on the line ± 5 mm.":        false,
		"Dry at 60 degC.":                             true,
		"Dry at 60 deg. F.":                           true,
		"Turn it by 60 degrees clockwise.":            false,
		"Wash at 10%-15%.":                            true,
		"Stir for 2,5 min.":                           true,
		"WARNING: it is hot.":                         true,
		"**CAUTION**: it is wet.":                     true,
		"> **WARNING** It burns. Follow local codes.": false,
		"• wipe\n• rinse":                             true,
		"It dries.[^1]":                               true,
		"See ![it](<../pictures/big drum.svg>).":      true,
		"See [it](/home/x/drum.md).":                  true,
		"See [it](file:///C:/drum.docx).":             true,
		"See [it](C:\\drum.docx).":                    true,
		"A <b>word</b>.":                              true,
	} {
		files := fstest.MapFS{
			"shop.yaml":     {Data: []byte("name: S\nroles: [operator]\n")},
			"lessons/it.md": {Data: []byte("---\ntitle: It\nsummary: About it.\nstation: dry\nrevision: A\napproved: not yet\nreview-by: 2027-09-14\nsources: [common practice]\n---\n" + text + "\n")},
		}
		m, found, err := manual.Read(t.Context(), files)
		if err != nil {
			t.Fatal(err)
		}
		var said []string
		for _, f := range append(found, rules.Proof(m, time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC))...) {
			switch f.Rule {
			case "pasted-text", "unmarked-message", "broken-link", "raw-html", "missing-picture", "unclear-signal-word", "link-out-of-manual", "lost-message":
				said = append(said, string(f.Rule))
			}
		}
		if (len(said) > 0) != wrong {
			t.Errorf("%q: %s", text, strings.Join(said, ", "))
		}
	}
}
