package ledger

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

func digestOf(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])
}

func entryOf(number int, text string) Entry {
	return Entry{Number: number, Date: fmt.Sprintf("2026-12-%02d", 1+number%28), Digest: digestOf(text), By: "a trainer", Changed: "this | and\nthat"}
}

func TestEntriesAreReadAsTheyAreWritten(t *testing.T) {
	t.Parallel()
	e := Entry{Number: 12, Date: "2026-12-01", Digest: digestOf("x"), Changed: "wash-1 62 °C → 60 °C", Revision: strings.Repeat("ab", 20),
		Renamed: []Renamed{{"soils/a.md", "soils/b.md"}, {"soils/c.md", "soils/d.md"}}}
	l, _ := Ledger{}.With(e)
	got := l.Entries()
	if len(got) != 1 || got[0].String() != e.String() || len(got[0].Renamed) != 2 || got[0].Revision != e.Revision || got[0].By != "" || got[0].Changed != e.Changed {
		t.Errorf("%+v", got)
	}
	l, _ = l.With(entryOf(13, "y"))
	if e, _ := l.Newest(); e.Number != 13 || e.Changed != "this / and that" || l.Next() != 14 {
		t.Errorf("%+v", e)
	}
	if e, _ := l.Of(digestOf("x")); e.Number != 12 {
		t.Error("the entry of a digest is not found")
	}
	if e, _ := l.Before(digestOf("y")); e.Number != 12 {
		t.Error("the entry before is not found")
	}
	if e, some := l.Before(digestOf("z")); !some || e.Number != 13 {
		t.Error("what is not entered comes after the newest")
	}
	if _, some := l.Before(digestOf("x")); some {
		t.Error("there is something before the first entry")
	}
	for _, name := range []string{"12", got[0].Code(), strings.ToLower(got[0].Code())} {
		if e, is := l.Called(name); !is || e.Number != 12 {
			t.Errorf("%s is not found", name)
		}
	}
}

// A manual that goes back to an older content is another edition with the same code; a copy of the older one is as good.
func TestGoingBackIsANewEdition(t *testing.T) {
	t.Parallel()
	var l Ledger
	for n, text := range []string{"x", "y", "x"} {
		l, _ = l.With(entryOf(n+1, text))
	}
	if e, _ := l.Of(digestOf("x")); e.Number != 3 {
		t.Errorf("the content is edition %d", e.Number)
	}
	if e, _ := l.Before(digestOf("x")); e.Number != 2 {
		t.Errorf("before it was %d", e.Number)
	}
}

// What is no entry is a fault with its line, and everything else counts.
func TestFaultsAreNamed(t *testing.T) {
	t.Parallel()
	good := entryOf(1, "x").String()
	other := entryOf(1, "y")
	for name, line := range map[string]string{
		"a word": "hello", "no number": strings.Replace(good, "1 |", "one |", 1), "a number too great": strings.Replace(good, "1 |", "1000000000 |", 1), "no date": strings.Replace(good, "2026-12-02", "2.12.2026", 1),
		"another code": strings.Replace(good, entryOf(1, "x").Code(), other.Code(), 1), "another digest": strings.Replace(good, digestOf("x"), digestOf("y"), 1),
		"half a digest": good[:len(good)-10], "no revision": strings.Replace(good, "| - | "+digestOf("x"), "| main | "+digestOf("x"), 1), "a renaming to nothing": strings.Replace(good, "| - | -", "| a.md | -", 1),
		"a mark": "<<<<<<< HEAD",
	} {
		l, faults := Parse([]byte("# remark\r\n\r\n" + entryOf(2, "z").String() + "\r\n" + line + "\r\n"))
		if len(faults) != 1 || faults[0].Line != 4 || faults[0].Problem == "" || len(l.Entries()) != 1 {
			t.Errorf("%s: %+v, %d entries", name, faults, len(l.Entries()))
		}
	}
}

// Two people who enter editions on two branches have one ledger with all entries afterwards, whether git joins it by itself or leaves its marks; and it is
// the same ledger whichever side is whose.
func TestMergesLoseNoEntry(t *testing.T) {
	t.Parallel()
	git, err := exec.LookPath("git")
	if err != nil {
		t.Skip("there is no git here")
	}
	dir := t.TempDir()
	write := func(name string, text []byte) string {
		file := filepath.Join(dir, name)
		if err := os.WriteFile(file, text, 0o644); err != nil {
			t.Fatal(err)
		}
		return file
	}
	rivals := 0
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 5))
		var all []Entry
		grow := func(l Ledger, n int) Ledger {
			for range n {
				e := entryOf(l.Next(), fmt.Sprint(r.IntN(30)))
				all = append(all, e)
				l, _ = l.With(e)
			}
			return l
		}
		base := grow(Ledger{}, 1+r.IntN(4))
		ours, theirs := grow(base, r.IntN(4)), grow(base, r.IntN(4))
		endless := func(l Ledger) []byte { // an editor need not end the last line
			if r.IntN(6) == 0 {
				return bytes.TrimSuffix(l.Text(), []byte("\n"))
			}
			return l.Text()
		}
		a, o, b := write("a", endless(ours)), write("o", base.Text()), write("b", endless(theirs))
		var joined []Ledger
		for _, args := range [][]string{{"--union", a, o, b}, {"--union", b, o, a}, {"--diff3", a, o, b}} {
			out, err := exec.Command(git, append([]string{"merge-file", "-p"}, args...)...).Output()
			if len(out) == 0 {
				t.Fatal(err)
			}
			l, faults := Parse(out)
			for _, f := range faults {
				if args[0] == "--union" || !f.Conflict {
					t.Fatalf("seed %d: %+v in\n%s", seed, f, out)
				}
			}
			joined = append(joined, l)
		}
		for i, l := range joined {
			for _, e := range all {
				if !slices.ContainsFunc(l.Entries(), func(o Entry) bool { return o.String() == e.String() }) {
					t.Fatalf("seed %d: merge %d has lost %s", seed, i, e)
				}
			}
			if !slices.EqualFunc(l.Entries(), joined[0].Entries(), func(a, b Entry) bool { return a.String() == b.String() }) || l.Next() != joined[0].Next() || len(l.Missing()) > 0 {
				t.Fatalf("seed %d: merge %d is another ledger", seed, i)
			}
		}
		if list := joined[0].Rivals(); list != nil {
			rivals++
			after, _ := joined[0].With(entryOf(joined[0].Next(), "joined"))
			if after.Rivals() != nil {
				t.Error("the next entry does not end the quarrel")
			}
		}
	}
	if rivals < 10 {
		t.Errorf("only %d merges had two editions of one number", rivals)
	}
}

func TestMissingNumbersAreNamed(t *testing.T) {
	t.Parallel()
	l, _ := Parse([]byte(entryOf(1, "a").String() + "\n" + entryOf(4, "b").String() + "\n"))
	if got := l.Missing(); !slices.Equal(got, []int{2, 3}) {
		t.Errorf("%v", got)
	}
}

// Every name that a file has had leads to the one that it has.
func TestForwardsFollowEveryName(t *testing.T) {
	t.Parallel()
	var l Ledger
	for n, r := range [][]Renamed{{{"a.md", "b.md"}}, {{"b.md", "c.md"}, {"x.md", "y.md"}}, {{"y.md", "gone.md"}}} {
		e := entryOf(n+1, fmt.Sprint(n))
		e.Renamed = r
		l, _ = l.With(e)
	}
	got := l.Forwards([]Renamed{{"c.md", "d.md"}}, func(path string) bool { return path == "d.md" })
	if len(got) != 3 || got["a.md"] != "d.md" || got["b.md"] != "d.md" || got["c.md"] != "d.md" {
		t.Errorf("%v", got)
	}
	// A name that is taken again is no old address any more.
	got = l.Forwards(nil, func(path string) bool { return path == "a.md" || path == "c.md" })
	if got["a.md"] != "" || got["b.md"] != "c.md" {
		t.Errorf("%v", got)
	}
}
