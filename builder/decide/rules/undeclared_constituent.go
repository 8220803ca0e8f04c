package rules

import (
	"cmp"
	"fmt"
	"strings"
	"unicode"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// undeclaredConstituent finds chemistries that are called by a substance which their header does not name. It prevents that “May it go in?” lets acrylic into
// what everybody in the shop calls alcohol, since it goes by contains.
// Limit: common names of substances, as they are read in the text too.
var undeclaredConstituent = finding.Rule{
	Name: "undeclared-constituent", Severity: finding.People,
	Finds:  "a chemistry whose title or other name is that of a substance, such as “Isopropyl alcohol”, and whose header does not have it under contains",
	Why:    "What attacks, what burns and what must never meet go by contains; what is missing there is in no answer.",
	Source: "the article itself; what the names mean is common practice, no source",
}

func findUndeclaredConstituents(_ *proof, a *manual.Article) []finding.Finding {
	if a.Chemistry == nil {
		return nil
	}
	called := func(key, name string) *finding.Finding {
		substance := substanceIn(name)
		fit := append([]string{substance}, alsoFits[substance]...)
		if _, has := fact.One(a.Chemistry.Contains, fit...); substance == "" || has {
			return nil
		}
		add := substance
		if substance == anySolvent {
			add = strings.Join(alsoFits[anySolvent], " or ")
		}
		f := undeclaredConstituent.At(at(a, key), fmt.Sprintf("By its name “%s” there is %s in it, and contains does not name it.", name, strings.ReplaceAll(substance, "-", " ")),
			fmt.Sprintf("Add %s to contains; or, where there is none in it, call it otherwise.", add), at(a, cmp.Or(present(a, "contains"), "title")))
		return &f
	}
	if f := called("title", a.Head.Title); f != nil {
		return []finding.Finding{*f}
	}
	for _, name := range a.Head.AlsoCalled {
		if f := called("also-called", name); f != nil {
			return []finding.Finding{*f}
		}
	}
	return nil
}

// anySolvent stands for a solvent of which the name does not say what it is.
const anySolvent = "a solvent"

// inNames are words that name a substance where something is called by them, and not everywhere in a text; alsoFits are the constituents that what a name
// says may be, too.
var (
	inNames  = map[string]string{"acid": "acid", "solvent": anySolvent}
	alsoFits = func() map[string][]string {
		solvents, _ := admit.Solvents()
		return map[string][]string{"hydrocarbon": {"solvent-emulsion"}, anySolvent: append(solvents, "solvent-emulsion")}
	}()
)

// present is a key that a header has, or "".
func present(a *manual.Article, key string) string {
	if _, has := a.Head.At[key]; has {
		return key
	}
	return ""
}

// substanceIn gives the first substance that a name names and does not deny, as contains has it, or "".
func substanceIn(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) })
	for i, w := range words {
		n, next := 1, ""
		if i+1 < len(words) {
			next = words[i+1]
		}
		substance := cmp.Or(attackers[w], alsoAttackers[w], inNames[w])
		if two := attackers[w+" "+next]; two != "" && next != "cleaner" { // glass, by what is meant elsewhere, is no water glass
			substance, n = two, 2
		}
		if substance == "" || i+n < len(words) && words[i+n] == "free" || i > 0 && (noWords[words[i-1]] || words[i-1] == "non") {
			continue
		}
		return substance
	}
	return ""
}
