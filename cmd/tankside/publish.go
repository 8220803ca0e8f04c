package main

import (
	"context"
	"errors"
	"fmt"
	"math"
	"path/filepath"
	"runtime/debug"
	"strings"
	"time"

	"tankside/builder"
	"tankside/builder/edition"
	"tankside/builder/finding"
)

var publishCommand = command{
	name: "publish",
	args: "[MANUAL]",
	does: "proof-read a manual and write its edition",
	more: `Proof-reads the manual and writes its edition: a folder of files that opens by double-clicking index.html, from a USB stick or from a web
server. It is written whole or not at all: where a finding stops publication, or anything goes wrong, the edition in place stays
as it is. Only what its list names, as it was published, is ever replaced or removed: other files in the folder stay there, and one that
is in the way, or a page that somebody has changed, stops publication with its name. Exit status 1 where findings stop it.

The same manual is the same edition everywhere, told by a code that can be read aloud. With --enter it gets a number and the day's date, by a line
in the manual's ledger, ledger.txt; until then it is called not entered.`,
	setUp: func(o *options) action {
		to := o.text("to", "EDITION", "folder of the edition; without it “"+usualEdition+"”", usualEdition)
		asJSON := o.yes("json", "what was done, for programs: edition (its number; 0 where it is not entered), pages, bytes, seconds, findings")
		enter := o.yes("enter", "enter the edition in the ledger, which gives it its number and date")
		by := o.text("by", "WHO", "who enters it, for the ledger", "")
		changed := o.text("changed", "TEXT", "what has changed, in short, for the ledger; without it the program says it", "")
		return func(ctx context.Context, c *console, args []string) error {
			folder, err := atMostOne(args, usualManual)
			if err == nil {
				err = apart(folder, *to)
			}
			if err != nil {
				return err
			}
			now, err := c.now()
			if err != nil {
				return err
			}
			if !*enter && (*by != "" || *changed != "") {
				return errors.New("--by and --changed are for the ledger; give them with --enter")
			}
			var entry *builder.Entering
			if *enter {
				entry = &builder.Entering{By: *by, Changed: *changed, Revision: checkedOut(folder)}
			}
			debug.SetGCPercent(builder.GarbagePercent)
			begin := time.Now()
			r, err := builder.Publish(ctx, builder.Options{Manual: folder, To: *to, Now: now, Progress: c.tell, Enter: entry, Earlier: earlier(folder)})
			seconds := time.Since(begin).Seconds()
			c.endProgress()
			stopped := errors.Is(err, builder.ErrStopped)
			if err != nil && !stopped {
				return err
			}
			if *asJSON {
				err = c.json(published{number(r, stopped), r.Pages, r.Bytes, math.Round(seconds*1000) / 1000, orEmpty(r.Findings)})
				c.tellKept(r.Told)
			} else {
				err = c.tellPublished(folder, *to, r, entry, seconds, stopped)
			}
			if err == nil && stopped {
				err = status(exitFindings)
			}
			return err
		}
	},
}

// published is what --json gives.
type published struct {
	Edition  *int              `json:"edition"` // null where none was written, 0 where it is not entered
	Pages    int               `json:"pages"`
	Bytes    int64             `json:"bytes"`
	Seconds  float64           `json:"seconds"`
	Findings []finding.Finding `json:"findings"`
}

func number(r builder.Report, stopped bool) *int {
	if stopped {
		return nil
	}
	return &r.Mark.Edition
}

// tellPublished says what a publication did, and how the edition is opened.
func (c *console) tellPublished(folder, to string, r builder.Report, entry *builder.Entering, seconds float64, stopped bool) error {
	if len(r.Findings) > 0 {
		writeFindings(c.err, folder, r.Findings, func(s string) string { return s })
	}
	if stopped {
		c.note("Nothing was published; an edition that is in place stays as it was.")
		return nil
	}
	at, err := filepath.Abs(to)
	if err != nil {
		return err
	}
	fmt.Fprintf(c.out, "%s: %s, %s, in %.1f s\n%s\n", r.Mark, count(r.Pages, "page", "pages"), size(r.Bytes), seconds, shown(filepath.Join(at, "index.html")))
	c.tellKept(r.Told)
	c.tellEntered(r, entry)
	c.note("Open that file, copy the folder to a stick, or serve it: tankside host %s", quoted(to))
	return nil
}

// mostKept is how many kept files are named.
const mostKept = 8

// tellKept says what became of somebody's files in the edition's folder.
func (c *console) tellKept(t edition.Told) {
	if n := len(t.Kept); n > 0 {
		var names []string
		for _, s := range t.Kept[:min(n, mostKept)] {
			names = append(names, shown(s.Path))
		}
		if n > mostKept {
			names = append(names, fmt.Sprintf("%d more", n-mostKept))
		}
		c.note("Kept in the folder, not of this edition: %s.", strings.Join(names, ", "))
	}
	for _, name := range t.Aside {
		c.note("While the edition was put in place, somebody changed a file in its place. It is kept: %s", shown(name))
	}
	for _, folder := range t.Left {
		c.note("An older edition could not be removed: %s. The next publication tries again; or remove it as the user who published it.", shown(folder))
	}
}

// size writes a number of bytes in the prefixes of SI.
func size(bytes int64) string {
	switch {
	case bytes < 1e6:
		return fmt.Sprintf("%.0f kB", math.Ceil(float64(bytes)/1e3))
	default:
		return fmt.Sprintf("%.1f MB", float64(bytes)/1e6)
	}
}

// apart refuses an edition in its manual and a manual in its edition: each publication would change the manual.
func apart(folder, to string) error {
	manual, goal := resolve(folder), resolve(to)
	switch {
	case manual == goal:
		return fmt.Errorf("the manual and its edition cannot be one folder, %q; name another folder with --to", to)
	case below(goal, manual):
		return fmt.Errorf("the edition %q would lie inside the manual %q and become part of it; name a folder outside with --to", to, folder)
	case below(manual, goal):
		return fmt.Errorf("the manual %q lies inside the edition %q and would be mixed with its files; name another folder with --to", folder, to)
	}
	return nil
}

// resolve is the real path of a folder that may not be there yet.
func resolve(folder string) string {
	at, err := edition.Place(folder) // a symbolic link may lead to what is not there yet
	if err != nil {
		at = filepath.Clean(folder)
	}
	rest := ""
	for {
		if real, err := filepath.EvalSymlinks(at); err == nil {
			return filepath.Join(real, rest)
		}
		parent := filepath.Dir(at)
		if parent == at {
			return filepath.Join(at, rest)
		}
		at, rest = parent, filepath.Join(filepath.Base(at), rest)
	}
}

// below tells whether a path lies in a folder.
func below(path, folder string) bool {
	rel, err := filepath.Rel(folder, path)
	return err == nil && rel != "." && filepath.IsLocal(rel)
}
