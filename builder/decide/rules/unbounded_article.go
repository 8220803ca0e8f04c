package rules

import (
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// unboundedArticle finds materials and chemistries without the limits by which everything else is decided.
// It prevents that “may it go in?” is answered with yes because nothing is known. Materials that may not be immersed need no limits; those that stand no
// sound do, since they go in by hand, or into a jar.
var unboundedArticle = finding.Rule{
	Name: "unbounded-article", Severity: finding.Result,
	Finds:  "a material without pH or temperature, or a chemistry without pH, temperature or time",
	Why:    "What has no limit passes every check, so the manual would say yes to what nobody knows.",
	Source: "our own limit",
}

func findUnboundedArticles(p *proof, a *manual.Article) []finding.Finding {
	var missing []string
	need := func(key string, l manual.Limit) {
		if _, given := a.Head.At[key]; !given && !l.Set {
			missing = append(missing, key)
		}
	}
	switch {
	case a.Material != nil:
		if slices.ContainsFunc(a.Material.Features, func(r manual.Ref) bool { return r.Name == "sealed" }) {
			return nil
		}
		need("ph", a.Material.PH)
		need("temperature", a.Material.Temperature)
	case a.Chemistry != nil:
		need("ph", a.Chemistry.PH)
		need("temperature", a.Chemistry.Temperature)
		need("time", a.Chemistry.Time)
	}
	if len(missing) == 0 {
		return nil
	}
	remedy := "Add what the supplier's sheet or a handbook says, and say in sources where it is from."
	if a.Material != nil && a.Material.NoSound {
		remedy += " What goes into no bath at all, by hand neither, has features: [sealed] instead."
	}
	return []finding.Finding{unboundedArticle.At(at(a, "title"), "The header does not give "+strings.Join(missing, ", ")+".", remedy)}
}
