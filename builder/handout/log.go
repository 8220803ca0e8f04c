package handout

import (
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// days is how many lines a log has at the most: a month of them.
const days = 31

// leastDays is how many it has at the least: less than that is no log.
const leastDays = 12

// Logs are the blank log sheets of tanks, rinses and the dryer: a line a shift, and above each column what it has to keep to.
func (k *Kit) Logs() ([]Sheet, error) {
	var list []Sheet
	for i := range k.m.Shop.Tanks {
		s, err := k.tankLog(&k.m.Shop.Tanks[i])
		if err != nil {
			return nil, err
		}
		list = append(list, s)
	}
	for i := range k.m.Shop.Rinses {
		r := &k.m.Shop.Rinses[i]
		s := Sheet{ID: r.ID, Name: r.Name, Kind: k.words.Say("Log sheet"), Holds: r.Water, Station: "rinse", Leads: "tanks/" + r.ID + ".html", Format: LeafFormat, Named: r.At}
		s.Sides = []Side{{[]Block{
			k.note("", k.words.Say("Below each heading stands what was measured here when the line was in order. Mark what is otherwise, and say it.")),
			k.log(Column{Head: k.words.Say("Temperature"), Limit: shown(r.Temperature), Share: 3}, Column{Head: k.words.Say("Conductivity"), Limit: shown(r.Conductivity), Share: 3},
				Column{Head: k.words.Say("pH"), Limit: k.rinsePH(r.ID), Share: 2.4}, Column{Head: k.words.Say("Fresh water"), Limit: shown(r.Flow), Share: 3}),
		}}}
		list = append(list, s)
	}
	if d := &k.m.Shop.Dryer; d.Name != "" {
		s := Sheet{ID: "dryer", Name: d.Name, Kind: k.words.Say("Log sheet"), Holds: d.Means, Station: "dry", Format: LeafFormat, Named: d.At}
		if d.ID != "" {
			s.ID, s.Leads = d.ID, "tanks/"+d.ID+".html"
		}
		s.Sides = []Side{{[]Block{k.log(Column{Head: k.words.Say("Temperature"), Limit: shown(d.Temperature), Share: 3}, Column{Head: k.words.Say("Filter"), Share: 3}, Column{Head: k.words.Say("Floor dry"), Share: 3})}}}
		list = append(list, s)
	}
	for i := range list {
		list[i].Sides[0] = list[i].Sides[0].stretched(LeafFormat, leastDays, days)
	}
	return list, nil
}

func (k *Kit) tankLog(t *manual.Tank) (Sheet, error) {
	s := k.tank(t, k.words.Say("Log sheet"), LeafFormat)
	safety, err := k.brief(t)
	if err != nil {
		return s, err
	}
	columns := []Column{{Head: k.words.Say("Temperature"), Limit: k.limit(t.Temperature, t, temperatures), Share: 3.4}, {Head: k.words.Say("Strength"), Limit: k.limit(t.Strength, t, strengths), Share: 3.4}}
	if a := k.chemistry(t.Chemistry.Name); a != nil && a.Chemistry.PH.Set {
		columns = append(columns, Column{Head: k.words.Say("pH"), Limit: shown(a.Chemistry.PH), Share: 2})
	}
	columns = append(columns, Column{Head: k.words.Say("Level"), Limit: Plain(k.words.Say("at the mark")), Share: 2.2})
	if t.Sounds() {
		columns = append(columns, Column{Head: k.words.Say("Sound"), Limit: Plain(k.words.Say("even")), Share: 2})
	}
	columns = append(columns, Column{Head: k.words.Say("Loads"), Share: 1.8}, Column{Head: k.words.Say("Added"), Limit: Plain(k.words.Say("what, how much")), Share: 3})
	s.Sides = []Side{{append(safety, k.note("", k.words.Say("Below each heading: the set-point, in brackets what the chemistry allows. Outside the brackets: stop, and say it.")), k.log(columns...))}}
	return s, nil
}

// log is a grid with day and name around what is read.
func (k *Kit) log(columns ...Column) Block {
	all := append([]Column{{Head: k.words.Say("Day, time"), Share: 2.8}}, columns...)
	return Block{Sort: Grid, Columns: append(all, Column{Head: k.words.Say("By"), Share: 1.8}), Lines: days}
}

// What of a chemistry limits a value of its tank.
func temperatures(c *manual.ChemistryFacts) manual.Limit {
	l := c.Temperature
	if c.Ceiling.Set && l.Set && c.Ceiling.High < l.High {
		l.High = c.Ceiling.High
	}
	return l
}

func strengths(c *manual.ChemistryFacts) manual.Limit { return c.Strength }

// limit is a set-point with what the chemistry allows in brackets, on a line of its own.
func (k *Kit) limit(set manual.Limit, t *manual.Tank, of func(*manual.ChemistryFacts) manual.Limit) Text {
	a := k.chemistry(t.Chemistry.Name)
	if a == nil {
		return shown(set)
	}
	allowed := of(a.Chemistry)
	if !set.Set || !allowed.Set {
		return join(shown(set), shown(allowed))
	}
	return both(func(in quantity.System) string { return set.In(in) + "\n(" + allowed.In(in) + ")" })
}

// brief is what a form says where somebody works at a tank: the cautions of a bath that runs, what to wear, and hazards.
func (k *Kit) brief(t *manual.Tank) ([]Block, error) {
	var m messages
	if err := k.running(&m, t); err != nil {
		return nil, err
	}
	blocks := []Block(m)
	if a := k.chemistry(t.Chemistry.Name); a != nil {
		blocks = append(blocks, k.protection(a)...)
	}
	return blocks, nil
}
