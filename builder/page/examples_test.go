package page

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/inboth"
	"tankside/builder/quantity"
	"tankside/calculators"
	"tankside/calculators/markup"
)

// A page has the answer of each calculator to its example before any script runs, in the units of the shop, and the link and fields of its form.
func TestPagesAnswerEveryExample(t *testing.T) {
	for _, system := range []quantity.System{quantity.SI, quantity.US} {
		text := "---\ntitle: Sums\nsummary: All of them.\nstation: wash\nrevision: A\n---\n"
		for _, c := range calculators.All() {
			text += "## " + c.Name + "\n\n```calculator " + c.Name + "\n"
			for _, e := range c.Example {
				text += e.Name + ": " + e.Text + "\n"
			}
			text += "```\n\n"
		}
		_, files := rendered(t, fstest.MapFS{
			"shop.yaml": {Data: fmt.Appendf(nil, "name: Small Shop\nunits: %s\n", system)}, "lessons/sums.md": {Data: []byte(text)},
		})
		for _, c := range calculators.All() {
			a, err := c.Run(c.ExampleInputs(), system)
			if err != nil {
				t.Errorf("%s: %v", c.Name, err)
				continue
			}
			if !strings.Contains(files["lessons/sums.html"], string(inboth.HTML([]byte(markup.Answer(&a))))) {
				t.Errorf("a page in %v units does not show what %s answers to its example", system, c.Name)
			}
			for _, e := range c.Example {
				if !strings.Contains(files["lessons/sums.html"], `name="`+e.Name+`"`) {
					t.Errorf("the page has no field for %s of %s", e.Name, c.Name)
				}
			}
		}
	}
}
