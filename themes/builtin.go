package themes

import (
	"errors"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"sync"
)

// BuiltInFiles names every file that a file of the same name in a shop's own theme replaces, in order: those of all themes by name, but for the modules of
// wasm, which are the program's own. The list is made once: nobody changes it.
func BuiltInFiles() []string { return builtInFiles() }

var builtInFiles = sync.OnceValue(func() []string {
	names := map[string]bool{}
	for _, f := range folders {
		if f.name == "wasm" {
			continue
		}
		for _, base := range bases() {
			entries, err := fs.ReadDir(embedded, path.Join(base, f.name))
			if err != nil {
				continue // a set has some of the folders only
			}
			for _, e := range entries {
				if e.Type().IsRegular() {
					names[f.name+"/"+e.Name()] = true
				}
			}
		}
	}
	return slices.Sorted(maps.Keys(names))
})

// BuiltInFile gives one of BuiltInFiles; fs.ErrNotExist for another name.
func BuiltInFile(name string) ([]byte, error) {
	for _, base := range bases() {
		data, err := embedded.ReadFile(path.Join(base, name))
		if !errors.Is(err, fs.ErrNotExist) {
			return data, err
		}
	}
	return nil, fs.ErrNotExist
}

// SetOf is the theme by name that alone has the file, or "" where it is one of every theme.
func SetOf(file string) string {
	for _, name := range Names {
		if _, err := fs.Stat(embedded, "sets/"+name+"/"+file); err == nil {
			return name
		}
	}
	return ""
}

// bases are the embedded folders in which the folders of a theme lie.
func bases() []string {
	list := []string{"."}
	for _, name := range Names {
		list = append(list, "sets/"+name)
	}
	return list
}

// Folders are the folders of a theme in which a shop may have files.
func Folders() []string {
	var list []string
	for _, f := range folders {
		if f.name != "wasm" {
			list = append(list, f.name)
		}
	}
	return list
}

// IsModules tells whether a file lies where the modules for the browser do, which no file of a shop's replaces.
func IsModules(file string) bool { return strings.HasPrefix(file, "wasm/") }
