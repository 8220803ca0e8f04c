package control

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"
	"time"
	"unicode/utf8"
)

// Event is an entry of a calendar that lasts a day.
type Event struct {
	Of      string // what it is about, by which it is the same entry in the next calendar
	Day     time.Time
	Summary string
	More    string // a longer text, or ""
}

// Calendar writes events as an iCalendar object (RFC 5545). name is that of the calendar and of whoever it belongs to, stamp the day on which it was made.
// The same events on the same day are the same bytes.
func Calendar(name string, stamp time.Time, events []Event) []byte {
	var c calendar
	c.line("BEGIN:VCALENDAR")
	c.line("VERSION:2.0")
	c.line("PRODID:-//Tankside//Reviews//EN")
	c.line("CALSCALE:GREGORIAN")
	c.line("NAME:" + escaped(name)) // RFC 7986, section 5.1
	for _, e := range events {
		id := sha256.Sum256([]byte(name + "\x00" + e.Of))
		c.line("BEGIN:VEVENT")
		c.line("UID:" + hex.EncodeToString(id[:16]))
		c.line("DTSTAMP:" + stamp.UTC().Format("20060102T150405Z"))
		c.line("DTSTART;VALUE=DATE:" + e.Day.Format("20060102"))
		c.line("DTEND;VALUE=DATE:" + e.Day.AddDate(0, 0, 1).Format("20060102"))
		c.line("SUMMARY:" + escaped(e.Summary))
		if e.More != "" {
			c.line("DESCRIPTION:" + escaped(e.More))
		}
		c.line("TRANSP:TRANSPARENT")
		c.line("END:VEVENT")
	}
	c.line("END:VCALENDAR")
	return []byte(c.text.String())
}

type calendar struct{ text strings.Builder }

// longestLine is the number of octets that a line of a calendar may have, its end apart (RFC 5545, section 3.1).
const longestLine = 75

// line writes a line, folded between characters where it is too long.
func (c *calendar) line(text string) {
	for room := longestLine; len(text) > room; room = longestLine - 1 { // a continued line begins with a blank
		at := room
		for !utf8.RuneStart(text[at]) {
			at--
		}
		c.text.WriteString(text[:at] + "\r\n ")
		text = text[at:]
	}
	c.text.WriteString(text + "\r\n")
}

// escaped is a text as a value of type TEXT (RFC 5545, section 3.3.11). Control characters, which such a value cannot have, become blanks.
func escaped(text string) string {
	text = strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' || r == 0x7F {
			return ' '
		}
		return r
	}, strings.ReplaceAll(strings.ToValidUTF8(text, "\uFFFD"), "\r\n", "\n"))
	return escapes.Replace(text)
}

var escapes = strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`)
