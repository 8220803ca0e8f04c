package calculators

import (
	"strings"

	"tankside/builder/quantity"
)

// Explain is a calculator's declaration as plain text for a terminal: what it
// answers, each input with what it accepts and its default, and the readings.
// Text in a system of units.
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

// DefaultIn writes the default in a system of units.
func (in *Input) DefaultIn(system quantity.System) string {
	if len(in.Measures) == 0 || in.Default == "" || in.None {
		return in.Default
	}
	v, err := quantity.Parse(in.Default, in.kinds()...)
	if err != nil {
		return in.Default
	}
	return v.In(system)
}
