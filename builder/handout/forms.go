package handout

import (
	"strings"

	"tankside/builder/manual"
)

// Forms that are asked for again and again. What they ask for is common practice, no source; what they warn of beside the manual's own messages has its source with
// the sentence.

// Boards are the whiteboards of the day, one for each tank: set-points to be read at a metre, and room for what was found and poured.
func (k *Kit) Boards() ([]Sheet, error) {
	var list []Sheet
	for i := range k.m.Shop.Tanks {
		t := &k.m.Shop.Tanks[i]
		s := k.tank(t, k.words.Say("Whiteboard of the day"), LeafFormat)
		var large facts
		large.add(k.words.Say("Temperature"), shown(t.Temperature))
		large.add(k.words.Say("Strength"), shown(t.Strength))
		large.add(k.words.Say("Filled to the mark"), shown(t.Volume))
		safety, err := k.brief(t)
		if err != nil {
			return nil, err
		}
		ways, err := k.behaviour(t)
		if err != nil {
			return nil, err
		}
		blocks := append([]Block{blanks(2, k.words.Say("Date"), k.words.Say("Shift, name")), {Sort: Large, Rows: large, At: t.At}}, safety...)
		blocks = append(blocks, Block{Sort: Facts, Rows: ways, At: t.At}, k.heading(k.words.Say("Found today")),
			Block{Sort: Grid, Lines: 4, Columns: []Column{{Head: k.words.Say("Time"), Share: 2}, {Head: k.words.Say("Temperature"), Limit: k.limit(t.Temperature, t, temperatures), Share: 3},
				{Head: k.words.Say("Strength"), Limit: k.limit(t.Strength, t, strengths), Share: 3}, {Head: k.words.Say("Poured: what, how much"), Share: 4}, {Head: k.words.Say("By"), Share: 2}}},
			blanks(4, k.words.Say("Switched on at"), k.words.Say("Hot at"), k.words.Say("Degassed until"), k.words.Say("Bath changed on")))
		weak, err := k.weak(t)
		if err != nil {
			return nil, err
		}
		if len(weak.Rows) > 0 {
			blocks = append(blocks, k.heading(k.words.Say("Too weak: let out, then add")), weak, k.note("", k.words.Say("Concentrate, at the full mark. Measure again after mixing.")))
		}
		side := Side{append(blocks, k.heading(k.words.Say("For the next shift")), Block{Sort: Ruled, Lines: 1})}
		s.Sides = []Side{side.stretched(LeafFormat, 3, 8)}
		list = append(list, s)
	}
	return list, nil
}

// Trial is the form of a first-article trial: the baths of the shop with their windows, to be tried one thing at a time.
func (k *Kit) Trial() []Sheet {
	s := Sheet{ID: "trial", Name: k.words.Say("First-article trial"), Kind: k.words.Say("Form"), Station: "receive", Format: LeafFormat, Leads: "may-it-go-in.html"}
	var m messages
	// Common practice, no source: what is closed bursts or fills, what is live kills, and no trial begins with soil that nobody knows.
	m.say("DANGER", Plain(k.words.Say("No trial with sealed, pressurised or live parts, nor with soil that nobody knows or that may hold what poisons: stop, bag, label, and ask the safety officer.")), s.Named)
	m.say("NOTICE", Plain(k.words.Say("Mildest first, one thing changed at a time. Stop at the first sign of damage: a trial is no release.")), s.Named)
	grid := Block{Sort: Grid, Lines: 8, Columns: []Column{{Head: k.words.Say("No."), Share: 1}, {Head: k.words.Say("Tank"), Share: 2.4}, {Head: k.words.Say("Strength"), Share: 2.6}, {Head: k.words.Say("Temperature"), Share: 3.3},
		{Head: k.words.Say("Time"), Share: 1.8}, {Head: k.words.Say("Sound"), Share: 1.8}, {Head: k.words.Say("Clean? How seen"), Share: 3.2}, {Head: k.words.Say("Damage? Loss of weight"), Share: 3.2}}}
	blocks := append([]Block(m), blanks(3, k.words.Say("Part"), k.words.Say("Number"), k.words.Say("Customer"), k.words.Say("Materials, all of them"), k.words.Say("Soil, its data sheet"), k.words.Say("Comes next")))
	blocks = append(blocks, checks(plainRows(k.words.Say("Asked “May it go in?” for every material"), k.words.Say("A part that may be spoilt, with the real soil on it"), k.words.Say("Weighed and photographed before"))...))
	blocks = append(blocks, k.heading(k.words.Say("What the tanks allow")), k.windows(), k.heading(k.words.Say("Tried")), grid,
		blanks(2, k.words.Say("Result"), k.words.Say("Process sheet to be written by"), k.words.Say("Tried by"), k.words.Say("Approved by, date")))
	side := Side{blocks}
	s.Sides = []Side{side.stretched(LeafFormat, 4, 12)}
	return []Sheet{s}
}

// windows are the shop's tanks with set-point and window.
func (k *Kit) windows() Block {
	b := Block{Sort: Grid, Columns: []Column{{Head: k.words.Say("Tank"), Share: 2}, {Head: k.words.Say("Chemistry"), Share: 3}, {Head: k.words.Say("Strength"), Share: 2.9}, {Head: k.words.Say("Temperature"), Share: 3.3},
		{Head: k.words.Say("Time"), Share: 2.3}, {Head: k.words.Say("Frequency"), Share: 2.9}, {Head: k.words.Say("pH"), Share: 1.8}, {Head: k.words.Say("Wear"), Share: 3.2}}}
	for i := range k.m.Shop.Tanks {
		t := &k.m.Shop.Tanks[i]
		row := Row{Cells: []Text{Plain(t.Name), Plain(t.Chemistry.Name), k.limit(t.Strength, t, strengths), k.limit(t.Temperature, t, temperatures), {}, shown(t.Frequency), {}, {}}}
		if a := k.chemistry(t.Chemistry.Name); a != nil {
			row.Cells[1], row.Cells[4], row.Cells[6], row.Cells[7] = Plain(k.title(a)), shown(a.Chemistry.Time), shown(a.Chemistry.PH), Plain(strings.Join(k.wear(a), ", "))
		}
		b.Rows = append(b.Rows, row)
		b.At = t.At
	}
	return b
}

// Changes are the forms for a change of the bath, one for each tank that holds a chemistry.
func (k *Kit) Changes() ([]Sheet, error) {
	return k.ofBaths(k.words.Say("Bath change"), func(t *manual.Tank, a *manual.Article) ([]Block, error) {
		blocks, err := k.spent(t, a)
		if err != nil {
			return nil, err
		}
		blocks = append(blocks, blanks(3, k.words.Say("Date"), k.words.Say("Last changed on"), k.words.Say("Why"), k.words.Say("Strength before"), k.words.Say("pH before"), k.words.Say("Loads since")),
			k.heading(k.words.Say("Out")), besides(plainRows(k.words.Say("Sound and heater off, locked and tagged, tried"), k.words.Say("Below 40 °C before the pump or the valve"), k.words.Say("Container tight, dry, named, with room for gas"),
				k.words.Say("Sludge out with plastic, not with metal"), k.words.Say("Radiating face looked at: pits, grey bands"), k.words.Say("Rinsed until the water is clear"))...),
			blanks(2, k.words.Say("Container no."), k.words.Say("Volume out")), k.heading(k.words.Say("In")))
		poured, err := k.poured(t)
		if err != nil {
			return nil, err
		}
		if len(poured) > 1 {
			blocks = append(blocks, poured[1])
		}
		blocks = append(blocks, besides(append(plainRows(k.words.Say("Water first, then the concentrate"), k.words.Say("Hot, mixed and degassed before it is measured")), k.firstLoad(t)...)...),
			blanks(2, k.words.Say("Drum and lot"), k.words.Say("Strength after"), k.words.Say("pH after"), k.words.Say("Foil"), k.words.Say("Done by"), k.words.Say("Checked by")))
		return blocks, nil
	})
}

// spent are the messages and hazards of a bath that is given up.
func (k *Kit) spent(t *manual.Tank, a *manual.Article) ([]Block, error) {
	var m messages
	k.opening(&m, a)
	if err := k.running(&m, t); err != nil {
		return nil, err
	}
	// Acid on sulfide, cyanide or hypochlorite frees gas that kills: the sources stand beside never-meet of package admit. Drains: common practice, no source.
	m.say("WARNING", Plain(k.words.Say("A spent bath holds what the parts brought: acid on it may free poisonous gas. Nothing is poured together, nothing goes down the drain without a permit.")), t.At)
	return append([]Block(m), k.protection(a)...), nil
}

// ofBaths makes a form for each tank that holds a chemistry of the manual.
func (k *Kit) ofBaths(kind string, of func(*manual.Tank, *manual.Article) ([]Block, error)) ([]Sheet, error) {
	var list []Sheet
	for i := range k.m.Shop.Tanks {
		t := &k.m.Shop.Tanks[i]
		a := k.chemistry(t.Chemistry.Name)
		if a == nil {
			continue
		}
		s := k.tank(t, kind, LeafFormat)
		blocks, err := of(t, a)
		if err != nil {
			return nil, err
		}
		s.Sides = []Side{{blocks}}
		list = append(list, s)
	}
	return list, nil
}

// Waste are the forms with which a spent bath is handed over, one for each tank that holds a chemistry: what was in it by the manual, what was found, who took it.
func (k *Kit) Waste() ([]Sheet, error) {
	return k.ofBaths(k.words.Say("Waste hand-over"), func(t *manual.Tank, a *manual.Article) ([]Block, error) {
		blocks, err := k.spent(t, a)
		if err != nil {
			return nil, err
		}
		var contains []string
		for _, c := range a.Chemistry.Contains {
			contains = append(contains, k.words.Say(strings.ReplaceAll(c.Name, "-", " ")))
		}
		var rows facts
		rows.add(k.words.Say("Was made up with"), Plain(k.title(a)))
		rows.add(k.words.Say("Strength"), shown(t.Strength))
		rows.add(k.words.Say("Volume, full"), shown(t.Volume))
		rows.add(k.words.Say("pH"), shown(a.Chemistry.PH))
		rows.add(k.words.Say("Contains"), Plain(strings.Join(contains, ", ")))
		rows.add(k.words.Say("Flash point"), shown(a.Chemistry.FlashPoint))
		return append(blocks, Block{Sort: Facts, Rows: rows, At: t.At}, k.note("", k.words.Say("That is what it was when it was fresh. What it is now has to be tested: the shop that makes waste says what it is.")),
			blanks(2, k.words.Say("Date"), k.words.Say("Container no."), k.words.Say("Volume"), k.words.Say("Is it bath, oil, sludge or rinse?"), k.words.Say("pH, measured"), k.words.Say("Metals, tested by"), k.words.Say("Oil"), k.words.Say("Soils since the last change")),
			besides(plainRows(k.words.Say("Container suits the liquid, with a vented cap"), k.words.Say("Label: name, hazards, date, shop"), k.words.Say("Nothing else in it"), k.words.Say("Safety data sheet goes along"))...),
			blanks(2, k.words.Say("Waste code, by local code"), k.words.Say("Carrier, permit"), k.words.Say("Handed over by"), k.words.Say("Taken by"), k.words.Say("Manifest no."), k.words.Say("Safety officer"))), nil
	})
}

// Visit is the blank report of a service visit: every tank with its set-points, and room for what was found and left.
func (k *Kit) Visit() []Sheet {
	s := Sheet{ID: "visit", Name: k.words.Say("Visit report"), Kind: k.words.Say("Form"), Station: "maintain", Format: LeafFormat, Leads: "visit.html"}
	var m messages
	// 29 CFR 1910.147(d), control of hazardous energy: isolate, lock, relieve stored energy, verify.
	m.say("DANGER", Plain(k.words.Say("Current and sound: lock out before a cover comes off.")), s.Named)
	grid := Block{Sort: Grid, Columns: []Column{{Head: k.words.Say("Tank"), Share: 2.4}, {Head: k.words.Say("Quantity"), Share: 3}, {Head: k.words.Say("Set-point (allowed)"), Share: 4}, {Head: k.words.Say("Found"), Share: 3}, {Head: k.words.Say("Left"), Share: 3}}}
	row := func(tank, name string, limit Text) {
		if !limit.empty() {
			grid.Rows = append(grid.Rows, Row{Cells: []Text{Plain(tank), Plain(name), limit, {}, {}}})
		}
	}
	for i := range k.m.Shop.Tanks {
		t := &k.m.Shop.Tanks[i]
		grid.At = t.At
		row(t.Name, k.words.Say("Temperature"), k.limit(t.Temperature, t, temperatures))
		row(t.Name, k.words.Say("Strength"), k.limit(t.Strength, t, strengths))
		if t.Power.Set && t.Power.High > 0 {
			row(t.Name, k.words.Say("Ultrasonics"), shown(t.Power))
			row(t.Name, k.words.Say("Frequency"), shown(t.Frequency))
		}
		if t.Heater.Set && t.Heater.High > 0 {
			row(t.Name, k.words.Say("Heater"), shown(t.Heater))
		}
	}
	for i := range k.m.Shop.Rinses {
		r := &k.m.Shop.Rinses[i]
		row(r.Name, k.words.Say("Temperature"), shown(r.Temperature))
		row(r.Name, k.words.Say("Conductivity"), shown(r.Conductivity))
	}
	row(k.m.Shop.Dryer.Name, k.words.Say("Temperature"), shown(k.m.Shop.Dryer.Temperature))
	work := Block{Sort: Grid, Lines: 6, Columns: []Column{{Head: k.words.Say("Time"), Share: 1.6}, {Head: k.words.Say("Seen, measured, tried"), Share: 8}, {Head: k.words.Say("Outcome"), Share: 4}}}
	side := Side{append([]Block(m), blanks(2, k.words.Say("Date"), k.words.Say("By"), k.words.Say("Customer"), k.words.Say("Machine, serial no."), k.words.Say("Asked for"), k.words.Say("Hours run")),
		grid, work, blanks(2, k.words.Say("Parts used"), k.words.Say("To be watched"), k.words.Say("Next visit"), k.words.Say("Signed for the shop")))}
	s.Sides = []Side{side.stretched(LeafFormat, 4, 12)}
	return []Sheet{s}
}
