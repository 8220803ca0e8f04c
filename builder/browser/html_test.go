package browser

import (
	"encoding/json"
	"os/exec"
	"path/filepath"
	"testing"
)

// html-validate, a general-purpose validator from npm, must have nothing to say of any page of the edition, with its standard preset (the rules
// of the HTML standard) and no exception. A page with a known mistake shows that it is listening.
func TestHTMLIsValid(t *testing.T) {
	t.Parallel()
	for _, f := range validate(t, filepath.Join(published(t), "**", "*.html")) {
		for _, m := range f.Messages {
			t.Errorf("%s:%d:%d: %s (%s)", f.FilePath, m.Line, m.Column, m.Message, m.RuleID)
		}
	}
	if found := validate(t, "testdata/not-valid.html"); len(found) == 0 {
		t.Error("the validator finds nothing in a page with a paragraph around a list")
	}
}

type validated struct {
	FilePath string
	Messages []struct {
		RuleID, Message string
		Line, Column    int
	}
}

// validate gives what the validator says of the pages of a pattern: only those of which it says something.
func validate(t *testing.T, pattern string) []validated {
	t.Helper()
	where, err := filepath.Abs(pattern)
	if err != nil {
		t.Fatal(err)
	}
	const tools = "../../testdata/npm"
	c := exec.Command("node", "node_modules/html-validate/bin/html-validate.mjs", "--config", "html-validate.json", "--formatter", "json", where)
	c.Dir = tools
	out, err := c.Output()
	if exit, ok := err.(*exec.ExitError); err != nil && (!ok || exit.ExitCode() != 1 || len(out) == 0) {
		t.Fatalf("html-validate does not run: %v. make test installs it with npm.", err)
	}
	var list []validated
	if err := json.Unmarshal(out, &list); err != nil {
		t.Fatalf("%v in %.200s", err, out)
	}
	return list
}
