package asked

import (
	"strings"

	"tankside/builder/quantity"
)

// The places of what a sum is read from.
const (
	volume = iota
	strength
	heater
	start
	target
	places
)

// sums reads a dilution, a heating, or both.
func (r *reader) sums() {
	if !r.terms() {
		r.out = ""
		return
	}
	g := &r.given
	heats := g[target] != "" && (r.to || r.turn)
	if r.out != "" || (g[volume] == "") == (r.tank == nil) || !heats && (g[start] != "" || g[heater] != "" || g[strength] == "") {
		return // or something has to be said first
	}
	if heats {
		r.heating()
	}
	if g[strength] != "" {
		for _, bath := range r.baths(tankDilution) {
			for _, text := range r.both(g[strength]) {
				r.put(isSum, "", "dilution", bath, "strength", text)
			}
		}
	}
}

// baths gives the inputs for the bath: its volume, in each gallon that may be meant, or what is known of a tank.
func (r *reader) baths(known int) []string {
	if r.tank != nil {
		return r.tank[known : known+1]
	}
	list := r.both(r.given[volume])
	for i := range list {
		list[i] = "volume" + between + list[i]
	}
	return list
}

// heating asks from which temperature to which, with the heater that is given or else with that of each tank that holds as much.
func (r *reader) heating() {
	g := &r.given
	for _, at := range []int{start, target} {
		if c := g[at][len(g[at])-1]; c >= '0' && c <= '9' {
			if r.degree == "" {
				r.degree = r.scale
			}
			g[at] += r.degree
		}
	}
	if r.turn {
		g[start], g[target] = g[target], g[start]
	}
	how := "start" + between + g[start] + between + "target" + between + g[target]
	if g[heater] != "" {
		how += between + "heater" + between + g[heater]
	}
	for _, bath := range r.baths(tankHeating) {
		if g[heater] != "" || r.tank != nil {
			r.put(isSum, "", "heat-up", bath, how)
			continue
		}
		r.put(asks, "heater")
		for at := 0; at+tankParts <= len(r.names.tanks); at += tankParts {
			t := r.names.tanks[at : at+tankParts]
			if v, err := quantity.Parse(t[tankVolume], quantity.Volume); err == nil && t[tankHeater] != "" && r.room <= v.SI*1.000001 {
				r.put(isSum, t[tankTitle], "heat-up", t[tankHeater], bath, how)
			}
		}
	}
}

// terms takes a text apart. It is false where a word stands there that means something else.
func (r *reader) terms() bool {
	for words := r.words; len(words) > 0; {
		length := 0
		if c := words[0][0]; c >= '-' && c <= '9' {
			length = r.term(words)
		}
		if length < 0 {
			return r.out != ""
		}
		if length == 0 {
			var things string
			if things, length = r.names.longest(words); length == 0 {
				return false
			}
			second := r.given[start] != ""
			switch {
			case things != "":
				if things[0] != 't' || r.tank != nil {
					return false
				}
				r.tank = r.names.tank(things[1:])
				r.scale = r.tank[tankDegree]
			case strings.Contains(" from desde ", words[0]):
				r.turn = second
			case strings.Contains(" to a hasta ", words[0]):
				r.to = second
			}
		}
		words = words[length:]
	}
	return true
}

// term reads the longest amount at the beginning of some words and puts it into its place. It gives how many words it takes: none where there is no
// amount, less where the place is taken or something has to be said. A lone per cent sign is a [quantity.Fraction], and may be of three things.
func (r *reader) term(words []string) int {
	for length := min(len(words), 4); length > 0; length-- {
		text := strings.Join(words[:length], " ")
		v, err := quantity.Parse(text, quantity.Volume, quantity.VolumeFraction, quantity.MassFraction, quantity.MassConcentration, quantity.Fraction, quantity.Temperature, quantity.Power, quantity.Number)
		if err != nil {
			if r.refused(err); r.out != "" {
				return -1
			}
			continue
		}
		text = written(v)
		at := strength
		switch v.Kind {
		case quantity.Volume:
			at = volume
			if r.room = v.SI; v.Unit.System(quantity.SI) == quantity.US || v.Unit.Imperial() {
				r.scale = " °F"
			}
		case quantity.Fraction:
			text += " v/v" + between + text + " w/w" + between + text + " w/v"
		case quantity.Power:
			at = heater
		case quantity.Temperature, quantity.Number:
			if at = start; r.given[start] != "" {
				at = target
			}
			if v.Kind == quantity.Temperature {
				r.degree = " " + v.Unit.Symbol
			}
		}
		if r.given[at] != "" {
			return -1
		}
		r.given[at] = text
		return length
	}
	return 0
}
