package main

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"tankside/builder"
	"tankside/builder/edition"
	"tankside/builder/finding"
	"tankside/builder/languageserver"
	"tankside/builder/manual"
)

var languageServerCommand = command{
	name: "language-server",
	args: "[MANUAL]",
	does: "tells an editor what is wrong while somebody types",
	more: `Speaks the Language Server Protocol 3.17 over standard input and output. An editor starts it; in a terminal it waits for messages.
A file belongs to the manual in the nearest folder above it that holds shop.yaml. MANUAL is one to read from the beginning; without it,
those are read that the editor has open. EDITORS.md beside the program's source says how an editor is told of it.`,
	setUp: func(o *options) action {
		return func(ctx context.Context, c *console, args []string) error {
			lists := editions{c: c, known: map[string]knownEdition{}}
			options := languageserver.Options{Now: c.nowOrClock, After: time.After, Folder: manualOf, Open: openFolder, Compare: lists.compare}
			if len(args) > 0 {
				folder, err := atMostOne(args, "")
				if err == nil {
					options.Manual, err = filepath.Abs(folder)
				}
				if err != nil {
					return err
				}
			}
			if _, err := c.now(); err != nil {
				return err
			}
			return languageserver.Serve(ctx, c.in, c.out, options)
		}
	},
}

// nowOrClock is the time, for whoever has seen that the environment says it rightly.
func (c *console) nowOrClock() time.Time {
	now, err := c.now()
	if err != nil {
		return time.Now()
	}
	return now
}

// manualOf gives the folder of the manual to which a file or folder belongs: the nearest above it with a shop file, or, of a folder that holds
// one under the usual name, that one.
func manualOf(file string) (string, bool) {
	holds := func(folder string) bool {
		info, err := os.Stat(filepath.Join(folder, manual.ShopFile))
		return err == nil && info.Mode().IsRegular()
	}
	for folder := file; ; folder = filepath.Dir(folder) {
		if holds(folder) {
			return folder, true
		}
		if folder == filepath.Dir(folder) {
			break
		}
	}
	below := filepath.Join(file, usualManual)
	return below, holds(below)
}

// openFolder opens the folder of a manual, from which no link leads out.
func openFolder(folder string) (fs.FS, func() error, error) {
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, nil, err
	}
	return root.FS(), root.Close, nil
}

// editions are the lists of the editions that stand beside manuals, each read again when it is another.
type editions struct {
	c     *console
	known map[string]knownEdition
}

type knownEdition struct {
	list *edition.List
	at   time.Time // of its file; zero where there is none
}

// compare adds what has changed since the edition beside a manual, if there is one of the same shop.
func (e *editions) compare(folder string, m *manual.Manual, found []finding.Finding, today time.Time) []finding.Finding {
	var at time.Time
	if info, err := os.Stat(filepath.Join(filepath.Dir(folder), usualEdition, edition.ListName)); err == nil {
		at = info.ModTime()
	}
	k, known := e.known[folder]
	if !known || !k.at.Equal(at) {
		list, err := e.c.since(context.Background(), folder, "")
		if err != nil {
			e.c.note("%s", sentence(err))
		}
		k = knownEdition{list, at}
		e.known[folder] = k
	}
	if k.list == nil || k.list.Shop != m.Shop.Name {
		return found
	}
	return builder.Against(m, found, k.list, today)
}
