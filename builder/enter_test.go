package builder

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"tankside/builder/disk"
	"tankside/builder/ledger"
)

// Where the disk fails while an edition is entered, the ledger is as it was or has the whole entry: half a line would keep the manual from being published.
func TestEveryWriteOfTheLedgerMayFail(t *testing.T) {
	const before = "# The ledger\n1 | 2026-11-01 | x\n"
	entry := []byte(strings.Repeat("2 | 2026-11-29 | ", 20) + "\n")
	for _, had := range []string{"", before} {
		for _, cause := range []error{syscall.EIO, syscall.ENOSPC} {
			for n := 1; ; n++ {
				dir := t.TempDir()
				file := filepath.Join(dir, ledger.File)
				if err := os.WriteFile(file, []byte(had), 0o644); err != nil {
					t.Fatal(err)
				}
				root, err := os.OpenRoot(dir)
				if err != nil {
					t.Fatal(err)
				}
				l, _ := ledger.Parse([]byte(had))
				step := 0
				disk.Before = func(what, path string) error {
					if step++; step == n {
						return cause
					}
					return nil
				}
				err = enter(root, l, entry)
				disk.Before = nil
				now, problem := os.ReadFile(file)
				if problem := errors.Join(problem, root.Close()); problem != nil {
					t.Fatal(problem)
				}
				if step < n {
					if err != nil || !bytes.Equal(now, append([]byte(had), entry...)) {
						t.Fatalf("%v\n%s", err, now)
					}
					if n < 3 {
						t.Fatalf("only %d steps", n-1)
					}
					break
				}
				if !errors.Is(err, cause) || string(now) != had {
					t.Errorf("step %d: %v\n%s", n, err, now)
				}
			}
		}
	}
}
