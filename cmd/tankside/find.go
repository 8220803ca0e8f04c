package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"tankside/builder/asked"
	"tankside/builder/decide/admit/markup"
	"tankside/builder/edition"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/search"
)

var findCommand = command{
	name: "find",
	args: "WORDS…",
	does: "search an edition",
	more: `Searches an edition as its pages do: everyday words, typing errors, the beginning of the last word, numbers with units.
What can be worked out from the words stands before what is found: “140 F in C”, “60 L at 1:40”, “120 L 12 to 62”, “brass in wash 1”.
Exit status 1 where nothing is found and nothing worked out.`,
	setUp: func(o *options) action {
		in := o.text("in", "EDITION", "folder of the edition; without it “"+usualEdition+"”", usualEdition)
		kind := o.text("kind", "K", "only "+strings.Join(manual.Findable(), ", "), "")
		station := o.text("station", "S", "only "+strings.Join(stations(), ", "), "")
		language := o.text("language", "TAG", "your language, where the edition has several and your words could be of more than one; without it the manual's own", "")
		units := o.text("units", "SI|US", "units of what is worked out; without it SI", "SI")
		from := o.text("from", "N", "goes on behind the N best", "0")
		asJSON := o.yes("json", "for programs: worked-out, with answers and what has to be said (asks); unknown words; total; and found, a list of path, title, kind, station, section, score, snippet; language where there are several")
		return func(ctx context.Context, c *console, args []string) error {
			words := strings.TrimSpace(strings.Join(args, " "))
			if words == "" {
				return errors.New("say what to find, for example: tankside find white spots")
			}
			if err := errors.Join(oneOf("kind", *kind, manual.Findable()), oneOf("station", *station, stations())); err != nil {
				return err
			}
			system, is := quantity.SystemNamed(*units)
			if !is {
				return fmt.Errorf("--units takes SI or US, not %q", *units)
			}
			behind, err := strconv.Atoi(*from)
			if err != nil || behind < 0 {
				return fmt.Errorf("--from takes a whole number, not %q", *from)
			}
			found, err := look(ctx, *in, words, system, search.Question{Words: words, Kind: *kind, Station: *station, Language: *language, From: behind})
			if err != nil {
				return noEdition(*in, err)
			}
			answer := found.answer
			if *asJSON {
				err = c.json(foundJSON{found.worked, answer.Unknown, answer.Total, orEmpty(answer.Hits)})
			} else {
				c.tellWorked(*in, found.worked)
				c.tellHits(*in, behind, answer)
			}
			if err == nil && answer.Total == 0 {
				c.tellNothing(words, *kind, *station, answer)
				if len(found.worked.Answers) == 0 {
					err = status(exitFindings)
				}
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

// foundJSON is what programs get.
type foundJSON struct {
	Worked  asked.Result `json:"worked-out"`
	Unknown []string     `json:"unknown,omitempty"`
	Total   int          `json:"total"`
	Found   []search.Hit `json:"found"`
}

// found is what an edition has to a question.
type found struct {
	worked asked.Result
	answer search.Answer
}

// look asks an edition: what can be worked out from the words, and what is found by them.
func look(ctx context.Context, folder, words string, units quantity.System, q search.Question) (f found, err error) {
	root, err := os.OpenRoot(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return f, edition.ErrNotEdition
	}
	if err != nil {
		return f, err
	}
	defer func() { err = errors.Join(err, root.Close()) }()
	list, err := edition.ReadList(root.FS())
	if err != nil {
		return f, err
	}
	if f.worked, err = workOut(root, list, words, units); err != nil {
		return f, err
	}
	f.answer, err = ask(ctx, root, list, q)
	return f, err
}

// workOut answers what can be worked out from words, by the names and facts that an edition carries for its pages.
func workOut(root *os.Root, list *edition.List, words string, units quantity.System) (asked.Result, error) {
	names, err := edition.Parcel(root.FS(), list, "asked-names")
	if err != nil {
		return asked.Result{}, err
	}
	var sheet *markup.Sheet
	if list.Parcels["admit-table"] != "" {
		packed, err := edition.Parcel(root.FS(), list, "admit-table")
		if err != nil {
			return asked.Result{}, err
		}
		if sheet, err = markup.Unpack(packed); err != nil {
			return asked.Result{}, err
		}
	}
	return asked.Unpack(string(names)).Tell(sheet, words, units), nil
}

// ask puts a question to the search index of an edition.
func ask(ctx context.Context, root *os.Root, list *edition.List, q search.Question) (answer search.Answer, err error) {
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

// tellWorked prints what was worked out: the signal word first, then verdict or result, and where it is to be had at length.
func (c *console) tellWorked(folder string, r asked.Result) {
	for _, a := range r.Answers {
		fmt.Fprintf(c.out, "%s\n", c.strong(a.Title))
		if a.Signal != "" {
			fmt.Fprintf(c.out, "    %s\n", strings.TrimSpace(c.strong(a.Signal)+" "+a.Caution))
			if a.More > 0 {
				fmt.Fprintf(c.out, "    (%d more safety messages on its page)\n", a.More)
			}
		}
		fmt.Fprintf(c.out, "    %s\n", c.strong(a.Says))
		for _, line := range a.Lines {
			fmt.Fprintf(c.out, "    %s\n", line)
		}
		if a.Path != "" {
			fmt.Fprintf(c.out, "    %s\n", filepath.Join(folder, filepath.FromSlash(a.Path)))
		}
		fmt.Fprintln(c.out)
	}
	for _, text := range r.Asks {
		fmt.Fprintf(c.out, "%s\n\n", text)
	}
}

func (c *console) tellHits(folder string, from int, a search.Answer) {
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
	if len(a.Hits) == 0 && a.Total > 0 {
		c.note("That is all: %d were found.", a.Total)
	}
	if more := a.Total - from - len(a.Hits); more > 0 && len(a.Hits) > 0 {
		c.note("%d more: --from %d goes on, --kind (%s) or another word narrows it.", more, from+len(a.Hits), counts(a.Kinds))
	}
	if len(a.Unknown) > 0 && len(a.Hits) > 0 {
		c.note("Not in this manual: %s.", strings.Join(a.Unknown, ", "))
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
	if len(a.Unknown) > 0 {
		text += " Not in this manual: " + strings.Join(a.Unknown, ", ") + "."
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
