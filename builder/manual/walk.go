package manual

import (
	"cmp"
	"context"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"tankside/builder/finding"
	"tankside/builder/ledger"
	"tankside/builder/record"
)

// The sorts of file.
type sortOfFile uint8

const (
	refusedFile sortOfFile = iota
	shopFile
	vocabularyFile
	glossaryFile
	movedFile
	articleFile
	pictureFile
	ledgerFile
	wordsFile // of the shop's own theme: the interface's words in a language
	recordFile
	lookFile // of the shop's own theme: any other file
)

// limit is how many bytes a file of a sort may have.
func (s sortOfFile) limit() int64 {
	switch s {
	case pictureFile:
		return maxPicture
	case recordFile:
		return record.MaxBytes
	case lookFile:
		return maxTheme
	}
	return maxText
}

// source is a file that was found.
type source struct {
	path string // letters with an accent as one character each (NFC), on every computer
	name string // as the file system has it
	sort sortOfFile
	kind Kind
	size int64
}

// walk finds the files of the manual, in the order of their paths.
func walk(ctx context.Context, fsys fs.FS, d *decoder) ([]source, error) {
	if info, err := fs.Stat(fsys, "."); err != nil {
		return nil, &UnusableError{Problem: "The folder of the manual cannot be opened.", Remedy: "Give the folder that holds " + ShopFile + ".", Err: err}
	} else if !info.IsDir() {
		return nil, &UnusableError{Problem: "What was given is a file, not the folder of a manual.", Remedy: "Give the folder that holds " + ShopFile + "."}
	}
	var files []source
	entries := 0
	err := fs.WalkDir(fsys, ".", func(p string, entry fs.DirEntry, err error) error {
		if stop := ctx.Err(); stop != nil {
			return stop
		}
		if err != nil {
			if p == "." {
				return &UnusableError{Problem: "The folder of the manual cannot be listed.", Remedy: "See that you may read it.", Err: err}
			}
			d.report(ruleUnreadable, finding.Place{File: p}, "This folder or file cannot be opened: "+reason(err)+".", "See that you may read it.")
			return nil
		}
		if p == "." {
			return nil
		}
		if ignored(entry.Name()) {
			if entry.IsDir() {
				return fs.SkipDir
			}
			return nil
		}
		if entries++; entries > maxFiles {
			return fs.SkipAll
		}
		if entry.IsDir() {
			return nil
		}
		files = append(files, sortFile(d, p, entry))
		return nil
	})
	if err != nil {
		return nil, err
	}
	if entries == 0 {
		return nil, &UnusableError{Problem: "The folder is empty: there is no manual in it.", Remedy: "Make one with “tankside start”, or give the folder that holds " + ShopFile + "."}
	}
	if entries > maxFiles { // the shop file may be among the rest
		return nil, &UnusableError{
			Problem: "The folder has more than " + strconv.Itoa(maxFiles) + " files and folders, which is more than a manual has.",
			Remedy:  "Give the folder that holds " + ShopFile + " and nothing but the manual.",
		}
	}
	if !slices.ContainsFunc(files, func(f source) bool { return f.path == ShopFile }) {
		return nil, &UnusableError{
			Problem: "The folder has no " + ShopFile + ", so it is not a manual.",
			Remedy:  "Make one with “tankside start”, or give the folder that holds " + ShopFile + ".",
		}
	}
	slices.SortFunc(files, func(a, b source) int { return strings.Compare(a.path, b.path) })
	sameAddresses(d, files)
	themeFiles(d, files)
	for i := 1; i < len(files); i++ {
		if files[i].path == files[i-1].path { // told above; the one that is not written so is left out
			twin := &files[i]
			if twin.name == twin.path {
				twin = &files[i-1]
			}
			twin.path, twin.sort = twin.name, refusedFile
		}
	}
	return files, nil
}

// IsArticleFile tells whether a path is one that an article has, translations among them.
func IsArticleFile(p string) bool {
	folder, _, _ := strings.Cut(p, "/")
	return path.Ext(p) == ".md" && slices.ContainsFunc(Kinds, func(k Kind) bool { return k.Folder() == folder })
}

// ignored tells whether a name is of the sort that computers and editors leave behind, or of a signature or those who may sign: what is told of these
// is told when they are verified.
func ignored(name string) bool {
	switch {
	case strings.HasSuffix(name, ".md.sig"), name == "allowed_signers", name == "revoked_keys", name == "understood.txt": // see packages signature and understood
		return true
	case strings.HasPrefix(name, "."), strings.HasSuffix(name, "~"), strings.HasPrefix(name, "#") && strings.HasSuffix(name, "#"):
		return true
	}
	switch strings.ToLower(name) {
	case "thumbs.db", "desktop.ini", "4913": // the last one is how an editor tries whether it may write
		return true
	}
	return false
}

// sortFile says what a file is in the manual.
func sortFile(d *decoder, p string, entry fs.DirEntry) source {
	at := finding.Place{File: p}
	f := source{path: norm.NFC.String(p), name: p}
	if !utf8.ValidString(p) {
		at.File = strings.ToValidUTF8(p, "�")
		d.report(ruleUnusableName, at, "The name of this file is not UTF-8 text.", "Rename it.")
		return f
	}
	if entry.Type()&fs.ModeType != 0 {
		what := "a device, pipe or socket"
		if entry.Type()&fs.ModeSymlink != 0 {
			what = "a symbolic link"
		}
		d.report(ruleNotRegular, at, "This is "+what+", not a file.", "Put a copy of the file itself here.")
		return f
	}
	p = f.path
	folder, _, inFolder := strings.Cut(p, "/")
	extension := strings.ToLower(path.Ext(p))
	kind, isKind := kindOf(folder)
	switch {
	case p == ShopFile:
		f.sort = shopFile
	case p == GlossaryFile:
		f.sort = glossaryFile
	case p == MovedFile:
		f.sort = movedFile
	case p == VocabularyFile:
		f.sort = vocabularyFile
	case p == ledger.File:
		f.sort = ledgerFile
	case inFolder && isKind && extension == ".md":
		f.sort, f.kind = articleFile, kind
	case inFolder && folder == "pictures" && pictureTypes[extension]:
		f.sort = pictureFile
	case inFolder && folder == RecordFolder && extension == ".csv" && path.Dir(p) == RecordFolder:
		f.sort = recordFile
	case inFolder && folder == "theme":
		return themeFile(d, f, entry)
	default:
		remedy := "Articles are .md files in " + strings.Join(folders(), ", ") + "; pictures are .svg, .png, .jpg, .webp or .gif files in pictures; the record of a bath is " + RecordFolder + "/TANK.csv."
		if n := Nearest(folder, append(folders(), "pictures", RecordFolder)); inFolder && n != "" && n != folder {
			remedy = "Did you mean the folder " + n + "? " + remedy
		}
		d.report(ruleStray, at, "This file belongs to no part of the manual.", remedy)
		return f
	}
	if !nameFile(d, f) {
		f.sort = refusedFile
		return f
	}
	info, err := entry.Info()
	if err != nil {
		d.report(ruleUnreadable, at, "This file cannot be opened: "+reason(err)+".", "See that you may read it.")
		f.sort = refusedFile
		return f
	}
	if f.size = info.Size(); f.size > f.sort.limit() {
		tooLarge(d, at, f.size, f.sort.limit())
		f.sort = refusedFile
	}
	return f
}

// themeFile looks at a file of the shop's own templates, styles and words. Package page reads them; they are read here as well, to see
// whether they can be and what is wrong with them.
func themeFile(d *decoder, f source, entry fs.DirEntry) source {
	info, err := entry.Info()
	if err != nil {
		d.report(ruleUnreadable, finding.Place{File: f.path}, "This file cannot be opened: "+reason(err)+".", "See that you may read it.")
		return f
	}
	if f.size = info.Size(); f.size > maxTheme {
		tooLarge(d, finding.Place{File: f.path}, f.size, maxTheme)
		return f
	}
	f.sort = lookFile
	if strings.HasPrefix(f.path, "theme/words/") && path.Ext(f.path) == ".yaml" {
		f.sort = wordsFile
	}
	return f
}

// sameAddresses reports paths that differ only in capitals, or in how a letter with an accent is spelled: on many computers they are one.
func sameAddresses(d *decoder, files []source) {
	byFold := slices.Clone(files)
	slices.SortStableFunc(byFold, func(a, b source) int {
		return cmp.Or(strings.Compare(fold(a.path), fold(b.path)), strings.Compare(a.path, b.path))
	})
	for i := 1; i < len(byFold); i++ {
		if fold(byFold[i].path) == fold(byFold[i-1].path) {
			d.report(ruleSameAddress, finding.Place{File: byFold[i].path}, "There is another file with the same name but for capitals or the spelling of accents, "+byFold[i-1].path+".",
				"Rename one of the two.", finding.Place{File: byFold[i-1].path})
		}
	}
}

// themeFiles refuses a theme of more files than anybody has written.
func themeFiles(d *decoder, files []source) {
	n := 0
	for _, f := range files {
		if !strings.HasPrefix(f.path, "theme/") {
			continue
		}
		if n++; n > maxThemeFiles {
			d.report(ruleTooLarge, finding.Place{File: f.path}, fmt.Sprintf("The folder theme has more than %d files.", maxThemeFiles), "Keep the files in it that stand for one of the program's, and your own styles and scripts; put the styles into fewer files.")
			return
		}
	}
}
