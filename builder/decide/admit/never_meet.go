package admit

import (
	"cmp"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/calculators/safety"
)

// NeverMeet keeps apart what gives off gas or heat when it meets: acids and bleach, cyanide, sulfide, nitrite; nitrite and amines;
// ammonia and bleach; alcohols and ketones and bleach; ketones and peroxide; and what an article names under never-with.
// Limit: the never-with of the articles, from the safety data sheets; the pairs below from memory of safety handbooks.
var NeverMeet = finding.Rule{
	Name: "never-meet", Severity: finding.People,
	Finds:  "two chemistries that must never meet, in neighbouring washes, neighbouring tanks or one procedure",
	Why:    "Carried over on a basket or poured together they give off poisonous gas or heat; some of these gases kill.",
	Source: "never-with of the chemistries, from their safety data sheets; acid with bleach, cyanide, sulfide and nitrite, nitrite with amine, ammonia with bleach, alcohols and ketones with bleach, ketones with peroxide from memory, to be confirmed by the safety officer",
}

// enemies are pairs that must never meet whatever the articles say.
var enemies = []struct {
	a, b string
	what Sentence
}{
	{"acid", "hypochlorite", Say("acid sets chlorine free from bleach")},
	{"acid", "cyanide", Say("acid sets hydrogen cyanide free, which kills in minutes")},
	{"acid", "sulfide", Say("acid sets hydrogen sulfide free, which kills before it is noticed")},
	{"acid", "nitrite", Say("acid sets nitrous fumes free from nitrite")},
	{"nitrite", "amine", Say("nitrite and amines make nitrosamines, which cause cancer in animals and are suspected to in people")},
	{"ammonia", "hypochlorite", Say("ammonia and bleach make chloramines")},
	{"amine", "hypochlorite", Say("amines and bleach make chloramines")},
	{"peroxide", "hypochlorite", Say("peroxide and bleach give off oxygen and heat")},
	{"alcohol", "hypochlorite", Say("bleach makes chloroform and heat from alcohols and ketones")},
	{"ketone", "hypochlorite", Say("bleach makes chloroform and heat from alcohols and ketones")},
	{"ketone", "peroxide", Say("peroxide and ketones make peroxides that explode when they dry")},
}

// Enmity tells why two chemistries must never meet: a clause, and the two facts. The clause is empty when they may.
func Enmity(a, b *Chemistry) (why Sentence, at, also finding.Place) {
	for _, e := range enemies {
		for _, pair := range [][2]*Chemistry{{a, b}, {b, a}} {
			if at, is := carries(pair[0], e.a); is {
				if also, is := carries(pair[1], e.b); is {
					return e.what, at, also
				}
			}
		}
	}
	for _, pair := range [][2]*Chemistry{{a, b}, {b, a}} {
		for _, content := range pair[0].Contains {
			if what, is := setFree(content, pair[1]); is {
				return what, content.At, cmp.Or(pair[1].PH.At, pair[1].first())
			}
		}
		for _, never := range pair[0].NeverWith {
			if never.Name == pair[1].Name {
				return Say("{chemistry} must never meet {chemistry}", titled(pair[0]), titled(pair[1])), never.At, pair[1].first()
			}
			if also, is := carries(pair[1], never.Is()); is {
				return Say("{chemistry} must never meet {constituent}", titled(pair[0]), spoken(never)), never.At, also
			}
		}
	}
	return Sentence{}, finding.Place{}, finding.Place{}
}

// setFree tells whether a chemistry sets free the gas that something holds: one need be no acid for that. What is known to be kept above pH 10 is
// left alone. It is asked of baths, which hold grams to the litre: the traces that a soil may carry wait for the safety officer in any case, and only
// an acid is kept from them.
func setFree(content fact.Ref, c *Chemistry) (Sentence, bool) {
	if c.PH.Set && c.PH.Low >= safety.KeepsGas {
		return Sentence{}, false
	}
	switch content.Is() {
	case "cyanide":
		return Say("below pH 10 hydrogen cyanide comes off, which kills in minutes"), true
	case "sulfide":
		return Say("below pH 10 hydrogen sulfide comes off, which kills before it is noticed"), true
	}
	return Sentence{}, false
}

// carries tells whether a chemistry is, or has in it, what a word of never-with means, and where it says so.
func carries(c *Chemistry, word string) (finding.Place, bool) {
	if r, has := fact.One(c.Contains, word); has {
		return r.At, true
	}
	switch {
	case word == "acid" && Acid(c), word == "alkali" && Alkali(c):
		return c.PH.At, true
	}
	return finding.Place{}, false
}

// meetsContent tells what happens when something that a soil may contain comes into a chemistry, and which fact of the chemistry says so.
func meetsContent(content fact.Ref, c *Chemistry) (what Sentence, at finding.Place, is bool) {
	for _, e := range enemies {
		other := ""
		switch content.Is() {
		case e.a:
			other = e.b
		case e.b:
			other = e.a
		default:
			continue
		}
		if at, is := carries(c, other); is {
			return e.what, at, true
		}
	}
	if never, has := fact.One(c.NeverWith, content.Is()); has {
		return Say("{chemistry} must never meet {constituent}", titled(c), spoken(never)), never.At, true
	}
	return Sentence{}, finding.Place{}, false
}

// Enemies are the pairs of constituents that must never meet whatever the articles say.
func Enemies() [][2]string {
	list := make([][2]string, len(enemies))
	for i, e := range enemies {
		list[i] = [2]string{e.a, e.b}
	}
	return list
}
