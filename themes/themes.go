// Package themes holds what a manual looks like: templates, styles, scripts, drawings and the words of the interface,
// embedded into the command, together with the WASM modules that make build puts into wasm/.
//
//	templates/   html/template files; page.html is the frame of every page, and paper-….html are sheets of the printed manual
//	styles/      style sheets; the builder joins them in the order of their names
//	scripts/     classic scripts (modules and fetch do not work from a USB stick)
//	drawings/    SVG: swatches of symptoms, stations of the line, the mark
//	words/       the interface's words, one file a language
//	wasm/        for the browser: the search, and the answers: sums, “may it go in?”, the ranking of causes
//
//	phrases/     what there is to be translated, and where it is said; no part of a theme
//
//	sets/        the themes by name: files of each replace or join those above
//	notices.txt  licences of the software in an edition
//
// A shop may put a folder theme/ into its manual: a file there replaces the one of the same name here.
package themes

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
)

//go:embed templates styles scripts drawings words wasm sets
var embedded embed.FS

//go:embed phrases
var phrases embed.FS

// Phrases is the list of what the program says in English: of pages or of calculators. A line is a phrase and, behind a tab, where it is said. The lists
// are written by tests of packages page and calculators, which gather the phrases from templates and code. "" for another name.
func Phrases(list string) string {
	data, err := phrases.ReadFile("phrases/" + list + ".tsv")
	if err != nil {
		return ""
	}
	return string(data)
}

// Notices are the licences of the software in the command and in its editions. They are written by testdata/notices.
//
//go:embed notices.txt
var Notices []byte

// Theme is the set of files a manual is published with.
type Theme struct {
	own fs.FS // the shop's own files, or nil
	set fs.FS // the files of the theme by name
}

// Names are the themes there are; the first is the one that a manual has if it names none. tank-side is for a tablet at the tank: large,
// high contrast, every target for gloved fingers. desk is for the desk and for print: denser, in a book's letters.
var Names = []string{"tank-side", "desk"}

// New gives the theme in which files of own, where there are any, replace the embedded ones. own may be nil.
func New(own fs.FS) Theme { return Theme{own: own}.Called(Names[0]) }

// Called gives the theme of that name, one of Names, with the same files of the shop's own.
func (t Theme) Called(name string) Theme {
	set, err := fs.Sub(embedded, "sets/"+name)
	if err != nil {
		panic(err) // only for a name that is no path
	}
	return Theme{own: t.own, set: set}
}

// BuiltIn is the theme without the shop's own files.
func (t Theme) BuiltIn() Theme { return Theme{set: t.set} }

// FaultError says that no page can be made with a file, or folder, of the theme.
type FaultError struct {
	File string // within the theme
	Line int    // or 0 where it is not known
	Err  error
}

// Error names the file.
func (e *FaultError) Error() string { return "theme/" + e.File + ": " + e.Err.Error() }

// Unwrap gives what the library or the system said.
func (e *FaultError) Unwrap() error { return e.Err }

// Own tells whether a file is the shop's.
func (t Theme) Own(name string) bool {
	if t.own == nil {
		return false
	}
	_, err := fs.Stat(t.own, name)
	return err == nil
}

// Read gives a file of the theme. One of the shop's that cannot be read is a *FaultError.
func (t Theme) Read(name string) ([]byte, error) {
	if t.own != nil {
		data, err := fs.ReadFile(t.own, name)
		if err == nil {
			return bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n")), nil // the same with every computer's line ends
		}
		if !errors.Is(err, fs.ErrNotExist) {
			return nil, &FaultError{File: name, Err: err}
		}
	}
	data, err := fs.ReadFile(t.set, name)
	if err == nil || !errors.Is(err, fs.ErrNotExist) {
		return data, err
	}
	return embedded.ReadFile(name)
}

// List names the files of a folder of the theme, the shop's own among them, in order.
func (t Theme) List(folder string) ([]string, error) {
	names := map[string]bool{}
	for _, fsys := range []fs.FS{embedded, t.set, t.own} {
		if fsys == nil {
			continue
		}
		entries, err := fs.ReadDir(fsys, folder)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return nil, &FaultError{File: folder, Err: err}
		}
		for _, e := range entries {
			if e.Type().IsRegular() {
				names[folder+"/"+e.Name()] = true
			}
		}
	}
	return slices.Sorted(maps.Keys(names)), nil
}

// Reaching names the shop's own files that reach an edition with pages in some languages, given by their tags, in order. What stands in the folder besides, such
// as a template that no page uses, does not reach one.
func (t Theme) Reaching(tags []string) ([]string, error) {
	if t.own == nil {
		return nil, nil
	}
	var list []string
	for _, f := range folders {
		entries, err := fs.ReadDir(t.own, f.name)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return nil, &FaultError{File: f.name, Err: err}
		}
		for _, e := range entries {
			name := f.name + "/" + e.Name()
			if e.Type().IsRegular() && f.reaches(t, name, tags) {
				list = append(list, name)
			}
		}
	}
	slices.Sort(list)
	return list, nil
}

// folders are those of a theme, each with which of the shop's own files in it reach an edition.
var folders = []struct {
	name    string
	reaches func(t Theme, name string, tags []string) bool
}{
	{"templates", known}, {"styles", all}, {"scripts", script}, {"drawings", mark}, {"drawings/line", known}, {"drawings/swatches", all},
	{"words", spoken}, {"words/calculators", spoken}, {"wasm", none},
}

func all(Theme, string, []string) bool  { return true }
func none(Theme, string, []string) bool { return false } // the program's own

func script(_ Theme, name string, _ []string) bool { return path.Ext(name) == ".js" }

func mark(_ Theme, name string, _ []string) bool { return name == "drawings/mark.svg" }

// known tells whether the file stands in the place of one that there is.
func known(_ Theme, name string, _ []string) bool {
	_, err := fs.Stat(embedded, name)
	return err == nil
}

// spoken tells whether a file of words is that of a language, or serves it because there is none for its region.
func spoken(t Theme, name string, tags []string) bool {
	own := strings.TrimSuffix(path.Base(name), ".yaml")
	for _, tag := range tags {
		general, _, _ := strings.Cut(tag, "-")
		if own == tag {
			return true
		}
		if own == general {
			if _, err := t.Read(path.Dir(name) + "/" + tag + ".yaml"); err != nil {
				return true
			}
		}
	}
	return false
}

// Digest is a SHA-256, in hexadecimal, over every file that pages are made with: two editions of one manual under one Digest
// are the same to the byte.
func (t Theme) Digest() (string, error) {
	h := sha256.New()
	for _, folder := range folders {
		names, err := t.List(folder.name)
		if err != nil {
			return "", err
		}
		for _, name := range names {
			data, err := t.Read(name)
			if err != nil {
				return "", err
			}
			fmt.Fprintf(h, "%s %d\n", name, len(data))
			h.Write(data)
		}
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// ErrNoWASM says that the command was built without the browser's modules, which are built by make and are not in the source.
var ErrNoWASM = errors.New("this tankside was built without the modules that search and calculate in the browser, as go install and go build do it, so it cannot publish; " +
	"take the archive of a release, or build it with make build in a clone of the source")

// WASM gives a module for the browser, gzipped: "search" or "answers".
func WASM(name string) ([]byte, error) {
	data, err := embedded.ReadFile("wasm/" + name + ".wasm.gz")
	if errors.Is(err, fs.ErrNotExist) {
		return nil, ErrNoWASM
	}
	return data, err
}
