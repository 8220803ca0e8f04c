package book

import (
	"fmt"
	"strings"

	"tankside/calculators"
)

// form is a sum as it is done by hand: what has to be known, a worked example, and room for one's own.
type form struct {
	Anchor, Title, Summary string
	Inputs, Readings       []blank
	Working                []string
	Verdict                string
	Cautions               []caution
}

// blank is a row of a form: a name, what the example has, and the unit in which one's own is to be written.
type blank struct{ Name, Example, Unit string }

type caution struct{ Class, Text string }

// forms are the sums by hand, with the example that each calculator declares.
func (b *book) forms(*chapter) (any, error) {
	var w words
	for _, c := range calculators.All() {
		values := c.ExampleInputs()
		a, err := b.parts.Work(c, values)
		if err != nil { // the calculators' own tests work every example
			return nil, fmt.Errorf("the example of %s has no answer: %w", c.Name, err)
		}
		w.Forms = append(w.Forms, b.form(c, &a))
	}
	return w, nil
}

func (b *book) form(c *calculators.Calculator, a *calculators.Answer) form {
	f := form{Anchor: "sums." + c.Name, Working: a.Working, Verdict: a.Verdict}
	f.Title, f.Summary = b.parts.Called(c)
	for _, g := range a.Given {
		f.Inputs = append(f.Inputs, blank{g.Label, g.Text, unitOf(g.Text)})
	}
	for _, r := range a.Readings {
		shown := r.String()
		if bounds := r.Bounds(); bounds != "" {
			shown += " (" + bounds + ")"
		}
		f.Readings = append(f.Readings, blank{r.Label, shown, unitOf(r.String())})
	}
	for _, k := range a.Cautions {
		f.Cautions = append(f.Cautions, caution{strings.ToLower(k.Signal.String()), k.Text})
	}
	return f
}

// unitOf is what stands behind the number of a quantity as it is written, with a space that does not break; "" where there is none.
func unitOf(text string) string {
	number, unit, found := strings.Cut(strings.ReplaceAll(text, "\u00a0", " "), " ")
	if !found || strings.Trim(number, "0123456789.,−-") != "" {
		return ""
	}
	unit, _, _ = strings.Cut(unit, " (") // the same in the units of the other family
	return unit
}
