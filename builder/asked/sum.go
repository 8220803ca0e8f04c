package asked

import (
	"strings"

	"tankside/builder/quantity"
	"tankside/calculators"
)

// What a sum is read from. A lone per cent sign is a [quantity.Fraction].
var summed = []quantity.Kind{
	quantity.Volume, quantity.VolumeFraction, quantity.MassFraction, quantity.MassConcentration, quantity.Fraction, quantity.Temperature, quantity.Power,
}

// terms are the amounts of a sum, in the order in which they stand.
type terms struct {
	volumes, strengths, heaters []quantity.Value
	degrees                     []quantity.Value // a plain number where none are said
	to                          bool             // a word or a dash between two of them
	from                        int              // which of degrees "from" stands before; -1 for none
	tank                        *Thing
	says                        string // what has to be said before an amount can be read
}

// sums reads a sum: a dilution, a heating, or both.
func (n *Names) sums(text string) []Question {
	t, ok := n.terms(text)
	if !ok {
		return nil
	}
	if t.says != "" {
		return []Question{{Says: []string{t.says}}}
	}
	bath := len(t.volumes)
	if t.tank != nil {
		bath++
	}
	heats := len(t.degrees) == 2 && t.to
	if bath != 1 || len(t.strengths) > 1 || len(t.heaters) > 1 || len(t.degrees) > 0 && !heats || len(t.heaters) > 0 && !heats {
		return nil
	}
	var list []Question
	if heats {
		q, ok := n.heating(t)
		if !ok {
			return nil
		}
		list = append(list, q)
	}
	if len(t.strengths) == 1 {
		list = append(list, n.dilution(t))
	}
	return list
}

// terms takes a text apart. It is false where a word stands there that means something else.
func (n *Names) terms(text string) (t terms, ok bool) {
	t.from = -1
	for text != "" {
		text = strings.TrimLeft(text, " ,;:\u00a0\u202f?")
		if text == "" {
			break
		}
		if at, length := n.tankAt(text); at != nil {
			if t.tank != nil {
				return t, false
			}
			t.tank, text = at, text[length:]
			continue
		}
		if dash, found := cutDash(text); found {
			t.to, text = t.to || len(t.degrees) == 1, dash
			continue
		}
		if c := text[0]; c >= '0' && c <= '9' || c == '-' || strings.HasPrefix(text, "−") {
			v, length, err := quantity.Begin(text, summed...)
			if err != nil {
				if e := err.(*quantity.Error); e.Asks() {
					t.says = e.In(n.Words)
					return t, true
				}
				return t, false
			}
			t.take(v)
			text = text[length:]
			continue
		}
		word, rest := text, ""
		if end := strings.IndexAny(text, " ,;:?"); end >= 0 {
			word, rest = text[:end], text[end:]
		}
		word = fold(word)
		switch {
		case strings.Contains(turns, " "+word+" "):
			if word == "from" || word == "desde" {
				t.from = len(t.degrees)
			} else {
				t.to = t.to || len(t.degrees) == 1 || t.from == 1
			}
		case word != "" && !isSmall(word):
			return t, false
		}
		text = rest
	}
	return t, true
}

// cutDash takes off what stands between the ends of a heating.
func cutDash(text string) (rest string, found bool) {
	for _, dash := range []string{"–", "—", "->", "→", "- "} {
		if rest, found = strings.CutPrefix(text, dash); found {
			return rest, true
		}
	}
	if len(text) > 1 && text[0] == '-' && text[1] >= '0' && text[1] <= '9' { // 12-62: no temperature below nought is meant behind a number
		return text[1:], true
	}
	return text, false
}

// tankAt gives the tank whose name stands at the beginning of a text, the longest, and how many bytes it takes.
func (n *Names) tankAt(text string) (tank *Thing, length int) {
	for i := range n.Things {
		t := &n.Things[i]
		if t.Sort != Tank {
			continue
		}
		for _, name := range []string{t.Title, t.Name} {
			if len(name) > length && len(text) >= len(name) && strings.EqualFold(text[:len(name)], name) && (len(text) == len(name) || strings.ContainsRune(" ,;:?", rune(text[len(name)]))) {
				tank, length = t, len(name)
			}
		}
	}
	return tank, length
}

func (t *terms) take(v quantity.Value) {
	switch v.Kind {
	case quantity.Volume:
		t.volumes = append(t.volumes, v)
	case quantity.Power:
		t.heaters = append(t.heaters, v)
	case quantity.Temperature, quantity.Number:
		t.degrees = append(t.degrees, v)
	default:
		t.strengths = append(t.strengths, v)
	}
}

// written is an amount as a field of a page takes it, with common blanks.
func written(v quantity.Value) string { return strings.ReplaceAll(v.String(), "\u00a0", " ") }

// dilution asks in each measure that a lone per cent may be of, and for each gallon that the volume may be in.
func (n *Names) dilution(t terms) (q Question) {
	strengths := []string{}
	switch s := t.strengths[0]; s.Kind {
	case quantity.Fraction:
		q.ask(n.Words.Say("Per cent of what? Write % v/v, by volume; % w/w, by mass; or % w/v, kilograms in 100 litres. The label or data sheet of the concentrate says which."))
		for _, measure := range []string{" v/v", " w/w", " w/v"} {
			strengths = append(strengths, written(s)+measure)
		}
	default:
		for _, one := range n.gallons(&q, s) {
			strengths = append(strengths, written(one))
		}
	}
	for _, bath := range n.baths(&q, t, "dilution") {
		for _, strength := range strengths {
			q.Readings = append(q.Readings, Reading{Calculator: "dilution", Inputs: with(bath, "strength", strength)})
		}
	}
	return q
}

// baths gives the inputs for the bath: a volume, in each gallon that may be meant, or what is known of a tank.
func (n *Names) baths(q *Question, t terms, calculator string) (list [][]calculators.Written) {
	if t.tank != nil {
		return [][]calculators.Written{t.tank.known(calculator)}
	}
	for _, v := range n.gallons(q, t.volumes[0]) {
		list = append(list, []calculators.Written{{Name: "volume", Text: written(v)}})
	}
	return list
}

// with puts an input in the place of the one of its name.
func with(inputs []calculators.Written, name, text string) []calculators.Written {
	list := make([]calculators.Written, 0, len(inputs)+1)
	for _, in := range inputs {
		if in.Name != name {
			list = append(list, in)
		}
	}
	return append(list, calculators.Written{Name: name, Text: text})
}

// heating asks from which temperature to which, with the heater that is given or else with that of each tank that holds as much.
func (n *Names) heating(t terms) (q Question, ok bool) {
	start, target := t.degrees[0], t.degrees[1]
	if t.from == 1 {
		start, target = target, start
	}
	unit := n.scale(t)
	for _, v := range []*quantity.Value{&start, &target} {
		if v.Kind == quantity.Number {
			v.SI, v.Kind, v.Unit = unit.ToSI(v.SI), quantity.Temperature, unit
		}
	}
	if start.Unit.Symbol == "K" || target.Unit.Symbol == "K" || target.SI <= start.SI {
		return q, false
	}
	for _, bath := range n.baths(&q, t, "heat-up") {
		bath = with(with(bath, "start", written(start)), "target", written(target))
		switch {
		case len(t.heaters) == 1:
			q.Readings = append(q.Readings, Reading{Calculator: "heat-up", Inputs: with(bath, "heater", written(t.heaters[0]))})
		case t.tank != nil:
			q.Readings = append(q.Readings, Reading{Calculator: "heat-up", Inputs: bath})
		default:
			q.Readings = append(q.Readings, n.heaters(bath)...)
		}
	}
	if t.tank == nil && len(t.heaters) == 0 {
		q.ask(n.Words.Say("How strong is the heater? Write its power behind it, such as 6 kW."))
	}
	return q, true
}

// scale is the unit of degrees of which nobody says which they are: that which the other end is written in, or that of the family of the volume's unit.
func (n *Names) scale(t terms) quantity.Unit {
	for _, v := range t.degrees {
		if v.Kind == quantity.Temperature {
			return v.Unit
		}
	}
	symbol := "°C"
	if v := t.volume(); v.Unit.System(quantity.SI) == quantity.US || v.Unit.Imperial() {
		symbol = "°F"
	}
	u, _ := quantity.UnitNamed(symbol, quantity.Temperature)
	return u
}

// volume of the bath, as it is written.
func (t *terms) volume() quantity.Value {
	if t.tank == nil {
		return t.volumes[0]
	}
	for _, in := range t.tank.known("heat-up") {
		if in.Name == "volume" {
			v, err := quantity.Parse(in.Text, quantity.Volume)
			if err == nil {
				return v
			}
		}
	}
	return quantity.Value{}
}

// heaters asks with the heater, lid and insulation of each tank that holds as much as the bath.
func (n *Names) heaters(bath []calculators.Written) (list []Reading) {
	asked := volumeOf(bath)
	for i := range n.Things {
		known := n.Things[i].known("heat-up")
		if known == nil || asked > volumeOf(known)*(1+1e-6) {
			continue
		}
		inputs := bath
		for _, in := range known {
			switch in.Name {
			case "heater", "lid", "insulation", "air", "humidity", "altitude", "ceiling", "flash-point":
				inputs = with(inputs, in.Name, in.Text)
			}
		}
		list = append(list, Reading{Calculator: "heat-up", Inputs: inputs, Like: n.Things[i].Title})
	}
	return list
}

func volumeOf(inputs []calculators.Written) float64 {
	for _, in := range inputs {
		if in.Name == "volume" {
			if v, err := quantity.Parse(in.Text, quantity.Volume); err == nil {
				return v.SI
			}
		}
	}
	return 0
}
