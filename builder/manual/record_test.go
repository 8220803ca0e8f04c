package manual

import (
	"strings"
	"testing"
	"testing/fstest"
)

const recordShop = "name: Shop\ntanks:\n  - {id: wash-1, name: Wash 1, volume: 120 L}\nrinses:\n  - {id: rinse, name: Rinse}\ndryer: {id: dryer, name: Dryer}\n"

// Records are named after tanks, rinses and the dryer, stand in one folder, and are read whatever a spreadsheet saves them as; what concerns a file is found in it.
func TestRecordsOfAManual(t *testing.T) {
	const rows = "when,ph\n2026-11-02,9.8\n"
	wide := "\xff\xfe"
	for _, c := range rows {
		wide += string([]byte{byte(c), 0})
	}
	for _, row := range []struct{ file, text, found string }{
		{"records/wash-1.csv", rows, ""},
		{"records/rinse.csv", wide, ""},
		{"records/dryer.csv", rows, ""},
		{"records/wash1.csv", rows, "unknown-name"},
		{"records/old/wash-1.csv", rows, "stray-file"},
		{"records/wash-1.xlsx", rows, "stray-file"},
		{"record/wash-1.csv", rows, "stray-file"},
		{"records/wash-1.csv", rows + "<<<<<<< mine\n2026-11-03,9.8\n=======\n2026-11-03,9.7\n>>>>>>> theirs\n", "two-versions"},
		{"records/wash-1.csv", "when,ph\n2026-11-02,\x00\n", "unreadable-record"},
	} {
		m, findings, err := Read(t.Context(), fstest.MapFS{ShopFile: {Data: []byte(recordShop)}, row.file: {Data: []byte(row.text)}})
		if err != nil {
			t.Fatal(err)
		}
		var found []string
		for _, f := range findings {
			found = append(found, string(f.Rule))
			if f.File != row.file {
				t.Errorf("%s: found in %s", row.file, f.Place)
			}
		}
		if got := strings.Join(found, " "); got != row.found {
			t.Errorf("%s: %q, want %q", row.file, got, row.found)
		}
		if row.found == "" && (len(m.Records) != 1 || len(m.Records[0].Rows) != 1 || m.Record(m.Records[0].Tank) == nil) {
			t.Errorf("%s: %+v", row.file, m.Records)
		}
	}
}

// A new reading has the pages made again that do not follow from articles.
func TestReadingsChangeTheRest(t *testing.T) {
	read := func(text string) *Manual {
		m, _, err := Read(t.Context(), fstest.MapFS{ShopFile: {Data: []byte(recordShop)}, "records/wash-1.csv": {Data: []byte(text)}})
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	a, b := read("when,ph\n2026-11-02,9.8\n"), read("when,ph\n2026-11-02,9.8\n2026-11-03,9.7\n")
	if a.Rest() == b.Rest() {
		t.Error("a sitting would go on with the pages of the old readings")
	}
}

func TestBaselineOfTheShopFile(t *testing.T) {
	for text, want := range map[string]int{"": 0, "records: {baseline: 12}\n": 12, "records: {baseline: 9}\n": 0, "records: {baseline: 1001}\n": 0, "records: {baseline: few}\n": 0} {
		m, findings, err := Read(t.Context(), fstest.MapFS{ShopFile: {Data: []byte(recordShop + text)}})
		if err != nil {
			t.Fatal(err)
		}
		if faulty := want == 0 && text != ""; m.Shop.Records.Baseline != want || (len(findings) > 0) != faulty {
			t.Errorf("%q: %d, %v", text, m.Shop.Records.Baseline, findings)
		}
	}
}
