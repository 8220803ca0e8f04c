package markup_test

import (
	"strings"
	"testing"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/admit/markup"
	"tankside/builder/decide/fact"
	"tankside/builder/quantity"
)

// The page of a tank asks with texts; each row is what the one decision says of the material.
func TestCompare(t *testing.T) {
	s := demo(t)
	compare := func(fields ...string) string {
		return strings.ReplaceAll(s.Reply(strings.Join(append([]string{"beside"}, fields...), markup.Separator)), "\u00a0", " ")
	}
	for _, text := range []string{"20 °C", "68 °C", "154.4 °F", "90 °C"} {
		r, err := quantity.ParseRange(text, quantity.Temperature)
		if err != nil {
			t.Fatal(err)
		}
		html := compare("../", "wash-1", "wash-1", "", "", text, "")
		rows := 0
		for _, m := range s.Table.Materials {
			now, _ := s.Table.Answer(admit.Question{Materials: []string{m.Name}, Bath: "wash-1"})
			then, _ := s.Table.Answer(admit.Question{Materials: []string{m.Name}, Bath: "wash-1", As: &admit.As{Window: fact.Window{Temperature: fact.Limit{Range: r, Set: true}}}})
			row := strings.Contains(html, `<tr data-material="`+m.Name+`"`)
			if changed := now.Verdict != then.Verdict || now.Brief(nil, quantity.SI) != then.Brief(nil, quantity.SI); row != changed {
				t.Errorf("%s at %s: a row is there: %v, the decision is another: %v", m.Name, text, row, changed)
			}
			if row {
				rows++
			}
			if dropped := now.Verdict != admit.No && then.Verdict == admit.No; dropped != strings.Contains(html, `<tr data-material="`+m.Name+`" class="drops"`) {
				t.Errorf("%s at %s: %s and then %s", m.Name, text, now.Verdict, then.Verdict)
			}
		}
		t.Logf("at %s %d rows, %d drop out", text, rows, strings.Count(html, `class="drops"`))
	}
	if html := compare("../", "wash-1", "wash-1", "", "", "62 °C", ""); !strings.Contains(html, "Nothing changes") {
		t.Errorf("as it is: %s", html)
	}
	if html := compare("../", "wash-1", "wash-2", "", "", "", ""); strings.Count(html, "<tr data-material") != len(s.Table.Materials) || !strings.Contains(html, `<th scope="col">Wash 2</th>`) || !strings.Contains(html, `<a href="../materials/brass.html">Brass</a>`) {
		t.Errorf("two baths: %s", html)
	}
	for _, fields := range [][]string{{"", "wash-1", "wash-1", "", "", "hot<b>", ""}, {"", "wash-1", "wash-9", "", "", "", ""}, {"", "wash-1", "wash-1", "<b>", "", "", ""}, {"", "wash-1", "wash-1", "", "40 kHz", "", ""}} {
		if html := compare(fields...); !strings.Contains(html, "admit-wanting") || strings.Contains(html, "<b>") {
			t.Errorf("%v: %s", fields, html)
		}
	}
	if compare("wash-1") != "" {
		t.Error("half a request is answered")
	}
}
