package rules

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// undeclaredSubstance finds materials and parts whose title names a substance of which their header knows nothing. It prevents that a zinc casting passes for
// aluminium because a header was copied: “May it go in?” goes by made-of.
// Limit: what titles call the substances of made-of.
var undeclaredSubstance = finding.Rule{
	Name: "undeclared-substance", Severity: finding.Parts,
	Finds:  "a material, or a part, whose title names a substance that is not under made-of of it, or of any of the part's materials",
	Why:    "What attacks it is looked up by made-of; what is missing there is in no answer.",
	Source: "the article itself; what the names mean is common practice, no source",
}

// substanceNames are words of titles, and the words of made-of that fit them.
var substanceNames = func() map[string][]string {
	m := map[string][]string{}
	for line := range strings.Lines(`
		aluminium aluminum: aluminium
		magnesium: magnesium
		zinc galvanised galvanized: zinc
		tin: tin
		lead: lead
		copper cupronickel: copper beryllium-copper brass bronze
		gunmetal: bronze copper
		pewter: tin lead
		sterling: silver
		brass: brass
		bronze: bronze
		silver: silver
		gold: gold
		nickel: nickel
		chrome chromium: chromium
		cadmium: cadmium
		titanium: titanium
		steel: carbon-steel high-strength-steel stainless-steel
		stainless: stainless-steel
		iron: cast-iron carbon-steel
		anodised anodized: anodise
		polycarbonate: polycarbonate
		acrylic: acrylic
		abs: abs
		polystyrene: polystyrene
		pvc: pvc
		nylon: nylon
		acetal: acetal
		ptfe: ptfe
		peek: peek
		polyethylene polypropylene: polyolefin
		nitrile nbr: nbr
		epdm: epdm
		fkm: fkm
		silicone: silicone-rubber
		glass: glass coated-optic
		epoxy: epoxy
		ceramic: ceramic
	`) {
		names, fit, _ := strings.Cut(line, ":")
		for _, name := range strings.Fields(names) {
			m[name] = strings.Fields(fit)
		}
	}
	return m
}()

// alloyNames are names of two words, and the words of made-of that fit them: nickel silver is copper with nickel and zinc, and has no silver.
var alloyNames = map[string][]string{
	"nickel silver": strings.Fields("copper brass bronze beryllium-copper"), "german silver": strings.Fields("copper brass bronze beryllium-copper"), "gun metal": strings.Fields("bronze copper"),
}

// Words before a substance that something is for, or looks like, and words behind one that make another thing of it: a lead screw is of steel, aluminium bronze a
// bronze, and what is blasted with glass beads has no glass.
var (
	notMade    = sentence.Set("for against like not without non")
	otherThing = sentence.Set("free coloured colored screw solder bead beads blasted moly molybdenum vanadium nitride oxide bronze brass")
)

func findUndeclaredSubstances(p *proof, a *manual.Article) []finding.Finding {
	made, from, ok := p.madeOf(a)
	if !ok {
		return nil
	}
	title := strings.ReplaceAll(strings.ToLower(a.Head.Title), ",", " , ") // “Zinc, brass” is no brass with zinc
	words := strings.FieldsFunc(title, func(r rune) bool { return !unicode.IsLetter(r) && r != ',' })
	for i, w := range words {
		fit := substanceNames[w]
		before, after := "", ""
		if i > 0 {
			before = words[i-1]
		}
		if i+1 < len(words) {
			after = words[i+1]
		}
		name := w
		if two := w + " " + after; alloyNames[two] != nil {
			name, fit = two, alloyNames[two]
		}
		switch {
		case fit == nil, notMade[before], otherThing[after]:
		case alloyNames[before+" "+w] != nil, w == "silver" && after == "steel": // told with the word before; a tool steel
		case made[name], slices.ContainsFunc(fit, func(name string) bool { return made[name] }):
		default:
			message, remedy := "The title says %s, and made-of does not.", "Add "+strings.Join(fit, " or ")+" to made-of, with its limits; or, where there is none in it, give it another title."
			if a.Part != nil {
				message, remedy = "The title says %s, and made-of of none of its materials does.", "Name under material the one that it is made of; or, where there is none of it in the part, give it another title."
			}
			return []finding.Finding{undeclaredSubstance.At(at(a, "title"), fmt.Sprintf(message, name), remedy, from...)}
		}
	}
	return nil
}

// madeOf gives the words of made-of of a material, or of all materials of a part, and where they stand; not ok where they are not all known.
func (p *proof) madeOf(a *manual.Article) (made map[string]bool, from []finding.Place, ok bool) {
	made = map[string]bool{}
	add := func(m *manual.Article) {
		from = append(from, at(m, "made-of"))
		for _, r := range m.Material.MadeOf {
			made[r.Is()] = true
			for name := range strings.SplitSeq(r.Name, "-") { // a word of the shop's own, such as cobalt-chromium
				made[name] = true
			}
		}
	}
	switch {
	case a.Material != nil:
		add(a)
	case a.Part != nil && len(a.Part.Materials) > 0:
		for _, r := range a.Part.Materials {
			m := p.Named(manual.Material, r.Name)
			if m == nil {
				return nil, nil, false
			}
			add(m)
		}
	default:
		return nil, nil, false
	}
	return made, from, true
}
