//go:build !wasip1

package asked

import (
	"maps"
	"slices"
	"strings"

	"tankside/calculators"
)

// Asks are what is asked where something can be read in several ways, or in none, by the names that stand in what is read; and the signal
// word of a no that no safety message goes with.
var Asks = map[string]string{
	"gallon":  "Which gallon? Write US gal or imp gal: an imperial one is a fifth more.",
	"percent": "Per cent of what? Write % v/v, by volume; % w/w, by mass; or % w/v, kilograms in 100 litres. The concentrate's label or data sheet says which.",
	"heater":  "How strong is the heater? Write its power behind it, such as 6 kW.",
	"kelvin":  "A temperature or a difference? Kelvins can be either: write °C or °F.",
	"ounce":   "Ounces by weight or fluid ounces? Write US fl oz or imp fl oz where a volume is meant.",
	"which":   "What you wrote can mean what is named here: choose the one that is meant.",
	"taken":   "Your words are taken for what is named here: see that it is what you mean.",
	"notice":  "NOTICE",
	"many":    "That name fits too many articles to say yes or no: name material, soil and bath as the manual does.",
}

// Thing is something that a question may name, for [Gather].
type Thing struct {
	Sort  byte // m, s, t or c; see Names
	Name  string
	Title string
	Also  []string // titles in other languages, and what people call it

	// Of a tank: its volume as written, the unit of temperatures that name none, and what the shop knows of it for sums.
	Volume, Degree            string
	Dilution, Heating, Heater []calculators.Written
}

// Gather packs what a question may name, where each sum can be done, by calculator and from the edition's root, the page that admits under “admit”, and
// what is asked, in a language. The
// same gives the same text.
func Gather(things []Thing, places map[string]string, say func(string) string) string {
	own, loose := map[string][]string{}, map[string][]string{}
	add := func(to map[string][]string, name string, t *Thing) {
		thing := string(t.Sort) + t.Name
		words := strings.Fields(fold(name))
		if key := strings.Join(words, " "); len(words) > 0 && len(words) <= mostWords && !isSmall(key) && !slices.Contains(to[key], thing) {
			to[key] = append(to[key], thing)
		}
	}
	for i := range things {
		t := &things[i]
		add(own, t.Title, t)
		add(own, t.Name, t)
		if t.Sort == 't' {
			add(own, strings.ReplaceAll(t.Title, " ", ""), t)
			continue
		}
		for _, name := range append(partsOf(t.Title), t.Also...) {
			add(loose, name, t)
		}
	}
	lines := map[string]string{}
	for name, list := range loose {
		lines[name] = "~" + strings.Join(list, " ")
	}
	for name, list := range own { // what is a thing's own name is no other's
		lines[name] = strings.Join(list, " ")
	}
	for _, word := range strings.Fields(small) {
		lines[word] = ""
	}
	for calculator, at := range places {
		lines["="+calculator] = at
	}
	for name, sentence := range Asks {
		lines["?"+name] = say(sentence)
	}
	var b strings.Builder
	for _, name := range slices.Sorted(maps.Keys(lines)) {
		b.WriteString("\n" + name + between + lines[name])
	}
	b.WriteString("\n")
	for i := range things {
		if t := &things[i]; t.Sort == 't' {
			b.WriteString(part + strings.Join([]string{t.Name, t.Title, t.Volume, t.Degree, inputs(t.Dilution), inputs(t.Heating), inputs(t.Heater)}, part))
		}
	}
	return b.String()
}

func isSmall(word string) bool { return slices.Contains(strings.Fields(small), word) }

// partsOf gives what a thing may be called by for its title: words of it in their order, beginning and ending with one that means something. What it is
// on or for is something else: gold plate on fittings is no fitting.
func partsOf(title string) (list []string) {
	words := strings.Fields(fold(title))
	for i, word := range words {
		if strings.Contains(" on for of with in ", " "+word+" ") {
			words = words[:i]
			break
		}
	}
	means := func(word string) bool { return len(word) > 2 && !isSmall(word) }
	for first := range words {
		for last := first; last < len(words); last++ {
			if means(words[first]) && means(words[last]) {
				list = append(list, strings.Join(words[first:last+1], " "))
			}
		}
	}
	return list
}

func inputs(list []calculators.Written) string {
	var fields []string
	for _, in := range list {
		fields = append(fields, in.Name, strings.ReplaceAll(in.Text, "\u00a0", " "))
	}
	return strings.Join(fields, between)
}

// told gives a line that Gather wrote beside the names: a place, or a sentence.
func (n *Names) told(name string) string {
	_, rest, _ := strings.Cut(n.dictionary, "\n"+name+between)
	line, _, _ := strings.Cut(rest, "\n")
	return line
}
