package rules

import (
	"errors"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/sums"
	"tankside/calculators"
)

// findTanksWithoutResult runs the calculators on the pages of the tanks with what the shop file says, so that one that takes no such value is
// found before the page is made. What the shop file does not say is no fault: the reader types it in.
// onThePage begins what is found of the calculators on a tank's page.
const onThePage = "The calculators on the page of "

// unlessNamed leaves out that a tank's page cannot reckon where another finding names what is wrong in the shop file or in the chemistry: it is
// the last net, for values that no rule of their own knows to be wrong.
func (p *proof) unlessNamed(list []finding.Finding) []finding.Finding {
	net := func(f finding.Finding) bool {
		return f.Rule == calculatorWithoutResult.Name && strings.HasPrefix(f.Message, onThePage)
	}
	named := map[string]bool{manual.ShopFile: p.Faulty(manual.ShopFile)}
	for _, f := range list {
		if f.Severity.Stops() && !net(f) {
			named[f.File] = true
		}
	}
	return slices.DeleteFunc(list, func(f finding.Finding) bool { return net(f) && (named[f.File] || named[manual.ShopFile]) })
}

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
		if !sums.For(t, name) {
			continue
		}
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
			at, remedy := p.saidAt(t, e.Input)
			if e.Accepted != "" {
				remedy = "Accepted is " + e.Accepted + ". " + remedy
			}
			list = append(list, calculatorWithoutResult.At(at, onThePage+t.Name+" cannot use “"+e.Input+"”: "+sentenceOf(e.Problem), remedy, t.At))
		}
	}
	return list
}

// saidAt is where an input of a tank's calculators is given, the chemistry's article or the shop file, and what to do there.
func (p *proof) saidAt(t *manual.Tank, input string) (finding.Place, string) {
	if a := p.Named(manual.Chemistry, t.Chemistry.Name); a != nil {
		c := a.Chemistry
		for name, l := range map[string]manual.Limit{"ceiling": c.Ceiling, "flash-point": c.FlashPoint, "density": c.Density} {
			if name == input && l.Set {
				return l.At, "Correct it here, or take it out, and readers type it in."
			}
		}
	}
	if at, given := t.Keys[input]; given {
		return at, "Correct it here, or take it out, and readers type it in."
	}
	return t.At, "Correct the shop file, where it is said of the tank or of the shop; or take it out there, and readers type it in."
}
