package relate

import (
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// NeverMeet keeps apart what gives off gas or heat when it meets: acids and bleach, cyanide, sulfide, nitrite; nitrite and amines;
// ammonia and bleach; and what an article names under never-with.
// Limit: the never-with of the articles, from the safety data sheets; the pairs below from memory of safety handbooks.
var NeverMeet = finding.Rule{
	Name: "never-meet", Severity: finding.People,
	Finds:  "two chemistries that must never meet, in neighbouring washes, neighbouring tanks or one procedure",
	Why:    "Carried over on a basket or poured together they give off poisonous gas or heat; some of these gases kill.",
	Source: "never-with of the chemistries, from their safety data sheets; acid with bleach, cyanide, sulfide and nitrite, nitrite with amine, ammonia with bleach from memory",
}

// enemies are pairs that must never meet whatever the articles say.
var enemies = []struct{ a, b, what string }{
	{"acid", "hypochlorite", "acid sets chlorine free from bleach"},
	{"acid", "cyanide", "acid sets hydrogen cyanide free"},
	{"acid", "sulfide", "acid sets hydrogen sulfide free"},
	{"acid", "nitrite", "acid sets nitrous fumes free from nitrite"},
	{"nitrite", "amine", "nitrite and amines make nitrosamines, which cause cancer"},
	{"ammonia", "hypochlorite", "ammonia and bleach make chloramines"},
}

// Enmity tells why two chemistries must never meet: a clause, and the two facts. It is "" when they may.
func Enmity(a, b *manual.Article) (why string, at, also finding.Place) {
	for _, e := range enemies {
		for _, pair := range [][2]*manual.Article{{a, b}, {b, a}} {
			if at, is := carries(pair[0], e.a); is {
				if also, is := carries(pair[1], e.b); is {
					return e.what, at, also
				}
			}
		}
	}
	for _, pair := range [][2]*manual.Article{{a, b}, {b, a}} {
		for _, never := range pair[0].Chemistry.NeverWith {
			if never.Name == pair[1].Name {
				return pair[0].Head.Title + " must never meet " + pair[1].Head.Title, never.At, finding.Place{File: pair[1].Path, Line: 1, Column: 1}
			}
			if also, is := carries(pair[1], never.Name); is {
				return pair[0].Head.Title + " must never meet " + strings.ReplaceAll(never.Name, "-", " "), never.At, also
			}
		}
	}
	return "", finding.Place{}, finding.Place{}
}

// carries tells whether a chemistry is, or has in it, what a word of never-with means, and where it says so.
func carries(a *manual.Article, word string) (finding.Place, bool) {
	c := a.Chemistry
	if r, has := one(c.Contains, []string{word}); has {
		return r.At, true
	}
	switch {
	case word == "acid" && Acid(a), word == "alkali" && Alkali(a):
		return c.PH.At, true
	}
	return finding.Place{}, false
}

// Enemies are the pairs of constituents that must never meet whatever the articles say.
func Enemies() [][2]string {
	list := make([][2]string, len(enemies))
	for i, e := range enemies {
		list[i] = [2]string{e.a, e.b}
	}
	return list
}
