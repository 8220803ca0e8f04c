package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"slices"

	"tankside/builder/carry"
	"tankside/builder/edition"
)

// writePaths writes the paths of a part of an edition, where it is whole: nobody is to copy one that is not to where people read.
func (c *console) writePaths(ctx context.Context, folder string, part edition.Part) error {
	if carry.IsArchive(folder) {
		return fmt.Errorf("%q is an edition as one file, and the paths of a part are for what copies files: unpack it first", folder)
	}
	list, err := edition.ReadList(os.DirFS(folder))
	if err != nil {
		return noEdition(folder, err)
	}
	paths, is := list.PathsOf(part)
	if !is {
		var names []string
		for _, p := range slices.Concat(edition.Parts, []edition.Part{edition.All}) {
			names = append(names, string(p))
		}
		return fmt.Errorf("an edition has no part %q: its parts are assets, pages, worker and list, and all is all of them%s", part, didYouMean(string(part), names))
	}
	c.tell("Comparing "+folder, 0, 0)
	r, err := edition.Verify(ctx, os.DirFS(folder))
	if err != nil {
		return noEdition(folder, err)
	}
	c.endProgress()
	if len(r.Damaged)+len(r.Missing) > 0 {
		c.note("%d files of the edition in %q are damaged and %d missing, so none is named: tankside verify says which.", len(r.Damaged), folder, len(r.Missing))
		return status(exitFindings)
	}
	for _, p := range paths {
		if p != shown(p) {
			return errors.New("the edition has a file whose name cannot be written in one line: " + shown(p))
		}
		fmt.Fprintln(c.out, p)
	}
	return nil
}
