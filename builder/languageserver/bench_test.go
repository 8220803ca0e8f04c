//go:build unix

package languageserver

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"tankside/builder/manual"
)

// BenchmarkFindings changes open texts of a manual of 2,000 articles, as an editor does, and reports how long it takes from the pause until
// every finding has been told: ms/text for a change of the text, ms/title for one of a title, which other texts may name; cpu-ms/text is for a
// machine that has other work. The floor, of the same run, is what no server can do without, goldmark's parsing of the changed text alone;
// text/floor says how many times as long.
func BenchmarkFindings(b *testing.B) {
	const n = 2_000
	folder := b.TempDir()
	if err := os.CopyFS(folder, os.DirFS("../../content")); err != nil {
		b.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(folder, "procedures", "dry.md"))
	if err != nil {
		b.Fatal(err)
	}
	there, err := filepath.Glob(filepath.Join(folder, "*", "*.md"))
	if err != nil {
		b.Fatal(err)
	}
	path := func(i int) string { return fmt.Sprintf("procedures/dry-%d.md", i) }
	for i := range n - len(there)/2 {
		write(b, folder, path(i), strings.Replace(string(text), "\ntitle: ", fmt.Sprintf("\ntitle: No %d, ", i), 1))
	}
	o := onDisk()
	files, closes, err := o.Open(folder)
	if err != nil {
		b.Fatal(err)
	}
	defer closes()
	d := newDesk(folder, files, closes)
	s := &server{options: o, out: io.Discard, encoding: utf16, desks: map[string]*desk{folder: d}, open: map[string]*document{}}
	if err := s.publish(b.Context(), d); err != nil || d.manual == nil {
		b.Fatal(err, d.refused)
	}
	if d.manual.Count() < n-20 {
		b.Fatalf("%d articles", d.manual.Count())
	}
	var ofText, ofTitle, floor, cpu time.Duration
	changed := func(i int, text string) time.Duration {
		if err := didOpen(s, didOpenParams{documentItem{d.uri(path(i)), 1, text}}); err != nil {
			b.Fatal(err)
		}
		begin := time.Now()
		if err := s.publish(b.Context(), d); err != nil {
			b.Fatal(err)
		}
		return time.Since(begin)
	}
	rounds := 0
	for b.Loop() {
		i := rounds % 100
		now := strings.Replace(string(text), "\ntitle: ", fmt.Sprintf("\ntitle: No %d, ", i), 1) + fmt.Sprintf("\nWipe the lid dry, round %d.\n", rounds)
		before := processors(b)
		ofText += changed(i, now)
		cpu += processors(b) - before
		ofTitle += changed(i, strings.Replace(now, "\ntitle: No", fmt.Sprintf("\ntitle: Round %d, no", rounds), 1))
		changed(i, now)
		begin := time.Now()
		manual.Parse([]byte(now)) // goldmark with the extensions of a manual
		floor += time.Since(begin)
		rounds++
	}
	each := float64(rounds) * float64(time.Millisecond)
	b.ReportMetric(float64(ofText)/each, "ms/text")
	b.ReportMetric(float64(cpu)/each, "cpu-ms/text")
	b.ReportMetric(float64(ofTitle)/each, "ms/title")
	b.ReportMetric(float64(floor)/each, "ms/floor")
	b.ReportMetric(float64(ofText)/float64(floor), "text/floor")
	b.ReportMetric(0, "ns/op")
}

// processors is the time that the program has had of the processors.
func processors(b *testing.B) time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
