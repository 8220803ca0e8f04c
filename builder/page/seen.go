package page

import (
	"slices"

	"tankside/builder/decide/causes"
	"tankside/builder/decide/relate"
	"tankside/builder/manual"
)

const seenPage = "what-is-seen.html"

// seenContent is what the page for several observations at once shows: the observations to tick, and for a reader without scripts the causes
// that each goes with.
type seenContent struct {
	Model    string // parcel, from the edition's root
	Groups   []seenGroup
	Causes   []seenCause // in the order of the model
	Together []string    // openings of the sentence about a set, by the number of its causes
	Partly   string      // opening where something is left over
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

// ranks tells whether the page is there in the site's language: where every symptom is, so that no list of it is in two languages.
func (s *site) ranks() bool {
	return s.isOwn() || !slices.ContainsFunc(s.known.Observations, func(o relate.Observed) bool { return s.local(o.Of) == o.Of })
}

// remedy is the section of a cause in the site's language. A translation has the same steps and remedies in the same order.
func (s *site) remedy(c relate.Caused) *manual.Section {
	step := -1
	sections := s.local(c.Of).Sections
	for i := range sections {
		if sections[i].Level == 2 {
			step++
		}
		if step == c.At {
			return &sections[i]
		}
	}
	return c.Remedy
}

// seen fills the page. Anchors and the model are the same in every language, so a link with what was ticked leads to the same answer.
func (s *site) seen(f *frame) error {
	f.Title = s.words.say("Several things at once")
	f.Summary = s.words.say("Tick what is seen and what is not; the smallest sets of causes that explain it are found.")
	c := seenContent{Model: s.parcels["causes-model"], Partly: s.words.say(causes.Partly)}
	for n := range causes.Together {
		c.Together = append(c.Together, s.words.say(causes.Together[n]))
	}
	for _, k := range s.known.Causes {
		remedy := s.remedy(k)
		c.Causes = append(c.Causes, seenCause{remedy.Heading, s.local(k.Of).Head.Title, s.to(articlePage(k.Of)) + "#" + remedy.Anchor, s.known.Model.Causes[len(c.Causes)].Hurts})
	}
	with := make([][]seenWith, len(s.known.Observations))
	for i, cause := range s.known.Model.Causes {
		for _, sign := range cause.Signs {
			for word := causes.Rare; word <= causes.Typical; word++ {
				if sign.P == word.Probability() {
					with[sign.Observation] = append(with[sign.Observation], seenWith{word, s.words.say(causes.Words[word]), c.Causes[i]})
				}
			}
		}
	}
	for i, o := range s.known.Observations {
		of := s.local(o.Of)
		if n := len(c.Groups); n == 0 || c.Groups[n-1].Href != s.to(articlePage(o.Of)) {
			g := seenGroup{Title: of.Head.Title, Href: s.to(articlePage(o.Of))}
			if of.Symptom.Label != "" {
				g.Title = of.Symptom.Label
			}
			if o.Of.Symptom.Swatch != "" {
				g.Swatch = s.pics["drawings/swatches/"+o.Of.Symptom.Swatch+".svg"]
			}
			c.Groups = append(c.Groups, g)
		}
		slices.SortStableFunc(with[i], func(a, b seenWith) int { return int(b.often) - int(a.often) })
		g := &c.Groups[len(c.Groups)-1]
		g.Observations = append(g.Observations, seenObservation{i, manual.Anchor(o.Seen), of.Symptom.Observations[o.At].Seen, s.words.say(lookTitles[o.By]), with[i]})
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
	k := relate.Causes(in.Manual)
	if len(k.Observations) == 0 {
		return nil
	}
	return a.addParcel("causes-model", []byte(k.Model.Text()))
}
