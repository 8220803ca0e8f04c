package calculators

import (
	"strings"

	"tankside/builder/quantity"
)

// Explain is a calculator's declaration as plain text for a terminal: what it
// answers, each input with what it accepts and its default, an example to type,
// and the readings. Text in a system of units.
func (c *Calculator) Explain(system quantity.System) string {
	var b strings.Builder
	line := func(parts ...string) {
		for _, p := range parts {
			b.WriteString(p)
		}
		b.WriteByte('\n')
	}
	line(c.Name, ": ", c.Summary)
	line()
	line("Inputs:")
	width := 0
	for _, in := range c.Inputs {
		width = max(width, len(in.Name))
	}
	for _, d := range c.Readings {
		width = max(width, len(d.Name))
	}
	const spaces = "                                        "
	pad := func(s string) string { return "  " + s + spaces[:width-len(s)+2] }
	for _, in := range c.Inputs {
		need := "optional"
		switch {
		case in.Default != "":
			need = "default " + in.DefaultIn(system)
		case in.Required:
			need = "needed"
			for _, set := range in.Or {
				need += ", or " + list(nil, set) + " instead"
			}
		}
		line(pad(in.Name), in.Label, "; ", need)
		line(pad(""), "accepted: ", in.Accepted(system, nil))
		if in.Help != "" {
			line(pad(""), in.Help)
		}
	}
	line()
	line("Example:")
	line("  tankside calculate ", c.Name, c.typed(system))
	line()
	line("Readings:")
	for _, d := range c.Readings {
		line(pad(d.Name), d.Label)
	}
	line()
	line("Holds for:")
	for _, l := range c.Limits {
		line("  ", l)
	}
	line()
	line("Sources:")
	for _, l := range c.Sources {
		line("  ", l)
	}
	return b.String()
}

// typed is the example as it is typed behind the calculator's name.
func (c *Calculator) typed(system quantity.System) string {
	var b strings.Builder
	for _, e := range c.ExampleIn(system) {
		b.WriteString(" " + e.Name + "=\"" + e.Text + "\"")
	}
	return b.String()
}

// ExampleIn writes the example in a system of units, with blanks that a keyboard
// has.
func (c *Calculator) ExampleIn(system quantity.System) []Written {
	list := make([]Written, len(c.Example))
	for i, e := range c.Example {
		list[i] = e
		if in, ok := c.Input(e.Name); ok {
			list[i].Text = strings.ReplaceAll(in.written(e.Text, system), "\u00a0", " ")
		}
	}
	return list
}

// DefaultIn writes the default in a system of units.
func (in *Input) DefaultIn(system quantity.System) string {
	if in.None {
		return in.Default
	}
	return in.written(in.Default, system)
}

// written is what the input was given in a system of units; words stay.
func (in *Input) written(text string, system quantity.System) string {
	if len(in.Measures) == 0 || text == "" {
		return text
	}
	v, err := quantity.Parse(text, in.kinds()...)
	if err != nil {
		return text
	}
	return v.In(system)
}
