package asked

import (
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/admit/markup"
	"tankside/builder/fragment"
	"tankside/builder/quantity"
)

// Reply answers a request from a page: family of units, the way to the edition's root, and the text, parted by U+001F. It gives the HTML that stands
// above the results and what is read out; both are empty where the text is words to look for.
func (t *Teller) Reply(request string) string {
	fields := strings.Split(request, between)
	if len(fields) < 3 {
		return between
	}
	units, _ := quantity.SystemNamed(fields[0])
	list := t.Tell(fields[2], units)
	if list == nil {
		return between
	}
	w := writer{t: t, root: fields[1]}
	spoken := ""
	for i := range list {
		for k := range list[i].Answers {
			a := &list[i].Answers[k]
			spoken += strings.TrimSuffix(a.Title, ".") + ": " + strings.TrimSuffix(a.Says, ".") + ". "
			w.answer(a, len(list[i].Answers) > 1)
		}
		for _, text := range list[i].Asks {
			spoken += text + " "
			w.Put("<p class=\"asked-about\">{}</p>\n", text)
		}
	}
	return w.String() + between + spoken
}

// writer gathers HTML.
type writer struct {
	fragment.Writer
	t    *Teller
	root string
}

// answer writes one answer; of several, without what its page tells at length.
func (w *writer) answer(a *Answer, several bool) {
	say := w.t.Names.Words
	w.Put(`<div class="asked-answer">
`)
	if a.Signal != "" {
		w.Put(`<p class="safety {}"><b class="signal">{}</b>`, strings.ToLower(a.Signal), say.Say(a.Signal))
		if !several {
			w.Put(` {}`, a.Caution)
		}
		if a.More > 0 && !several {
			w.Put(` <span class="aside">{}</span>`, say.Fill("{n} more messages on its page.", quantity.Decimal(float64(a.More), 3)))
		}
		w.Put("</p>\n")
	}
	class, mark := "", ""
	if a.Verdict != "" {
		class, mark = " verdict "+a.Verdict, markup.Marks[admit.Verdict(a.Verdict)]
	}
	w.Put(`<p class="asked-title">`)
	if a.Path != "" {
		w.Put(`<a href="{}{}">{}</a></p>`, w.root, a.Path, a.Title)
	} else {
		w.Put(`{}</p>`, a.Title)
	}
	w.Put(`<p class="asked-says{}">`, class)
	if mark != "" {
		w.Put(`<span class="verdict-mark" aria-hidden="true">{}</span> `, mark)
	}
	w.Put("{}</p>\n", a.Says)
	for _, line := range a.Lines {
		w.Put("<p class=\"asked-line\">{}</p>\n", line)
	}
	w.Put("</div>\n")
}
