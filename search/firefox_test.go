package search_test

import (
	"os/exec"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"

	"tankside/builder/browser/drive"
)

// firefox is a Firefox with the search page.
type firefox struct{ *drive.Firefox }

func startFirefox(t testing.TB) browser {
	if _, err := exec.LookPath("firefox-esr"); err != nil {
		t.Skip("firefox-esr is not installed")
	}
	return firefox{drive.StartFirefox(t)}
}

func (f firefox) open(t testing.TB, address string) {
	t.Helper()
	f.Open(address)
}

func (f firefox) run(t testing.TB, expression string) string {
	t.Helper()
	var result string
	f.Ask(expression, &result)
	return result
}

func (f firefox) keys(t testing.TB, keys string) {
	t.Helper()
	f.Type("#find-words", strings.NewReplacer(kb.ArrowDown, drive.ArrowDown, kb.Enter, drive.Enter, kb.Escape, drive.Escape).Replace(keys))
}
