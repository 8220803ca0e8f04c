package manual

import (
	"strings"

	"go.yaml.in/yaml/v3"

	"tankside/builder/finding"
)

// MovedFile is the name of the file that says where an article, a heading or a tank is found that once had another name.
const MovedFile = "moved.yaml"

// TankFolder begins the address of a tank: "tanks/wash-1".
const TankFolder = "tanks/"

// Moved is an address that leads on to another: of an article, "soils/wax.md", of a heading, "soils/wax.md#melt-it", or of a tank, "tanks/wash-1".
type Moved struct {
	From, To   string
	At         finding.Place // of From
	Article    *Article      // to which it leads, or nil
	Anchor     string        // of the heading there, or ""
	Tank       string        // to which it leads, or ""
	FromAnchor string        // of the heading that moved, or ""
}

var ruleMoved = finding.Rule{
	Name: "broken-forwarding", Severity: finding.Result,
	Finds:  "an old address in " + MovedFile + " that leads nowhere, is none, or is in use again",
	Why:    "Whoever has the old address, from a printed page or another program, arrives nowhere or at something else.",
	Source: "the manual's format",
}

// readMoved reads the file: a mapping from old addresses to those of today.
func readMoved(d *decoder, data []byte) []Moved {
	mapping := d.mapping(data, "list of old addresses")
	if mapping == nil {
		return nil
	}
	var list []Moved
	have := map[string]finding.Place{}
	for i := 0; i+1 < len(mapping.Content); i += 2 {
		from, to := mapping.Content[i], mapping.Content[i+1]
		if from.Kind != yaml.ScalarNode || to.Kind != yaml.ScalarNode || from.Value == "" || to.Value == "" {
			d.report(ruleMoved, d.at(from), "This is not an old address and the one of today.", "Write for example: soils/wax.md: soils/hard-wax.md")
			continue
		}
		if first, twice := have[from.Value]; twice {
			d.report(ruleDuplicateKey, d.at(from), "The old address “"+clip(from.Value, 80)+"” is written twice.", "Keep one of the two.", first)
			continue
		}
		have[from.Value] = d.at(from)
		list = append(list, Moved{From: from.Value, To: to.Value, At: d.at(from)})
	}
	return list
}

// follow finds out where the old addresses lead. One that cannot be followed is reported and left out.
func (m *Manual) follow(d *decoder, list []Moved) {
	for _, f := range list {
		if problem, remedy := m.leadOn(&f); problem != "" {
			d.report(ruleMoved, f.At, problem, remedy)
			continue
		}
		m.Moved = append(m.Moved, f)
	}
}

// leadOn fills in where an old address leads, or says why it leads nowhere.
func (m *Manual) leadOn(f *Moved) (problem, remedy string) {
	if id, is := strings.CutPrefix(f.From, TankFolder); is {
		to, same := strings.CutPrefix(f.To, TankFolder)
		switch {
		case !UsableID(id):
			return "“" + clip(f.From, 80) + "” is no address of a tank.", "Write for example: tanks/wash-1: tanks/wash-2"
		case m.tank(id):
			return "The shop has a tank “" + clip(id, 40) + "” again.", "Take the line out: an address leads to one thing."
		case !same || !m.tank(to):
			return "“" + clip(f.To, 80) + "” is no address of a tank of the shop file.", "Write where the tank is found today, or take the line out."
		}
		f.Tank = to
		return "", ""
	}
	path, anchor, heading := strings.Cut(f.From, "#")
	folder, _, _ := strings.Cut(path, "/")
	_, isKind := kindOf(folder)
	switch {
	case !isKind || !strings.HasSuffix(path, ".md") || !usable(path) || heading && Anchor(anchor) != anchor || strings.Contains(f.From, "..") || strings.Contains(path, "//"):
		return "“" + clip(f.From, 80) + "” is no address of an article, a heading or a tank.", "Write for example: soils/wax.md: soils/hard-wax.md"
	case !heading && (m.anyCase(path) || m.refused[path]):
		return "There is an article at the old address “" + clip(f.From, 80) + "” again.", "Take the line out: an address leads to one thing."
	case heading && m.byPath[path] != nil && m.byPath[path].hasAnchor(anchor):
		return "There is a heading at the old address “" + clip(f.From, 80) + "” again.", "Take the line out: an address leads to one thing."
	}
	to, toAnchor, toHeading := strings.Cut(f.To, "#")
	a := m.byPath[to]
	switch {
	case m.refused[to]:
		return "", "" // what is wrong with the file has been said
	case a == nil || a.Language != "":
		return "The old address “" + clip(f.From, 60) + "” leads on to “" + clip(f.To, 60) + "”, where there is no article.", "Write where it is found today, or take the line out."
	case toHeading && !a.hasAnchor(toAnchor):
		return "The old address “" + clip(f.From, 60) + "” leads on to “" + clip(f.To, 60) + "”, where there is no such heading.", "Write where it is found today, or take the line out."
	}
	f.Article, f.Anchor, f.FromAnchor = a, toAnchor, anchor
	return "", ""
}

// anyCase tells whether there is an article at a path, compared as computers do that do not know capitals.
func (m *Manual) anyCase(path string) bool {
	if m.byPath[path] != nil {
		return true
	}
	for _, a := range m.articles {
		if strings.EqualFold(a.Path, path) {
			return true
		}
	}
	return false
}

// usable tells whether an article may have had a path, tidy or not.
func usable(path string) bool {
	for _, f := range CheckName(path) {
		if f.Rule != ruleUntidyName.Name {
			return false
		}
	}
	return true
}

// UsableID tells whether a tank may have a short name.
func UsableID(id string) bool {
	return !tooLong(id, 40) && idName.MatchString(id) && !reserved.MatchString(id) && !strings.EqualFold(id, pageOfKind)
}

func (m *Manual) tank(id string) bool {
	for i := range m.Shop.Tanks {
		if m.Shop.Tanks[i].ID == id {
			return true
		}
	}
	return false
}

func (a *Article) hasAnchor(anchor string) bool {
	for i := range a.Sections {
		if a.Sections[i].Anchor == anchor && a.Sections[i].Level > 0 {
			return true
		}
	}
	return false
}
