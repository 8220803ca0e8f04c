package page

import (
	"encoding/json"
	"strings"

	"tankside/builder/asked"
	"tankside/builder/language"
	"tankside/builder/manual"
	"tankside/builder/sums"
	"tankside/calculators"
)

// askedNames is the parcel with what a question in the search field may name. There is one for each language of the edition's pages.
const askedNames = "asked-names"

// phrasesOf takes a phrase apart that lists others.
func phrasesOf(list string) []string {
	if list == "" {
		return nil
	}
	return strings.Split(list, "; ")
}

// names gathers what a question in the search field may name, with titles in the site's language.
func (s *site) names() (*asked.Names, error) {
	n := &asked.Names{Asks: s.asks(), Sums: map[string]string{}, Words: language.Words{}}
	for _, p := range asked.Phrases {
		if shown := s.words.say(p); shown != p {
			n.Words[p] = shown
		}
	}
	for _, c := range calculators.All() {
		if at := SumPage(s.Manual, c.Name); at != "" {
			n.Sums[c.Name] = s.to(at)
		}
	}
	for _, k := range []struct {
		kind manual.Kind
		sort string
	}{{manual.Material, asked.Material}, {manual.Soil, asked.Soil}, {manual.Chemistry, asked.Chemistry}} {
		for _, a := range s.Manual.Articles {
			if a.Kind == k.kind {
				n.Things = append(n.Things, s.thing(a, k.sort))
			}
		}
	}
	for i := range s.Manual.Shop.Tanks {
		t, err := s.tankThing(&s.Manual.Shop.Tanks[i])
		if err != nil {
			return nil, err
		}
		n.Things = append(n.Things, t)
	}
	return n, nil
}

// thing is an article with its names in every language of the manual: people type what they know.
func (s *site) thing(a *manual.Article, sort string) asked.Thing {
	t := asked.Thing{Sort: sort, Name: a.Name, Title: s.local(a).Head.Title}
	if t.Title != a.Head.Title {
		t.Also = append(t.Also, a.Head.Title)
	}
	t.Also = append(t.Also, a.Head.AlsoCalled...)
	for _, tag := range s.Manual.Languages() {
		if in := s.Manual.In(a, tag); in != nil {
			t.Also = append(append(t.Also, in.Head.Title), in.Head.AlsoCalled...)
		}
	}
	return t
}

// tankThing is a tank with what the shop knows of it for the sums.
func (s *site) tankThing(tank *manual.Tank) (asked.Thing, error) {
	t := asked.Thing{Sort: asked.Tank, Name: tank.ID, Title: tank.Name}
	for _, name := range []string{"dilution", "heat-up"} {
		values, err := sums.Values(s.Manual, name, map[string]string{"tank": tank.ID})
		if err != nil {
			return t, err
		}
		k := asked.Known{Calculator: name}
		c, _ := calculators.Named(name)
		for _, in := range c.Inputs {
			if v := values[in.Name]; v != "" {
				k.Inputs = append(k.Inputs, calculators.Written{Name: in.Name, Text: strings.ReplaceAll(v, noBreak, " ")})
			}
		}
		t.Sums = append(t.Sums, k)
	}
	return t, nil
}

// askedParcels are the files that answer a question in the search field, from the edition's root.
type askedParcels struct {
	Answers string `json:"answers"`
	Names   string `json:"names"`
	Sheet   string `json:"sheet,omitempty"`
	Words   string `json:"words,omitempty"`
}

// openNames makes the parcel of the site's language. All sites have to know each other.
func (s *site) openNames() error {
	n, err := s.names()
	if err != nil {
		return err
	}
	return s.addParcelAs(s.parcelOf(askedNames), askedNames, []byte(n.Pack()))
}

// askedFiles says for each language where the parcels are. It stands in the file that names the index: so no page changes with them.
func (s *site) askedFiles() ([]byte, error) {
	all := map[string]askedParcels{}
	for _, one := range s.all {
		all[one.language] = askedParcels{s.parcels[answersModule], s.parcels[one.parcelOf(askedNames)], s.parcels[one.parcelOf(admitTable)], s.parcels[one.parcelOf(sumsWords)]}
	}
	return json.Marshal(all)
}
