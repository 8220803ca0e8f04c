package handout

import (
	"slices"
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

func isPart(a *manual.Article) bool { return a.Kind == manual.Part && a.Part != nil }

// parts are the articles of parts; of two with one name only the first can be asked for.
func (k *Kit) parts() []*manual.Article {
	return slices.DeleteFunc(k.m.Select(isPart), func(a *manual.Article) bool { return k.m.Named(manual.Part, a.Name) != a })
}

// ProcessSheets are those of the parts: how each is run, what is to be kept to, what can hurt and what is worn, by the chemistries that it meets.
func (k *Kit) ProcessSheets() ([]Sheet, error) {
	var list []Sheet
	for _, a := range k.parts() {
		s, err := k.processSheet(a)
		if err != nil {
			return nil, err
		}
		list = append(list, s)
	}
	return list, nil
}

func (k *Kit) processSheet(a *manual.Article) (Sheet, error) {
	s := Sheet{ID: a.Name, Name: k.title(a), Kind: k.words.Say("Process sheet"), Station: a.Head.Station, Leads: strings.TrimSuffix(a.Path, ".md") + ".html",
		Format: LeafFormat, Of: a, Named: a.Head.At["title"]}
	answer, err := k.table.Sheet(a.Name)
	if err != nil {
		return s, err
	}
	var m messages
	k.opening(&m, a)
	chemistries := k.m.Washes(a.Part)
	for _, c := range chemistries {
		k.opening(&m, c)
	}
	for _, step := range a.Part.Steps {
		if t := k.m.Shop.Tank(step.Tank.Name); t != nil {
			if err := k.running(&m, t); err != nil {
				return s, err
			}
		}
	}
	k.ofLoad(&m, a.Part)
	blocks := []Block(m)
	var wear []string
	for _, c := range chemistries {
		for _, w := range k.wear(c) {
			if !slices.Contains(wear, w) {
				wear = append(wear, w)
			}
		}
	}
	if len(wear) > 0 {
		blocks = append(blocks, k.note(k.words.Say("Wear"), strings.Join(wear, ", ")))
	}
	for _, c := range chemistries {
		if len(c.Chemistry.Hazards) > 0 {
			blocks = append(blocks, Block{Sort: Words, Head: k.words.Say("Hazards") + ", " + k.title(c), Text: Plain(k.hazards(c.Chemistry.Hazards)), At: c.Head.At["hazards"]})
		}
		if never := k.never(c); never != "" {
			blocks = append(blocks, Block{Sort: Words, Head: k.title(c) + ", " + k.words.Say("never with"), Text: Plain(never), At: c.Head.At["never-with"]})
		}
	}
	blocks = append(blocks, k.verdict(&answer)...)
	blocks = append(blocks, k.way(a))
	blocks = append(blocks, Block{Sort: Words, Text: Plain(k.words.Say("First aid: section 4 of the safety data sheet. Local codes and licensed practice come first."))},
		blanks(4, k.words.Say("Lot"), k.words.Say("Pieces"), k.words.Say("Date"), k.words.Say("Released by")), Block{Sort: Control})
	s.Sides = []Side{{blocks}}
	return s, nil
}

// verdict says what the decision about the sheet says: why not, or every condition in full.
func (k *Kit) verdict(a *admit.Answer) []Block {
	mark, title := "✓", k.words.Say("May go in")
	switch a.Verdict {
	case admit.No:
		mark, title = "✕", k.words.Say("Must not go in")
	case admit.Conditions:
		mark, title = "◐", k.words.Say("With conditions")
	}
	b := Block{Sort: Checks}
	for _, r := range a.Reasons {
		if a.Verdict == admit.No && r.Verdict == admit.No || a.Verdict != admit.No && r.Keeps() {
			b.Rows = append(b.Rows, Row{Value: join(k.ofWash(r.Wash), both(func(in quantity.System) string { return r.Says.In(k.words, in) })), At: finding.Place{File: r.Article, Line: 1, Column: 1}})
		}
	}
	blocks := []Block{{Sort: Heading, Mark: mark, Head: title}}
	if len(b.Rows) > 0 {
		b.At = b.Rows[0].At
		blocks = append(blocks, b)
	}
	return blocks
}

// ofWash begins what is said of a sheet with several washes.
func (k *Kit) ofWash(number int) Text {
	if number == 0 {
		return Text{}
	}
	return Plain(admit.WashName(number, k.words.Say) + ": ")
}

// way is the way of a part along the line, a row each: wash, rinse, dry.
func (k *Kit) way(a *manual.Article) Block {
	p := a.Part
	b := Block{Sort: Grid, Lines: 0, At: a.Head.At["tank"], Columns: []Column{
		{Head: k.words.Say("Where"), Share: 3}, {Head: k.words.Say("In what"), Share: 4.4}, {Head: k.words.Say("Strength"), Share: 2.8}, {Head: k.words.Say("Temperature"), Share: 3.3},
		{Head: k.words.Say("Time"), Share: 2.6}, {Head: k.words.Say("Frequency"), Share: 2.9}, {Head: k.words.Say("Done"), Share: 1.8},
	}}
	for i := range p.Steps {
		step := &p.Steps[i]
		where, what := step.Tank.Name, step.Chemistry.Name
		if t := k.m.Shop.Tank(step.Tank.Name); t != nil {
			where = t.Name
			if what == "" {
				what = t.Chemistry.Name
			}
		}
		if c := k.chemistry(what); c != nil {
			what = k.title(c)
		}
		b.Rows = append(b.Rows, Row{Cells: []Text{Plain(where), Plain(what), shown(step.Strength), shown(step.Temperature), shown(step.Time), shown(step.Frequency), {}}})
	}
	for _, r := range p.Rinse {
		row := Row{Cells: []Text{Plain(r.Name), {}, {}, {}, {}, {}, {}}}
		for i := range k.m.Shop.Rinses {
			if o := &k.m.Shop.Rinses[i]; o.ID == r.Name {
				row.Cells = []Text{Plain(o.Name), Plain(o.Water), {}, shown(o.Temperature), {}, {}, {}}
			}
		}
		b.Rows = append(b.Rows, row)
	}
	if d := &k.m.Shop.Dryer; p.Dry.Name != "" {
		row := Row{Cells: []Text{Plain(p.Dry.Name), {}, {}, {}, {}, {}, {}}}
		if d.ID == p.Dry.Name {
			row.Cells = []Text{Plain(d.Name), Plain(d.Means), {}, shown(d.Temperature), {}, {}, {}}
		}
		b.Rows = append(b.Rows, row)
	}
	return b
}
