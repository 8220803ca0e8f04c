package logbook

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Whatever lies in the files beside a record, the list of devices and what was about to be added, nothing of it gets into the record but what was written whole,
// and a device whose list is damaged is none.
func FuzzBeside(f *testing.F) {
	f.Add([]byte(`[{"name":"tablet","paired":"2026-11-29T10:00:00Z","key_sha256":"00"}]`), []byte("0 3 2c26b46b68ffc68ff99b453c1d30413413422d706483bfa0f98a5e886266e7ae\nfoo"))
	f.Add([]byte(`[{"name":1}]`), []byte("-1 9999999999 x\n"))
	f.Add([]byte("[null]"), []byte("18446744073709551615 0 e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855\n"))
	f.Fuzz(func(t *testing.T, devices, intent []byte) {
		folder := t.TempDir()
		const before = heads + "2026-11-20T06:10,3.4,60,,old\n"
		record := filepath.Join(folder, "wash-1.csv")
		if err := errors.Join(os.WriteFile(record, []byte(before), 0o644), os.WriteFile(filepath.Join(folder, devicesName), devices, 0o600),
			os.WriteFile(filepath.Join(folder, ".wash-1.adding"), intent, 0o644)); err != nil {
			t.Fatal(err)
		}
		b, err := Open(folder, []string{"wash-1"})
		if err != nil {
			return // refused, with what is wrong
		}
		if _, err := b.Devices(); err != nil && len(devices) == 0 {
			t.Error(err)
		}
		if _, known, err := b.Holder("no key of anybody"); known && err == nil {
			t.Error("a key that nobody has is known")
		}
		kept, _, err := b.Add("wash-1", batch(t, heads+"2026-11-21T06:10,3.5,60,,new\n"), today)
		if err != nil {
			return
		}
		now, err := os.ReadFile(record)
		if err != nil || len(kept) != 1 || !strings.HasPrefix(string(now), before) || !strings.HasSuffix(string(now), ",new\n") {
			t.Errorf("kept %q: %q, %v", kept, now, err)
		}
	})
}
