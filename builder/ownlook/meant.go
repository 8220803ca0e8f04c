package ownlook

import (
	"path"
	"slices"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/spelling"
	"tankside/themes"
)

// meant is the built-in file that a name nearly is: in a folder that is nearly or quite its own, with another ending, in capitals, or mistyped. "" where
// none is near.
func meant(name string) string {
	if themes.IsModules(name) {
		return ""
	}
	all := themes.BuiltInFiles()
	lower := strings.ToLower(name)
	if slices.Contains(all, lower) {
		return lower
	}
	folder := path.Dir(lower)
	inFolder := folder != "."
	if inFolder && !slices.Contains(themes.Folders(), folder) {
		folder = manual.Nearest(folder, themes.Folders())
	}
	if found := sameStem(lower, within(all, folder)); found != "" {
		return found
	}
	if found := sameStem(lower, withEnding(all, path.Ext(lower))); found != "" {
		return found
	}
	if !inFolder {
		return nearest(lower, withEnding(all, path.Ext(lower)))
	}
	return nearest(lower, within(all, folder))
}

// within are the files that lie in a folder.
func within(all []string, folder string) []string {
	return slices.DeleteFunc(slices.Clone(all), func(file string) bool { return path.Dir(file) != folder })
}

// withEnding are the files with an ending.
func withEnding(all []string, ending string) []string {
	return slices.DeleteFunc(slices.Clone(all), func(file string) bool { return path.Ext(file) != ending })
}

// nearest is the one of some files whose name without folder and ending has the fewest errors, at most one for three letters.
func nearest(name string, files []string) string {
	var errors spelling.Distance
	own := []rune(stem(name))
	best, fewest := "", max(1, len(own)/3)+1
	for _, file := range files {
		if n := errors.Between(own, stem(file), fewest-1); n < fewest {
			best, fewest = file, n
		}
	}
	return best
}

// sameStem is the only one of some files with the name's own, folder and ending apart; "" where there are several.
func sameStem(name string, files []string) string {
	found := ""
	for _, file := range files {
		if stem(file) != stem(name) {
			continue
		}
		if found != "" {
			return ""
		}
		found = file
	}
	return found
}

// stem is a file's name without folder, ending and, of a style, the number in front.
func stem(file string) string {
	base := strings.ToLower(strings.TrimSuffix(path.Base(file), path.Ext(file)))
	if path.Dir(file) == "styles" {
		base = strings.TrimLeft(base, "0123456789-")
	}
	return base
}

// meantStyle is the built-in style that the name of an added one nearly is. Another number before the same word is meant: such a style comes in another place.
// The same word without a number, or a word of four letters and more with one error, is not.
func meantStyle(name string) string {
	own := stem(name)
	var errors spelling.Distance
	for _, file := range within(themes.BuiltInFiles(), "styles") {
		numbered := strings.ToLower(path.Base(name)) != own+strings.ToLower(path.Ext(name))
		switch n := errors.Between([]rune(own), stem(file), 1); {
		case n == 0 && !numbered, n == 0 && strings.ToLower(name) == file:
			return file
		case n == 1 && len(own) >= 4:
			return file
		}
	}
	return ""
}

// Named are the built-in files that a word names: a file, a folder, or a file by its name without folder, with or without ending. near is what may have been
// meant where there is none, and several where the word names files of more than one folder.
func Named(word string) (files []string, near string, several bool) {
	all := themes.BuiltInFiles()
	word = strings.TrimSuffix(strings.TrimPrefix(strings.ReplaceAll(word, `\`, "/"), "theme/"), "/")
	if slices.Contains(all, word) {
		return []string{word}, "", false
	}
	for _, file := range all {
		if strings.HasPrefix(file, word+"/") {
			files = append(files, file)
		}
	}
	if len(files) > 0 {
		return files, "", false
	}
	for _, file := range all {
		base := path.Base(file)
		if base == word || strings.TrimSuffix(base, path.Ext(base)) == word {
			files = append(files, file)
		}
	}
	if len(files) == 0 {
		return nil, meant(word), false
	}
	return files, "", len(files) > 1
}
