package main

import (
	"context"
	"errors"
	"fmt"
	"time"

	"tankside/builder"
	"tankside/builder/control"
	"tankside/builder/manual"
)

var approveCommand = command{
	name: "approve",
	args: "ARTICLE…",
	does: "enter in articles who has approved them as they stand",
	more: `Writes into the header of each article the day, the name or initials and the role of whoever has read and approved it, and a digest of what
was approved: its text and facts, its revision, the day, the name and the role. Changes any of them, the approval no longer holds: tankside proof says
so, and pages say “not approved”. Line ends, comments and the order of keys may change. Nothing else of the file is touched.

Refused are drafts, articles about which findings stop publication, a text that has changed under the revision that was approved
before (see tankside revise), translations of an older revision, roles that the shop file has not got, and days to come.`,
	setUp: func(o *options) action {
		in := o.text("in", "MANUAL", "folder of the manual; without it “"+usualManual+"”", usualManual)
		by := o.text("by", "NAME", "name or initials of whoever has approved", "")
		role := o.text("role", "ROLE", "in which role of the shop file", "")
		on := o.text("on", "DATE", "day of the approval, year-month-day; without it today", "")
		return func(ctx context.Context, c *console, args []string) error {
			now, err := c.now()
			if err != nil {
				return err
			}
			switch {
			case len(args) == 0:
				return seeHelp("name the articles that were approved", "tankside approve")
			case *by == "":
				return seeHelp("say who has approved, with --by", "tankside approve")
			case *role == "":
				return seeHelp("say in which role, with --role", "tankside approve")
			}
			day, err := dayOr(*on, now)
			if err != nil {
				return err
			}
			changes, err := builder.Approve(ctx, *in, args, manual.Approval{Day: day, Name: *by, Role: *role}, now)
			if err != nil {
				return err
			}
			c.tellChanges(changes)
			return nil
		}
	},
}

var reviseCommand = command{
	name: "revise",
	args: "ARTICLE…",
	does: "raise the revision of articles, and take their approval away",
	more: `Gives each article the next revision, C after B and 10 after 9, and sets “approved: not yet”, in the header as it stands: comments, line ends
and the order of keys stay as they are, and what cannot be changed so for certain is refused. Then have the article read, and enter the
approval with tankside approve.

Its translations lose their approval too. They go on naming the revision that they translate until somebody has compared them with the new text and
names them here: then they name the original's revision.`,
	setUp: func(o *options) action {
		in := o.text("in", "MANUAL", "folder of the manual; without it “"+usualManual+"”", usualManual)
		to := o.text("to", "REVISION", "the new revision, where it is not the next letter or number", "")
		return func(ctx context.Context, c *console, args []string) error {
			now, err := c.now()
			if err != nil {
				return err
			}
			if len(args) == 0 {
				return seeHelp("name the articles to be revised", "tankside revise")
			}
			changes, err := builder.Revise(ctx, *in, args, *to, now)
			if err != nil {
				return err
			}
			c.tellChanges(changes)
			return nil
		}
	},
}

// dayOr reads a day; today's, where none is given.
func dayOr(text string, now time.Time) (time.Time, error) {
	if text == "" {
		year, month, day := now.Date()
		return time.Date(year, month, day, 0, 0, 0, 0, time.UTC), nil
	}
	day, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return day, errors.New("“" + text + "” is no day: write year-month-day, such as 2026-09-14")
	}
	return day, nil
}

func (c *console) tellChanges(changes []control.Change) {
	for _, change := range changes {
		fmt.Fprintf(c.out, "%s: %s\n", change.Article.Path, shown(change.Says))
	}
}
