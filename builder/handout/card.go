package handout

import (
	"slices"
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sums"
)

// Cards are the cards of tanks, rinses and the dryer: what is read while one works on the front, what may go in and what is poured on the back.
func (k *Kit) Cards() ([]Sheet, error) {
	var list []Sheet
	for i := range k.m.Shop.Tanks {
		s, err := k.tankCard(&k.m.Shop.Tanks[i])
		if err != nil {
			return nil, err
		}
		list = append(list, s)
	}
	return append(list, k.Behind()...), nil
}

// Behind are the cards of what comes behind the washes: rinses and the dryer.
func (k *Kit) Behind() []Sheet {
	var list []Sheet
	for i := range k.m.Shop.Rinses {
		list = append(list, k.rinseCard(&k.m.Shop.Rinses[i]))
	}
	return append(list, k.dryer()...)
}

// dryer is the card of the dryer, where there is one.
func (k *Kit) dryer() []Sheet {
	if d := &k.m.Shop.Dryer; d.ID != "" || d.Name != "" {
		return []Sheet{k.dryerCard(d)}
	}
	return nil
}

// cardSides is how many sides a card has: front and back.
const cardSides = 2

// tank begins a sheet about a tank.
func (k *Kit) tank(t *manual.Tank, kind string, f *Format) Sheet {
	s := Sheet{ID: t.ID, Name: t.Name, Kind: kind, Station: "wash", Tank: t, Leads: "tanks/" + t.ID + ".html", Format: f, Named: t.At}
	if a := k.chemistry(t.Chemistry.Name); a != nil {
		s.Holds, s.Of = k.title(a), a
	}
	return s
}

func (k *Kit) vessel(t *manual.Tank) string {
	if t.Vessel == manual.Jar {
		return k.words.Say("Jar")
	}
	return k.words.Say("Tank")
}

func (k *Kit) tankCard(t *manual.Tank) (Sheet, error) {
	s := k.tank(t, k.vessel(t), CardFormat)
	s.Station = "wash"
	chemistry := k.chemistry(t.Chemistry.Name)
	var large facts
	large.add(k.words.Say("Temperature"), shown(t.Temperature))
	large.add(k.words.Say("Strength"), shown(t.Strength))
	if chemistry != nil && t.Sounds() { // it is the time under ultrasonics
		large.add(k.words.Say("Time"), shown(chemistry.Chemistry.Time))
	}
	front := []Block{{Sort: Large, Rows: large, At: t.At}}
	safety, err := k.atTank(t)
	if err != nil {
		return s, err
	}
	front = append(front, safety...)
	ask := ""
	if chemistry != nil {
		front = append(front, k.protection(chemistry)...)
		ask = chemistry.Head.Approval.Role
	}
	front = append(front, k.help(ask)...)
	more, err := k.behaviour(t)
	if err != nil {
		return s, err
	}
	if len(more) > 0 {
		front = append(front, Block{Sort: Facts, Rows: more, At: t.At})
	}
	front = append(front, k.heading(k.words.Say("Before the first load")), besides(k.firstLoad(t)...))
	suits, err := k.suits(t)
	if err != nil {
		return s, err
	}
	poured, err := k.poured(t)
	if err != nil {
		return s, err
	}
	if s.Of != nil {
		poured = append(poured, Block{Sort: Control})
	}
	s.Most = cardSides
	all := slices.Concat(front, suits, poured)
	s.Sides = fill(apart(Block{}, all), CardFormat)
	for _, sort := range []Sort{List, Facts} { // one after the other they take less
		if len(s.Sides) <= cardSides {
			break
		}
		for i := range all {
			if all[i].Sort == sort && all[i].Across == 0 {
				all[i].Sort = Run
			}
		}
		s.Sides = fill(apart(Block{}, all), CardFormat)
	}
	return s, nil
}

// atTank are the safety messages at a tank, of the gravest word first: of what it holds, of a bath that runs, and of all that goes into it beside.
func (k *Kit) atTank(t *manual.Tank) (messages, error) {
	var m messages
	if a := k.chemistry(t.Chemistry.Name); a != nil {
		k.opening(&m, a)
	}
	if err := k.running(&m, t); err != nil {
		return nil, err
	}
	k.goesInto(&m, t.ID)
	return m, nil
}

// behaviour is what a tank does by itself: how long it takes to get hot, what its sound does to it.
func (k *Kit) behaviour(t *manual.Tank) (facts, error) {
	var list facts
	list.add(k.words.Say("Frequency"), shown(t.Frequency))
	drift, stop := "drift-open", k.words.Say("Stop the sound at")
	if t.Lid {
		drift, stop = "drift-shut", k.words.Say("Stop the sound, lid off, at")
	}
	start := shown(k.m.Shop.Water.Temperature)
	for _, ask := range []struct{ calculator, reading, name string }{
		{"heat-up", "time", k.words.Say("Heats up in")},
		{"degas", "time", k.words.Say("Degas after filling")},
		{"holding", drift, k.words.Say("Its own sound warms it to about")},
		{"holding", "stop-at", stop},
	} {
		if !sums.For(t, ask.calculator) || ask.calculator == "holding" && !k.drifts(t.ID) {
			continue
		}
		given := map[string]string{"tank": t.ID}
		if ask.calculator == "holding" {
			given["hours"] = "1 h"
			if stands, some, err := k.stands(t.ID); err != nil {
				return nil, err
			} else if some && ask.reading == "stop-at" { // no hotter than what goes in may stand
				given["ceiling"] = stands.String()
			}
		}
		value, err := k.reading(ask.calculator, ask.reading, given)
		if err != nil {
			return nil, err
		}
		if ask.calculator == "heat-up" && !value.empty() && !start.empty() {
			value = join(value, Plain(" "+k.words.Say("from")+" "), start)
		}
		list.add(ask.name, value)
	}
	if t.Vessel == manual.Jar {
		list.add(k.words.Say("How"), Plain(k.words.Say("cold, covered, no heat, no sound")))
	}
	if level := k.level(t); !level.empty() {
		list.add("", level)
	}
	return list, nil
}

// level says how much water a centimetre of level is.
func (k *Kit) level(t *manual.Tank) Text {
	if !t.Length.Set || !t.Width.Set || t.Length.Low != t.Length.High || t.Width.Low != t.Width.High {
		return Text{}
	}
	const fall = 0.01 // m
	return both(func(in quantity.System) string {
		volume, _ := pour(t.Length.Low*t.Width.Low*fall, in, false)
		return k.words.Fill("{height} of level is {volume} of water.", quantity.Show(fall, quantity.Length, in), volume)
	})
}

// drifts tells whether its own sound warms a tank past its set-point.
func (k *Kit) drifts(tank string) bool {
	b := k.table.Bath(tank)
	return b != nil && b.Tank != nil && b.Tank.WarmsItself()
}

// stands is the temperature that the most sensitive of the materials which may go into a tank at its set-point stands, where that is less than what
// the chemistry allows; false where none is so sensitive.
func (k *Kit) stands(tank string) (manual.Limit, bool, error) {
	b := k.table.Bath(tank)
	if b == nil || b.Tank == nil || !b.Temperature.Set {
		return manual.Limit{}, false, nil
	}
	var least manual.Limit
	for i := range k.table.Materials {
		m := &k.table.Materials[i]
		if stands := m.Temperature; stands.Set && stands.High >= b.Temperature.High && (!least.Set || stands.High < least.High) {
			a, err := k.table.Answer(admit.Question{Materials: []string{m.Name}, Bath: b.Name})
			if err != nil {
				return manual.Limit{}, false, err
			}
			if a.Verdict != admit.No {
				least = stands
			}
		}
	}
	if ceiling := b.Chemistry.Ceiling; least.Set && ceiling.Set && ceiling.High < least.High {
		return manual.Limit{}, false, nil
	}
	least.Low = least.High
	return least, least.Set, nil
}

// suits says of every material whether it may go in, each with every condition.
func (k *Kit) suits(t *manual.Tank) ([]Block, error) {
	b := k.table.Bath(t.ID)
	if b == nil || b.Tank == nil {
		return []Block{{Sort: Words, Text: Plain(k.words.Say("The shop file names no chemistry of this manual for this tank, so nothing can be said."))}}, nil
	}
	sorted := map[admit.Verdict][]Row{}
	for i := range k.table.Materials {
		m := &k.table.Materials[i].Item
		a, err := k.table.Answer(admit.Question{Materials: []string{m.Name}, Bath: b.Name})
		if err != nil {
			return nil, err
		}
		text := Plain(k.material(m))
		if keep := both(func(in quantity.System) string { return a.Brief(k.words, in) }); !keep.empty() {
			text = join(text, Plain(" ("), keep, Plain(")"))
		}
		sorted[a.Verdict] = append(sorted[a.Verdict], Row{Value: text, At: finding.Place{File: m.Path, Line: 1, Column: 1}})
	}
	var blocks []Block
	for _, v := range []struct {
		verdict     admit.Verdict
		mark, title string
		sort        Sort
	}{
		{admit.No, "✕", k.words.Say("Must not go in"), Run}, {admit.Conditions, "◐", k.words.Say("With conditions"), List}, {admit.Yes, "✓", k.words.Say("May go in"), Run},
	} {
		if len(sorted[v.verdict]) > 0 {
			blocks = append(blocks, Block{Sort: Heading, Mark: v.mark, Head: v.title}, Block{Sort: v.sort, Class: string(v.verdict), Rows: sorted[v.verdict]})
		}
	}
	return blocks, nil
}

func (k *Kit) material(m *admit.Item) string {
	if a := k.m.Named(manual.Material, m.Name); a != nil {
		return k.title(a)
	}
	return m.Title
}

// poured is what a fill takes and what a weak bath takes, as it is poured.
func (k *Kit) poured(t *manual.Tank) ([]Block, error) {
	given := map[string]string{"tank": t.ID}
	concentrate, known, err := k.amount("dilution", "concentrate-volume", given)
	if err != nil {
		return nil, err
	}
	if !known {
		return nil, nil
	}
	water, watered, err := k.amount("dilution", "water-volume", given)
	if err != nil {
		return nil, err
	}
	mass, err := k.reading("dilution", "concentrate-mass", given)
	if err != nil {
		return nil, err
	}
	var fill facts
	fill.add(k.words.Say("Filled to the mark"), shown(t.Volume))
	if watered {
		fill.add(k.words.Say("Water"), Pour(k.words, water, false))
	}
	fill.add(k.words.Say("Concentrate"), Pour(k.words, concentrate, k.atTop(t)))
	fill.add(k.words.Say("or by mass"), mass)
	blocks := []Block{k.heading(k.words.Say("A fresh fill")), {Sort: Facts, Rows: fill, At: t.At}}
	weak, err := k.weak(t)
	if err != nil || len(weak.Rows) == 0 {
		return blocks, err
	}
	return append(blocks, k.heading(k.words.Say("Too weak: let out, then add")), weak,
		k.note("", k.words.Say("Concentrate, at the full mark. Measure again after mixing."))), nil
}

// atTop tells whether a tank's strength is the most that its chemistry allows: then nothing may be rounded up.
func (k *Kit) atTop(t *manual.Tank) bool {
	a := k.chemistry(t.Chemistry.Name)
	return a != nil && a.Chemistry.Strength.Set && t.Strength.Set && t.Strength.Kind == a.Chemistry.Strength.Kind && t.Strength.High*1.03 > a.Chemistry.Strength.High
}

// weakShares are the strengths that a card speaks of, as shares of the set-point.
var weakShares = []float64{0.9, 0.8, 0.7}

// weak says what a bath takes that has grown weak: what has to be let out of a full tank to make room, and the concentrate. It is rounded down, so that it never
// comes out too strong.
func (k *Kit) weak(t *manual.Tank) (Block, error) {
	b := Block{Sort: Facts, At: t.At, Across: 1}
	if !t.Strength.Set || t.Strength.Low != t.Strength.High {
		return b, nil
	}
	for _, share := range weakShares {
		now := t.Strength
		now.Low, now.High = share*now.Low, share*now.High
		given := map[string]string{"tank": t.ID, "strength-now": now.Range.String()}
		out, some, err := k.amount("top-up", "drain-volume", given)
		if err != nil {
			return b, err
		}
		add, known, err := k.amount("top-up", "concentrate-volume", given)
		if err != nil {
			return b, err
		}
		if !known || !some {
			continue
		}
		b.Rows = append(b.Rows, Row{Name: k.words.Say("measured"), Value: both(func(in quantity.System) string {
			less, _ := pour(out, in, false)
			more, with := pour(add, in, true)
			return k.words.Fill("{strength}: − {out}, + {amount} ({measure})", now.In(in), less, more, glued(k.words.Say(with)))
		})})
	}
	return b, nil
}

// firstLoad is what is looked at before the first load.
func (k *Kit) firstLoad(t *manual.Tank) []Row {
	rows := []Row{{Name: k.words.Say("Level at the mark")}, {Name: k.words.Say("Temperature, by a second thermometer"), Value: shown(t.Temperature)}}
	if a := k.chemistry(t.Chemistry.Name); a != nil {
		if test := k.m.Named(manual.Procedure, a.Chemistry.ControlTest.Name); test != nil {
			rows = append(rows, Row{Name: k.title(test), Value: shown(t.Strength), Of: test.Path})
		}
	}
	switch {
	case t.Vessel == manual.Jar:
		rows = append(rows, Row{Name: k.words.Say("Lid on, nothing near that sparks or burns")})
	case t.Sounds():
		rows = append(rows, Row{Name: k.words.Say("Sound: even, the same as yesterday")})
	}
	return rows
}

func (k *Kit) rinseCard(r *manual.Rinse) Sheet {
	s := Sheet{ID: r.ID, Name: r.Name, Kind: k.words.Say("Rinse"), Holds: r.Water, Station: "rinse", Leads: "tanks/" + r.ID + ".html", Format: CardFormat, Named: r.At}
	var large, more facts
	large.add(k.words.Say("Temperature"), shown(r.Temperature))
	large.add(k.words.Say("Conductivity, parts running"), shown(r.Conductivity))
	more.add(k.words.Say("Filled to the mark"), shown(r.Volume))
	more.add(k.words.Say("Fresh water"), shown(r.Flow))
	if r.Stages > 0 {
		more.add(k.words.Say("Stages"), Plain(quantity.Decimal(float64(r.Stages), 3)))
	}
	more.add(k.words.Say("pH, parts running"), k.rinsePH(r.ID))
	rows := []Row{{Name: k.words.Say("Level at the mark")}, {Name: k.words.Say("Temperature, by a second thermometer"), Value: shown(r.Temperature)}}
	if r.Conductivity.Set {
		rows = append(rows, Row{Name: k.words.Say("Conductivity before the first load")})
	}
	k.behindWash(&s, large, more, rows, r.At)
	return s
}

// rinsePH is the pH of a rinse while parts run; it says what is not known where something is missing for it.
func (k *Kit) rinsePH(id string) Text {
	for i := range k.table.Rinses {
		r := &k.table.Rinses[i]
		switch {
		case r.ID != id:
		case r.Missing.Phrase != "":
			return Plain(k.words.Say("not checked"))
		default:
			return shown(r.RunsPH)
		}
	}
	return Text{}
}

func (k *Kit) dryerCard(d *manual.Dryer) Sheet {
	s := Sheet{ID: d.ID, Name: d.Name, Kind: k.words.Say("Dryer"), Holds: d.Means, Station: "dry", Format: CardFormat, Named: d.At}
	if s.ID == "" {
		s.ID = "dryer"
	} else {
		s.Leads = "tanks/" + d.ID + ".html"
	}
	if s.Name == "" {
		s.Name = k.words.Say("Dry")
	}
	var large facts
	large.add(k.words.Say("Temperature"), shown(d.Temperature))
	rows := []Row{{Name: k.words.Say("Temperature, by a second thermometer"), Value: shown(d.Temperature)}, {Name: k.words.Say("Filter clean, its floor dry")}}
	k.behindWash(&s, large, nil, rows, d.At)
	return s
}

// behindWash fills the sides of a card for a rinse or the dryer.
func (k *Kit) behindWash(s *Sheet, large, more facts, rows []Row, at finding.Place) {
	var m messages
	k.goesInto(&m, s.ID)
	blocks := []Block{{Sort: Large, Rows: large, At: at}}
	blocks = append(blocks, m...)
	var wear []string
	ask := ""
	for _, a := range k.procedures(s.ID) {
		if a.Head.Station == s.Station {
			wear, ask = k.wear(a), a.Head.Approval.Role
		}
	}
	if len(wear) > 0 {
		blocks = append(blocks, k.note(k.words.Say("Wear"), strings.Join(wear, ", ")))
	}
	back := []Block{k.heading(k.words.Say("How it runs"))}
	if len(more) > 0 {
		back = append(back, Block{Sort: Facts, Rows: more, At: at})
	} else {
		back = back[:0]
	}
	back = append(back, k.heading(k.words.Say("Before the first load")), besides(rows...), k.heading(k.words.Say("Changed, cleaned, put right")), Block{Sort: Ruled, Lines: 6})
	s.Sides, s.Most = fill(apart(Block{}, append(append(blocks, k.help(ask)...), back...)), CardFormat), cardSides
}
