package record

import (
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"
)

// cases are those that the page's scripts are held to as well.
type cases struct {
	Merge []struct {
		What     string
		Lists    [][]Cells
		Merged   []Cells
		Standing []string
	}
	Read []struct {
		What, Text, Problem string
		Rows                []Cells
	}
}

func readCases(t *testing.T) (all cases) {
	t.Helper()
	data, err := os.ReadFile("testdata/merge.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &all); err != nil {
		t.Fatal(err)
	}
	return all
}

func idsOf(rows []Cells) []string {
	ids := []string{}
	for _, r := range rows {
		ids = append(ids, r["id"])
	}
	return ids
}

func TestMergeCases(t *testing.T) {
	for _, c := range readCases(t).Merge {
		got := Merge(c.Lists...)
		if !reflect.DeepEqual(got, c.Merged) {
			t.Errorf("%s: merged to\n%v\nwant\n%v", c.What, got, c.Merged)
		}
		if ids := idsOf(Standing(got)); !slices.Equal(ids, c.Standing) {
			t.Errorf("%s: %v stand, want %v", c.What, ids, c.Standing)
		}
	}
}

// What the page reads is read alike here; what it refuses, this package reads with a finding, or by looking at the whole record.
func TestReadCases(t *testing.T) {
	for _, c := range readCases(t).Read {
		rows, refused, found, ok := Rows(file, []byte(c.Text))
		if c.Problem != "" {
			if len(found) == 0 {
				t.Errorf("%s: the page refuses it (%s), and nothing is found here", c.What, c.Problem)
			}
			continue
		}
		if !ok || len(refused) > 0 || !reflect.DeepEqual(rows, c.Rows) {
			t.Errorf("%s: read as\n%v\nwant\n%v\nrefused %v, found %v", c.What, rows, c.Rows, refused, found)
		}
	}
}

// drawn are the rows of some devices: readings, corrections of what the device knows, corrections of corrections, some by two devices at once; clocks are
// wrong by up to years, ids are those of nobody else but now and then.
func drawn(r *rand.Rand) [][]Cells {
	devices := make([][]Cells, 2+r.IntN(3))
	all := []string{}
	for range 3 + r.IntN(25) {
		d := r.IntN(len(devices))
		row := Cells{"when": time.Date(2026, 11, 1, 0, 0, 0, 0, time.UTC).Add(time.Duration(r.IntN(2*365*24)-365*24) * time.Hour).Format("2006-01-02T15:04")}
		if r.IntN(8) > 0 {
			row["ph"] = fmt.Sprintf("%d.%d", 7+r.IntN(3), r.IntN(3))
		}
		if r.IntN(3) == 0 {
			row["note"] = []string{"a, b", "“c”", "line\nline", "=1+1"}[r.IntN(4)]
		}
		if len(all) > 0 && r.IntN(2) == 0 {
			row["replaces"] = all[r.IntN(len(all))]
		}
		if r.IntN(12) > 0 {
			row["id"] = fmt.Sprintf("%08x", r.Uint32())
			if len(all) > 0 && r.IntN(10) == 0 {
				row["id"] = all[r.IntN(len(all))]
			}
			all = append(all, row["id"])
		}
		devices[d] = append(devices[d], row)
		if r.IntN(4) == 0 { // it has come to another device already
			other := r.IntN(len(devices))
			devices[other] = append(devices[other], row)
		}
	}
	return devices
}

// Whatever order the rows of several devices come in, in whatever groups and however often, the outcome is the same; no reading is lost and none doubled, and
// of each reading and its corrections one row at most holds.
func TestDevicesMergeAlikeInAnyOrder(t *testing.T) {
	for seed := range uint64(1000) {
		r := rand.New(rand.NewPCG(seed, 16))
		devices := drawn(r)
		want := Merge(devices...)
		for range 4 {
			got := anyhow(r, devices)
			if !reflect.DeepEqual(got, want) {
				t.Fatalf("seed %d: merged in another order\n%v\nwant\n%v", seed, got, want)
			}
		}
		said := map[string]int{}
		for _, row := range want {
			said[row["when"]+"|"+row["ph"]+"|"+row["note"]]++
		}
		for _, list := range devices {
			for _, row := range list {
				if said[row["when"]+"|"+row["ph"]+"|"+row["note"]] == 0 {
					t.Fatalf("seed %d: lost %v", seed, row)
				}
			}
		}
		if ids := idsOf(want); len(slices.Compact(slices.Sorted(slices.Values(ids)))) != len(ids) {
			t.Fatalf("seed %d: an id is there twice: %v", seed, ids)
		}
		contents := map[string]bool{}
		for _, list := range devices {
			for _, row := range list {
				contents[row["id"]+"\x00"+row.content()] = true
			}
		}
		if len(want) != len(contents) {
			t.Fatalf("seed %d: %d rows of %d different ones", seed, len(want), len(contents))
		}
		replaced := map[string]bool{}
		for _, row := range want {
			replaced[row["replaces"]] = true
		}
		for _, row := range Standing(want) {
			if replaced[row["id"]] && !inRing(want, row["id"]) {
				t.Fatalf("seed %d: %s holds, and is replaced", seed, row["id"])
			}
		}
	}
}

// anyhow merges the devices in a random order, through random meetings, with repetitions.
func anyhow(r *rand.Rand, devices [][]Cells) []Cells {
	lists := [][]Cells{}
	for _, list := range devices {
		list = slices.Clone(list)
		r.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
		cut := r.IntN(len(list) + 1)
		lists = append(lists, list[:cut], list[cut:], list)
	}
	for len(lists) > 1 {
		r.Shuffle(len(lists), func(i, j int) { lists[i], lists[j] = lists[j], lists[i] })
		n := min(len(lists), 2+r.IntN(2))
		lists = append(lists[n:], Merge(lists[:n]...))
	}
	return Merge(lists[0], devices[r.IntN(len(devices))])
}

// inRing tells whether a row replaces itself, by way of others too.
func inRing(rows []Cells, id string) bool {
	next := map[string]string{}
	for _, row := range rows {
		next[row["id"]] = row["replaces"]
	}
	at := next[id]
	for range len(rows) {
		if at == id {
			return true
		}
		at = next[at]
	}
	return false
}

// What is written is read again without a finding, and says the same.
func TestWrittenRowsAreReadAgain(t *testing.T) {
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 17))
		rows := Merge(drawn(r)...)
		for i := range rows {
			if r.IntN(3) == 0 {
				rows[i]["strength (% v/v)"] = []string{"1.234", "3.4", "12", "0.125"}[r.IntN(4)]
			}
			rows[i]["by"] = "R. Vale; \"early\", shift"
		}
		again, refused, found, ok := Rows(file, Write(rows))
		for _, f := range found {
			if f.Rule != ruleCorrection.Name {
				t.Fatalf("seed %d: %s %d:%d %s", seed, f.Rule, f.Line, f.Column, f.Message)
			}
		}
		if !ok || len(refused) > 0 || len(again) != len(rows) {
			t.Fatalf("seed %d: %d rows of %d, refused %v", seed, len(again), len(rows), refused)
		}
		for i := range rows {
			if again[i].content() != rows[i].content() || again[i]["id"] != rows[i]["id"] {
				t.Fatalf("seed %d: %v is read as %v", seed, rows[i], again[i])
			}
		}
	}
}

// Rows of devices come into a record: what stood there stays byte for byte, in whatever form a spreadsheet saved it, and the whole is read as the two merged.
func TestJoinKeepsTheRecord(t *testing.T) {
	const coming = "when,temperature (°F),strength (% v/v),note,replaces,id\r\n2026-11-02T12:00,144,3.455,,,d1\r\n2026-11-03T06:05,,4.5,misread,a2,d2\r\n2026-10-30T06:00,,4.2,\"a; b\",,d3\r\n"
	for form, old := range map[string]string{
		"points":  "when,strength (% v/v),temperature (°C),weather,id\n2026-11-02T06:10,4.10,61.5,rain,a1\n\n2026-11-03T06:05,\"4.05\",62,,a2\n",
		"commas":  "\ufeffwhen;strength (% v/v);temperature (°C);weather;id\r\n2026-11-02T06:10;4,10;61,5;rain;a1\r\n2026-11-03T06:05;4,05;62;;a2",
		"broken":  "when,strength (% v/v),temperature (°C),weather,id\n2026-11-02T06:10,4.10,61.5,rain,a1\nsomebody,wrote,here\n2026-11-03T06:05,4.05,62,,a2\n",
		"its own": "sep=;\nwhen;strength (% v/v);temperature (°C);weather;id\n2026-11-02T06:10;4.10;61.5;rain;a1\n2026-11-03T06:05;4.05;62;;a2\n",
	} {
		done, _, err := Join(file, []byte(old), "wash-1.csv", []byte(coming))
		if err != nil || len(done.Refused) > 0 || !slices.Equal(done.Added, []string{"d1", "d2", "d3"}) {
			t.Fatalf("%s: %v, refused %v, added %v", form, err, done.Refused, done.Added)
		}
		for line := range strings.Lines(old) {
			if line = strings.TrimRight(line, "\r\n"); !strings.Contains(string(done.Text), line) {
				t.Errorf("%s: %q is gone:\n%s", form, line, done.Text)
			}
		}
		r, found := read(string(done.Text))
		if got := values(r, "strength"); got != "4.2 4.1 3.455 4.5" {
			t.Errorf("%s: strengths %s\n%s", form, got, done.Text)
		}
		if got := values(r, "temperature"); got != "· 61.5 62.2222 ·" {
			t.Errorf("%s: temperatures %s\n%s", form, got, done.Text)
		}
		if len(found) > 0 && form != "broken" || len(r.Replaced) != 1 || r.Replaced[0].ID != "a2" {
			t.Errorf("%s: found %s, replaced %v\n%s", form, told(found), r.Replaced, done.Text)
		}
		again, _, err := Join(file, done.Text, "wash-1 (1).csv", []byte(coming))
		if err != nil || len(again.Added) > 0 || again.There != 3 || string(again.Text) != string(done.Text) {
			t.Errorf("%s: once more adds %v, %d were there, %v\n%s\n%s", form, again.Added, again.There, err, done.Text, again.Text)
		}
	}
}

// Joining and merging are one rule: a record that takes the devices one after the other holds what they hold merged.
func TestJoinIsMerge(t *testing.T) {
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 18))
		devices := drawn(r)
		var text []byte
		for _, i := range r.Perm(len(devices)) {
			done, _, err := Join(file, text, "d.csv", Write(Merge(devices[i])))
			if err != nil || len(done.Refused) > 0 {
				t.Fatalf("seed %d: %v, refused %v", seed, err, done.Refused)
			}
			text = done.Text
		}
		rows, refused, _, ok := Rows(file, text)
		got, want := map[string]string{}, map[string]string{}
		for _, row := range rows {
			got[row["id"]] = row.content()
		}
		for _, row := range Merge(devices...) {
			want[row["id"]] = row.content()
		}
		if !ok || len(refused) > 0 || !maps.Equal(got, want) {
			t.Fatalf("seed %d: the record holds\n%v\nwant\n%v\nrefused %v\n%s", seed, got, want, refused, text)
		}
	}
}

// What cannot be put into the record is refused with its line and why, and everything else is put there.
func TestJoinRefuses(t *testing.T) {
	const old = "when,strength (g/L),ph,id\n2026-11-02T06:10,41,9.8,a1\n"
	const coming = "when,strength (% v/v),ph,id\n2026-11-03T06:10,4,,d1\n2026-11-03T06:10+01:00,,9.7,d2\nyesterday,,9.7,d3\n2026-11-04T06:10,,9.6,d4\n2026-11-05T06:10,,9.6,d4\n"
	done, _, err := Join(file, []byte(old), "wash-1.csv", []byte(coming))
	if err != nil || !slices.Equal(done.Added, []string{"d4"}) {
		t.Fatal(err, done.Added, done.Refused)
	}
	lines := []int{}
	for _, r := range done.Refused {
		if r.Why == "" {
			t.Errorf("line %d is refused without a reason", r.Line)
		}
		lines = append(lines, r.Line)
	}
	if !slices.Equal(lines, []int{2, 3, 4, 6}) {
		t.Errorf("refused %v", done.Refused)
	}
	if _, _, err := Join(file, []byte("strength\n4\n"), "wash-1.csv", []byte(coming)); err == nil {
		t.Error("a record without heads was written to")
	}
	if _, found, err := Join(file, []byte(old), "wash-1.csv", []byte("\x00\x01")); err == nil || len(found) == 0 {
		t.Error("a file that is no table was read")
	}
}

func TestTankOfAFile(t *testing.T) {
	for file, want := range map[string]string{"wash-1.csv": "wash-1", "/stick/wash-1.2026-11-29.csv": "wash-1", `C:\in\Rinse-2 (1).csv`: "rinse-2", "wash-1(2).csv": "wash-1"} {
		if got := TankOf(file); got != want {
			t.Errorf("%s: %s", file, got)
		}
	}
}

// A correction that is not clear is found, and the rest is charted by the rule.
func TestUnclearCorrections(t *testing.T) {
	for name, c := range map[string]struct{ rows, want, found string }{
		"one":             {"2026-11-02,9,,a\n2026-11-02,8,a,b\n", "8", ""},
		"of a correction": {"2026-11-02,9,,a\n2026-11-02,8,a,b\n2026-11-02,7,b,c\n", "7", ""},
		"taken back":      {"2026-11-02,9,,a\n2026-11-02,,a,b\n2026-11-03,8.5,,c\n", "8.5", ""},
		"two of one":      {"2026-11-02,9,,a\n2026-11-02,8,a,b\n2026-11-02,7,a,c\n", "7", "unclear-correction 4:1"},
		"of nothing":      {"2026-11-02,9,,a\n2026-11-02,8,q,b\n", "9 8", "unclear-correction 3:1"},
		"of itself":       {"2026-11-02,9,a,a\n", "9", "unclear-correction 2:1"},
	} {
		r, found := read("when,ph,replaces,id\n" + c.rows)
		if got := values(r, "ph"); got != c.want || told(found) != c.found {
			t.Errorf("%s: %s, found %q", name, got, told(found))
		}
		if n := strings.Count(c.rows, "\n"); len(r.Rows)+len(r.Replaced) != n || r.Unused != 0 {
			t.Errorf("%s: %d rows stand, %d are replaced, %d are not used, of %d", name, len(r.Rows), len(r.Replaced), r.Unused, n)
		}
	}
}
