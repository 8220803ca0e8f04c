package rules

import (
	"tankside/builder/decide/admit"
	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// findWindowFaults passes on what stands against a chemistry in its own window, and against the windows in which a soil's article has
// chemistries lift it: two articles, or two lines of one, then tell the operator two things.
func findWindowFaults(p *proof, a *manual.Article) []finding.Finding {
	switch {
	case a.Chemistry != nil:
		c := relate.Chemistry(a)
		return bathFaults(p, &admit.Bath{Title: c.Title, Chemistry: &c, Window: a.Chemistry.Window},
			"The window disagrees with itself: ", "Narrow the window, or correct the other value.")
	case a.Soil != nil:
		var list []finding.Finding
		for _, r := range a.Soil.RemovedBy {
			chemistry := p.Named(manual.Chemistry, r.Chemistry.Name)
			if chemistry == nil {
				continue
			}
			c := relate.Chemistry(chemistry)
			list = append(list, bathFaults(p, &admit.Bath{Title: c.Title, Chemistry: &c, Window: r.Window}, "With "+c.Title+" ", "Bring the two windows together.")...)
		}
		return list
	}
	return nil
}

// findTankFaults passes on what stands against tanks and jars as this edition has them.
func findTankFaults(p *proof) []finding.Finding {
	var list []finding.Finding
	table := relate.Tanks(p.Manual, p.line)
	for i := range table.Tanks {
		t := &table.Tanks[i]
		b := table.Bath(t.ID)
		if b == nil || b.Tank != t {
			continue
		}
		list = append(list, bathFaults(p, b, t.Tank.Name+": ", "Correct the tank in the shop file, or the window in the chemistry's article.")...)
	}
	return list
}

// bathFaults gives what stands against a bath, whatever goes into it, except what its chemistry's own window is to blame for.
func bathFaults(p *proof, b *admit.Bath, lead, remedy string) []finding.Finding {
	in := p.Shop.System()
	var list []finding.Finding
	for _, r := range b.Faults(in) {
		if r.Verdict != admit.No || r.Window {
			continue
		}
		at, message := r.Of, r.Says.In(nil, in)
		if r.Exceeds() {
			message, r.Remedy = lead+r.Says.Within(nil, in), remedy
		} else if b.Tank != nil {
			at, message = b.Tank.At, lead+message
		}
		if at.File == "" {
			at = r.Finding()
		}
		list = append(list, r.Guard.At(at, message, r.Remedy, others(r, at)...))
	}
	return list
}
