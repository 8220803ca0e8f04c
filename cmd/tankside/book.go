package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"tankside/builder"
	"tankside/builder/book"
	"tankside/builder/edition"
	"tankside/builder/quantity"
)

// bookWanted is what the options of publish say of the book.
type bookWanted struct {
	file, sheet, units, language, browser *string
}

func (o *options) book() bookWanted {
	return bookWanted{
		file:     o.text("book", "FILE.pdf", "also print the whole manual as one document, with a browser that is installed", ""),
		sheet:    o.text("sheet", "SIZE", "size of the book's sheets: A4 or Letter; without it A4", book.A4),
		units:    o.text("units", "FAMILY", "units of the book: SI or US; without it the shop's", ""),
		language: o.text("language", "TAG", "language of the book, such as es; without it the manual's", ""),
		browser:  o.text("browser", "PROGRAM", "what prints the book: Chromium or a browser made from it; without it one is looked for", ""),
	}
}

// asked checks the options against one another. Without a book it gives nil.
func (w bookWanted) asked() (*builder.BookOptions, error) {
	if *w.file == "" {
		if *w.sheet != book.A4 || *w.units != "" || *w.language != "" || *w.browser != "" {
			return nil, errors.New("--sheet, --units, --language and --browser are for the book; give them with --book FILE.pdf")
		}
		return nil, nil
	}
	o := &builder.BookOptions{Language: *w.language}
	for _, size := range []string{book.A4, book.Letter} {
		if strings.EqualFold(size, *w.sheet) {
			o.Size = size
		}
	}
	if o.Size == "" {
		return nil, fmt.Errorf("there is no sheet %q; it is A4 or Letter", *w.sheet)
	}
	switch strings.ToUpper(*w.units) {
	case "":
	case "SI", "US":
		system := quantity.SI
		if strings.EqualFold(*w.units, "US") {
			system = quantity.US
		}
		o.Units = &system
	default:
		return nil, fmt.Errorf("there are no units %q; they are SI or US", *w.units)
	}
	if err := replaceable(*w.file); err != nil {
		return nil, err
	}
	var err error
	o.Program, err = browser(*w.browser)
	return o, err
}

// replaceable refuses to write a book over what is no such document.
func replaceable(file string) error {
	f, err := os.Open(file)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	defer f.Close()
	head := make([]byte, 5)
	if n, err := f.Read(head); err != nil || !bytes.Equal(head[:n], []byte("%PDF-")) {
		return fmt.Errorf("%s is there and is no PDF document; name another file for the book", shown(file))
	}
	return nil
}

// browsers are the names under which Chromium, or a browser made from it, is found.
var browsers = []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "microsoft-edge", "msedge", "brave-browser"}

// installed are the places where such a browser is on Windows and macOS, which have no names for programs; %NAME% is a variable of the environment.
var installed = []string{
	`%ProgramFiles%\Google\Chrome\Application\chrome.exe`, `%ProgramFiles(x86)%\Google\Chrome\Application\chrome.exe`, `%LocalAppData%\Google\Chrome\Application\chrome.exe`,
	`%LocalAppData%\Chromium\Application\chrome.exe`, `%ProgramFiles%\Microsoft\Edge\Application\msedge.exe`, `%ProgramFiles(x86)%\Microsoft\Edge\Application\msedge.exe`,
	"/Applications/Chromium.app/Contents/MacOS/Chromium", "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome", "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
}

// browser finds what prints the book.
func browser(named string) (string, error) {
	if named != "" {
		path, err := exec.LookPath(named)
		if err != nil {
			return "", fmt.Errorf("there is no program %s to print the book with: %w", shown(named), err)
		}
		return path, nil
	}
	for _, name := range browsers {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	for _, place := range installed {
		if path := inEnvironment(place); path != "" {
			if info, err := os.Stat(path); err == nil && info.Mode().IsRegular() {
				return path, nil
			}
		}
	}
	return "", errors.New("a book is printed by a browser: Chromium, or one made from it, and none is on this machine. Install one, or name its program with --browser; " +
		"or open book.html in the edition and print the chapters one by one")
}

// inEnvironment fills in the variables of a place, or gives "" where one is not set.
func inEnvironment(place string) string {
	parts := strings.Split(place, "%")
	for i := 1; i < len(parts); i += 2 {
		if parts[i] = os.Getenv(parts[i]); parts[i] == "" {
			return ""
		}
	}
	return strings.Join(parts, "")
}

// printBook prints the book of a manual that has been published.
func (c *console) printBook(ctx context.Context, folder, file string, mark edition.Mark, now time.Time, o builder.BookOptions) error {
	begin := time.Now()
	o.Manual, o.Mark, o.Now, o.Progress = folder, mark, now, c.tell
	b, err := builder.PrintBook(ctx, o)
	c.endProgress()
	if err != nil {
		return fmt.Errorf("the edition is published; its book is not printed: %w", err)
	}
	if err := writeWhole(file, b.PDF); err != nil {
		return err
	}
	c.note("%s: the book, %s of %s, %s, in %.1f s", shown(file), count(b.Sheets, "sheet", "sheets"), o.Size, size(int64(len(b.PDF))), time.Since(begin).Seconds())
	return nil
}

// writeWhole writes a file whole or not at all.
func writeWhole(file string, data []byte) (err error) {
	f, err := os.CreateTemp(filepath.Dir(file), ".tankside-*")
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	err = errors.Join(err, f.Sync(), f.Chmod(0o644), f.Close())
	if err == nil {
		err = os.Rename(f.Name(), file)
	}
	if err != nil {
		err = errors.Join(err, os.Remove(f.Name()))
	}
	return err
}
