package markup

import (
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/fact"
	"tankside/builder/quantity"
)

// Beside writes what becomes of every material in two baths, those that drop out first; of one bath as it is and as it would be, only what changes. root
// leads from the page to the edition's root.
func (s *Sheet) Beside(root string, left, right admit.Question) string {
	w := writer{sheet: s}
	list, err := s.Table.Beside(left, right)
	if err != nil {
		w.Put(`<p class="admit-wanting">{}: {}</p>`, s.say("This manual does not have that name"), unknown(err))
		return w.String()
	}
	one := left.Bath == right.Bath
	was, is := s.say("today"), s.say("then")
	if !one {
		was, is = s.Table.Bath(left.Bath).Title, s.Table.Bath(right.Bath).Title
	}
	open := false
	for _, v := range list {
		if one && !s.differs(v) {
			continue
		}
		if !open {
			w.Put("<table class=\"beside\">\n<thead><tr><td></td><th scope=\"col\">{}</th><th scope=\"col\">{}</th></tr></thead>\n<tbody>\n", was, is)
			open = true
		}
		w.Put("<tr data-material=\"{}\" class=\"{}\"><th scope=\"row\"><a href=\"{}\">{}</a></th>", v.Material.Name, turns[v.Turn()], root+strings.TrimSuffix(v.Material.Path, ".md")+".html", v.Material.Title)
		w.verdict(v.Left)
		w.verdict(v.Right)
		w.WriteString("</tr>\n")
	}
	if !open {
		w.Put("<p class=\"beside-same\">{}</p>\n", s.say("Nothing changes: every material has the answer that it has today."))
		return w.String()
	}
	w.WriteString("</tbody></table>\n")
	return w.String()
}

// turns are the classes of rows.
var turns = [...]string{admit.Drops: "drops", admit.Worse: "worse", admit.Gains: "gained", admit.Same: "same"}

// differs tells whether a material's answer is another, if only in what to keep to.
func (s *Sheet) differs(v *admit.Versus) bool {
	return v.Turn() != admit.Same || v.Left.Brief(nil, v.Left.System) != v.Right.Brief(nil, v.Right.System)
}

// verdict writes a cell: the verdict, and what to keep to or what stands against it.
func (w *writer) verdict(a *admit.Answer) {
	w.Put("<td class=\"{}\"><b><span class=\"verdict-mark\" aria-hidden=\"true\">{}</span> {}</b> <span class=\"fact\">", string(a.Verdict), Marks[a.Verdict], w.sheet.say(Verdict(a.Verdict)))
	w.both(func(units quantity.System) string {
		if a.Verdict == admit.No {
			return a.Reasons[0].Says.In(w.sheet.Words, units)
		}
		return a.Brief(w.sheet.Words, units)
	})
	w.WriteString("</span></td>")
}

// besides begins a request for two baths; see Reply.
const besides = "beside"

func (s *Sheet) compare(f []string) string {
	if len(f) != 7 {
		return ""
	}
	left, right := admit.Question{Bath: f[1]}, admit.Question{Bath: f[2], As: &admit.As{Chemistry: f[3]}}
	if !put(&right.As.Strength, f[4], quantity.VolumeFraction, quantity.MassFraction, quantity.MassConcentration) ||
		!put(&right.As.Temperature, f[5], quantity.Temperature) || !put(&right.As.Frequency, f[6], quantity.Frequency) {
		return `<p class="admit-wanting">` + s.say("An amount with its unit is needed, such as 68 °C, 4 % v/v or 40 kHz.") + `</p>`
	}
	return s.Beside(f[0], left, right)
}

// put reads an amount as a limit; false for what is none. Nothing stays as it is.
func put(to *fact.Limit, text string, kinds ...quantity.Kind) bool {
	if text == "" {
		return true
	}
	v, err := quantity.Parse(text, kinds...)
	to.Kind, to.Low, to.High, to.Unit, to.Set = v.Kind, v.SI, v.SI, v.Unit, true
	return err == nil
}
