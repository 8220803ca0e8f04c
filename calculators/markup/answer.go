package markup

import (
	"math"
	"strings"

	"tankside/builder/language"
	"tankside/builder/quantity"
	"tankside/calculators"
)

func (w *writer) answer(a *calculators.Answer) {
	w.result(a)
	w.behind(a)
}

// result writes what the answer is, with what it is for and what to beware of.
func (w *writer) result(a *calculators.Answer) {
	w.given(a)
	w.cautions(a, calculators.Danger, calculators.Danger) // before anything that invites
	if a.Verdict != "" {
		w.Put(`<p class="sum-verdict">{}</p>
`, a.Verdict)
	}
	w.Put(`<dl class="sum-readings">
`)
	for i := range a.Readings {
		r := &a.Readings[i]
		w.Put(`<div class="sum-reading" data-reading="{}"`, r.Name)
		if r.Kind == quantity.Time {
			w.Put(` data-seconds="{}"`, seconds(r.Low)+" "+seconds(r.SI)+" "+seconds(r.High))
		}
		w.Put(`><dt>{}</dt><dd><span class="sum-value">{}</span>`, r.Label, r.String())
		if bounds := r.Bounds(); bounds != "" {
			w.Put(` <span class="sum-bounds">({})</span>`, bounds)
		}
		if r.Note != "" {
			w.Put(` <span class="sum-note">{}</span>`, r.Note)
		}
		w.Put("</dd></div>\n")
	}
	w.Put("</dl>\n")
	w.cautions(a, calculators.Warning, calculators.Notice)
	if a.Curve != nil {
		w.curve(a.Curve)
	}
}

// seconds writes a time for a clock: at the low end, likely, at the high end; "never" for one that does not end.
func seconds(t float64) string {
	if t > 1e9 {
		return "never"
	}
	return plain(quantity.Decimal(math.Round(t), 9))
}

// behind writes how the answer was worked out, to be opened.
func (w *writer) behind(a *calculators.Answer) {
	w.Put(`<details class="sum-working"><summary>{}</summary>
`, w.Say("Working"))
	w.list("ol", a.Working, nil)
	w.Put(`</details>
<details class="sum-sources"><summary>{}</summary>
`, w.Say("Where this holds, and sources"))
	w.list("ul", a.Calculator.Limits, w.Words)
	w.list("ul", a.Calculator.Sources, w.Words)
	w.Put("</details>\n")
}

// cautions writes the safety messages of the signal words from one to another.
func (w *writer) cautions(a *calculators.Answer, from, to calculators.Signal) {
	for _, c := range a.Cautions {
		if c.Signal >= from && c.Signal <= to {
			word := c.Signal.String()
			w.Put(`<div class="safety {}" role="note"><p class="signal">{}</p><p>{}</p></div>
`, language.Lower(word), w.Say(word), c.Text)
		}
	}
}

// given says which inputs the answer is for, and what was taken for the rest.
func (w *writer) given(a *calculators.Answer) {
	var given, taken []string
	for _, g := range a.Given {
		text := g.Label + " " + g.Text
		if g.Defaulted {
			taken = append(taken, text)
		} else {
			given = append(given, text)
		}
	}
	w.Put(`<p class="sum-given">`)
	if len(given) > 0 {
		w.Put(`<span class="sum-for">{}</span> {}.`, w.Say("For"), strings.Join(given, "; "))
	}
	if len(taken) > 0 {
		w.Put(` <span class="sum-taken">{}: {}.</span>`, w.Say("Taken"), strings.Join(taken, "; "))
	}
	w.Put("</p>\n")
}

// list writes lines, which are said with the words where they are phrases still.
func (w *writer) list(tag string, lines []string, said language.Words) {
	w.Put("<{}>\n", tag)
	for _, l := range lines {
		w.Put("<li>{}</li>\n", said.Say(l))
	}
	w.Put("</{}>\n", tag)
}

// wanting says what is still needed for an answer.
func (w *writer) wanting(wrong calculators.Errors) {
	var labels []string
	fault := false
	for _, e := range wrong {
		if e.Missing {
			labels = append(labels, lowerFirst(e.Label))
		} else {
			fault = true
		}
	}
	text := w.Say("No answer yet: something is wrong with an input, see there.")
	if !fault {
		text = w.Fill("For an answer, fill in: {inputs}.", strings.Join(labels, ", "))
	}
	w.Put(`<p class="sum-wanting">{}</p>
`, text)
}

func lowerFirst(s string) string {
	if s != "" && s[0] >= 'A' && s[0] <= 'Z' {
		return string(s[0]+'a'-'A') + s[1:]
	}
	return s
}

// Text is an answer for a clipboard or a report: plain lines.
func Text(a *calculators.Answer) string {
	var b strings.Builder
	line := func(parts ...string) {
		for _, p := range parts {
			b.WriteString(p)
		}
		b.WriteByte('\n')
	}
	say := a.Words.Say
	line(say(a.Calculator.Title))
	for _, g := range a.Given {
		taken := ""
		if g.Defaulted {
			taken = " (" + say("taken") + ")"
		}
		line("  ", g.Label, ": ", g.Text, taken)
	}
	line(say("Answer"))
	if a.Verdict != "" {
		line("  ", a.Verdict)
	}
	for _, r := range a.Readings {
		bounds, note := r.Bounds(), r.Note
		if bounds != "" {
			bounds = " (" + bounds + ")"
		}
		if note != "" {
			note = ", " + note
		}
		line("  ", r.Label, ": ", r.String(), bounds, note)
	}
	for _, c := range a.Cautions {
		line(say(c.Signal.String()), " ", c.Text)
	}
	line(say("Working"))
	for _, s := range a.Working {
		line("  ", s)
	}
	return b.String()
}
