package languageserver

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tankside/builder/decide/relate"
	"tankside/builder/manual"
)

// maxListed is how many names stand in one line of a hover.
const maxListed = 12

// hover tells what a key means, and of an article or a tank what follows from it.
func hover(ctx context.Context, s *server, p positionParams) (any, error) {
	q := s.inquire(ctx, p)
	if q == nil {
		return nil, nil
	}
	var said []string
	var in *Range
	m := q.desk.manual
	t, here, ok := s.thingAt(q.desk, q.doc.path, q.text, q.line, q.column)
	if at, inHeader := spotAt(q.doc.path, q.text, q.line, q.column); inHeader {
		r := s.bytesIn(q.text, q.line, at.from, at.to)
		in = &r
		if at.key == nil {
			return nil, nil
		}
		if at.onKey || here || !ok {
			said = append(said, "**"+at.key.Name+"**: "+at.key.Means+". "+strings.ReplaceAll(described(*at.key), "\n", "; for example `")+ended(*at.key))
		}
		if at.key.Name == "hazards" && manual.HazardStatements[at.token] != "" {
			said = append(said, at.token+": "+manual.HazardStatements[at.token])
		}
		if here && !decides(at.key, t.article) && q.doc.path != manual.ShopFile {
			ok = false
		}
		if tank := tankAround(m, q, at); !ok && tank != "" {
			t, ok = thing{list: "tank", id: tank}, true
		}
	}
	if ok {
		said = append(said, follows(m, t)...)
	}
	if len(said) == 0 {
		return nil, nil
	}
	return hoverResult{markup{"markdown", strings.Join(said, "\n\n")}, in}, nil
}

func ended(k manual.Key) string {
	if k.Example == "" {
		return ""
	}
	return "`"
}

// decides tells whether what is decided about loads may depend on a key.
func decides(k *manual.Key, a *manual.Article) bool {
	return a != nil && (len(k.Amounts) > 0 || len(k.Refers) > 0 || len(k.Shop) > 0 || slices.Contains(manual.HarmKeys(a.Kind), k.Name))
}

// tankAround is the id of the tank of the shop file in whose keys a spot is, or "".
func tankAround(m *manual.Manual, q *inquiry, at spot) string {
	if q.doc.path != manual.ShopFile || len(at.keys) == 0 || at.keys[0] != "tanks" {
		return ""
	}
	id := ""
	for _, t := range m.Shop.Tanks {
		if t.At.Line <= q.line+1 {
			id = t.ID
		}
	}
	return id
}

// follows tells what a thing is, where it is used and what is decided by it.
func follows(m *manual.Manual, t thing) []string {
	if t.article == nil {
		return tankFollows(m, t)
	}
	a := t.article
	head := "**" + a.Head.Title + "** (" + string(a.Kind) + ")"
	if t.section != nil {
		head = "**" + t.section.Heading + "**, in " + a.Head.Title
	}
	said := []string{head + "\n\n" + a.Head.Summary}
	said = append(said, "Named in: "+listed(naming(m, t)))
	if tables := tablesOf(a.Kind); tables != "" && t.section == nil {
		said = append(said, "Tables that follow from it: "+tables)
	}
	if t.section == nil {
		said = append(said, decided(m, partsOf(m, a))...)
	}
	return said
}

// tablesOf are the derived tables that a kind is in.
func tablesOf(k manual.Kind) string {
	switch k {
	case manual.Soil:
		return "soils and chemistries; *May it go in?*"
	case manual.Chemistry:
		return "soils and chemistries; chemistries and materials; materials and tanks; *May it go in?*"
	case manual.Material:
		return "chemistries and materials; materials and tanks; *May it go in?*"
	}
	return ""
}

func tankFollows(m *manual.Manual, t thing) []string {
	said := []string{"**" + t.id + "** (" + t.list + " of the shop file)"}
	said = append(said, "Named in: "+listed(naming(m, t)))
	tank := m.Shop.Tank(t.id)
	if t.list != "tank" || tank == nil {
		return said
	}
	said[0] = fmt.Sprintf("**%s** (`%s`): %s", tank.Name, tank.ID, orNothing(tank.Chemistry.Name))
	said = append(said, "Tables that follow from it: materials and tanks; *May it go in?*; its card")
	return append(said, decided(m, partsIn(m, t.id))...)
}

func orNothing(chemistry string) string {
	if chemistry == "" {
		return "nothing is said to be in it"
	}
	return chemistry
}

// partsOf are the parts on which an article has a bearing: the part itself, or those that are made of it, soiled by it or washed in it.
func partsOf(m *manual.Manual, of *manual.Article) []*manual.Article {
	var parts []*manual.Article
	for _, p := range m.Articles {
		if p.Part == nil || p.Partial {
			continue
		}
		bears := p == of
		for kind, ref := range p.References {
			bears = bears || m.Named(kind, ref.Name) == of
		}
		for _, step := range p.Part.Steps {
			if tank := m.Shop.Tank(step.Tank.Name); tank != nil && of.Kind == manual.Chemistry && tank.Chemistry.Name == of.Name {
				bears = true
			}
		}
		if bears {
			parts = append(parts, p)
		}
	}
	return parts
}

// partsIn are the parts that are washed in a tank.
func partsIn(m *manual.Manual, id string) []*manual.Article {
	var parts []*manual.Article
	for _, p := range m.Articles {
		if p.Part != nil && !p.Partial && slices.Contains(p.Vessels(), id) {
			parts = append(parts, p)
		}
	}
	return parts
}

// decided is what is decided about parts as everything stands now, with the conditions.
func decided(m *manual.Manual, parts []*manual.Article) []string {
	if len(parts) == 0 {
		return nil
	}
	line, units := relate.LineOf(m), m.Shop.System()
	var said []string
	for i, p := range parts {
		if i == maxListed {
			said = append(said, fmt.Sprintf("- and %d more", len(parts)-i))
			break
		}
		answer := relate.Sheet(m, p, line)
		text := "- " + p.Head.Title + ": " + string(answer.Verdict)
		why := answer.Brief(nil, units)
		for _, r := range answer.Reasons {
			if why == "" {
				why = r.Says.In(nil, units) // the gravest
			}
		}
		if why != "" {
			text += " (" + why + ")"
		}
		said = append(said, text)
	}
	return []string{"Parts, as decided now:\n" + strings.Join(said, "\n")}
}

// naming are the files that name a thing: the shop file first, then parts, whose process may change, then the others. Translations follow their originals.
func naming(m *manual.Manual, t thing) []string {
	var files []string
	for _, p := range t.uses(m) {
		a := m.At(p.File)
		if !slices.Contains(files, p.File) && (a == nil || a.Language == "" && a != t.article) {
			files = append(files, p.File)
		}
	}
	rank := func(file string) int {
		switch {
		case file == manual.ShopFile:
			return 0
		case m.At(file) != nil && m.At(file).Part != nil:
			return 1
		}
		return 2
	}
	slices.SortStableFunc(files, func(a, b string) int { return rank(a) - rank(b) })
	return files
}

func listed(names []string) string {
	switch {
	case len(names) == 0:
		return "nothing"
	case len(names) > maxListed:
		return fmt.Sprintf("%s and %d more", strings.Join(names[:maxListed], ", "), len(names)-maxListed)
	}
	return strings.Join(names, ", ")
}
