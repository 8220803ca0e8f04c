package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"time"

	"tankside/builder"
	"tankside/builder/changes"
	"tankside/builder/ledger"
	"tankside/builder/understood"
	"tankside/cmd/tankside/checkout"
)

var understoodCommand = command{
	name: "understood",
	args: "[MANUAL]",
	does: "who has read and understood which edition, and what everybody has to read",
	more: `Lists by role what has changed, for everybody who has signed, since the edition that they signed: articles that the role's lessons or stations name, with the
headings that have changed, articles that were taken out, and values of the line. Whoever signed more than a year ago, or an edition that is not to be had any more, reads
everything again, and so does whoever has signed nothing yet. --sheet writes the same as a page to be printed, with room for signatures.

With --by and --role it enters that somebody has read and understood the newest edition of the ledger, or the one named with --edition. The record lies in the manual,
understood.txt, one line a signature; put the line “understood.txt merge=union” into .gitattributes.`,
	setUp: func(o *options) action {
		by := o.text("by", "NAME", "who has read and understood", "")
		role := o.text("role", "ROLE", "in which role of the shop file; without --by: that role's list alone", "")
		of := o.text("edition", "N|CODE", "which edition, by its number or code; without it the newest of the ledger", "")
		on := o.text("on", "DATE", "day of the signature, year-month-day; without it today", "")
		sheet := o.text("sheet", "FILE.html", "write the list as a page to be printed and signed", "")
		asJSON := o.yes("json", "the list for programs: role, people with who, signed, days, why, reads")
		return func(ctx context.Context, c *console, args []string) error {
			folder, err := atMostOne(args, usualManual)
			if err != nil {
				return err
			}
			now, err := c.now()
			if err != nil {
				return err
			}
			u, err := builder.UnderstoodIn(ctx, folder)
			if err != nil {
				return err
			}
			for _, f := range u.Faults {
				c.note("%s, line %d: %s The other lines count.", understood.File, f.Line, f.Problem)
			}
			if *by != "" {
				day, err := dayOr(*on, now)
				if err != nil {
					return err
				}
				return c.sign(u, day, *of, *role, *by)
			}
			if *of != "" || *on != "" {
				return errors.New("--edition and --on are for a signature; give them with --by")
			}
			c.tell("Comparing", 0, 0)
			list, err := u.Duties(now, older(ctx, folder))
			if err != nil {
				return err
			}
			c.endProgress()
			if *role != "" {
				list = slices.DeleteFunc(list, func(r understood.Role) bool { return r.Role != *role })
				if len(list) == 0 {
					return fmt.Errorf("neither the shop file, nor a lesson, nor a signature has the role %q", *role)
				}
			}
			if *sheet != "" {
				return c.writeSheet(u, list, *sheet, now.Format(time.DateOnly))
			}
			if *asJSON {
				return c.json(orEmpty(list))
			}
			writeDuties(c.out, list, c.strong)
			return nil
		}
	},
}

// sign enters a signature.
func (c *console) sign(u *builder.Understood, day time.Time, of, role, who string) error {
	if role == "" {
		return seeHelp("say in which role, with --role", "tankside understood")
	}
	e, some := u.Manual.Ledger.Newest()
	switch {
	case of != "":
		if e, some = u.Manual.Ledger.Called(of); !some {
			return fmt.Errorf("the ledger has no edition %q", of)
		}
	case !some:
		return errors.New("the ledger has no edition yet that somebody could have read: enter one with tankside publish --enter")
	case e.Digest != u.Content.Digest():
		return fmt.Errorf("the manual has changed since edition %d, its newest: enter what was read with tankside publish --enter, or say which edition it was, with --edition", e.Number)
	}
	signed, err := u.Sign(day, e, role, who)
	if err != nil {
		return err
	}
	fmt.Fprintf(c.out, "%s, %s: edition %d, code %s, read and understood on %s.\n", shown(signed.Who), shown(signed.Role), signed.Edition, signed.Code, signed.Date)
	c.note("Entered in %s.", understood.File)
	return nil
}

func (c *console) writeSheet(u *builder.Understood, list []understood.Role, to, day string) error {
	if !strings.HasSuffix(strings.ToLower(to), ".html") {
		return fmt.Errorf("the sheet is a page, so its file has a name that ends with .html; %q has not", to)
	}
	text, err := u.Sheet(list, day)
	if err != nil {
		return err
	}
	if err := os.WriteFile(to, text, 0o644); err != nil {
		return err
	}
	fmt.Fprintf(c.out, "%s\n", shown(to))
	c.note("Open it in a browser and print it; each role begins on a sheet of its own.")
	return nil
}

// older gives an edition of a manual's ledger: from the usual folder, or from git.
func older(ctx context.Context, folder string) func(ledger.Entry) (*builder.Earlier, error) {
	return func(e ledger.Entry) (*builder.Earlier, error) {
		if had, err := builder.OnceIn(usualEdition, e.Digest); err == nil && had != nil { // what cannot be read there, git may have
			return had, nil
		}
		at, err := checkout.Of(ctx, folder)
		if err != nil || at == nil {
			return nil, err
		}
		return entered(ctx, at, e)
	}
}

// writeDuties says who has to read what.
func writeDuties(w io.Writer, list []understood.Role, strong func(string) string) {
	for i, role := range list {
		if i > 0 {
			fmt.Fprintln(w)
		}
		fmt.Fprintln(w, strong(shown(role.Role)))
		if role.Unknown {
			fmt.Fprintln(w, "  The shop file has no such role.")
		}
		if len(role.People) == 1 {
			fmt.Fprintln(w, "  Nobody has signed in this role yet.")
		}
		for _, p := range role.People {
			writePerson(w, p)
		}
	}
}

func writePerson(w io.Writer, p understood.Person) {
	articles := count(len(p.Reads), "article", "articles")
	if p.Who == "" {
		fmt.Fprintf(w, "  Whoever has signed nothing yet reads all: %s.\n", articles)
		return
	}
	signed := fmt.Sprintf("  %s signed edition %d on %s, %s ago", shown(p.Who), p.Signed.Edition, p.Signed.Date, count(p.Days, "day", "days"))
	switch {
	case p.Why == understood.LongAgo:
		fmt.Fprintf(w, "%s, which is more than a year: reads all again, %s.\n", signed, articles)
		return
	case p.Why == understood.NotToBeHad:
		fmt.Fprintf(w, "%s; that edition is not to be had, so nobody can say what has changed: reads all again, %s.\n", signed, articles)
		return
	case len(p.Reads) == 0:
		fmt.Fprintf(w, "%s: nothing that this role reads has changed since.\n", signed)
		return
	}
	fmt.Fprintf(w, "%s, and reads:\n", signed)
	for _, r := range p.Reads {
		name := r.Title
		if name == "" {
			name = "Values of the shop file"
		}
		state := ""
		if r.State == understood.New || r.State == understood.Gone {
			state = ", " + string(r.State)
		}
		fmt.Fprintf(w, "    %s (%s)%s%s\n", shown(name), shown(r.Path), state, partsTold(r.Parts))
	}
}

func partsTold(parts []understood.Part) string {
	var list []string
	for _, p := range parts {
		name := p.Heading
		if name == "" {
			name = "before the first heading"
		}
		switch {
		case p.Before != "" || p.After != "":
			name += " " + dashed(p.Before) + " → " + dashed(p.After)
		case p.Kind == changes.Removed:
			name += " (taken out)"
		case p.Kind != changes.Changed:
			name += " (" + string(p.Kind) + ")"
		}
		list = append(list, shown(name))
	}
	if len(list) == 0 {
		return ""
	}
	return ": " + strings.Join(list, "; ")
}

func dashed(text string) string {
	if text == "" {
		return "–"
	}
	return text
}
