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
	"strings"

	"tankside/builder/bring"
	"tankside/builder/manual"
)

var bringCommand = command{
	name: "bring",
	args: "FILE",
	does: "an article made of what a word processor saves",
	more: `Makes an article of a document that a word processor has saved as a web page (HTML) or as markdown: tables with merged cells, bullets, “WARNING:”,
footnotes, degrees, ranges, decimal commas and pictures come out as a manual has them. At its end it lists what is left for you to decide, what it took for something, what it dropped
and what it changed. It guesses no number's unit and approves nothing: the header waits for you.

  tankside bring "Oil removal.html" --kind procedure --name oil-removal`,
	setUp: func(o *options) action {
		in := o.text("in", "MANUAL", "folder of the manual; without it “"+usualManual+"”", usualManual)
		sort := o.text("kind", "KIND", "kind of article; without it a procedure", "")
		called := o.text("name", "NAME", "name of the article; without it the file's", "")
		title := o.text("title", "TITLE", "title of the article; without it the document's", "")
		try := o.yes("try", "say what would be made, and write nothing")
		return func(ctx context.Context, c *console, args []string) error {
			if len(args) != 1 {
				return errors.New("say which file to bring, for example: tankside bring \"Oil removal.html\" --kind procedure")
			}
			file := args[0]
			kind := manual.Procedure
			if *sort != "" {
				var err error
				if kind, err = kindNamed(*sort); err != nil {
					return err
				}
			}
			name := manual.Anchor(strings.TrimSuffix(filepath.Base(file), filepath.Ext(file)))
			if *called != "" {
				name = strings.TrimSuffix(*called, ".md")
			}
			at := kind.Folder() + "/" + name + ".md"
			if wrong := manual.CheckName(at); len(wrong) > 0 {
				return fmt.Errorf("%s cannot be the name of the article. %s %s", quoted(name), wrong[0].Message, wrong[0].Remedy)
			}
			if err := c.finishRenaming(*in); err != nil {
				return err
			}
			root, m, err := openManual(ctx, *in)
			if err != nil {
				return err
			}
			defer root.Close()
			if other := m.Named(kind, name); other != nil {
				return fmt.Errorf("there is a %s %s already, in %s; give another name", kind, quoted(name), other.Path)
			}
			data, beside, err := document(file)
			if err != nil {
				return err
			}
			defer beside.Close()
			got, err := bring.Article(file, data, bring.Options{Kind: kind, Name: name, Title: *title, Picture: pictureIn(beside)})
			if err != nil {
				return fmt.Errorf("%s: %w", quoted(file), err)
			}
			files := map[string][]byte{at: got.Text}
			maps.Copy(files, got.Pictures)
			if err := unwritten(root, files); err != nil {
				return err
			}
			for _, file := range slices.Sorted(maps.Keys(files)) {
				if !*try {
					if err := writeNew(root, file, files[file]); err != nil {
						return err
					}
				}
				fmt.Fprintln(c.out, filepath.Join(*in, filepath.FromSlash(file)))
			}
			if *sort == "" {
				got.Notes = append(got.Notes, bring.Note{What: bring.Guessed, Text: "The kind of article: a procedure. --kind says another.", Times: 1})
			}
			c.tellNotes(got.Notes)
			if *try {
				c.note("Nothing was written: --try says only what would be.")
			}
			return nil
		}
	},
}

// document reads a file, as far as it may be long, and opens the folder in which it lies.
func document(file string) ([]byte, *os.Root, error) {
	info, err := os.Stat(file)
	if err != nil {
		return nil, nil, err
	}
	if !info.Mode().IsRegular() || info.Size() > bring.MostBytes {
		return nil, nil, fmt.Errorf("%s is no file, or has more than %d MiB", quoted(file), bring.MostBytes>>20)
	}
	data, err := os.ReadFile(file)
	if err != nil {
		return nil, nil, err
	}
	root, err := os.OpenRoot(filepath.Dir(file))
	return data, root, err
}

// mostPicture is how many bytes a picture has that is brought.
const mostPicture = 16 << 20

// pictureIn gives pictures that lie beside the document or in folders there.
func pictureIn(beside *os.Root) func(string) ([]byte, error) {
	return func(at string) ([]byte, error) {
		info, err := beside.Stat(filepath.FromSlash(at))
		switch {
		case err != nil:
			return nil, fs.ErrNotExist
		case !info.Mode().IsRegular() || info.Size() > mostPicture:
			return nil, fmt.Errorf("it is no file, or has more than %d MiB", mostPicture>>20)
		}
		return beside.ReadFile(filepath.FromSlash(at))
	}
}

// unwritten refuses where a file is there already.
func unwritten(root *os.Root, files map[string][]byte) error {
	for file := range files {
		if _, err := root.Lstat(filepath.FromSlash(file)); !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("there is a file %s already, and it is not written over", quoted(file))
		}
	}
	return nil
}

// tellNotes lists what was done, by what it is.
func (c *console) tellNotes(list []bring.Note) {
	for _, what := range []bring.What{bring.Left, bring.Guessed, bring.Dropped, bring.Changed} {
		first := true
		for _, n := range list {
			if n.What != what {
				continue
			}
			if first {
				fmt.Fprintf(c.out, "\n%s\n", c.strong(strings.ToUpper(string(what[:1]))+string(what[1:])))
				first = false
			}
			times := ""
			if n.Times > 1 {
				times = fmt.Sprintf(" (%d times)", n.Times)
			}
			fmt.Fprintf(c.out, "  %s%s\n", shown(n.Text), times)
		}
	}
}
