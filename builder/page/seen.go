package page

import (
	"slices"

	"tankside/builder/decide/causes"
	"tankside/builder/manual"
)

const seenPage = "what-is-seen.html"

// seenContent is what the page for several observations at once shows: the observations to tick, and for a reader without scripts the causes
// that each goes with.
type seenContent struct {
	Model  string // parcel, from the edition's root
	Groups []seenGroup
	Causes []seenCause // in the order of the model
}

// seenGroup is the observations of one symptom.
type seenGroup struct {
	Title, Href, Swatch string
	Observations        []seenObservation
}

// seenObservation is something to tick, with the causes that it goes with.
type seenObservation struct {
	Number           int // index in the model
	Anchor, Seen, By string
	Causes           []seenWith
}

// seenWith is a cause in the list of an observation.
type seenWith struct {
	often causes.Often
	Often string
	seenCause
}

// seenCause is a cause: a remedy of a symptom.
type seenCause struct {
	Title, Symptom, Href string
	Hurts                bool
}

// knowledge is what the manual's articles say of causes and observations.
type knowledge struct {
	model        *causes.Model
	observations []observed
	causes       []caused
}

type observed struct {
	*manual.Observation
	of *manual.Article
	at int // place among the article's observations
}

type caused struct {
	remedy *manual.Section
	of     *manual.Article
	at     int // place among the article's steps and remedies
}

// Causes gives the model by which causes are ranked where several things are seen: its observations and causes stand in the order of the
// articles and of their sections, and are named by their words and by the remedies' addresses.
func Causes(m *manual.Manual) *causes.Model { return know(m).model }

func know(m *manual.Manual) knowledge {
	k := knowledge{model: causes.New()}
	index := map[string]int{}
	for _, a := range m.Articles {
		if a.Symptom == nil {
			continue
		}
		for i := range a.Symptom.Observations {
			o := &a.Symptom.Observations[i]
			index[manual.SameObservation(o.Seen)] = len(k.observations)
			k.observations = append(k.observations, observed{o, a, i})
			k.model.Observations = append(k.model.Observations, causes.Observation{Name: o.Seen, Minutes: o.Minutes()})
		}
	}
	for _, a := range m.Articles {
		if a.Symptom == nil {
			continue
		}
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
			c := causes.Cause{Name: articlePage(a) + "#" + remedy.Anchor, Weight: often(s.Signs.Common).Probability(), Hurts: s.Signs.Hurts || a.Symptom.SeenOn == "people" || dangerIn(a, remedy)}
			for _, sign := range s.Signs.Seen {
				if o, known := index[manual.SameObservation(sign.Observation.Name)]; known {
					c.Signs = append(c.Signs, causes.Sign{Observation: o, P: often(sign.Often).Probability()})
				}
			}
			k.model.Causes = append(k.model.Causes, c)
			k.causes = append(k.causes, caused{remedy, a, step})
		}
	}
	return k
}

func often(word string) causes.Often {
	return causes.Often(max(0, slices.Index(causes.Words[:], word)))
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

// ranks tells whether the page is there in the site's language: where every symptom is, so that no list of it is in two languages.
func (s *site) ranks() bool {
	return s.isOwn() || !slices.ContainsFunc(s.known.observations, func(o observed) bool { return s.local(o.of) == o.of })
}

// remedy is the section of a cause in the site's language. A translation has the same steps and remedies in the same order.
func (s *site) remedy(c caused) *manual.Section {
	step := -1
	sections := s.local(c.of).Sections
	for i := range sections {
		if sections[i].Level == 2 {
			step++
		}
		if step == c.at {
			return &sections[i]
		}
	}
	return c.remedy
}

// seen fills the page. Anchors and the model are the same in every language, so a link with what was ticked leads to the same answer.
func (s *site) seen(f *frame) error {
	f.Title = s.words.say("Several things at once")
	f.Summary = s.words.say("Tick what is seen and what is not; the causes are ranked by how well they explain it.")
	c := seenContent{Model: s.parcels["causes-model"]}
	for _, k := range s.known.causes {
		remedy := s.remedy(k)
		c.Causes = append(c.Causes, seenCause{remedy.Heading, s.local(k.of).Head.Title, s.to(articlePage(k.of)) + "#" + remedy.Anchor, s.known.model.Causes[len(c.Causes)].Hurts})
	}
	with := make([][]seenWith, len(s.known.observations))
	for i, cause := range s.known.model.Causes {
		for _, sign := range cause.Signs {
			for word := causes.Rare; word <= causes.Typical; word++ {
				if sign.P == word.Probability() {
					with[sign.Observation] = append(with[sign.Observation], seenWith{word, s.words.say(causes.Words[word]), c.Causes[i]})
				}
			}
		}
	}
	for i, o := range s.known.observations {
		of := s.local(o.of)
		if n := len(c.Groups); n == 0 || c.Groups[n-1].Href != s.to(articlePage(o.of)) {
			g := seenGroup{Title: of.Head.Title, Href: s.to(articlePage(o.of))}
			if of.Symptom.Label != "" {
				g.Title = of.Symptom.Label
			}
			if o.of.Symptom.Swatch != "" {
				g.Swatch = s.pics["drawings/swatches/"+o.of.Symptom.Swatch+".svg"]
			}
			c.Groups = append(c.Groups, g)
		}
		slices.SortStableFunc(with[i], func(a, b seenWith) int { return int(b.often) - int(a.often) })
		g := &c.Groups[len(c.Groups)-1]
		g.Observations = append(g.Observations, seenObservation{i, manual.Anchor(o.Seen), of.Symptom.Observations[o.at].Seen, s.words.say(lookTitles[o.By]), with[i]})
	}
	f.Content = c
	s.asking(f, "seen.js")
	s.notes(f)
	return nil
}

// lookTitles are the ways to look, as readers see them.
var lookTitles = map[string]string{
	"look": "Look", "listen": "Listen", "wipe": "Wipe", "lens": "10× lens", "log": "Log or label", "thermometer": "Thermometer", "ph-paper": "pH paper", "meter": "Meter",
	"water-break": "Water-break test", "jar": "Sample in a jar", "foil": "Foil test", "titration": "Titration", "trial": "Trial load",
	"electrician": "Electrician", "laboratory": "Laboratory",
}

// causeParcels writes what the page ranks with.
func (a *assets) causeParcels(in Input) error {
	k := know(in.Manual)
	if len(k.observations) == 0 {
		return nil
	}
	return a.addParcel("causes-model", []byte(k.model.Text()))
}
