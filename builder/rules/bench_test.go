package rules

import (
	"context"
	"fmt"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"testing/fstest"
	"time"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/text"

	"tankside/builder/manual"
	"tankside/builder/relate"
)

const articles = 10_000

// large is a manual of ten thousand articles of some 4 kB, of every kind, that link to each other and name each other in their headers.
func large() fstest.MapFS {
	files := fstest.MapFS{manual.ShopFile: {Data: []byte(`name: Invented shop
altitude: 240 m
air: {temperature: 20 °C, humidity: 50 %}
water: {temperature: 12 °C, hardness: 260 mg/L, conductivity: 640 µS/cm}
tanks:
  - {id: wash-1, name: Wash 1, volume: 120 L, length: 600 mm, width: 450 mm, depth: 445 mm, heater: 6 kW, ultrasonic-power: 1.2 kW, frequency: 40 kHz, lid: yes, insulation: 25 mm, chemistry: c-0, strength: 4 % v/v, temperature: 60 °C}
rinses: [{id: rinse-1, name: Rinse, conductivity: 12 µS/cm}]
dryer: {id: dryer, name: Dryer, temperature: 80 °C}
roles: [operator, process engineer]
`)}}
	kinds := []struct{ letter, header string }{
		{"soils/s", "nature: oil\nremoved-by: [{chemistry: c-0, strength: 3–8 % v/v, temperature: 55–65 °C, time: 5–10 min, frequency: 40 kHz}]\n"},
		{"chemistries/c", "ph: 9–11\nstrength: 2–10 % v/v\ntemperature: 50–70 °C\nceiling: 75 °C\ntime: 3–20 min\nfrequency: 25–170 kHz\ncontains: [surfactant]\nremoves: [s-NUMBER]\nhazards: [H318]\nprotective-equipment: [goggles]\n"},
		{"materials/m", "made-of: [carbon-steel]\nph: 8–13\ntemperature: ≤ 80 °C\nfrequency: 25–170 kHz\ntime: ≤ 15 min\nattacked-by: [chloride]\n"},
		{"parts/p", "material: [m-NUMBER]\nsoil: [s-NUMBER]\ntank: wash-1\nchemistry: c-0\nstrength: 4 % v/v\ntemperature: 60 °C\ntime: 5–10 min\nfrequency: 40 kHz\nrinse: [rinse-1]\ndry: dryer\nmust-not-spot: yes\nnext: storage\n"},
		{"procedures/d", "time: 20 min\ntank: [wash-1]\nchemistry: [c-0]\nhazards: [H318]\nprotective-equipment: [goggles]\n"},
		{"lessons/l", "order: NUMBER\nfor: [operator]\nneeds: [d-NUMBER]\n"},
		{"symptoms/y", "seen-on: part\naffects: [m-NUMBER]\n"},
	}
	for i := range articles {
		k, n := kinds[i%len(kinds)], i/len(kinds)
		header := strings.ReplaceAll(k.header, "NUMBER", fmt.Sprint(n))
		var b strings.Builder
		b.WriteString(head(fmt.Sprintf("Article %d", i), header))
		b.WriteString("> **WARNING** Burns eyes. Goggles. Follow the safety data sheet and local codes.\n\n")
		if strings.HasPrefix(k.letter, "symptoms") {
			b.WriteString("## Does it wipe off?\n\n- Yes: [One](#one)\n- No: [Two](#two)\n\n## One\n\n**Recheck.** Look.\n\n## Two\n\n**Recheck.** Look.\n\n")
		}
		for part := 0; b.Len() < 4000; part++ {
			fmt.Fprintf(&b, "### Section %d\n\nOil floats on the bath and *recoats* the part when it is lifted; see [the procedure](../procedures/d-%d.md) and [the soil](../soils/s-%d.md).\nSkim for **two minutes** before lifting, at 60 °C, and look at the `titration` of the day.\n\n", part, n%1400, n%1400)
			b.WriteString("| what | how much |\n| --- | --- |\n| oil | 2 mL/L |\n| fines | 20 mg/L |\n\n1. Lift slowly.\n2. Let it drain for ten seconds.\n3. Rinse at once, before it dries.\n\n")
		}
		files[fmt.Sprintf("%s-%d.md", k.letter, n)] = &fstest.MapFile{Data: []byte(b.String())}
	}
	return files
}

// BenchmarkProof measures proof-reading against what reading markdown alone costs: goldmark's parser over the same texts, on as many
// processors. proof/goldmark is the rules alone, whole/goldmark the rules with the reading of headers, texts and positions before them.
func BenchmarkProof(b *testing.B) {
	files := large()
	m, list, err := manual.Read(context.Background(), files)
	if err != nil || len(list) > 0 || len(m.Articles) != articles {
		b.Fatal(err, show(list[:min(len(list), 5)]), len(m.Articles))
	}
	var bare, rules, whole time.Duration
	findings := 0
	for b.Loop() {
		runtime.GC() // so that none pays for another's waste
		begin := time.Now()
		parseAll(m)
		bare += time.Since(begin)

		runtime.GC()
		begin = time.Now()
		findings = len(Proof(m, today))
		rules += time.Since(begin)

		runtime.GC()
		begin = time.Now()
		read, _, err := manual.Read(context.Background(), files)
		if err != nil {
			b.Fatal(err)
		}
		Proof(read, today)
		whole += time.Since(begin)
	}
	b.ReportMetric(float64(rules)/float64(bare), "proof/goldmark")
	b.ReportMetric(float64(whole)/float64(bare), "whole/goldmark")
	b.ReportMetric(float64(rules.Milliseconds())/float64(b.N), "proof-ms")
	b.ReportMetric(float64(bare.Milliseconds())/float64(b.N), "goldmark-ms")
	b.ReportMetric(float64(findings), "findings")
	b.ReportMetric(0, "ns/op")
}

// parseAll parses every text with goldmark alone.
func parseAll(m *manual.Manual) {
	parser := goldmark.New(goldmark.WithExtensions(extension.Table, extension.Strikethrough, extension.TaskList)).Parser()
	var next atomic.Int64
	var wait sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= len(m.Articles) {
					return
				}
				parser.Parse(text.NewReader(m.Articles[i].Body))
			}
		})
	}
	wait.Wait()
}

// BenchmarkTable measures how long the table for “may it go in?” takes.
func BenchmarkTable(b *testing.B) {
	m, _, err := manual.Read(context.Background(), large())
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		relate.Table(m)
	}
}
