package page

import (
	"encoding/json"
	"errors"
	"slices"
	"strings"

	"tankside/builder/asked"
	"tankside/builder/decide/admit/markup"
	"tankside/builder/manual"
	"tankside/builder/quantity"
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
func (s *site) names() (string, error) {
	places := map[string]string{}
	for _, c := range calculators.All() {
		places[c.Name] = s.to(SumPage(c.Name))
	}
	if s.asks() {
		places["admit"] = markup.Page
	}
	var things []asked.Thing
	sorts := map[manual.Kind]byte{manual.Material: 'm', manual.Soil: 's', manual.Chemistry: 'c'}
	for _, a := range s.Manual.Articles {
		if sort := sorts[a.Kind]; sort != 0 && s.asks() {
			things = append(things, s.thing(a, sort))
		}
	}
	for i := range s.Manual.Shop.Tanks {
		t, err := s.tankThing(&s.Manual.Shop.Tanks[i])
		if err != nil {
			return "", err
		}
		things = append(things, t)
	}
	return asked.Gather(things, places, s.words.say), nil
}

// thing is an article with its names in every language of the manual: people type what they know.
func (s *site) thing(a *manual.Article, sort byte) asked.Thing {
	t := asked.Thing{Sort: sort, Name: a.Name, Title: a.Head.Title, Also: a.Head.AlsoCalled}
	for _, tag := range s.Manual.Languages() {
		if in := s.Manual.In(a, tag); in != nil {
			t.Also = slices.Concat(t.Also, []string{in.Head.Title}, in.Head.AlsoCalled)
		}
	}
	return t
}

// ofHeater are the inputs of a heating that are a tank's own and none of a bath of another volume.
var ofHeater = []string{"heater", "lid", "insulation", "air", "humidity", "altitude"}

// tankThing is a tank with what the shop knows of it for the sums.
func (s *site) tankThing(tank *manual.Tank) (asked.Thing, error) {
	t := asked.Thing{Sort: 't', Name: tank.ID, Title: tank.Name, Volume: tank.Volume.String(), Degree: " °C"}
	if tank.Volume.Set && tank.Volume.Unit.System(quantity.SI) == quantity.US {
		t.Degree = " °F"
	}
	known := func(calculator string) (list []calculators.Written, err error) {
		values, err := sums.Values(s.Manual, calculator, map[string]string{"tank": tank.ID})
		if err != nil {
			return nil, err
		}
		c, _ := calculators.Named(calculator)
		for _, in := range c.Inputs {
			if v := values[in.Name]; v != "" {
				list = append(list, calculators.Written{Name: in.Name, Text: v})
			}
		}
		return list, nil
	}
	var err, err2 error
	t.Dilution, err = known("dilution")
	t.Heating, err2 = known("heat-up")
	for _, in := range t.Heating {
		if slices.Contains(ofHeater, in.Name) && tank.Heater.Set {
			t.Heater = append(t.Heater, in)
		}
	}
	return t, errors.Join(err, err2)
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
	return s.addParcelAs(s.parcelOf(askedNames), askedNames, []byte(n))
}

// askedFiles says for each language where the parcels are. It stands in the file that names the index: so no page changes with them.
func (s *site) askedFiles() ([]byte, error) {
	all := map[string]askedParcels{}
	for _, one := range s.all {
		all[one.language] = askedParcels{s.parcels[answersModule], s.parcels[one.parcelOf(askedNames)], s.parcels[one.parcelOf(admitTable)], s.parcels[one.parcelOf(sumsWords)]}
	}
	return json.Marshal(all)
}
