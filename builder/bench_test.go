//go:build unix

package builder

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/blevesearch/bleve/v2"
	"github.com/yuin/goldmark"
)

// corpusSize is the number of articles of the publication benchmark, each of some 4 kB.
const corpusSize = 10_000

const benchShop = `name: Bench
language: en
units: SI
tanks:
  - {id: wash-1, name: Wash 1, volume: 120 L, heater: 6 kW, ultrasonic-power: 1.2 kW, frequency: 40 kHz, temperature: 62 °C}
roles: [process engineer]
`

const benchWords = `water oil tank part bath clean hot cold rinse dry spot film foil test minute strength heat metal steel brass
aluminium soil grease sound bubble surface pressure time temperature basket load hole thread bracket collar mild gentle neutral
flow drain filter lid heater meter reading record check look wipe cloth drop ring pit rust smut dull bright edge corner gasket pump
valve seal shaft sleeve housing cover spring gear before after during between under over slowly quickly never always again first last`

// corpus writes a manual of n articles into a folder and gives the text of each. It is the same every time.
func corpus(b *testing.B, dir string, n int) []string {
	b.Helper()
	words := strings.Fields(benchWords)
	r := rand.New(rand.NewPCG(1, 2))
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			b.Fatal(err)
		}
	}
	write("shop.yaml", benchShop)
	if err := os.MkdirAll(filepath.Join(dir, "procedures"), 0o755); err != nil {
		b.Fatal(err)
	}
	texts := make([]string, n)
	var t bytes.Buffer
	for i := range n {
		t.Reset()
		for section := range 5 {
			fmt.Fprintf(&t, "## Section %d of %s\n\n", section+1, words[r.IntN(len(words))])
			for range 2 {
				for w := range 70 {
					if w > 0 {
						t.WriteByte(' ')
					}
					t.WriteString(words[r.IntN(len(words))])
					if w%12 == 11 {
						t.WriteByte('.')
					}
				}
				fmt.Fprintf(&t, ", see [another](article-%d.md).\n\n", r.IntN(n))
			}
			t.WriteString("- one **thing**\n- another `thing`\n\n")
		}
		texts[i] = t.String()
		head := fmt.Sprintf("---\ntitle: Article %d about %s\nsummary: What to do with %s and %s.\nstation: wash\nrevision: A\n"+
			"approved: 2026-09-14, process engineer\nreview-by: 2027-09-14\nsources: [common practice, no source]\n---\n\n",
			i, words[r.IntN(len(words))], words[r.IntN(len(words))], words[r.IntN(len(words))])
		write(fmt.Sprintf("procedures/article-%d.md", i), head+texts[i])
	}
	return texts
}

// floor does what no publication can do without, with the bare libraries: the markdown rendered on every core, the texts indexed by
// bleve in batches with its defaults, the pages written.
func floor(b *testing.B, dir string, texts []string) {
	b.Helper()
	if err := os.MkdirAll(filepath.Join(dir, "pages"), 0o755); err != nil {
		b.Fatal(err)
	}
	md := goldmark.New()
	var wg sync.WaitGroup
	cores := runtime.GOMAXPROCS(0)
	for c := range cores {
		wg.Go(func() {
			for i := c; i < len(texts); i += cores {
				var html bytes.Buffer
				if err := md.Convert([]byte(texts[i]), &html); err != nil {
					b.Error(err)
					return
				}
				if err := os.WriteFile(filepath.Join(dir, "pages", fmt.Sprintf("%d.html", i)), html.Bytes(), 0o644); err != nil {
					b.Error(err)
					return
				}
			}
		})
	}
	wg.Wait()
	index, err := bleve.New(filepath.Join(dir, "index"), bleve.NewIndexMapping())
	if err != nil {
		b.Fatal(err)
	}
	batch := index.NewBatch()
	for i, text := range texts {
		if err := batch.Index(fmt.Sprint(i), map[string]string{"title": fmt.Sprintf("Article %d", i), "text": text}); err != nil {
			b.Fatal(err)
		}
		if batch.Size() == 1000 || i == len(texts)-1 {
			if err := index.Batch(batch); err != nil {
				b.Fatal(err)
			}
			batch.Reset()
		}
	}
	if err := index.Close(); err != nil {
		b.Fatal(err)
	}
}

// stopped ends a benchmark whose manual has findings that stop it: words that meet by chance may say something that a new rule knows.
func stopped(b *testing.B, r Report, err error) {
	b.Helper()
	for _, f := range r.Findings {
		if f.Stops() {
			b.Fatal(err, f.Place, f.Message)
		}
	}
	b.Fatal(err)
}

// BenchmarkPublish publishes a manual of 10,000 articles and reports what it takes as a multiple of what the floor takes, measured in the
// same run: time, and time of the processors, which other work on the machine hardly touches. Memory is the most that Go had
// taken from the system when the publication was done; the floor runs after it and does not count.
func BenchmarkPublish(b *testing.B) {
	src := b.TempDir()
	texts := corpus(b, src, corpusSize)
	var publish, least spent
	var memory runtime.MemStats
	for b.Loop() {
		to := filepath.Join(b.TempDir(), "edition")
		before := debug.SetGCPercent(GarbagePercent)
		publish.measure(b, func() {
			r, err := Publish(context.Background(), Options{Manual: src, To: to, Now: time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)})
			if err != nil {
				stopped(b, r, err)
			}
		})
		debug.SetGCPercent(before)
		if memory.Sys == 0 {
			runtime.ReadMemStats(&memory)
		}
		to = b.TempDir()
		least.measure(b, func() { floor(b, to, texts) })
	}
	b.ReportMetric(float64(publish.time)/float64(least.time), "x-floor")
	b.ReportMetric(float64(publish.cpu)/float64(least.cpu), "x-floor-cpu")
	b.ReportMetric(publish.time.Seconds()/float64(b.N), "s/publish")
	b.ReportMetric(least.time.Seconds()/float64(b.N), "s/floor")
	b.ReportMetric(publish.cpu.Seconds()/float64(b.N), "cpu-s/publish")
	b.ReportMetric(least.cpu.Seconds()/float64(b.N), "cpu-s/floor")
	b.ReportMetric(float64(memory.Sys)/(1<<20), "MiB-sys")
	b.ReportMetric(0, "ns/op")
}

// spent is what something took: time on the clock, and on the processors.
type spent struct{ time, cpu time.Duration }

func (s *spent) measure(b *testing.B, do func()) {
	b.Helper()
	runtime.GC() // so that none pays for another's waste
	begin, cpu := time.Now(), processors(b)
	do()
	s.time += time.Since(begin)
	s.cpu += processors(b) - cpu
}

// processors is the time that this process has had on the processors, its system calls included.
func processors(b *testing.B) time.Duration {
	b.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
