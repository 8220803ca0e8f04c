package tree

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
	"time"

	"tankside/builder/manual"
)

var testMeasure = Measure{BoxWidth: 100, BoxHeight: 40, GapX: 10, GapY: 20}

// judge checks what every drawing has to keep: each box once and for itself, lines downwards from box to box.
func judge(t *testing.T, tree *Tree, d Drawing) {
	t.Helper()
	seen := map[*Node]bool{}
	for i, a := range d.Boxes {
		if a.Node != nil {
			if seen[a.Node] {
				t.Errorf("step %d is drawn twice", a.Node.Number)
			}
			seen[a.Node] = true
		}
		if a.X < 0 || a.Y < 0 || a.X+testMeasure.BoxWidth > d.Width+1e-9 || a.Y+testMeasure.BoxHeight > d.Height+1e-9 {
			t.Errorf("box %d stands outside the drawing", i)
		}
		for j, b := range d.Boxes[:i] {
			if a.Y == b.Y && a.X < b.X+testMeasure.BoxWidth+testMeasure.GapX-1e-6 && b.X < a.X+testMeasure.BoxWidth+testMeasure.GapX-1e-6 {
				t.Errorf("boxes %d and %d are closer than the gap: %v and %v", i, j, a.X, b.X)
			}
		}
	}
	for _, n := range tree.Nodes {
		if (n.Depth >= 0) != seen[n] {
			t.Errorf("step %d: reachable %v, drawn %v", n.Number, n.Depth >= 0, seen[n])
		}
	}
	for _, l := range d.Lines {
		from, to := d.Boxes[l.From], d.Boxes[l.To]
		first, last := l.Points[0], l.Points[len(l.Points)-1]
		if first != (Point{from.X + testMeasure.BoxWidth/2, from.Y + testMeasure.BoxHeight}) || last != (Point{to.X + testMeasure.BoxWidth/2, to.Y}) {
			t.Errorf("the line %d–%d does not join its boxes", l.From, l.To)
		}
		for i, p := range l.Points[1:] {
			if p.Y <= l.Points[i].Y {
				t.Errorf("the line %d–%d does not lead downwards", l.From, l.To)
			}
		}
	}
}

func TestDrawing(t *testing.T) {
	tree, _ := of(t, sound)
	d := tree.Draw(testMeasure)
	judge(t, tree, d)
	// By hand: 1 leads to 3, 2 and an article; 2 leads to 3 and 4. So 1 is on top, 2 and the article below it, 3 and 4 below them; the line
	// from 1 to 3 passes the second layer, and nothing needs to cross.
	layer := func(i int) float64 { return d.Boxes[i].Y / (testMeasure.BoxHeight + testMeasure.GapY) }
	if len(d.Boxes) != 5 || layer(0) != 0 || layer(1) != 1 || layer(2) != 2 || layer(3) != 2 || layer(4) != 1 {
		t.Errorf("layers: %+v", d.Boxes)
	}
	if len(d.Lines) != 5 || d.Crossings != 0 {
		t.Errorf("%d lines, %d crossings", len(d.Lines), d.Crossings)
	}
}

// Two steps that both lead to both of two remedies cannot be drawn in layers with fewer crossings than one (K₂,₂ in two layers);
// the same with three and three has nine (the two-layer crossing number of K₃,₃: Garey and Johnson, SIAM J. Alg. Disc. Meth. 4, 1983, from memory).
func TestCrossingsThatCannotBeAvoided(t *testing.T) {
	for n, want := range map[int]int{2: 1, 3: 9} {
		var b strings.Builder
		letters := "abc"[:n]
		b.WriteString("## Start?\n\n")
		for _, q := range letters {
			b.WriteString("- " + string(q) + ": [Q" + string(q) + "?](#q" + string(q) + ")\n")
		}
		for _, q := range letters {
			b.WriteString("\n## Q" + string(q) + "?\n\n")
			for _, r := range letters {
				b.WriteString("- " + string(r) + ": [R" + string(r) + "](#r" + string(r) + ")\n")
			}
		}
		for _, r := range letters {
			b.WriteString("\n## R" + string(r) + "\n\n**Recheck.** Look.\n")
		}
		tree, list := of(t, b.String())
		if len(list) > 0 {
			t.Fatal(list)
		}
		d := tree.Draw(testMeasure)
		judge(t, tree, d)
		if d.Crossings != want {
			t.Errorf("%d and %d: %d crossings, want %d", n, n, d.Crossings, want)
		}
	}
}

// Every tree of the demo manual is drawn whole, and hardly a line crosses another.
func TestDemoTreesAreDrawn(t *testing.T) {
	m, _, err := manual.Read(context.Background(), os.DirFS("../../content"))
	if err != nil {
		t.Fatal(err)
	}
	trees, crossings := 0, 0
	for _, a := range m.Articles {
		if a.Kind != manual.Symptom {
			continue
		}
		tree, _ := Of(a)
		d := tree.Draw(testMeasure)
		judge(t, tree, d)
		trees++
		crossings += d.Crossings
		if d.Crossings > 4 {
			t.Errorf("%s: %d crossings", a.Path, d.Crossings)
		}
	}
	if trees < 22 {
		t.Errorf("%d trees", trees)
	}
	t.Logf("%d trees, %d crossings", trees, crossings)
}

// Faulty trees are drawn as far as they go: proof-reading and drawing may meet a circle or no step at all.
func TestFaultyTreesAreDrawn(t *testing.T) {
	for _, body := range []string{
		"Only text.\n", "## Hard-water salts\n\n**Recheck.** Look.\n",
		strings.Replace(sound, "[Detergent film](#detergent-film)", "[Again](#does-it-wipe-off-dry)", 1),
		strings.Replace(sound, "(#detergent-film)", "(#does-it-fizz)", 1),
	} {
		tree, _ := of(t, body)
		judge(t, tree, tree.Draw(testMeasure))
	}
}

// The largest tree that is read, with lines as long as they can be, is drawn in the time of a page. Without the sums it takes minutes.
func TestLargestTreeIsDrawn(t *testing.T) {
	var b strings.Builder
	const n = 199
	for i := range n {
		fmt.Fprintf(&b, "## Step %d?\n\n- Yes: [Step %d?](#step-%d)\n", i, i+1, i+1)
		for _, j := range []int{n - i%30, n - i/2} {
			if j > i {
				fmt.Fprintf(&b, "- To %d: [Step %d?](#step-%d)\n", j, j, j)
			}
		}
		b.WriteString("\n")
	}
	fmt.Fprintf(&b, "## Step %d?\n\nEnd.\n", n)
	tree, _ := of(t, b.String())
	if len(tree.Nodes) != n+1 {
		t.Fatalf("%d nodes", len(tree.Nodes))
	}
	begin := time.Now()
	d := tree.Draw(testMeasure)
	if took := time.Since(begin); took > 10*time.Second {
		t.Errorf("drawn in %v", took)
	}
	judge(t, tree, d)
}

// Crossings are counted as by comparing each two lines.
func TestCrossingsAreCounted(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		l := &layout{}
		for layer := range 3 {
			for range 1 + random.IntN(8) {
				l.add(place{layer: layer, box: -1})
			}
		}
		for _, layer := range l.layers {
			l.number(layer)
		}
		want := 0
		type line struct{ from, to int }
		for k := range 2 {
			var lines []line
			for range random.IntN(20) {
				from, to := random.IntN(len(l.layers[k])), random.IntN(len(l.layers[k+1]))
				p := &l.places[l.layers[k][from]]
				p.down = append(p.down, l.layers[k+1][to])
				for _, o := range lines {
					if from < o.from && to > o.to || from > o.from && to < o.to {
						want++
					}
				}
				lines = append(lines, line{from, to})
			}
		}
		if got := l.crossings(); got != want {
			t.Errorf("%d crossings, want %d", got, want)
		}
	}
}
