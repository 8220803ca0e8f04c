// Package ownlook tells of the files in a manual's own theme what they are to the built-in ones: which one each replaces, which one was meant by a name that is
// nearly right, which was made of a built-in file that has changed since, and which cannot be what its name says.
//
// What was taken of a built-in file lies in the theme's folder taken/ under the same name, as it was then. Nothing is guessed: of a file that has no such copy
// it is not known which built-in text it was made of, and it is called not compared.
package ownlook

import (
	"bytes"
	"path"
	"slices"
	"strings"

	"tankside/builder/manual"
	"tankside/themes"
)

// Taken is the folder of a theme that keeps the built-in files as they were when the shop's own were made of them.
const Taken = "taken"

// Role is what a file does in a theme.
type Role string

// The roles.
const (
	Replaces Role = "replaces the built-in one"
	Adds     Role = "is added"
	Idle     Role = "replaces nothing"
)

// Beneath is how the built-in file beneath one of the shop's own compares with what was taken of it.
type Beneath string

// How they compare.
const (
	Same    Beneath = "as it was taken"
	Changed Beneath = "changed since"
	Gone    Beneath = "there no longer"
	Unknown Beneath = "not compared"
	Nothing Beneath = "" // the file replaces none
)

// File is one of the shop's own and what was found of it.
type File struct {
	Name    string
	Role    Role
	Meant   string // the built-in file that its name nearly is, or ""
	Of      string // the theme by name that alone has it, where the manual has another, or ""
	Beneath Beneath
	Before  []byte // the built-in file as it was taken; nil where nothing was
	Now     []byte // as it is
	Fault   *Fault // what is wrong with it, or nil
}

// Compare tells of every file of a theme, in the order of their names. name is the theme by name that the manual has, or "" where that is not known.
func Compare(own []manual.ThemeFile, name string) []File {
	taken := map[string][]byte{}
	for _, f := range own {
		if of, is := strings.CutPrefix(f.Name, Taken+"/"); is {
			taken[of] = f.Data
		}
	}
	var list []File
	for _, f := range own {
		if !strings.HasPrefix(f.Name, Taken+"/") {
			list = append(list, compare(f, taken, name))
		}
	}
	slices.SortFunc(list, func(a, b File) int { return strings.Compare(a.Name, b.Name) })
	return list
}

func compare(f manual.ThemeFile, taken map[string][]byte, name string) File {
	file := File{Name: f.Name}
	file.Role, file.Meant = role(f.Name)
	before, was := taken[f.Name]
	if was {
		file.Before = before
	}
	now, err := themes.BuiltInFile(f.Name)
	switch {
	case err == nil && was && bytes.Equal(before, now):
		file.Beneath = Same
	case err == nil && was:
		file.Beneath = Changed
	case err == nil && path.Dir(f.Name) == "words" || path.Dir(f.Name) == "words/calculators":
		file.Beneath = Nothing // such a file is laid over the built-in one, phrase by phrase
	case err == nil:
		file.Beneath = Unknown
	case was:
		file.Beneath = Gone
	}
	file.Now = now
	if set := themes.SetOf(f.Name); name != "" && set != "" && set != name {
		file.Role, file.Of = Idle, set
	}
	if file.Role != Idle { // nobody is shown what is in one that does nothing
		file.Fault = faultOf(f)
	}
	return file
}

// role tells what a file of a name does, and which built-in one its name nearly is.
func role(name string) (Role, string) {
	if slices.Contains(themes.BuiltInFiles(), name) {
		return Replaces, ""
	}
	folder, ext := path.Dir(name), path.Ext(name)
	switch {
	case folder == "styles": // whatever its ending is
		return Adds, meantStyle(name)
	case (folder == "words" || folder == "words/calculators") && ext == ".yaml":
		if _, is := manual.Language(strings.TrimSuffix(path.Base(name), ext)); is {
			return Adds, ""
		}
	}
	return Idle, meant(name)
}
