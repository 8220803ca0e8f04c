package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"os"
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
in the manual's ledger, ledger.txt; until then it is called not entered.

With --carry it is put into one file as well, to be carried or sent: an archive with OPEN-ME.html at its top, the same bytes for the same edition. tankside host
and tankside verify read that file unopened.

With --book the whole manual is printed as one document: contents, chapters by station, forms, index with page numbers, approvals, sign-off. It takes a browser
that is installed, Chromium or one made from it; nothing is loaded from anywhere.

With --shops the MANUAL is a base that many shops share, and an edition is written for each folder of FOLDER, below the folder of --to. A shop's folder has a whole shop.yaml, and may have
articles that the base has not or that stand in place of one of its (with “replaces” in the header), pictures for them, a theme, a ledger, records, a vocabulary; everything else is the base's.
One shop's fault stops that shop alone: exit status 1, and the others are published. A shop whose edition is whole and would be the same is not made again, so a run that was broken off goes on
where it was. With --part 3/8 the third of eight parts of the shops is done, so that several processes or machines can share them.`,
	setUp: func(o *options) action {
		given := o.text("to", "EDITION", "folder of the edition; without it “"+usualEdition+"”, with --shops “"+usualEditions+"”", "")
		shopFolder := o.text("shops", "FOLDER", "an edition for each shop that has a folder in this one, over the manual as their base", "")
		part := o.text("part", "3/8", "with --shops: the third of eight parts of the shops alone", "")
		asJSON := o.yes("json", "what was done, for programs: edition (its number; 0 where it is not entered), pages, bytes, seconds, findings")
		enter := o.yes("enter", "enter the edition in the ledger, which gives it its number and date")
		by := o.text("by", "WHO", "who enters it, for the ledger", "")
		changed := o.text("changed", "TEXT", "what has changed, in short, for the ledger; without it the program says it", "")
		carried := o.text("carry", "FILE.zip", "put the edition into this file as well, to be carried", "")
		wanted := o.book()
		return func(ctx context.Context, c *console, args []string) error {
			folder, err := atMostOne(args, usualManual)
			if err == nil && *shopFolder != "" {
				if printed, err := wanted.asked(); err != nil || printed != nil || *carried != "" {
					return cmp.Or(err, errors.New("--carry and --book are for one manual, and not for many shops"))
				}
				if !*enter && (*by != "" || *changed != "") {
					return errEntering
				}
				m := manyShops{base: folder, folder: *shopFolder, to: cmp.Or(*given, usualEditions), part: *part, asJSON: *asJSON}
				if *enter {
					m.entering = &builder.Entering{By: *by, Changed: *changed}
				}
				return c.publishShops(ctx, m)
			}
			if err == nil && *part != "" {
				err = errors.New("--part divides the shops of --shops, and there are none here")
			}
			to := new(cmp.Or(*given, usualEdition))
			if err == nil {
				err = c.finishRenaming(folder)
			}
			if err == nil {
				err = apart(folder, *to)
			}
			if err == nil && *carried != "" {
				err = toCarry(*carried, folder, *to)
			}
			if err != nil {
				return err
			}
			now, err := c.now()
			if err != nil {
				return err
			}
			if told := clockBehind(now); told != "" {
				c.note("%s", told)
			}
			if !*enter && (*by != "" || *changed != "") {
				return errEntering
			}
			printed, err := wanted.asked()
			if err != nil {
				return err
			}
			var entry *builder.Entering
			if *enter {
				entry = &builder.Entering{By: *by, Changed: *changed, Revision: checkedOut(folder)}
			}
			debug.SetGCPercent(builder.GarbagePercent)
			begin := time.Now()
			r, err := builder.Publish(ctx, builder.Options{Manual: folder, To: *to, Now: now, Progress: c.tell, Enter: entry, Earlier: earlier(folder), Carry: *carried})
			seconds := time.Since(begin).Seconds()
			c.endProgress()
			stopped := errors.Is(err, builder.ErrStopped)
			if err != nil && !stopped {
				return err
			}
			if *asJSON {
				err = c.json(published{number(r, stopped), r.Pages, r.Bytes, r.Carried, math.Round(seconds*1000) / 1000, orEmpty(r.Findings)})
				c.tellKept(r.Told)
			} else {
				err = c.tellPublished(folder, *to, r, entry, seconds, stopped)
				c.tellCarried(*carried, r)
			}
			if err == nil && !stopped && printed != nil {
				err = c.printBook(ctx, folder, *wanted.file, r.Mark, now, *printed)
			}
			if err == nil && stopped {
				err = status(exitFindings)
			}
			return err
		}
	},
}

var errEntering = errors.New("--by and --changed are for the ledger; give them with --enter")

// published is what --json gives.
type published struct {
	Edition  *int              `json:"edition"` // null where none was written, 0 where it is not entered
	Pages    int               `json:"pages"`
	Bytes    int64             `json:"bytes"`
	Carried  int64             `json:"carried,omitempty"` // bytes of the file to be carried
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

// toCarry refuses a file to be carried that would lie in the manual or in the edition, or that nobody would know how to open.
func toCarry(file, folder, to string) error {
	switch at := resolve(file); {
	case !strings.EqualFold(filepath.Ext(file), ".zip"):
		return fmt.Errorf("the file to be carried has to have a name that ends with .zip, so that a double click opens it; %q has not", file)
	case below(at, resolve(folder)):
		return fmt.Errorf("the file %q would lie inside the manual %q and become part of it; name one outside with --carry", file, folder)
	case below(at, resolve(to)):
		return fmt.Errorf("the file %q would lie inside the edition %q and not be of it; name one outside with --carry", file, to)
	}
	info, err := os.Stat(filepath.Dir(file))
	if err != nil || !info.IsDir() {
		return fmt.Errorf("there is no folder for the file %q; make it first, or name another file with --carry", file)
	}
	return nil
}

// tellCarried says what there is to be carried.
func (c *console) tellCarried(file string, r builder.Report) {
	if r.Carried == 0 {
		return
	}
	fmt.Fprintf(c.out, "%s: %s, to be carried\n", shown(file), size(r.Carried))
	c.note("Whoever gets it unpacks it and opens OPEN-ME.html; or serves it as it is: tankside host %s", quoted(file))
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

// firstYear is that of this program: an earlier day is one of a computer that has lost its clock.
const firstYear = 2026

// clockBehind says that the day cannot be right, or "". Pages, approvals and reviews go by it.
func clockBehind(now time.Time) string {
	if now.Year() >= firstYear {
		return ""
	}
	return fmt.Sprintf("This computer says that it is %s, which is before this program was made. Dates on pages and what is due go by it: set the clock, and publish again.", now.Format(time.DateOnly))
}
