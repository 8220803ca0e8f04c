package changes

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"tankside/builder/content"
)

// manualOf is a random manual: articles with headers and sections, a shop file.
func manualOf(r *rand.Rand) *content.Content {
	var docs []content.Doc
	for i := range 1 + r.IntN(6) {
		docs = append(docs, content.DocOf(fmt.Sprintf("soils/s%d.md", i), true, article(r)))
	}
	return content.New(append(docs, content.DocOf("shop.yaml", false, values(r))))
}

func article(r *rand.Rand) []content.Part {
	parts := []content.Part{{Name: "header: station", Text: words(r, 1)}, {Name: "header: title", Text: words(r, 3)}, {Name: "", Text: words(r, r.IntN(20))}}
	for _, i := range r.Perm(8)[:r.IntN(8)] {
		heading := fmt.Sprintf("Heading %c", 'A'+i)
		parts = append(parts, content.Part{Name: heading, Text: "## " + heading + "\n\n" + words(r, r.IntN(30))})
	}
	return parts
}

func values(r *rand.Rand) []content.Part {
	var parts []content.Part
	for i := range 8 {
		if r.IntN(3) > 0 {
			parts = append(parts, content.Part{Name: fmt.Sprintf("tanks: wash-%d: temperature", i), Text: fmt.Sprintf("%d °C", r.IntN(80))})
		}
	}
	return append(parts, content.Part{Name: "zinc", Text: "a"})
}

func words(r *rand.Rand, n int) string {
	all := strings.Fields("brass wax rinse the at 60 °C ultrasonic bath caustic dry oil parts spots hard water heat minutes basket drain lift")
	var list []string
	for range n {
		list = append(list, all[r.IntN(len(all))])
	}
	return strings.Join(list, " ")
}

// edited is the manual after random edits: texts changed, sections added, removed, moved and renamed, files added, removed, renamed and exchanged.
func edited(r *rand.Rand, c *content.Content) *content.Content {
	docs := slices.Clone(c.Docs())
	for range 1 + r.IntN(6) {
		i := r.IntN(len(docs))
		d := docs[i]
		parts := slices.Clone(d.Parts())
		switch r.IntN(10) {
		case 0:
			if j := slices.IndexFunc(docs, func(o content.Doc) bool { return o.Path != d.Path && d.Ordered && o.Ordered }); j >= 0 { // two exchange their names
				docs[i], docs[j] = content.DocOf(docs[j].Path, true, parts), content.DocOf(d.Path, true, docs[j].Parts())
			}
			continue
		case 1:
			if d.Ordered {
				docs[i] = content.DocOf(fmt.Sprintf("soils/n%d.md", r.IntN(1e6)), true, parts)
			}
			continue
		case 2:
			docs = append(docs, content.DocOf(fmt.Sprintf("parts/p%d.md", r.IntN(1e6)), true, article(r)))
			continue
		case 3:
			if len(docs) > 1 {
				docs = slices.Delete(docs, i, i+1)
			}
			continue
		case 4:
			if !d.Ordered {
				docs[i] = content.DocOf(d.Path, false, values(r))
				continue
			}
		}
		text := slices.IndexFunc(parts, func(p content.Part) bool { return p.Name == "" }) + 1
		if !d.Ordered || text >= len(parts) {
			j := r.IntN(len(parts))
			parts[j].Text += " " + words(r, 2)
			docs[i] = content.DocOf(d.Path, d.Ordered, parts)
			continue
		}
		j := text + r.IntN(len(parts)-text)
		switch r.IntN(5) {
		case 0:
			parts = slices.Delete(parts, j, j+1)
		case 1:
			p := parts[j]
			parts = slices.Delete(parts, j, j+1)
			parts = slices.Insert(parts, text+r.IntN(len(parts)-text+1), p)
		case 2:
			name := fmt.Sprintf("New %d", r.IntN(1e6))
			parts[j] = content.Part{Name: name, Text: retitled(parts[j].Text, parts[j].Name, name)}
		case 3:
			name := fmt.Sprintf("More %d", r.IntN(1e6))
			parts = slices.Insert(parts, j, content.Part{Name: name, Text: "### " + name + "\n" + words(r, 9)})
		default:
			parts[j].Text += "\n" + words(r, 3)
		}
		docs[i] = content.DocOf(d.Path, true, parts)
	}
	seen := map[string]bool{}
	docs = slices.DeleteFunc(docs, func(d content.Doc) bool { was := seen[d.Path]; seen[d.Path] = true; return was })
	return content.New(docs)
}

// What Between finds makes, applied to the older content, the newer one; what does not differ has no changes, and what differs has some.
func TestChangesMakeTheNewerOfTheOlder(t *testing.T) {
	t.Parallel()
	kinds := map[Kind]int{}
	for seed := range uint64(6000) {
		r := rand.New(rand.NewPCG(seed, 7))
		a := manualOf(r)
		b := edited(r, a)
		if seed%5 == 0 {
			b = manualOf(r) // nothing to do with the other
		}
		history := map[string]string{}
		if len(a.Docs()) > 0 && len(b.Docs()) > 0 {
			history[a.Docs()[r.IntN(len(a.Docs()))].Path] = b.Docs()[r.IntN(len(b.Docs()))].Path
		}
		list := Between(a, b, history)
		if (len(list) == 0) != (a.Digest() == b.Digest()) {
			t.Fatalf("seed %d: %d changes, the digests are the same: %v", seed, len(list), a.Digest() == b.Digest())
		}
		got, err := Apply(a, list)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if got.Digest() != b.Digest() {
			t.Fatalf("seed %d: applied, the changes give something else\n%v\nwanted\n%v\nby\n%v", seed, show(got), show(b), list)
		}
		for _, c := range list {
			kinds[c.Kind]++
		}
	}
	for _, k := range []Kind{Changed, Added, Removed, Moved, Renamed} {
		if kinds[k] < 100 {
			t.Errorf("only %d parts were %s in all cases", kinds[k], k)
		}
	}
}

func show(c *content.Content) string {
	var b strings.Builder
	for _, d := range c.Docs() {
		fmt.Fprintf(&b, "%s %v\n", d.Path, d.Parts())
	}
	return b.String()
}

// A list applied to a content that it is not of is refused, not half applied.
func TestChangesOfAnotherContentAreRefused(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 1))
	a := manualOf(r)
	list := []Change{{Article: "soils/none.md", Heading: "X", Kind: Removed}}
	if _, err := Apply(a, list); err == nil {
		t.Error("a part that is not there was removed")
	}
	list = []Change{{Article: "shop.yaml", Heading: "zinc", Kind: Changed, Before: "b", After: "c"}}
	if _, err := Apply(a, list); err == nil {
		t.Error("a text that is otherwise was changed")
	}
}

// Words keeps both texts, and marks nothing that both have in the same words and order.
func TestWordsKeepTheTexts(t *testing.T) {
	t.Parallel()
	joined := func(runs []Run, marked bool) (all, kept string) {
		for _, r := range runs {
			all += r.Text
			if !r.Marked {
				kept += r.Text
			}
		}
		return all, kept
	}
	for seed := range uint64(3000) {
		r := rand.New(rand.NewPCG(seed, 3))
		a := words(r, r.IntN(60))
		list := strings.Split(a, " ")
		for range r.IntN(8) {
			i := r.IntN(len(list))
			switch r.IntN(3) {
			case 0:
				list[i] = words(r, 2)
			case 1:
				list = slices.Delete(list, i, i+1)
			default:
				list = slices.Insert(list, i, words(r, 1))
			}
			if len(list) == 0 {
				list = []string{"x"}
			}
		}
		b := strings.Join(list, " ")
		was, is := Words(a, b)
		allA, keptA := joined(was, true)
		allB, keptB := joined(is, true)
		if allA != a || allB != b {
			t.Fatalf("seed %d: %q, %q became %q, %q", seed, a, b, allA, allB)
		}
		if strings.ReplaceAll(keptA, " ", "") != strings.ReplaceAll(keptB, " ", "") {
			t.Fatalf("seed %d: not marked is %q on one side and %q on the other", seed, keptA, keptB)
		}
		if a == b && (len(was) > 1 || len(was) == 1 && was[0].Marked) {
			t.Fatalf("seed %d: something is marked in equal texts", seed)
		}
	}
	was, is := Words("rinse at 60 °C for 2 min", "rinse at 55 °C for 2 min")
	if fmt.Sprint(was, is) != "[{rinse at  false} {60 true} { °C for 2 min false}] [{rinse at  false} {55 true} { °C for 2 min false}]" {
		t.Errorf("%v %v", was, is)
	}
}
