package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"tankside/builder/browser/drive"
)

// The questions of a working day that are answered at a terminal, asked there, in a folder that holds the demo manual and its edition.
func TestDayAtTheTerminal(t *testing.T) {
	t.Parallel()
	questions, err := drive.ReadDay("../../testdata/day.md")
	if err != nil {
		t.Fatal(err)
	}
	var script strings.Builder
	script.WriteString("exec tankside publish\n")
	asked := 0
	for _, q := range questions {
		if !q.Terminal() {
			continue
		}
		asked++
		fmt.Fprintf(&script, "\n# %s\n", q.Asks)
		for _, act := range q.Way {
			switch act.Do {
			case "run":
				fmt.Fprintf(&script, "exec tankside %s\n", act.What)
			case "read":
				fmt.Fprintf(&script, "stdout '%s'\n", regexp.QuoteMeta(act.What))
			default:
				t.Fatalf("day.md:%d: %s is not done at a terminal", act.Line, act.Do)
			}
		}
	}
	if asked == 0 {
		t.Fatal("nobody asks anything at a terminal")
	}
	file := filepath.Join(t.TempDir(), "day.txtar")
	if err := os.WriteFile(file, []byte(script.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Files:               []string{file},
		RequireExplicitExec: true,
		Setup: func(env *testscript.Env) error {
			env.Setenv("SOURCE_DATE_EPOCH", "1796083200") // 1 December 2026, when the demo manual is approved
			return os.CopyFS(filepath.Join(env.WorkDir, "content"), os.DirFS("../../content"))
		},
	})
}
