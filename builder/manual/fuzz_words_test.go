package manual

import (
	"context"
	"testing"
	"testing/fstest"
)

// FuzzBeside feeds any bytes as the files beside articles: words, a record, the list of moved articles; a finding or nothing, never a panic, and the same twice.
func FuzzBeside(f *testing.F) {
	f.Add([]byte("Find: Suche\n"), []byte("when,temperature (°C),id\n2026-09-07T06:55,60,a\n"))
	f.Add([]byte("? [a]\n: {b: c}\n"), []byte("\xff\xfew\x00"))
	f.Add([]byte("\"%s of %d\": \"%d of %s %v\"\n"), []byte("sep=;\nwhen;x\n;;\n\"\n"))
	f.Fuzz(func(t *testing.T, words, record []byte) {
		fsys := fstest.MapFS{ShopFile: {Data: []byte(smallShop)}, "theme/words/en.yaml": {Data: words}, "theme/words/calculators/en.yaml": {Data: words}, "records/wash-1.csv": {Data: record},
			"ledger.txt": {Data: record}, "understood.csv": {Data: record}, "soils/wax.md": {Data: []byte(soilHead)}}
		_, list, err := Read(context.Background(), fsys)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range list {
			if f.Message == "" || f.Remedy == "" {
				t.Errorf("half a note: %+v", f)
			}
		}
		if _, again, err := Read(context.Background(), fsys); err != nil || places(list) != places(again) {
			t.Errorf("two readings differ: %s, %s, %v", places(list), places(again), err)
		}
	})
}
