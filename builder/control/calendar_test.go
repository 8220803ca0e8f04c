package control

import (
	"bytes"
	"strings"
	"testing"
	"time"

	ics "github.com/arran4/golang-ical"
)

// A calendar is read back by a library of somebody else, and keeps to the letter of RFC 5545.
func TestCalendarIsReadBack(t *testing.T) {
	stamp := time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)
	day := time.Date(2027, 2, 28, 0, 0, 0, 0, time.UTC)
	titles := []string{
		"Wax", `Acid, then "alkali"; never C:\together`, "two\nlines", strings.Repeat("ä", 200), strings.Repeat("x", 61) + "é" + strings.Repeat("–", 90),
		"BEGIN:VEVENT", "end\r\nEND:VCALENDAR", " begins with a blank", "🧪" + strings.Repeat("🧪", 40),
	}
	var events []Event
	for _, title := range titles {
		events = append(events, Event{Of: title, Day: day, Summary: title, More: title + ", and more"})
	}
	data := Calendar("A shop; with, signs", stamp, events)
	for line := range bytes.SplitSeq(bytes.TrimSuffix(data, []byte("\r\n")), []byte("\r\n")) {
		if len(line) > 75 || bytes.ContainsAny(line, "\r\n") || len(bytes.ToValidUTF8(line, nil)) != len(line) {
			t.Errorf("a line of %d octets: %q", len(line), line)
		}
	}
	read, err := ics.ParseCalendar(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	got := read.Events()
	if len(got) != len(titles) {
		t.Fatalf("want %d events, got %d", len(titles), len(got))
	}
	ids := map[string]bool{}
	for i, e := range got {
		ids[e.Id()] = true
		begin, err := e.GetAllDayStartAt()
		end, errEnd := e.GetAllDayEndAt()
		made, errMade := e.GetDtStampTime()
		if err != nil || errEnd != nil || errMade != nil || begin.Format(time.DateOnly) != "2027-02-28" || end.Format(time.DateOnly) != "2027-03-01" || !made.Equal(stamp) {
			t.Errorf("%q: begins %v, ends %v, made %v (%v, %v, %v)", titles[i], begin, end, made, err, errEnd, errMade)
		}
		want := strings.ReplaceAll(titles[i], "\r\n", "\n")
		if summary := ics.FromText(e.GetProperty(ics.ComponentPropertySummary).Value); summary != want {
			t.Errorf("want %q, got %q", want, summary)
		}
		if more := ics.FromText(e.GetProperty(ics.ComponentPropertyDescription).Value); more != want+", and more" {
			t.Errorf("want %q, got %q", want+", and more", more)
		}
	}
	if len(ids) != len(titles) {
		t.Errorf("%d events have %d identifiers", len(titles), len(ids))
	}
	if !bytes.Equal(data, Calendar("A shop; with, signs", stamp, events)) {
		t.Error("the same events give other bytes")
	}
}
