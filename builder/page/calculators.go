package page

import (
	"encoding/json"
	"html/template"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/sums"
	"tankside/calculators"
	"tankside/calculators/markup"
)

// calculatorsPage lists every calculator; each has a page of its own, which stays light.
const calculatorsPage = "calculators.html"

func calculatorPage(name string) string { return "calculators/" + name + ".html" }

// sumGroups are the calculators by what they are about, in the order of the list.
var sumGroups = []struct {
	title string
	of    []string
}{
	{"The bath", []string{"dilution", "top-up", "titration", "bath-life"}},
	{"Heat", []string{"heat-up", "holding", "load"}},
	{"Sound", []string{"degas", "power", "sound"}},
	{"Rinse and water", []string{"rinse", "spotting", "hardness", "scale", "drying"}},
	{"How clean it is", []string{"residue", "particles"}},
}

// calculatorContent is what the page of a calculator shows.
type calculatorContent struct {
	Title string
	Tanks []tankValues // the first is the shop without a tank
	Sum   section
	All   link
	Used  []link // where the sum is published with its inputs
}

// tankValues are the inputs of a calculator that the shop file knows of a tank.
type tankValues struct{ Value, Title, Values string }

// calculators fills the page that leads to every calculator.
func (s *site) calculators(f *frame) error {
	f.Title = s.words.say("Calculators")
	c := listContent{Title: f.Title, Summary: s.words.say("Each can be set to any tank of the shop. What has to be measured stays empty until it is measured.")}
	for _, g := range sumGroups {
		group := group{Title: s.words.say(g.title)}
		for _, name := range g.of {
			of, known := calculators.Named(name)
			if !known {
				return calculators.Unknown(name)
			}
			l := s.toPage(f.Root, calculatorPage(name), s.sums.Say(of.Title))
			l.Note = s.sums.Say(of.Summary)
			group.Links = append(group.Links, l)
		}
		c.Groups = append(c.Groups, group)
	}
	f.Content = c
	return nil
}

// calculator fills the page of one calculator: what the shop file knows stands in its fields, of the tank that the reader chooses.
func (s *site) calculator(f *frame, of *calculators.Calculator) error {
	f.Title, f.Summary = s.sums.Say(of.Title), s.sums.Say(of.Summary)
	c := calculatorContent{Title: f.Title, All: s.toPage(f.Root, calculatorsPage, s.words.say("All calculators"))}
	known, err := sums.Known(s.Manual, of.Name, "")
	if err != nil {
		return err
	}
	html, err := markup.SumIn(s.sums, "sum-"+of.Name, of.Name, known, s.system)
	if err != nil {
		return err
	}
	c.Sum.Body = template.HTML(html) // the package escapes every text
	if c.Tanks, err = s.valuesOfTanks(of.Name); err != nil {
		return err
	}
	c.Used = s.withSum(f.Root, of.Name)
	s.withSums(f)
	s.script(f, "tank-choice.js")
	if of.Name == "titration" {
		s.writes(f)
	}
	f.Content = c
	return nil
}

// valuesOfTanks lists the tanks and rinses of which the shop file knows more for a calculator than of the shop alone, behind the shop alone; nothing
// where there is none.
func (s *site) valuesOfTanks(calculator string) ([]tankValues, error) {
	shop, err := s.valuesOf(calculator, "")
	if err != nil {
		return nil, err
	}
	list := []tankValues{{Values: shop, Title: s.words.say("None of them: only what the shop file says of the shop")}}
	add := func(id, name string) error {
		values, err := s.valuesOf(calculator, id)
		if err == nil && values != shop {
			list = append(list, tankValues{id, name, values})
		}
		return err
	}
	for _, t := range s.Manual.Shop.Tanks {
		if err := add(t.ID, t.Name); err != nil {
			return nil, err
		}
	}
	for _, r := range s.Manual.Shop.Rinses {
		if err := add(r.ID, r.Name); err != nil {
			return nil, err
		}
	}
	if len(list) == 1 {
		return nil, nil
	}
	return list, nil
}

// valuesOf writes the inputs as a script reads them, with the blanks that fields take.
func (s *site) valuesOf(calculator, tank string) (string, error) {
	known, err := sums.Known(s.Manual, calculator, tank)
	if err != nil {
		return "", err
	}
	for name, value := range known {
		known[name] = strings.ReplaceAll(value, "\u00a0", " ")
	}
	text, err := json.Marshal(known) // in the order of the names
	return string(text), err
}

// withSum lists the articles in which a calculator stands.
func (s *site) withSum(root, calculator string) []link {
	var links []link
	for _, a := range s.Manual.Articles {
		if hasSum(a, calculator) {
			l := s.toArticle(root, a)
			l.Note = s.words.say(a.Kind.Heading())
			links = append(links, l)
		}
	}
	return links
}

func hasSum(a *manual.Article, calculator string) bool {
	for _, sum := range a.Sums {
		if sum.Calculator == calculator {
			return true
		}
	}
	return false
}

// sumLinks leads to every calculator, set to a tank where there is something to set.
func (s *site) sumLinks(root, tank string) ([]link, error) {
	var names []string
	for _, g := range sumGroups {
		names = append(names, g.of...)
	}
	return s.sumsTo(root, tank, names...)
}

// sumsTo leads to calculators, set to a tank or rinse where there is something to set.
func (s *site) sumsTo(root, tank string, names ...string) ([]link, error) {
	var links []link
	for _, name := range names {
		of, known := calculators.Named(name)
		if !known {
			return nil, calculators.Unknown(name)
		}
		l := s.toPage(root, calculatorPage(name), s.sums.Say(of.Title))
		shop, err := s.valuesOf(name, "")
		if err != nil {
			return nil, err
		}
		own, err := s.valuesOf(name, tank)
		if err != nil {
			return nil, err
		}
		if own != shop {
			l.Href += "#tank=" + tank
		}
		links = append(links, l)
	}
	return links, nil
}
