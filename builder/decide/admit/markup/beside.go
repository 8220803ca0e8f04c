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
	heads := [2]string{s.say("today"), s.say("then")}
	if !one {
		heads = [2]string{s.Table.Bath(left.Bath).Title, s.Table.Bath(right.Bath).Title}
	}
	open := false
	for i := range list {
		v := &list[i]
		if one && !s.differs(v) {
			continue
		}
		if !open {
			w.Put("<table class=\"beside\">\n<thead><tr><td></td><th scope=\"col\">{}</th><th scope=\"col\">{}</th></tr></thead>\n<tbody>\n", heads[0], heads[1])
			open = true
		}
		w.Put("<tr data-material=\"{}\" class=\"{}\"><th scope=\"row\"><a href=\"{}\">{}</a></th>", v.Material.Name, turned(v), root+strings.TrimSuffix(v.Material.Path, ".md")+".html", v.Material.Title)
		w.verdict(&v.Left)
		w.verdict(&v.Right)
		w.WriteString("</tr>\n")
	}
	if !open {
		w.Put("<p class=\"beside-same\">{}</p>\n", s.say("Nothing changes: every material has the answer that it has today."))
		return w.String()
	}
	w.WriteString("</tbody></table>\n")
	return w.String()
}

// turned is the class of a row.
func turned(v *admit.Versus) string {
	switch turn := v.Turn(); {
	case turn < 0 && v.Right.Verdict == admit.No:
		return "drops"
	case turn < 0:
		return "worse"
	case turn > 0:
		return "gained"
	}
	return "same"
}

// differs tells whether a material's answer is another, if only in what to keep to.
func (s *Sheet) differs(v *admit.Versus) bool {
	return v.Turn() != 0 || v.Left.Brief(nil, v.Left.System) != v.Right.Brief(nil, v.Right.System)
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

// Compare answers a request from a page: the way to the edition's root, a bath, another or the same, and what this would have: chemistry, strength,
// temperature, frequency, each empty where it stays.
func (s *Sheet) Compare(request string) string {
	f := strings.Split(request, Separator)
	if len(f) != 7 {
		return ""
	}
	left, right := admit.Question{Bath: f[1]}, admit.Question{Bath: f[2], As: admit.As{Chemistry: f[3]}}
	for i, v := range []struct {
		to    *fact.Limit
		kinds []quantity.Kind
	}{
		{&right.As.Strength, []quantity.Kind{quantity.VolumeFraction, quantity.MassFraction, quantity.MassConcentration}},
		{&right.As.Temperature, []quantity.Kind{quantity.Temperature}}, {&right.As.Frequency, []quantity.Kind{quantity.Frequency}},
	} {
		text := f[4+i]
		if text == "" {
			continue
		}
		r, err := quantity.ParseRange(text, v.kinds...)
		if err != nil {
			w := writer{sheet: s}
			w.Put(`<p class="admit-wanting">{}: “{}”</p>`, s.say("This is no amount that fits here"), text)
			return w.String()
		}
		*v.to = fact.Limit{Range: r, Set: true}
	}
	return s.Beside(f[0], left, right)
}
