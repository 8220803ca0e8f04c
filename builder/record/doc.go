// Package record reads the record of a bath: a text file with a table, one reading a row, as people and spreadsheets write it (RFC 4180, and what
// departs from it in practice). The format is told in FORMAT.md under “Records”.
//
// Nothing is guessed: a number, a date or a unit that can be read in two ways is a finding and is not used, and so is a value that cannot be. A row is
// never dropped or changed without a finding that says so. Columns that the program does not know are kept as they are.
package record

import (
	"time"

	"tankside/builder/finding"
	"tankside/builder/quantity"
)

// What a record may hold.
const (
	MaxBytes   = 24 << 20 // of a file
	MaxRows    = 100_000
	maxColumns = 64
	maxText    = 2000 // characters of a cell
	maxTold    = 20   // findings of one rule in a file; one more says how many there are besides
)

// Record is what a file holds, in the order of time.
type Record struct {
	Path    string // "records/wash-1.csv"
	Tank    string // "wash-1": a tank, a rinse or the dryer of the shop file
	Columns []Column
	Rows    []Row

	Replaced []Row // those that another row corrects or takes back, and corrections that hold no more; in the order of the file

	Zoned  bool // its times say their offset from UTC; otherwise they are by the shop's clock
	Unused int  // values and rows that are there and not used: a finding tells why
}

// Column is a column of numbers.
type Column struct {
	Name string // a word of Quantities
	Unit quantity.Unit
}

// Row is one line of the table.
type Row struct {
	When   time.Time // as the row says it: without an offset, in UTC
	Day    bool      // the row gives the day alone
	Line   int       // of the file, from 1
	Values []Value   // by column of the record
	Work   Work
	By     string
	Note   string
	ID     string
	// Replaces is the id of the row for which this one stands, or "".
	Replaces string
	Other    []Other // columns that the program does not know

	At finding.Place // of its time
}

// Value is a number in the SI unit of its quantity's kind. Set is false where the cell is empty or cannot be used.
type Value struct {
	SI  float64
	Set bool
}

// Other is a cell of a column that the program does not know.
type Other struct{ Head, Text string }

// Work is what was done to a bath.
type Work string

// What can be done to a bath.
const (
	Change Work = "change" // it was emptied and filled anew
	TopUp  Work = "top-up"
	Repair Work = "repair"
)

// Column gives the number of the column of a quantity, or -1.
func (r *Record) Column(name string) int {
	for i, c := range r.Columns {
		if c.Name == name {
			return i
		}
	}
	return -1
}
