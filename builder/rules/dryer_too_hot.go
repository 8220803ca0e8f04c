package rules

import (
	"fmt"
	"slices"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// dryerTooHot finds parts of plastic, rubber, bonds or paint in a dryer hotter than the material stands.
// A metal may be drier than its bath may be hot, so metals are left alone: their limit is one for wet metal.
var dryerTooHot = finding.Rule{
	Name: "dryer-too-hot", Severity: finding.Parts,
	Finds:  "a part of plastic, rubber, paint or with bonds in a dryer hotter than the material stands",
	Why:    "Plastic warps or crazes, bonds creep and seals set, in the last minute of an otherwise good wash.",
	Source: "the material's article, temperature; the shop file, dryer",
}

var softens = []string{
	"polycarbonate", "acrylic", "abs", "polystyrene", "pvc", "nylon", "acetal", "polyolefin", "nbr", "epdm", "epoxy", "cyanoacrylate", "paint", "coated-optic",
}

func findHotDryers(p *proof, a *manual.Article) []finding.Finding {
	if a.Part == nil || a.Part.Dry.Name == "" || a.Part.Dry.Name != p.Shop.Dryer.ID || !p.Shop.Dryer.Temperature.Set {
		return nil
	}
	var list []finding.Finding
	air, in := p.Shop.Dryer.Temperature, p.Shop.System()
	for _, m := range named(p, manual.Material, a.Part.Materials) {
		limit := m.Material.Temperature
		if soft(m) && limit.Set && air.Low > limit.High+1e-9 {
			list = append(list, dryerTooHot.At(a.Part.Dry.At, fmt.Sprintf("%s has %s, but the limit of %s is %s.", p.Shop.Dryer.Name, air.In(in), m.Head.Title, limit.In(in)),
				"Blow the part off and let it dry in the air, or give it a cooler dryer; then leave dry out.", limit.At, air.At))
		}
	}
	return list
}

// soft tells whether heat alone spoils a material.
func soft(m *manual.Article) bool {
	return slices.ContainsFunc(m.Material.MadeOf, func(r manual.Ref) bool { return slices.Contains(softens, r.Name) })
}
