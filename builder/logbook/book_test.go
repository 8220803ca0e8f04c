package logbook

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"tankside/builder/disk"
	"tankside/builder/finding"
	"tankside/builder/record"
)

var today = time.Date(2026, 11, 29, 12, 0, 0, 0, time.UTC)

const heads = "when,strength (% v/v),temperature (°C),note,id\n"

func batch(t *testing.T, text string) *record.Batch {
	t.Helper()
	b, err := record.ReadBatch([]byte(text), MaxRows)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func openBook(t *testing.T, folder string) *Book {
	t.Helper()
	b, err := Open(folder, []string{"wash-1", "wash-2"})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func add(t *testing.T, b *Book, text string) ([]string, []Refusal) {
	t.Helper()
	kept, refused, err := b.Add("wash-1", batch(t, text), today)
	if err != nil {
		t.Fatal(err)
	}
	return kept, refused
}

// recordIn reads a record as every other part of the program does. Findings are errors, but that rows are not in the order of time: a device that was offline
// brings its own later.
func recordIn(t *testing.T, folder string) *record.Record {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(folder, "wash-1.csv"))
	if err != nil {
		t.Fatal(err)
	}
	text, found, ok := record.Text("records/wash-1.csv", data)
	r, more := record.Parse("records/wash-1.csv", text)
	found = slices.DeleteFunc(append(found, more...), func(f finding.Finding) bool { return f.Rule == "out-of-order" })
	if !ok || len(found) > 0 {
		t.Fatalf("%+v\n%s", found, data)
	}
	return r
}

func idsOf(r *record.Record) []string {
	var ids []string
	for i := range r.Rows {
		ids = append(ids, r.Rows[i].ID)
	}
	slices.Sort(ids)
	return ids
}

// Rows are added as the record is written, whatever a spreadsheet has made of it, and what stood there stays to the byte.
func TestRowsAreAddedInTheFormOfTheRecord(t *testing.T) {
	for name, c := range map[string]struct{ before, after string }{
		"none yet":                  {"", ""},
		"as ours":                   {heads + "2026-11-26T06:10,3.4,60,,a\n", ""},
		"semicolons and commas":     {"when;strength (% v/v);temperature (°C);id\r\n2026-11-26T06:10;3,4;60,5;a\r\n", "when;strength (% v/v);temperature (°C);id;note\r\n2026-11-26T06:10;3,4;60,5;a;\r\n"},
		"decimal commas in quotes":  {"when,\"strength (% v/v)\",temperature (°C),note,id\n2026-11-26T06:10,\"3,45\",60,,a\n", ""},
		"other order, other unit":   {"id,note,temperature (°F),strength (% v/v),when\na,,140,3.4,2026-11-26T06:10\n", ""},
		"no column of ids":          {"when,strength (% v/v),temperature (°C),note\n2026-11-26T06:10,3.4,60,\"two\nlines\"\n", "when,strength (% v/v),temperature (°C),note,id\n2026-11-26T06:10,3.4,60,\"two\nlines\",\n"},
		"last line without its end": {heads + "2026-11-26T06:10,3.4,60,,a", ""},
		"with a mark, tabs":         {"\ufeffwhen\tstrength (% v/v)\ttemperature (°C)\tnote\tid\n2026-11-26T06:10\t3.4\t60\t\ta\n", ""},
		"a spreadsheet's own line":  {"sep=;\nwhen;strength (% v/v);temperature (°C);id\n2026-11-26T06:10;3,4;60,5;a\n", "sep=;\nwhen;strength (% v/v);temperature (°C);id;note\n2026-11-26T06:10;3,4;60,5;a;\n"},
		"times with their offset":   {heads + "2026-11-26T06:10+01:00,3.4,60,,a\n", ""},
	} {
		t.Run(name, func(t *testing.T) {
			folder := t.TempDir()
			path := filepath.Join(folder, "wash-1.csv")
			if c.before != "" {
				if err := os.WriteFile(path, []byte(c.before), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			b := openBook(t, folder)
			sent := heads + "2026-11-27T06:10:05+01:00,3.512,60.25,=1+1,n1\n2026-11-28T06:10:05+01:00,3.5,61,\"said \"\"so\"\"\",n2\n"
			kept, refused := add(t, b, sent)
			if !slices.Equal(kept, []string{"n1", "n2"}) || len(refused) > 0 {
				t.Fatalf("kept %v, refused %v", kept, refused)
			}
			r := recordIn(t, folder)
			last := &r.Rows[len(r.Rows)-2]
			strength, temperature := last.Values[r.Column("strength")], last.Values[r.Column("temperature")]
			if d := strength.SI - 0.03512; d < -1e-9 || d > 1e-9 || last.Note != "=1+1" || last.ID != "n1" || last.When.Format("15:04:05") != "06:10:05" {
				t.Errorf("%+v", last)
			}
			if k := temperature.SI; k < 60.24 || k > 60.26 && k < 333.39 || k > 333.41 {
				t.Errorf("temperature %v", temperature)
			}
			if again := r.Rows[len(r.Rows)-1]; again.Note != `said "so"` {
				t.Errorf("%+v", again)
			}
			now, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			want := c.before
			if c.after != "" {
				want = c.after
			}
			if !bytes.HasPrefix(now, []byte(want)) {
				t.Errorf("what stood there is otherwise:\n%s", now)
			}
			// Sent again, to this book and to one that is opened anew, they are kept and not added.
			for _, b := range []*Book{b, openBook(t, folder)} {
				if kept, refused := add(t, b, sent); !slices.Equal(kept, []string{"n1", "n2"}) || len(refused) > 0 {
					t.Errorf("again: kept %v, refused %v", kept, refused)
				}
			}
			if same, err := os.ReadFile(path); err != nil || !bytes.Equal(now, same) {
				t.Errorf("sending again has changed the record (%v)", err)
			}
		})
	}
}

func TestRefusedRows(t *testing.T) {
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, "wash-1.csv"), []byte("when,strength (g/L),temperature (°C),id\n2026-11-26T06:10,30,60,a\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	b := openBook(t, folder)
	for row, why := range map[string]string{
		"2026-11-27T06:10,,60,,":                                   "id is missing",
		"2026-11-27T06:10,,60,,a b":                                "id is missing",
		"2026-11-27T06:10,,60,,../x":                               "id is missing",
		"yesterday,,60,,n":                                         "no day of ISO 8601",
		"2026-11-27T06:10,,\"60,5\",,n":                            "no number with a decimal point",
		"2026-11-27T06:10,,900,,n":                                 "cannot be",
		"2026-11-27T06:10,,NaN,,n":                                 "no number",
		"2026-11-27T06:10,,1e9,,n":                                 "no number",
		"2026-11-27T06:10,,,,n":                                    "nothing but when",
		"2026-11-27T06:10,3.4,60,,n":                               "measures it otherwise",
		"2026-11-27T06:10+01:00,,60,\x1b[2J,n":                     "cannot be seen",
		"2027-01-01T06:10,,60,,n":                                  "clock of the device",
		"2026-11-26T07:00,,61,,a":                                  "Another reading",
		"2026-11-27T06:10,,60,n":                                   "4 cells",
		"2026-11-27T06:10,,60," + strings.Repeat("x", 3000) + ",n": "more than 2000 characters",
	} {
		kept, refused := add(t, b, heads+row+"\n")
		if len(kept) > 0 || len(refused) != 1 || !strings.Contains(refused[0].Why, why) {
			t.Errorf("%.60s: kept %v, refused %v; want %s", row, kept, refused, why)
		}
	}
	if kept, refused := add(t, b, heads+"2026-11-27T06:10,,60,,n\n2026-11-27T06:10,,60,,n\n"); len(kept) != 1 || len(refused) != 1 {
		t.Errorf("one id twice at once: kept %v, refused %v", kept, refused)
	}
	for _, body := range []string{"", "strength (% v/v),id\n3,n\n", "when,strength,id\n2026-11-27,3,n\n", "when,strength (% v/v)\n2026-11-27,3\n", "when,id,id\n2026-11-27,a,b\n",
		heads + "2026-11-27,3,60,\"x\"y,n\n", heads + "\xff", "when,\x07,id\n2026-11-27,1,n\n", heads + strings.Repeat("2026-11-27,3,60,,n\n", MaxRows+1)} {
		if _, err := record.ReadBatch([]byte(body), MaxRows); !errors.Is(err, record.ErrBatch) {
			t.Errorf("%.40q: %v", body, err)
		}
	}
	if _, _, err := b.Add("../wash-1", batch(t, heads+"2026-11-27,,60,,n\n"), today); !errors.Is(err, ErrNoTank) {
		t.Error(err)
	}
}

// Nothing is added to a record that is not understood, and nothing of it is changed.
func TestUnfitRecordsAreLeftAlone(t *testing.T) {
	for name, before := range map[string]string{
		"open quotation mark": heads + "2026-11-26T06:10,3.4,60,\"open,a\n",
		"no heads":            "2026-11-26,3,60,,a\n",
		"UTF-16":              "\xff\xfew\x00h\x00e\x00n\x00,\x00i\x00d\x00\n\x00",
		"Latin-1":             "when,temperature (\xb0C),id\n2026-11-26,60,a\n",
	} {
		folder := t.TempDir()
		path := filepath.Join(folder, "wash-1.csv")
		if err := os.WriteFile(path, []byte(before), 0o644); err != nil {
			t.Fatal(err)
		}
		if _, _, err := openBook(t, folder).Add("wash-1", batch(t, heads+"2026-11-27T06:10,3.5,60,,n\n"), today); !errors.Is(err, ErrUnfit) {
			t.Errorf("%s: %v", name, err)
		}
		if now, err := os.ReadFile(path); err != nil || string(now) != before {
			t.Errorf("%s: %q, %v", name, now, err)
		}
	}
	folder, outside := t.TempDir(), filepath.Join(t.TempDir(), "outside")
	if err := errors.Join(os.WriteFile(outside, []byte(heads), 0o644), os.Symlink(outside, filepath.Join(folder, "wash-1.csv"))); err != nil {
		t.Skip(err)
	}
	if _, _, err := openBook(t, folder).Add("wash-1", batch(t, heads+"2026-11-27T06:10,3.5,60,,n\n"), today); !errors.Is(err, ErrUnfit) {
		t.Error(err)
	}
	if now, err := os.ReadFile(outside); err != nil || string(now) != heads {
		t.Errorf("%q, %v", now, err)
	}
}

// A spreadsheet may save the record while the host runs.
func TestRecordThatSomebodyChangesMeanwhile(t *testing.T) {
	folder := t.TempDir()
	b := openBook(t, folder)
	add(t, b, heads+"2026-11-26T06:10,3.4,60,,n1\n")
	if err := os.WriteFile(filepath.Join(folder, "wash-1.csv"), []byte("id;when;temperature (°C);strength (% v/v);note\r\nn1;2026-11-26T06:10;60;3,41;\r\nx;2026-11-26T07:10;60;3,4;by hand"), 0o644); err != nil {
		t.Fatal(err)
	}
	kept, refused := add(t, b, heads+"2026-11-26T06:10,3.4,60,,n1\n2026-11-27T06:10,3.5,60,,n2\n")
	if len(kept) != 2 || len(refused) > 0 {
		t.Errorf("kept %v, refused %v", kept, refused)
	}
	if ids := idsOf(recordIn(t, folder)); !slices.Equal(ids, []string{"n1", "n2", "x"}) {
		t.Error(ids)
	}
}

// At every step of every write the disk may fail, once or from then on, as it does when the program is killed there: what was answered as kept is there, once,
// and the next who sends has everything kept. That holds for a record that has to get a column as well.
func TestEveryWriteMayFail(t *testing.T) {
	starts := map[string]string{
		"none yet": "", "as ours": heads + "2026-11-20T06:10,3.4,60,,old\n", "to be widened": "when,strength (% v/v),id\n2026-11-20T06:10,3.4,old",
	}
	injected := 0
	for name, start := range starts {
		for _, lasting := range []bool{false, true} {
			for _, cause := range []error{syscall.EIO, syscall.ENOSPC, syscall.EROFS} {
				for n := 1; ; n++ {
					folder := t.TempDir()
					path := filepath.Join(folder, "wash-1.csv")
					if start != "" {
						if err := os.WriteFile(path, []byte(start), 0o644); err != nil {
							t.Fatal(err)
						}
					}
					b := openBook(t, folder)
					failed := failing(n, lasting, cause)
					var kept []string
					for i := range 3 {
						ids, _, err := b.Add("wash-1", batch(t, fmt.Sprintf("%s2026-11-2%dT06:10,3.5,60,x,n%d\n", heads, i+1, i)), today)
						if err == nil {
							kept = append(kept, ids...)
						} else if !errors.Is(err, cause) {
							t.Fatalf("%s, step %d: %v", name, n, err)
						}
					}
					disk.Before = nil
					if !*failed {
						break
					}
					injected++
					after := openBook(t, folder) // as the next start of the host
					var there []string
					if _, err := os.Stat(path); err == nil {
						there = idsOf(recordIn(t, folder))
					}
					for _, id := range kept {
						if !slices.Contains(there, id) {
							t.Fatalf("%s, step %d: %s was answered as kept and is not there", name, n, id)
						}
					}
					for i := range 3 {
						add(t, after, fmt.Sprintf("%s2026-11-2%dT06:10,3.5,60,x,n%d\n", heads, i+1, i))
					}
					want := []string{"n0", "n1", "n2"}
					if start != "" {
						want = append(want, "old")
					}
					if ids := idsOf(recordIn(t, folder)); !slices.Equal(ids, want) {
						t.Fatalf("%s, step %d: %v", name, n, ids)
					}
					left, err := os.ReadDir(folder)
					if err != nil || len(left) != 3 { // record, lock, and what was to be added, which is empty
						t.Fatalf("%s, step %d: %v, %v", name, n, left, err)
					}
				}
			}
		}
	}
	if injected < 150 {
		t.Errorf("only %d faults were injected", injected)
	}
	t.Logf("%d faults", injected)
}

// failing has step n fail, or all from it on. The result tells whether it came to that.
func failing(n int, lasting bool, cause error) *bool {
	failed := new(bool)
	step := 0
	disk.Before = func(what, path string) error {
		step++
		if step == n || lasting && step > n {
			*failed = true
			return &os.PathError{Op: what, Path: path, Err: cause}
		}
		return nil
	}
	return failed
}

// Whatever a crash leaves of the last row and of what was written down before it: nothing that was kept goes, nothing comes twice, and a line of somebody's
// that has no end stays.
func TestTornAnywhere(t *testing.T) {
	draw := rand.New(rand.NewPCG(1, 2))
	for range 100 {
		folder := t.TempDir()
		b := openBook(t, folder)
		add(t, b, heads+"2026-11-20T06:10,3.4,60,,n1\n")
		path, intent := filepath.Join(folder, "wash-1.csv"), filepath.Join(folder, ".wash-1.csv.adding")
		whole, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		tk := b.open["wash-1"]
		lines := []byte("2026-11-21T06:10,3.5,61,\"a, b\",n2\n2026-11-22T06:10,3.6,62,,n3\n")
		if err := b.intend(tk, int64(len(whole)), lines); err != nil {
			t.Fatal(err)
		}
		written := draw.IntN(len(lines) + 1)
		if written == 0 && draw.IntN(2) == 0 { // cut off while it was written down: then nothing of it is in the record
			info, err := os.Stat(intent)
			if err := errors.Join(err, os.Truncate(intent, draw.Int64N(info.Size()))); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.WriteFile(path, append(slices.Clip(whole), lines[:written]...), 0o644); err != nil {
			t.Fatal(err)
		}
		b = openBook(t, folder)
		recordIn(t, folder)
		add(t, b, heads+"2026-11-21T06:10,3.5,61,\"a, b\",n2\n2026-11-22T06:10,3.6,62,,n3\n")
		if ids := idsOf(recordIn(t, folder)); !slices.Equal(ids, []string{"n1", "n2", "n3"}) {
			t.Fatalf("%d bytes: %v", written, ids)
		}
	}
}

func TestPairing(t *testing.T) {
	folder := t.TempDir()
	b := openBook(t, folder)
	now := today
	var codes []string
	p := NewPairing(b, func() time.Time { return now }, func(name, from, code string, holds time.Duration) {
		if name != "Tablet [2J" || from != "192.0.2.7" || holds != CodeHolds {
			t.Errorf("%q %q %v", name, from, holds)
		}
		codes = append(codes, code)
	})
	ask := func() error { return p.Ask("Tablet\x1b[2J", "192.0.2.7") }
	if _, err := p.Try("12345678", "x"); !errors.Is(err, ErrCode) {
		t.Error("a code was taken that nobody was shown")
	}
	if err := errors.Join(ask(), ask()); err != nil || len(codes) != 1 || len(digits(codes[0])) != CodeDigits {
		t.Fatalf("%v, %v", err, codes)
	}
	wrong := func() string { return newCode()[1:] }
	for range CodeTries {
		if _, err := p.Try(wrong(), "x"); !errors.Is(err, ErrCode) {
			t.Error(err)
		}
	}
	if _, err := p.Try(codes[0], "x"); !errors.Is(err, ErrCode) {
		t.Error("a code was taken after too many tries")
	}
	if err := ask(); !errors.Is(err, ErrWait) {
		t.Errorf("a new code at once after one that was guessed at: %v", err)
	}
	now = now.Add(firstPause)
	if err := ask(); err != nil {
		t.Fatal(err)
	}
	now = now.Add(CodeHolds)
	if _, err := p.Try(codes[1], "x"); !errors.Is(err, ErrCode) {
		t.Error("a code was taken after its time")
	}
	if err := ask(); !errors.Is(err, ErrWait) {
		t.Errorf("a new code at once after one that nobody typed: %v", err)
	}
	now = now.Add(2 * firstPause)
	if err := ask(); err != nil {
		t.Fatal(err)
	}
	key, err := p.Try(strings.ReplaceAll(codes[2], " ", "-"), "Tablet")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := p.Try(codes[2], "Thief"); !errors.Is(err, ErrCode) {
		t.Error("a code was taken twice")
	}
	if name, known, err := b.Holder(key); err != nil || !known || name != "Tablet" {
		t.Errorf("%q, %v, %v", name, known, err)
	}
	other, err := b.pair("Tablet", now)
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(filepath.Join(folder, devicesName))
	if err != nil || bytes.Contains(data, []byte(key)) || bytes.Contains(data, []byte(other)) {
		t.Errorf("a key stands in the list of devices (%v):\n%s", err, data)
	}
	elsewhere := openBook(t, folder) // as the command that revokes
	if err := errors.Join(elsewhere.Revoke("Tablet", now), b.Revoke("Tablet (2)", now)); err != nil {
		t.Error(err)
	}
	if err := b.Revoke("Phone", now); !errors.Is(err, ErrNoDevice) {
		t.Error(err)
	}
	for _, k := range []string{key, other, "", key[:10], strings.ToUpper(key)} {
		if _, known, err := b.Holder(k); known || err != nil {
			t.Errorf("%q is taken for a key (%v)", k, err)
		}
	}
	var list []Device
	if err := json.Unmarshal(data, &list); err != nil || len(list) != 2 {
		t.Error(list, err)
	}
}

func TestDeviceName(t *testing.T) {
	for text, want := range map[string]string{
		"": "device", "\x00\u202e\n": "device", " Tablet  at\tWash 1 ": "Tablet at Wash 1", "\x1b[31mred": "[31mred", "Tableta ñ": "Tableta ñ", strings.Repeat("x", 99): strings.Repeat("x", MaxName), "a\xffb": "a b",
	} {
		if got := DeviceName(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

func TestPace(t *testing.T) {
	now := today
	p := NewPace(func() time.Time { return now }, time.Second, 3)
	for i, want := range []bool{true, true, true, false} {
		if got := p.Allow("a", 1); got != want {
			t.Errorf("%d: %v", i, got)
		}
	}
	if !p.Allow("b", 3) || p.Allow("c", 4) {
		t.Error("one waits for another, or more than a burst goes at once")
	}
	now = now.Add(time.Second)
	if !p.Allow("a", 1) || p.Allow("a", 1) {
		t.Error("after a second one more may go, and no two")
	}
	for i := range 2 * mostPaced {
		p.Allow(fmt.Sprint(i), 1)
	}
	if len(p.free) > mostPaced {
		t.Errorf("%d are remembered", len(p.free))
	}
}

// What is sent and kept reads as it was sent, whatever it is.
func FuzzAdd(f *testing.F) {
	f.Add("2026-11-27T06:10,3.5,60,note,n1", 0)
	f.Add("2026-11-27T06:10:05+01:00,1:40,\"140 °F\",\"a\n\"\"b\"\"\",n1", 1)
	f.Add("2026-11-27,-0,1.234,=x,n1", 2)
	forms := []string{"", "id;when;note;temperature (°F);strength (% v/v)\r\nold;2026-11-20T06:10;\"a;b\";140,5;3,4", heads + "2026-11-20T06:10+02:00,3.4,60,,old\n"}
	f.Fuzz(func(t *testing.T, row string, form int) {
		sent, err := record.ReadBatch([]byte(heads+row+"\n"), MaxRows)
		if err != nil {
			return
		}
		folder := t.TempDir()
		before := forms[uint(form)%uint(len(forms))]
		if before != "" {
			if err := os.WriteFile(filepath.Join(folder, "wash-1.csv"), []byte(before), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		b := openBook(t, folder)
		kept, _, err := b.Add("wash-1", sent, today)
		if err != nil {
			t.Fatalf("%q: %v", row, err)
		}
		if len(kept) == 0 && before == "" {
			return
		}
		ids := idsOf(recordIn(t, folder))
		for _, id := range kept {
			if !slices.Contains(ids, id) {
				t.Errorf("%q was kept and is not read: %v", id, ids)
			}
		}
	})
}
