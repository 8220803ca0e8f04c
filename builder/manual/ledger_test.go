package manual

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/ledger"
)

// A ledger with faults is told of, what can be read of it counts, and the rest of the manual is read as ever.
func TestFaultsOfTheLedger(t *testing.T) {
	t.Parallel()
	entry := func(number int, digit string) string {
		return ledger.Entry{Number: number, Date: "2026-12-01", Digest: strings.Repeat(digit, 64)}.String() + "\n"
	}
	for name, c := range map[string]struct {
		text, rule string
		line       int
		entries    int
	}{
		"no line":             {entry(1, "a") + "hello\n", "unreadable-ledger", 2, 1},
		"marks of a merge":    {entry(1, "a") + "<<<<<<< ours\n" + entry(2, "b") + "=======\n" + entry(2, "b") + ">>>>>>> theirs\n", "two-versions", 2, 2},
		"one number twice":    {entry(1, "a") + entry(2, "b") + entry(2, "c"), "one-number-twice", 3, 3},
		"it is history":       {entry(1, "a") + entry(2, "b") + entry(2, "c") + entry(3, "d"), "", 0, 4},
		"a number less":       {entry(1, "a") + entry(3, "b"), "missing-from-ledger", 0, 2},
		"a digest of another": {entry(1, "a") + strings.Replace(entry(2, "b"), strings.Repeat("b", 64), strings.Repeat("c", 64), 1), "unreadable-ledger", 2, 1},
	} {
		m, list, err := Read(context.Background(), fstest.MapFS{"shop.yaml": {Data: []byte("name: S\nroles: [process engineer]\n")}, "ledger.txt": {Data: []byte(c.text)}})
		if err != nil {
			t.Fatal(err)
		}
		found := 0
		for _, f := range list {
			if string(f.Rule) == c.rule && f.File == ledger.File && (f.Line == c.line || c.rule == "two-versions") {
				found++
			} else if f.File == ledger.File {
				t.Errorf("%s: %v", name, f)
			}
		}
		if (found == 0) != (c.rule == "") || m.Undecided || len(m.Ledger.Entries()) != c.entries {
			t.Errorf("%s: found %d times, undecided: %v, %d entries; %v", name, found, m.Undecided, len(m.Ledger.Entries()), list)
		}
	}
}
