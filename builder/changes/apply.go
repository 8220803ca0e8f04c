package changes

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/content"
)

// Apply makes of a content the newer one, by the list that [Between] has given of the two. The error names a change that does not fit.
func Apply(a *content.Content, list []Change) (*content.Content, error) {
	files := map[string][]content.Part{}
	for _, d := range a.Docs() {
		files[d.Path] = d.Parts()
	}
	for _, c := range list { // first, since a path may be given up by one file and taken by another
		if c.Kind == Renamed && c.Heading == "" {
			if _, there := files[c.Before]; !there {
				return nil, unfit(c)
			}
			files[c.After] = files[c.Before]
			delete(files, c.Before)
		}
	}
	for from := 0; from < len(list); {
		to := from
		for to < len(list) && list[to].Article == list[from].Article {
			to++
		}
		path := list[from].Article
		parts, err := applied(path, files[path], list[from:to])
		if err != nil {
			return nil, err
		}
		if files[path] = parts; len(parts) == 0 {
			delete(files, path)
		}
		from = to
	}
	var docs []content.Doc
	for path, parts := range files {
		docs = append(docs, content.DocOf(path, content.IsArticle(path), parts))
	}
	return content.New(docs), nil
}

func unfit(c Change) error {
	return fmt.Errorf("%s, %q: what is %s is not there as it was before", c.Article, c.Heading, c.Kind)
}

// applied makes the parts of one file.
func applied(path string, parts []content.Part, list []Change) ([]content.Part, error) {
	parts = slices.Clone(parts)
	at := func(name string) int {
		return slices.IndexFunc(parts, func(p content.Part) bool { return p.Name == name })
	}
	held := map[string]content.Part{} // what is moved
	for _, c := range list {          // by the older names
		switch {
		case c.Kind == Removed:
			i := at(c.Heading)
			if i < 0 {
				return nil, unfit(c)
			}
			parts = slices.Delete(parts, i, i+1)
		case c.Kind == Renamed && c.Heading != "":
			i := at(c.Before)
			if i < 0 {
				return nil, unfit(c)
			}
			parts[i] = content.Part{Name: c.After, Text: retitled(parts[i].Text, c.Before, c.After)}
		}
	}
	for _, c := range list { // by the newer names
		i := at(c.Heading)
		switch c.Kind {
		case Changed:
			if i < 0 || parts[i].Text != c.Before {
				return nil, unfit(c)
			}
			parts[i].Text = c.After
		case Moved:
			if i < 0 {
				return nil, unfit(c)
			}
			held[c.Heading] = parts[i]
			parts = slices.Delete(parts, i, i+1)
		}
	}
	for _, c := range list { // from the beginning to the end
		p, ordered := content.Part{Name: c.Heading, Text: c.After}, inOrder(path, c.Heading)
		switch {
		case c.Kind == Moved:
			p = held[c.Heading]
		case c.Kind != Added:
			continue
		}
		i := len(parts) - 1
		if ordered && p.Name != "" {
			if i = at(c.behind); i < 0 {
				return nil, unfit(c)
			}
		}
		parts = slices.Insert(parts, i+1, p)
	}
	slices.SortStableFunc(parts, func(a, b content.Part) int { // what has no order of its own stands before the text, by name
		switch x, y := inOrder(path, a.Name), inOrder(path, b.Name); {
		case x && y:
			return 0
		case x:
			return 1
		case y:
			return -1
		}
		return strings.Compare(a.Name, b.Name)
	})
	return parts, nil
}
