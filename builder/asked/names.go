package asked

import "strings"

// Names are what a question may name. [Gather] makes them, packed, when an edition is published; [Unpack] reads them in the page, where there is little
// room for code: so all that can be worked out before stands in the text.
//
//	\n NAME \x1f THINGS \n…         a folded name, and what it may mean, parted by blanks; nothing for a word that carries no meaning
//	\x1e TANK \x1e TITLE \x1e VOLUME \x1e DEGREE \x1e DILUTION \x1e HEATING \x1e HEATER     a tank, with inputs of sums that are known of it, name and text in turns
//
// A thing is a letter, m for a material, s for a soil, t for a tank, c for a chemistry, and the name that package admit knows it by. THINGS begins with
// ~ where the name is not a thing's own. DEGREE is the unit of a temperature that names none.
// HEATER is what is known but for volume and temperatures.
type Names struct {
	dictionary string
	tanks      []string // the parts of all tanks, one after another
}

// What stands between the fields of a packed text, and between its parts. Nobody types them.
const (
	between = "\x1f"
	part    = "\x1e"
)

// The places of the parts of a tank.
const (
	tankName = iota
	tankTitle
	tankVolume
	tankDegree
	tankDilution
	tankHeating
	tankHeater
	tankParts
)

// Unpack reads what Gather wrote. What is none has no names.
func Unpack(packed string) *Names {
	parts := strings.Split(packed, part)
	return &Names{parts[0], parts[1:]}
}

// tank gives the parts of a tank; of one that is not there nothing stands in them.
func (n *Names) tank(name string) []string {
	for at := 0; at+tankParts <= len(n.tanks); at += tankParts {
		if n.tanks[at] == name {
			return n.tanks[at : at+tankParts]
		}
	}
	return make([]string, tankParts)
}

// mostWords is how many words a name has at most.
const mostWords = 6

// longest gives what the longest name at the beginning of some words may mean, and how many words it takes: none where the first means something else.
// Words that carry no meaning mean nothing.
func (n *Names) longest(words []string) (things string, length int) {
	for length = min(len(words), mostWords); length > 0; length-- {
		name := fold(strings.Join(words[:length], " "))
		if _, rest, known := strings.Cut(n.dictionary, "\n"+name+between); known || name == "" {
			things, _, _ = strings.Cut(rest, "\n")
			break
		}
	}
	return things, length
}
