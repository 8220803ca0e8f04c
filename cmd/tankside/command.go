package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"runtime"
	"runtime/debug"
	"strings"
	"unicode/utf8"
)

// command is one command of the command line.
type command struct {
	name  string
	args  string // what stands behind the name, options apart
	does  string // in a line
	more  string // what else there is to know
	setUp func(*options) action
}

// action does a command's work with what is left of its arguments when the options are taken out.
type action func(ctx context.Context, c *console, args []string) error

// commands are all of them, in the order of a manual's life.
var commands []command

func init() {
	commands = []command{
		deskCommand, startCommand, beginCommand, bringCommand, renameCommand, splitCommand, proofCommand, reviseCommand, approveCommand, reviewsCommand, publishCommand, watchCommand, hostCommand, devicesCommand, findCommand, calculateCommand, admitCommand, causesCommand, recordCommand, verifyCommand, changesCommand, wordsCommand, lookCommand, understoodCommand, languageServerCommand,
	}
}

// Folders that are meant where none is named.
const (
	usualManual  = "content"
	usualEdition = "edition"
)

func (cmd command) run(ctx context.Context, c *console, args []string) error {
	var o options
	act := cmd.setUp(&o)
	rest, err := o.parse(args)
	if err != nil {
		return seeHelp(err.Error(), "tankside "+cmd.name)
	}
	if o.help {
		cmd.writeHelp(c.out, &o)
		return nil
	}
	return act(ctx, c, rest)
}

// seeHelp adds where there is more to read.
func seeHelp(problem, command string) error {
	if strings.HasSuffix(problem, "?") {
		return errors.New(problem + " See " + command + " --help")
	}
	return errors.New(problem + "; see " + command + " --help")
}

// atMostOne gives the only argument, or what is meant where there is none.
func atMostOne(args []string, usual string) (string, error) {
	switch len(args) {
	case 0:
		return usual, nil
	case 1:
		if args[0] == "" {
			return "", fmt.Errorf("the name of the folder is empty")
		}
		return args[0], nil
	}
	return "", fmt.Errorf("one folder is named at most, and here are %d: %s. Put a name with blanks in quotation marks", len(args), strings.Join(args, ", "))
}

func writeHelp(w io.Writer) {
	fmt.Fprint(w, "Tankside makes a shop manual for ultrasonic immersion cleaning out of a folder of markdown: checked, searchable, calculating,\n"+
		"and readable at the tank without a network.\n\n")
	width := 0
	for _, cmd := range commands {
		width = max(width, utf8.RuneCountInString(cmd.call()))
	}
	for _, cmd := range commands {
		fmt.Fprintf(w, "  %s  %s\n", padded(cmd.call(), width), cmd.does)
	}
	fmt.Fprintf(w, "\nMANUAL left out is the folder “%s”, EDITION left out the folder “%s”, below the current folder.\n"+
		"Without a terminal: a double click on the program, or tankside desk, opens a desk in the browser.\n"+
		"tankside COMMAND --help says more about a command, tankside --version which tankside this is.\n"+
		"Exit status: 0 done; 1 findings that stop publication, nothing found, or a damaged edition; 2 unusable input or usage.\n", usualManual, usualEdition)
}

// call is how the command is called, options apart.
func (cmd command) call() string { return "tankside " + cmd.name + " " + cmd.args }

func (cmd command) writeHelp(w io.Writer, o *options) {
	fmt.Fprint(w, cmd.call())
	width := 0
	for _, opt := range o.list {
		fmt.Fprintf(w, " [%s]", opt.call())
		width = max(width, utf8.RuneCountInString(opt.call()))
	}
	fmt.Fprintf(w, "\n\n%s\n\n", strings.TrimSpace(cmd.more))
	for _, opt := range o.list {
		fmt.Fprintf(w, "  %s  %s\n", padded(opt.call(), width), opt.means)
	}
	if cmd.name != deskName {
		fmt.Fprintf(w, "\nWithout a terminal, tankside %s does the daily work in the browser; so does a double click on the program.\n", deskName)
	}
}

// deskName is the command that every other's help names.
const deskName = "desk"

// padded fills a text up with blanks, so that a table of such texts stands in line.
func padded(text string, width int) string {
	return text + strings.Repeat(" ", max(0, width-utf8.RuneCountInString(text)))
}

// releasedAs is the version that make release gives the commands it builds; "" in every other.
var releasedAs string

// version says which tankside this is, from what the build left in it.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "tankside, of an unknown build"
	}
	text := "tankside " + cmp.Or(releasedAs, info.Main.Version)
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision":
			text += ", revision " + s.Value[:min(12, len(s.Value))]
		case s.Key == "vcs.modified" && s.Value == "true":
			text += " with changes"
		}
	}
	return text + ", " + info.GoVersion + ", " + runtime.GOOS + "/" + runtime.GOARCH
}
