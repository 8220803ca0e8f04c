package manual

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"tankside/builder/decide/fact"
	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/quantity"
	"tankside/themes/contrast"
)

// ShopFile is the name of the file that describes the shop.
const ShopFile = "shop.yaml"

// shopKeys are the keys of the shop file.
var shopKeys = []field[Shop]{
	text("name", "name of the shop", "Harbour Road Rebuild", 80, func(s *Shop) *string { return &s.Name }).must(),
	text("note", "a note that stands on every page", "Check every value against your own equipment.", 400, func(s *Shop) *string { return &s.Note }),
	webAddress(),
	text("language", "language of the manual, as a BCP 47 tag", "en", 20, func(s *Shop) *string { return &s.Language }),
	translations(),
	decimal("reading-grade", "highest grade of difficulty of an article in English, by Kincaid's formula", "9", func(s *Shop) *float64 { return &s.ReadingGrade }),
	units(),
	choice("theme", "how the pages look", []string{"tank-side", "desk"}, func(s *Shop) *string { return &s.Look.Theme }),
	choice("type", "letters of the text", []string{"sans", "serif"}, func(s *Shop) *string { return &s.Look.Type }),
	accent(),
	mark(),
	value("altitude", "height above the sea", "240 m", func(s *Shop) *Limit { return &s.Altitude }, quantity.Length),
	text("currency", "currency of prices", "EUR", 12, func(s *Shop) *string { return &s.Currency }),
	decimal("energy-price", "price of a kilowatt hour", "0.28", func(s *Shop) *float64 { return &s.EnergyPrice }),
	inside("air", "the air of the room", []field[Air]{
		value("temperature", "its temperature", "20 °C", func(a *Air) *Limit { return &a.Temperature }, quantity.Temperature),
		value("humidity", "its relative humidity", "50 %", func(a *Air) *Limit { return &a.Humidity }, quantity.Fraction),
	}, func(s *Shop) *Air { return &s.Air }),
	inside("water", "the water that tanks are filled with", []field[Water]{
		value("temperature", "its temperature at the tap", "12 °C", func(w *Water) *Limit { return &w.Temperature }, quantity.Temperature),
		value("hardness", "its hardness, as calcium carbonate", "260 mg/L", func(w *Water) *Limit { return &w.Hardness }, quantity.Hardness),
		value("dissolved-solids", "its dissolved solids", "410 mg/L", func(w *Water) *Limit { return &w.DissolvedSolids }, quantity.MassConcentration),
		value("conductivity", "its conductivity", "640 µS/cm", func(w *Water) *Limit { return &w.Conductivity }, quantity.Conductivity),
		value("ph", "its pH", "7.6", func(w *Water) *Limit { return &w.PH }, quantity.PH),
		value("alkalinity", "its alkalinity, as calcium carbonate", "220 mg/L", func(w *Water) *Limit { return &w.Alkalinity }, quantity.Alkalinity),
		restsOn(func(w *Water) *[]Rest { return &w.RestsOn }),
	}, func(s *Shop) *Water { return &s.Water }),
	each("tanks", "the tanks with ultrasonics, and jars, in the order in which they stand: what must never meet may not stand side by side", tankKeys, func(s *Shop) *[]Tank { return &s.Tanks }, func(t *Tank, at finding.Place) { t.At = at }),
	each("rinses", "the rinse tanks, in the order of the line", rinseKeys, func(s *Shop) *[]Rinse { return &s.Rinses }, func(r *Rinse, at finding.Place) { r.At = at }),
	inside("dryer", "the dryer", []field[Dryer]{
		id("dryer", func(d *Dryer) *string { return &d.ID }).must(),
		text("name", "its name on the line", "Dryer", 80, func(d *Dryer) *string { return &d.Name }).must(),
		value("temperature", "its temperature", "80 °C", func(d *Dryer) *Limit { return &d.Temperature }, quantity.Temperature),
		text("kind", "how it dries", "recirculated hot air", 120, func(d *Dryer) *string { return &d.Means }),
		restsOn(func(d *Dryer) *[]Rest { return &d.RestsOn }),
	}, func(s *Shop) *Dryer { return &s.Dryer }),
	names("seen-most", "symptoms in the order of the first page, the commonest first; the others follow by their words", "[spotty-parts, flash-rust]", aSymptom, func(s *Shop) *[]Ref { return &s.SeenMost }),
	inside("records", "how the records of the baths are charted", []field[Charting]{baseline()}, func(s *Shop) *Charting { return &s.Records }),
	choice("drafts", "what becomes of drafts: nobody gets them, or every page and sheet of one says that it is a draft", []string{LeaveOut, Stamp}, func(s *Shop) *string { return &s.Drafts }),
	texts("roles", "the roles that people have", "[operator, trainer, process engineer]", func(s *Shop) *[]string { return &s.Roles }),
}

var tankKeys = []field[Tank]{
	id("wash-1", func(t *Tank) *string { return &t.ID }).must(),
	text("name", "its name on the line", "Wash 1", 80, func(t *Tank) *string { return &t.Name }).must(),
	value("volume", "filled to the mark", "120 L", func(t *Tank) *Limit { return &t.Volume }, quantity.Volume).must(),
	value("length", "inside", "600 mm", func(t *Tank) *Limit { return &t.Length }, quantity.Length),
	value("width", "inside", "450 mm", func(t *Tank) *Limit { return &t.Width }, quantity.Length),
	value("depth", "of the liquid", "445 mm", func(t *Tank) *Limit { return &t.Depth }, quantity.Length),
	value("freeboard", "height from the mark to the rim", "80 mm", func(t *Tank) *Limit { return &t.Freeboard }, quantity.Length),
	value("heater", "power of the heater; left out where it has none", "6 kW", func(t *Tank) *Limit { return &t.Heater }, quantity.Power),
	orNone("ultrasonic-power", "power", "electrical power of the ultrasonics; none where it has none, otherwise it is taken to have some", "1.2 kW", func(t *Tank) *Limit { return &t.Power }, quantity.Power),
	value("duty", "share of the time that the ultrasonics run; all of it without this key", "40 %", func(t *Tank) *Limit { return &t.Duty }, quantity.Fraction),
	value("cooling", "power of a cooling coil", "500 W", func(t *Tank) *Limit { return &t.Cooling }, quantity.Power),
	limit("frequency", "frequency of the ultrasonics", "40 kHz", func(t *Tank) *Limit { return &t.Frequency }, quantity.Frequency),
	yesNo("lid", "whether it has a lid that is kept on while heating", func(t *Tank) *bool { return &t.Lid }),
	orNone("insulation", "thickness", "insulation of the walls", "25 mm", func(t *Tank) *Limit { return &t.Insulation }, quantity.Length),
	choice("vessel", "what it is: a tank, or a covered jar for dipping without heat and sound", []string{"tank", fact.Jar}, func(t *Tank) *string { return &t.Vessel }),
	name("chemistry", "what is in it today", "mild-alkaline", aChemistry, func(t *Tank) *Ref { return &t.Chemistry }),
	limit("strength", "strength of the bath today", "4 % v/v", func(t *Tank) *Limit { return &t.Strength }, strengthKinds...),
	limit("temperature", "set-point today", "62 °C", func(t *Tank) *Limit { return &t.Temperature }, quantity.Temperature),
	yesNo("ventilated", "whether its vapour is drawn off, or the room aired", func(t *Tank) *bool { return &t.Ventilated }),
	limit("drag-out", "what parts and basket carry from it into the first rinse, while parts run", "1.2 L/h", func(t *Tank) *Limit { return &t.DragOut }, quantity.Flow),
	yesNo("flammables", "whether it is built and approved for flammable liquids", func(t *Tank) *bool { return &t.Flammables }),
	restsOn(func(t *Tank) *[]Rest { return &t.RestsOn }),
}

var rinseKeys = []field[Rinse]{
	id("rinse-1", func(r *Rinse) *string { return &r.ID }).must(),
	text("name", "its name on the line", "Rinse", 80, func(r *Rinse) *string { return &r.Name }).must(),
	value("volume", "of one stage", "90 L", func(r *Rinse) *Limit { return &r.Volume }, quantity.Volume),
	text("water", "which water", "mains", 40, func(r *Rinse) *string { return &r.Water }),
	value("ph", "pH of its own water, where the shop's water does not say it", "7.2", func(r *Rinse) *Limit { return &r.PH }, quantity.PH),
	value("alkalinity", "alkalinity of its own water, as calcium carbonate", "180 mg/L", func(r *Rinse) *Limit { return &r.Alkalinity }, quantity.Alkalinity),
	name("fed-by", "rinse whose overflow runs into it", "rinse-2", aRinse, func(r *Rinse) *Ref { return &r.FedBy }),
	whole("stages", "number of stages in counterflow", "2", func(r *Rinse) *int { return &r.Stages }),
	value("flow", "of fresh water", "4 L/min", func(r *Rinse) *Limit { return &r.Flow }, quantity.Flow),
	value("temperature", "its temperature", "40 °C", func(r *Rinse) *Limit { return &r.Temperature }, quantity.Temperature),
	value("conductivity", "of the last stage, parts running", "680 µS/cm", func(r *Rinse) *Limit { return &r.Conductivity }, quantity.Conductivity),
	restsOn(func(r *Rinse) *[]Rest { return &r.RestsOn }),
}

// choice is one of a few words.
func choice[T any](name, means string, of []string, to func(*T) *string) field[T] {
	key := Key{Name: name, Form: strings.Join(of, " or "), Example: of[0], Means: means, Words: of}
	return field[T]{key, func(d *decoder, into *T, n *yaml.Node) {
		text, ok := d.scalar(n, key)
		if !ok {
			return
		}
		if !slices.Contains(of, text) {
			d.report(ruleUnknownWord, d.at(n), "“"+name+"” takes "+key.Form+", not “"+clip(text, 40)+"”.", "Write "+name+": "+of[0])
			return
		}
		*to(into) = text
	}}
}

// translations is the list of languages into which the articles are to be translated.
func translations() field[Shop] {
	key := Key{Name: "translations", Form: "list of BCP 47 tags", Example: "[es]", Means: "languages that every article is to be translated into"}
	return field[Shop]{key, func(d *decoder, s *Shop, n *yaml.Node) { s.Translations = append(s.Translations, d.texts(n, key)...) }}
}

// accent is the shop's own colour.
func accent() field[Shop] {
	key := Key{Name: "accent", Form: "colour as # and six digits, in quotation marks", Example: `"#0b5c7a"`, Means: "the shop's own colour, for the current station and under links"}
	return field[Shop]{key, func(d *decoder, s *Shop, n *yaml.Node) {
		text, ok := d.scalar(n, key)
		if !ok {
			return
		}
		c, err := contrast.Parse(text)
		if err != nil {
			d.report(ruleWrongValue, d.at(n), "“"+clip(text, 40)+"” is no colour.", "Write for example: accent: "+key.Example)
			return
		}
		s.Look.Accent, s.Look.AccentAt = c.String(), d.at(n)
	}}
}

// mark is the shop's own mark.
func mark() field[Shop] {
	key := Key{Name: "mark", Form: "path of a drawing", Example: "pictures/mark.svg", Means: "the shop's own mark, an SVG drawing of the manual"}
	return field[Shop]{key, func(d *decoder, s *Shop, n *yaml.Node) {
		if text, ok := d.scalar(n, key); ok {
			s.Look.Mark, s.Look.MarkAt = text, d.at(n)
		}
	}}
}

// units is the family of units that stands first.
func units() field[Shop] {
	key := Key{Name: "units", Form: "SI or US", Example: "SI", Means: "which units stand first", Words: []string{"SI", "US"}}
	return field[Shop]{key, func(d *decoder, s *Shop, n *yaml.Node) {
		text, ok := d.scalar(n, key)
		if !ok {
			return
		}
		system, known := quantity.SystemNamed(text)
		if !known {
			d.report(ruleUnknownWord, d.at(n), "“units” takes SI or US, not “"+clip(text, 40)+"”.", "Write units: SI, or units: US")
			return
		}
		s.US = system == quantity.US
	}}
}

// orNone is an amount, or none: then it is set, and zero.
func orNone[T any](name, form, means, example string, to func(*T) *Limit, kind quantity.Kind) field[T] {
	key := Key{Name: name, Form: form + ", or none", Example: example, Means: means, Words: []string{"none"}, Amounts: []quantity.Kind{kind}}
	return field[T]{key, func(d *decoder, into *T, n *yaml.Node) {
		if n.Kind == yaml.ScalarNode && n.Value == "none" {
			*to(into) = Limit{Range: quantity.Range{Kind: kind}, At: d.at(n), Set: true}
			return
		}
		if l, ok := d.limit(n, key, []quantity.Kind{kind}); ok {
			*to(into) = l
		}
	}}
}

// decimal is a number, not below 0.
func decimal[T any](name, means, example string, to func(*T) *float64) field[T] {
	key := Key{Name: name, Form: "number", Example: example, Means: means}
	return field[T]{key, func(d *decoder, into *T, n *yaml.Node) {
		text, ok := d.scalar(n, key)
		if !ok {
			return
		}
		number, err := strconv.ParseFloat(text, 64)
		if err != nil || !(number >= 0 && number <= 1e9) {
			d.report(ruleWrongValue, d.at(n), "“"+clip(text, 40)+"” of “"+name+"” is no number from 0.", "Write for example: "+name+": "+example)
			return
		}
		*to(into) = number
	}}
}

// readShop reads the shop file.
func readShop(d *decoder, data []byte) (Shop, bool) {
	var s Shop
	mapping := d.mapping(data, "shop file")
	if mapping == nil {
		return s, false
	}
	s.At = make(map[string]finding.Place, len(mapping.Content)/2)
	decode(d, &s, mapping, shopKeys, "shop file", func(key string, at finding.Place) { s.At[key] = at })
	d.price(&s)
	if n := len(s.Tanks); n > maxTanks {
		d.report(ruleTooLarge, s.Tanks[maxTanks].At, fmt.Sprintf("The shop has %d tanks; %d are read.", n, maxTanks), "See whether the file is the shop's; each tank has pages of its own.")
		s.Tanks = s.Tanks[:maxTanks]
	}
	if n := len(s.Rinses); n > maxTanks {
		d.report(ruleTooLarge, s.Rinses[maxTanks].At, fmt.Sprintf("The shop has %d rinses; %d are read.", n, maxTanks), "See whether the file is the shop's.")
		s.Rinses = s.Rinses[:maxTanks]
	}
	ids := make(map[string]finding.Place)
	once := func(id string, at finding.Place) {
		if first, twice := ids[fold(id)]; twice && id != "" {
			d.report(ruleDuplicateKey, at, "The id “"+clip(id, 40)+"” is given to two places of the line; capitals do not count.", "Give each tank, rinse and dryer an id of its own.", first)
			return
		}
		ids[fold(id)] = at
	}
	for _, t := range s.Tanks {
		once(t.ID, t.At)
	}
	for i := range s.Rinses {
		r := &s.Rinses[i]
		once(r.ID, r.At)
		if s.circle(r) {
			d.report(ruleWrongValue, r.FedBy.At, "The overflow of “"+clip(r.FedBy.Name, 40)+"” comes back to where it is from.", "Say of one rinse of the circle which water of its own it has, and take its “fed-by” away.")
			r.FedBy = Ref{}
		}
	}
	return s, true
}

// circle tells whether the overflow that feeds a rinse comes from itself.
func (s *Shop) circle(r *Rinse) bool {
	from := r
	for range s.Rinses {
		if from = s.RinseTank(from.FedBy.Name); from == nil || from == r {
			return from == r
		}
	}
	return false
}

// id is the short name of a tank, a rinse or a dryer. A tank's is also the name of its page, so that every computer has to be able to store it
// and every link to name it.
func id[T any](example string, to func(*T) *string) field[T] {
	key := Key{Name: "id", Form: "letters, digits and hyphens, at most 40 characters", Example: example, Means: "its short name in headers"}
	return field[T]{key, func(d *decoder, into *T, n *yaml.Node) {
		value, ok := d.scalar(n, key)
		if !ok {
			return
		}
		switch {
		case tooLong(value, 40):
			d.report(ruleWrongValue, d.at(n), "“id” has more than 40 characters.", "Write for example: id: "+example)
		case !idName.MatchString(value) || reserved.MatchString(value) || strings.EqualFold(value, pageOfKind):
			d.report(ruleUnusableName, d.at(n), "The id “"+clip(value, 40)+"” cannot be the name of a page on every computer.",
				"Use letters, digits, hyphens and underscores, a letter or digit first, and no name that Windows keeps for a device: id: "+example)
		}
		*to(into) = value
	}}
}

// idName is what an id may be: what files of every system and addresses of pages hold as they are written.
var idName = expression.Of(`^[\p{L}\p{N}][\p{L}\p{M}\p{N}_-]*$`)

// maxTanks is how many tanks, and how many rinses, a shop may have.
const maxTanks = 100

// maxPrice is the highest price of a kilowatt hour that the calculators take.
const maxPrice = 1000

// price sees to it that the calculators can reckon with the price of energy.
func (d *decoder) price(s *Shop) {
	if s.EnergyPrice == 0 {
		return
	}
	if s.EnergyPrice > maxPrice {
		d.report(ruleWrongValue, s.At["energy-price"], fmt.Sprintf("The energy price is %g; the calculators take at most %d for a kilowatt hour.", s.EnergyPrice, maxPrice), "Write the price of one kilowatt hour, in whole coins of the currency: energy-price: 0.28")
	}
	if _, known := quantity.UnitNamed(s.Currency+"/kWh", quantity.EnergyPrice); !known {
		d.report(ruleUnknownWord, s.At["currency"], "“"+clip(s.Currency, 12)+"” is no currency that the calculators reckon in, so they could not use the energy price.",
			"Write one of "+strings.Join(currencies(), ", ")+"; or take currency out, and the price is shown without it.")
	}
}

// currencies are those that the calculators reckon in, by their codes (ISO 4217).
func currencies() []string {
	var list []string
	for _, u := range quantity.Symbols(quantity.Money) {
		if u != "" {
			list = append(list, u)
		}
	}
	return list
}

// ShopKeys are the keys of the shop file.
func ShopKeys() []Key { return keysOf(shopKeys) }

// Tank gives the tank with that id, or nil.
func (s *Shop) Tank(id string) *Tank {
	for i := range s.Tanks {
		if s.Tanks[i].ID == id {
			return &s.Tanks[i]
		}
	}
	return nil
}

// RinseTank gives the rinse with that id, or nil.
func (s *Shop) RinseTank(id string) *Rinse {
	for i := range s.Rinses {
		if s.Rinses[i].ID == id {
			return &s.Rinses[i]
		}
	}
	return nil
}

// System is the family of units that stands first.
func (s *Shop) System() quantity.System {
	if s.US {
		return quantity.US
	}
	return quantity.SI
}
