package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"tankside/builder/edition"
	"tankside/builder/manual"
	"tankside/search"
)

var findCommand = command{
	name: "find",
	args: "WORDS…",
	does: "search an edition",
	more: `Searches an edition as its pages do: everyday words, typing errors, the beginning of the last word, numbers with units.
Exit status 1 where nothing is found.`,
	setUp: func(o *options) action {
		in := o.text("in", "EDITION", "folder of the edition; without it “"+usualEdition+"”", usualEdition)
		kind := o.text("kind", "K", "only "+strings.Join(manual.Findable(), ", "), "")
		station := o.text("station", "S", "only "+strings.Join(stations(), ", "), "")
		language := o.text("language", "TAG", "your language, where the edition has several and your words could be of more than one; without it the manual's own", "")
		asJSON := o.yes("json", "what was found, for programs: a list of path, title, kind, station, section, score, snippet; language where there are several")
		return func(ctx context.Context, c *console, args []string) error {
			words := strings.TrimSpace(strings.Join(args, " "))
			if words == "" {
				return errors.New("say what to find, for example: tankside find white spots")
			}
			if err := errors.Join(oneOf("kind", *kind, manual.Findable()), oneOf("station", *station, stations())); err != nil {
				return err
			}
			answer, err := ask(ctx, *in, search.Question{Words: words, Kind: *kind, Station: *station, Language: *language})
			if err != nil {
				return noEdition(*in, err)
			}
			if *asJSON {
				err = c.json(orEmpty(answer.Hits))
			} else {
				c.tellHits(*in, answer)
			}
			if err == nil && len(answer.Hits) == 0 {
				c.tellNothing(words, *kind, *station, answer)
				err = status(exitFindings)
			}
			return err
		}
	},
}

func stations() []string {
	var list []string
	for _, s := range manual.Stations {
		list = append(list, string(s))
	}
	return list
}

func oneOf(option, given string, words []string) error {
	if given == "" || slices.Contains(words, given) {
		return nil
	}
	return fmt.Errorf("--%s takes %s, not %q%s", option, strings.Join(words, ", "), given, didYouMean(given, words))
}

// ask puts a question to the search index of an edition.
func ask(ctx context.Context, folder string, q search.Question) (answer search.Answer, err error) {
	root, err := os.OpenRoot(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return answer, edition.ErrNotEdition
	}
	if err != nil {
		return answer, err
	}
	defer func() { err = errors.Join(err, root.Close()) }()
	list, err := edition.ReadList(root.FS())
	if err != nil {
		return answer, err
	}
	var pieces [][]byte
	for name := "search-segment"; len(pieces) == 0 || list.Parcels[name] != ""; name = fmt.Sprintf("search-segment-%d", len(pieces)+1) {
		piece, err := edition.Parcel(root.FS(), list, name)
		if err != nil {
			return answer, err
		}
		pieces = append(pieces, piece)
	}
	finder, err := search.Open(pieces...)
	if err != nil {
		return answer, err
	}
	defer func() { err = errors.Join(err, finder.Close()) }()
	return finder.Ask(ctx, q)
}

func (c *console) tellHits(folder string, a search.Answer) {
	for _, hit := range a.Hits {
		about := hit.Kind
		if hit.Station != "" {
			about += ", " + hit.Station
		}
		fmt.Fprintf(c.out, "%s (%s)\n", c.strong(hit.Title), about)
		if hit.Section != "" {
			fmt.Fprintf(c.out, "    %s\n", hit.Section)
		}
		if len(hit.Snippet) > 0 {
			fmt.Fprintf(c.out, "    %s\n", c.snippet(hit.Snippet))
		}
		page, anchor, in := strings.Cut(hit.Path, "#")
		at := filepath.Join(folder, filepath.FromSlash(page))
		if in {
			at += "#" + anchor
		}
		fmt.Fprintf(c.out, "    %s\n\n", at)
	}
	if more := a.Total - len(a.Hits); more > 0 && len(a.Hits) > 0 {
		c.note("%d more; narrow it with --kind (%s) or with another word.", more, counts(a.Kinds))
	}
}

func (c *console) snippet(runs []search.Run) string {
	var b strings.Builder
	for _, r := range runs {
		if r.Marked {
			b.WriteString(c.strong(r.Text))
		} else {
			b.WriteString(r.Text)
		}
	}
	return b.String()
}

// tellNothing says that nothing was found, and what would be.
func (c *console) tellNothing(words, kind, station string, a search.Answer) {
	text := "Nothing found for “" + words + "”"
	switch {
	case kind != "" && station != "":
		text += " of the kind " + kind + " at the station " + station
	case kind != "":
		text += " of the kind " + kind
	case station != "":
		text += " at the station " + station
	}
	text += "."
	if kind != "" && len(a.Kinds) > 0 {
		text += " Of other kinds there are: " + counts(a.Kinds) + "."
	}
	if station != "" && len(a.Stations) > 0 {
		text += " At other stations there are: " + counts(a.Stations) + "."
	}
	if len(a.Nearest) > 0 {
		text += " Words of the manual that are near: " + strings.Join(a.Nearest, ", ") + "."
	}
	c.note("%s", text)
}

func counts(list []search.Count) string {
	parts := make([]string, len(list))
	for i, n := range list {
		parts[i] = fmt.Sprintf("%s %d", n.Name, n.Articles)
	}
	return strings.Join(parts, ", ")
}
