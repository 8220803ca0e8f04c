package page

import (
	"encoding/json"
	"regexp"
	"testing"
)

// The page of an imported entry becomes a link: it has to stay in the edition.
func TestPagesOfAVisitAreOfTheEdition(t *testing.T) {
	var schema struct {
		Defs map[string]struct {
			Properties map[string]struct{ Pattern string }
		} `json:"$defs"`
	}
	if err := json.Unmarshal(visitSchema, &schema); err != nil {
		t.Fatal(err)
	}
	n := 0
	for name, def := range schema.Defs {
		page, has := def.Properties["page"]
		if !has {
			continue
		}
		n++
		pattern := regexp.MustCompile(page.Pattern)
		for _, p := range []string{"", "visit.html", "symptoms/foam.html#is-it-new?seen=a,b", "es/tanks/wash-1.html"} {
			if !pattern.MatchString(p) {
				t.Errorf("%s refuses %q", name, p)
			}
		}
		for _, p := range []string{"//evil.example/x", "/x", "https://evil.example", "javascript:x", "../../x", `\\evil`, "./x", " //evil.example", "a b", "x\n//evil.example"} {
			if pattern.MatchString(p) {
				t.Errorf("%s takes %q", name, p)
			}
		}
	}
	if n == 0 {
		t.Error("no entry has a page")
	}
}
