package handout

import (
	"fmt"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// Leaves is how many leaves a sheet has that is folded three times: in half, in half and in half again, with a cut through the middle of the two inner ones.
const Leaves = 8

// Imposed is where the leaves of a pocket sheet stand on its one printed side, row by row, by their numbers from 1: the upper row stands upside down. Cut between
// the two inner pairs, fold along, push the ends together: 1 is the front and 8 the back.
var Imposed = [2][4]int{{5, 4, 3, 2}, {6, 7, 8, 1}}

// Pockets are the sheets that a technician folds: the front, what each tank is and does, the rinses and the dryer, the back to write on. What two tanks say
// takes one sheet as a rule; more go on on a further one.
func (k *Kit) Pockets() ([]Sheet, error) {
	var flow []group
	for i := range k.m.Shop.Tanks {
		t := &k.m.Shop.Tanks[i]
		values, err := k.pocketTank(t)
		if err != nil {
			return nil, err
		}
		m, err := k.atTank(t)
		if err != nil {
			return nil, err
		}
		flow = append(flow, apart(k.heading(t.Name), append([]Block{k.heading(t.Name)}, values...))...)
		flow = append(flow, apart(k.heading(t.Name), m)...)
	}
	for i := range k.m.Shop.Rinses {
		r := &k.m.Shop.Rinses[i]
		var rows facts
		rows.add(k.words.Say("Filled to the mark"), shown(r.Volume))
		rows.add(k.words.Say("Fresh water"), shown(r.Flow))
		rows.add(k.words.Say("Temperature"), shown(r.Temperature))
		rows.add(k.words.Say("Conductivity"), shown(r.Conductivity))
		flow = append(flow, group{Block{}, []Block{k.heading(r.Name), {Sort: Facts, Across: 1, Rows: rows, At: r.At}}})
	}
	if d := &k.m.Shop.Dryer; d.Name != "" {
		var rows facts
		rows.add(k.words.Say("How"), Plain(d.Means))
		rows.add(k.words.Say("Temperature"), shown(d.Temperature))
		flow = append(flow, group{Block{}, []Block{k.heading(d.Name), {Sort: Facts, Across: 1, Rows: rows, At: d.At}}})
	}
	leaves := fill(flow, PocketFormat)
	const inside = Leaves - 2
	var list []Sheet
	for n := 0; n == 0 || n*inside < len(leaves); n++ {
		s := Sheet{ID: fmt.Sprintf("pocket-%d", n+1), Name: k.words.Say("Pocket sheet"), Kind: k.words.Say("Pocket sheet"), Station: "maintain", Format: PocketFormat, Folded: true, Leads: "index.html"}
		if len(leaves) > inside {
			s.Name += " " + quantity.Decimal(float64(n+1), 3)
		}
		s.Sides = append(s.Sides, k.pocketFront(s.Name))
		for i := range inside {
			if at := n*inside + i; at < len(leaves) {
				s.Sides = append(s.Sides, leaves[at])
			} else {
				s.Sides = append(s.Sides, Side{[]Block{k.heading(k.words.Say("Notes")), {Sort: Ruled, Lines: 10}}})
			}
		}
		s.Sides = append(s.Sides, k.pocketBack())
		list = append(list, s)
	}
	return list, nil
}

func (k *Kit) pocketTank(t *manual.Tank) ([]Block, error) {
	var rows facts
	if a := k.chemistry(t.Chemistry.Name); a != nil {
		rows.add(k.words.Say("Holds"), Plain(k.title(a)))
	}
	rows.add(k.words.Say("Temperature"), shown(t.Temperature))
	rows.add(k.words.Say("Strength"), shown(t.Strength))
	rows.add(k.words.Say("Filled to the mark"), shown(t.Volume))
	rows.add(k.words.Say("Heater"), shown(t.Heater))
	rows.add(k.words.Say("Ultrasonics"), shown(t.Power))
	if t.Power.Set && t.Volume.Set && t.Power.High > 0 && t.Volume.High > 0 {
		rows.add(k.words.Say("Power in the bath"), both(func(in quantity.System) string {
			return quantity.Show(t.Power.High/t.Volume.High, quantity.PowerDensity, in)
		}))
	}
	more, err := k.behaviour(t)
	if err != nil {
		return nil, err
	}
	rows = append(rows, more...)
	blocks := []Block{{Sort: Facts, Across: 1, Rows: rows, At: t.At}}
	if a := k.chemistry(t.Chemistry.Name); a != nil {
		blocks = append(blocks, k.note(k.words.Say("Wear"), strings.Join(k.wear(a), ", ")))
	}
	return blocks, nil
}

// pocketFront is the leaf that is seen when the sheet is folded.
func (k *Kit) pocketFront(name string) Side {
	return Side{[]Block{
		{Sort: Large, Rows: []Row{{Value: Plain(name)}}},
		k.note("", k.m.Shop.Name),
		k.note("", k.words.Say("What each tank is and does, for who services it. Check every value against the equipment.")),
		{Sort: Message, Head: "DANGER", Class: "danger", Rows: []Row{{Value: Plain(k.words.Say("Current and sound: lock out before a cover comes off."))}}},
		blanks(1, k.words.Say("Emergency"), k.words.Say("Ask")),
	}}
}

// pocketBack is the leaf to write on.
func (k *Kit) pocketBack() Side {
	return Side{[]Block{
		k.heading(k.words.Say("Found and left")),
		blanks(1, k.words.Say("Date"), k.words.Say("Tank"), k.words.Say("Temperature"), k.words.Say("Strength"), k.words.Say("Power drawn"), k.words.Say("Foil"), k.words.Say("Done"), k.words.Say("By")),
	}}
}
