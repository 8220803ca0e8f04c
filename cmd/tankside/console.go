package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strconv"
	"strings"
	"sync"
	"time"
	"unicode"
	"unicode/utf8"

	"golang.org/x/term"

	"tankside/builder/finding"
)

// console is where a command reads from and writes to.
type console struct {
	in       io.Reader
	out, err io.Writer
	env      func(string) string

	asks     bool // a person sits at in
	clicked  bool // it was opened by a double click
	bold     bool // out shows bold type
	progress bool // err is a terminal, where a line can be written over

	mu    sync.Mutex
	shown int // width of the progress line that stands
	last  time.Time
}

func newConsole(in io.Reader, out, err io.Writer, env func(string) string) *console {
	styled := env("NO_COLOR") == "" && env("TERM") != "dumb"
	return &console{
		in: in, out: &plain{to: out}, err: &plain{to: err}, env: env,
		asks:     terminal(in),
		clicked:  clicked(in, out, env),
		bold:     styled && terminal(out) && understandsStyles(out.(*os.File)),
		progress: env("TERM") != "dumb" && terminal(err) && understandsStyles(err.(*os.File)),
	}
}

func terminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// strong writes text in bold on a terminal.
func (c *console) strong(text string) string {
	if !c.bold || text == "" {
		return text
	}
	return boldOn + text + boldOff
}

const boldOn, boldOff = "\x1b[1m", "\x1b[0m" // ECMA-48, 8.3.117

// colours are those of findings that are about harm or a wrong answer: red, magenta, yellow, in bold type (ECMA-48, 8.3.117).
var colours = map[finding.Severity]string{finding.People: "\x1b[1;31m", finding.Parts: "\x1b[1;35m", finding.Result: "\x1b[1;33m"}

// ofSeverity writes text in bold on a terminal, and in a colour where it is about harm or a wrong answer. The words say it too.
func (c *console) ofSeverity(severity finding.Severity, text string) string {
	colour := colours[severity]
	if !c.bold || text == "" || colour == "" {
		return c.strong(text)
	}
	return colour + text + boldOff
}

// note says something beside the answer.
func (c *console) note(format string, args ...any) {
	c.endProgress()
	fmt.Fprintf(c.err, format+"\n", args...)
}

// json writes an answer for programs.
func (c *console) json(answer any) error {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(answer); err != nil {
		return err
	}
	text := b.String()
	if strings.ContainsFunc(text, func(r rune) bool { return r != '\n' && obeyed(r) }) { // they stand in strings alone: RFC 8259, section 7
		b.Reset()
		for _, r := range text {
			if r != '\n' && obeyed(r) {
				fmt.Fprintf(&b, "\\u%04x", r)
			} else {
				b.WriteRune(r)
			}
		}
	}
	_, err := raw(c.out).Write(b.Bytes())
	return err
}

// tell shows how far a piece of work is, on a terminal. It may be called from several goroutines.
func (c *console) tell(doing string, done, total int) {
	if !c.progress {
		return
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	now := time.Now()
	if total > 0 && done < total && now.Sub(c.last) < 50*time.Millisecond {
		return
	}
	c.last = now
	line := doing
	if total > 0 {
		line = fmt.Sprintf("%s: %d of %d", doing, done, total)
	}
	line = shown(line)
	width := utf8.RuneCountInString(line)
	fmt.Fprintf(raw(c.err), "\r%s%s", line, strings.Repeat(" ", max(0, c.shown-width)))
	c.shown = width
}

// endProgress wipes the progress line away.
func (c *console) endProgress() {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.shown > 0 {
		fmt.Fprintf(raw(c.err), "\r%s\r", strings.Repeat(" ", c.shown))
		c.shown = 0
	}
}

// now is the time, or what SOURCE_DATE_EPOCH says it is.
func (c *console) now() (time.Time, error) {
	text := c.env("SOURCE_DATE_EPOCH")
	if text == "" {
		return time.Now(), nil
	}
	seconds, err := strconv.ParseInt(text, 10, 64)
	if err != nil || seconds < 0 {
		return time.Time{}, fmt.Errorf("SOURCE_DATE_EPOCH is %q in the environment, which is no number of seconds since 1970; unset it or put it right", text)
	}
	return time.Unix(seconds, 0).UTC(), nil
}

// sentence makes a sentence of an error.
func sentence(err error) string {
	var at *fs.PathError
	text := err.Error()
	if errors.As(err, &at) && text == at.Error() {
		text = fmt.Sprintf("“%s” cannot be read or written: %v", shown(at.Path), at.Err)
	}
	first, size := utf8.DecodeRuneInString(text)
	if word, _, _ := strings.Cut(text, " "); !strings.ContainsAny(word, "./\\:_-") { // not the name of a file or an input
		text = string(unicode.ToUpper(first)) + text[size:]
	}
	if !strings.HasSuffix(text, ".") && !strings.HasSuffix(text, "?") {
		text += "."
	}
	return text
}

// count writes a number with its noun.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// quoted writes an argument as it would be typed.
func quoted(arg string) string {
	arg = shown(arg)
	if strings.Contains(arg, " ") {
		return `"` + arg + `"`
	}
	return arg
}
