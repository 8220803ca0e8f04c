package handout

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"tankside/builder/decide/admit"
	"tankside/builder/finding"
	"tankside/builder/language"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sums"
	"tankside/calculators"
)

// Kit is what sheets are made of, in one language. What it gives never changes; it may be asked by several goroutines.
type Kit struct {
	m     *manual.Manual
	table *admit.Table
	words language.Words // of the interface
	sums  language.Words // of the calculators
	local func(*manual.Article) *manual.Article
	work  *work
}

// work is what calculators gave for values, by calculator and values. Kits of the same words share it.
type work struct {
	lock sync.Mutex
	done map[string]answers
}

// answers are those of a calculator in both families of units; ok is false where the shop file does not tell enough for it.
type answers struct {
	in [2]calculators.Answer // by quantity.System
	ok bool
}

// New makes a kit. local gives an article in the language of the words, or the article itself.
func New(m *manual.Manual, table *admit.Table, words, sums language.Words, local func(*manual.Article) *manual.Article) *Kit {
	return &Kit{m: m, table: table, words: words, sums: sums, local: local, work: &work{done: map[string]answers{}}}
}

// Over is a kit with the same words over another view of the manual, one that notes what is asked of it. local is as for New. What one of the kits has
// worked out the other need not: the same values give the same.
func (k *Kit) Over(m *manual.Manual, local func(*manual.Article) *manual.Article) *Kit {
	over := New(m, k.table, k.words, k.sums, local)
	over.work = k.work
	return over
}

func (k *Kit) title(a *manual.Article) string { return k.local(a).Head.Title }

func (k *Kit) chemistry(name string) *manual.Article { return k.m.Named(manual.Chemistry, name) }

// answer asks a calculator.
func (k *Kit) answer(calculator string, given map[string]string) (answers, error) {
	values, err := sums.Values(k.m, calculator, given)
	if err != nil {
		return answers{}, err
	}
	c, known := calculators.Named(calculator)
	if !known {
		return answers{}, calculators.Unknown(calculator)
	}
	return k.work.out(c, k.sums, values), nil
}

// out gives what a calculator makes of values.
func (w *work) out(c *calculators.Calculator, words language.Words, values map[string]string) answers {
	key := fmt.Sprint(c.Name, values)
	w.lock.Lock()
	defer w.lock.Unlock()
	if a, has := w.done[key]; has {
		return a
	}
	a := answers{ok: true}
	for _, in := range []quantity.System{quantity.SI, quantity.US} {
		var err error
		if a.in[in], err = c.RunIn(words, values, in); err != nil {
			a.ok = false // what is missing for it is a finding of the proof-reader
		}
	}
	w.done[key] = a
	return a
}

// reading is one result of a calculator; empty where the shop file does not tell enough for it.
func (k *Kit) reading(calculator, reading string, given map[string]string) (Text, error) {
	a, err := k.answer(calculator, given)
	if err != nil || !a.ok {
		return Text{}, err
	}
	return both(func(in quantity.System) string {
		r, ok := a.in[in].Reading(reading)
		if !ok {
			return ""
		}
		if b := r.Bounds(); b != "" {
			return b
		}
		return r.String()
	}), nil
}

// amount is one result of a calculator as a number in its SI unit; false where the shop file does not tell enough for it.
func (k *Kit) amount(calculator, reading string, given map[string]string) (float64, bool, error) {
	a, err := k.answer(calculator, given)
	if err != nil || !a.ok {
		return 0, false, err
	}
	r, ok := a.in[quantity.SI].Reading(reading)
	return r.SI, ok && !r.InWords(), nil
}

// facts gathers rows and leaves out the empty ones.
type facts []Row

func (f *facts) add(name string, value Text) {
	if !value.empty() {
		*f = append(*f, Row{Name: name, Value: value})
	}
}

func (k *Kit) heading(text string) Block { return Block{Sort: Heading, Head: text} }

func (k *Kit) note(head, text string) Block {
	return Block{Sort: Words, Head: head, Text: Plain(text)}
}

// blanks are lines to write on, so many side by side.
func blanks(across int, names ...string) Block {
	b := Block{Sort: Blanks, Across: across}
	for _, n := range names {
		b.Rows = append(b.Rows, Row{Name: n})
	}
	return b
}

func checks(rows ...Row) Block { return Block{Sort: Checks, Rows: rows} }

// besides are checks of which two stand side by side.
func besides(rows ...Row) Block { return Block{Sort: Checks, Rows: rows, Across: 2} }

func plainRows(texts ...string) []Row {
	var list []Row
	for _, t := range texts {
		list = append(list, Row{Name: t})
	}
	return list
}

// messages are safety messages grouped under their signal words, the gravest first, as ANSI Z535.6 has it.
type messages []Block

// say adds a message, once.
func (m *messages) say(word string, text Text, at finding.Place) {
	gravity := func(b Block) int {
		return slices.Index(manual.SignalWords, b.Head) - slices.Index(manual.SignalWords, word)
	}
	i := slices.IndexFunc(*m, func(b Block) bool { return gravity(b) >= 0 })
	switch {
	case i < 0:
		i = len(*m)
		*m = append(*m, Block{Sort: Message, Head: word, Class: strings.ToLower(word)})
	case gravity((*m)[i]) > 0:
		*m = slices.Insert(*m, i, Block{Sort: Message, Head: word, Class: strings.ToLower(word)})
	}
	b := &(*m)[i]
	if !slices.ContainsFunc(b.Rows, func(r Row) bool { return r.Value == text }) {
		b.Rows = append(b.Rows, Row{Value: text, At: at})
	}
}

// opening takes over the safety messages that stand before everything else in an article.
func (k *Kit) opening(m *messages, a *manual.Article) { k.openingBut(m, a) }

// openingBut takes over all of them but those of some signal words.
func (k *Kit) openingBut(m *messages, a *manual.Article, words ...string) {
	own := k.local(a)
	before := -1
	for _, s := range own.Sections {
		if s.Level > 0 {
			before = s.At.Line
			break
		}
	}
	for _, s := range own.Signals {
		if !slices.Contains(words, s.Word) && (before < 0 || s.At.Line < before) {
			m.say(s.Word, Plain(s.Text), s.At)
		}
	}
}

// running adds the calculators' cautions for a bath that runs: it scalds, and no hand goes into it. The readings that they are said with are those of the sum degas.
func (k *Kit) running(m *messages, t *manual.Tank) error {
	if t.Vessel == manual.Jar {
		return nil
	}
	a, err := k.answer("degas", map[string]string{"tank": t.ID})
	if err != nil || !a.ok {
		return err
	}
	us := a.in[quantity.US].Cautions
	for i, caution := range a.in[quantity.SI].Cautions {
		if caution.Signal <= calculators.Careful && i < len(us) {
			m.say(caution.Signal.String(), Text{caution.Text, us[i].Text}, t.At)
		}
	}
	return nil
}

// hazards are the hazard statements of a header, each with its code.
func (k *Kit) hazards(refs []manual.Ref) string {
	var list []string
	for _, h := range refs {
		list = append(list, strings.TrimSpace(h.Name+" "+k.words.Say(manual.HazardStatements[h.Name])))
	}
	return strings.Join(list, "; ")
}

// never are the titles of what a chemistry must not meet.
func (k *Kit) never(a *manual.Article) string {
	var list []string
	for _, n := range a.Chemistry.NeverWith {
		if other := k.chemistry(n.Name); other != nil {
			list = append(list, k.title(other))
		} else {
			list = append(list, k.words.Say(strings.ReplaceAll(n.Name, "-", " ")))
		}
	}
	return strings.Join(list, ", ")
}

// wear is the protective equipment of an article in the kit's language.
func (k *Kit) wear(a *manual.Article) []string {
	switch own := k.local(a); {
	case own.Chemistry != nil:
		return own.Chemistry.ProtectiveEquipment
	case own.Procedure != nil:
		return own.Procedure.ProtectiveEquipment
	}
	return nil
}

// protection is what is said of hazards, equipment and first aid for a chemistry.
func (k *Kit) protection(a *manual.Article) []Block {
	var list []Block
	add := func(head, text string) {
		if text != "" {
			list = append(list, Block{Sort: Words, Head: head, Text: Plain(text), At: a.Head.At["hazards"]})
		}
	}
	add(k.words.Say("Wear"), strings.Join(k.wear(a), ", "))
	add(k.words.Say("Hazards"), k.hazards(a.Chemistry.Hazards))
	add(k.words.Say("Never with"), k.never(a))
	return list
}

// help is where help comes from.
func (k *Kit) help(ask string) []Block {
	if ask != "" {
		ask = " (" + ask + ")"
	}
	return []Block{
		{Sort: Words, Text: Plain(k.words.Say("First aid: section 4 of the safety data sheet. Local codes and licensed practice come first."))},
		blanks(2, k.words.Say("Emergency"), k.words.Say("Ask")+ask),
	}
}
