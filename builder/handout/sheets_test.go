package handout

import (
	"context"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
)

// said is all that a sheet says, for readers of SI units.
func said(s *Sheet) string {
	var b strings.Builder
	for i := range s.Sides {
		for _, block := range s.Sides[i].Blocks {
			b.WriteString(block.Head + "\n" + block.Text.SI + "\n")
			for _, r := range block.Rows {
				b.WriteString(r.Name + ": " + r.Value.SI)
				for _, cell := range r.Cells {
					b.WriteString(" | " + cell.SI)
				}
				b.WriteString("\n")
			}
			for _, c := range block.Columns {
				b.WriteString(c.Head + " " + c.Limit.SI + "\n")
			}
		}
	}
	return strings.ReplaceAll(b.String(), "\u00a0", " ")
}

// On every sheet, side by side, the graver message stands first, and a sheet of a tank in use has at least one.
func TestGravestFirst(t *testing.T) {
	_, k := demoKit(t)
	list, err := k.All()
	if err != nil {
		t.Fatal(err)
	}
	for i := range list {
		var order []int
		for _, side := range list[i].Sides {
			for _, b := range side.Blocks {
				if b.Sort == Message && !list[i].Folded {
					order = append(order, slices.Index(manual.SignalWords, b.Head))
				}
			}
		}
		if !slices.IsSorted(order) || slices.Contains(order, -1) {
			t.Errorf("%s %s has the signal words in the order %v", list[i].Kind, list[i].Name, order)
		}
		if list[i].Tank != nil && len(order) == 0 {
			t.Errorf("%s %s warns of nothing", list[i].Kind, list[i].Name)
		}
	}
}

// A process sheet has every condition of the decision about it in full, and the hazards, the protective equipment and the opening messages of every chemistry that the part meets.
func TestProcessSheets(t *testing.T) {
	m, k := demoKit(t)
	list, err := k.ProcessSheets()
	if err != nil {
		t.Fatal(err)
	}
	conditions := 0
	for i := range list {
		text := said(&list[i])
		a, err := k.table.Sheet(list[i].ID)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range a.Reasons {
			if (r.Keeps() || r.Verdict == admit.No) && !strings.Contains(text, strings.ReplaceAll(r.Says.In(nil, quantity.SI), "\u00a0", " ")) {
				t.Errorf("%s does not say %q", list[i].Name, r.Text)
			}
			if r.Keeps() {
				conditions++
			}
		}
		part := m.Named(manual.Part, list[i].ID)
		for _, step := range part.Part.Steps {
			c := m.Named(manual.Chemistry, m.Shop.Tank(step.Tank.Name).Chemistry.Name)
			for _, h := range c.Chemistry.Hazards {
				if !strings.Contains(text, h.Name+" "+manual.HazardStatements[h.Name]) {
					t.Errorf("%s does not name %s of %s", list[i].Name, h.Name, c.Head.Title)
				}
			}
			for _, w := range c.Chemistry.ProtectiveEquipment {
				if !strings.Contains(text, w) {
					t.Errorf("%s does not say to wear %s", list[i].Name, w)
				}
			}
			for _, want := range []string{step.Temperature.String(), step.Time.String(), step.Strength.String()} {
				if !strings.Contains(text, strings.ReplaceAll(want, "\u00a0", " ")) {
					t.Errorf("%s does not say %s", list[i].Name, want)
				}
			}
		}
		for _, s := range part.Signals {
			if !strings.Contains(text, strings.ReplaceAll(s.Text, "\u00a0", " ")) && s.At.Line < part.Sections[1].At.Line {
				t.Errorf("%s leaves out %q", list[i].Name, s.Text)
			}
		}
		for _, c := range a.Cautions {
			if (c.Signal == "DANGER" || c.Signal == "WARNING") && opens(m, c) && !strings.Contains(text, strings.ReplaceAll(c.Text, "\u00a0", " ")) {
				t.Errorf("%s leaves out %s of %s: %q", list[i].Name, c.Signal, c.Article, c.Text)
			}
		}
	}
	if len(list) != 14 || conditions == 0 {
		t.Errorf("%d sheets, %d conditions", len(list), conditions)
	}
}

// opens tells whether a message stands before the first heading of its article.
func opens(m *manual.Manual, c admit.Caution) bool {
	for _, s := range m.At(c.Article).Sections {
		if s.Level > 0 {
			return c.Line < s.At.Line
		}
	}
	return true
}

// The first-aid card has every harm that the procedure gives first aid for, every message, and every step of its text.
func TestFirstAidCard(t *testing.T) {
	m, k := demoKit(t)
	list := k.FirstAid()
	if len(list) != 1 {
		t.Fatalf("%d cards", len(list))
	}
	text := said(&list[0])
	a := m.Named(manual.Procedure, "first-aid")
	steps := 0
	for _, b := range a.Blocks {
		if b.Steps && !strings.Contains(text, strings.ReplaceAll(b.Text, "\u00a0", " ")) {
			t.Errorf("it leaves out %q", b.Text)
		}
		if b.Steps {
			steps++
		}
	}
	for _, want := range []string{"Burns by heat", "Cool running water, 20 min", "do not go in after them", "Wash 1: Mild alkaline cleaner, H315, H318"} {
		if !strings.Contains(text, want) {
			t.Errorf("it does not say %q", want)
		}
	}
	if steps < 20 {
		t.Errorf("only %d steps were looked for", steps)
	}
}

// First aid that is written without headings, or with steps before the first, is on the card as well, numbered, and its messages once.
func TestFirstAidWithoutHeadings(t *testing.T) {
	t.Parallel()
	const steps = "1. Eyes: rinse with water for 15 min, lids held open.\n2. Skin: clothes off, rinse with water for 15 min.\n3. Call the emergency number.\n"
	const danger = "> **DANGER** Nobody is made to vomit.\n\n"
	for name, text := range map[string]string{
		"no heading":              danger + steps,
		"steps before a heading":  danger + steps + "\n## Later\n\nWrite it down.\n",
		"words before the first":  danger + "Read it on a quiet day.\n\n## Eyes\n\n" + steps,
		"words and no heading":    danger + "Keep calm.\n\n" + steps,
		"messages between":        steps[:strings.Index(steps, "3.")] + "\n" + danger + "3. Call the emergency number.\n",
		"messages below":          "## Eyes\n\n" + danger + steps,
		"paragraphs and no lists": danger + "Eyes: rinse with water for 15 min, lids held open.\n\nSkin: clothes off, rinse with water for 15 min.\n\nCall the emergency number.\n",
	} {
		files := fstest.MapFS{}
		if err := fs.WalkDir(os.DirFS("../../content"), ".", func(path string, e fs.DirEntry, err error) error {
			if err != nil || e.IsDir() {
				return err
			}
			data, err := os.ReadFile(filepath.Join("../../content", path))
			files[path] = &fstest.MapFile{Data: data}
			return err
		}); err != nil {
			t.Fatal(err)
		}
		head, _, _ := strings.Cut(string(files["procedures/first-aid.md"].Data), "\n---\n")
		files["procedures/first-aid.md"].Data = []byte(head + "\n---\n" + text)
		m, _, err := manual.Read(context.Background(), files)
		if err != nil {
			t.Fatal(err)
		}
		k := New(m, relate.Table(m), nil, nil, func(a *manual.Article) *manual.Article { return a })
		list := k.FirstAid()
		card := said(&list[0])
		for _, want := range []string{"lids held open", "clothes off", "Call the emergency number", "Nobody is made to vomit"} {
			if strings.Count(card, want) != 1 {
				t.Errorf("%s: the card says %q %d times:\n%s", name, want, strings.Count(card, want), card)
			}
		}
	}
}

// The forms have the shop's own values: set-points with what the chemistry allows, volumes, what a fill takes, hazards.
func TestFormsHaveTheShopsValues(t *testing.T) {
	_, k := demoKit(t)
	list, err := k.All()
	if err != nil {
		t.Fatal(err)
	}
	for want, says := range map[string][]string{
		"Log sheet wash-1":             {"62 °C\n(50–70 °C)", "4 % v/v\n(2–10 % v/v)", "pH 9–11", "goggles, chemical gloves, apron", "scalds"},
		"Log sheet rinse-2":            {"12 µS/cm", "45 °C", "1 L/min"},
		"Log sheet dryer":              {"80 °C"},
		"Whiteboard of the day wash-2": {"48 °C", "2 % v/v", "28 L", "1.8 % v/v: − 57 mL, + 57 mL (100 mL cylinder)", "48 °C\n(35–55 °C)"},
		"Form trial":                   {"Wash 1 | Mild alkaline cleaner | 4 % v/v\n(2–10 % v/v) | 62 °C\n(50–70 °C) | 3–20 min | 40 kHz | 9–11", "No trial with sealed"},
		"Bath change wash-1":           {"Water: 115 L (water meter)", "Concentrate: 4.8 L (5 L jug)", "H318 Causes serious eye damage", "Never let acid meet this bath", "Titration of an alkaline or acid bath: 4 % v/v"},
		"Waste hand-over wash-1":       {"Volume, full: 120 L", "carbonate, phosphate, surfactant, inhibitor", "pH: 9–11", "H318", "acid"},
		"Form visit":                   {"Wash 2 | Ultrasonics | 500 W", "Rinse | Conductivity | 680 µS/cm", "Dryer | Temperature | 80 °C", "lock out"},
		"Pocket sheet pocket-1":        {"Power in the bath: 10 W/L", "Heats up in: 72 min from 12 °C", "Fresh water: 4 L/min"},
	} {
		i := slices.IndexFunc(list, func(s Sheet) bool { return s.Kind+" "+s.ID == want })
		if i < 0 {
			t.Errorf("there is no %s", want)
			continue
		}
		text := said(&list[i])
		for _, s := range says {
			if !strings.Contains(text, s) {
				t.Errorf("%s does not say %q", want, s)
			}
		}
	}
}

// What does not fit is told with where it is written, the longest first; nothing is left out of the sheet for it.
func TestMisfits(t *testing.T) {
	long := strings.Repeat("Nobody reads this at the tank. ", 60)
	at := func(line int) finding.Place { return finding.Place{File: "chemistries/x.md", Line: line, Column: 1} }
	var m messages
	m.say("NOTICE", Plain("Short."), at(1))
	m.say("WARNING", Plain(long), at(2))
	m.say("DANGER", Plain(long), at(3))
	sheet := Sheet{Name: "Wash 1", Format: CardFormat, Most: 1, Sides: fill(apart(Block{}, m), CardFormat)}
	found := Misfits([]Sheet{sheet})
	if len(found) == 0 || found[0].Longest != at(3) || found[0].Takes <= found[0].Has || !slices.Contains(found[len(found)-1].Also, at(2)) {
		t.Errorf("%+v", found)
	}
	if text := said(&sheet); strings.Count(text, "Nobody reads this") != 120 || !strings.Contains(text, "Short.") {
		t.Error("something was left out")
	}
	if found := Misfits([]Sheet{{Name: strings.Repeat("long ", 20), Format: CardFormat, Named: at(9)}}); len(found) != 1 || !found[0].OfName || found[0].Longest != at(9) {
		t.Errorf("of a long name: %+v", found)
	}
	if found := Misfits([]Sheet{{Name: "Wash 1", Format: CardFormat, Sides: []Side{{[]Block{{Sort: Words, Text: Plain("Short.")}}}}}}); len(found) != 0 {
		t.Errorf("of what fits: %+v", found)
	}
}

// Lines are counted as a browser breaks them: at blanks, not at no-break spaces, within a word only where it is wider than the line; the longer of both families counts.
func TestLines(t *testing.T) {
	em := func(text string) float64 {
		w := 0.0
		for _, r := range text {
			w += regular.of(r)
		}
		return w
	}
	for _, c := range []struct {
		text  Text
		width float64
		want  int
	}{
		{Plain("aaaa bbbb"), em("aaaa bbbb") + 0.001, 1}, {Plain("aaaa bbbb"), em("aaaa bbbb") - 0.001, 2}, {Plain("aaaa\u00a0bbbb cc"), em("aaaa\u00a0bbbb") + 0.001, 2},
		{Plain("aaaaaaaa"), em("aaaa") + 0.001, 2}, {Plain("a\nb"), 10, 2}, {Plain(""), 10, 0}, {Text{"a", "a b c d"}, em("a b c"), 2}, {Plain("  "), 3, 0},
	} {
		if got := lines(c.width, run{c.text, &regular}); got != c.want {
			t.Errorf("%q takes %d lines of %.2f em, wants %d", c.text, got, c.width, c.want)
		}
	}
	if w := regular.of('W'); math.Abs(w-0.989) > 0.001 {
		t.Errorf("W is %g em wide", w)
	}
}
