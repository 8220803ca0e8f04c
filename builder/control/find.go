package control

import (
	"fmt"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"tankside/builder/manual"
)

// Find gives the articles and translations that somebody names: by path within the manual, by path from the current folder, or by the name that
// headers use where one article alone has it. A folder names all in it but the drafts.
func Find(m *manual.Manual, folder string, names []string) ([]*manual.Article, error) {
	var list []*manual.Article
	for _, name := range names {
		some, err := find(m, folder, name)
		if err != nil {
			return nil, err
		}
		for _, a := range some {
			if !slices.Contains(list, a) {
				list = append(list, a)
			}
		}
	}
	return list, nil
}

func find(m *manual.Manual, folder, name string) ([]*manual.Article, error) {
	tries := []string{path.Clean(filepath.ToSlash(name))}
	if inside, err := filepath.Rel(folder, name); err == nil && filepath.IsLocal(inside) {
		tries = append(tries, filepath.ToSlash(inside))
	}
	for _, p := range tries {
		if a := m.At(p); a != nil {
			return []*manual.Article{a}, nil
		}
		if list := in(m, p); len(list) > 0 {
			return list, nil
		}
	}
	found := m.Lookup(name)
	switch len(found) {
	case 1:
		return found, nil
	case 0:
		return nil, fmt.Errorf("there is no article %q in the manual; name its file, such as soils/wax.md", name)
	}
	var paths []string
	for _, a := range found {
		paths = append(paths, a.Path)
	}
	return nil, fmt.Errorf("%q can be %s; name the file", name, strings.Join(paths, " or "))
}

// in gives the articles and translations below a folder of the manual, by path.
func in(m *manual.Manual, folder string) []*manual.Article {
	var list []*manual.Article
	add := func(_ int, a *manual.Article) bool {
		if folder == "." || strings.HasPrefix(a.Path, folder+"/") {
			list = append(list, a)
		}
		return true
	}
	m.Articles(add)
	m.Translations(add)
	slices.SortFunc(list, func(a, b *manual.Article) int { return strings.Compare(a.Path, b.Path) })
	return list
}
