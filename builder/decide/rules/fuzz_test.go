package rules

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"tankside/builder/manual"
)

// FuzzText puts any paragraph into articles of each kind of the demo manual: no rule of the text may panic, and every finding stands inside the article.
func FuzzText(f *testing.F) {
	files := untranslated(folder(f, demo))
	m, _, err := manual.Read(context.Background(), files)
	if err != nil {
		f.Fatal(err)
	}
	all, shared := registry(), newProof(m, labelledOn)
	hosts := []string{"materials/brass.md", "chemistries/mild-alkaline.md", "procedures/fill-and-dilute.md", "parts/valve-body-stainless.md", "soils/lime-scale.md", "lessons/working-safely.md"}
	for _, s := range []string{
		"", "Bring Wash 1 to 80 °C.", "How big is it? 36 L. That is 4.8 L of concentrate.", "5 L, or 6.6 kg", "Two impellers of 1.3 kg weigh 3.6 kg.", "3 % of a 4 % wash is 0.12 %.",
		"5 L of concentrate of 5 kg weigh 3 L.", "| a | 4 % |\n| --- | --- |\n| 5 L | 1 kg |", "1 kg for 10 L, so that 28 L carry 2.8 kg", "A litre of it weighs", "Wash 1 5 L of [mild](../chemistries/mild-alkaline.md) 5 kg",
		"Hand in the bath. Sound on? Off.", "with", "of", "acid into", "1:20 (5 %) 5 L 1:20", "half of Wash 1 is", "from 12 °C to 62 °C are 50 °C", "10 × 1 ÷ 0 = 5", "≈ = ×", "> **WARNING**", "in Wash 1, in Wash 2",
	} {
		f.Add(s, uint8(len(s)))
	}
	f.Fuzz(func(t *testing.T, paragraph string, which uint8) {
		if len(paragraph) > 1<<10 {
			return
		}
		name := hosts[int(which)%len(hosts)]
		changed := fstest.MapFS{manual.ShopFile: files[manual.ShopFile], name: &fstest.MapFile{Data: append([]byte(strings.TrimRight(string(files[name].Data), "\n")+"\n\n"), paragraph...)}}
		read, _, err := manual.Read(context.Background(), changed)
		if err != nil {
			t.Fatal(err)
		}
		a := read.At(name)
		if a == nil {
			return // what the reader refuses is no article
		}
		lines := a.Start + strings.Count(string(a.Body), "\n") + 1
		p := *shared
		for _, found := range p.proofread(a, all) {
			if found.File == name && found.Line > lines {
				t.Fatalf("a finding in line %d of %d: %s", found.Line, lines, found.Message)
			}
		}
	})
}
