package languageserver

import (
	"io"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"tankside/builder/finding"
)

// A change in a text of which many others speak is told of that text first; when all has been asked, what is told is what somebody is told who opens the manual anew.
func TestChangedTextIsToldFirst(t *testing.T) {
	const changed = "chemistries/mild-alkaline.md"
	folder := t.TempDir()
	if err := os.CopyFS(folder, os.DirFS("../../content")); err != nil {
		t.Fatal(err)
	}
	o := onDisk()
	opened := func() (*server, *desk) {
		files, closes, err := o.Open(folder)
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() {
			if err := closes(); err != nil {
				t.Error(err)
			}
		})
		d := newDesk(folder, files, closes)
		return &server{options: o, out: io.Discard, encoding: utf16, desks: map[string]*desk{folder: d}, open: map[string]*document{}}, d
	}
	told := func(d *desk) map[string][]finding.Finding {
		all := map[string][]finding.Finding{}
		for p, t := range d.told {
			if len(t.found) > 0 {
				all[p] = t.found
			}
		}
		return all
	}
	s, d := opened()
	if again, err := s.publishFirst(t.Context(), d); again || err != nil {
		t.Fatal("what was never told is not told in pieces", err)
	}
	if err := s.publish(t.Context(), d); err != nil {
		t.Fatal(err)
	}
	text := d.text(changed)
	for _, tc := range []struct {
		name, path, text string
		first            bool
		rule             finding.RuleName
	}{
		{"a link", changed, text + "\n[x](nowhere.md)\n", true, "broken-link"},
		{"put right", changed, text, true, ""},
		{"a fact", changed, strings.Replace(text, "\nceiling: 75 °C", "\nceiling: 55 °C", 1), true, ""},
		{"the shop file", "shop.yaml", d.text("shop.yaml") + "\nnonsense: 1\n", true, "unknown-key"},
		{"the shop file put right", "shop.yaml", d.text("shop.yaml"), true, ""},
		{"a text that few speak of", "lessons/rinsing-and-drying.md", d.text("lessons/rinsing-and-drying.md") + "\nOne line more.\n", false, ""},
	} {
		if err := didOpen(s, didOpenParams{documentItem{d.uri(tc.path), 1, tc.text}}); err != nil {
			t.Fatal(err)
		}
		before := told(d)
		again, err := s.publishFirst(t.Context(), d)
		if err != nil || again != tc.first {
			t.Fatalf("%s: first %v, %v", tc.name, again, err)
		}
		if again {
			now := told(d)
			if tc.rule != "" && !slices.ContainsFunc(now[tc.path], func(f finding.Finding) bool { return f.Rule == tc.rule }) {
				t.Errorf("%s: first is told %v", tc.name, now[tc.path])
			}
			delete(before, tc.path)
			delete(now, tc.path)
			if !maps.EqualFunc(before, now, func(a, b []finding.Finding) bool { return slices.EqualFunc(a, b, same) }) {
				t.Errorf("%s: first is told of other texts", tc.name)
			}
		}
		if err := s.publish(t.Context(), d); err != nil {
			t.Fatal(err)
		}
		fresh, afresh := opened()
		if err := didOpen(fresh, didOpenParams{documentItem{afresh.uri(tc.path), 1, tc.text}}); err != nil {
			t.Fatal(err)
		}
		if tc.path != changed {
			if err := didOpen(fresh, didOpenParams{documentItem{afresh.uri(changed), 1, d.text(changed)}}); err != nil {
				t.Fatal(err)
			}
		}
		if err := fresh.publish(t.Context(), afresh); err != nil {
			t.Fatal(err)
		}
		if want, got := told(afresh), told(d); !maps.EqualFunc(want, got, func(a, b []finding.Finding) bool { return slices.EqualFunc(a, b, same) }) {
			t.Errorf("%s: in the end is told %v,\nopened anew %v", tc.name, got, want)
		}
	}
}

// Where everything has to be read again, as after a change of the shop file, a request that comes meanwhile is answered before everything has been; and
// then what is found is told all the same.
func TestARequestIsAnsweredWhileMuchIsRead(t *testing.T) {
	t.Parallel()
	const shop, other = "shop.yaml", "chemistries/mild-alkaline.md"
	folder := demo(t)
	o := onDisk()
	pause, looks := make(chan time.Time), make(chan bool, 1000)
	o.After = func(d time.Duration) <-chan time.Time {
		if d == Pause {
			return pause
		}
		return time.After(time.Millisecond)
	}
	o.Now = func() time.Time { // asked whenever findings are looked for
		looks <- true
		return today
	}
	c, _ := connect(t, folder, nil, o)
	defer c.close()
	text := c.read(shop)
	c.openText(shop, text)
	c.openText(other, c.read(other))
	request := func() {
		c.ask("textDocument/documentSymbol", map[string]any{"textDocument": map[string]any{"uri": c.uri(other)}})
	}
	request() // so that the texts have been taken
	pause <- today
	c.published(other, clean)
	for len(looks) > 0 {
		<-looks
	}
	hotter := strings.Replace(text, "temperature: 62 °C", "temperature: 92 °C", 1) // above the ceiling of what is in it
	if hotter == text {
		t.Fatal("the shop has no bath of 62 °C")
	}
	c.changeText(shop, change{Text: hotter + "\nnonsense: 1\n"})
	request()
	pause <- today
	c.published(shop, has("unknown-key"))
	<-looks // of what is told first
	<-looks // of all the rest, which begins now
	hot := func(list []diagnostic) bool {
		return slices.ContainsFunc(list, func(d diagnostic) bool { return strings.Contains(d.Message, "92") })
	}
	request()
	if hot(c.told[shop]) {
		t.Error("the request waited until everything had been read")
	}
	c.published(shop, hot)
}
