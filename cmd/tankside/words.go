package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"tankside/builder/language"
	"tankside/builder/manual"
	"tankside/builder/wording"
	"tankside/themes"
)

var wordsCommand = command{
	name: "words",
	args: "[LANGUAGE]",
	does: "what the program says, to be translated into another language; how much of it is",
	more: `Writes two files to translate: what pages, cards, reasons and the search say, and what the calculators say. On the left stands the English
phrase, above a group of phrases where they are said, on the right goes what is shown. Run again it keeps what is translated and your remarks, adds
what is new, sets beside a changed phrase what was translated before, and names what is said no longer. What is not translated is shown in
English, and tankside proof counts it. LANGUAGE is a tag of BCP 47, such as de or pt-br. Without one it says which languages there are and
how much of each is translated.

  tankside words de
  tankside words pt-br --in my-manual`,
	setUp: func(o *options) action {
		in := o.text("in", "MANUAL", "folder of the manual, in whose theme the files stand; without it “"+usualManual+"”", usualManual)
		to := o.text("to", "FOLDER", "folder of a theme instead, in which words/LANGUAGE.yaml is written", "")
		all := o.yes("all", "also what the program itself has words for in that language")
		asJSON := o.yes("json", "for programs: a list of language, list, file, phrases, translated, missing, new, changed, gone")
		return func(_ context.Context, c *console, args []string) error {
			folder := *to
			if folder == "" {
				folder = filepath.Join(*in, "theme")
				if info, err := os.Stat(*in); err != nil || !info.IsDir() {
					return fmt.Errorf("there is no folder of a manual at %s; name it with --in, or a theme's folder with --to", quoted(*in))
				}
			}
			var list []translation
			var err error
			switch len(args) {
			case 0:
				list, err = translations(folder)
			case 1:
				list, err = writeWords(folder, args[0], *all)
			default:
				return errors.New("name one language, for example: tankside words de")
			}
			if err != nil {
				return err
			}
			if *asJSON {
				return c.json(list)
			}
			tellWords(c.out, list)
			return nil
		}
	},
}

// translation is what there is of a list of phrases in a language.
type translation struct {
	Language   string           `json:"language"`
	List       wording.List     `json:"list"`
	File       string           `json:"file,omitempty"` // that was written
	Phrases    int              `json:"phrases"`
	Translated int              `json:"translated"`
	Missing    []string         `json:"missing"`
	New        []string         `json:"new"`
	Changed    []wording.Change `json:"changed"`
	Gone       []string         `json:"gone"`

	same bool // the file says what it said before
}

// translations are those of every language that the program or the theme in a folder has words for.
func translations(folder string) ([]translation, error) {
	theme := themes.New(os.DirFS(folder))
	files, err := theme.List("words")
	if err != nil {
		return nil, err
	}
	var list []translation
	for _, file := range files {
		_, tag, is := wording.ListOf(file)
		if !is {
			continue
		}
		for _, l := range wording.Lists {
			own, err := fs.ReadFile(os.DirFS(folder), l.File(tag))
			if err != nil && !errors.Is(err, fs.ErrNotExist) {
				return nil, err
			}
			t, _, err := translate(l, tag, own, false)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", filepath.Join(folder, filepath.FromSlash(l.File(tag))), err)
			}
			list = append(list, t)
		}
	}
	return list, nil
}

// writeWords writes both files of a language into a theme's folder.
func writeWords(folder, tag string, all bool) ([]translation, error) {
	canonical, is := manual.Language(tag)
	if !is {
		return nil, fmt.Errorf("%q is no language tag; write one such as de or pt-br", tag)
	}
	tag = strings.ToLower(canonical)
	if tag == language.English {
		return nil, errors.New("the program speaks English already; to have some phrases otherwise, write them into " + filepath.Join(folder, "words", "en.yaml"))
	}
	var list []translation
	for _, l := range wording.Lists {
		file := filepath.Join(folder, filepath.FromSlash(l.File(tag)))
		before, err := os.ReadFile(file)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return nil, err
		}
		t, text, err := translate(l, tag, before, all)
		if err != nil {
			return nil, fmt.Errorf("%s cannot be read, and nothing was written: %w", file, err)
		}
		if before == nil && !all && len(t.Missing) == 0 {
			list = append(list, t)
			continue
		}
		t.File, t.same = file, string(before) == string(text)
		if !t.same {
			if err := replaceFile(file, text); err != nil {
				return nil, err
			}
		}
		list = append(list, t)
	}
	return list, nil
}

// translate makes the file of a list for a language, of what it was before.
func translate(l wording.List, tag string, before []byte, all bool) (translation, []byte, error) {
	builtIn, err := builtInWords(l, tag)
	if err != nil {
		return translation{}, nil, err
	}
	text, w, err := wording.Template(l, tag, builtIn, before, all)
	return translation{Language: tag, List: l, Phrases: w.Phrases, Translated: w.Shown, Missing: list(w.Missing), New: list(w.New), Changed: list(w.Changed), Gone: list(w.Gone)}, text, err
}

// list is one that JSON writes as a list, empty or not.
func list[T any](of []T) []T { return append([]T{}, of...) }

// builtInWords are the program's own of a language, and for a region those of the language.
func builtInWords(l wording.List, tag string) (map[string]string, error) {
	words := map[string]string{}
	for _, t := range slices.Compact([]string{language.General(tag), tag}) {
		data, err := themes.New(nil).Read(l.File(t))
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err == nil {
			err = yaml.Unmarshal(data, &words)
		}
		if err != nil {
			return nil, err
		}
	}
	return words, nil
}

// replaceFile writes a file whole or not at all, in a folder that need not be there yet.
func replaceFile(file string, text []byte) error {
	dir := filepath.Dir(file)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	if err := writeWhole(file, text); err != nil {
		return fmt.Errorf("%s was not written: %w", file, err)
	}
	return nil
}

// mostNamed is how many phrases of a sort are named.
const mostNamed = 5

// tellWords says what there is.
func tellWords(w io.Writer, all []translation) {
	if len(all) == 0 {
		fmt.Fprintln(w, "There are no words of another language.")
	}
	for _, t := range all {
		fmt.Fprintf(w, "%s, %s: %d of %d phrases are translated, %d are missing\n", t.Language, t.List, t.Translated, t.Phrases, len(t.Missing))
		named := func(what string, phrases []string) {
			if len(phrases) == 0 {
				return
			}
			fmt.Fprintf(w, "  %d %s\n", len(phrases), what)
			for i, p := range phrases {
				if i == mostNamed {
					fmt.Fprintf(w, "    and %d more\n", len(phrases)-i)
					break
				}
				fmt.Fprintln(w, "    "+wording.Quote(p))
			}
		}
		if t.Translated > 0 || t.File == "" {
			named("new", t.New)
		}
		var changed []string
		for _, c := range t.Changed {
			changed = append(changed, c.Now)
		}
		named("changed; what was translated before stands above", changed)
		named("said no longer; what was translated stands at the end of the file", t.Gone)
		switch {
		case t.File == "":
		case t.same:
			fmt.Fprintf(w, "  %s is as it was\n", t.File)
		default:
			fmt.Fprintf(w, "  %s\n", t.File)
		}
	}
}
