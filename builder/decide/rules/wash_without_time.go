package rules

import (
	"fmt"
	"math"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// washWithoutTime finds washes of a part that do not say how long, while a material of the part has a longest time.
// It prevents that the one limit that the operator alone keeps is left to the operator's memory. The limit is the material's own.
var washWithoutTime = finding.Rule{
	Name: "wash-without-time", Severity: finding.Parts,
	Finds:  "a wash without a time, of a part whose material has a longest",
	Why:    "Sound and chemistry go on as long as nobody stops them, and the sheet at the tank does not say when.",
	Source: "the material's article, time",
}

func findWashesWithoutTime(p *proof, a *manual.Article) []finding.Finding {
	if a.Part == nil {
		return nil
	}
	var shortest *manual.Article
	for _, m := range named(p, manual.Material, a.Part.Materials) {
		if m.Material.Time.Set && (shortest == nil || m.Material.Time.High < shortest.Material.Time.High) {
			shortest = m
		}
	}
	if shortest == nil {
		return nil
	}
	limit, in := shortest.Material.Time, p.Shop.System()
	left, open := limit.High, 0
	for _, s := range a.Part.Steps {
		switch {
		case p.soaks(&s):
		case s.Time.Set:
			left -= s.Time.High
		case !saysTime(a, &s):
			open++
		}
	}
	var list []finding.Finding
	for i := range a.Part.Steps {
		s := &a.Part.Steps[i]
		if s.Time.Set || s.Chemistry.Name == "" || saysTime(a, s) {
			continue
		}
		which := "The wash"
		if len(a.Part.Steps) > 1 {
			which = admit.WashName(i+1, nil)
		}
		message, longest := fmt.Sprintf("%s has no time, but the limit of %s is %s in one visit.", which, shortest.Head.Title, limit.In(in)), left/float64(open)
		if p.soaks(s) {
			message, longest = fmt.Sprintf("%s has no time. The limit of %s, %s, is for ultrasonics, and nothing else ends a soak.", which, shortest.Head.Title, limit.In(in)), math.Inf(1)
		}
		list = append(list, washWithoutTime.At(s.Chemistry.At, message, p.timeOf(a, s, longest), limit.At))
	}
	return list
}

// soaks tells whether a wash is in a vessel without ultrasonics, where the time of the material counts for nothing.
func (p *proof) soaks(s *manual.Step) bool {
	t := p.Shop.Tank(s.Tank.Name)
	return t != nil && !t.Sounds()
}

// saysTime tells whether a wash has the key, be it that its value could not be read.
func saysTime(a *manual.Article, s *manual.Step) bool {
	_, alone := a.Head.At["time"]
	_, below := s.Keys["time"]
	return alone || below
}

// timeOf says which time a wash can have: what the chemistry and the part's soils ask for, within the longest in seconds.
func (p *proof) timeOf(a *manual.Article, s *manual.Step, longest float64) string {
	low, high := 0., longest
	narrow := func(l manual.Limit) {
		if l.Set {
			low, high = max(low, l.Low), min(high, l.High)
		}
	}
	c := p.Named(manual.Chemistry, s.Chemistry.Name)
	if c != nil {
		narrow(c.Chemistry.Time)
		for _, soil := range named(p, manual.Soil, a.Part.Soils) {
			if r, lifts := relate.Lifts(c, soil); lifts {
				narrow(r.Time)
			}
		}
	}
	in := p.Shop.System()
	if low > high || high <= 0 {
		return "No time suits the chemistry, the soil and the material together: take another chemistry, or correct one of the three articles."
	}
	switch {
	case math.IsInf(high, 1) && low <= 0:
		return "Give the time of the wash, as the supplier of the chemistry has it, and try it on scrap first."
	case math.IsInf(high, 1):
		high = low
	}
	if low <= 0 {
		return "Give the time of the wash: time: ≤ " + quantity.Show(high, quantity.Time, in)
	}
	minutes, _ := quantity.UnitNamed("min", quantity.Time)
	return "Give the time of the wash: time: " + quantity.Range{Low: low, High: high, Kind: quantity.Time, Unit: minutes}.String()
}
