package rules

import (
	"fmt"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// unequalCells finds two cells of a row, side by side, that give one amount in two units under heads that say so: “metric” and “US”, “°C” and “°F”.
func (p *proof) unequalCells(a *manual.Article) []finding.Finding {
	var list []finding.Finding
	blocks := p.reading(a).blocks
	for i := 1; i < len(blocks); i++ {
		left, right := &blocks[i-1], &blocks[i]
		if left.Kind != sentence.Cell || right.Kind != sentence.Cell || left.Row != right.Row || left.First && left.Row != left.Text || right.First || !twoSystems(left.Column, right.Column) {
			continue
		}
		one, two := p.cellAmount(left), p.cellAmount(right)
		if one == nil || two == nil || one.Unit == two.Unit || !alike(one.Kind, two.Kind) || one.Span != two.Span || equal(one, two) {
			continue
		}
		shown := quantity.ShowIn(one.Range.Low, two.Unit)
		if one.Span {
			shown += "–" + quantity.ShowIn(one.Range.High, two.Unit)
		}
		list = append(list, unequalUnits.At(placeIn(a, right, 0), fmt.Sprintf("%s and %s are not the same: %s is %s.", one.Text, two.Text, one.Text, shown), "Correct one of the two, or take one out."))
	}
	return list
}

// cellAmount gives the one amount of a cell, in the unit of its column's head where it has none.
func (p *proof) cellAmount(b *sentence.Block) *sentence.Quantity {
	if q := p.onlyAmount(b.Text); q != nil {
		return q
	}
	if q := p.onlyAmount(b.Text + " " + b.Column); q != nil {
		return q
	}
	if u := unitOfHead(b.Column); u != "" {
		return p.onlyAmount(b.Text + " " + u)
	}
	return nil
}

// unitOfHead gives the unit at the end of a column's head: “temperature (°C)”, “volume, L”; "" where there is none.
func unitOfHead(head string) string {
	head = strings.TrimSpace(head)
	if i := strings.LastIndexByte(head, '('); i >= 0 && strings.HasSuffix(head, ")") {
		return head[i+1 : len(head)-1]
	}
	if i := strings.LastIndex(head, ", "); i >= 0 {
		return head[i+2:]
	}
	return ""
}

// sameHead tells whether two heads name one thing in two units: “temperature (°C)” and “temperature (°F)”.
func sameHead(left, right string) bool {
	l, r := unitOfHead(left), unitOfHead(right)
	if l == "" || r == "" || l == r {
		return false
	}
	return strings.EqualFold(strings.TrimRight(strings.TrimSuffix(strings.TrimRight(left, ") "), l), " (,"), strings.TrimRight(strings.TrimSuffix(strings.TrimRight(right, ") "), r), " (,"))
}

// twoSystems tells whether the heads of two columns are a pair of unit systems, or two units.
func twoSystems(left, right string) bool {
	l, r := strings.Trim(strings.ToLower(left), "() "), strings.Trim(strings.ToLower(right), "() ")
	return systems[l] && systems[r] && l != r || sameHead(left, right)
}

var systems = map[string]bool{"metric": true, "us": true, "si": true, "imperial": true, "american": true, "inch": true, "inches": true, "us units": true, "metric units": true, "customary": true, "°c": true, "°f": true, "celsius": true,
	"fahrenheit": true, "mm": true, "in": true, "bar": true, "psi": true, "l": true, "gal": true, "us gal": true, "kg": true, "lb": true, "litres": true, "gallons": true, "gallons (us": true, "us gallons": true, "kilograms": true, "pounds": true, "millimetres": true, "metres": true, "feet": true, "ounces": true, "grams": true, "cm": true, "g": true, "oz": true, "ft": true, "m": true}
