package relate

import (
	"slices"

	"tankside/builder/decide/causes"
	"tankside/builder/manual"
)

// Knowledge is what a manual's articles say of causes and observations. The lists stand in the order of the model's.
type Knowledge struct {
	Model        *causes.Model // its causes are named by article and anchor: "symptoms/foam.md#over-dosed-dilute-it"
	Observations []Observed
	Causes       []Caused
}

// Observed is an observation with the symptom that declares it.
type Observed struct {
	*manual.Observation
	Of *manual.Article
	At int // place among the article's observations
}

// Caused is a cause: the remedy that says with what it is seen.
type Caused struct {
	Remedy *manual.Section
	Of     *manual.Article
	At     int // place among the article's steps and remedies
}

// Causes gathers what is seen with which cause, in the order of the articles and of their sections.
func Causes(m *manual.Manual) Knowledge {
	k := Knowledge{Model: &causes.Model{}}
	index := map[string]int{}
	for _, a := range m.Articles {
		if a.Symptom == nil {
			continue
		}
		for i := range a.Symptom.Observations {
			o := &a.Symptom.Observations[i]
			index[manual.SameObservation(o.Seen)] = len(k.Observations)
			k.Observations = append(k.Observations, Observed{o, a, i})
			k.Model.Observations = append(k.Model.Observations, causes.Observation{Name: o.Seen, Minutes: o.Minutes()})
		}
	}
	for _, a := range m.Articles {
		if a.Symptom != nil {
			k.remedies(a, index)
		}
	}
	return k
}

// remedies adds the causes of a symptom; index has the observations by their words.
func (k *Knowledge) remedies(a *manual.Article, index map[string]int) {
	var remedy *manual.Section
	step := -1
	for i := range a.Sections {
		s := &a.Sections[i]
		if s.Level == 2 {
			remedy = s
			step++
		}
		if s.Signs == nil || remedy == nil {
			continue
		}
		c := causes.Cause{Name: a.Path + "#" + remedy.Anchor, Weight: often(s.Signs.Common).Probability(), Hurts: s.Signs.Hurts || a.Symptom.SeenOn == "people" || dangerIn(a, remedy)}
		for _, sign := range s.Signs.Seen {
			if o, known := index[manual.SameObservation(sign.Observation.Name)]; known {
				c.Signs = append(c.Signs, causes.Sign{Observation: o, P: often(sign.Often).Probability()})
			}
		}
		k.Model.Causes = append(k.Model.Causes, c)
		k.Causes = append(k.Causes, Caused{remedy, a, step})
	}
}

// often is the word; a cause of which no word says how common it is counts as rare.
func often(word string) causes.Often {
	return causes.Often(max(int(causes.Rare), slices.Index(causes.Words[:], word)))
}

// dangerIn tells whether a DANGER message stands in a section of level 2.
func dangerIn(a *manual.Article, section *manual.Section) bool {
	last := 0
	for _, s := range a.Sections {
		if s.Level == 2 && s.At.Line > section.At.Line {
			last = s.At.Line
			break
		}
	}
	for _, s := range a.Signals {
		if s.Word == "DANGER" && s.At.Line > section.At.Line && (last == 0 || s.At.Line < last) {
			return true
		}
	}
	return false
}
