package manual

import "slices"

// Washes are the chemistries that a part meets, each once: of its washes, and of the tanks in which they are.
func (m *Manual) Washes(p *PartFacts) []*Article {
	var list []*Article
	for _, s := range p.Steps {
		name := s.Chemistry.Name
		if t := m.Shop.Tank(s.Tank.Name); t != nil && name == "" {
			name = t.Chemistry.Name
		}
		if a := m.Named(Chemistry, name); a != nil && !slices.Contains(list, a) {
			list = append(list, a)
		}
	}
	return list
}
