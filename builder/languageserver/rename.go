package languageserver

import (
	"context"
	"errors"
	"fmt"
	"path"
	"regexp"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// mend replaces some bytes of a file's text as it is.
type mend struct {
	file     string
	from, to int
	with     string
}

// move gives a file another path.
type move struct{ from, to string }

// renaming is what has to be done to call an article or a heading otherwise, everywhere.
type renaming struct {
	mends []mend // by file and place; none overlap
	moves []move // after the mends
}

// texts gives the text of a file of the manual as it stands, as the editor or the disk has it.
type texts func(file string) string

// renameArticle gives an article another name: its file and those of its translations, and every link, header, see-also, shop file
// and glossary that names it. It knows nothing of the protocol. The error is a sentence for whoever asked.
func renameArticle(ctx context.Context, m *manual.Manual, of texts, a *manual.Article, name string) (renaming, error) {
	name = strings.TrimSuffix(name, ".md")
	to := path.Join(path.Dir(a.Path), name+".md")
	if err := usable(ctx, m, of, a, name, to); err != nil {
		return renaming{}, err
	}
	var r renaming
	moved := map[*manual.Article]string{a: to}
	r.moves = append(r.moves, move{a.Path, to})
	for _, t := range m.Translations {
		if t.Original == a {
			there := path.Join(path.Dir(t.Path), name+strings.TrimPrefix(path.Base(t.Path), a.Name))
			moved[t] = there
			r.moves = append(r.moves, move{t.Path, there})
		}
	}
	w := &rewriting{m: m, of: of}
	for _, by := range append(slices.Collect(all(m.Articles)), slices.Collect(all(m.Translations))...) {
		w.header(by, a, name)
		for _, l := range by.Links {
			if dest, problem := m.Resolve(by, l.Target); problem == nil && moved[dest.Article] != "" {
				where, anchor, has := strings.Cut(l.Target, "#")
				if where == "" {
					continue // inside the article itself
				}
				target := path.Join(path.Dir(where), path.Base(moved[dest.Article]))
				if strings.HasPrefix(where, "./") {
					target = "./" + target
				}
				if has {
					target += "#" + anchor
				}
				w.link(by.Path, l, target)
			}
		}
	}
	w.shop(a, name, to)
	r.mends = w.sorted()
	return r, w.err
}

// all gives the second of each two values.
func all(of func(func(int, *manual.Article) bool)) func(func(*manual.Article) bool) {
	return func(yield func(*manual.Article) bool) {
		of(func(_ int, a *manual.Article) bool { return yield(a) })
	}
}

var tidy = regexp.MustCompile(`^[a-z0-9]+(?:-[a-z0-9]+)*$`)

// usable tells whether an article may have a name.
func usable(ctx context.Context, m *manual.Manual, of texts, a *manual.Article, name, to string) error {
	switch {
	case a.Language != "":
		return errors.New("a translation is called as its original is: rename that one")
	case m.Named(a.Kind, a.Name) != a:
		return fmt.Errorf("two articles have the name “%s”, so it cannot be told which is meant; rename one of the files", a.Name)
	case !tidy.MatchString(name):
		return errors.New("a name is lower-case words joined by hyphens, such as straight-cutting-oil")
	case m.Named(a.Kind, name) != nil || m.At(to) != nil:
		return fmt.Errorf("there is a %s “%s” already", a.Kind, name)
	}
	_, found, err := alone(ctx, to, of(a.Path))
	if err != nil {
		return err
	}
	for _, f := range found {
		if f.File == to && f.Line == 0 { // of the file's name
			return errors.New(f.Message + " " + f.Remedy)
		}
	}
	return nil
}

// alone reads an article by itself.
func alone(ctx context.Context, file, text string) (*manual.Article, []finding.Finding, error) {
	m, found, err := manual.Read(ctx, &overlay{nothing{}, map[string]string{manual.ShopFile: "", file: text}})
	if err != nil {
		return nil, nil, err
	}
	return m.At(file), found, nil
}
