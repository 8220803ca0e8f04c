package edition

import (
	"fmt"
	"strings"
)

// Mark is how an edition is told from every other one.
type Mark struct {
	Edition int    `json:"edition"`         // number in the ledger, or 0 where it is not entered
	Date    string `json:"date"`            // of the entry, year-month-day, or ""
	Code    string `json:"code,omitempty"`  // of the content, to be read aloud; lists of older programs lack it
	After   int    `json:"after,omitempty"` // number of the newest entry, where this edition is not entered; 0 where there is none
	Draft   bool   `json:"draft,omitempty"` // it was made while somebody wrote, and its pages bear no code
}

// String names the edition for the command line.
func (m Mark) String() string {
	switch {
	case m.Edition > 0 && m.Code == "":
		return fmt.Sprintf("Edition %d of %s", m.Edition, m.Date)
	case m.Edition > 0:
		return fmt.Sprintf("Edition %d of %s, code %s", m.Edition, m.Date, m.Code)
	case m.After > 0:
		return fmt.Sprintf("Code %s, not entered, after edition %d", m.Code, m.After)
	}
	return fmt.Sprintf("Code %s, not entered", m.Code)
}

// ContentFolder is the folder of the files that hold what an edition was made from. Nobody reads them in a browser, so they are not kept for use without
// a network.
const ContentFolder = "content/"

// CarriedFolder is the folder of an edition that is carried as one file, beside the page that leads in.
const CarriedFolder = "manual/"

// IsCarried tells whether a file of an edition goes along where the edition is carried as one file: all but what editions are compared by.
func IsCarried(path string) bool { return !strings.HasPrefix(path, ContentFolder) }
