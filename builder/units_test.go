package builder

import (
	"html"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tankside/builder/quantity"
)

// Every page of the demo edition, in both languages, with its book and its cards: for whoever has chosen a family of units, no amount of the other
// stands without its own before it. What the styles show is worked out here by other means than the pages are made by. An amount that stays alone
// needs one of the reasons below, each of which has its bound.
func TestChosenUnitsStandFirst(t *testing.T) {
	t.Parallel()
	to := filepath.Join(t.TempDir(), "edition")
	if _, err := publish(t, "../content", to, day); err != nil {
		t.Fatal(err)
	}
	pages, marks := map[string]string{}, 0
	err := filepath.WalkDir(to, func(path string, d fs.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(path, ".html") {
			var data []byte
			data, err = os.ReadFile(path)
			pages[path] = string(data)
			marks += strings.Count(string(data), "\u00a0(</span>") + strings.Count(string(data), "\u00a0(</tspan>")
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if marks < 5000 {
		t.Errorf("%d amounts have the other family's value before them, fewer than 5000", marks)
	}
	t.Logf("%d pages, %d amounts with the other family's value before them", len(pages), marks)
	for _, chosen := range []quantity.System{quantity.US, quantity.SI} {
		t.Run(chosen.String(), func(t *testing.T) { chosenFirst(t, to, pages, chosen) })
	}
}

func chosenFirst(t *testing.T, to string, pages map[string]string, chosen quantity.System) {
	counts, examples := map[string]int{}, map[string][]string{}
	for _, path := range slices.Sorted(maps.Keys(pages)) {
		for _, line := range shownLines(pages[path], chosen) {
			for _, left := range alone(line, chosen) {
				why := whyAlone(line, left)
				counts[why]++
				if len(examples[why]) < 400 {
					examples[why] = append(examples[why], strings.TrimPrefix(path, to)+": "+strings.TrimSpace(line[max(0, left[0]-40):min(len(line), left[1]+25)]))
				}
			}
		}
	}
	for why, n := range counts {
		if bound, known := allowedAlone[why]; !known || n > bound {
			t.Errorf("%d amounts stand alone, of %d: %q\n%s", n, bound, why, strings.Join(examples[why], "\n"))
		} else {
			t.Logf("%4d alone, at most %d: %s; as in %s", n, bound, why, examples[why][0])
		}
	}
}

// allowedAlone are the reasons for which an amount of the other family may stand alone, with the most that there may be in the demo edition.
var allowedAlone = map[string]int{
	"a written record, as on the form":                             150,
	"a compound unit that the other family has not in the tables":  40,
	"degrees of which nothing says whether they are a temperature": 20,
}

const (
	oneNumber = `[−\-+]?(?:\d[\d.,\x{202f}\x{a0}]*|\d+/\d+)[½¼¾]?`
	rowOfThem = oneNumber + `(?:[\s\x{a0}]*(?:–|±|×|x|to|and|or|by|a|y|o|u|e|hasta|,|,? and|-|…)[\s\x{a0}]*` + oneNumber + `)*`
	metric    = `(?:°C|mL/L|L/min|L/h|W/L|g/L|kg/L|mL|L|mm/s|m/s|mm|cm|m|kg|g|bar|mbar|kPa)`
	customary = `(?:°F|US fl oz/US gal|fl oz/US gal|US fl oz|US gal/min|US gal/h|gal/min|W/US gal|wt oz/US gal|lb/US gal|lb/ft³|US gal/1000 ft²|US gal|lb|oz|in²|ft²|in³|in|ft/min|ft/s|ft|psi|mil)`
)

var (
	loneMetric    = regexp.MustCompile(`(?:^|[^\pL\d.])(` + oneNumber + `[ \x{a0}]?` + metric + `)(?:$|[^\pL\d²³µ])`)
	loneCustomary = regexp.MustCompile(`(?:^|[^\pL\d.])(` + oneNumber + `[ \x{a0}]?(?:°F|US gal|fl oz|lb|psi|ft|oz))(?:$|[^\pL\d²³µ/])`)
	usThenSI      = regexp.MustCompile(rowOfThem + `[\s\x{a0}]?` + customary + `[\s\x{a0}]*(?:\(|/|=|or|o)[\s\x{a0}]*` + rowOfThem + `[\s\x{a0}]?(?:` + metric + `[a-zñ]*|K|m²|cm²|dm²|mm²|m³|mL/m²|kg/m³|MPa|m³/h|[a-zñí]+)\)?`)
	siThenUS      = regexp.MustCompile(rowOfThem + `[\s\x{a0}]?(?:` + metric + `[a-z]*|K|m²|cm²|m³|mL/m²|µm|µg/cm²)[\s\x{a0}]*(?:\(|/|=|or|o)[\s\x{a0}]*` + rowOfThem + `[\s\x{a0}]?(?:` + customary + `|gal|fl oz|gpm)\)?`)
)

// alone finds the amounts of the other family in a line that do not stand right behind one of the chosen.
func alone(line string, chosen quantity.System) [][2]int {
	pairs, lone := usThenSI, loneMetric
	if chosen == quantity.SI {
		pairs, lone = siThenUS, loneCustomary
	}
	line = pairs.ReplaceAllStringFunc(line, func(pair string) string { return strings.Repeat("#", len(pair)) })
	var found [][2]int
	for _, m := range lone.FindAllStringSubmatchIndex(line, -1) {
		found = append(found, [2]int{m[2], m[3]})
	}
	return found
}

func whyAlone(line string, at [2]int) string {
	behind := line[at[1]:]
	switch {
	case strings.HasPrefix(line, "\x02"):
		return "a written record, as on the form"
	case strings.HasPrefix(behind, "/") || strings.HasPrefix(behind, "·") || strings.HasPrefix(behind, "⋅"):
		return "a compound unit that the other family has not in the tables"
	case strings.HasSuffix(line[:at[1]], "°C") || strings.HasSuffix(line[:at[1]], "°F"):
		return "degrees of which nothing says whether they are a temperature"
	}
	return "no reason"
}

var (
	anyTag  = regexp.MustCompile(`<(/?)([a-zA-Z][a-zA-Z0-9]*)((?:[^>"]|"[^"]*")*)>`)
	classOf = regexp.MustCompile(`\bclass="([^"]*)"`)
)

// shownLines is the text of a page, block by block, as the styles show it to whoever has chosen a family of units. Lines of a listing begin with
// U+0002.
func shownLines(page string, chosen quantity.System) []string {
	other := "si"
	if chosen == quantity.SI {
		other = "us"
	}
	var b strings.Builder
	hidden, depth, listing := "", 0, false
	last := 0
	text := func(s string) {
		if hidden != "" {
			return
		}
		s = html.UnescapeString(s)
		if listing {
			s = strings.ReplaceAll(s, "\n", "\n\x02")
		} else {
			s = strings.ReplaceAll(s, "\n", " ")
		}
		b.WriteString(s)
	}
	for _, m := range anyTag.FindAllStringSubmatchIndex(page, -1) {
		if m[0] < last {
			continue
		}
		text(page[last:m[0]])
		last = m[1]
		closing, name, rest := m[2] < m[3], strings.ToLower(page[m[4]:m[5]]), page[m[6]:m[7]]
		if hidden != "" {
			if name == hidden && !strings.HasSuffix(rest, "/") {
				depth += map[bool]int{true: -1, false: 1}[closing]
				if depth == 0 {
					hidden = ""
				}
			}
			continue
		}
		if !closing {
			classes := ""
			if c := classOf.FindStringSubmatch(rest); c != nil {
				classes = c[1]
			}
			if name == "script" || name == "style" || name == "head" || name == "sup" || slices.Contains(strings.Fields(classes), other) {
				hidden, depth = name, 1
				continue
			}
		}
		switch name {
		case "a", "b", "strong", "em", "i", "span", "mark", "small", "tspan", "abbr", "q", "sub", "del":
		case "pre", "code":
			listing = !closing
			b.WriteString("\n")
			if listing {
				b.WriteString("\x02")
			}
		default:
			b.WriteString("\n")
		}
	}
	return strings.Split(b.String(), "\n")
}
