package admit

import (
	"errors"
	"math"

	"tankside/calculators/quantity"
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
		for ; n > 0x7f; n >>= 7 {
			p.data = append(p.data, byte(n)|0x80)
		}
		p.data = append(p.data, byte(n))
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

// end goes through an end of a limit, which may be open.
func (p *packer) end(f **float64) {
	has := *f != nil
	if p.yes(&has); !has {
		return
	}
	if *f == nil {
		*f = new(float64)
	}
	p.number(*f)
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

// byName goes through a map whose names are those of the items.
func byName[T any](p *packer, m *map[string]T, items []Item, one func(*T)) {
	if !p.writing {
		*m = map[string]T{}
	}
	for i := range items {
		value, has := (*m)[items[i].Name]
		if p.yes(&has); !has {
			continue
		}
		one(&value)
		if !p.writing {
			(*m)[items[i].Name] = value
		}
	}
}

func (p *packer) table(t *Table) {
	p.text(&t.System)
	each(p, &t.Materials, p.item)
	each(p, &t.Soils, p.item)
	each(p, &t.Baths, func(b *Bath) { p.bath(b, t) })
	each(p, &t.Pairs, func(x *Pair) {
		p.text(&x.A)
		p.text(&x.B)
		p.reason(&x.Reason)
	})
	byName(p, &t.SoilReasons, t.Soils, p.reasons)
	byName(p, &t.MaterialReasons, t.Materials, p.reasons)
}

func (p *packer) item(x *Item) {
	p.text(&x.Name)
	p.text(&x.Title)
	p.text(&x.Path)
	each(p, &x.Limits, p.limit)
	each(p, &x.Cautions, p.caution)
}

func (p *packer) bath(b *Bath, t *Table) {
	for _, s := range []*string{&b.Name, &b.Title, &b.Chemistry, &b.Path} {
		p.text(s)
	}
	p.yes(&b.Tank)
	p.yes(&b.Silicated)
	each(p, &b.Limits, p.limit)
	if !p.writing {
		b.Today = map[What]quantity.Range{}
	}
	for _, what := range everything {
		value, has := b.Today[what]
		if p.yes(&has); has {
			p.amount(&value)
			b.Today[what] = value
		}
	}
	p.reasons(&b.Reasons)
	each(p, &b.Cautions, p.caution)
	each(p, &b.Protect, p.text)
	byName(p, &b.Materials, t.Materials, p.reasons)
	byName(p, &b.Soils, t.Soils, func(l *Lift) {
		p.reasons(&l.Reasons)
		each(p, &l.Limits, p.limit)
	})
}

func (p *packer) reasons(list *[]Reason) { each(p, list, p.reason) }

func (p *packer) place(at *Place) {
	p.text(&at.Article)
	at.Line = p.count(at.Line)
}

func (p *packer) reason(r *Reason) {
	p.text((*string)(&r.Verdict))
	p.sentence(&r.Says, 0)
	p.place(&r.Place)
	also := r.Also != nil
	if p.yes(&also); also {
		if r.Also == nil {
			r.Also = new(Place)
		}
		p.place(r.Also)
	}
	p.text(&r.Rule)
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
	if r.Unit, known = quantity.UnitNamed(symbol, r.Kind); !known {
		p.damaged = true
	}
}

// deepest is how deep sentences are packed within sentences.
const deepest = 4

func (p *packer) sentence(s *Sentence, depth int) {
	p.text(&s.Phrase)
	each(p, &s.Fill, func(part *Part) { p.part(part, depth) })
}

func (p *packer) part(part *Part, depth int) {
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
			each(p, &part.list, func(one *Part) { p.part(one, depth+1) })
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

func (p *packer) caution(c *Caution) {
	p.text(&c.Signal)
	p.text(&c.Text)
	p.place(&c.Place)
}

func (p *packer) limit(l *Limit) {
	p.text((*string)(&l.What))
	l.Kind = quantity.Kind(p.count(int(l.Kind)))
	p.end(&l.Low)
	p.end(&l.High)
	p.text(&l.Unit)
	p.sentence(&l.Asks, 0)
	p.place(&l.Place)
	p.text(&l.Rule)
	p.text(&l.Silicated)
}
