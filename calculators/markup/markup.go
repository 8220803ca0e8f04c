// Package markup writes a calculator as HTML: its form and its answer. The same
// functions run when an edition is published and in the reader's browser, so a
// page shows the same before and after a key is pressed.
//
// [Sum] gives the whole block that stands in a page:
//
//	<section class="sum" id="sum-heat-up" data-sum="heat-up" data-system="SI">
//	  <p class="sum-title">…</p> <p class="sum-summary">…</p>
//	  <form class="sum-inputs" hidden>             shown by the script
//	    <div class="sum-field" data-input="volume">
//	      <label>…</label>
//	      <span class="sum-amount"><input><select>…</select></span>
//	      <p class="sum-help">…</p> <p class="sum-error"></p>
//	    </div> …
//	    <details class="sum-more">…</details>      inputs that have a default
//	  </form>
//	  <p class="sum-say" role="status"></p>        what is read out
//	  <div class="sum-answer">…</div>              see Answer
//	  <p class="sum-tools" hidden>…</p>            buttons for the script
//	</section>
//
// Without scripts the form stays hidden, and the answer says which inputs it is
// for. Everything is written in the language that it is given the words of. [Answer] writes what stands inside sum-answer: the inputs, readings as a
// description list, safety messages in the markup that articles have, the curve
// as SVG, working and sources behind a disclosure. [Text] is the same for a
// clipboard, and [OnPaper] the block for a printer.
//
// Nothing has a style attribute or an event handler, so that a strict content
// security policy holds; everything that is not markup is escaped; the output
// depends on the arguments alone.
package markup

import (
	"strings"

	"tankside/builder/fragment"
	"tankside/builder/language"
	"tankside/builder/quantity"
	"tankside/calculators"
)

// SumIn writes a calculator's block in a language, for inputs as people write
// them, by input name. Inputs that are needed but not given leave the answer
// open; anything else that is wrong with them is an error, calculators.Errors
// or calculators.Unknown, and there is no HTML. The id, which differs between
// two blocks of a page, is what a link to the sum names, and the
// beginning of the ids of its fields.
func SumIn(said language.Words, id, name string, values map[string]string, system quantity.System) (string, error) {
	return FoundIn(said, id, name, values, system)
}

// FoundIn is SumIn for a place where somebody stands who has just measured: the fields of the inputs first stand in front, in that order, and all others
// behind the disclosure. Without any it is SumIn.
func FoundIn(said language.Words, id, name string, values map[string]string, system quantity.System, first ...string) (string, error) {
	c, a, wrong, err := run(said, name, values, system)
	if err != nil {
		return "", err
	}
	w := writer{Words: said}
	w.Put(`<section class="sum" id="{}" data-sum="{}" data-system="{}" aria-labelledby="{}-title">
<p class="sum-title" id="{}-title">{}</p>
<p class="sum-summary">{}</p>
`, id, name, system.String(), id, id, said.Say(c.Title), said.Say(c.Summary))
	w.form(id, c, values, system, first)
	w.Put(`<p class="sum-say visually-hidden" role="status" aria-live="polite"></p>
<div class="sum-answer">
`)
	if wrong != nil {
		w.wanting(wrong)
	} else {
		w.answer(&a)
	}
	w.Put(`</div>
<p class="sum-tools" hidden><button type="button" class="sum-copy">{}</button> <button type="button" class="sum-link">{}</button> <button type="button" class="sum-reset">{}</button></p>
</section>
`, said.Say("Copy as text"), said.Say("Copy link to this sum"), said.Say("Back to the published values"))
	return w.String(), nil
}

// Answer writes an answer, without the block around it.
func Answer(a *calculators.Answer) string {
	w := writer{Words: a.Words}
	w.answer(a)
	return w.String()
}

// Wanting writes what stands in an answer's place while inputs are missing or
// wrong.
func Wanting(said language.Words, wrong calculators.Errors) string {
	w := writer{Words: said}
	w.wanting(wrong)
	return w.String()
}

// Spoken is the answer in a sentence or two, for a screen reader.
func Spoken(a *calculators.Answer) string {
	parts := make([]string, 0, 4)
	if last := len(a.Verdict) - 1; last > 0 && a.Verdict[last] == '.' {
		parts = append(parts, a.Verdict[:last])
	} else if last >= 0 {
		parts = append(parts, a.Verdict)
	}
	for i, r := range a.Readings {
		if i == 3 {
			break
		}
		parts = append(parts, r.Label+" "+r.String())
	}
	return strings.Join(parts, ". ") + "."
}

// writer gathers HTML.
type writer struct {
	fragment.Writer
	language.Words
}
