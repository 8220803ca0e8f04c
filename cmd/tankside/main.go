// Command tankside turns a folder of markdown about ultrasonic immersion cleaning into a shop manual: checked, searchable,
// calculating, and readable at the tank without a network.
//
// The command line parses, calls and prints; what it does is in the packages builder, search and calculators. Answers go to standard
// output, everything else to standard error. Colour and progress are for terminals only, and NO_COLOR turns colour off.
//
// Exit status: 0 done; 1 findings that stop publication, nothing found, or a damaged edition; 2 unusable input or usage;
// 3 a fault of tankside's own. SOURCE_DATE_EPOCH, in seconds, stands in for today's date.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime"
	"strings"
	"syscall"
)

func main() {
	os.Exit(Run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr, os.Getenv))
}

// Run runs the command line and gives its exit status. An interrupt ends it in order, and so does a terminal that is closed, unless whoever
// started the program has it go on then.
func Run(args []string, stdin io.Reader, stdout, stderr io.Writer, env func(string) string) int {
	ends := []os.Signal{os.Interrupt, syscall.SIGTERM}
	if !signal.Ignored(syscall.SIGHUP) {
		ends = append(ends, syscall.SIGHUP)
	}
	ctx, stop := signal.NotifyContext(context.Background(), ends...)
	defer stop()
	return run(ctx, args, newConsole(stdin, stdout, stderr, env))
}

// Exit statuses.
const (
	exitDone     = 0
	exitFindings = 1
	exitUnusable = 2
	exitFault    = 3
)

// status is the error of a command that has said everything already.
type status int

func (s status) Error() string { return fmt.Sprintf("exit status %d", int(s)) }

func run(ctx context.Context, args []string, c *console) (code int) {
	defer func() {
		if fault := recover(); fault != nil {
			c.endProgress()
			c.note("Tankside met a fault of its own and stopped: %v (%s). The manual, and the edition in place, are as they were. "+
				"Please report it to whoever gave you tankside: this line, the one below, and the command you gave.\n%s", fault, faultPlace(), version())
			code = exitFault
		}
	}()
	err := dispatch(ctx, args, c)
	c.endProgress()
	var s status
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &s):
		return int(s)
	case errors.Is(err, context.Canceled):
		c.note("Interrupted. Nothing was left half done.")
		return exitUnusable
	}
	c.note("%s", sentence(err))
	return exitUnusable
}

// dispatch finds the command and runs it.
func dispatch(ctx context.Context, args []string, c *console) error {
	if len(args) == 0 && c.clicked {
		return c.clickedDesk(ctx)
	}
	if len(args) == 0 {
		writeHelp(c.err)
		return status(exitUnusable)
	}
	first, rest := args[0], args[1:]
	switch first {
	case "--version", "version":
		fmt.Fprintln(c.out, version())
		return nil
	case "--help", "-h", "help":
		if len(rest) == 0 {
			writeHelp(c.out)
			return nil
		}
		first, rest = rest[0], []string{"--help"}
	}
	for _, cmd := range commands {
		if cmd.name == first {
			return cmd.run(ctx, c, rest)
		}
	}
	if strings.HasPrefix(first, "-") {
		return seeHelp(fmt.Sprintf("the command comes before its options, so %q says nothing here", first), "tankside")
	}
	names := make([]string, len(commands))
	for i, cmd := range commands {
		names[i] = cmd.name
	}
	return seeHelp(fmt.Sprintf("there is no command %q%s", first, didYouMean(first, names)), "tankside")
}

// faultPlace is where a panic came from, for whoever puts it right.
func faultPlace() string {
	var callers [32]uintptr
	frames := runtime.CallersFrames(callers[:runtime.Callers(3, callers[:])])
	for {
		frame, more := frames.Next()
		if strings.HasPrefix(frame.Function, "tankside/") || !more {
			return fmt.Sprintf("%s, line %d", frame.Function, frame.Line)
		}
	}
}
