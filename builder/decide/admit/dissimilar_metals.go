package admit

import (
	"tankside/builder/decide/fact"
	"tankside/builder/finding"
)

// DissimilarMetals keeps two metals apart that make a couple in a bath, which is a conductor: the one dissolves, and is plated on the other.
// Limit: handbooks of water treatment and corrosion (dissolved copper of about 20 ppb pits aluminium); magnesium goes with no other metal
// (military practice for cleaning magnesium, TM 55-1520-240-23-1, from memory); cadmium is toxic waste and is not cleaned in a shared bath.
var DissimilarMetals = finding.Rule{
	Name: "dissimilar-metals", Severity: finding.Parts,
	Finds:  "two metals in one bath that make a couple there: aluminium, zinc or magnesium with copper alloys, zinc or magnesium with steel, anything with magnesium or cadmium",
	Why:    "In a bath the two make a cell: the lesser metal is eaten, and copper is plated on it and goes on pitting.",
	Source: "handbooks of water treatment and corrosion (about 20 ppb of copper pits aluminium); magnesium and cadmium from memory, to be confirmed by the safety officer",
}

var (
	copperAlloys = []string{"copper", "brass", "bronze", "beryllium-copper"}
	steels       = []string{"carbon-steel", "high-strength-steel", "cast-iron", "stainless-steel"}
	otherMetals  = []string{"aluminium", "zinc", "tin", "lead", "silver", "gold", "nickel", "chromium", "titanium"}
)

// couples lists which substance must not meet which others in one bath, and what happens.
var couples = []struct {
	a    string
	b    [][]string
	what Sentence
}{
	{"magnesium", [][]string{copperAlloys, steels, otherMetals}, Say("magnesium is eaten beside every other metal")},
	{"cadmium", [][]string{copperAlloys, steels, otherMetals}, Say("dissolved cadmium is toxic and goes on to every part in a shared bath")},
	{"aluminium", [][]string{copperAlloys}, Say("dissolved copper is plated on aluminium and pits it")},
	{"zinc", [][]string{copperAlloys, steels}, Say("zinc is eaten beside copper alloys and steel")},
}

// Couple tells why two materials must not share a bath: a clause, and the two facts. The clause is empty when they may.
// A material that is itself made of both, such as a plated one, is not asked about itself.
func Couple(a, b *Material) (why Sentence, at, also fact.Ref) {
	for _, c := range couples {
		for _, pair := range [][2]*Material{{a, b}, {b, a}} {
			first, has := fact.One(pair[0].MadeOf, c.a)
			if !has {
				continue
			}
			for _, others := range c.b {
				if other, has := fact.One(pair[1].MadeOf, others...); has && other.Is() != c.a {
					if _, both := fact.One(pair[1].MadeOf, c.a); both {
						continue
					}
					return c.what, first, other
				}
			}
		}
	}
	return Sentence{}, fact.Ref{}, fact.Ref{}
}
