package manual

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"
)

// shopFindings are the rules of what is found in a shop file.
func shopFindings(t *testing.T, text string) []string {
	t.Helper()
	_, list, err := Read(context.Background(), fstest.MapFS{"shop.yaml": {Data: []byte("name: S\nroles: [operator]\n" + text)}})
	if err != nil {
		t.Fatal(err)
	}
	var rules []string
	for _, f := range list {
		if f.Line == 0 || f.Remedy == "" {
			t.Errorf("half a note: %+v", f)
		}
		rules = append(rules, string(f.Rule))
	}
	return rules
}

// An id becomes the name of a page, so it is one that every computer can hold.
func TestIDsAreNamesOfPages(t *testing.T) {
	tank := func(ids ...string) string {
		text := "tanks:\n"
		for _, id := range ids {
			text += "  - {id: '" + id + "', name: Wash, volume: 120 L}\n"
		}
		return text
	}
	for _, id := range []string{"../x", "CON", "a?b", "a/b", "a b", "-a", ".a", "nul", "com1", "index", "a.b", "a%20b", "a#b", "", strings.Repeat("a", 41), "a\u202eb", "a&b", `a"b`} {
		if got := shopFindings(t, tank(id)); len(got) != 1 {
			t.Errorf("the id %q: %v", id, got)
		}
	}
	for _, ids := range [][]string{{"Wash-1", "wash-1"}, {"wash-1", "wash-1"}} {
		if got := shopFindings(t, tank(ids...)); len(got) != 1 || got[0] != "duplicate-key" {
			t.Errorf("the ids %q: %v", ids, got)
		}
	}
	if got := shopFindings(t, "rinses:\n  - {id: '../r', name: Rinse}\ndryer: {id: 'a?b', name: Dryer}\n"); len(got) != 2 {
		t.Errorf("rinse and dryer: %v", got)
	}
	if got := shopFindings(t, tank("wash-1", "Wash_2", "3", "wäsche", "console")); len(got) != 0 {
		t.Errorf("good ids: %v", got)
	}
}

// A price that the calculators could not use is found before anything is published.
func TestPriceOfEnergy(t *testing.T) {
	for _, c := range []string{"JPY", "INR", "PLN", "EUR", "USD", "€", "£", ""} {
		text := "energy-price: 30\n"
		if c != "" {
			text += "currency: " + c + "\n"
		}
		if got := shopFindings(t, text); len(got) != 0 {
			t.Errorf("the currency %q: %v", c, got)
		}
	}
	for text, rule := range map[string]string{
		"energy-price: 30\ncurrency: EURO\n": "unknown-word", "energy-price: 30\ncurrency: a/b\n": "unknown-word", "energy-price: 2000\n": "wrong-value",
		"currency: shells\n": "", "energy-price: 0\ncurrency: shells\n": "",
	} {
		if got := strings.Join(shopFindings(t, text), " "); got != rule {
			t.Errorf("%q: %q", text, got)
		}
	}
}
