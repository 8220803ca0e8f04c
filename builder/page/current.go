package page

import (
	"fmt"
	"strings"

	"tankside/builder/edition"
	"tankside/builder/ledger"
)

// Whether a copy is still the current edition is asked of the address in the shop file. A page opened from a stick may fetch nothing from there unless the
// server gives leave, and a script that the server sent could do with the page what it liked. A picture may be shown from anywhere, runs nothing, and
// tells the page two numbers, its width and its height: they carry number and code of the edition that is served. See themes/scripts/current.js.

// CurrentFile is the picture.
const CurrentFile = edition.CurrentFile

// measures are width and height of the picture, from 1 to 2²⁰, in pixels that nobody draws.
func measures(m edition.Mark) (width, height int) {
	v := m.Edition
	for _, r := range brief(m.Code) {
		v = v*len(ledger.Letters) + strings.IndexRune(ledger.Letters, r)
	}
	const low = 20 // bits
	return 1 + v>>low, 1 + v&(1<<low-1)
}

// brief is the beginning of a code that the picture carries: with the number, 6 million codes.
func brief(code string) string {
	const carried = 5
	plain := strings.ReplaceAll(code, "-", "")
	return plain[:min(carried, len(plain))]
}

// tellCurrent writes the picture.
func (s *site) tellCurrent(add Sink) error {
	if s.Manual.Shop.Address == "" {
		return nil
	}
	width, height := measures(s.Mark)
	return add(CurrentFile, fmt.Appendf(nil, `<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d"/>`+"\n", width, height))
}

// served is what a page needs to ask whether its edition is the current one.
type served struct {
	Address string // of the edition that is served
	Picture string
	Number  int
	Code    string // what the picture carries of it
	Date    string
	Letters string
}

// served gives it, or nil: without an address, and while somebody writes.
func (s *site) served() *served {
	m := shownOf(s.Mark)
	if s.Manual.Shop.Address == "" || m.Code == "" {
		return nil
	}
	return &served{s.Manual.Shop.Address, s.Manual.Shop.Address + CurrentFile, m.Edition, brief(m.Code), m.Date, ledger.Letters}
}

// policyOf is the content security policy of the pages, with that one picture of the address.
func policyOf(address string) string {
	if address == "" {
		return policy
	}
	return strings.Replace(policy, "img-src 'self' data:", "img-src 'self' data: "+address+CurrentFile, 1)
}
