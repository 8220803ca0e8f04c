package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"tankside": main})
}

// today is 21 September 2026 in every script, so that review dates and the edition's date stay what they are.
const today = "1790000000"

func TestScripts(t *testing.T) {
	t.Parallel()
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		Setup: func(env *testscript.Env) error {
			env.Setenv("SOURCE_DATE_EPOCH", today)
			return nil
		},
		Cmds: map[string]func(ts *testscript.TestScript, neg bool, args []string){
			"exits": exits,
			"shape": shape,
			"lines": lines,
		},
	})
}

// exits runs a command and compares its exit status: exits 2 tankside proof.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits STATUS COMMAND…")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	var exit *exec.ExitError
	switch err := ts.Exec(args[1], args[2:]...); {
	case errors.As(err, &exit):
		got = exit.ExitCode()
	default:
		ts.Check(err)
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}

// shape compares the names and nesting of JSON, in their order: shape stdout '{"ok","damaged":[]}'. A list is described by its first item.
func shape(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: shape FILE SHAPE")
	}
	d := json.NewDecoder(strings.NewReader(ts.ReadFile(args[0])))
	got, err := shapeOf(d)
	ts.Check(err)
	if d.More() {
		ts.Fatalf("more than one JSON value")
	}
	if got != args[1] {
		ts.Fatalf("shape %s\nwant  %s", got, args[1])
	}
}

func shapeOf(d *json.Decoder) (string, error) {
	token, err := d.Token()
	if err != nil {
		return "", err
	}
	var b bytes.Buffer
	switch token {
	case json.Delim('['):
		b.WriteByte('[')
		for n := 0; d.More(); n++ {
			item, err := shapeOf(d)
			if err != nil {
				return "", err
			}
			if n == 0 {
				b.WriteString(item)
			}
		}
		b.WriteByte(']')
	case json.Delim('{'):
		b.WriteByte('{')
		for n := 0; d.More(); n++ {
			if n > 0 {
				b.WriteByte(',')
			}
			name, err := d.Token()
			if err != nil {
				return "", err
			}
			fmt.Fprintf(&b, "%q", name)
			value, err := shapeOf(d)
			if err != nil {
				return "", err
			}
			if value != "" {
				b.WriteString(":" + value)
			}
		}
		b.WriteByte('}')
	default:
		return "", nil
	}
	_, err = d.Token()
	return b.String(), err
}

// lines compares the number of lines of a file: lines stdout 3.
func lines(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: lines FILE NUMBER")
	}
	if got := strings.Count(ts.ReadFile(args[0]), "\n"); strconv.Itoa(got) != args[1] {
		ts.Fatalf("%d lines, want %s", got, args[1])
	}
}
