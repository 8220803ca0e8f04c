package page

import (
	"regexp"
	"strings"
	"testing"

	"tankside/builder/manual"
)

// A part's page has the safety messages that “May it go in?” tells of its sheet: of what is on it, what it is made of and what it is washed in; and what to wear.
// A DANGER stands at its head.
func TestAPartsPageWarnsOfAllThatItMeets(t *testing.T) {
	s, pages := demo(t)
	tag := regexp.MustCompile(`(?s)<sup.*?</sup>|<[^>]*>`)
	parts, messages, dangers := 0, 0, 0
	for _, a := range s.Manual.Select(func(a *manual.Article) bool { return a.Part != nil }) {
		html := pages[strings.TrimSuffix(a.Path, ".md")+".html"]
		from := strings.Index(html, `<section class="suits-of">`)
		if from < 0 {
			t.Errorf("%s has no decision", a.Path)
			continue
		}
		told := tag.ReplaceAllString(html[from:from+strings.Index(html[from:], "</section>")], "")
		head := tag.ReplaceAllString(html[:strings.Index(html, `<div class="told">`)], "")
		if first, last := strings.Index(html, `<div class="safety warning`), strings.LastIndex(html[:from], `<div class="safety danger`); first >= 0 && first < last {
			t.Errorf("%s has a WARNING before a DANGER", a.Path)
		}
		parts++
		for _, m := range s.metBy(a.Part) {
			for _, signal := range m.Signals {
				if len(m.Sections) > 1 && signal.At.Line > m.Sections[1].At.Line {
					continue
				}
				messages++
				opening, _, _ := strings.Cut(signal.Text, ".")
				if i := strings.IndexAny(opening, "0123456789\u00a0'’\""); i >= 0 {
					opening = opening[:i] // amounts stand in two systems, and some signs are written another way
				}
				where := told
				if signal.Word == "DANGER" {
					where = head
					dangers++
				}
				if !strings.Contains(where, opening) {
					t.Errorf("%s does not say %s of %s: %q", a.Path, signal.Word, m.Path, opening)
				}
			}
			if m.Chemistry != nil {
				for _, w := range m.Chemistry.ProtectiveEquipment {
					if !strings.Contains(told, w) {
						t.Errorf("%s does not say to wear %s", a.Path, w)
					}
				}
			}
		}
	}
	if parts != 14 || messages < 60 || dangers < 10 {
		t.Errorf("%d parts, %d messages, %d of them DANGER", parts, messages, dangers)
	}
}
