package record

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"tankside/builder/finding"
)

const file = "records/wash-1.csv"

// read reads a record as a manual does.
func read(data string) (*Record, []finding.Finding) {
	text, found, ok := Text(file, []byte(data))
	if !ok {
		return &Record{}, found
	}
	return Parse(file, text)
}

// values gives the numbers of a column, in its unit.
func values(r *Record, name string) string {
	at := r.Column(name)
	if at < 0 {
		return "no column"
	}
	var list []string
	for _, row := range r.Rows {
		if v := row.Values[at]; v.Set {
			list = append(list, fmt.Sprintf("%.6g", r.Columns[at].Unit.FromSI(v.SI)))
		} else {
			list = append(list, "·")
		}
	}
	return strings.Join(list, " ")
}

func told(found []finding.Finding) string {
	var list []string
	for _, f := range found {
		list = append(list, fmt.Sprintf("%s %d:%d", f.Rule, f.Line, f.Column))
	}
	return strings.Join(list, ", ")
}

const small = "when,strength (% v/v),ph,by,note,id\n" +
	"2026-11-02T06:10,4.1,9.8,R. Vale,,a1\n" +
	"2026-11-03T06:05,4.05,9.85,,\"skimmed, 2 mm\",a2\n"

func TestPlainRecord(t *testing.T) {
	r, found := read(small)
	if len(found) > 0 || r.Tank != "wash-1" || len(r.Rows) != 2 || r.Unused != 0 {
		t.Fatal(told(found), r)
	}
	if got := values(r, "strength"); got != "4.1 4.05" {
		t.Error(got)
	}
	if got := r.Rows[1]; got.Note != "skimmed, 2 mm" || got.ID != "a2" || got.Line != 3 || !got.When.Equal(time.Date(2026, 11, 3, 6, 5, 0, 0, time.UTC)) || Zoned(got.When) {
		t.Errorf("%+v", got)
	}
	if r.Rows[0].By != "R. Vale" || math.Abs(r.Rows[0].Values[0].SI-0.041) > 1e-12 {
		t.Errorf("%+v", r.Rows[0])
	}
}

// The same record in every form in which spreadsheets save it reads the same.
func TestFormsOfSpreadsheets(t *testing.T) {
	want, _ := read(small)
	both := func(text string, big bool, mark bool) string {
		units := utf16.Encode([]rune(text))
		if mark {
			units = append([]uint16{0xFEFF}, units...)
		}
		var b strings.Builder
		for _, u := range units {
			if big {
				b.Write([]byte{byte(u >> 8), byte(u)})
			} else {
				b.Write([]byte{byte(u), byte(u >> 8)})
			}
		}
		return b.String()
	}
	tabs := strings.ReplaceAll(strings.ReplaceAll(strings.ReplaceAll(small, "skimmed, 2 mm", "skimmed@ 2 mm"), ",", "\t"), "@", ",")
	semicolons := "when;strength (% v/v);ph;by;note;id\n2026-11-02T06:10;4,1;9,8;R. Vale;;a1\n2026-11-03T06:05;4,05;9,85;;skimmed, 2 mm;a2\n"
	for name, text := range map[string]string{
		"with a mark": "\uFEFF" + small, "CRLF": strings.ReplaceAll(small, "\n", "\r\n"), "CR": strings.ReplaceAll(small, "\n", "\r"),
		"without a last line end": strings.TrimSuffix(small, "\n"), "tabs": tabs, "semicolons": semicolons, "separator told": "sep=;\n" + semicolons,
		"UTF-16, little end": both(small, false, true), "UTF-16, big end": both(small, true, true), "UTF-16 without a mark": both(semicolons, false, false), "UTF-16 of tabs": both(tabs, true, false),
		"empty lines": strings.ReplaceAll(small, "\n", "\n\n") + ",,,,,\n", "empty cells at the end": strings.ReplaceAll(small, "\n", ",,\n"),
	} {
		got, found := read(text)
		if len(found) > 0 {
			t.Errorf("%s: %s", name, told(found))
		}
		if values(got, "strength") != values(want, "strength") || values(got, "ph") != values(want, "ph") || len(got.Rows) != 2 || got.Rows[1].Note != want.Rows[1].Note {
			t.Errorf("%s: %s, %+v", name, values(got, "strength"), got.Rows)
		}
	}
}

// Decimal signs, one file a row: what the numbers are, and what is found. A dot stands for a number that is not used.
func TestDecimalSigns(t *testing.T) {
	for _, row := range []struct{ head, cells, want, found string }{
		{"conductivity (µS/cm)", "640 655", "640 655", ""},
		{"conductivity (µS/cm)", "640.5 1,240", "640.5 1240", ""},
		{"conductivity (µS/cm)", "640,5 1.240", "640.5 1240", ""},
		{"conductivity (µS/cm)", "640,5 1,240", "640.5 1.24", ""},
		{"conductivity (µS/cm)", "1.240 1.310", "· ·", "two-decimal-signs 2:18"},
		{"conductivity (µS/cm)", "1,240 640", "· 640", "two-decimal-signs 2:18"},
		{"conductivity (µS/cm)", "1.240,5 1.310", "1240.5 1310", ""},
		{"conductivity (µS/cm)", "1,240.5 1.310", "1240.5 1.31", ""},
		{"conductivity (µS/cm)", "12.345.678 1", "1.23457e+07 1", ""}, // cannot be, and is told below
		{"conductivity (µS/cm)", "640.5 640,5 1.240", "640.5 640.5 ·", "two-decimal-signs 2:18"},
		{"conductivity (µS/cm)", "1_240 1_310,5", "1240 1310.5", ""},
		{"conductivity (µS/cm)", "1'240.5 1'310", "1240.5 1310", ""},
		{"conductivity (µS/cm)", "6.4E+02 1.234e3", "640 1234", ""},
		{"ph", "9.812 9.790", "9.812 9.79", ""}, // nine thousand cannot be
		{"ph", "9,812 9,790", "9.812 9.79", ""},
		{"foil", "1,234 12", "1234 12", ""}, // a part of a mark cannot be
		{"level (mm)", "-18 −4.5 +2", "-18 -4.5 2", ""},
		{"temperature (°C)", "62 61.5_°C 143_°F", "62 61.5 61.6667", ""},
		{"temperature (°F)", "143.6 62_°C", "143.6 143.6", ""},
		{"strength (% v/v)", "4.0 1:24 4.2_%", "4 4 4.2", ""},
		{"strength (% v/v)", "- – —", "· · ·", ""},
		{"level (mm)", "0.125 0,125", "0.125 0.125", "two-decimal-signs 2:18"},
	} {
		text := "when;" + row.head + "\n"
		for i, c := range strings.Fields(row.cells) {
			text += fmt.Sprintf("2026-11-%02dT06:10;%s\n", i+1, strings.ReplaceAll(c, "_", " "))
		}
		r, found := read(text)
		if strings.Contains(row.cells, "12.345.678") {
			if told(found) != "impossible-reading 2:18" {
				t.Errorf("%s: %s", row.cells, told(found))
			}
			continue
		}
		if got := values(r, r.Columns[0].Name); got != row.want || told(found) != row.found {
			t.Errorf("%s: %s: %q (%s), want %q (%s)", row.head, row.cells, got, told(found), row.want, row.found)
		}
	}
}

// Heads: what each column becomes, and what is found.
func TestHeads(t *testing.T) {
	for head, want := range map[string]string{
		"Strength (% v/v)":          "strength in % v/v",
		"strength (fl oz/US gal)":   "strength in fl oz/US gal",
		"strength [g/L]":            "strength in g/L",
		"strength (%)":              "nothing, unclear-head 1:6",
		"strength":                  "nothing, unclear-head 1:6",
		"strength (mm)":             "nothing, unclear-head 1:6",
		"strength (fl oz/gal)":      "nothing, unclear-head 1:6",
		"added (gal)":               "nothing, unclear-head 1:6",
		"added (US gal)":            "added in US gal",
		"pH":                        "ph in ",
		"temperature (F)":           "temperature in °F",
		"temperature":               "nothing, unclear-head 1:6",
		"conductivity (mS/cm)":      "conductivity in mS/cm",
		"conductivity (uS/cm)":      "conductivity in µS/cm",
		"level (in)":                "level in in",
		"foil (marks)":              "foil in ",
		"foil (g)":                  "nothing, unclear-head 1:6",
		"loads":                     "loads in ",
		"titrant (mL)":              "titrant in mL",
		"temprature (°C)":           "nothing, unclear-head 1:6",
		"colour of the foam":        "nothing",
		"when":                      "nothing, unclear-head 1:6",
		"ph,ph":                     "ph in , unclear-head 1:9",
		"temperature (°C),temp.":    "temperature in °C, unclear-head 1:23",
		"weather,weather (outside)": "nothing",
	} {
		r, found := read("when," + head + "\n2026-11-02,,\n")
		got := "nothing"
		if len(r.Columns) > 0 {
			got = r.Columns[0].Name + " in " + r.Columns[0].Unit.Symbol
		}
		var heads []finding.Finding
		for _, f := range found {
			if f.Rule != "broken-row" {
				heads = append(heads, f)
			}
		}
		if len(heads) > 0 {
			got += ", " + told(heads)
		}
		if got != want {
			t.Errorf("%s: %s, want %s", head, got, want)
		}
	}
}

// What is wrong with a file: each once, with line and column, and what of it is used.
func TestFindings(t *testing.T) {
	for _, row := range []struct{ name, text, found, ph string }{
		{"empty", "", "unreadable-record 0:0", "no column"},
		{"blanks", " \n \n", "unreadable-record 0:0", "no column"},
		{"no time", "date,ph\n2026-11-02,9\n", "unreadable-record 1:1", ""},
		{"Latin-1", "when,temperature (\xb0C)\n", "unreadable-record 1:19", "no column"},
		{"NUL", "when,ph\n2026-11-02,\x009\n", "unreadable-record 2:12", "no column"},
		{"half of UTF-16", "\xff\xfew\x00h", "unreadable-record 0:0", "no column"},
		{"pH 15", "when,ph\n2026-11-02,15\n2026-11-03,9\n", "impossible-reading 2:12", "· 9"},
		{"no number", "when,ph\n2026-11-02,about 9\n2026-11-03,9\n", "unreadable-reading 2:12", "· 9"},
		{"a range", "when,ph\n2026-11-02,9-10\n2026-11-03,9\n", "unreadable-reading 2:12", "· 9"},
		{"NaN", "when,ph\n2026-11-02,NaN\n2026-11-03,Inf\n", "unreadable-reading 2:12, unreadable-reading 3:12", "· ·"},
		{"wrong unit in the cell", "when,ph,temperature (°C)\n2026-11-02,9,62 mm\n", "unreadable-reading 2:14", "9"},
		{"a cell too many", "when,ph\n2026-11-02,9,8\n2026-11-03,9\n", "broken-row 2:14", "9"},
		{"a cell too few", "when,ph,note\n2026-11-02,9\n2026-11-03,9,\n", "broken-row 2:12", "9"},
		{"a stray quotation mark", "when,ph,note\n2026-11-02,9,5\" pipe\n2026-11-03,9.5,\n", "broken-row 2:15", "9.5"},
		{"an open quotation mark", "when,ph,note\n2026-11-02,9,\n2026-11-03,9.5,\"open\n2026-11-04,9,\n", "unreadable-record 3:1", "9"},
		{"no day", "when,ph\n,9\n2026-11-03,9\n", "broken-row 2:1", "9"},
		{"a day of no month", "when,ph\n2026-02-30,9\n2026-11-03,9\n", "broken-row 2:1", "9"},
		{"a day in another order", "when,ph\n3.11.2026,9\n11/03/2026 6:10,9\n2026-11-03,9\n", "broken-row 2:1, broken-row 3:1", "9"},
		{"a year of two digits", "when,ph\n26-11-03,9\n2026-11-03,9\n", "broken-row 2:1", "9"},
		{"a year long ago", "when,ph\n1926-11-03,9\n2026-11-03,9\n", "broken-row 2:1", "9"},
		{"an offset of nowhere", "when,ph\n2026-11-03T06:10+25:00,9\n2026-11-03,9\n", "broken-row 2:1", "9"},
		{"out of order", "when,ph\n2026-11-05,9\n2026-11-03,8\n2026-11-06,10\n", "out-of-order 3:1", "8 9 10"},
		{"the same id", "when,ph,id\n2026-11-02,9,a\n2026-11-03,8,a\n", "reading-twice 3:14", "9"},
		{"the same row", "when,ph,id\n2026-11-02,9,a\n2026-11-02,9,a\n", "reading-twice 3:1", "9"},
		{"a time zone here and none there", "when,ph\n2026-11-02T06:10+01:00,9\n2026-11-03T06:10,8\n2026-11-04T06:10Z,7\n2026-11-05,6\n", "out-of-order 3:1", "9 7 6"},
		{"an unknown work", "when,ph,work\n2026-11-02,9,painted\n", "unreadable-reading 2:14", "9"},
		{"a foil with half a mark", "when,ph,foil\n2026-11-02,9,2.5\n", "impossible-reading 2:14", "9"},
	} {
		r, found := read(row.text)
		if got := values(r, "ph"); told(found) != row.found || got != row.ph {
			t.Errorf("%s: %s and %s, want %s and %s", row.name, told(found), got, row.found, row.ph)
		}
		for _, f := range found {
			if f.Message == "" || f.Remedy == "" || f.Why == "" {
				t.Errorf("%s: %+v", row.name, f)
			}
		}
	}
}

// What is not used is counted, so that a page can say so.
func TestUnusedIsCounted(t *testing.T) {
	r, found := read("when,ph\n2026-11-02,15\n2026-11-03,9\nx,9\n2026-11-04,9,9\n2026-11-05,?\n")
	if r.Unused != 4 || len(found) != 4 {
		t.Error(r.Unused, told(found))
	}
}

func TestTimes(t *testing.T) {
	for text, want := range map[string]string{
		"2026-11-27T06:10": "2026-11-27 06:10", "2026-11-27 06:10": "2026-11-27 06:10", "2026-11-27 6:10": "2026-11-27 06:10", "2026-11-27T06:10:59": "2026-11-27 06:10", "2026-11-27": "2026-11-27",
		"20261127": "2026-11-27", "20261127T0610": "2026-11-27 06:10", "2026-11-27T06:10Z": "2026-11-27 06:10+00:00", "2026-11-27T06:10:00.5+01:00": "2026-11-27 06:10+01:00",
		"2026-11-27T06:10-0330": "2026-11-27 06:10-03:30", "2026-11-27t06:10z": "2026-11-27 06:10+00:00",
		"27.11.2026": "", "11/27/2026": "", "2026-13-01": "", "2026-11-27T25:00": "", "2026-11-27T06:10 CET": "", "06:10": "", "2026-W48-5": "", "yesterday, early": "",
	} {
		when, day, problem := timeOf(text)
		got := Stamp(when, day)
		if problem != "" {
			got = ""
		}
		if got != want {
			t.Errorf("%s: %q (%s), want %q", text, got, problem, want)
		}
	}
}

// What was done: by its column, else by the opening of the note or by what was added.
func TestWork(t *testing.T) {
	r, found := read("when,added (L),note\n2026-11-02,,Bath changed after the flood\n2026-11-03,0.5,\n2026-11-04,,repaired the heater\n2026-11-05,0,new bathroom key\n2026-11-06,,The bath changed colour\n")
	var got []string
	for _, row := range r.Rows {
		got = append(got, string(row.Work))
	}
	if s := strings.Join(got, ","); s != "change,top-up,repair,," || len(found) > 0 {
		t.Error(s, told(found))
	}
	r, _ = read("when,work,note\n2026-11-02,Top up,Bath changed\n2026-11-03,,bath changed\n")
	if r.Rows[0].Work != TopUp || r.Rows[1].Work != "" {
		t.Errorf("the column decides: %+v", r.Rows)
	}
}

// Findings of one rule are told up to a number and then counted.
func TestFindingsAreBounded(t *testing.T) {
	text := "when,ph\n"
	for i := range 1000 {
		text += fmt.Sprintf("2026-11-02T06:10:%02d.%03d,15\n", i%60, i)
	}
	_, found := read(text)
	rules := map[finding.RuleName]int{}
	for _, f := range found {
		rules[f.Rule]++
	}
	if rules["impossible-reading"] != maxTold+1 || !strings.Contains(found[len(found)-1].Message, "more findings") {
		t.Error(rules)
	}
}

func TestTooManyRows(t *testing.T) {
	var b strings.Builder
	b.WriteString("when,ph\n")
	start := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range MaxRows {
		b.WriteString(start.Add(time.Duration(i) * time.Hour).Format("2006-01-02T15:04"))
		b.WriteString(",9.5\n")
	}
	r, found := read(b.String())
	if len(r.Rows) != MaxRows || len(found) > 0 {
		t.Fatal(len(r.Rows), told(found))
	}
	r, found = read(b.String() + "2030-01-01T06:10,9.5\n")
	if want := fmt.Sprintf("unreadable-record %d:1", MaxRows+2); len(r.Rows) != MaxRows || told(found) != want {
		t.Error(len(r.Rows), told(found))
	}
	if _, found = read("when" + strings.Repeat(",x", maxColumns) + "\n"); told(found) != "unreadable-record 1:132" {
		t.Error(told(found))
	}
}

// Whatever a file holds, reading ends, places lie in the file, numbers are numbers that can be, and time does not run backwards.
func FuzzRecord(f *testing.F) {
	for _, seed := range []string{small, "sep=;\nwhen;ph\n2026-11-02;9,8\n", "\xff\xfew\x00h\x00e\x00n\x00", "when,ph\n\"2026-11-02\n", "when\tstrength (1:N)\n2026-11-02T06:10Z\t40\n2026-11-03\t1:40\n",
		"when,temperature (°F),added (imp gal)\n2026-11-02,1'400.5,1.234\n", "when,ph,ph,,\n\n,,,,\n20261127T0610+0100,-0,1e99,x,\"a\"\"b\"\n"} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		text, found, ok := Text(file, data)
		if !ok {
			if len(found) == 0 {
				t.Fatal("not read, and nothing is found")
			}
			return
		}
		r, found := Parse(file, text)
		lines := strings.Count(string(text), "\n") + 1
		for _, f := range found {
			if f.Line > lines || f.Line < 0 || f.Column < 0 || f.Message == "" || f.Remedy == "" {
				t.Fatalf("%+v in a file of %d lines", f, lines)
			}
		}
		if r.Unused > 0 && len(found) == 0 {
			t.Fatal("something is not used, and nothing is found")
		}
		for i, row := range r.Rows {
			if i > 0 && row.When.Before(r.Rows[i-1].When) {
				t.Fatal("time runs backwards")
			}
			for j, v := range row.Values {
				q, _ := QuantityNamed(r.Columns[j].Name)
				if v.Set && !q.possible(v.SI, r.Columns[j].Unit.Kind) {
					t.Fatalf("%v under %s", v, q.Name)
				}
			}
		}
	})
}
