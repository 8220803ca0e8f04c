package asked

import (
	"errors"
	"strings"

	"tankside/builder/language"
	"tankside/calculators"
)

// The sorts of things that a load is made of.
const (
	Material  = "material"
	Soil      = "soil"
	Tank      = "tank"
	Chemistry = "chemistry"
)

// Thing is something that a question may name.
type Thing struct {
	Sort  string
	Name  string   // as package admit knows it
	Title string   // in the reader's language
	Also  []string // titles in other languages, and what people call it
	Sums  []Known  // of a tank: what the shop knows of it

	own, loose []string // folded: its own names, and what people call it
}

// Known are inputs of a calculator that are known already.
type Known struct {
	Calculator string
	Inputs     []calculators.Written
}

// Names are all that a question may name, where each sum can be done, and the words in which is answered.
type Names struct {
	Things []Thing
	Sums   map[string]string // calculator → address from the edition's root: procedures/rinse.html#sum-rinse
	Asks   bool              // there is a page “May it go in?”
	Words  language.Words    // of Phrases
}

// ErrDamaged says that what should be packed names are none.
var ErrDamaged = errors.New("these are no packed names")

// Signs of a packed line, and what stands between its fields: U+001F, which nobody types.
const (
	between = "\x1f"
	sumLine = "sum"
	isKnown = "known"
	asks    = "asks"
	said    = "words"
)

// Pack writes the names for the reader's browser; [Unpack] reads them. The same names give the same text. It is no format for keeping.
func (n *Names) Pack() string {
	var lines []string
	line := func(fields ...string) {
		lines = append(lines, strings.ReplaceAll(strings.Join(fields, between), "\n", " "))
	}
	for i := range n.Things {
		t := &n.Things[i]
		line(append([]string{t.Sort, t.Name, t.Title}, t.Also...)...)
		for _, k := range t.Sums {
			fields := []string{isKnown, k.Calculator}
			for _, in := range k.Inputs {
				fields = append(fields, in.Name, in.Text)
			}
			line(fields...)
		}
	}
	for _, c := range calculators.All() {
		if at := n.Sums[c.Name]; at != "" {
			line(sumLine, c.Name, at)
		}
	}
	if n.Asks {
		line(asks, "")
	}
	return strings.Join(append(lines, said+between+n.Words.Pack()), "\n")
}

// Unpack reads what Pack wrote. Anything else is ErrDamaged.
func Unpack(packed string) (*Names, error) {
	n := &Names{Sums: map[string]string{}}
	for packed != "" {
		sort, rest, found := strings.Cut(packed, between)
		if !found {
			return nil, ErrDamaged
		}
		if sort == said { // the last line: a phrase may go over several
			n.Words = language.Unpack(rest)
			return n, nil
		}
		rest, packed, _ = strings.Cut(rest, "\n")
		f := strings.Split(rest, between)
		switch last := len(n.Things) - 1; {
		case sort == asks:
			n.Asks = true
		case len(f) < 2:
			return nil, ErrDamaged
		case sort == sumLine:
			n.Sums[f[0]] = f[1]
		case sort == isKnown:
			if last < 0 || len(f)%2 == 0 {
				return nil, ErrDamaged
			}
			k := Known{Calculator: f[0]}
			for i := 1; i < len(f); i += 2 {
				k.Inputs = append(k.Inputs, calculators.Written{Name: f[i], Text: f[i+1]})
			}
			n.Things[last].Sums = append(n.Things[last].Sums, k)
		case sort == Material || sort == Soil || sort == Tank || sort == Chemistry:
			n.Things = append(n.Things, Thing{Sort: sort, Name: f[0], Title: f[1], Also: f[2:]})
		default:
			return nil, ErrDamaged
		}
	}
	return nil, ErrDamaged
}

// learn folds the names of a thing, once.
func (t *Thing) learn() {
	if t.own != nil {
		return
	}
	title, _, _ := strings.Cut(t.Title, ",")
	title, _, _ = strings.Cut(title, " (")
	for _, name := range []string{t.Title, t.Name} {
		t.own = append(t.own, fold(name))
	}
	if t.Sort == Tank {
		t.own = append(t.own, strings.ReplaceAll(fold(t.Title), " ", ""))
	} else {
		t.loose = append(t.loose, fold(title))
	}
	for _, name := range t.Also {
		t.loose = append(t.loose, fold(name))
	}
}

// How well a name fits a thing.
const (
	not = iota
	loosely
	exactly
)

// called tells how well a folded name fits: exactly where it is the thing's own name; loosely where people call it so, or where every word is one of its
// title.
func (t *Thing) called(name string) int {
	t.learn()
	for _, own := range t.own {
		if own == name {
			return exactly
		}
	}
	for _, loose := range t.loose {
		if loose == name {
			return loosely
		}
	}
	if t.Sort == Tank {
		return not
	}
	title := " " + t.own[0] + " "
	for word := range strings.FieldsSeq(name) {
		if len(word) < 3 || isSmall(word) || !strings.Contains(title, " "+word+" ") {
			return not
		}
	}
	return loosely
}

// known gives what the shop knows of a tank for a calculator.
func (t *Thing) known(calculator string) []calculators.Written {
	for _, k := range t.Sums {
		if k.Calculator == calculator {
			return k.Inputs
		}
	}
	return nil
}
