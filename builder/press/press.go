// Package press prints a page to a PDF document with a browser that is installed, and reads where in the document the places of the page have come to stand.
//
// Why a browser and no library: the pages are HTML and CSS with tables, drawings, two languages and a running head, and a reader who cannot see needs the document
// tagged, which the browser does from the same markup. DEVELOPERS.md has what a print costs.
package press

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// longest is how long one print may take: many times what a thousand articles need.
const longest = 10 * time.Minute

// flags of every print: no traffic, nothing of the user's own browser, no head or foot of the browser's.
var flags = []string{"--headless", "--disable-gpu", "--no-first-run", "--no-default-browser-check", "--disable-background-networking", "--disable-component-update", "--disable-sync",
	"--disable-extensions", "--proxy-server=127.0.0.1:9", "--no-pdf-header-footer"}

// Purpose is what a document is printed for.
type Purpose int

const (
	ToRead    Purpose = iota // with tags, and an outline of the headings
	ToMeasure                // only to see where things stand: without either it takes three quarters of the time and a third of the room
)

// flags of a print for that purpose.
func (p Purpose) flags() []string {
	if p == ToMeasure {
		return []string{"--disable-pdf-tagging"}
	}
	return []string{"--generate-pdf-document-outline"}
}

// Print prints a file with a program of the Chromium family, and gives the document. The size of the sheets is the page's own.
func Print(ctx context.Context, program, file string, purpose Purpose) (_ []byte, err error) {
	ctx, cancel := context.WithTimeout(ctx, longest)
	defer cancel()
	folder, err := os.MkdirTemp("", "tankside-press-")
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(folder)) }()
	to := filepath.Join(folder, "printed.pdf")
	args := slices.Concat(flags, purpose.flags())
	if os.Geteuid() == 0 { // Chromium does not run in its sandbox as root; the page is ours and has no script
		args = append(args, "--no-sandbox")
	}
	at, err := filepath.Abs(file)
	if err != nil {
		return nil, err
	}
	args = append(args, "--user-data-dir="+filepath.Join(folder, "profile"), "--print-to-pdf="+to, address(at))
	var said bytes.Buffer
	c := exec.CommandContext(ctx, program, args...)
	c.Stdout, c.Stderr = &said, &said
	c.WaitDelay = 10 * time.Second
	if err := c.Run(); err != nil {
		return nil, fmt.Errorf("%s did not print the book: %w. It said: %s", program, errors.Join(ctx.Err(), err), last(said.String()))
	}
	data, err := os.ReadFile(to)
	if err != nil {
		return nil, fmt.Errorf("%s ended without a document. It said: %s", program, last(said.String()))
	}
	return data, nil
}

// address is a file's address, with slashes before a drive letter.
func address(file string) string {
	path := filepath.ToSlash(file)
	if !strings.HasPrefix(path, "/") {
		path = "/" + path
	}
	return (&url.URL{Scheme: "file", Path: path}).String()
}

// last is the end of what a program has said.
func last(text string) string {
	lines := strings.Split(strings.TrimSpace(text), "\n")
	return strings.Join(lines[max(0, len(lines)-3):], " / ")
}
