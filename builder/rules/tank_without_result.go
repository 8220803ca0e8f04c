package rules

import (
	"errors"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sums"
	"tankside/calculators"
)

// findTanksWithoutResult runs the calculators on the pages of the tanks with what the shop file says, so that one that takes no such value is
// found before the page is made. What the shop file does not say is no fault: the reader types it in.
func findTanksWithoutResult(p *proof) []finding.Finding {
	var list []finding.Finding
	for i := range p.Shop.Tanks {
		list = append(list, p.tankWithoutResult(&p.Shop.Tanks[i])...)
	}
	return list
}

func (p *proof) tankWithoutResult(t *manual.Tank) []finding.Finding {
	var list []finding.Finding
	told := map[string]bool{}
	for _, name := range sums.OfTank {
		values, err := sums.Values(p.Manual, name, map[string]string{"tank": t.ID})
		if err == nil {
			_, err = calculators.Run(name, values, p.Shop.System())
		}
		var inputs calculators.Errors
		if !errors.As(err, &inputs) {
			continue // a tank without an id, which is reported by the reader
		}
		for _, e := range inputs {
			if e.Missing || told[e.Input] {
				continue
			}
			told[e.Input] = true
			remedy := "Correct the shop file, where it is said of the tank or of the shop; or take it out there, and readers type it in."
			if e.Accepted != "" {
				remedy = "Accepted is " + e.Accepted + ". " + remedy
			}
			list = append(list, calculatorWithoutResult.At(t.At, "The calculators on the page of "+t.Name+" cannot use “"+e.Input+"”: "+sentenceOf(e.Problem), remedy))
		}
	}
	return list
}
