//go:build unix

package languageserver

import (
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"tankside/builder/manual"
)

// BenchmarkFindings changes open texts of a manual of 2,000 articles, as an editor does, and reports how long it takes from the pause until
// every finding has been told, and in cpu-ms/… how much of the processors, for a machine that has other work: text is a change of a text, title one of
// a title, which other texts may name, bath one of the text of a chemistry that stands in a tank, fact one of a number by which it is decided what may
// go into that tank; those with -first are until what is wrong in the changed text itself has been told, where so many others have to be read again. The floor, of the same run, is what no server can do without, goldmark's parsing of the changed text alone; text/floor says how many
// times as long.
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
	bath, err := os.ReadFile(filepath.Join(folder, "chemistries", "mild-alkaline.md"))
	if err != nil {
		b.Fatal(err)
	}
	shop, err := os.ReadFile(filepath.Join(folder, manual.ShopFile))
	if err != nil {
		b.Fatal(err)
	}
	took, cpu := map[string]time.Duration{}, map[string]time.Duration{}
	change := func(what, path, text string) {
		if err := didOpen(s, didOpenParams{documentItem{d.uri(path), 1, text}}); err != nil {
			b.Fatal(err)
		}
		before, begin := processors(b), time.Now()
		again, err := s.publishFirst(b.Context(), d)
		if err != nil {
			b.Fatal(err)
		}
		if again {
			took[what+"-first"] += time.Since(begin)
			cpu[what+"-first"] += processors(b) - before
		}
		if err := s.publish(b.Context(), d); err != nil {
			b.Fatal(err)
		}
		took[what] += time.Since(begin)
		cpu[what] += processors(b) - before
	}
	rounds := 0
	for b.Loop() {
		i := rounds % 100
		now := strings.Replace(string(text), "\ntitle: ", fmt.Sprintf("\ntitle: No %d, ", i), 1) + fmt.Sprintf("\nWipe the lid dry, round %d.\n", rounds)
		change("text", path(i), now)
		change("title", path(i), strings.Replace(now, "\ntitle: No", fmt.Sprintf("\ntitle: Round %d, no", rounds), 1))
		change("", path(i), now)
		more := string(bath) + fmt.Sprintf("\nStir it before it is measured, round %d.\n", rounds)
		change("bath", "chemistries/mild-alkaline.md", more)
		change("fact", "chemistries/mild-alkaline.md", strings.Replace(more, "\nceiling: 75 °C", fmt.Sprintf("\nceiling: %d °C", 71+rounds%4), 1))
		begin := time.Now()
		manual.Parse([]byte(now)) // goldmark with the extensions of a manual
		took["floor"] += time.Since(begin)
		rounds++
	}
	change("shop", "shop.yaml", string(shop)+"\n# A line more.\n")
	change("name", "chemistries/mild-alkaline.md", strings.Replace(string(bath), "\ntitle: ", "\ntitle: The other, ", 1))
	each := float64(rounds) * float64(time.Millisecond)
	for _, what := range slices.Sorted(maps.Keys(took)) {
		per := each
		switch sort, _, _ := strings.Cut(what, "-"); sort {
		case "", "floor":
			continue
		case "shop", "name": // once, for everything is read again
			per = float64(time.Millisecond)
		}
		b.ReportMetric(float64(took[what])/per, "ms/"+what)
		b.ReportMetric(float64(cpu[what])/per, "cpu-ms/"+what)
	}
	b.ReportMetric(float64(took["floor"])/each, "ms/floor")
	b.ReportMetric(float64(took["text"])/float64(took["floor"]), "text/floor")
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
