package builder

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"
	"time"

	"tankside/builder/control"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/record"
)

// MergedRecord is what became of a file of readings that was put into the record of a bath.
type MergedRecord struct {
	File, Tank, Record string
	record.Joined
	Findings []finding.Finding // of the file
}

// MergeRecords puts files of readings, as devices save them, into the records of a manual. Each is of the tank that its name begins with, or of the one
// given. A file that cannot be read ends it; those before it are in their records.
func MergeRecords(ctx context.Context, folder string, files []string, tank string, now time.Time) (done []MergedRecord, err error) {
	m, _, err := Read(ctx, folder, now)
	if err != nil {
		return nil, err
	}
	if m.Undecided {
		return nil, errors.New("version control has left two versions of a file in the manual; join them first, as tankside proof says")
	}
	root, err := openManual(folder)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, root.Close()) }()
	for _, file := range files {
		one, err := mergeRecord(root, m, file, tank)
		if err != nil {
			return done, err
		}
		done = append(done, one)
	}
	return done, nil
}

// mergeRecord puts one file into its record.
func mergeRecord(root *os.Root, m *manual.Manual, file, tank string) (MergedRecord, error) {
	one := MergedRecord{File: file, Tank: tank}
	if tank == "" {
		one.Tank = record.TankOf(file)
	}
	if ids := m.Shop.Vessels(); !slices.Contains(ids, one.Tank) {
		return one, fmt.Errorf("the shop has no tank %q, which is what the name of %s begins with or --tank says; it has %s", one.Tank, file, strings.Join(ids, ", "))
	}
	coming, err := readBounded(file)
	if err != nil {
		return one, err
	}
	one.Record = manual.RecordFolder + "/" + one.Tank + ".csv"
	if r := m.Record(one.Tank); r != nil {
		one.Record = r.Path
	}
	old, err := root.ReadFile(one.Record)
	if errors.Is(err, fs.ErrNotExist) {
		old, err = nil, root.MkdirAll(manual.RecordFolder, 0o755)
	}
	if err != nil {
		return one, err
	}
	if one.Joined, one.Findings, err = record.Join(one.Record, old, file, coming); err != nil {
		if len(one.Findings) > 0 {
			err = fmt.Errorf("%w: %s", err, one.Findings[0].Message)
		}
		return one, err
	}
	if len(one.Added) == 0 {
		return one, nil
	}
	if err := control.Replace(root, one.Record, one.Text); err != nil {
		return one, fmt.Errorf("%s could not be written, and stays as it was: %w", one.Record, err)
	}
	return one, nil
}

// readBounded reads a file that may be as large as a record.
func readBounded(file string) ([]byte, error) {
	info, err := os.Stat(file)
	if err != nil {
		return nil, err
	}
	if info.Size() > record.MaxBytes {
		return nil, fmt.Errorf("%s has %d MiB; a file of readings may have %d", file, info.Size()>>20, record.MaxBytes>>20)
	}
	return os.ReadFile(file)
}
