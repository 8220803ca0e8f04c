package manual

import (
	"fmt"

	"tankside/builder/finding"
	"tankside/builder/quantity"
)

// gallon is an amount in gallons, quarts or fluid ounces that does not say of which country. Whether the shop says it can be told only when its file
// has been read, with all others.
type gallon struct {
	key, text string
	amount    quantity.Range
	at        finding.Place
}

// countries reports such amounts, unless US units stand first in the shop: there a gallon is the US one. An imperial gallon is a fifth more, a bath
// that is filled or dosed by the wrong one a fifth off.
func (m *Manual) countries(d *decoder, gallons []gallon) {
	if m.Shop.US || m.Shop.Partial {
		return
	}
	for _, g := range gallons {
		us, imperial := g.amount.BothGallons()
		remedy := "Write " + g.key + ": " + us + ", or " + imperial + ", whichever is meant; or say units: US in the shop file, and a gallon is the US one."
		if g.amount.Unit.Imperial() {
			remedy = "Write both ends of the range in one measure, US or imperial."
		}
		d.report(ruleWrongQuantity, g.at, fmt.Sprintf("“%s: %s” may be in US or in imperial measure.", g.key, clip(g.text, 40)), remedy)
	}
}
