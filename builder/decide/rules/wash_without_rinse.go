package rules

import (
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// washWithoutRinse finds parts that leave their last wash without a rinse, while what is in that wash must not stay on them.
// It prevents that a film of alkali, acid or surfactant dries on the part: it burns the hands that take it, stains, and holds no paint.
// What is meant to stay on says so in its header: rinses: stays-on; and so does a solvent without water that dries off. Water with nothing in it is no such chemistry.
var washWithoutRinse = finding.Rule{
	Name: "wash-without-rinse", Severity: finding.Parts,
	Finds:  "a part that is not rinsed after a chemistry that must not stay on it",
	Why:    "What dries on the part burns the hands that take it, corrodes it or spoils what comes next.",
	Source: "the chemistry's article: rinses, contains, hazards; that a wash is rinsed off is common practice, no source",
}

// The words of rinses for a chemistry that is meant to stay on the part, and for a solvent that dries off by itself.
const (
	staysOn  = "stays-on"
	driesOff = "dries-off"
)

func findWashesWithoutRinse(p *proof, a *manual.Article) []finding.Finding {
	if a.Part == nil || len(a.Part.Steps) == 0 || len(a.Part.Rinse) > 0 || a.Part.MustNotSpot {
		return nil // a part that must not spot and is not rinsed is found by hard-last-rinse
	}
	last := a.Part.Steps[len(a.Part.Steps)-1]
	c := p.Named(manual.Chemistry, last.Chemistry.Name)
	if c == nil {
		return nil
	}
	why, wants := wantsRinse(c)
	if !wants {
		return nil
	}
	return []finding.Finding{washWithoutRinse.At(last.Chemistry.At, "The part is not rinsed after "+c.Head.Title+".",
		"Give its rinses, for example: "+rinseLine(&p.Shop)+"; or, where the chemistry is meant to stay on the part, write rinses: stays-on into its header, and where it is a solvent without water that dries off, rinses: dries-off and ph: none.", why)}
}

// wantsRinse tells whether a chemistry must not stay on a part, and by which fact.
func wantsRinse(c *manual.Article) (finding.Place, bool) {
	f := c.Chemistry
	if f.Rinses == staysOn || f.Rinses == driesOff && f.NoWater {
		return finding.Place{}, false
	}
	if i := slices.IndexFunc(f.Hazards, func(h manual.Ref) bool { return hurtsPeople(h.Name) }); i >= 0 {
		return f.Hazards[i].At, true
	}
	if len(f.Contains) > 0 {
		return f.Contains[0].At, true
	}
	return finding.Place{}, false
}

// rinseLine is a header line with the shop's rinses.
func rinseLine(s *manual.Shop) string {
	line := ""
	for _, r := range s.Rinses {
		if line != "" {
			line += ", "
		}
		line += r.ID
	}
	if line == "" {
		line = "rinse-1"
	}
	return "rinse: [" + line + "]"
}
