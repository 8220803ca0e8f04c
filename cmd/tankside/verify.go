package main

import (
	"context"
	"errors"
	"fmt"
	"os"

	"tankside/builder/edition"
)

var verifyCommand = command{
	name: "verify",
	args: "[EDITION]",
	does: "compare every file of an edition with its checksums",
	more: `Compares every file of the edition with the list that was written when it was published, as after copying it to a stick or a tablet.
It says the number of the edition and its code. Exit status 1 where a file is damaged, missing or was put there by somebody else.`,
	setUp: func(o *options) action {
		asJSON := o.yes("json", "the result for programs: ok, damaged, missing, extra")
		return func(ctx context.Context, c *console, args []string) error {
			folder, err := atMostOne(args, usualEdition)
			if err != nil {
				return err
			}
			c.tell("Comparing "+folder, 0, 0)
			r, err := edition.Verify(ctx, os.DirFS(folder))
			if err != nil {
				return noEdition(folder, err)
			}
			c.endProgress()
			if *asJSON {
				err = c.json(struct {
					OK      bool     `json:"ok"`
					Damaged []string `json:"damaged"`
					Missing []string `json:"missing"`
					Extra   []string `json:"extra"`
				}{r.OK, orEmpty(r.Damaged), orEmpty(r.Missing), orEmpty(r.Extra)})
			} else {
				c.tellVerified(r)
			}
			if err == nil && !r.OK {
				err = status(exitFindings)
			}
			return err
		}
	},
}

func (c *console) tellVerified(r edition.Report) {
	for _, part := range []struct {
		what  string
		files []string
	}{
		{"Damaged", r.Damaged}, {"Missing", r.Missing}, {"Not of this edition", r.Extra},
	} {
		for _, f := range part.files {
			fmt.Fprintf(c.out, "%s: %s\n", part.what, shown(f))
		}
	}
	which := r.Mark.String()
	if r.OK {
		fmt.Fprintf(c.out, "%s: %s, all as they were published.\n", which, count(r.Files, "file", "files"))
		return
	}
	fmt.Fprintf(c.out, "%s: %d damaged, %d missing, %d not of this edition, of %s.\n", which, len(r.Damaged), len(r.Missing), len(r.Extra), count(r.Files, "file", "files"))
	if len(r.Damaged)+len(r.Missing) > 0 {
		c.note("Do not work from it. Copy the edition anew to an empty folder, or publish it to another one with --to: whoever changed a file here may still want it.")
		return
	}
	c.note("The edition itself is whole. What is not of it stays where it is when the manual is published again.")
}

// noEdition says where there is no edition, and what to do.
func noEdition(folder string, err error) error {
	if errors.Is(err, edition.ErrNotEdition) {
		return fmt.Errorf("there is no edition in %q: publish first, with tankside publish, or name the folder that holds %s", folder, edition.ListName)
	}
	var damaged *edition.DamagedListError
	if errors.As(err, &damaged) {
		return fmt.Errorf("the edition in %q cannot be compared: %w. Do not work from it; copy the edition anew to an empty folder, or publish it to another one with --to", folder, err)
	}
	return err
}
