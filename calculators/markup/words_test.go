package markup

import (
	"slices"
	"strings"
	"testing"

	"tankside/builder/language/marked"
	"tankside/builder/quantity"
	"tankside/calculators"
)

// A block, its answer, what is read out and what is copied have no word that was not said in the language: forms and answers whole, inputs missing and
// inputs wrong.
func TestNothingIsWrittenWithoutWords(t *testing.T) {
	marks := marked.New(marked.Phrases(t, "words/calculators/es.yaml"))
	for _, c := range calculators.All() {
		for _, system := range []quantity.System{quantity.SI, quantity.US} {
			for _, values := range []map[string]string{filled(c.Name), nil} {
				html, err := SumIn(marks.Words, "x", c.Name, values, system)
				if err != nil {
					t.Fatal(err)
				}
				elements, text := parse(t, strings.ReplaceAll(html, "</option>", " </option>"))
				for _, e := range elements {
					text += " \n" + e.attrs["aria-label"] + " \n" + e.attrs["title"] + " \n" + e.attrs["value"]
					if e.name == "option" { // which the calculator reads
						text = strings.TrimSuffix(text, e.attrs["value"])
					}
				}
				if left := marks.Unsaid(text); left != "" {
					t.Errorf("the block of %s writes %q without words:\n%s", c.Name, left, text)
				}
			}
			request := []string{c.Name, system.String()}
			for name, v := range filled(c.Name) {
				request = append(request, name, v)
			}
			fields := strings.Split(Reply(marks.Words, strings.Join(request, Separator)), Separator)
			for _, text := range fields[1:] {
				if left := marks.Unsaid(text); left != "" {
					t.Errorf("%s says %q without words: %s", c.Name, left, text)
				}
			}
			wrong := strings.Split(Reply(marks.Words, strings.Join([]string{c.Name, system.String(), c.Inputs[0].Name, "#"}, Separator)), Separator)
			for i, text := range wrong {
				if _, is := c.Input(text); is && i%2 == 1 {
					continue // the name of the input
				}
				if _, text := parse(t, text); marks.Unsaid(text) != "" {
					t.Errorf("%s says of a wrong input %q", c.Name, text)
				}
			}
		}
	}
}

// In Spanish a reader is told the same numbers, with the signal words of ANSI Z535.6 in its Spanish edition; and a default that is a word is
// shown, and read back, in Spanish.
func TestSpanish(t *testing.T) {
	es := marked.Read(t, "words/calculators/es.yaml")
	html, err := SumIn(es, "x", "heat-up", map[string]string{"volume": "120 L", "start": "12 °C", "target": "62 °C", "heater": "6 kW"}, quantity.SI)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		">Tiempo de calentamiento</p>", `<p class="signal">ADVERTENCIA</p>`, `<div class="safety warning"`, "guantes largos", `value="ninguno"`, "Volumen del baño 120\u00a0L", ">Desarrollo</summary>",
	} {
		if !strings.Contains(html, want) {
			t.Errorf("the block lacks %s", want)
		}
	}
	c, _ := calculators.Named("heat-up")
	for _, word := range []string{"none", "ninguno", "Ninguno"} {
		a, err := c.RunIn(es, map[string]string{"volume": "120 L", "start": "12 °C", "target": "62 °C", "heater": "6 kW", "insulation": word}, quantity.SI)
		if err != nil {
			t.Errorf("%s: %v", word, err)
		}
		if !slices.ContainsFunc(a.Given, func(g calculators.Given) bool { return g.Name == "insulation" && g.Text == "ninguno" }) {
			t.Errorf("%s is shown as %v", word, a.Given)
		}
	}
	_, err = c.RunIn(es, map[string]string{"volume": "9 kHz", "start": "12", "heater": "1,5 kW"}, quantity.SI)
	wrong, _ := err.(calculators.Errors)
	var problems []string
	for _, e := range wrong {
		problems = append(problems, e.Problem)
	}
	want := []string{
		"«9 kHz»: «kHz» es una unidad de frecuencia; escribir un volumen, por ejemplo 120 L o 32 US gal.",
		"«12»: falta la unidad; escribir una temperatura, por ejemplo 60 °C o 140 °F.",
		"este dato hace falta; escribir una temperatura, por ejemplo 60 °C.",
		"«1,5 kW»: una coma puede ser decimal o de miles; usar punto para los decimales y nada para los miles; escribir una potencia, por ejemplo 6 kW.",
	}
	if !slices.Equal(problems, want) {
		t.Errorf("told is\n%s\nwant\n%s", strings.Join(problems, "\n"), strings.Join(want, "\n"))
	}
}
