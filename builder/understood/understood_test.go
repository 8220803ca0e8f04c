package understood

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"tankside/builder/content"
	"tankside/builder/ledger"
	"tankside/builder/manual"
)

func day(text string) time.Time {
	d, err := time.Parse(time.DateOnly, text)
	if err != nil {
		panic(err)
	}
	return d
}

func edition(n int, date string) ledger.Entry {
	return ledger.Entry{Number: n, Date: date, Digest: fmt.Sprintf("%016x%048d", n*7919, 0)}
}

func signature(t *testing.T, on string, of ledger.Entry, role, who string) Entry {
	t.Helper()
	e, err := NewEntry(day(on), of, role, who)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// What is written is read, with every line end and a byte order mark; a line that cannot be read is told and takes nothing else with it.
func TestRecordIsReadAsWritten(t *testing.T) {
	t.Parallel()
	a, b := signature(t, "2026-12-01", edition(1, "2026-11-30"), "operator", "R. Vale"), signature(t, "2026-12-02", edition(2, "2026-12-02"), "process  engineer", "Ünal, Ö.")
	var r Record
	for _, e := range []Entry{a, b} {
		r, _ = Parse(append(r.Text(), r.With(e)...))
	}
	for name, text := range map[string]string{"as it is": string(r.Text()), "CRLF": strings.ReplaceAll(string(r.Text()), "\n", "\r\n"), "a mark": "\uFEFF" + string(r.Text()), "no end": strings.TrimSuffix(string(r.Text()), "\n")} {
		got, faults := Parse([]byte(text))
		if fmt.Sprint(got.Entries()) != fmt.Sprint([]Entry{a, b}) || len(faults) > 0 {
			t.Errorf("%s: %v, %v", name, got.Entries(), faults)
		}
		if more, faults := Parse(append(got.Text(), got.With(a)...)); len(faults) > 0 || len(more.Entries()) != 2 {
			t.Errorf("%s: with a signature twice %v, %v", name, more.Entries(), faults)
		}
	}
	for line, want := range map[string]string{
		"2026-13-01 | 1 | " + a.Code + " | operator | A": "no date", "2026-12-01 | 0 | " + a.Code + " | operator | A": "no number", "2026-12-01 | 01 | " + a.Code + " | operator | A": "no number",
		"2026-12-01 | 1 | 234-567-891 | operator | A": "no code", "2026-12-01 | 1 | " + a.Code + " |  | A": "as what", "2026-12-01 | 1 | " + a.Code + " | operator | ": "as what",
		"R. Vale has read it": "1 cells",
	} {
		got, faults := Parse([]byte(string(r.Text()) + line + "\n"))
		if len(faults) != 1 || faults[0].Line != 6 || !strings.Contains(faults[0].Problem, want) || len(got.Entries()) != 2 {
			t.Errorf("%q: %v", line, faults)
		}
	}
	for _, c := range [][2]string{{"", "A"}, {"operator", " "}, {"operator", "A | B"}, {"operator", "A\nB"}, {"operator", strings.Repeat("x", 81)}} {
		if e, err := NewEntry(day("2026-12-01"), edition(1, "2026-11-30"), c[0], c[1]); err == nil {
			t.Errorf("%q is signed as %v", c, e)
		}
	}
	if _, err := NewEntry(day("2026-11-29"), edition(1, "2026-11-30"), "operator", "A"); err == nil {
		t.Error("an edition was read before there was one")
	}
}

// Whatever two people sign on two branches, the union of their records has all signatures of both, in whatever order version control puts the lines.
func TestRecordsMerge(t *testing.T) {
	t.Parallel()
	random := rand.New(rand.NewPCG(11, 23))
	for range 300 {
		sign := func(r Record) Record {
			e := signature(t, "2026-12-01", edition(1+random.IntN(4), "2026-11-30"), []string{"operator", "trainer"}[random.IntN(2)], string(rune('A'+random.IntN(8))))
			r, _ = Parse(append(slices.Clone(r.Text()), r.With(e)...))
			return r
		}
		var base Record
		for range random.IntN(4) {
			base = sign(base)
		}
		ours, theirs := base, base
		for range 1 + random.IntN(4) {
			ours, theirs = sign(ours), sign(theirs)
		}
		lines := slices.Concat(strings.Split(string(ours.Text()), "\n"), strings.Split(string(theirs.Text()), "\n"))
		random.Shuffle(len(lines), func(i, j int) { lines[i], lines[j] = lines[j], lines[i] })
		merged, faults := Parse([]byte("<<<<<<< ours\n" + strings.Join(lines, "\n") + "\n>>>>>>> theirs\n"))
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		for _, e := range slices.Concat(ours.Entries(), theirs.Entries()) {
			if !slices.Contains(merged.Entries(), e) {
				t.Fatalf("%v is lost", e)
			}
		}
	}
}

// small is a manual with two lessons for two roles, of which each has a station of its own.
func small(change map[string]string) fstest.MapFS {
	article := func(title, station, more, text string) string {
		return "---\ntitle: " + title + "\nsummary: A summary.\nstation: " + station + "\nrevision: A\napproved: not yet\nreview-by: 2030-01-01\nsources: [\"common practice, no source\"]\n" + more + "---\n" + text
	}
	files := map[string]string{
		"shop.yaml":               "name: Shop\nroles: [operator, trainer, safety officer]\ntanks:\n  - {id: wash-1, name: Wash 1, volume: 120 L, temperature: 60 °C}\n",
		"lessons/washing.md":      article("Washing", "wash", "order: 1\nduration: 30 min\nfor: [operator]\n", "Wash.\n"),
		"lessons/drying.md":       article("Drying", "dry", "order: 2\nduration: 30 min\nfor: [trainer]\n", "Dry.\n"),
		"procedures/fill.md":      article("Fill", "wash", "", "Fill it.\n\n## Water\n\nTake mains water.\n"),
		"procedures/blow.md":      article("Blow off", "dry", "", "Blow it off.\n"),
		"procedures/receive-a.md": article("Receive", "receive", "", "Look at it.\n"),
	}
	for name, text := range change {
		if files[name] = text; text == "" {
			delete(files, name)
		}
	}
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return fsys
}

func read(t *testing.T, fsys fstest.MapFS) (*manual.Manual, *content.Content) {
	t.Helper()
	m, findings, err := manual.Read(t.Context(), fsys)
	if err != nil {
		t.Fatal(err)
	}
	c, err := content.Of(m, nil, nil)
	if err != nil {
		t.Fatal(err, findings)
	}
	return m, c
}

// Everybody reads what has changed for their role since what they signed, what is nobody's, what was taken out and the values of the line. Whoever signed long ago,
// or what is not to be had any more, and whoever has signed nothing, reads everything that the role reads; and it is said where nobody has signed, or the shop has no such role.
func TestWhoReadsWhat(t *testing.T) {
	t.Parallel()
	_, before := read(t, small(nil))
	text := func(name string) string { return string(small(nil)[name].Data) }
	m, now := read(t, small(map[string]string{
		"procedures/fill.md":      strings.Replace(text("procedures/fill.md"), "mains water", "pure water", 1),
		"procedures/receive-a.md": strings.Replace(text("procedures/receive-a.md"), "Look at it", "Look twice", 1),
		"procedures/blow.md":      "",
		"procedures/wait.md":      strings.ReplaceAll(text("procedures/blow.md"), "low", "ait and wait until nothing drips from any of it. Then open the door and take out what is dry"),
		"shop.yaml":               strings.Replace(text("shop.yaml"), "60 °C", "58 °C", 1),
	}))
	one, two, lost := edition(1, "2025-01-01"), edition(2, "2026-06-01"), edition(3, "2026-06-02")
	var r Record
	for _, e := range []Entry{
		signature(t, "2026-10-01", two, "operator", "B"), signature(t, "2026-10-01", two, "trainer", "C"), signature(t, "2025-02-01", one, "operator", "A"),
		signature(t, "2026-10-01", lost, "operator", "D"), signature(t, "2026-10-01", two, "welder", "E"), signature(t, "2025-01-02", one, "trainer", "C"),
	} {
		r, _ = Parse(append(slices.Clone(r.Text()), r.With(e)...))
	}
	asked := 0
	list, err := Duties(m, now, r, day("2026-12-01"), func(e Entry) (*Edition, error) {
		asked++
		if e.Code == lost.Code() {
			return nil, nil
		}
		return &Edition{Content: before}, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if asked != 2 {
		t.Errorf("editions were asked for %d times", asked)
	}
	var told []string
	for _, role := range list {
		for _, p := range role.People {
			var reads []string
			for _, one := range p.Reads {
				item := one.Path + " " + string(one.State)
				for _, part := range one.Parts {
					item += fmt.Sprintf(" [%s %s%s%s]", part.Heading, part.Kind, part.Before, part.After)
				}
				reads = append(reads, item)
			}
			told = append(told, fmt.Sprintf("%s/%s %v %s: %s", role.Role, p.Who, role.Unknown, p.Why, strings.Join(reads, ", ")))
		}
	}
	const value = "shop.yaml changed [tanks: wash-1: temperature changed60 °C58 °C]"
	const nobodys = "procedures/blow.md taken out"
	const whole = "lessons/washing.md whole, procedures/fill.md whole, procedures/receive-a.md whole"
	want := []string{
		"operator/A false long: " + whole,
		"operator/B false : " + value + ", " + nobodys + ", procedures/fill.md changed [Water changed], procedures/receive-a.md changed [ changed]",
		"operator/D false lost: " + whole,
		"operator/ false never: " + whole,
		"trainer/C false : " + value + ", " + nobodys + ", procedures/receive-a.md changed [ changed], procedures/wait.md new",
		"trainer/ false never: lessons/drying.md whole, procedures/receive-a.md whole, procedures/wait.md whole",
		"safety officer/ false never: procedures/receive-a.md whole",
		"welder/E true : " + value + ", " + nobodys + ", procedures/receive-a.md changed [ changed]",
		"welder/ true never: procedures/receive-a.md whole",
	}
	if got := strings.Join(told, "\n"); got != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", got, strings.Join(want, "\n"))
	}
}

// FuzzParse: whatever a record holds, what is read of it is written and read as the same.
func FuzzParse(f *testing.F) {
	f.Add("# x\n2026-12-01 | 1 | " + edition(1, "").Code() + " | operator | R. Vale\n")
	f.Fuzz(func(t *testing.T, text string) {
		r, _ := Parse([]byte(text))
		var again Record
		for _, e := range r.Entries() {
			again, _ = Parse(append(slices.Clone(again.Text()), again.With(e)...))
		}
		if fmt.Sprint(again.Entries()) != fmt.Sprint(r.Entries()) {
			t.Fatalf("%v is read again as %v", r.Entries(), again.Entries())
		}
	})
}

// A picture that is another has whoever works by its article read that again, and is named.
func TestPictureThatHasChangedIsRead(t *testing.T) {
	t.Parallel()
	with := func(side string) fstest.MapFS {
		return small(map[string]string{
			"procedures/fill.md": string(small(nil)["procedures/fill.md"].Data) + "\n![A mark on the wall of the tank](../pictures/mark.svg)\n",
			"pictures/mark.svg":  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><path d="M0 0h` + side + `v5z"/></svg>`,
		})
	}
	_, before := read(t, with("5"))
	m, now := read(t, with("9"))
	two := edition(2, "2026-06-01")
	var r Record
	r, _ = Parse(r.With(signature(t, "2026-10-01", two, "operator", "B")))
	list, err := Duties(m, now, r, day("2026-12-01"), func(Entry) (*Edition, error) { return &Edition{Content: before}, nil })
	if err != nil {
		t.Fatal(err)
	}
	for _, role := range list {
		for _, p := range role.People {
			if p.Who != "B" {
				continue
			}
			if len(p.Reads) != 1 || p.Reads[0].Path != "procedures/fill.md" || len(p.Reads[0].Parts) != 1 || p.Reads[0].Parts[0].Heading != "pictures/mark.svg" {
				t.Errorf("%+v", p.Reads)
			}
			return
		}
	}
	t.Error("nobody is told")
}
