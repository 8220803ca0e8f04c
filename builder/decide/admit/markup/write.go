package markup

import (
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/fragment"
	"tankside/builder/language"
	"tankside/builder/quantity"
)

// writer gathers HTML.
type writer struct {
	fragment.Writer
	sheet *Sheet
	bath  *admit.Bath // that is asked about; nil where none is
}

// both writes what is said in the shop's own units and, where that differs, in the other family's.
func (w *writer) both(say func(quantity.System) string) {
	systems := w.sheet.systems()
	own, other := say(systems[0]), say(systems[1])
	if own == other {
		w.Put("{}", own)
		return
	}
	for i, text := range []string{own, other} {
		w.Put(`<span class="{}">{}</span>`, language.Lower(systems[i].String()), text)
	}
}

// reasons lists the reasons for one verdict under a heading. Where two places disagree, both are linked.
func (w *writer) reasons(heading string, list []admit.Reason, v admit.Verdict) {
	open := false
	for i := range list {
		r := &list[i]
		if r.Verdict != v {
			continue
		}
		if !open {
			w.Put("<section class=\"why\">\n<h3>{}</h3>\n<ul>\n", w.sheet.say(heading))
			open = true
		}
		w.Put(`<li><a href="{}">`, Href(r.Place, w.bath))
		w.both(func(units quantity.System) string { return r.Says.In(w.sheet.Words, units) })
		w.Put("</a>")
		if r.Also != nil {
			w.Put(` <span class="aside">{}: <a href="{}">{}</a></span>`, w.sheet.say("Compare with"), Href(*r.Also, w.bath), w.source(r.Also.Article))
		}
		w.WriteString("</li>\n")
	}
	if open {
		w.WriteString("</ul>\n</section>\n")
	}
}

// spans are the names of what a recipe gives.
var spans = map[admit.What]string{
	admit.PH: "pH", admit.Strength: "Strength", admit.Temperature: "Temperature", admit.Time: "Time", admit.Frequency: "Frequency",
}

func (w *writer) recipe(r *admit.Recipe) {
	w.Put("<section class=\"recipe\">\n<h3>{}</h3>\n<dl>\n<div><dt>{}</dt><dd><a href=\"{}\">{}</a></dd></div>\n",
		w.sheet.say("The recipe"), w.sheet.say("Chemistry"), Href(admit.Place{Article: r.Path}, w.bath), r.Chemistry)
	if r.Silent {
		w.Put("<div><dt>{}</dt><dd>{}</dd></div>\n", w.sheet.say("How"), w.sheet.say("by hand or soak, no sound"))
	}
	for _, s := range r.Spans {
		w.Put("<div><dt>{}</dt><dd>", w.sheet.say(spans[s.What]))
		w.both(s.In)
		w.Put("</dd></div>\n")
	}
	w.WriteString("</dl>\n</section>\n")
}

// cautions writes the safety messages, the gravest first, in the markup that articles have, and what to wear.
func (w *writer) cautions(a admit.Answer) {
	if len(a.Cautions) == 0 && len(a.Protect) == 0 {
		return
	}
	w.Put("<section class=\"careful\">\n<h3>{}</h3>\n", w.sheet.say("Be careful"))
	for _, c := range a.Cautions {
		page, _, _ := strings.Cut(Href(c.Place, w.bath), "#")
		w.Put("<div class=\"safety {}\" role=\"note\"><p class=\"signal\">{}</p><p>{} <a href=\"{}\">{}</a></p></div>\n",
			language.Lower(c.Signal), w.sheet.say(c.Signal), c.Text, page, w.source(c.Article))
	}
	if len(a.Protect) > 0 {
		w.Put("<p class=\"wear\"><b>{}</b>: {}.</p>\n", w.sheet.say("Wear"), strings.Join(a.Protect, ", "))
	}
	w.WriteString("</section>\n")
}

// source is the title of an article, or of the tank where the place is the shop file.
func (w *writer) source(article string) string {
	for _, items := range [][]admit.Item{w.sheet.Table.MaterialItems(), w.sheet.Table.SoilItems()} {
		for i := range items {
			if items[i].Path == article {
				return items[i].Title
			}
		}
	}
	switch {
	case w.bath != nil && w.bath.Chemistry.Path == article:
		return w.bath.Chemistry.Title
	case w.bath != nil && !strings.HasSuffix(article, ".md"):
		return w.bath.Title
	}
	return w.sheet.say("the article")
}

// instead lists baths that would take the load, each a link that asks about it.
func (w *writer) instead(q admit.Question, list []admit.Alternative, heading, none string) {
	w.Put("<section class=\"instead\">\n<h3>{}</h3>\n", w.sheet.say(heading))
	if len(list) == 0 {
		w.Put("<p>{}</p>\n</section>\n", w.sheet.say(none))
		return
	}
	w.WriteString("<ul>\n")
	for _, alt := range list {
		kind := "by itself, in a tank made up for it"
		if alt.Tank {
			kind = "as this edition has it"
		}
		signal := ""
		if alt.Signal != "" {
			signal = w.sheet.say(alt.Signal) + " · "
		}
		w.Put("<li><a href=\"{}\"><span class=\"verdict-mark\" aria-hidden=\"true\">{}</span> <b>{}</b> <span class=\"aside\">{}{}: {}</span></a></li>\n",
			Ask(admit.Question{Materials: q.Materials, Soil: q.Soil, Bath: alt.Bath}), Marks[alt.Verdict], alt.Title, signal, w.sheet.say(Verdict(alt.Verdict)), w.sheet.say(kind))
	}
	w.WriteString("</ul>\n</section>\n")
}
