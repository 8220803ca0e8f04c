package markup

import (
	"tankside/builder/language"
	"tankside/builder/quantity"
	"tankside/calculators"
)

// OnPaper is SumIn for a printer: the answer, with the inputs that it is for and
// its safety messages. What is pressed is left out, and so are the working and the sources, which
// stand on the page.
func OnPaper(said language.Words, id, name string, values map[string]string, system quantity.System) (string, error) {
	c, a, wrong, err := run(said, name, values, system)
	if err != nil {
		return "", err
	}
	w := writer{Words: said}
	w.Put(`<section class="sum" id="{}">
<p class="sum-title">{}</p>
<p class="sum-summary">{}</p>
<div class="sum-answer">
`, id, said.Say(c.Title), said.Say(c.Summary))
	if wrong != nil {
		w.wanting(wrong)
	} else {
		w.result(&a)
	}
	w.Put(`</div>
</section>
`)
	return w.String(), nil
}

// run answers a calculator. wrong are inputs that are still missing, and the answer is open; anything else that is wrong is an error.
func run(said language.Words, name string, values map[string]string, system quantity.System) (c *calculators.Calculator, a calculators.Answer, wrong calculators.Errors, err error) {
	c, ok := calculators.Named(name)
	if !ok {
		return c, a, nil, calculators.Unknown(name)
	}
	a, err = c.RunIn(said, values, system)
	wrong, _ = err.(calculators.Errors) // Run gives no other; errors.As would cost the page 14 kB
	if err != nil && wrong.OnlyMissing() {
		err = nil
	}
	return c, a, wrong, err
}
