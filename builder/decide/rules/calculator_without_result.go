package rules

import (
	"errors"
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sums"
	"tankside/calculators"
)

// calculatorWithoutResult runs every calculator in the text with the values that the page will be published with.
// It prevents a page that cannot answer, and an input that nothing reads. A value that is not given is no fault: the reader measures it,
// as the volume used in a titration, and types it in.
var calculatorWithoutResult = finding.Rule{
	Name: "calculator-without-result", Severity: finding.Result,
	Finds:  "a calculator that there is not, or an input that it cannot use",
	Why:    "The page would show a form that gives no answer, or an answer to another question.",
	Source: "the calculators' own declarations",
}

func findCalculatorsWithoutResult(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	for _, s := range a.Sums {
		if s.Calculator == "" {
			continue // reported by the reader
		}
		if _, known := calculators.Named(s.Calculator); !known {
			var names []string
			for _, c := range calculators.All() {
				names = append(names, c.Name)
			}
			list = append(list, calculatorWithoutResult.At(s.At, sentenceOf(calculators.Unknown(s.Calculator).Error()), meant(s.Calculator, names)))
			continue
		}
		values, err := sums.Values(p.Manual, s.Calculator, sums.Given(s.Inputs))
		if err == nil {
			_, err = calculators.Run(s.Calculator, values, p.Shop.System())
		}
		list = append(list, wrongInputs(p, s, values, err)...)
	}
	return list
}

func wrongInputs(p *proof, s manual.Sum, values map[string]string, err error) []finding.Finding {
	var list []finding.Finding
	var inputs calculators.Errors
	var tank *sums.UnknownTank
	switch {
	case err == nil:
	case errors.As(err, &inputs):
		for _, e := range inputs {
			if e.Missing {
				continue
			}
			remedy := "See which inputs the calculator has: tankside calculate " + s.Calculator
			if e.Accepted != "" {
				remedy = "Accepted is " + e.Accepted + "."
			}
			if given := inputPlace(s, e.Input); e.Input == "price" && given == s.At && values[e.Input] != "" {
				list = append(list, calculatorWithoutResult.At(shopPlace(p, "currency"), "The shop file's price of energy makes the calculator "+s.Calculator+" fail: "+sentenceOf(e.Problem),
					"Write the currency as its three letters by ISO 4217: currency: EUR", s.At))
				continue
			}
			if v, is := filledFrom(p, s, values[e.Input], e.Input); is {
				list = append(list, calculatorWithoutResult.At(v.at(), "“"+v.written()+"” of "+v.label+" makes the calculator "+s.Calculator+" fail: "+sentenceOf(e.Problem), remedy, s.At))
				continue
			}
			list = append(list, calculatorWithoutResult.At(inputPlace(s, e.Input), "The input “"+e.Input+"” of "+s.Calculator+": "+sentenceOf(e.Problem), remedy))
		}
	case errors.As(err, &tank):
		list = append(list, calculatorWithoutResult.At(inputPlace(s, "tank"), sentenceOf(tank.Error()), meant(tank.Name, tank.Has), shopPlace(p, "tanks")))
	default:
		list = append(list, calculatorWithoutResult.At(s.At, sentenceOf(err.Error()), "Correct the inputs."))
	}
	return list
}

// filledFrom finds the value of the shop file or of the tank's chemistry that an input was filled with that the article does not give.
func filledFrom(p *proof, s manual.Sum, text, input string) (value, bool) {
	if text == "" || inputPlace(s, input) != s.At {
		return value{}, false
	}
	known := valuesOfShop(&p.Shop)
	for _, in := range s.Inputs {
		if t := p.Shop.Tank(in.Value); in.Name == "tank" && t != nil {
			known = slices.DeleteFunc(known, func(v value) bool { return v.of != "" && v.of != t.ID })
			if c := p.Named(manual.Chemistry, t.Chemistry.Name); c != nil {
				known = append(known, valuesOf(c)...)
			}
		}
	}
	best, found := value{}, false
	for _, v := range known {
		if v.limit.Range.String() == text && (!found || v.key == input) {
			best, found = v, true
		}
	}
	return best, found
}

// inputPlace is where an input is given, or the calculator when it is not.
func inputPlace(s manual.Sum, name string) finding.Place {
	for _, in := range s.Inputs {
		if in.Name == name {
			return in.At
		}
	}
	return s.At
}

func meant(word string, candidates []string) string {
	if near := manual.Nearest(word, candidates); near != "" {
		return "Did you mean " + near + "?"
	}
	return "Write one of them."
}

// sentenceOf makes a sentence of an error's text.
func sentenceOf(text string) string {
	if text == "" {
		return "It gives no result."
	}
	if c := text[0]; c >= 'a' && c <= 'z' {
		text = string(c-'a'+'A') + text[1:]
	}
	if last := text[len(text)-1]; last != '.' && last != '?' {
		text += "."
	}
	return text
}

// shopPlace is the place of a key of the shop file, or the file's beginning.
func shopPlace(p *proof, key string) finding.Place {
	if at, ok := p.Shop.At[key]; ok {
		return at
	}
	return finding.Place{File: manual.ShopFile, Line: 1, Column: 1}
}
