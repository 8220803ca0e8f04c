package builder

import (
	"regexp"
	"slices"
	"testing"

	"tankside/builder/manual"
)

// signalOrder is the order of what can happen, the worst first (ANSI Z535.6).
var signalOrder = []string{"DANGER", "WARNING", "CAUTION", "NOTICE"}

// deadly names what the lesson on working safely calls DANGER wherever it stands: what may be live, a cavity that bursts in heat, a metal fire that water feeds.
var deadly = regexp.MustCompile(`(?i)\btingle\b|live parts|earth-fault|near switches|sealed cavity|swarf burns so hot`)

// The worst that can happen is read first: where safety messages of the demo manual follow one another, in the original and in each translation, none stands below a
// milder one; and what may kill by current or by bursting has one signal word in all articles.
func TestDemoMessagesStandByWhatCanHappen(t *testing.T) {
	t.Parallel()
	m, _, err := Read(t.Context(), "../content", day)
	if err != nil {
		t.Fatal(err)
	}
	said := 0
	for _, a := range m.Articles {
		inOrder(t, a)
		for _, tag := range m.Languages() {
			if other := m.In(a, tag); other != nil {
				inOrder(t, other)
			}
		}
		for _, s := range a.Signals {
			if deadly.MatchString(s.Text) {
				said++
				if s.Word != "DANGER" {
					t.Errorf("%v: a %s speaks of what can kill at once: %q", s.At, s.Word, s.Text)
				}
			}
		}
	}
	if said < 10 {
		t.Errorf("%d messages speak of what is live or bursts: the words that this test looks for are no longer those of the manual", said)
	}
}

// inOrder finds a message right below a milder one. Several blocks of one message, such as its lines, have one word and so are in order.
func inOrder(t *testing.T, a *manual.Article) {
	above := ""
	for i := range a.Blocks {
		b := &a.Blocks[i]
		if b.Signal != "" && above != "" && slices.Index(signalOrder, b.Signal) < slices.Index(signalOrder, above) {
			t.Errorf("%s: a %s stands below a %s: %q", a.Path, b.Signal, above, b.Text)
		}
		above = b.Signal
	}
}
