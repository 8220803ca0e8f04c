package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"unicode/utf8"

	"tankside/builder/edition"
	many "tankside/builder/editions"
)

var errBaseOfOne = errors.New("--base is for a folder of editions, and here is the folder of a manual")

// holdsEditions tells whether a folder is no edition itself and has some below it. Where that cannot be told the answer is no, and verify says what is wrong.
func (c *console) holdsEditions(ctx context.Context, folder string) bool {
	info, err := os.Stat(folder)
	if err != nil || !info.IsDir() {
		return false
	}
	if _, err := os.Lstat(filepath.Join(folder, edition.ListName)); err == nil {
		return false
	}
	any, err := many.Any(ctx, folder)
	return any && err == nil || errors.Is(err, many.ErrTooMany)
}

func (c *console) verifyMany(ctx context.Context, folder, at string, asJSON bool) error {
	var base *many.Base
	if at != "" {
		c.tell("Comparing "+at, 0, 0)
		var err error
		if base, err = many.OpenBase(ctx, at); err != nil {
			return noEdition(at, err)
		}
	}
	f, err := many.Look(ctx, folder, base, func(done, total int) { c.tell("Comparing editions", done, total) })
	if err != nil {
		return err
	}
	if len(f.Editions) == 0 {
		return noEdition(folder, edition.ErrNotEdition)
	}
	c.endProgress()
	fine := 0
	for i := range f.Editions {
		if f.Editions[i].Fine() {
			fine++
		}
	}
	if asJSON {
		err = c.json(struct {
			OK   bool   `json:"ok"`
			Base string `json:"base,omitempty"`
			many.Found
		}{fine == len(f.Editions), at, f})
	} else {
		if base != nil {
			fmt.Fprintf(c.out, "Base: %s\n", shown(base.String()))
		}
		writeEditions(c.out, f)
	}
	if err == nil && fine < len(f.Editions) {
		err = status(exitFindings)
	}
	return err
}

// writeEditions writes the table, what is wrong with whatever is not as it was published, and how many there are of each.
func writeEditions(w io.Writer, f many.Found) {
	rows := [][5]string{{"where", "shop", "edition", "files", "standing"}}
	for i := range f.Editions {
		rows = append(rows, rowOf(&f.Editions[i]))
	}
	var widths [5]int
	for _, row := range rows {
		for i, cell := range row {
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	for _, row := range rows {
		var b strings.Builder
		for i, cell := range row {
			b.WriteString(padded(cell, widths[i]+2))
		}
		fmt.Fprintln(w, strings.TrimRight(b.String(), " "))
	}
	var damaged, unknown, none, behind, apart, uncompared, signed int
	for i := range f.Editions {
		o := &f.Editions[i]
		writeFiles(w, o)
		for _, is := range []struct {
			count *int
			so    bool
		}{
			{&damaged, o.State == many.Damaged}, {&unknown, o.State == many.NoList}, {&none, o.State == many.None}, {&signed, o.Signed},
			{&behind, o.Standing == many.Behind}, {&apart, o.Standing == many.Apart}, {&uncompared, o.Standing == many.NotCompared && o.Code != ""},
		} {
			if is.so {
				*is.count++
			}
		}
	}
	fmt.Fprintf(w, "%s: %d damaged, %d not known, %d behind, %d with a number that another has, %d not compared with another; %s without one.\n",
		count(len(f.Editions)-none, "edition", "editions"), damaged, unknown, behind, apart, uncompared, count(none, "folder", "folders"))
	if signed > 0 {
		fmt.Fprintf(w, "%d signed; whether that holds was not looked at: tankside verify EDITION does.\n", signed)
	}
	if f.Links > 0 {
		fmt.Fprintf(w, "%s not followed.\n", count(f.Links, "link was", "links were"))
	}
}

func rowOf(o *many.One) [5]string {
	which, files := "", "as published"
	switch o.State {
	case many.Damaged:
		files = fmt.Sprintf("DAMAGED: %d damaged, %d missing, %d not of it", o.Damaged.Count, o.Missing.Count, o.Extra.Count)
	case many.NoList:
		files = "NOT KNOWN: " + o.Problem
	case many.None:
		files = "none: " + o.Problem
	}
	if o.State == many.Whole || o.State == many.Damaged {
		which = o.Mark.String()
	}
	standing := string(o.Standing)
	switch {
	case o.State == many.None:
		standing = ""
	case o.Standing == many.Behind || o.Standing == many.Apart:
		standing = strings.ToUpper(standing)
	}
	if standing != "" && o.Why != "" {
		standing += ": " + o.Why
	}
	return [5]string{shown(o.Path), shown(o.Shop), shown(which), shown(files), shown(standing)}
}

// writeFiles names the first files of an edition that are not as they were published.
func writeFiles(w io.Writer, o *many.One) {
	for _, part := range []struct {
		what string
		of   many.Paths
	}{{"damaged", o.Damaged}, {"missing", o.Missing}, {"not of this edition", o.Extra}} {
		for _, name := range part.of.First {
			fmt.Fprintf(w, "%s: %s: %s\n", shown(o.Path), part.what, shown(name))
		}
		if more := part.of.Count - len(part.of.First); more > 0 {
			fmt.Fprintf(w, "%s: %s: %d more\n", shown(o.Path), part.what, more)
		}
	}
}
