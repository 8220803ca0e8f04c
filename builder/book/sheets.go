package book

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// StylePage is the file with what holds for the sheets of the whole book. It lies beside WholePage, and like it is no part of an edition.
const StylePage = "book-whole.css"

// margins of every sheet, in millimetres: above, beside, below.
const above, beside, below = 9, 12, 11

// TextHeight is what a sheet of that size has for the text and its running head, in millimetres.
func TextHeight(size string) int {
	if size == Letter {
		return 279 - above - below
	}
	return 297 - above - below
}

// Style says how large the sheets are. All of one size, and that size from the first: where a browser finds another one on the way it lays everything out once more.
// On the screen the page is empty, for a browser lays it out for that before and after it prints.
func Style(set Setting) []byte {
	size := "210mm 297mm"
	if set.Size == Letter {
		size = "8.5in 11in"
	}
	var b strings.Builder
	fmt.Fprintf(&b, "@media screen { body { display: none; } }\n@page { size: %s; margin: %dmm %dmm %dmm; }\n", size, above, beside, below)
	fmt.Fprintf(&b, "@page { @bottom-right { vertical-align: bottom; padding-bottom: 4mm; } }\n")
	used := map[int]bool{}
	for _, f := range set.Fits {
		used[f.Shorter] = f.Shorter > 0
	}
	for _, by := range slices.Sorted(maps.Keys(used)) {
		if used[by] {
			fmt.Fprintf(&b, "@page %[1]s { margin-bottom: %[2]dmm; }\n.%[1]s { page: %[1]s; }\n", shorter(by), below+by)
		}
	}
	return []byte(b.String())
}

// shorter names sheets that have so many millimetres less for the text.
func shorter(by int) string { return fmt.Sprintf("shorter-%d", by) }
