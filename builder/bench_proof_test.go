//go:build unix

package builder

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/text"

	"tankside/builder/decide/relate"
	"tankside/builder/decide/rules"
	"tankside/builder/manual"
	"tankside/builder/workers"
)

const everyKindShop = `name: Invented shop
altitude: 240 m
air: {temperature: 20 °C, humidity: 50 %}
water: {temperature: 12 °C, hardness: 260 mg/L, conductivity: 640 µS/cm}
tanks:
  - {id: wash-1, name: Wash 1, volume: 120 L, length: 600 mm, width: 450 mm, depth: 445 mm, heater: 6 kW, ultrasonic-power: 1.2 kW, frequency: 40 kHz, lid: yes, insulation: 25 mm, chemistry: c-0, strength: 4 % v/v, temperature: 60 °C}
rinses: [{id: rinse-1, name: Rinse, conductivity: 12 µS/cm}]
dryer: {id: dryer, name: Dryer, temperature: 80 °C}
roles: [operator, process engineer]
`

// everyKind writes a manual of ten thousand articles of some 4 kB, of every kind, that link to each other and name each other in their headers.
func everyKind(b *testing.B) (folder string) {
	b.Helper()
	folder = b.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
			b.Fatal(err)
		}
	}
	write(manual.ShopFile, everyKindShop)
	kinds := []struct{ folder, letter, header string }{
		{"soils", "s", "nature: oil\nremoved-by: [{chemistry: c-0, strength: 3–8 % v/v, temperature: 55–65 °C, time: 5–10 min, frequency: 40 kHz}]\n"},
		{"chemistries", "c", "ph: 9–11\nstrength: 2–10 % v/v\ntemperature: 50–70 °C\nceiling: 75 °C\ntime: 3–20 min\nfrequency: 25–170 kHz\ncontains: [surfactant]\nremoves: [s-NUMBER]\nhazards: [H318]\nprotective-equipment: [chemical gloves, goggles]\n"},
		{"materials", "m", "made-of: [carbon-steel]\nph: 8–13\ntemperature: ≤ 80 °C\nfrequency: 25–170 kHz\ntime: ≤ 15 min\nattacked-by: [chloride]\n"},
		{"parts", "p", "material: [m-NUMBER]\nsoil: [s-NUMBER]\ntank: wash-1\nchemistry: c-0\nstrength: 4 % v/v\ntemperature: 60 °C\ntime: 5–10 min\nfrequency: 40 kHz\nrinse: [rinse-1]\ndry: dryer\nmust-not-spot: yes\nnext: storage\n"},
		{"procedures", "d", "time: 20 min\ntank: [wash-1]\nchemistry: [c-0]\nhazards: [H318]\nprotective-equipment: [chemical gloves, goggles]\n"},
		{"lessons", "l", "order: NUMBER\nfor: [operator]\nneeds: [d-NUMBER]\n"},
		{"symptoms", "y", "seen-on: part\naffects: [m-NUMBER]\n"},
	}
	for _, k := range kinds {
		if err := os.Mkdir(filepath.Join(folder, k.folder), 0o755); err != nil {
			b.Fatal(err)
		}
	}
	for i := range corpusSize {
		k, n := kinds[i%len(kinds)], i/len(kinds)
		var t strings.Builder
		fmt.Fprintf(&t, "---\ntitle: Article %d\nsummary: Made up for a test.\nstation: wash\nrevision: A\napproved: 2026-09-14, process engineer\nreview-by: 2027-09-14\nsources: [common practice, no source]\n%s---\n",
			i, strings.ReplaceAll(k.header, "NUMBER", fmt.Sprint(n)))
		t.WriteString("> **WARNING** Burns eyes. Goggles. Follow the safety data sheet and local codes.\n\n")
		if k.folder == "symptoms" {
			t.WriteString("## Does it wipe off?\n\n- Yes: [One](#one)\n- No: [Two](#two)\n\n## One\n\n**Recheck.** Look.\n\n## Two\n\n**Recheck.** Look.\n\n")
		}
		for part := 0; t.Len() < 4000; part++ {
			fmt.Fprintf(&t, "### Section %d\n\nOil floats on the bath and *recoats* the part when it is lifted; see [the procedure](../procedures/d-%d.md) and [the soil](../soils/s-%d.md).\nSkim for **two minutes** before lifting, at 60 °C, and look at the `titration` of the day.\n\n", part, n%1400, n%1400)
			t.WriteString("| what | how much |\n| --- | --- |\n| oil | 2 mL/L |\n| fines | 20 mg/L |\n\n1. Lift slowly.\n2. Let it drain for ten seconds.\n3. Rinse at once, before it dries.\n\n")
		}
		write(fmt.Sprintf("%s/%s-%d.md", k.folder, k.letter, n), t.String())
	}
	return folder
}

// BenchmarkProof measures proof-reading against goldmark with the extensions of a manual, each on every processor.
// rules/parse are the rules alone, over a manual that has been read, against the parser over the same texts in memory.
// proof/read is what the command proof does with a folder (find and read the files, headers, texts and positions, apply the rules),
// against a program that reads the same files, parses their markdown, headers left out, and forgets each; proof/render, against one that
// also makes HTML of each. Where cpu is added, it is the
// time of the processors.
func BenchmarkProof(b *testing.B) {
	folder, now := everyKind(b), time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC)
	var rule, parsed, whole, read, rendered spent
	var m *manual.Manual
	var findings int
	for b.Loop() {
		m = nil // the programs that keep nothing shall not have its weight
		read.measure(b, func() { bare(b, folder, false) })
		rendered.measure(b, func() { bare(b, folder, true) })
		whole.measure(b, func() {
			var err error
			if m, _, err = Read(context.Background(), folder, now); err != nil {
				b.Fatal(err)
			}
		})
		if m.Count() != corpusSize {
			b.Fatal(m.Count())
		}
		var articles []*manual.Article
		for _, a := range m.Articles {
			articles = append(articles, a)
		}
		rule.measure(b, func() { findings = len(rules.Proof(m, now)) })
		parsed.measure(b, func() {
			parser := markdown().Parser()
			onAll(b, len(articles), func(i int) error {
				parser.Parse(text.NewReader(articles[i].Body))
				return nil
			})
		})
	}
	ratio := func(name string, ours, theirs spent) {
		b.ReportMetric(float64(ours.time)/float64(theirs.time), name)
		b.ReportMetric(float64(ours.cpu)/float64(theirs.cpu), name+"-cpu")
	}
	ratio("rules/parse", rule, parsed)
	ratio("proof/read", whole, read)
	ratio("proof/render", whole, rendered)
	b.ReportMetric(whole.cpu.Seconds()/float64(b.N), "cpu-s/proof")
	b.ReportMetric(read.cpu.Seconds()/float64(b.N), "cpu-s/read")
	b.ReportMetric(float64(findings), "findings")
	b.ReportMetric(0, "ns/op")
}

// markdown is goldmark with the extensions that a manual has.
func markdown() goldmark.Markdown {
	return goldmark.New(goldmark.WithExtensions(extension.Table, extension.Strikethrough, extension.TaskList))
}

// bare reads every markdown file of a folder and parses it, or makes HTML of it, without a thought for anything else.
func bare(b *testing.B, folder string, render bool) {
	b.Helper()
	var files []string
	if err := filepath.WalkDir(folder, func(p string, _ fs.DirEntry, err error) error {
		if strings.HasSuffix(p, ".md") {
			files = append(files, p)
		}
		return err
	}); err != nil {
		b.Fatal(err)
	}
	if len(files) != corpusSize {
		b.Fatal(len(files))
	}
	md := markdown()
	onAll(b, len(files), func(i int) error {
		data, err := os.ReadFile(files[i])
		if err != nil {
			return err
		}
		if _, after, ok := bytes.Cut(data, []byte("\n---\n")); ok {
			data = after
		}
		if render {
			return md.Convert(data, io.Discard)
		}
		md.Parser().Parse(text.NewReader(data))
		return nil
	})
}

// onAll runs do for each of n on every processor.
func onAll(b *testing.B, n int, do func(i int) error) {
	b.Helper()
	if err := workers.Each(context.Background(), n, do); err != nil {
		b.Fatal(err)
	}
}

// BenchmarkTable measures how long the table for “may it go in?” takes.
func BenchmarkTable(b *testing.B) {
	m, _, err := Read(context.Background(), everyKind(b), time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		relate.Table(m)
	}
}
