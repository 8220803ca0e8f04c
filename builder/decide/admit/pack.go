package admit

import (
	"errors"
	"math"

	"tankside/builder/decide/fact"
	"tankside/builder/finding"
	"tankside/builder/quantity"
)

// Pack writes a table in as few words as possible, for an edition's pages: the same table gives the same bytes. Unpack reads it.
// It is no format for keeping: what packs and what unpacks are always of one publication.
func (t *Table) Pack() []byte {
	p := packer{writing: true}
	p.table(t)
	return p.data
}

// ErrDamaged says that what should be a packed table is none.
var ErrDamaged = errors.New("this is no packed table")

// Unpack reads what Pack wrote. Anything else is ErrDamaged.
func Unpack(data []byte) (*Table, error) {
	p := packer{data: data}
	t := new(Table)
	p.table(t)
	if p.damaged || len(p.data) > 0 {
		return nil, ErrDamaged
	}
	return t, nil
}

// packer writes or reads: each function below names what it goes through once, for both directions, so that the two cannot differ.
type packer struct {
	writing bool
	data    []byte // what was written, or is still to be read
	damaged bool
	file    string // in which the article stands that is gone through
}

// next takes n bytes off what is to be read.
func (p *packer) next(n int) []byte {
	if n < 0 || n > len(p.data) {
		p.damaged, p.data = true, nil
		return make([]byte, 8) // enough for a number
	}
	taken := p.data[:n]
	p.data = p.data[n:]
	return taken
}

// count goes through a number of things: seven bits a byte, the low ones first.
func (p *packer) count(n int) int {
	if p.writing {
		left := n
		for ; left > 0x7f; left >>= 7 {
			p.data = append(p.data, byte(left)|0x80)
		}
		p.data = append(p.data, byte(left))
		return n
	}
	value := 0
	for shift := 0; shift < 28; shift += 7 {
		b := p.next(1)[0]
		value |= int(b&0x7f) << shift
		if b < 0x80 {
			return value
		}
	}
	p.damaged = true
	return 0
}

func (p *packer) text(s *string) {
	n := p.count(len(*s))
	if p.writing {
		p.data = append(p.data, *s...)
	} else if *s = string(p.next(n)); p.damaged {
		*s = ""
	}
}

func (p *packer) yes(b *bool) {
	n := 0
	if *b {
		n = 1
	}
	*b = p.count(n) == 1
}

func (p *packer) number(f *float64) {
	if p.writing {
		for bits, i := math.Float64bits(*f), 0; i < 8; i++ {
			p.data = append(p.data, byte(bits>>(8*i)))
		}
		return
	}
	var bits uint64
	for i, b := range p.next(8) {
		bits |= uint64(b) << (8 * i)
	}
	*f = math.Float64frombits(bits)
}

// each goes through a list. A list that claims more things than there are bytes left is damaged.
func each[T any](p *packer, list *[]T, one func(*T)) {
	n := p.count(len(*list))
	if !p.writing {
		if n > len(p.data) {
			p.damaged, n = true, 0
		}
		if *list = nil; n > 0 {
			*list = make([]T, n)
		}
	}
	for i := range *list {
		one(&(*list)[i])
	}
}

func (p *packer) table(t *Table) {
	p.text(&t.System)
	each(p, &t.Materials, p.material)
	each(p, &t.Soils, p.soil)
	each(p, &t.Chemistries, p.chemistry)
	p.file = ""
	each(p, &t.Tanks, p.tank)
	each(p, &t.Rinses, p.rinse)
	p.dryer(&t.Dryer)
	each(p, &t.Parts, p.part)
}

// item goes through what an article is called and warns of. What follows of the article is in the same file.
func (p *packer) item(x *Item) {
	p.text(&x.Name)
	p.text(&x.Title)
	p.text(&x.Path)
	p.file = x.Path
	each(p, &x.Cautions, func(c *Caution) {
		p.text(&c.Signal)
		p.text(&c.Text)
		at := c.Place.Finding()
		p.place(&at)
		c.Place = place(at)
	})
}

func (p *packer) material(m *Material) {
	p.item(&m.Item)
	p.refs(&m.MadeOf, &m.Features, &m.AttackedBy)
	p.limits(&m.PH, &m.PHSilicated, &m.Temperature, &m.Frequency, &m.Time)
	p.yes(&m.NoSound)
	each(p, &m.Concessions, p.concession)
}

func (p *packer) soil(s *Soil) {
	p.item(&s.Item)
	p.text(&s.Nature)
	p.refs(&s.MayContain)
	each(p, &s.RemovedBy, func(r *fact.Removal) {
		p.ref(&r.Chemistry)
		p.window(&r.Window)
	})
}

func (p *packer) chemistry(c *Chemistry) {
	p.item(&c.Item)
	p.limits(&c.PH, &c.Ceiling, &c.CloudPoint, &c.FlashPoint, &c.Density)
	p.window(&c.Window)
	p.refs(&c.Contains, &c.Removes, &c.Hazards, &c.NeverWith)
	each(p, &c.ProtectiveEquipment, p.text)
	p.text(&c.Rinses)
	p.yes(&c.NoWater)
}

func (p *packer) tank(t *Tank) {
	for _, s := range []*string{&t.ID, &t.Tank.Name, &t.Vessel} {
		p.text(s)
	}
	p.limits(&t.Heater, &t.Power, &t.Frequency, &t.Strength, &t.Temperature)
	for _, b := range []*bool{&t.Lid, &t.Flammables, &t.Ventilated, &t.Drift.Known} {
		p.yes(b)
	}
	p.number(&t.Drift.Ends)
	p.number(&t.Drift.Least)
	p.ref(&t.Chemistry)
	each(p, &t.Rinses, p.text)
	p.place(&t.At)
}

func (p *packer) rinse(r *Rinse) {
	p.text(&r.ID)
	p.text(&r.Rinse.Name)
	p.limits(&r.RunsPH, &r.Plain, &r.RunsAt)
	p.sentence(&r.Missing, 0)
	p.place(&r.At)
}

func (p *packer) dryer(d *fact.Dryer) {
	p.text(&d.ID)
	p.text(&d.Name)
	p.limits(&d.Temperature)
	p.place(&d.At)
}

func (p *packer) part(x *PartSheet) {
	p.item(&x.Item)
	p.refs(&x.Materials, &x.Features, &x.Soils, &x.Rinse)
	each(p, &x.Steps, func(s *fact.Step) {
		p.ref(&s.Tank)
		p.ref(&s.Chemistry)
		p.window(&s.Window)
	})
	p.ref(&x.Dry)
	each(p, &x.Concessions, p.concession)
}

func (p *packer) concession(c *fact.Concession) {
	p.ref(&c.Chemistry)
	p.refs(&c.Rules)
	p.text(&c.By)
	p.text(&c.Reason)
	p.window(&c.Window)
	p.place(&c.At)
}

func (p *packer) window(w *fact.Window) { p.limits(&w.Strength, &w.Temperature, &w.Time, &w.Frequency) }

func (p *packer) limits(list ...*fact.Limit) {
	for _, l := range list {
		p.yes(&l.Set)
		if l.Set {
			p.amount(&l.Range)
		}
		p.place(&l.At)
	}
}

func (p *packer) refs(lists ...*[]fact.Ref) {
	for _, list := range lists {
		each(p, list, p.ref)
	}
}

func (p *packer) ref(r *fact.Ref) {
	p.text(&r.Name)
	p.text(&r.As)
	p.yes(&r.Unchecked)
	p.place(&r.At)
}

// place goes through a place, which mostly is in the file of the article that is gone through.
func (p *packer) place(at *finding.Place) {
	own := at.File == p.file
	if p.yes(&own); own {
		at.File = p.file
	} else {
		p.text(&at.File)
	}
	at.Line = p.count(at.Line)
	at.Column = p.count(at.Column)
}

// amount goes through a quantity with the symbol of the unit in which it is written.
func (p *packer) amount(r *quantity.Range) {
	r.Kind = quantity.Kind(p.count(int(r.Kind)))
	p.number(&r.Low)
	p.number(&r.High)
	symbol := r.Unit.Symbol
	if p.text(&symbol); p.writing {
		return
	}
	var known bool
	if r.Unit, known = quantity.UnitNamed(symbol, r.Kind); !known && symbol != "" { // “none” is an amount without a unit
		p.damaged = true
	}
}

// deepest is how deep sentences are packed within sentences.
const deepest = 4

func (p *packer) sentence(s *Sentence, depth int) {
	p.text(&s.Phrase)
	each(p, &s.Fill, func(part *Part) { p.filling(part, depth) })
}

func (p *packer) filling(part *Part, depth int) {
	part.sort = sort(p.count(int(part.sort)))
	switch part.sort {
	case title, word:
		p.text(&part.text)
	case amount:
		p.amount(&part.amount)
	case clause, list:
		if depth == deepest {
			p.damaged = true
			return
		}
		if part.sort == list {
			each(p, &part.list, func(one *Part) { p.filling(one, depth+1) })
			return
		}
		if part.clause == nil {
			part.clause = new(Sentence)
		}
		p.sentence(part.clause, depth+1)
	default:
		p.damaged = true
	}
}
