package main

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"tankside/calculators"
)

var (
	exampleLine = regexp.MustCompile(`(?m)^Example:\n  tankside (calculate .*)$`)
	quotedInput = regexp.MustCompile(` ([a-z-]+)="([^"]*)"`)
)

// Who types the example of a calculator's help has an answer, in both systems of units; with --json the help gives the same example.
func TestExampleOfTheHelpAnswers(t *testing.T) {
	for _, one := range calculators.All() {
		for _, units := range []string{"SI", "US"} {
			m := exampleLine.FindStringSubmatch(must(t, "calculate", one.Name, "--units", units))
			if m == nil {
				t.Errorf("the help of %s in %s has no example", one.Name, units)
				continue
			}
			args, typed := []string{"calculate", one.Name, "--units", units}, map[string]string{}
			for _, in := range quotedInput.FindAllStringSubmatch(m[1], -1) {
				args, typed[in[1]] = append(args, in[1]+"="+in[2]), in[2]
			}
			if len(typed) != len(one.Example) {
				t.Errorf("the help of %s in %s gives %s", one.Name, units, m[1])
			}
			if answer := must(t, args...); !strings.HasPrefix(answer, one.Title+"\n") || !strings.Contains(answer, "\nReckoned with\n") {
				t.Errorf("tankside %s answers %s", m[1], answer)
			}
			var help struct {
				Example []struct{ Name, Value string }
			}
			if err := json.Unmarshal([]byte(must(t, "calculate", one.Name, "--units", units, "--json")), &help); err != nil {
				t.Fatal(err)
			}
			if len(help.Example) != len(typed) {
				t.Errorf("as JSON the example of %s is %v", one.Name, help.Example)
			}
			for _, e := range help.Example {
				if typed[e.Name] != e.Value {
					t.Errorf("as JSON the example of %s in %s gives %s=%q, as text %q", one.Name, units, e.Name, e.Value, typed[e.Name])
				}
			}
		}
	}
}
