package finding

import (
	"fmt"
	"strings"
	"testing"
)

// Of each rule and file so many findings are told as somebody may work through, and the last says how many there are besides. None of another
// rule or file is lost.
func TestBounded(t *testing.T) {
	var list []Finding
	many := Rule{Name: "many", Severity: Untidy}
	for i := range 3 * Most {
		list = append(list, many.At(Place{File: "a.md", Line: i + 1}, fmt.Sprint("Number ", i, "."), ""))
	}
	for i := range Most {
		list = append(list, many.At(Place{File: "b.md", Line: i + 1}, "B.", ""))
	}
	list = append(list, Rule{Name: "one", Severity: People}.At(Place{File: "a.md", Line: 9999}, "Grave.", ""))
	Sort(list)
	got := Bounded(list)
	if len(got) != 2*Most+1 || Stopping(got) != 1 {
		t.Fatalf("%d findings, %d of them stop", len(got), Stopping(got))
	}
	said := 0
	for _, f := range got {
		if strings.Contains(f.Message, "more findings") {
			said++
			if want := fmt.Sprintf("Number %d. There are %d more findings of this rule in this file, which are not told.", Most-1, 2*Most); f.Message != want {
				t.Errorf("%q, want %q", f.Message, want)
			}
		}
	}
	if said != 1 || strings.Contains(list[Most-1].Message, "more") {
		t.Errorf("said %d times; the list that was given says %q", said, list[Most-1].Message)
	}
	if few := Bounded(list[:Most]); len(few) != Most || &few[0] != &list[0] {
		t.Errorf("a short list was changed")
	}
}
