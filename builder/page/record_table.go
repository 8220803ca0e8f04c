package page

import (
	"fmt"
	"html/template"
	"slices"
	"strings"
	"time"

	"tankside/builder/history"
	"tankside/builder/quantity"
	"tankside/builder/record"
)

// mostInTable is how many rows the table of a page has.
const mostInTable = 30

// readingTable is the readings as they stand in the record, the newest first.
type readingTable struct {
	Heads []string
	Rows  []readingRow
	Note  string // where not all rows stand in it
}

// readingRow is one row of the table.
type readingRow struct {
	When  string
	Cells []template.HTML
	By    string
	Note  string
	Work  string
}

// readingTable writes the newest rows.
func (s *site) readingTable(h *history.Tank, rows []record.Row, most int) readingTable {
	var t readingTable
	for _, c := range h.Record.Columns {
		t.Heads = append(t.Heads, s.quantityName(c.Name))
	}
	for i := len(rows) - 1; i >= 0 && len(t.Rows) < most; i-- {
		t.Rows = append(t.Rows, s.readingRow(h, &rows[i]))
	}
	if len(t.Rows) < len(rows) {
		t.Note = fmt.Sprintf(s.words.say("The newest %s of %s rows."), fmt.Sprint(len(t.Rows)), fmt.Sprint(len(rows)))
	}
	return t
}

func (s *site) readingRow(h *history.Tank, row *record.Row) readingRow {
	r := readingRow{When: record.Stamp(row.When, row.Day), By: row.By, Note: row.Note}
	for j, v := range row.Values {
		r.Cells = append(r.Cells, s.readingCell(h.Record.Columns[j].Unit, v))
	}
	if row.Work != "" {
		r.Work = s.workName(row.Work)
	}
	return r
}

// readingCell writes a number as it was read, and in the other family of units.
func (s *site) readingCell(u quantity.Unit, v record.Value) template.HTML {
	if !v.Set {
		return ""
	}
	return s.both(func(system quantity.System) string {
		if u.Suits(system) || u.Symbol == "" {
			return quantity.Format(v.SI, u)
		}
		return quantity.Show(v.SI, u.Kind, system)
	})
}

// monthContent are sheets to write on: the month of the newest reading, and that of the edition where it is another.
type monthContent struct {
	Tank   string
	Heads  []monthHead
	Sheets []monthSheet
}

// monthSheet is one month.
type monthSheet struct {
	Title string
	Days  []monthDay
}

// monthHead is a column: what is read, and what is allowed.
type monthHead struct {
	Title, Unit string
	Allowed     template.HTML
}

// monthDay is a day with what was read on it; the cells of a day to come are empty.
type monthDay struct {
	Date  string
	Cells []template.HTML
	By    string
	Note  string
	Week  bool // a week begins
}

// month fills the sheets.
func (s *site) month(f *frame, h *history.Tank) error {
	day, err := time.Parse(time.DateOnly, s.Day)
	if err != nil {
		return fmt.Errorf("the day of publication: %w", err)
	}
	newest := h.Last.When
	f.Title = fmt.Sprintf(s.words.say("%s in %s"), h.Name, newest.Format("2006-01"))
	if s.Manual.Shop.Tank(h.ID) != nil {
		f.here("wash", h.ID)
	} else {
		f.here("rinse")
	}
	c := monthContent{Tank: f.Root + s.to(recordPage(h.ID))}
	for _, column := range h.Record.Columns {
		head := monthHead{Title: s.quantityName(column.Name), Unit: column.Unit.Symbol}
		if i := slices.IndexFunc(h.Charts, func(c history.Chart) bool { return c.Quantity == column.Name }); i >= 0 && h.Charts[i].Window.Set {
			head.Allowed = s.allowedSay(&h.Charts[i])
		}
		c.Heads = append(c.Heads, head)
	}
	c.Sheets = append(c.Sheets, s.monthSheet(h, newest))
	if newest.Format("2006-01") != day.Format("2006-01") {
		c.Sheets = append(c.Sheets, s.monthSheet(h, day))
	}
	f.Content = c
	return nil
}

// monthSheet fills the days of the month in which a time lies.
func (s *site) monthSheet(h *history.Tank, in time.Time) monthSheet {
	first := time.Date(in.Year(), in.Month(), 1, 0, 0, 0, 0, time.UTC)
	sheet := monthSheet{Title: fmt.Sprintf(s.words.say("%s in %s"), h.Name, first.Format("2006-01"))}
	for date := first; date.Month() == first.Month(); date = date.AddDate(0, 0, 1) {
		sheet.Days = append(sheet.Days, s.monthDay(h, date))
	}
	return sheet
}

// monthDay gathers the readings of a day: several of one quantity stand one after the other.
func (s *site) monthDay(h *history.Tank, date time.Time) monthDay {
	d := monthDay{Date: date.Format("02"), Week: date.Weekday() == time.Monday, Cells: make([]template.HTML, len(h.Record.Columns))}
	on := date.Format(time.DateOnly)
	var by, notes []string
	for i := range h.Rows() {
		row := &h.Rows()[i]
		if row.When.Format(time.DateOnly) != on {
			continue
		}
		for j, v := range row.Values {
			if !v.Set {
				continue
			}
			if d.Cells[j] != "" {
				d.Cells[j] += "; "
			}
			d.Cells[j] += escaped(quantity.Decimal(h.Record.Columns[j].Unit.FromSI(v.SI), 10)) // the unit stands in the head
		}
		if row.By != "" && !slices.Contains(by, row.By) {
			by = append(by, row.By)
		}
		if row.Work != "" {
			notes = append(notes, s.workName(row.Work))
		}
		if row.Note != "" {
			notes = append(notes, row.Note)
		}
	}
	d.By, d.Note = strings.Join(by, ", "), strings.Join(notes, "; ")
	return d
}
