package rules

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"tankside/builder/decide/fact"
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// standsPH is the widest pH that a substance stands in a bath for minutes, as far as anybody could write for a special alloy, coat or cleaner: beyond it
// the substance is eaten, dulled or softened whatever the cleaner is. A limit that goes further is a slip, and would be a yes to acid on aluminium.
// Where an exclusion forbids the bath whatever the limit says, as caustic on zinc or acid on cast iron, the end stays open.
var standsPH = map[string][2]float64{
	"aluminium": {3, 14}, "tin": {2, 14}, "lead": {3, 14}, "copper": {1.5, 14}, "brass": {1.5, 14}, "bronze": {1.5, 14}, "beryllium-copper": {2, 14},
	"silver": {1.5, 14}, "nickel": {2, 14}, "chromium": {2, 14}, "titanium": {1, 14}, "carbon-steel": {2, 14}, "cobalt-carbide": {0, 12.5}, "nickel-carbide": {2, 14},
	"anodise": {3.5, 14}, "conversion-coat": {3.5, 11}, "phosphate-coat": {0, 12.5}, "paint": {2, 13}, "polycarbonate": {2, 14}, "acrylic": {2, 14},
	"nylon": {3, 14}, "acetal": {3, 14}, "silicone-rubber": {2, 13}, "fkm": {0, 13}, "glass": {0, 13}, "coated-optic": {3, 14}, "epoxy": {1.5, 14}, "cyanoacrylate": {4, 11},
}

// substanceBound gives the bound of a material's pH by what it is made of where its limit goes beyond, of several substances the narrowest at each end; and the
// limit with its open ends closed: “≤ 9” allows pH 0. Otherwise it gives nil.
func substanceBound(a *manual.Article, v value) (*bound, value) {
	if a == nil || a.Material == nil || v.key != "ph" || v.limit.Kind != quantity.PH {
		return nil, v
	}
	v.limit.Range.Low, v.limit.Range.High = max(v.limit.Range.Low, pHBound.low), min(v.limit.Range.High, pHBound.high)
	b, worst := pHBound, 0.
	for _, name := range slices.Sorted(maps.Keys(standsPH)) {
		if _, is := fact.One(a.Material.MadeOf, name); !is {
			continue
		}
		low, high := standsPH[name][0], standsPH[name][1]
		b.low, b.high = max(b.low, low), min(b.high, high)
		if over := max(low-v.limit.Range.Low, v.limit.Range.High-high); over > worst {
			worst = over
			b.why = fmt.Sprintf("%s is eaten, dulled or softened %s.", strings.ToUpper(name[:1])+name[1:], outsidePH(low, high))
		}
	}
	if worst == 0 {
		return nil, v
	}
	return &b, v
}

// outsidePH says where a substance stands nothing: below an end, above the other, or both.
func outsidePH(low, high float64) string {
	switch below, above := fmt.Sprintf("below pH %g", low), fmt.Sprintf("above pH %g", high); {
	case low == pHBound.low:
		return above
	case high == pHBound.high:
		return below
	default:
		return below + " and " + above
	}
}
