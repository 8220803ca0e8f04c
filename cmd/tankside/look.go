package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/ownlook"
	"tankside/themes"
)

var lookCommand = command{
	name: "look",
	args: "[MANUAL [NAME…]]",
	does: "the files that pages are made with; writes out those that a shop wants to change, and says what changed beneath them",
	more: `Without MANUAL it lists every template, block, style, script, drawing and file of words, with what it is there for. With MANUAL alone it says of
each file in the manual's theme/ what it does, which one was meant where its name is nearly right, and what has changed of the built-in file
beneath it since it was taken, as after an upgrade. With names it writes these built-in files into theme/, to be changed, and the same into
theme/taken/, to be compared with: leave that folder as it is. A name is that of a file (templates/home.html, home.html or home) or a folder. Nothing is
written over a file that is there and differs. --settled says of the shop's own files that they have what they need of the built-in ones as they
are now; it changes only theme/taken/.

  tankside look
  tankside look content home.html
  tankside look content
  tankside look content home.html --settled`,
	setUp: func(o *options) action {
		settled := o.yes("settled", "the files named are compared with the built-in ones as they are now from here on")
		asJSON := o.yes("json", "for programs: a list of file, block, for; with MANUAL of file, role, meant, beneath, gone, new")
		return func(ctx context.Context, c *console, args []string) error {
			if len(args) == 0 && *settled {
				return errors.New("name the manual and the files that are settled, for example: tankside look content home.html --settled")
			}
			if len(args) == 0 {
				return tellParts(c, *asJSON)
			}
			root, m, err := openManual(ctx, args[0])
			if err != nil {
				return err
			}
			defer root.Close()
			names, err := builtIn(args[1:])
			switch {
			case err != nil:
				return err
			case len(names) == 0 && *settled:
				return errors.New("name the files that are settled behind the manual")
			case len(names) == 0:
				return tellLook(c, m, *asJSON)
			case *settled:
				err = settle(root, names)
			default:
				err = takeOut(root, names)
			}
			if err != nil {
				return err
			}
			for _, name := range names {
				fmt.Fprintln(c.out, path.Join("theme", name))
			}
			return nil
		}
	},
}

// builtIn are the built-in files that the arguments name, each once.
func builtIn(words []string) ([]string, error) {
	var names []string
	for _, word := range words {
		files, near, several := ownlook.Named(word)
		switch {
		case several:
			return nil, fmt.Errorf("%s is the name of several files; name one of them: %s", quoted(word), strings.Join(files, ", "))
		case len(files) == 0 && near != "":
			return nil, fmt.Errorf("there is no built-in file %s; did you mean %s?", quoted(word), near)
		case len(files) == 0:
			return nil, fmt.Errorf("there is no built-in file %s; tankside look lists those that there are", quoted(word))
		}
		names = append(names, files...)
	}
	slices.Sort(names)
	return slices.Compact(names), nil
}

// ownText is what the manual's own file of a name says, and whether there is one.
func ownText(root *os.Root, name string) ([]byte, bool, error) {
	data, err := root.ReadFile(path.Join("theme", name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, false, nil
	}
	return bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n")), err == nil, err
}

// takeOut writes built-in files into the theme, all of them or, where one that is there differs, none.
func takeOut(root *os.Root, names []string) error {
	there := map[string]bool{}
	var differ []string
	for _, name := range names {
		own, is, err := ownText(root, name)
		if err != nil {
			return err
		}
		now, err := themes.BuiltInFile(name)
		if err != nil {
			return err
		}
		if there[name] = is; is && !bytes.Equal(own, now) {
			differ = append(differ, "theme/"+name)
		}
	}
	if len(differ) > 0 {
		return fmt.Errorf("of %s the shop has its own, and nothing was written; without a name tankside look MANUAL says what changed beneath it", strings.Join(differ, ", "))
	}
	for _, name := range names {
		now, err := themes.BuiltInFile(name)
		if err != nil {
			return err
		}
		if err := keepTaken(root, name, now); err != nil {
			return err
		}
		if there[name] {
			continue
		}
		if err := writeNew(root, path.Join("theme", name), now); err != nil {
			return err
		}
	}
	return nil
}

// settle has files of the shop's own compared with the built-in ones of now.
func settle(root *os.Root, names []string) error {
	for _, name := range names {
		if _, is, err := ownText(root, name); err != nil || !is {
			return errors.Join(err, fmt.Errorf("the manual has no theme/%s, and nothing was settled", name))
		}
	}
	for _, name := range names {
		now, err := themes.BuiltInFile(name)
		if err != nil {
			return err
		}
		if err := keepTaken(root, name, now); err != nil {
			return err
		}
	}
	return nil
}

// keepTaken writes a built-in file to where it is compared with, whole or not at all.
func keepTaken(root *os.Root, name string, text []byte) error {
	at := path.Join("theme", ownlook.Taken, name)
	if err := root.MkdirAll(path.Dir(at), 0o755); err != nil {
		return err
	}
	beside := at + ".new~"
	if err := root.WriteFile(beside, text, 0o644); err != nil {
		return errors.Join(fmt.Errorf("%s was not written: %w", at, err), root.Remove(beside))
	}
	if err := root.Rename(beside, at); err != nil {
		return errors.Join(fmt.Errorf("%s was not written: %w", at, err), root.Remove(beside))
	}
	return nil
}

// tellParts prints what there is to be changed.
func tellParts(c *console, asJSON bool) error {
	if !asJSON {
		fmt.Fprint(c.out, themes.Guide())
		return nil
	}
	type part struct {
		File  string `json:"file"`
		Block string `json:"block,omitempty"`
		For   string `json:"for"`
	}
	var parts []part
	for _, p := range themes.Parts() {
		parts = append(parts, part{p.File, p.Block, p.Purpose})
	}
	return c.json(parts)
}

// tellLook prints what the manual's own files are to the built-in ones.
func tellLook(c *console, m *manual.Manual, asJSON bool) error {
	files := ownlook.Compare(m.Theme, m.Shop.Look.Theme)
	if asJSON {
		return c.json(forPrograms(files))
	}
	if len(files) == 0 {
		fmt.Fprintln(c.out, "The manual has no files of a look of its own; all built-in ones are used.")
	}
	for _, f := range files {
		tellFile(c.out, f)
	}
	return nil
}

// ownFile is one of the shop's own files, for programs.
type ownFile struct {
	File    string          `json:"file"`
	Role    ownlook.Role    `json:"role"`
	Meant   string          `json:"meant,omitempty"`
	Beneath ownlook.Beneath `json:"beneath,omitempty"`
	Gone    int             `json:"gone"`
	New     int             `json:"new"`
}

func forPrograms(files []ownlook.File) []ownFile {
	all := []ownFile{}
	for _, f := range files {
		gone, new := ownlook.Counts(f)
		all = append(all, ownFile{"theme/" + f.Name, f.Role, f.Meant, f.Beneath, gone, new})
	}
	return all
}

// tellFile prints what one is to the built-in one of its name.
func tellFile(w io.Writer, f ownlook.File) {
	fmt.Fprintf(w, "theme/%s  %s", f.Name, f.Role)
	if f.Of != "" {
		fmt.Fprintf(w, ": the built-in one of this name is of the theme %s", f.Of)
	}
	if f.Meant != "" {
		fmt.Fprintf(w, "; did you mean theme/%s?", f.Meant)
	}
	switch f.Beneath {
	case ownlook.Same:
		fmt.Fprint(w, ", which is as it was taken")
	case ownlook.Changed:
		gone, new := ownlook.Counts(f)
		fmt.Fprintf(w, ", which has changed since it was taken: %d lines gone, %d new\n%s", gone, new, ownlook.Changes(f))
	case ownlook.Gone:
		fmt.Fprint(w, ": the built-in one that it was made of is there no longer")
	case ownlook.Unknown:
		fmt.Fprint(w, "; of which built-in text it was made is not known, and it is not compared")
	}
	if f.Fault != nil {
		fmt.Fprintf(w, "\n  line %d: %s", f.Fault.Line, f.Fault.Says)
	}
	fmt.Fprintln(w)
}
