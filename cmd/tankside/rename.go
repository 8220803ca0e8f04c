package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"tankside/builder/manual"
	"tankside/builder/rename"
)

var renameCommand = command{
	name: "rename",
	args: "OLD NEW",
	does: "another name for an article, a heading or a tank, wherever it is named",
	more: `Gives an article another file name, a heading other words or a tank another id, and corrects everything that names it: links, headers, related
articles, answers of trees, translations, calculators, glossary and shop file. What else stands in the files stays as it is, to the byte. OLD is
a path of the manual, a path with # and a heading's address, the name of an article, or the id of a tank. The old address goes on leading to
the new one: ` + manual.MovedFile + ` in the manual's folder says so, and an edition has a small page there. Renaming back takes that line out again.
Titles, and the words of links, are text and stay: they are yours to change.
Where something cannot be changed safely, nothing is, and the command says where and what to do.

  tankside rename soils/wax.md hard-wax
  tankside rename "soils/wax.md#first-get-the-bulk-off" "Take the bulk off first"
  tankside rename wash-1 big-wash`,
	setUp: func(o *options) action {
		in := o.text("in", "MANUAL", "folder of the manual; without it “"+usualManual+"”", usualManual)
		try := o.yes("try", "say what would change, and change nothing")
		return func(ctx context.Context, c *console, args []string) error {
			if len(args) != 2 {
				return errors.New("say what is to be renamed and how it is to be called, for example: tankside rename soils/wax.md hard-wax")
			}
			plan, err := c.plan(*in, *try, func(from fs.FS) (*rename.Plan, error) { return rename.For(ctx, from, args[0], args[1]) })
			switch {
			case err != nil || *try:
			case plan.Old == plan.New:
				c.note("Renamed. The address is the same: %s", plan.New)
			case plan.Kept:
				c.note("Renamed. The old address %s leads on to %s. Titles and the words of links are as they were.", plan.Old, plan.New)
			default:
				c.note("Renamed back: the address %s leads nowhere now, and its line is taken out of %s.", plan.Old, manual.MovedFile)
			}
			return err
		}
	},
}

var splitCommand = command{
	name: "split",
	args: "FILE#HEADING NEW",
	does: "a section becomes an article of its own",
	more: `Moves a section of an article into a new one, with its sub-sections and with what translations say of it, and corrects every link that leads into it or
out of it. In its place stay the heading and a link. NEW is a name, or a path in the folder of another kind. The new article has the station and
the sources of the old one and every other key explained, as tankside begin writes it; it carries no approval.

  tankside split "soils/wax.md#blind-holes" procedures/blind-holes.md`,
	setUp: func(o *options) action {
		in := o.text("in", "MANUAL", "folder of the manual; without it “"+usualManual+"”", usualManual)
		try := o.yes("try", "say what would change, and change nothing")
		return func(ctx context.Context, c *console, args []string) error {
			if len(args) != 2 {
				return errors.New(`say which section is to be moved and what the article is to be called, for example: tankside split "soils/wax.md#blind-holes" procedures/blind-holes.md`)
			}
			plan, err := c.plan(*in, *try, func(from fs.FS) (*rename.Plan, error) { return rename.Split(ctx, from, args[0], args[1]) })
			if err == nil && !*try {
				c.note("The section is in %s now. Fill in what has no value there and have it approved; raise the revision of the old article.", plan.New)
			}
			return err
		}
	},
}

// plan works out what would change in a manual, says it, and unless it is only tried, does it.
func (c *console) plan(in string, try bool, work func(fs.FS) (*rename.Plan, error)) (*rename.Plan, error) {
	if err := c.finishRenaming(in); err != nil {
		return nil, err
	}
	root, err := os.OpenRoot(in)
	if err != nil {
		return nil, fmt.Errorf("%s cannot be opened as the folder of a manual; name the folder that holds %s: %w", quoted(in), manual.ShopFile, err)
	}
	defer root.Close()
	plan, err := work(root.FS())
	var refusal *rename.Refusal
	if errors.As(err, &refusal) {
		c.tellRefusal(in, refusal)
		return nil, status(exitUnusable)
	}
	if err != nil {
		return nil, err
	}
	c.tellPlan(in, plan)
	if try {
		c.note("Nothing was changed: --try says only what would be.")
		return plan, nil
	}
	return plan, plan.Write(root)
}

// tellRefusal says why nothing is done, where, and what to do.
func (c *console) tellRefusal(folder string, refusal *rename.Refusal) {
	c.note("Nothing was changed.")
	for _, r := range refusal.Reasons {
		at := ""
		if r.At.File != "" {
			at = shown(within(folder, r.At).String()) + ": "
		}
		c.note("  %s%s\n      %s", at, shown(r.Problem), shown(r.Remedy))
	}
}

// tellPlan says which files change, and where.
func (c *console) tellPlan(folder string, p *rename.Plan) {
	for _, old := range slices.Sorted(maps.Keys(p.Moves)) {
		fmt.Fprintf(c.out, "%s → %s\n", filepath.Join(folder, filepath.FromSlash(old)), filepath.Join(folder, filepath.FromSlash(p.Moves[old])))
	}
	for _, file := range p.Made() {
		fmt.Fprintf(c.out, "%s, new\n", filepath.Join(folder, filepath.FromSlash(file)))
	}
	for _, e := range p.Edits {
		fmt.Fprintln(c.out, within(folder, e.At))
	}
}

// finishRenaming completes a renaming that was interrupted, so that nobody reads half of one.
func (c *console) finishRenaming(folder string) error {
	root, err := os.OpenRoot(folder)
	if err != nil { // whoever needs the folder says so better
		return nil
	}
	defer root.Close()
	was, err := rename.Finish(root)
	if was && err == nil {
		c.note("A renaming that had been interrupted was brought to its end.")
	}
	return err
}
