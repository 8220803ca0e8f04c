package handout

import (
	"fmt"
	"strings"

	"tankside/builder/finding"
)

// Misfit is a side that takes more room than there is.
type Misfit struct {
	Sheet      *Sheet
	Side       int // from 1
	Takes, Has float64
	Longest    finding.Place   // of what takes the most room and can be shortened
	What       string          // how that begins
	Also       []finding.Place // the next longest
	OfName     bool            // it is the sheet's name that has no room in its head
}

// nameLines is how many lines of a name there is room for in a head.
const nameLines = 2

// controlLines is how many lines who answers for a sheet takes.
const controlLines = 2

// Misfits are the sides of sheets that take more room than there is, in their order. The estimate is on the safe side: letters as wide as the widest face has them, nothing
// parted within words, the longer of both families of units. What it passes fits; what it refuses by less than a tenth may fit.
func Misfits(list []Sheet) []Misfit {
	var found []Misfit
	for i := range list {
		s := &list[i]
		f := s.Format
		if lines := wrap(s.Name, &bold, f.HeadWidth/(metreEm*f.em())); f.HeadWidth > 0 && lines > nameLines {
			found = append(found, Misfit{Sheet: s, Side: 1, Takes: float64(lines), Has: nameLines, Longest: s.Named, What: s.Name, OfName: true})
		}
		beyond := Misfit{Sheet: s, Side: s.Most} // what stands on more sides than are meant
		var over Side
		for j := range s.Sides {
			has, takes := f.room(j), s.Sides[j].Room(f)
			if s.Most > 0 {
				beyond.Takes += takes
				over.Blocks = append(over.Blocks, s.Sides[j].Blocks...)
				if j < s.Most {
					beyond.Has += has
				}
			}
			if takes > has {
				m := Misfit{Sheet: s, Side: j + 1, Takes: takes, Has: has}
				m.longest(&s.Sides[j], f)
				found = append(found, m)
			}
		}
		if s.Most > 0 && len(s.Sides) > s.Most {
			beyond.longest(&over, f)
			found = append(found, beyond)
		}
	}
	return found
}

// room is the height that a side has below its head, in mm; the first is 0.
func (f *Format) room(side int) float64 {
	if side == 0 {
		return f.Height - f.HeadHeight
	}
	return f.Height - f.HeadLater
}

// longest finds what takes the most room of all that somebody has written and can shorten.
func (m *Misfit) longest(s *Side, f *Format) {
	const few = 3 // of several, so many are named
	type part struct {
		at   finding.Place
		text string
		room float64
	}
	var parts []part
	add := func(at finding.Place, text string, room float64) {
		if at.File == "" || room == 0 || strings.TrimSpace(text) == "" {
			return
		}
		i := len(parts)
		for i > 0 && parts[i-1].room < room {
			i--
		}
		parts = append(parts[:i], append([]part{{at, text, room}}, parts[i:]...)...)
	}
	width := f.Width / f.em()
	for i := range s.Blocks {
		b := &s.Blocks[i]
		if len(b.Rows) == 0 || b.Rows[0].At.File == "" {
			add(b.At, b.Head+" "+b.Text.SI, b.room(f))
			continue
		}
		for _, r := range b.Rows {
			add(r.At, ended(r.Name, r.Value)+r.Value.SI, float64(lines(width, run{r.Value, &regular})))
		}
	}
	for i, p := range parts[:min(few, len(parts))] {
		if i == 0 {
			m.Longest, m.What = p.at, p.text
		} else {
			m.Also = append(m.Also, p.at)
		}
	}
}

// Piece is a sheet of a manual, or several that are made together: whoever keeps what follows from it need make it again only where the manual answers
// otherwise than it answered the kit.
type Piece struct {
	Name string // no other has it
	Make func(*Kit) ([]Sheet, error)
}

// Pieces are all sheets that a manual has.
func (k *Kit) Pieces() []Piece {
	list := []Piece{
		{"first aid", func(k *Kit) ([]Sheet, error) { return k.FirstAid(), nil }},
		{"trial", func(k *Kit) ([]Sheet, error) { return k.Trial(), nil }},
		{"visit", func(k *Kit) ([]Sheet, error) { return k.Visit(), nil }},
	}
	for i := range k.m.Shop.Tanks {
		list = append(list, Piece{fmt.Sprint("tank ", i), func(k *Kit) ([]Sheet, error) { return alone(k.tankCard(&k.m.Shop.Tanks[i])) }})
	}
	for i := range k.m.Shop.Rinses {
		list = append(list, Piece{fmt.Sprint("rinse ", i), func(k *Kit) ([]Sheet, error) { return alone(k.rinseCard(&k.m.Shop.Rinses[i]), nil) }})
	}
	list = append(list, Piece{"dryer", func(k *Kit) ([]Sheet, error) { return k.dryer(), nil }})
	for _, a := range k.parts() {
		list = append(list, Piece{a.Path, func(k *Kit) ([]Sheet, error) { return alone(k.processSheet(k.m.At(a.Path))) }})
	}
	return append(list, Piece{"pockets", (*Kit).Pockets}, Piece{"logs", (*Kit).Logs}, Piece{"boards", (*Kit).Boards}, Piece{"changes", (*Kit).Changes}, Piece{"waste", (*Kit).Waste})
}

func alone(s Sheet, err error) ([]Sheet, error) { return []Sheet{s}, err }

// Beginning is the beginning of a text, for who has to find it.
func Beginning(text string) string {
	const enough = 60 // letters
	if r := []rune(strings.TrimSpace(text)); len(r) > enough {
		return string(r[:enough]) + "…"
	}
	return strings.TrimSpace(text)
}
