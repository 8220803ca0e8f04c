//go:build unix

package builder

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"testing"
	"time"

	"github.com/blevesearch/bleve/v2"
	"github.com/yuin/goldmark"
)

// BenchmarkOneArticle changes one article of a large manual in a sitting and reports how long it takes until its page is written and until the
// edition with everything that the change touches is in place. The floors are measured in the same run and are for the one article alone:
// goldmark's rendering and the writing of one page; bleve's indexing of one article into an index of its own on the disk.
func BenchmarkOneArticle(b *testing.B) {
	for _, n := range []int{150, 2_000, corpusSize} {
		b.Run(fmt.Sprint(n), func(b *testing.B) { oneArticle(b, n) })
	}
}

func oneArticle(b *testing.B, n int) {
	src, to, floors := b.TempDir(), filepath.Join(b.TempDir(), "edition"), b.TempDir()
	texts := corpus(b, src, n)
	defer debug.SetGCPercent(debug.SetGCPercent(GarbagePercent))
	s := NewSitting()
	defer s.Close()
	o := Options{Manual: src, To: to, Now: time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC), Sitting: s, Draft: true}
	if r, err := Publish(context.Background(), o); err != nil {
		stopped(b, r, err)
	}
	var page, whole, onePage, oneIndexed spent
	for i := 0; b.Loop(); i++ {
		name := fmt.Sprintf("procedures/article-%d.md", i%n)
		before, err := os.ReadFile(filepath.Join(src, name))
		if err != nil {
			b.Fatal(err)
		}
		text := append(before, fmt.Sprintf("Wipe the lid dry, round %d.\n", i)...)
		if err := os.WriteFile(filepath.Join(src, name), text, 0o644); err != nil {
			b.Fatal(err)
		}
		o.Changed = []string{name}
		whole.measure(b, func() {
			begin, cpu := time.Now(), processors(b)
			o.Ready = func(string, []byte) {
				page.time += time.Since(begin)
				page.cpu += processors(b) - cpu
			}
			if _, err := Publish(context.Background(), o); err != nil {
				b.Fatal(err)
			}
		})
		onePage.measure(b, func() {
			var html bytes.Buffer
			if err := goldmark.New().Convert(text, &html); err != nil {
				b.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(floors, "page.html"), html.Bytes(), 0o644); err != nil {
				b.Fatal(err)
			}
		})
		oneIndexed.measure(b, func() {
			index, err := bleve.New(filepath.Join(floors, fmt.Sprint(i)), bleve.NewIndexMapping())
			if err != nil {
				b.Fatal(err)
			}
			if err := index.Index(name, map[string]string{"title": name, "text": texts[i%n]}); err != nil {
				b.Fatal(err)
			}
			if err := index.Close(); err != nil {
				b.Fatal(err)
			}
		})
	}
	each := float64(b.N) * float64(time.Millisecond)
	b.ReportMetric(float64(page.time)/each, "ms/page")
	b.ReportMetric(float64(page.cpu)/each, "cpu-ms/page")
	b.ReportMetric(float64(page.time)/float64(onePage.time), "page/floor")
	b.ReportMetric(float64(whole.time)/each, "ms/whole")
	b.ReportMetric(float64(whole.cpu)/each, "cpu-ms/whole")
	b.ReportMetric(float64(whole.time)/float64(onePage.time+oneIndexed.time), "whole/floor")
	b.ReportMetric(0, "ns/op")
}
