package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"tankside/builder/decide/rules"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// selection is which findings somebody wants to see: those of all that is named of each sort, or all where nothing is.
type selection struct{ kinds, rules, files *[]string }

// options adds the options that select.
func (s *selection) options(o *options) {
	s.kinds = o.texts("kind", "KIND", "findings in articles of this kind alone; may be given several times")
	s.rules = o.texts("rule", "RULE", "findings of this rule alone, all of them; may be given several times")
	s.files = o.texts("file", "FILE", "findings in this file or folder of the manual alone; may be given several times")
}

// narrow tells whether anything is selected.
func (s *selection) narrow() bool { return len(*s.kinds)+len(*s.rules)+len(*s.files) > 0 }

// of gives the findings that are selected. A kind, a rule or a file that there is not is an error: nothing found would be taken for nothing wrong.
func (s *selection) of(folder string, list []finding.Finding) ([]finding.Finding, error) {
	var folders []string
	for _, word := range *s.kinds {
		kind, err := kindNamed(word)
		if err != nil {
			return nil, err
		}
		folders = append(folders, kind.Folder())
	}
	var names []string
	for _, r := range rules.All() {
		names = append(names, string(r.Name))
	}
	for _, name := range *s.rules {
		if !slices.Contains(names, name) {
			return nil, fmt.Errorf("there is no rule %q%s; tankside proof --rules lists them", name, didYouMean(name, names))
		}
	}
	var files []string
	for _, given := range *s.files {
		file, err := fileOf(folder, given)
		if err != nil {
			return nil, err
		}
		files = append(files, file)
	}
	return slices.DeleteFunc(slices.Clone(list), func(f finding.Finding) bool {
		first, _, _ := strings.Cut(f.File, "/")
		return len(folders) > 0 && !slices.Contains(folders, first) ||
			len(*s.rules) > 0 && !slices.Contains(*s.rules, string(f.Rule)) ||
			len(files) > 0 && !slices.ContainsFunc(files, func(file string) bool { return file == "." || f.File == file || strings.HasPrefix(f.File, file+"/") })
	}), nil
}

// fileOf gives a file or folder of the manual as findings name it. It may be given from the manual's folder, or from the current one.
func fileOf(folder, given string) (string, error) {
	for _, at := range []string{filepath.Join(folder, given), given} {
		if _, err := os.Stat(at); errors.Is(err, fs.ErrNotExist) {
			continue
		} else if err != nil {
			return "", err
		}
		whole, err := filepath.Abs(at)
		if err != nil {
			return "", err
		}
		root, err := filepath.Abs(folder)
		if err != nil {
			return "", err
		}
		if file, err := filepath.Rel(root, whole); err == nil && filepath.IsLocal(file) {
			return filepath.ToSlash(file), nil
		}
	}
	if path.Base(given) == manual.GlossaryFile || path.Base(given) == manual.ShopFile { // a finding may be that there is none
		return path.Base(given), nil
	}
	return "", fmt.Errorf("there is no file or folder %q in the manual %s", given, quoted(folder))
}
