package record

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tankside/builder/finding"
)

// Forms of ISO 8601 that are read: the extended ones, and the basic ones. Between day and time a blank does as well (RFC 3339, 5.6).
var (
	dayForms    = []string{"2006-01-02", "20060102"}
	clockForms  = []string{"15:04:05", "15:04", "1504", "150405"}
	offsetForms = []string{"Z07:00", "Z0700", "Z07"}
)

// timeOf reads a time, or a day alone. Where an offset from UTC is given the time keeps it; without one it stands in UTC and is by the shop's clock.
func timeOf(text string) (when time.Time, day bool, problem string) {
	if text == "" {
		return when, false, "The row says no time."
	}
	for _, form := range dayForms {
		if when, err := time.Parse(form, text); err == nil {
			return when, true, unlikely(when, text)
		}
	}
	if len(text) < 11 {
		return when, false, "“" + clip(text) + "” is no day of ISO 8601."
	}
	t := strings.Replace(strings.ToUpper(text), " ", "T", 1)
	for _, day := range dayForms {
		for _, clock := range clockForms {
			if len(day) == 8 && strings.Contains(clock, ":") {
				continue // basic and extended form are not mixed
			}
			if when, err := time.Parse(day+"T"+clock, t); err == nil {
				return when, false, unlikely(when, text)
			}
			for _, offset := range offsetForms {
				when, err := time.Parse(day+"T"+clock+offset, t)
				if err != nil {
					continue
				}
				_, seconds := when.Zone()
				if seconds > 14*3600 || seconds < -12*3600 {
					return when, false, "“" + clip(text) + "” has an offset from UTC that no place has."
				}
				return when.In(zone(seconds)), false, unlikely(when, text)
			}
		}
	}
	return when, false, "“" + clip(text) + "” is no time of ISO 8601."
}

// Zoned tells whether a time says its offset from UTC.
func Zoned(when time.Time) bool { return when.Location() != time.UTC }

// zone is an offset from UTC; that of UTC itself is told from none by its name.
func zone(seconds int) *time.Location {
	sign := '+'
	if seconds < 0 {
		sign = '−'
	}
	minutes := max(seconds, -seconds) / 60
	return time.FixedZone(fmt.Sprintf("UTC%c%02d:%02d", sign, minutes/60, minutes%60), seconds)
}

// unlikely says what is wrong with a year.
func unlikely(when time.Time, text string) string {
	if y := when.Year(); y < 1970 || y > 2199 {
		return fmt.Sprintf("“%s” is in the year %d.", clip(text), y)
	}
	return ""
}

// clock is what orders the rows where one of them gives the day alone.
func clock(r *Row) string { return r.When.Format(time.DateOnly) }

// before tells whether a row is earlier than another for certain.
func before(a, b *Row) bool {
	if a.Day || b.Day {
		return clock(a) < clock(b)
	}
	return a.When.Before(b.When)
}

// inOrder puts the rows in the order of time and tells of those that were not. Where some rows say their offset from UTC and others none, those of which there
// are fewer are not used: they could be half a day off.
func (p *parser) inOrder(rows []Row) []Row {
	rows = p.oneZone(rows)
	for i := 1; i < len(rows); i++ {
		if a, b := &rows[i-1], &rows[i]; before(b, a) {
			p.tellAt(ruleOrder, b.At, fmt.Sprintf("This row is of %s, and the one before it, in line %d, of %s. They are charted in the order of time.", stamp(b), a.Line, stamp(a)),
				"See whether the day is right; then put the rows in the order of time.", finding.Place{File: p.path, Line: a.Line, Column: 1})
		}
	}
	p.placeDays(rows)
	slices.SortStableFunc(rows, func(a, b Row) int {
		if order := a.When.Compare(b.When); order != 0 || a.Day == b.Day {
			return order
		}
		if a.Day { // the day as a whole begins before its hours
			return -1
		}
		return 1
	})
	return rows
}

// placeDays has the days begin by the clock of the rows around them, where those say their offset from UTC.
func (p *parser) placeDays(rows []Row) {
	first := slices.IndexFunc(rows, func(r Row) bool { return Zoned(r.When) })
	if first < 0 {
		return
	}
	at := rows[first].When.Location()
	for i := range rows {
		r := &rows[i]
		if !r.Day {
			at = r.When.Location()
			continue
		}
		r.When = time.Date(r.When.Year(), r.When.Month(), r.When.Day(), 0, 0, 0, 0, at)
	}
}

// oneZone leaves out the rows of the kind of which there are fewer: those with an offset, or those without.
func (p *parser) oneZone(rows []Row) []Row {
	with, without := 0, 0
	for i := range rows {
		switch {
		case rows[i].Day:
		case Zoned(rows[i].When):
			with++
		default:
			without++
		}
	}
	p.record.Zoned = with > without
	if with == 0 || without == 0 {
		p.record.Zoned = with > 0
		return rows
	}
	kept := rows[:0]
	for i := range rows {
		r := rows[i]
		if !r.Day && Zoned(r.When) != p.record.Zoned {
			p.record.Unused++
			what := "says its offset from UTC, and most rows say none"
			if p.record.Zoned {
				what = "does not say its offset from UTC, and most rows do"
			}
			p.tellAt(ruleOrder, r.At, "The time of this row "+what+", so that nobody can tell which came first. The row is not used.",
				"Write all times of the record with an offset, 2026-11-27T06:10+01:00, or all without.")
			continue
		}
		kept = append(kept, r)
	}
	return kept
}

// stamp writes a row's time.
func stamp(r *Row) string { return Stamp(r.When, r.Day) }

// Stamp writes a time as a record has it: 2026-11-27 06:10, with the offset where it says one.
func Stamp(when time.Time, day bool) string {
	switch {
	case day:
		return when.Format(time.DateOnly)
	case Zoned(when):
		return when.Format("2006-01-02 15:04-07:00")
	}
	return when.Format("2006-01-02 15:04")
}
