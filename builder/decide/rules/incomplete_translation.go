package rules

import (
	"fmt"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// incompleteTranslation finds what the original says in words or shows, and the translation lacks: lists of its header, calculators, pictures.
// It prevents that a reader goes without the gloves, the jug or the sum that readers of the original are told of.
// The limit is the original: as many items in each list, and the same calculators in the same order.
var incompleteTranslation = finding.Rule{
	Name: "incomplete-translation", Severity: finding.Result,
	Finds:  "a list of the original's header, a calculator or a picture that the translation lacks or has otherwise",
	Why:    "Its readers go without what readers of the original are told, protective equipment among it.",
	Source: "the original",
}

func findIncompleteTranslations(_ *proof, t *manual.Article) []finding.Finding {
	o := t.Original
	if o == nil || o.Partial {
		return nil
	}
	var list []finding.Finding
	add := func(at finding.Place, message, remedy string, also finding.Place) {
		list = append(list, incompleteTranslation.At(at, message, remedy, also))
	}
	for _, words := range t.Wording() {
		if words.Own != words.Original {
			add(at(t, words.Key), fmt.Sprintf("“%s” has %d items, and the original's %d.", words.Key, words.Own, words.Original),
				"Translate each item, in the original's order.", at(o, words.Key))
		}
	}
	for i, sum := range t.Sums {
		if i >= len(o.Sums) || o.Sums[i].Calculator != sum.Calculator {
			add(sum.At, "The original has no calculator “"+sum.Calculator+"” in this place.", "Give the translation the original's calculators, in its order.", finding.Place{File: o.Path})
			return list
		}
	}
	if n := len(t.Sums); n < len(o.Sums) {
		add(at(t, "title"), "The original's calculator “"+o.Sums[n].Calculator+"” is missing.", "Put its listing into the translation, without inputs.", o.Sums[n].At)
	}
	if len(t.Pictures) < len(o.Pictures) {
		add(at(t, "title"), fmt.Sprintf("The translation shows %d pictures, and the original %d.", len(t.Pictures), len(o.Pictures)), "Show the others as well, and translate their descriptions.", o.Pictures[len(t.Pictures)].At)
	}
	return list
}
