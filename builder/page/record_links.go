package page

import (
	"slices"
	"strings"

	"tankside/builder/history"
	"tankside/builder/language"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/tree"
)

// mostLinks is how many places to look are named under a chart.
const mostLinks = 6

// whereToLook leads from a quantity that is called out to the manual's own trees: first to the steps that ask for its number, then to the remedies of
// causes with which something is seen that names the quantity, the more typical first, and to the test by which the bath is controlled.
func (s *site) whereToLook(root string, h *history.Tank, c *history.Chart) []link {
	var links []link
	add := func(a *manual.Article, section *manual.Section) {
		l := s.toArticle(root, a)
		if section != nil {
			l.Href += "#" + section.Anchor
			l.Title, l.Note = section.Heading, l.Title
		}
		if len(links) < mostLinks && !slices.ContainsFunc(links, func(other link) bool { return other.Href == l.Href }) {
			links = append(links, l)
		}
	}
	if t := s.Manual.Shop.Tank(h.ID); t != nil && slices.Contains([]string{"strength", "titrant"}, c.Quantity) {
		if a := s.Manual.Named(manual.Chemistry, t.Chemistry.Name); a != nil {
			if test := s.Manual.Named(manual.Procedure, a.Chemistry.ControlTest.Name); test != nil {
				add(test, nil)
			}
		}
	}
	for _, cause := range s.causesOf(c) {
		add(s.known.Causes[cause].Of, s.remedy(s.known.Causes[cause]))
	}
	for _, a := range s.Manual.Articles {
		if a.Kind != manual.Symptom {
			continue
		}
		step := -1
		for i := range a.Sections {
			if a.Sections[i].Level == 2 {
				step++
			}
			if r := tree.ReadingOf(&a.Sections[i]); r != nil && asksFor(r, c) {
				add(a, s.stepOf(a, step, &a.Sections[i]))
			}
		}
	}
	return links
}

// stepOf is a step in the site's language.
func (s *site) stepOf(a *manual.Article, number int, own *manual.Section) *manual.Section {
	step := -1
	sections := s.local(a).Sections
	for i := range sections {
		if sections[i].Level == 2 {
			step++
		}
		if step == number {
			return &sections[i]
		}
	}
	return own
}

// asksFor tells whether a step asks for the number of a chart.
func asksFor(r *tree.Reading, c *history.Chart) bool {
	switch c.Quantity {
	case "ph":
		return r.Unit == "pH"
	case "temperature":
		return r.Kind == quantity.Temperature
	case "conductivity":
		return r.Kind == quantity.Conductivity
	case "level":
		return r.Kind == quantity.Length
	}
	return false
}

// named are the words by which observations of an English manual name a quantity.
var namedBy = map[string][]string{
	"strength": {"strength"}, "titrant": {"strength", "reagent"}, "ph": {"pH"}, "temperature": {"temperature"}, "conductivity": {"conductivity"}, "level": {"level"}, "foil": {"foil"},
}

// Words of observations that say on which side something is.
var (
	lowWords  = []string{"below", "falls", "drops", "weak", "low", "poor"}
	highWords = []string{"above", "over", "high"}
)

// causesOf are the causes with which something is seen that names the quantity, on the side to which it goes; the more typical first. The observations of an
// English manual alone are read.
func (s *site) causesOf(c *history.Chart) []int {
	if s.known.Model == nil || language.General(s.manualLanguage()) != english {
		return nil
	}
	against := highWords
	if last := c.Points[len(c.Points)-1].Value; c.Drift.State == history.Drifts && c.Drift.PerDay > 0 || c.Drift.State != history.Drifts && last > c.Now().Limits.Mean {
		against = lowWords
	}
	spoken := map[int]bool{}
	for i, o := range s.known.Observations {
		words := strings.Fields(o.Seen)
		spoken[i] = slices.ContainsFunc(words, func(w string) bool { return slices.Contains(namedBy[c.Quantity], w) }) &&
			!slices.ContainsFunc(words, func(w string) bool { return slices.Contains(against, w) })
	}
	weight := make([]float64, len(s.known.Model.Causes))
	var list []int
	for i, cause := range s.known.Model.Causes {
		for _, sign := range cause.Signs {
			if spoken[sign.Observation] {
				weight[i] = max(weight[i], sign.P)
			}
		}
		if weight[i] > 0.1 { // more than rarely
			list = append(list, i)
		}
	}
	slices.SortStableFunc(list, func(a, b int) int {
		switch {
		case weight[a] > weight[b]:
			return -1
		case weight[a] < weight[b]:
			return 1
		}
		return 0
	})
	return list
}
