package markup

import (
	"slices"
	"strings"

	"tankside/builder/quantity"
	"tankside/calculators"
)

// form writes the fields: those that are needed first, or those that are named, and the others
// behind a disclosure.
func (w *writer) form(id string, c *calculators.Calculator, values map[string]string, system quantity.System, first []string) {
	w.Put(`<form class="sum-inputs" novalidate hidden aria-label="{}">
`, w.Fill("Inputs of “{sum}”", w.Say(c.Title)))
	front := func(in *calculators.Input) bool { return in.Required }
	if len(first) > 0 {
		front = func(in *calculators.Input) bool { return slices.Contains(first, in.Name) }
	}
	further := false
	for _, in := range c.Inputs {
		if !front(in) {
			further = true
		} else if len(first) == 0 {
			w.field(id, in, values[in.Name], system)
		}
	}
	for _, name := range first {
		if in, known := c.Input(name); known {
			w.field(id, in, values[name], system)
		}
	}
	if further {
		w.Put(`<details class="sum-more"><summary>{}</summary>
`, w.Say("Further inputs"))
		for _, in := range c.Inputs {
			if !front(in) {
				w.field(id, in, values[in.Name], system)
			}
		}
		w.Put("</details>\n")
	}
	w.Put("</form>\n")
}

func (w *writer) field(id string, in *calculators.Input, given string, system quantity.System) {
	id += "-" + in.Name
	w.Put(`<div class="sum-field" data-input="{}">
<label for="{}">{}</label>
`, in.Name, id, w.Say(in.Label))
	if len(in.Choices) > 0 {
		w.choice(id, in, given)
	} else {
		w.amount(id, in, given, system)
	}
	w.Put(`<p class="sum-help" id="{}-help">{}</p>
<p class="sum-error" id="{}-error"></p>
</div>
`, id, w.help(in, system), id)
}

func (w *writer) help(in *calculators.Input, system quantity.System) string {
	var parts []string
	if len(in.Choices) == 0 {
		parts = append(parts, in.Accepted(system, w.Words)+".")
	}
	if in.Help != "" {
		parts = append(parts, w.Say(in.Help))
	}
	return strings.Join(parts, " ")
}

// described writes the attributes that fields of both sorts have. As long as a
// field says its data-default the script leaves the input to the calculator.
func (w *writer) described(id string, in *calculators.Input, fallback string) {
	w.Put(` id="{}" name="{}" aria-describedby="{}-help {}-error"`, id, in.Name, id, id)
	if in.Required && len(in.Or) == 0 {
		w.Put(` aria-required="true"`)
	}
	if fallback != "" {
		w.Put(` data-default="{}"`, fallback)
	}
}

func (w *writer) choice(id string, in *calculators.Input, given string) {
	if given == "" {
		given = in.Default
	}
	w.Put("<select")
	w.described(id, in, in.Default)
	w.Put(">")
	for _, c := range in.Choices {
		w.option(c.Value, w.Say(c.Label), calculators.Alike(given, c.Value) || calculators.Alike(given, c.Label))
	}
	w.Put("</select>\n")
}

func (w *writer) option(value, label string, selected bool) {
	mark := ""
	if selected {
		mark = " selected"
	}
	w.Put(`<option value="{}"{}>{}</option>`, value, mark, label)
}

// amount writes a field for a number and beside it its unit, one to choose
// where there are several. The shop's own units stand first.
func (w *writer) amount(id string, in *calculators.Input, given string, system quantity.System) {
	number, unit := w.shown(in, given, system)
	w.Put(`<span class="sum-amount"><input type="text" inputmode="decimal" autocomplete="off" spellcheck="false" value="{}"`, number)
	fallback, of := w.shown(in, "", system)
	if of.Symbol != "" && fallback != "" && !(in.None && fallback == w.Say("none")) {
		fallback += " " + of.Symbol
	}
	w.described(id, in, fallback)
	w.Put(">")
	switch units := Units(in, unit, system); {
	case len(units) > 1:
		w.Put(`<select name="{} unit" aria-label="{}" data-si="{}" data-us="{}">`, in.Name, w.Fill("Unit of “{input}”", w.Say(in.Label)), in.Measures[0].Unit(quantity.SI).Symbol, in.Measures[0].Unit(quantity.US).Symbol)
		for _, u := range units {
			w.option(u.Symbol, u.Symbol, u == unit)
		}
		w.Put("</select>")
	case unit.Symbol != "":
		w.Put(`<span class="sum-unit">{}</span>`, unit.Symbol)
	}
	w.Put("</span>\n")
}

// shown is the number and the unit that a field starts with: the given amount
// as written, or the default in the shop's units.
func (w *writer) shown(in *calculators.Input, given string, system quantity.System) (number string, unit quantity.Unit) {
	unit = in.Measures[0].Unit(system)
	own := given != ""
	if !own {
		given = in.Default
	}
	if given == "" || in.None && calculators.Alike(given, "none") {
		return w.Say(given), unit
	}
	kinds := make([]quantity.Kind, len(in.Measures))
	for i, m := range in.Measures {
		kinds[i] = m.Kind
	}
	v, err := quantity.Parse(given, kinds...)
	if err != nil { // cannot be: the calculator has read it
		return given, unit
	}
	if own || v.Unit.Suits(system) {
		return Number(v.SI, v.Unit), v.Unit
	}
	return Converted(v.SI, unit), unit
}

// Number writes an amount for a field: the number alone, with a hyphen for a
// minus sign and nothing between thousands.
func Number(si float64, unit quantity.Unit) string {
	return plain(quantity.Decimal(unit.FromSI(si), 6))
}

// Converted is Number for an amount that was written in another unit: with the four digits that bring back the amount it was made from, as far as
// anybody measures it: 31.7 US gal for 120 L.
func Converted(si float64, unit quantity.Unit) string {
	return plain(quantity.Decimal(unit.FromSI(si), 4))
}

func plain(number string) string {
	return strings.ReplaceAll(strings.ReplaceAll(number, "\u202f", ""), "−", "-")
}

// Units are those that a field offers, the ones of the system first; the
// present one is always among them.
func Units(in *calculators.Input, present quantity.Unit, system quantity.System) []quantity.Unit {
	var own, others []quantity.Unit
	seen := false
	for _, m := range in.Measures {
		for _, u := range quantity.UnitsOf(m.Kind) {
			seen = seen || u == present
			if u.Suits(system) {
				own = append(own, u)
			} else {
				others = append(others, u)
			}
		}
	}
	own = append(own, others...)
	if !seen {
		own = append([]quantity.Unit{present}, own...)
	}
	return own
}
