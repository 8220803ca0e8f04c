package starter

import (
	"fmt"
	"strings"
)

// Question is what is to be answered next.
type Question struct {
	Of    string // of what it is asked: "" for the shop, "Wash 1"
	Text  string
	Usual string // what no answer stands for, or ""
	Empty bool   // no answer leaves it unknown
}

// MostTanks is how many tanks, and how many rinses, are asked for.
const MostTanks = 24

// Walk goes through the questions with the answers that have been given, from the first. given are answers that need no question, by the names of ShopFields and
// WaterFields; known is what is known already, of which tanks are not asked for again. It gives the shop as far as it is known and the next question, nil after the
// last. The error is a sentence about the last answer, with which the walk ends: the question is then that of this answer.
//
// To go back by one question is to walk with one answer less.
func Walk(known Shop, given map[string]string, answers []string) (Shop, *Question, error) {
	known.Tanks, known.Rinses = append([]Tank(nil), known.Tanks...), append([]Rinse(nil), known.Rinses...)
	w := &walk{shop: known, answers: answers}
	w.all(given)
	return w.shop, w.next, w.err
}

// walk is a walk on its way. It has ended when next is set.
type walk struct {
	shop    Shop
	answers []string
	next    *Question
	err     error
}

func (w *walk) all(given map[string]string) {
	s := &w.shop
	fields(w, "", ShopFields, s, given)
	fields(w, "", WaterFields, &s.Water, given)
	if len(s.Tanks) == 0 {
		for more := w.next == nil; more && len(s.Tanks) < MostTanks; more = w.yes("", "Is there another tank, yes or no?", "no") {
			t := Tank{}
			name := fmt.Sprintf("Wash %d", len(s.Tanks)+1)
			if fields(w, name, named(TankFields, name), &t, nil) {
				s.Tanks = append(s.Tanks, t)
			}
		}
	}
	if len(s.Rinses) == 0 {
		for more := w.yes("", "Is there a rinse, yes or no?", "no"); more && len(s.Rinses) < MostTanks; more = w.yes("", "Is there another rinse, yes or no?", "no") {
			r := Rinse{}
			name := fmt.Sprintf("Rinse %d", len(s.Rinses)+1)
			if fields(w, name, named(RinseFields, name), &r, nil) {
				s.Rinses = append(s.Rinses, r)
			}
		}
	}
	if s.Dryer == nil && w.yes("", "Is there a dryer, yes or no?", "no") {
		d := Dryer{}
		if fields(w, "Dryer", DryerFields, &d, nil) {
			s.Dryer = &d
		}
	}
}

// named has the first field, the name, propose one.
func named[T any](list []Field[T], name string) []Field[T] {
	list = append([]Field[T](nil), list...)
	list[0].Usual = plain(name)
	return list
}

// fields asks for fields, and tells whether all are known.
func fields[T any](w *walk, of string, list []Field[T], to *T, given map[string]string) bool {
	for _, f := range list {
		if w.next != nil {
			return false
		}
		system := w.shop.System()
		if text := given[f.Name]; text != "" {
			if w.err = f.Set(to, text, system); w.err != nil {
				w.err = fmt.Errorf("--%s: %w", f.Name, w.err)
				w.next = &Question{}
				return false
			}
			continue
		}
		w.put(Question{of, f.Ask(system), f.Usual(system), f.Empty}, func(answer string) error {
			if answer == "" {
				return nil
			}
			return f.Set(to, answer, system)
		})
	}
	return w.next == nil
}

// put takes the answer to a question, or leaves the question to be asked.
func (w *walk) put(q Question, set func(answer string) error) {
	if w.next != nil {
		return
	}
	if len(w.answers) == 0 {
		w.next = &q
		return
	}
	answer := strings.TrimSpace(w.answers[0])
	w.answers = w.answers[1:]
	if answer == "" {
		answer = q.Usual
	}
	switch {
	case answer == "" && !q.Empty:
		w.err = fmt.Errorf("this is needed")
	default:
		w.err = set(answer)
	}
	if w.err != nil {
		w.next = &q
	}
}

// yes asks whether something is so.
func (w *walk) yes(of, text, usual string) bool {
	is := false
	w.put(Question{Of: of, Text: text, Usual: usual}, func(answer string) error {
		switch strings.ToLower(answer) {
		case "y", "yes":
			is = true
		case "n", "no":
		default:
			return fmt.Errorf("write yes or no")
		}
		return nil
	})
	return is && w.next == nil
}
