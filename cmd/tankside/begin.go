package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"tankside/builder/begin"
	"tankside/builder/manual"
)

var beginCommand = command{
	name: "begin",
	args: "KIND NAME",
	does: "a new article of a kind, with every key of its header explained",
	more: `Writes a new article into the manual: the header of its kind with every key explained. Keys that the article must have stand there without
a value, and tankside proof asks for them until somebody has filled them in; nothing in it claims an approval or a fact. An article that is
there already is not written over. Kinds: ` + kindWords() + `.

  tankside begin soil hard-wax`,
	setUp: func(o *options) action {
		in := o.text("in", "MANUAL", "folder of the manual; without it “"+usualManual+"”", usualManual)
		title := o.text("title", "TITLE", "title of the article; without it the name", "")
		return func(ctx context.Context, c *console, args []string) error {
			if len(args) != 2 {
				return errors.New("say which kind of article and its name, for example: tankside begin soil hard-wax")
			}
			kind, err := kindNamed(args[0])
			if err != nil {
				return err
			}
			name := strings.TrimSuffix(args[1], ".md")
			at := kind.Folder() + "/" + name + ".md"
			if strings.ContainsAny(name, `/\`) {
				return fmt.Errorf("the article's name is one word or several joined by hyphens, without a folder: the kind says that it goes into %s", kind.Folder())
			}
			if wrong := manual.CheckName(at); len(wrong) > 0 {
				return fmt.Errorf("%s cannot be the name of the article. %s %s", quoted(args[1]), wrong[0].Message, wrong[0].Remedy)
			}
			root, m, err := openManual(ctx, *in)
			if err != nil {
				return err
			}
			defer root.Close()
			if there := m.Named(kind, name); there != nil {
				return fmt.Errorf("there is a %s of this name already, %s, and nothing is written over it; choose another name", kind, there.Path)
			}
			text, err := begin.Article(kind, name, *title)
			if err != nil {
				return err
			}
			if err := writeNew(root, at, text); err != nil {
				return err
			}
			fmt.Fprintln(c.out, filepath.Join(*in, filepath.FromSlash(at)))
			c.note("Write the text below its header and fill in what has no value; then tankside proof %s says what is missing.", quoted(*in))
			return nil
		}
	},
}

// kindNamed is the kind that an argument means, by its word or its folder.
func kindNamed(text string) (manual.Kind, error) {
	var words []string
	for _, k := range manual.Kinds {
		if text == string(k) || text == k.Folder() {
			return k, nil
		}
		words = append(words, string(k))
	}
	return "", fmt.Errorf("there is no kind of article %q%s. The kinds are: %s", text, didYouMean(text, words), kindWords())
}

func kindWords() string {
	words := make([]string, len(manual.Kinds))
	for i, k := range manual.Kinds {
		words[i] = string(k)
	}
	return strings.Join(words, ", ")
}

// openManual opens the folder of a manual and reads it. What is wrong with its files is for tankside proof to say.
func openManual(ctx context.Context, folder string) (*os.Root, *manual.Manual, error) {
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, nil, fmt.Errorf("%s cannot be opened as the folder of a manual; name the folder that holds %s: %w", quoted(folder), manual.ShopFile, err)
	}
	m, _, err := manual.Read(ctx, root.FS())
	if err != nil {
		return nil, nil, errors.Join(err, root.Close())
	}
	return root, m, nil
}

// writeNew writes a file of the manual that is not there yet.
func writeNew(root *os.Root, at string, text []byte) error {
	if err := root.MkdirAll(path.Dir(at), 0o755); err != nil {
		return err
	}
	f, err := root.OpenFile(at, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s is there already, and nothing is written over it; choose another name", at)
	}
	if err != nil {
		return err
	}
	_, err = f.Write(text)
	if err := errors.Join(err, f.Close()); err != nil {
		return errors.Join(fmt.Errorf("%s was not written: %w", at, err), root.Remove(at))
	}
	return nil
}
