package main

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"tankside/builder"
	"tankside/builder/record"
)

// mergedAnswer is what became of a file of readings, for programs.
type mergedAnswer struct {
	File    string           `json:"file"`
	Tank    string           `json:"tank"`
	Record  string           `json:"record"`
	Added   []string         `json:"added"` // ids
	There   int              `json:"there"`
	Refused []record.Refusal `json:"refused"`
}

// mergeRecords puts files of readings into the records and says what became of each. It fails where a row was refused.
func (c *console) mergeRecords(ctx context.Context, folder string, files []string, tank string, asJSON bool, now time.Time) error {
	done, err := builder.MergeRecords(ctx, folder, files, tank, now)
	refused := 0
	answers := []mergedAnswer{}
	for i := range done {
		d := &done[i]
		refused += len(d.Refused)
		answers = append(answers, mergedAnswer{d.File, d.Tank, d.Record, append([]string{}, d.Added...), d.There, append([]record.Refusal{}, d.Refused...)})
		if !asJSON {
			c.tellMerged(d)
		}
	}
	if asJSON {
		err = errors.Join(err, c.json(answers))
	}
	if refused > 0 {
		err = errors.Join(err, fmt.Errorf("%s not taken", map[bool]string{true: "1 row was", false: fmt.Sprintf("%d rows were", refused)}[refused == 1]))
	}
	return err
}

func (c *console) tellMerged(d *builder.MergedRecord) {
	fmt.Fprintf(c.out, "%s: %s put into %s", d.File, count(len(d.Added), "row", "rows"), d.Record)
	if d.There > 0 {
		fmt.Fprintf(c.out, ", %d were there", d.There)
	}
	fmt.Fprintln(c.out)
	for _, r := range d.Refused {
		fmt.Fprintf(c.out, "  line %d not taken: %s\n", r.Line, strings.TrimSuffix(r.Why, "."))
	}
}
